"""Numbers: where a number begins, its sign, and how whole and fraction join.

Owns the number as a whole. Its figures are digits.py's, its words spoken.py's; what it measures is
units.py's.
"""

from __future__ import annotations

from assistant.quantity.digits import GLYPHS, LONGEST, Number, digits_worth, fraction
from assistant.quantity.spoken import BIG, and_a_part, in_words
from assistant.quantity.tokens import NUMBER, WORD, Line


def number_at(line: Line, place: int) -> Number | None:
    """The number that begins at a place, its sign included; None when none does."""
    first, sign = place, 1.0
    said = line.said(place)
    if said == "minus" and line.said(place - 1) == "or" and line.said(place - 2) == "plus":
        return None
    if said in ("minus", "negative"):
        sign, place = -1.0, place + 1
    elif said in ("-", "+") and line.glued(place + 1) and not _joins(line, place):
        sign, place = (-1.0 if said == "-" else 1.0), place + 1
    if line.is_number(place):
        number = _digits(line, place)
    elif line.said(place) in GLYPHS:
        number = Number(GLYPHS[line.said(place)], place, place + 1, part=True)
    elif line.said(place) == "." and line.glued(place + 1) and line.said(place + 1).isdecimal():
        value = digits_worth("0." + line.said(place + 1))
        number = None if value is None else Number(value, place, place + 2)
    else:
        number = in_words(line, place)
        if number is not None and first != place and number.weak and number.value == 1:
            return None  # "minus a day"
    if number is None:
        return None
    number.first = first
    number.value *= sign
    return number


def _joins(line: Line, place: int) -> bool:
    """Whether a dash belongs to what stands before it: `185-195`, `pre-2010`, `5 -3`."""
    before = line.kind(place - 1)
    if before == NUMBER or line.said(place - 1) in ("%", "°", "'", '"', *GLYPHS):
        return True
    return before == WORD and line.glued(place)


def _digits(line: Line, place: int) -> Number | None:
    if line.said(place + 1) == "/" and line.glued(place + 1) and line.glued(place + 2):
        whole = fraction(line, place)
        if whole is not None:
            return whole
    text, after = line.said(place), place + 1
    value = digits_worth(text)
    if value is None:
        return Number(0.0, place, after, problem="its points and commas make no number"
                      if len(text) <= LONGEST else "so many digits are no measure")
    dots = after
    while line.said(dots) in (".", ",") and line.glued(dots):
        dots += 1
    if dots > after and line.is_number(dots) and line.glued(dots):
        return Number(0.0, place, dots + 1, problem="its points make no number")
    if value == int(value) and text.isdecimal():
        mixed = _mixed(line, place, value, after)
        if mixed is not None:
            return mixed
        if line.said(after) == "point" and line.is_number(after + 1) and (
            line.said(after + 1).isdecimal()
        ):
            spoken = digits_worth(f"{text}.{line.said(after + 1)}")
            if spoken is not None:
                return Number(spoken, place, after + 2, spelled=True)
    if line.said(after) in BIG and line.is_word(after):
        return Number(value * BIG[line.said(after)], place, after + 1)
    return Number(value, place, after)


def _mixed(line: Line, place: int, value: float, after: int) -> Number | None:
    """A whole number with a fraction after it: 5 1/8, 5-1/8, 5½, 5 and a half."""
    step = after
    if line.said(step) == "-" and line.glued(step) and line.glued(step + 1):
        step += 1
    if line.is_number(step) and line.said(step + 1) == "/" and line.glued(step + 1):
        part = fraction(line, step)
        if part is not None and part.part and part.problem is None and part.value > 0:
            return Number(value + part.value, place, part.after)
    if line.said(step) in GLYPHS:
        return Number(value + GLYPHS[line.said(step)], place, step + 1)
    added = and_a_part(line, after)
    if added is not None:
        return Number(value + added[0], place, added[1], spelled=True)
    return None
