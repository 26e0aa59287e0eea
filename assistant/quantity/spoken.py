"""Spoken: numbers in words, as they are said across a bay or dictated.

Owns `two twenty five`, `three and a half`, `a quarter`, `two point three`. Written figures are
digits.py's; which of these words is a quantity at all is read.py's.
"""

from __future__ import annotations

from assistant.quantity.digits import GLYPHS, Number, digits_worth, fraction
from assistant.quantity.tokens import Line

ONES = {
    word: value for value, word in enumerate(
        "zero one two three four five six seven eight nine".split()
    )
}
TEENS = {
    word: value for value, word in enumerate(
        "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(),
        10,
    )
}
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60,
    "seventy": 70, "eighty": 80, "ninety": 90,
}
_UNDER_HUNDRED = ONES | TEENS | TENS
_TEN_UP = TEENS | TENS
BIG = {"hundred": 100, "thousand": 1000}
PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4,
    "fourths": 4, "fifth": 5, "fifths": 5, "eighth": 8, "eighths": 8, "eigth": 8, "eigths": 8,
    "tenth": 10, "tenths": 10, "sixteenth": 16, "sixteenths": 16,
    "thousandth": 1000, "thousandths": 1000,
}
NUMBER_WORDS = frozenset(_UNDER_HUNDRED) | frozenset(BIG) | frozenset(PARTS) | frozenset(
    "a an couple dozen point minus negative".split()
)
# A quarter panel is a part of the body, and so are its neighbours.
NO_QUARTER_OF = frozenset(
    "panel panels window windows glass light lights section turn past".split()
)
# "a bleed of point five"; but "dew point 12 C" holds no decimal point.
_BEFORE_POINT = frozenset("of is at about or to and by say minus with".split())
_MOST_WORDS = 14


def and_a_part(line: Line, place: int) -> tuple[float, int] | None:
    """`and a half`, `and three quarters`, `and 1/2`: its worth and the place after it."""
    step = _past_dash(line, place)
    slurred = line.said(step) in ("an", "n", "&") and line.said(step + 1) == "a"
    if line.said(step) != "and" and not slurred:
        return None
    step = _past_dash(line, step + 1)
    if line.is_number(step) and line.said(step + 1) == "/" and line.glued(step + 1):
        part = fraction(line, step)
        if part is not None and part.part and part.problem is None:
            return part.value, part.after
        return None
    if line.said(step) in GLYPHS:
        return GLYPHS[line.said(step)], step + 1
    top = 1
    if line.said(step) in ("a", "an"):
        step = _past_dash(line, step + 1)
    elif line.said(step) in _UNDER_HUNDRED:
        top = _UNDER_HUNDRED[line.said(step)]
        step += 2 if line.said(step + 1) == "-" else 1
    bottom = _part(line, step)
    if bottom is None or not 0 < top < bottom:
        return None
    return top / bottom, step + 1


def _past_dash(line: Line, place: int) -> int:
    """two-and-a-half"""
    return place + 1 if line.said(place) == "-" and line.glued(place) else place


def _part(line: Line, place: int) -> int | None:
    """The denominator that a word stands for; None for the quarter of a quarter panel."""
    bottom = PARTS.get(line.said(place))
    if bottom is None or bottom == 4 and line.said(place + 1) in NO_QUARTER_OF:
        return None
    return bottom


def in_words(line: Line, place: int) -> Number | None:
    said = line.said(place)
    if said not in NUMBER_WORDS or not line.is_word(place):
        return None
    if said in ("a", "an"):
        return _with_article(line, place)
    if said == "couple":
        return _couple(line, place, place)
    if said == "dozen":
        return Number(12.0, place, place + 1, spelled=True, approx=True)
    if said in PARTS:
        bottom = _part(line, place) if said in ("half", "quarter", "third") else None
        if bottom is None:
            return None
        if line.said(place + 1) == "a" and line.said(place + 2) == "dozen":
            return Number(6.0, place, place + 3, spelled=True)
        return Number(1 / bottom, place, place + 1, spelled=True, weak=True, part=True)
    if said == "point":
        if line.is_word(place - 1) and line.said(place - 1) not in _BEFORE_POINT:
            return None  # the dew point, a set point
        tail = _spoken_digits(line, place + 1)
        value = digits_worth(f"0.{tail[0]}") if tail else None
        return None if value is None or not tail else Number(value, place, tail[1], spelled=True)
    whole = _whole(line, place)
    if whole is None:
        return None
    value, after = whole
    if line.said(after) == "point":
        tail = _spoken_digits(line, after + 1)
        spoken = digits_worth(f"{value:.0f}.{tail[0]}") if tail else None
        if spoken is not None and tail:
            return Number(spoken, place, tail[1], spelled=True)
    step = after + 1 if line.said(after) == "-" and line.glued(after) else after
    bottom = _part(line, step)
    if bottom is not None and 0 < value < bottom:
        return Number(
            value / bottom, place, step + 1, spelled=True, part=True,
            weak=bottom in (2, 3, 4, 5, 10),
        )
    added = and_a_part(line, after)
    if added is not None:
        return Number(value + added[0], place, added[1], spelled=True)
    return Number(
        float(value), place, after, spelled=True,
        weak=after == place + 1 and said in ("one", "zero"),
    )


