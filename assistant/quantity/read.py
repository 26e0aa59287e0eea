"""Read: every quantity and bare number that people type or dictate.

Owns the way from words to numbers with units. The spellings are in spellings.py; which number
fills which input is the conversation's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from assistant.quantity.kinds import BadQuantity, Quantity, kind_of, of
from assistant.quantity.spellings import (
    ARTICLE_UNITS,
    BIG,
    CLOCK_WORDS,
    DEGREES,
    DIFFERENCE_AFTER,
    DIFFERENCE_BEFORE,
    GLYPHS,
    MONEY_MARKS,
    NOT_AFTER_INCH,
    ONES,
    PARTS,
    SIDE_CUES,
    SIDE_WORDS,
    TENS,
    TIGHT,
    UNIT_PHRASES,
    UNIT_WORDS,
    ZERO_WORDS,
)


class UnclearQuantity(ValueError):
    """A text that is no quantity of the wanted kind; the message names the text."""


@dataclass(frozen=True, slots=True)
class Found:
    """A number in a line.

    text        as it stands there; start, end: its span
    low, high   equal unless it is a range, in `unit`
    unit        a unit code; None for a bare number
    group       the sides of one `92 x 31` share a number; every other number has its own
    sides       how many numbers share the group
    degrees     "17 degrees": a temperature (or a difference) whose scale was not said
    approx      "about", "roughly" stood before it
    problem     why it cannot be read, in words; None when it can
    """

    text: str
    start: int
    end: int
    low: float
    high: float
    unit: str | None
    group: int = 0
    sides: int = 1
    degrees: bool = False
    approx: bool = False
    problem: str | None = None

    @property
    def bare(self) -> bool:
        return self.unit is None

    @property
    def kind(self) -> str | None:
        """The kind of its unit; None for a bare number."""
        return None if self.unit is None else kind_of(self.unit)

    def quantity(self, unit: str | None = None) -> Quantity:
        """The (lower) value, in `unit` when it brought none of its own kind.

        Raises UnclearQuantity naming the text when there is no unit or the value cannot be.
        """
        return self._in(self.low, unit)

    def quantities(self, unit: str | None = None) -> tuple[Quantity, Quantity]:
        """Both ends of it. Raises UnclearQuantity as `quantity` does."""
        return self._in(self.low, unit), self._in(self.high, unit)

    def _in(self, number: float, unit: str | None) -> Quantity:
        if self.problem:
            raise UnclearQuantity(f"{self.text.strip()!r}: {self.problem}")
        code = unit or self.unit
        if code is None:
            raise UnclearQuantity(f"{self.text.strip()!r} has no unit")
        try:
            return of(number, code)
        except BadQuantity as bad:
            raise UnclearQuantity(f"{self.text.strip()!r}: {bad}") from None


@dataclass(frozen=True, slots=True)
class _Token:
    kind: str  # number | word | mark
    text: str  # lower case
    start: int
    end: int


# One alternative a token, none of them nested: the scan is linear in the text.
_TOKENS = re.compile(
    r"(?P<number>\d+(?:[.,]\d+)*)"
    r"|(?P<word>(?:m|cm|mm|ft|yd|in)[23](?![\d\w])(?:/h\b)?|[^\W\d_]+[²³]?"
    r"(?:/(?:m[23²³]|h)(?!\w))?)"
    r"|(?P<mark>\S)"
)
_ISO_DATE = re.compile(r"\b\d{4}-\d{2}-\d{2}\b")
_CLOCK = re.compile(r"\b\d{1,2}[:.]\d{2}(?=\s*[ap]\.?m\b)|\b\d{1,2}:\d{2}(?::\d{2})?\b")
_ACCENTS = str.maketrans("áéíóúàèìòùâêîôû", "aeiouaeiouaeiou")
_QUOTES = str.maketrans({"’": "'", "‘": "'", "′": "'", "´": "'", "“": '"', "”": '"', "″": '"',
                         "–": "-", "—": "-", "−": "-", "‑": "-", "⁄": "/", "º": "°"})
_ABOUT = frozenset("about around roughly approx approximately nearly almost circa".split())
_SMALL_WORD = 12  # a written number up to this, alone, is no quantity ("one of them")


def _tokens(text: str) -> list[_Token]:
    lower = text.translate(_QUOTES)
    lower = "".join(
        folded if len(folded := letter.lower()) == 1 else letter for letter in lower
    ).translate(_ACCENTS)
    found = []
    for match in _TOKENS.finditer(lower):
        kind = match.lastgroup or "mark"
        word = match.group()
        # "5mil" is 5 and mil; "m8" or "h7" is a name: its digits are no number.
        if kind == "number" and found and found[-1].kind == "word" and (
            found[-1].end == match.start() and found[-1].text not in SIDE_WORDS
            and not _ends_number(found)
        ):
            kind = "word"
        found.append(_Token(kind, word, match.start(), match.end()))
    return found


def _ends_number(found: Sequence[_Token]) -> bool:
    """Whether the last word is a unit glued between two numbers: the `ft` of `6ft2`, `1h30`."""
    return (
        len(found) > 1
        and found[-2].kind == "number"
        and found[-2].end == found[-1].start
        and found[-1].text in UNIT_WORDS
    )


def _digits(text: str) -> float | None:
    """The value of digits with points and commas; None when they make no number."""
    points, commas = text.count("."), text.count(",")
    if not points and not commas:
        return float(text)
    if points and commas:
        decimal = max(text.rfind("."), text.rfind(","))
        mark = text[decimal]
        other = "," if mark == "." else "."
        head, tail = text[:decimal], text[decimal + 1:]
        if mark in head or not re.fullmatch(rf"\d{{1,3}}(?:\{other}\d{{3}})+", head):
            return None
        return float(head.replace(other, "") + "." + tail)
    mark = "." if points else ","
    if points + commas > 1:
        return float(text.replace(mark, "")) if (
            re.fullmatch(rf"\d{{1,3}}(?:\{mark}\d{{3}})+", text)
        ) else None
    if mark == "," and re.fullmatch(r"[1-9]\d{0,2},\d{3}", text):
        return float(text.replace(",", ""))
    return float(text.replace(",", "."))


class _Reader:
    """A walk over the tokens of one line; every method takes a place and gives the next."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens = _tokens(text)
        self.skip = [match.span() for match in _ISO_DATE.finditer(text)]
        self.skip += [match.span() for match in _CLOCK.finditer(text)]

    def word(self, place: int) -> str:
        return self.tokens[place].text if 0 <= place < len(self.tokens) else ""

    def glued(self, place: int) -> bool:
        """Whether the token follows the one before it without a space."""
        return place > 0 and self.tokens[place - 1].end == self.tokens[place].start

    # -- numbers -----------------------------------------------------------------------------

    def number(self, place: int) -> tuple[float, int, str | None, bool] | None:
        """(value, next place, problem, in words) of the number that begins here."""
        sign = 1.0
        start = place
        if self.word(place) == "minus" or (
            self.word(place) in "-+" and self.word(place)
            and place + 1 < len(self.tokens) and self.glued(place + 1)
            and not (place > 0 and self.tokens[place - 1].kind != "mark" and self.glued(place))
        ):
            sign = 1.0 if self.word(place) == "+" else -1.0
            place += 1
        if place >= len(self.tokens):
            return None
        read = self._from_digits(place) or self._from_glyph(place)
        in_words = False
        if read is None:
            read = self._from_words(place)
            in_words = True
        if read is None or (read[2] and sign < 0 and start == place):
            return None
        value, after, problem = read
        return sign * value, after, problem, in_words and sign > 0

    def _fraction(self, place: int) -> tuple[float, int, str | None] | None:
        """`1/8` beginning here."""
        if not (
            self._is_digits(place) and self.word(place + 1) == "/" and self._is_digits(place + 2)
        ):
            return None
        after = place + 3
        if self.word(after) == "/" and self._is_digits(after + 1):
            while self.word(after) == "/" and self._is_digits(after + 1):
                after += 2
            return 0.0, after, "two fraction bars make no number"
        top, bottom = _digits(self.word(place)), _digits(self.word(place + 2))
        if top is None or bottom is None:
            return 0.0, after, "that is no number"
        if bottom == 0:
            return 0.0, after, "nothing can be divided by zero"
        return top / bottom, after, None

    def _is_digits(self, place: int) -> bool:
        return 0 <= place < len(self.tokens) and self.tokens[place].kind == "number"

    def _from_digits(self, place: int) -> tuple[float, int, str | None] | None:
        if not self._is_digits(place):
            return None
        fraction = self._fraction(place)
        if fraction is not None:
            return fraction
        value = _digits(self.word(place))
        after = place + 1
        if value is None:
            return 0.0, after, "its points and commas make no number"
        step = after
        while self.word(step) in (".", ",") and self.glued(step):
            step += 1
        if step > after and self._is_digits(step) and self.glued(step):
            return 0.0, step + 1, "its points make no number"
        if value == int(value):
            # 2 1/2, 2-1/2, 2½, 2 and a half
            bar = after + 1 if self.word(after) == "-" else after
            part = self._fraction(bar)
            if part is not None and 0 < part[0] < 1 and not part[2]:
                return value + part[0], part[1], None
            if self.word(after) in GLYPHS:
                return value + GLYPHS[self.word(after)], after + 1, None
            return self._and_a_part(value, after)
        return value, after, None

    def _and_a_part(self, value: float, after: int) -> tuple[float, int, str | None]:
        if self.word(after) == "and":
            step = after + 2 if self.word(after + 1) in ("a", "an") else after + 1
            if self.word(step) in PARTS:
                return value + PARTS[self.word(step)], step + 1, None
            top = ONES.get(self.word(step))
            if top and self.word(step + 1) in PARTS:
                return value + top * PARTS[self.word(step + 1)], step + 2, None
        return value, after, None

    def _from_glyph(self, place: int) -> tuple[float, int, str | None] | None:
        if self.word(place) in GLYPHS:
            return GLYPHS[self.word(place)], place + 1, None
        return None

    def _from_words(self, place: int) -> tuple[float, int, str | None] | None:
        word = self.word(place)
        if word in ("half", "quarter") or (
            word in ("a", "an") and self.word(place + 1) in ("half", "quarter", "eighth", "third")
        ):
            here = place + 1 if word in ("a", "an") else place
            value = PARTS[self.word(here)]
            after = here + 1
            if self.word(after) == "of":
                after += 1
            if self.word(after) in ("a", "an"):
                after += 1
            elif self.unit(after, spaced=True) is None:
                return None  # "half of the panel" is no number
            return value, after, None
        if word in ("a", "an"):
            if self.word(place + 1) == "couple":
                after = place + 3 if self.word(place + 2) == "of" else place + 2
                return 2.0, after, None
            if self.word(place + 1) in BIG:
                return self._big(1.0, place + 1)
            if self.word(place + 1) in ARTICLE_UNITS and self.word(place - 1) not in (
                "once", "twice", "times", "per", "half", "quarter", "of", "changes"
            ):
                return 1.0, place + 1, None
            return None
        small = self._under_hundred(place)
        if small is None:
            return None
        value, after = small
        if self.word(after) in PARTS and value < 16 and self.word(after) not in ("third",):
            return value * PARTS[self.word(after)], self._over_of(after + 1), None
        if self.word(after) in BIG:
            return self._big(value, after)
        if self.word(after) == "point":
            digits, step = "", after + 1
            while (digit := ONES.get(self.word(step))) is not None and digit < 10:
                digits += str(digit)
                step += 1
            if digits:
                return float(f"{value:.0f}.{digits}"), step, None
            if self._is_digits(step) and self.word(step).isdigit():
                return float(f"{value:.0f}.{self.word(step)}"), step + 1, None
        if 1 <= value <= 9 and place + 1 == after:
            # "two twenty five" is 225, "one oh five" 105, "one fifteen" 115.
            rest = self._under_hundred(after)
            if rest is not None and rest[0] >= 10:
                return value * 100 + rest[0], rest[1], None
            if self.word(after) in ("oh", "o") and (unit := ONES.get(self.word(after + 1))):
                return value * 100 + unit, after + 2, None
        return self._and_a_part(value, after)

    def _over_of(self, place: int) -> int:
        if self.word(place) == "of":
            place += 1
        return place + 1 if self.word(place) in ("a", "an") else place

    def _under_hundred(self, place: int) -> tuple[float, int] | None:
        word = self.word(place)
        if word in ONES:
            return float(ONES[word]), place + 1
        if word in TENS:
            after = place + 1
            step = after + 1 if self.word(after) == "-" else after
            ones = ONES.get(self.word(step))
            if ones is not None and 1 <= ones <= 9:
                return float(TENS[word] + ones), step + 1
            return float(TENS[word]), after
        return None

    def _big(self, value: float, place: int) -> tuple[float, int, str | None]:
        total = 0.0
        while self.word(place) in BIG:
            factor = BIG[self.word(place)]
            value *= factor
            place += 1
            if factor == 1000:
                total, value = total + value, 0.0
            step = place + 1 if self.word(place) == "and" else place
            rest = self._under_hundred(step)
            if rest is None:
                break
            if self.word(rest[1]) in BIG and factor == 1000:
                total, value, place = total, rest[0], rest[1]
                continue
            value, place = value + rest[0], rest[1]
        return self._and_a_part(total + value, place)

    # -- units -------------------------------------------------------------------------------

    def unit(self, place: int, spaced: bool = False) -> tuple[str, int] | None:
        """(unit code, next place) of the unit that begins here.

        spaced  the number before it was written in words: letters that only count right after
                digits ("m", "c") are then no units
        """
        for words, unit in UNIT_PHRASES:
            if all(self.word(place + step) == word for step, word in enumerate(words)):
                return unit, place + len(words)
        word = self.word(place)
        if word == "'" and self.word(place + 1) == "'" and self.glued(place + 1):
            return "in", place + 2
        unit = UNIT_WORDS.get(word)
        if unit is None or (spaced and word in TIGHT and len(word) < 2):
            return None
        if word == "'" and self.word(place + 1).isalpha() and self.glued(place + 1):
            return None  # the 90's
        if word == "in" and not self._is_inch(place):
            return None
        if word in ("second", "seconds") and self.word(place + 1) in ("coat", "pass", "time"):
            return None
        return unit, place + 1

    def _is_inch(self, place: int) -> bool:
        return self.word(place + 1) not in NOT_AFTER_INCH

    # -- quantities --------------------------------------------------------------------------

    def skipped(self, place: int) -> bool:
        token = self.tokens[place]
        return any(start <= token.start < end for start, end in self.skip)

    def quantity(self, place: int) -> tuple[Found, int] | None:
        """One quantity beginning here, without ranges and sides."""
        first = place
        money = self.word(place) in MONEY_MARKS and self._is_digits(place + 1)
        if money:
            place += 1
        read = self.number(place)
        if read is None:
            return None
        value, after, problem, in_words = read
        if self.word(after) in CLOCK_WORDS or (
            self.word(after) in ("a", "p") and self.word(after + 1) == "."
            and self.word(after + 2) == "m"
        ):
            return None
        if self.word(after) == "-" and self.glued(after) and self.unit(after + 1) and (
            self.word(after + 1) not in TIGHT
        ):
            after += 1  # a 3-inch bleed
        found = self.unit(after, spaced=in_words)
        unit: str | None = None
        degrees = False
        if found is not None:
            unit, after = found
            if unit == DEGREES:
                unit, degrees = None, True
        if money:
            unit = "money"
        elif self.word(after) in MONEY_MARKS and self.glued(after):
            unit, after = "money", after + 1
        if not problem and unit in ("ft", "h", "day"):
            value, unit, after = self._composite(value, unit, after)
        if self.word(after) == "and" and unit in ("h", "day", "week", "year", "in", "ft", "m") and (
            self.word(after + 1) in ("a", "an") and self.word(after + 2) in PARTS
        ):
            # an hour and a half
            value, after = value + PARTS[self.word(after + 2)], after + 3
        start, end = self.tokens[first].start, self.tokens[after - 1].end
        if unit in ("degF", "degC") or degrees:
            unit, value = self._difference(first, after, unit, value)
        if unit in ("degF", "degC") and not problem:
            try:
                of(value, unit)
            except BadQuantity as bad:
                problem = str(bad)
        made = Found(
            self.text[start:end], start, end, value, value, unit, degrees=degrees,
            approx=self.word(first - 1) in _ABOUT, problem=problem,
        )
        if in_words and made.bare and not degrees and value <= _SMALL_WORD and (
            not self._beside_sides(first, after) and len(self.tokens) > after - first
        ):
            return None
        return made, after

    def _beside_sides(self, first: int, after: int) -> bool:
        return self.word(first - 1) in SIDE_WORDS or self.word(after) in SIDE_WORDS

    def _composite(self, value: float, unit: str, after: int) -> tuple[float, str, int]:
        """6 ft 2 1/2 in; 1 hour 30 min; 2 days 4 hours."""
        inner, factor = {"ft": ("in", 12.0), "h": ("min", 60.0), "day": ("h", 24.0)}[unit]
        step = after + 1 if self.word(after) == "and" else after
        read = self.number(step)
        if read is None or read[2] or read[0] < 0 or read[3] and read[0] < 1:
            return value, unit, after
        named = self.unit(read[1])
        glued = self.glued(step)
        if named is not None and named[0] == inner:
            total = value * factor + read[0]
            return (total, inner, named[1]) if unit != "day" else (total, "h", named[1])
        # 6'2 and 6 foot 2: the second number needs no unit when it follows at once.
        if named is None and unit == "ft" and read[0] < factor and (
            glued or self.word(after - 1) in ("foot", "feet", "ft", "'")
        ) and self.word(read[1]) not in SIDE_WORDS and step == after and (
            glued or self.word(after - 1) == "foot"
        ):
            return value * factor + read[0], inner, read[1]
        if named is None and unit == "h" and glued and read[0] < factor:
            return value * factor + read[0], inner, read[1]
        return value, unit, after

    def _difference(
        self, first: int, after: int, unit: str | None, value: float
    ) -> tuple[str | None, float]:
        """A temperature made a difference by the words beside it."""
        following, before = self.word(after), self.word(first - 1)
        if before in ("of", "a", "is", "about", "was") and self.word(first - 2) in (
            DIFFERENCE_BEFORE - {"by"}
        ):
            before = self.word(first - 2)
        if following == "below" and self.word(after + 1) in ZERO_WORDS and unit is not None:
            return unit, -abs(value)
        if following in DIFFERENCE_AFTER or before in DIFFERENCE_BEFORE:
            if before == "by" and self._is_digits(first - 2):
                return unit, value  # 20 by 30 C: sides, whatever they are
            return {"degF": "dF", "degC": "dC"}.get(unit or "", unit), value
        return unit, value


