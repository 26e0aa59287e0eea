"""Atoms: one number with its unit, before ranges and sides are made of several.

Owns the joining of a number and its unit, and the numbers that count nothing worth reading. A
smaller unit behind it is compounds.py's; ranges, sides and lists are read.py's.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from assistant.quantity.asides import aside_at, bare_aside, clock_after
from assistant.quantity.compounds import CLOSERS, with_smaller_unit
from assistant.quantity.digits import GLYPHS, Number
from assistant.quantity.kinds import UNITS, BadQuantity, of
from assistant.quantity.numbers import number_at
from assistant.quantity.spoken import NUMBER_WORDS, and_a_part
from assistant.quantity.tokens import NUMBER, WORD, Line
from assistant.quantity.units import AFTER_ARTICLE, DEGREES, MILL, SPELLED, Unit, unit_at

_MARKS = frozenset("$€£")
_LEADING = frozenset("-+.$€£")
_MONEY_WORDS = frozenset("usd eur gbp".split())
_ABOUT = frozenset(
    "about around roughly approx approximately nearly almost circa ca say maybe ~ ≈ perhaps "
    "approx. unos".split()
)
# "one of them", "the two", "all three": words that count people or things already spoken of.
_POINTED_AT = frozenset(
    "the these those all both other last first us you them only every next same in no or".split()
)
_SMALL = 12
_HANG_ON = frozenset("wait on just got me".split())
_NOT_ONE = frozenset("once twice times per each every $ / half quarter of what such".split())


@dataclass(slots=True)
class Atom:
    """One number in the line, with what is known of its unit.

    weak  means nothing without a unit; dropped if it gets none
    clock a time of day; never a quantity, but it may end a range of them
    """

    value: float
    first: int
    after: int
    unit: str | None = None
    degrees: bool = False
    approx: bool = False
    spelled: bool = False
    weak: bool = False
    clock: bool = False
    article: bool = False
    mix: float | None = None
    problem: str | None = None


def begins_at(line: Line, place: int) -> bool:
    """Whether an atom could begin here; quick, and true too often rather than too seldom."""
    token = line.tokens[place]
    if token.kind == NUMBER:
        return True
    text = token.text
    if token.kind == WORD:
        if text in ("a", "an"):
            return line.said(place + 1) in AFTER_ARTICLE
        return text in NUMBER_WORDS or text in _MONEY_WORDS or text == "at"
    if text in GLYPHS:
        return True
    return text in _LEADING and (
        line.is_number(place + 1) or line.said(place + 1) == "." or line.said(place + 1) in GLYPHS
    )


def atom_at(line: Line, place: int) -> Atom | int | None:
    """The number that begins here; the place to go on from if it is none; None if none begins."""
    aside = aside_at(line, place)
    if aside is not None:
        return aside
    start, money = place, line.said(place) in _MARKS or line.said(place) in _MONEY_WORDS
    if money:
        place += 1
        if not line.is_number(place):
            return None
    number = number_at(line, place)
    if number is None:
        return None
    clock = clock_after(line, number.after, number.value)
    if clock is not None:
        return Atom(number.value, start, clock, clock=True)
    atom = Atom(
        number.value, start, number.after, approx=number.approx, spelled=number.spelled,
        weak=number.weak, mix=number.mix, problem=number.problem,
    )
    alone = number.spelled and number.after == number.first + 1
    atom.article = alone and line.said(number.first) in ("a", "an")
    if atom.article and line.said(place - 1) in _NOT_ONE:
        return None
    if money:
        atom.unit, atom.weak = "money", False
        if line.said(atom.after) in _MONEY_WORDS:
            atom.after += 1
        return _finished(line, atom)
    _ish(line, atom)
    if line.said(number.after) == ":" and not number.spelled:
        proportion = _proportion(line, atom)
        if proportion is not None:
            return proportion
    _take_unit(line, atom, unit_at(line, atom.after, number))
    if atom.article and atom.unit == "min" and line.said(place - 1) in _HANG_ON:
        return atom.after
    if atom.unit is None and not atom.degrees:
        if atom.article:
            return None
        if atom.problem is None and _is_nothing(line, number):
            return number.after
    return _finished(line, atom)


def _take_unit(line: Line, atom: Atom, unit: Unit | None) -> None:
    if unit is None:
        if line.said(atom.after) in ("rh",) or (
            line.said(atom.after) == "relative" and line.said(atom.after + 1) == "humidity"
        ):
            # Humidity stays a word of the line; only its percent is understood.
            atom.unit = "percent"
        return
    atom.after = unit.after
    atom.weak = False
    if unit.code == DEGREES:
        atom.degrees = True
        return
    if unit.code == MILL:
        atom.unit = "mil"
        atom.problem = atom.problem or (
            "a mill may be a mil (a thousandth of an inch) or a millimetre; write mil or mm"
        )
        return
    atom.unit = unit.code
    atom.value *= unit.times
    if atom.mix is not None and unit.code == "percent":
        atom.unit = None
    atom.problem = atom.problem or unit.problem


def _is_nothing(line: Line, number: Number) -> bool:
    """Whether a number without a unit counts nothing that could be asked about."""
    place, after = number.first, number.after
    if bare_aside(line, place, after):
        return True
    if line.said(after) == "of" and line.said(after + 1) in (
        "us", "them", "the", "these", "those", "my", "our", "you"
    ):
        return True
    if not number.spelled or number.weak or number.part or number.value > _SMALL:
        return False
    # "two people", "the two of them": a small number in words is a quantity only when it ends
    # its clause or stands between sides.
    if line.said(place - 1) in _POINTED_AT:
        return True
    return not (
        line.ends_at(after) or line.said(after) in CLOSERS or line.said(place - 1) in (
            "x", "×", "by"
        )
    )


def _proportion(line: Line, atom: Atom) -> Atom | None:
    """`10:1` as a ratio, `1:30 h` as a length of time."""
    place = atom.after
    if not (line.glued(place) and line.glued(place + 1) and line.is_number(place + 1)):
        return None
    text = line.said(place + 1)
    if not text.isdecimal() or len(text) > 6:
        return None
    other, after = float(text), place + 2
    unit = SPELLED.get(line.said(after), ("",))[0]
    if unit == "h" and len(text) == 2 and other < 60:
        return Atom(atom.value * 60 + other, atom.first, after + 1, unit="min")
    problem = None if other else "nothing can be divided by zero"
    return Atom(
        atom.value / other if other else 0.0, atom.first, after, unit="ratio", problem=problem
    )


def _finished(line: Line, atom: Atom) -> Atom:
    """With its smaller units, its `and a half`, what makes it approximate, what is impossible."""
    if atom.problem is None:
        for _ in range(3):
            both = with_smaller_unit(line, atom.value, atom.unit or "", atom.after)
            if both is None:
                break
            atom.value, atom.unit, atom.after = both
        if atom.unit is not None and atom.value == int(atom.value):
            added = and_a_part(line, atom.after)
            if added is not None and unit_at(
                line, added[1], Number(0.5, atom.after, added[1], spelled=True, part=True)
            ) is None:
                atom.value, atom.after = atom.value + added[0], added[1]
        _below_zero(line, atom)
    _approximate(line, atom)
    if not isfinite(atom.value) or abs(atom.value) > 1e15:
        atom.value, atom.problem = 0.0, atom.problem or "so large a number is no measure"
    if atom.problem is None and atom.unit in UNITS:
        try:
            of(atom.value, atom.unit)
        except BadQuantity as bad:
            atom.problem = str(bad)
    if atom.problem is not None:
        atom.value = 0.0
    return atom


def _below_zero(line: Line, atom: Atom) -> None:
    if line.said(atom.after) != "below" or line.said(atom.after + 1) not in ("zero", "nought"):
        return
    if atom.unit in ("degF", "degC") or atom.degrees or atom.unit is None:
        atom.degrees = atom.unit is None
        atom.weak = False
        atom.value, atom.after = -abs(atom.value), atom.after + 2


def _approximate(line: Line, atom: Atom) -> None:
    before = line.said(atom.first - 1)
    if before in _ABOUT or before in ("just", "bit") and line.said(atom.first - 2) in _ABOUT:
        atom.approx = True
    after = atom.after
    _ish(line, atom)
    if line.said(after) == "or" and line.said(after + 1) == "so":
        atom.approx = True
    elif line.said(after) in ("approx", "roughly", "ish"):
        atom.approx = True


def _ish(line: Line, atom: Atom) -> None:
    after = atom.after
    dash = line.said(after) == "-" and line.glued(after)
    if line.said(after + dash) == "ish" and line.glued(after + dash):
        atom.approx, atom.after = True, after + dash + 1