def _with_article(line: Line, place: int) -> Number | None:
    following = line.said(place + 1)
    if following == "couple":
        return _couple(line, place, place + 1)
    if following == "dozen":
        return Number(12.0, place, place + 2, spelled=True)
    if following in BIG:
        whole = _whole(line, place + 1)
        if whole is None:
            return None
        return Number(float(whole[0]), place, whole[1], spelled=True)
    if following in PARTS:
        bottom = _part(line, place + 1)
        if bottom is None:
            return None
        weak = bottom in (2, 3, 4, 5, 10)
        return Number(1 / bottom, place, place + 2, spelled=True, weak=weak, part=True)
    return Number(1.0, place, place + 1, spelled=True, weak=True)


def _couple(line: Line, place: int, here: int) -> Number:
    after = here + 2 if line.said(here + 1) == "of" else here + 1
    return Number(2.0, place, after, spelled=True, weak=True, approx=True)


def _spoken_digits(line: Line, place: int) -> tuple[str, int] | None:
    """The digits after a spoken point: `three`, `two five`, `seventy five`, `oh five`, `3`."""
    if line.is_number(place) and line.said(place).isdecimal():
        return line.said(place), place + 1
    digits, step = "", place
    while step < place + _MOST_WORDS:
        said = line.said(step)
        if said in ONES:
            digits += str(ONES[said])
        elif said in ("oh", "o", "nought"):
            digits += "0"
        elif said in _TEN_UP and not digits:
            pair = _under_hundred(line, step)
            if pair is not None:
                return str(pair[0]), pair[1]
        else:
            break
        step += 1
    return (digits, step) if digits else None


def _under_hundred(line: Line, place: int) -> tuple[int, int] | None:
    said = line.said(place)
    if said in TENS:
        after = place + 1
        step = after + 1 if line.said(after) == "-" and line.glued(after) else after
        ones = ONES.get(line.said(step), 0)
        return (TENS[said] + ones, step + 1) if ones else (TENS[said], after)
    if said in _UNDER_HUNDRED:
        return _UNDER_HUNDRED[said], place + 1
    return None


def _whole(line: Line, place: int) -> tuple[int, int] | None:
    """A whole number in words: `two hundred and twenty five`, `two twenty five`, `one oh five`."""
    if line.said(place) in BIG:
        head: tuple[int, int] | None = (1, place)
    else:
        head = _under_hundred(line, place)
    if head is None:
        return None
    value, after = head
    if value < 10 and after == place + 1:
        elided = _elided(line, value, after)
        if elided is not None:
            return elided
    total, last = 0, 0
    while after < place + _MOST_WORDS and line.said(after) in BIG:
        factor = BIG[line.said(after)]
        after += 1
        if last and factor > last:
            total = (total + value) * factor  # two hundred thousand
        else:
            total += value * factor
        value, last = 0, factor
        if line.said(after) in BIG:
            continue
        step = after + 1 if line.said(after) in ("and", "-") else after
        rest = _under_hundred(line, step)
        if rest is None or not _belongs(line, step, rest[1], last):
            break
        value, after = rest
    return total + value, after


def _belongs(line: Line, place: int, after: int, last: int) -> bool:
    """Whether a number below a hundred ends the one before it.

    Not in `a hundred and three quarters`, nor in `between two hundred and two twenty five`.
    """
    if _part(line, after) is not None or BIG.get(line.said(after), 0) >= last:
        return False
    return not (line.said(place) in ONES and line.said(after) in _TEN_UP)


def _elided(line: Line, value: int, after: int) -> tuple[int, int] | None:
    """The hundred that is left out: two twenty five, one oh five, one eight five."""
    said = line.said(after)
    if said in ("oh", "o") and line.said(after + 1) in ONES:
        return value * 100 + ONES[line.said(after + 1)], after + 2
    if (
        said in ONES and line.said(after + 1) in ONES
        and line.said(after - 2) not in ONES and line.said(after + 2) not in ONES
        and _part(line, after + 2) is None
    ):
        return value * 100 + ONES[said] * 10 + ONES[line.said(after + 1)], after + 2
    if value and said in _TEN_UP:
        rest = _under_hundred(line, after)
        # "one sixteenth" is a fraction, "three ten eighths" is nothing.
        if rest is not None and _part(line, rest[1]) is None:
            return value * 100 + rest[0], rest[1]
    return None