def _ranges(reader: _Reader, found: Found, after: int, between: bool) -> tuple[Found, int]:
    """`185-195 F`, `60 to 75`, `between 60 and 75 F` when a second number follows."""
    joint = reader.word(after)
    if joint not in ("-", "to", "a") and not (between and joint == "and"):
        return found, after
    if joint == "a" or found.problem:
        return found, after
    other = reader.quantity(after + 1)
    if other is None or other[0].problem:
        return found, after
    second, end = other
    unit = second.unit or found.unit
    if found.unit and second.unit and kind_of(found.unit) != kind_of(second.unit):
        return found, after
    low, high = found.low, second.low
    if found.unit and second.unit and found.unit != second.unit:
        try:
            low = of(found.low, found.unit).to(second.unit)
        except BadQuantity:
            return found, after
    if low > high:
        if joint == "-":
            return found, after
        low, high = high, low
    text = reader.text[found.start:second.end]
    return replace(
        found, text=text, end=second.end, low=low, high=high, unit=unit,
        degrees=found.degrees or second.degrees,
    ), end


def read(text: str) -> tuple[Found, ...]:
    """Every quantity and bare number of a line, in reading order.

    Clock times and dates are no quantities. Any text is allowed; the work grows with its length.
    """
    reader = _Reader(text)
    made: list[Found] = []
    place, group = 0, 0
    while place < len(reader.tokens):
        if reader.skipped(place):
            place += 1
            continue
        got = reader.quantity(place)
        if got is None:
            place += _passed_over(reader, place)
            continue
        found, after = _ranges(reader, *got, reader.word(place - 1) == "between")
        sides = [replace(found, group=group)]
        while len(sides) < 4:
            step = after + 1 if reader.word(after) in SIDE_CUES else after
            if reader.word(step) not in SIDE_WORDS:
                break
            other = reader.quantity(step + 1)
            if other is None:
                break
            sides.append(replace(other[0], group=group))
            after = other[1]
        made += _sharing_unit(sides)
        group += 1
        place = max(after, place + 1)
    return tuple(made)


def _passed_over(reader: _Reader, place: int) -> int:
    """How many tokens to pass when no quantity begins here: a clock time goes as one."""
    if reader._is_digits(place) and reader.word(place + 1) in CLOCK_WORDS:
        return 2
    return 1


def _sharing_unit(sides: list[Found]) -> list[Found]:
    """A unit given once serves all sides, the last one given first."""
    if len(sides) == 1:
        return sides
    units = [side.unit for side in sides if side.unit is not None]
    shared = units[-1] if units else None
    return [
        replace(side, unit=side.unit or (None if side.degrees else shared), sides=len(sides))
        for side in sides
    ]
