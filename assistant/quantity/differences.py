"""Differences: whether so many degrees are a reading or the gap between two readings.

Owns the words around a number that tell it: 3 °C is 37 °F on a thermometer, but 3 °C above the dew
point is 5 °F above it.
"""

from __future__ import annotations

from assistant.quantity.tokens import WORD, Line

_AFTER = frozenset(
    "warmer hotter colder cooler higher lower apart short difference diff margin headroom gap drop "
    "rise swing spread step gradient more less shy adrift increase decrease clearance buffer "
    "jump fall deficit".split()
)
# After these the number may still be a limit: "140 F over 10 minutes", "60 F under the lamp".
_BESIDE = frozenset("above below over under beyond within off from of to past".split())
_REFERENCES = frozenset(
    "dew target limit figure point minimum maximum least most ambient air spec specification "
    "setpoint freezing it that this what where room rule mark surrounding outside "
    "surroundings".split()
)
_SMALL = frozenset("the a an its our my your bay film panel's".split())
# "is 200 F too hot" asks about a reading; "it reads 20 F too low" tells a difference.
_READS = frozenset("reads read reading showing shows".split())
_WRONG = frozenset("low high hot cold warm cool".split())
_BEFORE = frozenset(
    "margin difference diff gap spread swing delta headroom by within drop rise increase decrease "
    "tolerance drops dropped rises rose raised lowered fell falls warmed clearance buffer "
    "±".split()
)
_LOOKED_THROUGH = frozenset(
    "of is a an the at least most about around only just was some roughly to up approximately "
    "under over than more = :".split()
)
# "drops to 5 F" and "the margin at 17 C" turn back into readings.
_MOVING = frozenset(
    "drop rise increase decrease drops dropped rises rose raised lowered fell falls warmed".split()
)


def is_difference(
    line: Line, first: int, after: int, *, by_is_sides: bool = False, is_range: bool = False
) -> bool:
    """Whether the degrees in tokens `first` to `after` are a difference.

    by_is_sides  a "by" before them belongs to `92 by 31`, not to `off by 3 C`
    is_range     `within 60-75 F` holds two readings, `within 5 F` one difference
    """
    return _told_after(line, first, after) or _told_before(line, first, by_is_sides, is_range)


def _told_after(line: Line, first: int, after: int) -> bool:
    said, following = line.said(after), line.said(after + 1)
    if said == "-" and line.glued(after):
        return following in _AFTER
    if said in _AFTER:
        return not (said in ("more", "less") and following == "or")
    if line.said(first - 1) in _READS and (
        said in _WRONG or said == "too" and following in _WRONG
    ):
        return True
    if said in ("off", "out") and (line.ends_at(after + 1) or following in ("at", "on", "when")):
        return True
    if said == "of" and following in ("margin", "headroom", "difference", "clearance"):
        return True
    if said == "clear" and following == "of":
        return True
    if said not in _BESIDE:
        return False
    if said in ("above", "below", "over", "under") and line.ends_at(after + 1):
        return True
    step = after + 1
    while line.said(step) in _SMALL and step < after + 4:
        step += 1
    reference = line.said(step)
    if said in ("above", "below"):
        return line.kind(step) == WORD and reference not in ("all", "zero")
    if said in ("off", "of", "to"):
        return reference == "dew"
    return reference in _REFERENCES


def _told_before(line: Line, first: int, by_is_sides: bool, is_range: bool) -> bool:
    before = line.said(first - 1)
    if before == "-" and line.said(first - 2) == "/" and line.said(first - 3) == "+":
        return True
    if before == "minus" and line.said(first - 2) == "or":
        return True
    step, passed = first - 1, set()
    while line.said(step) in _LOOKED_THROUGH and step > first - 6:
        passed.add(line.said(step))
        step -= 1
    said = line.said(step)
    if said not in _BEFORE or "at" in passed and not passed & {"least", "most"}:
        return False
    if said == "by":
        return not by_is_sides and "the" not in passed
    if said == "within":
        return not is_range
    return not (said in _MOVING and "to" in passed)
