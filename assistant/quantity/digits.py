"""Digits: what written figures, fractions and fraction signs are worth.

Owns points, commas and fraction bars. Numbers in words are spoken.py's; where a number begins and
how its parts join is numbers.py's.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from assistant.quantity.tokens import Line

GLYPHS = {
    "½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅓": 1 / 3, "⅔": 2 / 3, "⅕": 1 / 5, "⅖": 2 / 5, "⅗": 3 / 5,
    "⅘": 4 / 5, "⅙": 1 / 6, "⅚": 5 / 6, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8, "⅒": 1 / 10,
}
# Denominators that a rule or a drawing carries; 24/7 and 195/225 are no fractions.
_DENOMINATORS = frozenset((2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64, 100, 128, 1000))
LONGEST = 40


@dataclass(slots=True)
class Number:
    """A number in the line.

    value    its worth; the first part of a mix
    first, after   its tokens: from `first` up to, not including, `after`
    spelled  in words, at least partly
    weak     means nothing without a unit: "a", "half", "one", "a couple"
    approx   "a couple", "a dozen or so"
    mix      the other part of "70/30"
    part     a fraction below one, which may be followed by "of an inch"
    problem  why it has no value, in words
    """

    value: float
    first: int
    after: int
    spelled: bool = False
    weak: bool = False
    approx: bool = False
    part: bool = False
    mix: float | None = None
    problem: str | None = None


def digits_worth(text: str) -> float | None:
    """The worth of digits with points and commas; None when they make no number.

    A comma before exactly three digits parts thousands (1,200), any other is a decimal comma
    (2,3); a lone point is always a decimal point.
    """
    if len(text) > LONGEST:
        return None
    points, commas = text.count("."), text.count(",")
    plain = text
    if points and commas:
        mark = "." if text.rfind(".") > text.rfind(",") else ","
        other = "," if mark == "." else "."
        head, _, tail = text.rpartition(mark)
        if mark in head or not _grouped(head, other):
            return None
        plain = f"{head.replace(other, '')}.{tail}"
    elif points + commas > 1:
        mark = "." if points else ","
        if not _grouped(text, mark):
            return None
        plain = text.replace(mark, "")
    elif commas:
        plain = text.replace(",", "" if _grouped(text, ",") else ".")
    value = float(plain)
    return value if isfinite(value) else None


def _grouped(text: str, mark: str) -> bool:
    head, *groups = text.split(mark)
    return 1 <= len(head) <= 3 and not head.startswith("0") and all(
        len(group) == 3 for group in groups
    )


def fraction(line: Line, place: int) -> Number | None:
    """`1/8`; a mix `70/30`; or what is wrong with it."""
    if not line.is_number(place + 2):
        return None
    after = place + 3
    chained = False
    while line.said(after) == "/" and line.glued(after) and line.is_number(after + 1):
        after, chained = after + 2, True
    if chained:
        return Number(0.0, place, after, problem="two fraction bars make no number")
    top, bottom = digits_worth(line.said(place)), digits_worth(line.said(place + 2))
    if top is None or bottom is None:
        return Number(0.0, place, after, problem="its points and commas make no number")
    if bottom == 0:
        return Number(0.0, place, after, problem="nothing can be divided by zero")
    if top + bottom == 100 and top % 5 == 0:
        return Number(top, place, after, mix=bottom)
    if bottom in _DENOMINATORS and top == int(top) and (top < bottom or bottom <= 64):
        return Number(top / bottom, place, after, part=top < bottom)
    return Number(
        0.0, place, after, problem="it may be a fraction or two numbers; write one of them"
    )
