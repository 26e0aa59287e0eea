"""Slots: which of the numbers that were heard belongs to which input of a calculation.

Owns the claim of numbers by slots and the unit of a bare number. Asking for what is missing is
reckoning.py's; reading numbers out of words is quantity/read.py's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from assistant.conversation.cues import BESIDE, LEADING, cue_strength, own_cues
from assistant.quantity.kinds import of
from assistant.quantity.read import Found
from assistant.quantity.write import System

US_UNITS = frozenset("degF dF in ft yd mil ft2 ft3 yd2 floz psi lb oz gal qt".split())
METRIC_UNITS = frozenset("degC dC mm cm m um m2 m3 mL L bar kPa kg g g/m2 mg/m3 m3/h".split())
# A film's thickness says nothing about the unit of the panel it lies on.
_THICKNESS_UNITS = frozenset(("um", "mil"))
# Weights of a claim. Only their order matters: a cue beside the number beats everything, the
# slot that was just asked for comes next, then the kind of unit, then the order of speaking.
_SAME_KIND = 3.0
_BARE = 1.5
_ASKED_FOR = 4.0
_REQUIRED = 0.5
_IN_ORDER = 0.4
_PAIRED = 2.0
_ALREADY_FILLED = -1.0
# A value that a slot would refuse goes elsewhere if anything else can take it; if nothing can, it
# stays, so that it is questioned by name.
_OUT_OF_BOUNDS = -6.0
_LAST_RESORT = 0.2
# Kinds of which a sum may take one before and one after.
_BEFORE_AND_AFTER = ("temperature", "ratio")


@dataclass(frozen=True)
class Claim:
    """A number and the slot that takes it."""

    slot: str
    found: Found


def system_of(units: Sequence[str | None]) -> System | None:
    """The system that a line was spoken in; None when its units do not tell."""
    us = sum(unit in US_UNITS for unit in units)
    metric = sum(unit in METRIC_UNITS for unit in units)
    if us == metric:
        return None
    return System.US if us > metric else System.METRIC


def in_parts(spec: Any) -> bool:
    """Whether a slot is told as so many parts to so many: a ratio with no bound at one."""
    return (
        spec.kind == "ratio" and spec.units is not None and spec.units.us == "ratio"
        and getattr(spec, "at_most", None) is None
    )


def says_what(
    slots: Mapping[str, Any], text: str, claim: Claim, numbers: Sequence[Found]
) -> bool:
    """Whether a number says by its unit, its partner or a word beside it what it is."""
    found, spec = claim.found, slots[claim.slot]
    return not found.bare or found.sides > 1 or cue_strength(
        text.lower(), found, [*spec.cues, spec.name], numbers
    ) >= BESIDE


def fits(found: Found, spec: Any) -> float | None:
    """The weight of the kind alone; None when this number can never fill that slot."""
    if found.kind is not None:
        if found.kind == spec.kind:
            # "1:4" is told in parts, "25 percent" is not.
            if in_parts(spec) and found.unit != "ratio":
                return None
            if found.unit == "ratio" and spec.units is not None and spec.units.us == "percent":
                return _LAST_RESORT
            return _SAME_KIND
        # "3 degrees" may be either until the slot says which.
        near = {"temperature": "temperature_difference", "temperature_difference": "temperature"}
        return _BARE if near.get(found.kind) == spec.kind else None
    if getattr(found, "degrees", False):
        return _BARE if spec.kind in ("temperature", "temperature_difference") else None
    if in_parts(spec):
        return None
    return _BARE if spec.kind in NUMBER_KINDS else None


NUMBER_KINDS = frozenset(
    "length area volume mass duration temperature temperature_difference ratio pressure "
    "areal_mass concentration mass_concentration rate flow count money".split()
)


def beyond_bounds(found: Found, spec: Any) -> bool:
    """Whether a number is beyond what the slot can be, as far as its unit is known."""
    unit = found.unit or ("count" if spec.kind == "count" else None)
    if unit is None or (found.unit is not None and found.kind != spec.kind):
        return False
    try:
        value = of(found.low, unit)
    except ValueError:
        return True
    bounds = (
        ("above", lambda limit: value > limit), ("at_least", lambda limit: value >= limit),
        ("below", lambda limit: value < limit), ("at_most", lambda limit: value <= limit),
    )
    return any(
        (bound := getattr(spec, name, None)) is not None and not holds(bound.quantity())
        for name, holds in bounds
    )


def _two_of_a_range(slots: Mapping[str, Any], found: Found) -> list[Found]:
    """`from 60 to 120 F` as its two ends, for a sum that takes one before and one after; so does
    `from 91 % to 70 %`, stock and mix."""
    paired = any(
        spec.pair in slots and spec.kind == found.kind and spec.kind in _BEFORE_AND_AFTER
        for spec in slots.values()
    )
    if found.low == found.high or not paired:
        return [found]
    middle = (found.start + found.end) // 2
    # A range is held low to high; "between 25 and -10" goes down.
    said = re.search(r"-?\d+(?:\.\d+)?", found.text)
    down = said is not None and abs(float(said.group()) - found.high) < 1e-9
    first, last = (found.high, found.low) if down else (found.low, found.high)
    return [
        replace(found, low=first, high=first, end=middle),
        replace(found, low=last, high=last, start=middle),
    ]


def ranges_apart(slots: Mapping[str, Any], quantities: Sequence[Found]) -> list[Found]:
    """The numbers of a line, a range that stands for two slots as two."""
    return [each for found in quantities for each in _two_of_a_range(slots, found)]


def claims(
    slots: Mapping[str, Any],
    text: str,
    quantities: Sequence[Found],
    filled: Mapping[str, Any] | None = None,
    asked_for: str | None = None,
) -> list[Claim]:
    """The best assignment of the numbers of a line to the slots of a calculation.

    slots       id -> spec with kind, cues, pair, required
    filled      values from earlier lines; they yield to a number that names them
    asked_for   the slot that the last reply asked about
    Each number fills at most one slot and each slot takes at most one number; a number that fits
    nowhere is left out. Ties go to the order in which the slots are declared.
    """
    filled = filled or {}
    numbers = [found for found in ranges_apart(slots, quantities) if not found.problem][:12]
    names = [name for name, spec in slots.items() if spec.kind in NUMBER_KINDS][:14]
    lower = text.lower()
    sides = any(spec.pair for spec in slots.values())
    groups: dict[int, int] = {}
    for found in numbers:
        groups[found.group] = groups.get(found.group, 0) + 1

    @cache
    def called(number: int) -> bool:
        """Whether a word beside the number names a slot: then it is no number for another."""
        return any(
            fits(numbers[number], slots[name]) is not None and cue_strength(
                lower, numbers[number],
                [*(cue for cue in slots[name].cues if cue not in LEADING), slots[name].name],
                numbers,
            ) >= BESIDE
            for name in names
        )

    def worth(found: Found, name: str) -> float | None:
        spec = slots[name]
        score = fits(found, spec)
        if score is None:
            return None
        cue = cue_strength(lower, found, [*spec.cues, spec.name], numbers)
        score += cue
        if groups[found.group] > 1:
            if sides and not spec.pair:
                return None
            score += _PAIRED if spec.pair else -_PAIRED
        elif spec.pair and groups[found.group] == 1 and any(size > 1 for size in groups.values()):
            score -= _PAIRED
        if cue == 0 and not spec.required and name != asked_for and called(numbers.index(found)):
            return None
        if name == asked_for:
            score += _ASKED_FOR
        if name in filled and name != asked_for:
            score += _ALREADY_FILLED
        score += _REQUIRED if spec.required else 0.0
        # The sides of one "0 x 40" belong together, right or wrong, and "margin 120%" is a margin.
        named = cue >= BESIDE and cue_strength(
            lower, found, own_cues(spec), numbers
        ) >= BESIDE
        if not named and not (spec.pair and groups[found.group] > 1) and (
            beyond_bounds(found, spec)
        ):
            return max(score + _OUT_OF_BOUNDS, _LAST_RESORT)
        return score

    # Dynamic programme over the set of slots already taken: at most 12 numbers and 14 slots.
    best: dict[int, tuple[float, tuple[tuple[int, str], ...]]] = {0: (0.0, ())}
    for number, found in enumerate(numbers):
        following = dict(best)
        for taken, (score, chosen) in best.items():
            last = names.index(chosen[-1][1]) if chosen else -1
            for place, name in enumerate(names):
                if taken & (1 << place):
                    continue
                gain = worth(found, name)
                if gain is None:
                    continue
                gain += _IN_ORDER if place > last else 0.0
                key = taken | (1 << place)
                if key not in following or score + gain > following[key][0] + 1e-9:
                    following[key] = (score + gain, (*chosen, (number, name)))
        best = following
    _, chosen = max(best.values(), key=lambda item: item[0])
    return [Claim(name, numbers[number]) for number, name in chosen]


def unit_of_line(kind: str, quantities: Sequence[Found]) -> str | None:
    """The unit that the line itself gives to bare numbers of a kind."""
    for found in quantities:
        if found.unit and found.kind == kind and found.unit not in _THICKNESS_UNITS:
            return found.unit
    return None


def unit_for(
    spec: Any, found: Found, quantities: Sequence[Found], system: System | None
) -> str | None:
    """The unit of a number for a slot: its own, its line's, the conversation's; else None."""
    if found.unit is not None:
        if found.kind == spec.kind:
            return found.unit
        # A temperature that a difference was asked for, or the other way round.
        swap = {"degF": "dF", "degC": "dC", "dF": "degF", "dC": "degC"}
        return swap.get(found.unit, found.unit)
    line = unit_of_line(spec.kind, quantities)
    if line is not None:
        return line
    units = spec.units
    if units is None:
        return {"ratio": "percent", "count": "count", "money": "money"}.get(spec.kind)
    if units.us == units.metric:
        return units.us
    if system is not None:
        return units.us if system == System.US else units.metric
    return None


def options_chosen(
    slots: Mapping[str, Any], text: str, quantities: Sequence[Found] = ()
) -> dict[str, str]:
    """Choice slots whose options are named in the line; the longest wording wins.

    quantities  the numbers of the line: no wording begins inside one ("5 ft 6 in in cm")
    """
    lower = text.lower()
    inside = {
        place for found in quantities if found.unit
        for place in range(found.start + 1, found.end)
    }
    chosen: dict[str, str] = {}
    for name, spec in slots.items():
        if spec.kind != "choice":
            continue
        best = 0
        for option, wordings in (spec.options or {}).items():
            for wording in (option.replace("-", " "), *wordings):
                if len(wording) > best and any(
                    match.start() not in inside for match in re.finditer(
                        rf"(?<!\w){re.escape(wording.lower())}(?!\w)", lower
                    )
                ):
                    best, chosen[name] = len(wording), option
    return chosen
