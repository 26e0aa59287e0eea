"""Sheet questions: what is asked of a film maker's bulletin, and how an answer is read.

Owns the questions, their order, and what is nonsense for each. The life table is life_table.py's,
asking one at a time add_film.py's, which rules the answers speak over rules/sheets.py's.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from assistant.conversation.slots import US_UNITS
from assistant.hearing.heard import PLAIN, Heard
from assistant.hearing.lexicon import WORD
from assistant.hearing.spelling import folded
from assistant.quantity.kinds import of
from assistant.quantity.read import Found, UnclearQuantity
from assistant.quantity.write import System, show, show_range
from assistant.rules.models import UNIT_CODES
from assistant.rules.sheets import Said

LONGEST_NAME = 300


@dataclass(frozen=True, slots=True)
class Nonsense:
    """Why an answer is not taken, in words."""

    words: str


@dataclass(frozen=True, slots=True)
class Bounds:
    """What a number can be at all (from memory; wider than any bulletin), and its two units.

    bare  whether a number without a unit will do
    """

    low: float
    high: float
    unit: str
    us: str
    metric: str
    bare: bool = True


@dataclass(frozen=True, slots=True)
class Question:
    """One question. `names` are the words by which it is called back for a change.

    shape  range: a low and a high end | value: one number or a range | limit: one number
    """

    key: str
    name: str
    prompt: str
    example: str
    names: tuple[str, ...]
    shape: str = ""
    bounds: Bounds | None = None


_AIR = Bounds(0, 50, "degC", "degF", "degC")
_HEAT = Bounds(60, 130, "degC", "degF", "degC")
_STRETCH = Bounds(0.5, 150, "percent", "percent", "percent")
_WAIT = Bounds(1, 24 * 90, "h", "h", "h", bare=False)

QUESTIONS = (
    Question("name", "name", "What is the film called?", "Ninefathom Pearl", ("name",)),
    Question("family", "family", "Which family is it?", "satin", ("family", "finish", "kind")),
    Question("thickness", "thickness", "How thick is it?", "3 mil", ("thickness", "thick"),
             "limit", Bounds(10, 1000, "um", "mil", "um")),
    Question("air", "air temperature to lay it in",
             "In what air temperature may it be laid, lowest and highest?", "60 to 80 F",
             ("air", "air window", "window"), "range", _AIR),
    Question("panel", "panel temperature to lay it on",
             "On what panel temperature may it be laid, lowest and highest?", "60 to 80 F",
             ("panel", "panel window", "surface"), "range", _AIR),
    Question("overlaps", "post-heat of overlaps", "To what are overlaps post-heated?", "225 F",
             ("overlaps", "overlap", "overlap post-heat"), "value", _HEAT),
    Question("stretched", "post-heat of stretched film and recesses",
             "To what are stretched film, recesses and edges post-heated?", "185 to 195 F",
             ("stretched", "recess", "recesses", "post-heat"), "value", _HEAT),
    Question("free", "stretch that needs no post-heat, at most",
             "Up to how much stretch does it need no post-heat?", "10 percent",
             ("free stretch", "stretch without heat", "stretch"), "limit", _STRETCH),
    Question("never", "stretch never to be used, over",
             "Over how much may it never be stretched?", "30 percent",
             ("never", "most stretch", "stretch limit", "greatest stretch"), "limit", _STRETCH),
    Question("wash", "wait before the first wash, at least",
             "How long until the first wash?", "7 days", ("wash", "first wash"), "limit", _WAIT),
    Question("cure", "cure time, at least", "How long does it cure before hand-over?", "24 hours",
             ("cure",), "limit", _WAIT),
    Question("life", "life table",
             "How many years does it last, by climate zone, upright and flat? One zone a line, "
             "`done` after the last.", "temperate: upright 7 years, flat 4 years",
             ("life", "life table", "years"), "life", Bounds(0.25, 30, "year", "year", "year")),
)
BY_KEY = {question.key: question for question in QUESTIONS}

_LOWEST = re.compile(r"\b(?:at least|min(?:imum)?|lowest|from|above|over|no less than|not under)\b")
_HIGHEST = re.compile(r"\b(?:at most|max(?:imum)?|highest|up to|below|under|no more than)\b")


def name_of(text: str, lexicon: Any) -> str | Nonsense:
    """A film's name, as typed but for runs of spaces."""
    name = " ".join(text.split())
    words = [folded(found) for found in WORD.findall(name)]
    if len(name) > LONGEST_NAME:
        return Nonsense(f"That name has {len(name)} characters: {LONGEST_NAME} at most.")
    if not any(word[0].isalpha() for word in words):
        return Nonsense("A name needs a word with letters: it is how you ask for the film.")
    sorts = [lexicon.sort(lexicon.base(word)) for word in words]
    if len(words) == 1 and sorts[0] is not None or all(sort == PLAIN for sort in sorts):
        return Nonsense(f"\"{name}\" is an everyday word here: a question about it would end in "
                        "this film. Put the name of its series before it.")
    return name


