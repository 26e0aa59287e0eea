"""Inches: whether `in` is the inch, and `"` or `'` a prime and no quotation mark.

Owns these two doubts; all other units stand in units.py.
"""

from __future__ import annotations

from assistant.quantity.spoken import ONES, TEENS, TENS
from assistant.quantity.tokens import Line

# `5 in the bay`: before these words "in" is no inch.
_PLACES = frozenset(
    "the a an my our your his her their its this that these those there here them it total all "
    "each every any both either some between which what where order stock place case "
    "front half hand time advance use bay shop booth garage shed yard sun sunlight shade shadow "
    "winter summer spring autumn cold hot warm wet dry damp humid cool freezing weather rain "
    "direct direction line place storage transit store pieces strips sections stages steps passes "
    "turn turns fahrenheit celsius centigrade metric imperial degrees f c percent morning "
    "afternoon evening january february march april june july august september october november "
    "december yards yd feet ft bar psi litres liters gallons minutes mins hours hrs days weeks "
    "months years seconds total el la los las mi un una".split()
)
_LENGTH_WORDS = frozenset(
    "in ins inch inches ft feet foot yd yds yard yards mil mils mm cm cms m metres meters micron "
    "microns x × by / \" ' -".split()
)


def is_inch(line: Line, place: int, start: int) -> bool:
    """Whether `in` after a number is the inch: not in `5 in the bay`, `200 in celsius`."""
    if line.glued(place) or place > start:
        return True
    following = line.said(place + 1)
    if following in _PLACES and line.is_word(place + 1):
        return False
    if line.is_number(place + 1) or following in ONES or following in TEENS or following in TENS:
        # "3 in 60 in roll" against "3 in 10 cars": what the second number measures tells.
        step = place + 2
        return line.said(step) in _LENGTH_WORDS
    return True


def quotation_marks(line: Line) -> frozenset[int]:
    """Places of quotation marks that are no primes: those around words, or around one number."""
    if line.quotes is None:
        found: set[int] = set()
        opened: dict[str, int] = {}
        for place, token in enumerate(line.tokens):
            mark = token.text
            if mark != '"' and mark != "'":
                continue
            if mark in opened:
                if line.glued(place):
                    found.update((opened.pop(mark), place))
            elif line.glued(place + 1) and not line.glued(place) and (
                line.is_number(place + 1) or mark == '"' and line.is_word(place + 1)
            ):
                opened[mark] = place
        line.quotes = frozenset(found)
    return line.quotes
