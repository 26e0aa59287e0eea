"""Bodies: the usual panels of a body class, and their typical sizes, as a reply.

Owns which lines ask for that and how it is told. The sizes are for planning and are always told
as such: no sum takes one unasked, the piece is cut by what was measured.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from assistant.conversation.wording import see_also_titles
from assistant.quantity.kinds import Length
from assistant.quantity.rounding import half_up
from assistant.quantity.write import System
from assistant.reply import ANSWER, Figure, Reply
from assistant.rules.naming import plain_name, plain_words

PREFIX = "panels:"  # of the id that a choice between classes carries
_HOW = "measure-curve"  # the rule that tells how a panel is measured
_SMALL = frozenset(map(plain_name, (
    "what which panel do does have has had get got on of for a an the list usual typical normal "
    "usually typically normally common size sizes big large how are is there many in with count "
    "number body bodywork show me tell give us all long wide high tall dimension measurement rough "
    "roughly about please i to wrap be wrapped piece it its and or s so ok can you average "
    "standard class type name hard hardest difficult easy easiest seam".split()
)))
_OF_SIZE = frozenset("size big large long wide high tall dimension measurement".split())


@dataclass(frozen=True, slots=True)
class PanelsAsked:
    """What is asked: of which classes (more than one: it was not said which), and which panels.

    panels  names of panels; empty: all of them
    """

    vehicles: tuple[str, ...]
    panels: tuple[str, ...] = ()


def panels_asked(
    line: str, knowledge: Any, things: frozenset[str]
) -> PanelsAsked | None:
    """What a line asks of a body class; None when it asks anything else as well.

    things  the concepts it names: "bonnet" is the hood
    """
    names: Mapping[str, list[str]] = knowledge.names.get("vehicles", {})
    words = plain_name(line).split()
    found = _class_in(words, names)
    if found is None:
        return None
    ids, start, end = found
    rest = [*words[:start], *words[end:]]
    if "panel" in rest and all(word in _SMALL for word in rest):
        return PanelsAsked(tuple(ids))
    if len(ids) == 1 and _OF_SIZE & set(rest):
        named = _panels_in(rest, knowledge.vehicles[ids[0]], things)
        if named:
            return PanelsAsked(tuple(ids), named)
    return None


def _class_in(
    words: Sequence[str], names: Mapping[str, list[str]]
) -> tuple[list[str], int, int] | None:
    """The longest name of a class in the line, and where it stands."""
    best: tuple[list[str], int, int] | None = None
    for start in range(len(words)):
        for end in range(start + 1, min(len(words), start + 4) + 1):
            ids = names.get(" ".join(words[start:end]))
            if ids is not None and (best is None or end - start > best[2] - best[1]):
                best = ids, start, end
    return best


def _panels_in(rest: list[str], vehicle: Any, things: frozenset[str]) -> tuple[str, ...]:
    """The panels that the rest of a line names, when it says nothing else."""
    told = " ".join(rest)
    for panel in sorted(vehicle.panels, key=lambda panel: -len(panel.name)):
        name = plain_name(panel.name)
        if f" {name} " in f" {told} ":
            left = told.replace(name, " ").split()
            return (panel.name,) if all(word in _SMALL for word in left) else ()
    left = [word for word in rest if word not in _SMALL]
    if len(left) != 1:
        return ()
    return tuple(
        panel.name for panel in vehicle.panels
        if left[0] in plain_words(panel.name) or things & set(plain_words(panel.name))
    )


def tell_panels(knowledge: Any, asked: PanelsAsked, system: System) -> Reply:
    """The panels of the one class that is asked about, with typical sizes."""
    vehicle = knowledge.vehicles[asked.vehicles[0]]
    panels = [panel for panel in vehicle.panels if not asked.panels or panel.name in asked.panels]
    rules = tuple(name for name in (_HOW,) if name in knowledge.rules)
    reply = Reply(
        ANSWER,
        "",
        intent=PREFIX + vehicle.id,
        heading=f"{_capital(vehicle.name)}: usual panels",
        heard=f"{vehicle.name}: {', '.join(asked.panels) or 'panels'}",
        rules=rules,
        basis=vehicle.basis,
        basis_words="typical, from memory; measure yours",
        layer="shipped",
        see_also=(
            *see_also_titles(knowledge, rules),
            f"`film for a {panels[0].name}` and the two sides that you measured",
        ),
    )
    if len(panels) == 1:
        return _one_panel(reply, vehicle, panels[0], system)
    pieces = sum(_pieces(panel) for panel in panels)
    what = "panels to wrap" if not asked.panels else "of these panels"
    note = f" {vehicle.note}" if vehicle.note and not asked.panels else ""
    return reply.but(
        answer=f"{_capital(_one(vehicle.name))} usually has {pieces} {what}, left and right "
               f"counted. Typical sizes, from memory: measure yours.{note}",
        figures=(
            Figure(f"{what}, {vehicle.name}, left and right counted", pieces, pieces, "count",
                   str(pieces)),
        ),
        sketch=_table(panels, system),
    )


def _one_panel(reply: Reply, vehicle: Any, panel: Any, system: System) -> Reply:
    pair = ", left and right alike" if panel.mirrored else ""
    unit = _unit(system)
    return reply.but(
        answer=f"The {panel.name} of {_one(vehicle.name)} is typically "
               f"{_size(panel, system)} over the curve{pair}, without bleed. From memory: "
               "measure yours.",
        figures=tuple(
            Figure(f"{panel.name}, typical {key}", value, value, unit, f"{value} {unit}")
            for key in ("length", "height")
            for value in (_rough(getattr(panel, key).quantity(), unit),)
        ),
    )


def _one(name: str) -> str:
    # Letters are read out: an SUV.
    vowel = name[0] in ("AEFHILMNORSX" if name.isupper() else "aeiou")
    return f"{'an' if vowel else 'a'} {name}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _pieces(panel: Any) -> int:
    return 2 if panel.mirrored else 1


def _unit(system: System) -> str:
    return "cm" if system == System.METRIC else "in"


def _rough(length: Length, unit: str) -> int:
    # Typical sizes are no better than this; tenths would pretend that somebody measured.
    return int(half_up(length.to(unit), 1))


def _size(panel: Any, system: System) -> str:
    def sides(unit: str) -> str:
        length, height = (_rough(getattr(panel, key).quantity(), unit)
                          for key in ("length", "height"))
        return f"{length} x {height} {unit}"

    own = _unit(system)
    return f"{sides(own)} ({sides('in' if own == 'cm' else 'cm')})"


def _table(panels: Sequence[Any], system: System) -> tuple[str, ...]:
    rows = [("panel", "length x height over curve", "along", "hard", "seam")]
    for panel in panels:
        rows.append((
            f"{panel.name}, {_pieces(panel)}" if panel.mirrored else panel.name,
            _size(panel, system), panel.run, f"{panel.difficulty}/5", "may" if panel.seam else "no",
        ))
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return tuple(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    )