def number_of(
    question: Question, heard: Heard, system: System, other_end: Said | None = None
) -> tuple[Said, str] | Nonsense:
    """The number that answers a question, in the unit typed, and what was assumed ("" if nothing).

    other_end  the range of the layers below, whose other end stays when only one was said
    """
    for found in heard.quantities:
        if found.problem:
            return Nonsense(f"I cannot read {found.text.strip()!r}: {found.problem}.")
    if not heard.quantities:
        return Nonsense(f"I heard no number for {question.name}.")
    bounds = question.bounds
    assert bounds is not None
    first = heard.quantities[0]
    if first.bare and not bounds.bare:
        return Nonsense(f"{first.text.strip()} what? Say hours, days or weeks.")
    unit = unit_of(first, bounds, system)
    if unit is None:
        return Nonsense(f"{first.text.strip()} is no {_kind_words(bounds)}.")
    ends: list[float] = []
    try:
        for found in heard.quantities[:2] if question.shape != "limit" else heard.quantities[:1]:
            own = unit if found.bare else unit_of(found, bounds, system)
            ends += [each.to(unit) for each in found.quantities(own)]
    except (UnclearQuantity, ValueError) as unclear:
        return Nonsense(str(unclear))
    if len(heard.quantities) > (1 if question.shape == "limit" else 2):
        return Nonsense(f"That is more than one {question.name}: say one.")
    said = Said(_tidy(ends[0]), _tidy(ends[-1]), unit)
    for end in (said.low, said.high):
        wrong = beyond(question, end, unit, bounds, system)
        if wrong:
            return Nonsense(wrong)
    assumed = ""
    if first.bare:
        assumed = f"{first.text.strip()} taken as {told(said, system)}"
    if question.shape == "limit" and said.low != said.high:
        return Nonsense(f"{question.name} is one number: say which of the two.")
    if said.low > said.high:
        return Nonsense(f"{told(Said(said.low, said.low, unit), system)} is over "
                        f"{told(Said(said.high, said.high, unit), system)}: lowest first.")
    if question.shape == "range" and said.low == said.high:
        return _with_other_end(said, heard, other_end, system)
    return said, assumed


def _with_other_end(
    said: Said, heard: Heard, other_end: Said | None, system: System
) -> tuple[Said, str] | Nonsense:
    """A bulletin that gives one end only: the other stays what it is below."""
    lowest, highest = _LOWEST.search(heard.tidy), _HIGHEST.search(heard.tidy)
    if other_end is None or bool(lowest) == bool(highest):
        return Nonsense(f"{told(said, system)} is one end: say the lowest and the highest, or "
                        "`at least ...` or `at most ...`.")
    number = of(said.low, said.unit)
    low, high = (of(end, other_end.unit) for end in (other_end.low, other_end.high))
    if lowest and number < high:
        whole = Said(said.low, _tidy(high.to(said.unit)), said.unit)
        return whole, f"the upper end stays {show(high, system, unit=other_end.unit)}"
    if highest and low < number:
        whole = Said(_tidy(low.to(said.unit)), said.low, said.unit)
        return whole, f"the lower end stays {show(low, system, unit=other_end.unit)}"
    return Nonsense(f"{told(said, system)} leaves nothing of the window that holds otherwise: say "
                    "both ends.")


def unit_of(found: Found, bounds: Bounds, system: System) -> str | None:
    """The unit to keep: as typed; of a bare number the one in which it can be."""
    if not found.bare:
        unit = found.unit
        if unit is not None and unit not in UNIT_CODES:
            unit = bounds.us if unit in US_UNITS else bounds.metric
        try:
            found.quantity(bounds.unit)
        except (UnclearQuantity, ValueError):
            return None
        return unit if unit and of(1, unit).kind == of(1, bounds.unit).kind else bounds.metric
    able = [
        unit for unit in dict.fromkeys((bounds.us, bounds.metric))
        if _within(of(found.low, unit).to(bounds.unit), bounds)
    ]
    wanted = bounds.us if system == System.US else bounds.metric
    if wanted in able or not able:
        return wanted
    return able[0]


def _within(number: float, bounds: Bounds) -> bool:
    slack = 1e-9 * max(1.0, abs(number))
    return bounds.low - slack <= number <= bounds.high + slack


def beyond(
    question: Question, number: float, unit: str, bounds: Bounds, system: System
) -> str | None:
    """Why a number cannot be the answer to a question, in words; None when it can."""
    if _within(of(number, unit).to(bounds.unit), bounds):
        return None
    unit_told = bounds.us if system == System.US else bounds.metric
    limits = show_range(
        of(bounds.low, bounds.unit), of(bounds.high, bounds.unit), system, unit=unit_told
    )
    return (f"{told(Said(number, number, unit), system)} cannot be the {question.name}: "
            f"that lies within {limits}.")


def _kind_words(bounds: Bounds) -> str:
    return {"degC": "temperature", "um": "thickness", "percent": "percentage", "h": "time",
            "year": "time"}[bounds.unit]


def _tidy(number: float) -> float:
    """A number that has been to SI and back, without the dust of it."""
    return float(f"{number:.10g}")


def told(said: Said, system: System) -> str:
    """A number of the bulletin in words, the unit as typed leading its own system."""
    low, high = of(said.low, said.unit), of(said.high, said.unit)
    if said.low == said.high:
        return show(low, system, unit=said.unit)
    return show_range(low, high, system, unit=said.unit)


def family_of(heard: Heard, families: Any, family_named: Callable[..., str | None]) -> str | None:
    """The family that a line names."""
    named = family_named(heard.films)
    if named is not None:
        return named
    words = " ".join(WORD.findall(heard.tidy))
    return next((name for name in families if words == name.replace("-", " ")), None)


