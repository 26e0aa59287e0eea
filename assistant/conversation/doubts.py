"""Doubts: numbers that contradict each other or cannot be, and what is said of them.

Owns the finding and the words. Which number belongs to which slot is slots.py's; the bounds of a
slot are its entry's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from assistant.conversation.cues import BESIDE, cue_strength, own_cues
from assistant.conversation.slots import NUMBER_KINDS, Claim, beyond_bounds, fits
from assistant.quantity.kinds import Quantity
from assistant.quantity.read import Found, UnclearQuantity

# Words that take back the number before them.
_TAKES_BACK = re.compile(r"\b(?:no|not|sorry|i mean|rather|instead|wait|actually|then|to|from)\b")


@dataclass(frozen=True)
class Trouble:
    """A value that cannot be: the slot, and what is wrong in words."""

    slot: str
    text: str


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
        for cue in own_cues(spec):
            for match in re.finditer(rf"(?<!\w){re.escape(cue.lower())}s?(?!\w)", lower):
                after = [
                    found for found in quantities
                    if found.sides == 1 and found.start >= match.end() and fits(found, spec)
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
            if fits(found, spec) is None or (found.low, found.unit) == (other.low, other.unit):
                continue
            if cue_strength(lower, found, [*spec.cues, spec.name], quantities) >= BESIDE:
                return _both(name, spec, (other, found))
    return None


def out_of_bounds(slots: Mapping[str, Any], claims_: Sequence[Claim]) -> bool:
    """Whether any number lies beyond what its slot can be: then it was meant for another sum."""
    return any(beyond_bounds(claim.found, slots[claim.slot]) for claim in claims_)


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
