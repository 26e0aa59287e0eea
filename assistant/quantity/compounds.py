"""Compounds: a larger unit with a smaller one after it: 6'2", 6 ft 2 1/2 in, 1 hour 30 min, 1h30.

Owns when two numbers are one measure, said or unsaid. One number with one unit is atoms.py's.
"""

from __future__ import annotations

from assistant.quantity.digits import Number
from assistant.quantity.numbers import number_at
from assistant.quantity.spoken import BIG, NUMBER_WORDS
from assistant.quantity.tokens import Line
from assistant.quantity.units import unit_at

# Larger unit -> smaller unit -> how many of the smaller make one of the larger.
_INNER: dict[str, dict[str, float]] = {
    "ft": {"in": 12}, "yd": {"ft": 3, "in": 36}, "m": {"cm": 100, "mm": 1000}, "cm": {"mm": 10},
    "h": {"min": 60}, "min": {"s": 60}, "day": {"h": 24}, "week": {"day": 7}, "lb": {"oz": 16},
    "gal": {"qt": 4, "floz": 128},
}
_TIMES = frozenset(("week", "day", "h", "min", "s"))
# After these the second length is one of its own: "a hood of 2 m 30 cm bleed".
_OWN_LENGTH = frozenset("bleed overlap lap margin gap hem seam border allowance bleeds".split())
_STRETCHES = frozenset("x × by long wide high tall deep across".split())
# Words that may follow a finished measure.
CLOSERS = frozenset(
    "x × by long wide high tall deep across off of on and to for from with in is at or - long "
    "length width height".split()
)


def with_smaller_unit(
    line: Line, value: float, unit: str, after: int
) -> tuple[float, str, int] | None:
    """Take in the inches after feet, the minutes after hours.

    value, unit, after  the larger measure and the place behind it
    Returns the same three for both together, in the smaller unit; None where nothing belongs.
    """
    inner = _INNER.get(unit)
    if inner is None or value != int(value):
        return None
    step, joined = after, False
    if line.said(step) == "and" or line.said(step) == "," and unit in _TIMES:
        step, joined = step + 1, True
    elif line.said(step) == "-" and line.glued(step) and line.glued(step + 1):
        step += 1
    if not (line.is_number(step) or line.said(step) in NUMBER_WORDS) or line.said(step) in BIG:
        return None
    number = number_at(line, step)
    if number is None or number.problem or number.mix is not None or number.value < 0:
        return None
    said = unit_at(line, number.after, number)
    if said is not None:
        code, reached = _meant(line, unit, said.code, number), said.after
    else:
        code, reached = None if joined else _unsaid(line, unit, number), number.after
    if code not in inner or number.value >= inner[code]:
        return None
    if unit not in _TIMES and (line.said(reached) in _OWN_LENGTH or joined and not (
        line.ends_at(reached) or line.said(reached) in CLOSERS
    )):
        return None
    return value * inner[code] + (-1 if value < 0 else 1) * number.value, code, reached


def _meant(line: Line, larger: str, code: str, number: Number) -> str:
    if larger == "h" and line.said(number.after) == "m":
        return "min"  # 2h 15m
    return "oz" if larger == "lb" and code == "floz" else code


def _unsaid(line: Line, larger: str, number: Number) -> str | None:
    """The smaller unit that is not said: 6'2, six foot two, 1h30, 2m30."""
    text = line.said(number.first)
    glued = line.glued(number.first)
    two_digits = len(text) == 2 and text.isdecimal() and number.after == number.first + 1
    follows = glued or line.ends_at(number.after) or line.said(number.after) in _STRETCHES
    if larger == "h" and follows and (two_digits or number.spelled and number.value >= 5):
        return "min"
    if larger == "m" and follows and two_digits:
        return "cm"
    if larger != "ft" or number.weak:
        return None
    mark = line.said(number.first - 1) in ("'", "-")
    if glued or mark or line.ends_at(number.after) or line.said(number.after) in CLOSERS:
        return "in"
    return None
