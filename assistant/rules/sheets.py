"""Sheets: a film sheet that the shop types in, in films/sheet-<name>.toml.

Owns which rules the answers of a bulletin speak over, the name of the file, and the writing. What
is asked and how the answers are read is the conversation's; which layer speaks, resolved.py's.
"""

from __future__ import annotations

import os
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import blake2b
from pathlib import Path
from typing import Any

from assistant.rules.films import FigureChange, FilmHead
from assistant.rules.knowledge import Knowledge
from assistant.rules.layers import Fault, figure_fault
from assistant.rules.models import Amount
from assistant.rules.problem import Problem
from assistant.rules.shop import put, read_or_set_aside, sheet_place
from assistant.rules.validate import built
from assistant.store.written import Written

OPENING = (
    "# What the film maker's bulletin says, typed in by the shop. What it leaves out is not here:\n"
    "# there the house rules and the shipped rules speak."
)
_LONGEST_SLUG = 60
# Names that some systems keep for devices, whatever the ending.
_DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10)))
)


@dataclass(frozen=True, slots=True)
class Said:
    """A number of a bulletin, in the unit in which it was typed."""

    low: float
    high: float
    unit: str


@dataclass(frozen=True, slots=True)
class LifeSaid:
    """A line of a life table: zone, `upright` or `flat`, and how long."""

    zone: str
    surface: str
    life: Said


# What a bulletin tells -> the figures that it speaks over: (rule, figure) each.
SPEAKS_OVER: dict[str, tuple[tuple[str, str], ...]] = {
    "air": (("bay-temperature", "air"),),
    "panel": (("panel-temperature", "panel"),),
    "laying": (("heat-while-laying", "range"),),
    "overlaps": (("post-heat-overlap", "target"),),
    "stretched": (("post-heat-stretched", "target"),),
    "free": (
        ("stretch-free", "limit"), ("stretch-post-heat", "limit"), ("post-heat-needs", "stretch"),
    ),
    "never": (("stretch-never", "limit"),),
    "wash": (("first-wash", "wait"),),
    "cure": (("cure", "time"), ("hand-over-timing", "time")),
}
LIFE = ("film-life", "life")


@dataclass(frozen=True, slots=True)
class Bulletin:
    """What a bulletin says; what it does not is not in here.

    numbers  by the keys of SPEAKS_OVER
    """

    name: str
    family: str | None = None
    thickness: Said | None = None
    numbers: Mapping[str, Said] = field(default_factory=dict)
    life: tuple[LifeSaid, ...] = ()


def slug_of(name: str) -> str:
    """A name as part of a file name and as an id: small letters, digits and hyphens, never empty.

    Two names that come out alike are told apart by whoever writes the file.
    """
    flat = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii").lower()
    slug = "-".join("".join(c if c.isalnum() else " " for c in flat).split())
    mark = blake2b(name.encode("utf-8", "surrogatepass"), digest_size=4).hexdigest()
    if not slug:
        return f"film-{mark}"
    if len(slug) > _LONGEST_SLUG:
        return f"{slug[:_LONGEST_SLUG].rstrip('-')}-{mark}"
    return f"{slug}-film" if slug in _DEVICES else slug


def sheet_file(home: Path, film_id: str) -> Path:
    """The file of a film sheet in the shop's folder."""
    return sheet_place(home) / f"sheet-{film_id}.toml"


def film_id_for(knowledge: Knowledge, home: Path, name: str) -> tuple[str, bool]:
    """The id of a film of this name, and whether there is a sheet of that very name already."""
    base = film_id = slug_of(name)
    number = 2
    while True:
        sheet = knowledge.films.get(film_id)
        if sheet is not None and _same(sheet.film.name, name):
            return film_id, True
        # A family or a kind of film is no single film: asking for it must not end in this one.
        taken = sheet is not None or film_id in knowledge.families or (
            film_id in knowledge.lexicon.get("films", {})
        )
        if not taken:
            return film_id, os.path.lexists(sheet_file(home, film_id))
        film_id, number = f"{base}-{number}", number + 1


