"""Slots: which of the numbers that were heard belongs to which input of a calculation.

Owns the claim of numbers by slots and the unit of a bare number. Asking for what is missing is
reckoning.py's; reading numbers out of words is quantity/read.py's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cache
from typing import TYPE_CHECKING, Any

from assistant.quantity.kinds import Quantity, of
from assistant.quantity.read import Found, UnclearQuantity
from assistant.quantity.write import System

if TYPE_CHECKING:
    from assistant.quantity.moment import FoundMoment

US_UNITS = frozenset("degF dF in ft yd mil ft2 ft3 yd2 floz psi lb oz gal qt".split())
METRIC_UNITS = frozenset("degC dC mm cm m um m2 m3 mL L bar kPa kg g g/m2 mg/m3 m3/h".split())
# A film's thickness says nothing about the unit of the panel it lies on.
_THICKNESS_UNITS = frozenset(("um", "mil"))

# Weights of a claim. Only their order matters: a cue beside the number beats everything, the
# slot that was just asked for comes next, then the kind of unit, then the order of speaking.
_SAME_KIND = 3.0
_BARE = 1.5
_CUE_BESIDE = 5.0
_CUE_STEP = 1.2
_ASKED_FOR = 4.0
_REQUIRED = 0.5
_IN_ORDER = 0.4
_PAIRED = 2.0
_ALREADY_FILLED = -1.0
_CUE_REACH = 4
# Such a word belongs to the number after it: "70 percent from 99".
_LEADING = frozenset(
    ("from", "to", "at", "of", "for", "out of", "by", "with", "to get", "add to", "off a", "in a",
     "kept at", "sits at", "down to", "drops to", "falls to", "give me", "dilute")
)
# A value that a slot would refuse goes elsewhere if anything else can take it; if nothing can, it
# stays, so that it is questioned by name.
_OUT_OF_BOUNDS = -6.0
_LAST_RESORT = 0.2
# Such a word does where a number follows: "5 cm over 18 cm", but "13 cm over".
_LEADING_IF = frozenset(("over", "across", "run", "run of", "over a run of"))
# Words that take back the number before them.
_BEFORE_AND_AFTER = ("temperature", "ratio")
_TAKES_BACK = re.compile(r"\b(?:no|not|sorry|i mean|rather|instead|wait|actually|then|to|from)\b")
# Words that tell that the moment beside them is over.
_OVER = frozenset(
    "finished done was were went had ended since ago completed laid wrapped post-heated last "
    "installed post-heating yesterday".split()
)


@dataclass(frozen=True)
class Claim:
    """A number and the slot that takes it."""

    slot: str
    found: Found


@dataclass(frozen=True)
class Trouble:
    """A value that cannot be: the slot, and what is wrong in words."""

    slot: str
    text: str


def system_of(units: Sequence[str | None]) -> System | None:
    """The system that a line was spoken in; None when its units do not tell."""
    us = sum(unit in US_UNITS for unit in units)
    metric = sum(unit in METRIC_UNITS for unit in units)
    if us == metric:
        return None
    return System.US if us > metric else System.METRIC


def _words_between(text: str, one: tuple[int, int], other: tuple[int, int]) -> int | None:
    """Words between two spans; None when they overlap. A comma counts as a word and a half."""
    if one[0] < other[1] and other[0] < one[1]:
        return None
    first, second = sorted((one, other))
    gap = text[first[1]:second[0]]
    return len(re.findall(r"[\w%°]+", gap)) + gap.count(",") + 2 * gap.count(".")


def _cue_strength(
    text: str, found: Found | FoundMoment, cues: Sequence[str], others: Sequence[Found]
) -> float:
    """How strongly the nearest cue beside the number claims it."""
    best = 0.0
    for cue in cues:
        for match in re.finditer(rf"(?<!\w){re.escape(cue.lower())}s?(?!\w)", text):
            distance = _words_between(text, match.span(), (found.start, found.end))
            if match.end() > found.start and (
                cue in _LEADING or cue in _LEADING_IF and re.match(
                    r"\s*(?:an?|the)?\s*[\d¼½¾]", text[match.end():]
                )
            ):
                continue
            if distance is None:
                # The cue stands inside the number's own words ("60% rh").
                return _CUE_BESIDE + 1
            between = sum(
                other is not found
                and min(match.start(), found.start) <= other.start
                and other.end <= max(match.end(), found.end)
                for other in others
            )
            distance += 2 * between
            if distance <= _CUE_REACH:
                best = max(best, _CUE_BESIDE - _CUE_STEP * distance)
    return best


def in_parts(spec: Any) -> bool:
    """Whether a slot is told as so many parts to so many: a ratio with no bound at one."""
    return (
        spec.kind == "ratio" and spec.units is not None and spec.units.us == "ratio"
        and getattr(spec, "at_most", None) is None
    )


def _own_cues(spec: Any) -> list[str]:
    """The cues of a slot that are words of its name: "core" means the core and nothing else."""
    words = set(re.findall(r"[\w-]+", spec.name.lower()))
    return [spec.name, *(cue for cue in spec.cues if set(cue.lower().split()) <= words)]


def said_twice(
    slots: Mapping[str, Any], text: str, quantities: Sequence[Found]
) -> tuple[list[Found], Trouble | None]:
    """The numbers of a line without those that another replaces, and the first contradiction: two
    different numbers for one thing, as in "core 3 in and core 4 in".

    Only where the slot's own name stands beside both; "core 3 in, no, core 4 in" has one.
    """
    left = list(quantities)
    lower = text.lower()
    for name, spec in slots.items():
        if spec.kind not in NUMBER_KINDS:
            continue
        named: list[Found] = []
        for cue in _own_cues(spec):
            for match in re.finditer(rf"(?<!\w){re.escape(cue.lower())}s?(?!\w)", lower):
                after = [
                    found for found in quantities
                    if found.sides == 1 and found.start >= match.end() and _fits(found, spec)
                    and re.fullmatch(r"\s*(?:is|of|was|at|=|:)?\s*", lower[match.end():found.start])
                ]
                named += [found for found in after[:1] if found not in named]
        values = {(found.low, found.high, found.unit) for found in named}
        if len(values) < 2:
            continue
        named.sort(key=lambda found: found.start)
        if _TAKES_BACK.search(lower[named[0].end:named[-1].start]):
            left = [found for found in left if found not in named[:-1]]
            continue
        return [found for found in left if found not in named], _both(name, spec, named)
    return left, None


def _both(name: str, spec: Any, named: Sequence[Found]) -> Trouble:
    told = " or ".join(" ".join(found.text.split()) for found in named)
    return Trouble(name, f"{spec.name[0].upper()}{spec.name[1:]}: {told}? It cannot be both.")


def says_what(
    slots: Mapping[str, Any], text: str, claim: Claim, numbers: Sequence[Found]
) -> bool:
    """Whether a number says by its unit, its partner or a word beside it what it is."""
    found, spec = claim.found, slots[claim.slot]
    return not found.bare or found.sides > 1 or _cue_strength(
        text.lower(), found, [*spec.cues, spec.name], numbers
    ) >= _CUE_BESIDE


def out_of_bounds(slots: Mapping[str, Any], claims_: Sequence[Claim]) -> bool:
    """Whether any number lies beyond what its slot can be: then it was meant for another sum."""
    return any(_out_of_bounds(claim.found, slots[claim.slot]) for claim in claims_)


def clash(
    slots: Mapping[str, Any], text: str, quantities: Sequence[Found],
    taken: Sequence[tuple[str, Found]],
) -> Trouble | None:
    """A number that no slot took although a word beside it names one that another number took:
    the hood that is "60 by 50 in, 55 in long"."""
    lower = text.lower()
    holders = dict(taken)
    for found in quantities:
        if any(found is each for each in holders.values()):
            continue
        lone = next((
            (name, other) for name, other in holders.items()
            if found.sides == 2 and slots[name].pair and other.group != found.group
        ), None)
        if lone is not None:
            pair = [each for each in quantities if each.group == found.group]
            told = " x ".join(" ".join(each.text.split()) for each in pair)
            alone = " ".join(lone[1].text.split())
            return Trouble(lone[0], f"The sides: {told}, or {alone}? They contradict each other.")
        for name, other in holders.items():
            spec = slots[name]
            if _fits(found, spec) is None or (found.low, found.unit) == (other.low, other.unit):
                continue
            if _cue_strength(lower, found, [*spec.cues, spec.name], quantities) >= _CUE_BESIDE:
                return _both(name, spec, (other, found))
    return None


def _fits(found: Found, spec: Any) -> float | None:
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


def _out_of_bounds(found: Found, spec: Any) -> bool:
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
            _fits(numbers[number], slots[name]) is not None and _cue_strength(
                lower, numbers[number],
                [*(cue for cue in slots[name].cues if cue not in _LEADING), slots[name].name],
                numbers,
            ) >= _CUE_BESIDE
            for name in names
        )

    def worth(found: Found, name: str) -> float | None:
        spec = slots[name]
        score = _fits(found, spec)
        if score is None:
            return None
        cue = _cue_strength(lower, found, [*spec.cues, spec.name], numbers)
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
        named = cue >= _CUE_BESIDE and _cue_strength(
            lower, found, _own_cues(spec), numbers
        ) >= _CUE_BESIDE
        if not named and not (spec.pair and groups[found.group] > 1) and (
            _out_of_bounds(found, spec)
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


def moments_claimed(
    slots: Mapping[str, Any],
    text: str,
    now: datetime,
    system: System | None = None,
    asked_for: str | None = None,
    found: Sequence[FoundMoment] | None = None,
) -> tuple[dict[str, datetime], tuple[FoundMoment, ...]]:
    """The points in time of a line, by the slots that take them, and all that were found.

    found  those that are still free, where they were read before

    A slot with a cue of the past ("finished") is what has happened, the others are to come, each
    after the one before. A word beside the moment claims it, as for numbers; the spans of all
    moments are returned, so that `3 years ago` is not taken for a length of time as well.
    """
    names = [name for name, spec in slots.items() if spec.kind == "moment"]
    if not names:
        return {}, ()
    # Only a sum that takes points in time pays for reading them.
    from assistant.quantity.moment import FUTURE, PAST, TODAY, read_moments

    if found is None:
        found = read_moments(text, now, system or System.US)
    lower = text.lower()
    ranked = sorted(
        (
            -_cue_strength(lower, moment, [*slots[name].cues, slots[name].name], ())
            - (_ASKED_FOR if name == asked_for else 0.0),
            place, order,
        )
        for place, name in enumerate(names) for order, moment in enumerate(found)
    )
    taken: dict[int, FoundMoment] = {}
    for _, place, order in ranked:
        if place not in taken and found[order] not in taken.values():
            taken[place] = found[order]
    values: dict[str, datetime] = {}
    after = now
    for place in sorted(taken):
        if _OVER.intersection(slots[names[place]].cues):
            past = bool(_OVER.intersection(re.findall(r"[\w-]+", lower)))
            values[names[place]] = taken[place].at(now, PAST if past else TODAY)
        else:
            values[names[place]] = taken[place].at(after, FUTURE)
            after = max(after, values[names[place]])
    return values, tuple(found)


def moments_in(
    slots: Mapping[str, Any], text: str, now: datetime, system: System | None = None
) -> tuple[FoundMoment, ...]:
    """The points in time of a line, for a sum that takes any."""
    if not any(spec.kind in ("moment", "log") for spec in slots.values()):
        return ()
    from assistant.quantity.moment import read_moments

    return read_moments(text, now, system or System.US)


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


def as_quantity(spec: Any, found: Found, unit: str) -> Quantity | Trouble:
    """The value of a number in a unit, or what is wrong with it."""
    try:
        value = found.quantity(unit)
    except UnclearQuantity as unclear:
        return Trouble(spec.name, str(unclear))
    except (ValueError, OverflowError) as error:
        return Trouble(spec.name, f"{found.text.strip()!r} cannot be: {error}")
    return value


def beyond(name: str, spec: Any, value: Quantity, shown: str, show_limit: Any) -> Trouble | None:
    """What is wrong with a value that lies beyond the slot's bounds; None if nothing is."""
    bounds = (
        ("above", spec.above, lambda limit: value > limit, "it must be over"),
        ("at_least", spec.at_least, lambda limit: value >= limit, "it must be at least"),
        ("below", spec.below, lambda limit: value < limit, "it must be under"),
        ("at_most", spec.at_most, lambda limit: value <= limit, "it can be at most"),
    )
    for _, bound, holds, words in bounds:
        if bound is None:
            continue
        limit = bound.quantity()
        if not holds(limit):
            why = spec.impossible or f"{words} {show_limit(limit)}."
            return Trouble(name, f"{spec.name} {shown}? {why[0].upper()}{why[1:]}")
    return None
