"""Several: what a line lists more than once: panels with their sides, readings of a log, parts.

Owns the pairs of sides with how many of each, temperatures with their times of day, and `1:4` or
`one part to four` as one number. A number on its own is slots.py's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from assistant.conversation.slots import in_parts
from assistant.quantity.read import Found

if TYPE_CHECKING:
    from assistant.quantity.moment import FoundMoment

PANEL, LOG = "panel", "log"
_MOST_ALIKE = 20
_NUMBERS = {
    "both": 2, "pair": 2, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10,
}
# "two doors", "4 of those panels", "a pair of mirrors", "both fenders": more than one of a thing.
_ALIKE = re.compile(
    rf"\b(?:(?P<word>{'|'.join(_NUMBERS)})|(?P<figure>\d{{1,2}}))\s+(?:of\s+)?"
    r"(?:[a-z-]+\s+){0,2}?[a-z-]+(?<!s)s\b"
)
# "45 x 40, two of them", "45 x 40 each side", "45 x 40 twice"
_ALIKE_AFTER = re.compile(
    rf"\s*(?:,\s*)?(?:(?P<word>{'|'.join(_NUMBERS)})|(?P<figure>\d{{1,2}}))\s+(?:of\s+(?:them|those"
    r"|these|each)|pieces|off)\b|\s*(?:in\s+)?,?\s*(?P<twice>twice|each side|left and right)\b"
)
_PARTS = re.compile(
    r"\b(?P<one>\d+(?:\.\d+)?|one|two|three|four|five)\s+parts?\b[^,;.\d]{0,30}?\b(?:to|and|in)\s+"
    r"(?P<other>\d+(?:\.\d+)?|one|two|three|four|five|six|seven|eight|nine|ten)\b(?:\s+parts?)?"
)
# Words that tell that a moment is about the heating, not a reading.
_OFF = re.compile(r"\b(?:heat(?:ing|er|ers)?|off|shuts?|dies)\b")
_TOLD_OF = re.compile(
    r"\b(?:dropped|drops|fell|falls|sank|rose|rises|back (?:up )?(?:to|at)|went|was|log|logged|"
    r"readings?|read|then|started?|at)\b"
)
_TEMPERATURE_UNITS = ("degF", "degC")


def _counted(match: re.Match[str] | None) -> int:
    if match is None:
        return 1
    said = match.groupdict()
    if said.get("twice"):
        return 2
    number = _NUMBERS[said["word"]] if said["word"] else int(said["figure"])
    return number if 1 <= number <= _MOST_ALIKE else 1


def sides_listed(
    slots: Mapping[str, Any], text: str, quantities: Sequence[Found]
) -> tuple[dict[str, tuple[tuple[Found, Found], ...]], list[Found]]:
    """The pairs of sides of a line beyond the one that the slots of a single panel take, each as
    often as the line says, and the numbers that are left for slots.

    `two doors 45 by 40 and a hood 60 x 50` are three panels. Only for a sum with a slot of the kind
    `panel`; where no slot is one side of a pair, every pair of the line is listed.
    """
    name = next((name for name, spec in slots.items() if spec.kind == PANEL), None)
    if name is None:
        return {}, list(quantities)
    groups: dict[int, list[Found]] = {}
    for found in quantities:
        groups.setdefault(found.group, []).append(found)
    lower = text.lower()
    pairs: list[tuple[Found, Found]] = []
    spent: set[int] = set()
    first: tuple[Found, Found] | None = None
    before = 0
    for number, group in sorted(groups.items(), key=lambda item: item[1][0].start):
        if len(group) == 3 and _is_a_count(group):
            alike, group = int(group[0].low), group[1:]
        elif len(group) != 2:
            continue
        else:
            lead = lower[before:group[0].start]
            alike = max(
                _counted(next(iter(_ALIKE.finditer(lead)), None)),
                _counted(_ALIKE_AFTER.match(lower, group[1].end)),
            )
            spent |= {
                found.group for found in quantities
                if found.bare and found.sides == 1 and found.low == alike > 1
                and before <= found.start < group[1].end + 25
            }
        pair = (group[0], group[1])
        before = pair[1].end
        spent.add(number)
        if first is None and any(spec.pair for spec in slots.values()):
            first = pair
            alike -= 1
        pairs += [pair] * alike
    left = [found for found in quantities if found.group not in spent]
    if first is not None:
        left = sorted([*left, *(replace(found, sides=2) for found in first)], key=lambda f: f.start)
    return ({name: tuple(pairs)} if pairs else {}), left


def _is_a_count(group: Sequence[Found]) -> bool:
    """Whether `2 x 45 x 40` begins with how many there are of it."""
    count = group[0].low
    return count == int(count) and 1 <= count <= _MOST_ALIKE and all(
        side.low >= 3 * count for side in group[1:]
    )


def parts_told(
    slots: Mapping[str, Any], text: str, quantities: Sequence[Found]
) -> list[Found]:
    """`1 to 4` and `one part to four parts` as the one ratio that they are, for a sum with a slot
    that is told in parts."""
    if not any(in_parts(spec) for spec in slots.values()):
        return list(quantities)
    told: list[Found] = []
    for match in _PARTS.finditer(text.lower()):
        one, other = (
            float(said) if said[0].isdigit() else float(_NUMBERS.get(said, 1))
            for said in (match["one"], match["other"])
        )
        if other:
            told.append(Found(
                match.group(), match.start(), match.end(), one / other, one / other, "ratio",
                group=-1 - len(told),
            ))
    for found in quantities:
        if any(found.start < each.end and each.start < found.end for each in told):
            continue
        if found.bare and found.low != found.high and found.low >= 1:
            share = found.low / found.high
            found = replace(found, low=share, high=share, unit="ratio")
        told.append(found)
    return sorted(told, key=lambda each: each.start)


def readings_listed(
    slots: Mapping[str, Any],
    text: str,
    quantities: Sequence[Found],
    now: datetime,
    moments: Sequence[FoundMoment],
) -> tuple[dict[str, tuple[tuple[datetime, Found], ...]], list[Found], list[FoundMoment]]:
    """Temperatures with the time of day at which each was read, oldest first; what is left of both.

    `started 6 pm at 60 F, dropped to 48 at midnight, back to 62 at 6 am`: three readings. Only for
    a sum with a slot of the kind `log`, from two readings on; where the line speaks of the heating
    going off, its temperatures are what is to come, and no log.
    """
    name = next((name for name, spec in slots.items() if spec.kind == LOG), None)
    lower = text.lower()
    nothing: dict[str, tuple[tuple[datetime, Found], ...]] = {}
    if name is None or len(moments) < 2 or _OFF.search(lower) or not _TOLD_OF.search(lower):
        return nothing, list(quantities), list(moments)
    levels = [
        found for found in quantities
        if not found.problem and found.low == found.high and found.sides == 1
        and (found.unit in _TEMPERATURE_UNITS or found.bare)
    ]
    pairs: list[tuple[Found, FoundMoment]] = []
    free = list(moments)
    for number, level in enumerate(levels):
        left = levels[number - 1].end if number else 0
        right = levels[number + 1].start if number + 1 < len(levels) else len(text)
        near = [moment for moment in free if moment.start >= left and moment.end <= right]
        if near:
            moment = min(near, key=lambda each: _apart(lower, level, each))
            pairs.append((level, moment))
            free.remove(moment)
    if len(pairs) < 2 or not any(level.unit or level.degrees for level, _ in pairs) and (
        len(pairs) < len(levels)
    ):
        return nothing, list(quantities), list(moments)
    from assistant.quantity.moment import FUTURE, PAST

    told: list[tuple[datetime, Found]] = []
    if re.search(r"\b(?:will|tonight|tomorrow|going to|what if|suppose)\b", lower):
        at = now
        for level, moment in pairs:
            at = max(at, moment.at(at, FUTURE))
            told.append((at, level))
    else:
        # A log is told when it is over: back from now, each before the one after it.
        at = now
        for level, moment in reversed(pairs):
            at = moment.at(at, PAST)
            told.insert(0, (at, level))
    used = {id(level) for level, _ in pairs}
    return {name: tuple(told)}, [f for f in quantities if id(f) not in used], free


def _apart(text: str, level: Found, moment: FoundMoment) -> tuple[int, int]:
    """How far a time stands from a temperature: a comma between them parts them most."""
    gap = text[min(level.end, moment.end):max(level.start, moment.start)]
    return gap.count(",") + gap.count(";"), len(gap)