def _same(one: str, other: str) -> bool:
    return " ".join(one.split()).casefold() == " ".join(other.split()).casefold()


def changes_of(
    knowledge: Knowledge, key: str, said: Said
) -> dict[tuple[str, str], FigureChange] | str:
    """A number of a bulletin as changes to the figures that it speaks over; or why it cannot be."""
    found: dict[tuple[str, str], FigureChange] = {}
    for rule_id, figure in SPEAKS_OVER[key]:
        rule = knowledge.rules.get(rule_id)
        if rule is None or figure not in rule.figures:
            continue
        role = rule.figures[figure].role
        number = (
            {role: said.low} if role in ("at_least", "at_most", "over")
            else {"value": said.low} if said.low == said.high
            else {"low": said.low, "high": said.high}
        )
        change = built(FigureChange, {**number, "unit": said.unit}, "", "", wrong := [])
        if change is None:
            return _told(wrong)
        fault = figure_fault(rule, figure, change)
        if fault is not None:
            return _fault_told(fault)
        found[rule_id, figure] = change
    return found


def sheet_data(knowledge: Knowledge, bulletin: Bulletin) -> dict[str, Any] | str:
    """The tables of the file; or why the bulletin cannot be a sheet."""
    head: dict[str, Any] = {"name": bulletin.name}
    if bulletin.family is not None:
        head["family"] = bulletin.family
    if bulletin.thickness is not None:
        head["thickness"] = _amount(bulletin.thickness)
    if bulletin.life:
        head["life"] = [
            {"zone": line.zone, "surface": line.surface, **_number(line.life)}
            for line in bulletin.life
        ]
    if built(FilmHead, head, "", "film", wrong := []) is None:
        return _told(wrong)
    overrides: dict[str, dict[str, Any]] = {}
    for key, said in bulletin.numbers.items():
        changes = changes_of(knowledge, key, said)
        if isinstance(changes, str):
            return changes
        for (rule_id, figure), change in changes.items():
            overrides.setdefault(rule_id, {})[figure] = change.model_dump(
                mode="json", exclude_none=True
            )
    life = _life_of(bulletin.life)
    if life is not None and LIFE[0] in knowledge.rules:
        overrides[LIFE[0]] = {LIFE[1]: life}
    return {"film": head, **({"overrides": overrides} if overrides else {})}


def _life_of(lines: tuple[LifeSaid, ...]) -> dict[str, Any] | None:
    """The life on upright panels, from the shortest zone to the longest: what the rule tells."""
    years = sorted(
        Amount(value=line.life.low, unit=line.life.unit).quantity().to("year")
        for line in lines if line.surface == "upright"
    )
    if not years:
        return None
    number = {"value": years[0]} if years[0] == years[-1] else {"low": years[0], "high": years[-1]}
    return {**number, "unit": "year"}


def write_sheet(
    home: Path, film_id: str, data: Mapping[str, Any], today: str
) -> tuple[Written, Path | None]:
    """Put a film sheet in its file, and where a damaged one of that name went, if one did.

    Raises OSError, written.Moved.
    """
    file = read_or_set_aside(sheet_file(home, film_id), today, {"film": dict, "overrides": dict})
    return put(file, data, OPENING), file.aside


def _number(said: Said) -> dict[str, Any]:
    """A value or a range, as a table of the file."""
    if said.low == said.high:
        return _amount(said)
    return {"low": said.low, "high": said.high, "unit": said.unit}


def _amount(said: Said) -> dict[str, Any]:
    return {"value": said.low, "unit": said.unit}


def _told(problems: list[Problem]) -> str:
    return " ".join(
        f"{each.key} {each.wrong.rstrip('.')}. {each.remedy}".strip() for each in problems
    )


def _fault_told(fault: Fault) -> str:
    return f"It {fault.wrong.rstrip('.')}. {fault.remedy}"
