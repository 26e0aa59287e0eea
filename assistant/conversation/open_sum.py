"""Open sum: a calculation on the way: what it has, what it takes of a line, what it was asked last.

Owns whether a line fits a sum, and what the sum is called with in the end. Taking a line in and
asking for what is missing is reckoning.py's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from assistant.conversation.doubts import out_of_bounds, said_twice
from assistant.conversation.moments_said import moments_claimed, moments_in
from assistant.conversation.several import (
    LOG,
    PANEL,
    parts_told,
    readings_listed,
    sides_listed,
)
from assistant.conversation.slots import claims, options_chosen, ranges_apart, says_what
from assistant.conversation.telling import Film
from assistant.conversation.wording import clock_words
from assistant.hearing.heard import Heard
from assistant.quantity.kinds import Quantity
from assistant.quantity.read import Found
from assistant.quantity.write import System, show


@dataclass(frozen=True)
class Value:
    """A filled slot: the quantity (or option), the unit it was spoken in, a range's upper end.

    Further sides are kept as they were found: they may still wait for the unit of the first pair.
    """

    what: Any
    unit: str | None = None
    high: Any = None


@dataclass(frozen=True)
class OpenSum:
    """A calculation on the way: what it has, what was asked last.

    film     the film that it is about
    bare     numbers whose unit is still to be told, with the slots that claimed them
    asked    the slot that the last reply asked about, or `unit`, or None when it is complete
    latest   the slot of the number that was spoken last
    words    what a slot of words may take: the climate zones of the film's sheet
    found    the figures of its result by name, unrounded
    """

    entry: Any
    film: Film = field(default_factory=Film)
    values: dict[str, Value] = field(default_factory=dict)
    bare: tuple[tuple[str, Found], ...] = ()
    asked: str | None = None
    latest: str | None = None
    heard: str = ""
    words: tuple[str, ...] = ()
    found: Mapping[str, Quantity] = field(default_factory=dict)

    def takes_all(self, heard: Heard) -> bool:
        """Whether every number of a line has a slot of this calculation."""
        _, numbers = sides_listed(
            self.entry.slots, heard.text, parts_told(self.entry.slots, heard.text, heard.quantities)
        )
        taken = claims(self.entry.slots, heard.text, numbers, self.values, self.asked)
        return len(taken) == len(numbers)

    def filled_by(
        self, heard: Heard, now: datetime, least: int = 2, strict: bool = False
    ) -> bool:
        """Whether a line is this calculation from end to end: nothing that it needs is missing, no
        number is left over, and `least` of them say by their unit or a word what they are."""
        slots = self.entry.slots
        spans = moments_in(slots, heard.text, now)
        numbers = [
            found for found in heard.quantities
            if not any(found.start < span.end and span.start < found.end for span in spans)
        ]
        logs, numbers, free = readings_listed(
            slots, heard.text, parts_told(slots, heard.text, numbers), now, spans
        )
        listed, numbers = sides_listed(slots, heard.text, ranges_apart(slots, numbers))
        numbers, doubt = said_twice(slots, heard.text, numbers)
        taken = claims(slots, heard.text, numbers)
        moments, _ = moments_claimed(slots, heard.text, now, found=free)
        had = {
            *(claim.slot for claim in taken), *moments, *logs, *listed,
            *options_chosen(slots, heard.text, heard.quantities),
        }
        if doubt is not None:
            had.add(doubt.slot)
            least -= 1
        named = sum(says_what(slots, heard.text, claim, numbers) for claim in taken)
        named += len(moments) + sum(map(len, (*logs.values(), *listed.values())))
        return len(taken) == len(numbers) and named >= least and (
            not strict or not out_of_bounds(slots, taken)
        ) and all(
            name in had for name, spec in slots.items() if spec.required
        )

    def fits(self, heard: Heard) -> bool:
        """Whether a line has anything that this calculation could take."""
        if options_chosen(self.entry.slots, heard.text, heard.quantities):
            return True
        if heard.films and self.entry.rules or words_told(self, heard):
            return True
        # Whether a moment is named does not depend on now.
        if moments_claimed(self.entry.slots, heard.text, datetime(2000, 1, 1))[0]:
            return True
        return bool(claims(self.entry.slots, heard.text, heard.quantities, self.values, self.asked))


def words_told(sum_: OpenSum, heard: Heard) -> dict[str, Value]:
    """The slots of words (a climate zone) that a line fills: what stands beside the slot's cue, or
    the whole of a short line where the slot was asked for."""
    told: dict[str, Value] = {}
    for name, spec in sum_.entry.slots.items():
        if spec.kind != "text":
            continue
        known = [word for word in sum_.words if re.search(
            rf"(?<!\w){re.escape(word.lower())}(?!\w)", heard.tidy
        )]
        bare = heard.tidy.strip(" .!?")
        if known:
            told[name] = Value(max(known, key=len))
        elif sum_.asked == name and not heard.quantities and len(bare.split()) <= 3 and not (
            heard.wishes or heard.yes_no
        ):
            told[name] = Value(bare)
    return told


def carried_over(entry: Any, before: OpenSum | None) -> dict[str, Value]:
    """What a sum takes over from the one before it."""
    if before is None:
        return {}
    taken: dict[str, Value] = {}
    for name, spec in entry.slots.items():
        for source in spec.carried:
            sum_id, _, figure = source.partition(": ")
            found = next(
                (found for called, found in before.found.items() if called.startswith(figure)), None
            )
            if sum_id == before.entry.id and found is not None:
                taken[name] = Value(found)
    return taken


def given_to(filled: dict[str, Value], fields: Any, slots: Mapping[str, Any]) -> dict[str, Any]:
    """What a sum is called with. A range fills `<slot>_to` too, where the sum has such a field."""
    given: dict[str, Any] = {}
    for name, value in filled.items():
        if slots[name].kind == PANEL:
            unit = value.unit or next(
                (filled[key].unit for key, spec in slots.items() if spec.pair and key in filled),
                "in",
            )
            given[name] = tuple(
                tuple(side.quantity(side.unit or unit) for side in pair) for pair in value.what
            )
            continue
        if slots[name].kind == LOG:
            given[name] = tuple(
                (moment, level.quantity(level.unit or value.unit)) for moment, level in value.what
            )
            continue
        given[name] = value.what
        if value.high is not None and f"{name}_to" in fields:
            given[f"{name}_to"] = value.high
    return given


def value_words(value: Value, system: System) -> str:
    if isinstance(value.what, Quantity):
        return show(value.what, system, unit=value.unit, second=False)
    if isinstance(value.what, datetime):
        return clock_words(value.what, system)
    return str(value.what).replace("-", " ")
