"""Moments said: which point in time of a line belongs to which slot of a sum.

Owns the claim, and whether what is said is over or to come. Reading points in time out of words is
quantity/moment.py's; numbers are slots.py's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from assistant.conversation.cues import cue_strength
from assistant.quantity.write import System

if TYPE_CHECKING:
    from assistant.quantity.moment import FoundMoment

# The slot that was just asked for takes the moment before any other.
_ASKED_FOR = 4.0
# Words that tell that the moment beside them is over.
_OVER = frozenset(
    "finished done was were went had ended since ago completed laid wrapped post-heated last "
    "installed post-heating yesterday".split()
)


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
            -cue_strength(lower, moment, [*slots[name].cues, slots[name].name], ())
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
