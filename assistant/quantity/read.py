"""Read: every quantity and bare number that people type or dictate.

Owns the walk along a line and what several numbers make together: ranges, the sides of a panel,
the parts of a mix. One number with its unit is atoms.py's; which number fills which input is the
conversation's.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.quantity.atoms import Atom, atom_at, begins_at
from assistant.quantity.differences import is_difference
from assistant.quantity.found import Found, UnclearQuantity
from assistant.quantity.kinds import kind_of, of
from assistant.quantity.tokens import Line

__all__ = ["LONGEST_READ", "Found", "UnclearQuantity", "read"]

# Characters. A longer line is no question; hearing reads such a text at its two ends.
LONGEST_READ = 12_000

_SIDES = frozenset(("x", "×", "*", "by", "por"))
_SIDE_NAMES = frozenset("wide long high tall across deep length width height w".split())
_DASHES = frozenset(("-", "~"))
_THROUGH = frozenset("to thru through until till".split())
_BETWEEN = frozenset("between entre".split())
_WIDEST_RANGE = 8
_LED_BY = frozenset("about around roughly say approximately approx".split())


@dataclass(slots=True)
class _Span:
    """A number or a range of numbers; `high` is the last of a range, `joint` what joined them."""

    low: Atom
    high: Atom
    joint: str = ""

    @property
    def first(self) -> int:
        return self.low.first

    @property
    def after(self) -> int:
        return self.high.after


def read(text: str) -> tuple[Found, ...]:
    """Every quantity and bare number of a line, in reading order.

    Clock times, dates and numbers in names are no quantities. Any text is allowed; the work grows
    with its length only, and what lies beyond LONGEST_READ characters is not read.
    """
    line = Line(_beginning(text))
    made: list[Found] = []
    group = place = 0
    last = -1
    while place < line.size:
        if not begins_at(line, place):
            place += 1
            continue
        atom = atom_at(line, place)
        if atom is None or isinstance(atom, int):
            place = max(place + 1, atom or 0)
            continue
        if atom.article and place == last:
            place = atom.after  # $5 a yard, 2 days a week
            continue
        groups, after = _sides(line, *_range(line, atom))
        for sides in groups:
            kept = [span for span in sides if _kept(line, span)]
            for span in kept:
                parts = _found(line, span, group, len(kept))
                made += parts
                group += len(parts) - 1  # the two parts of a mix are no sides
            group += 1
        place = last = max(after, place + 1)
    return tuple(made)


def _beginning(text: str) -> str:
    if len(text) <= LONGEST_READ:
        return text
    # Not through the middle of a number.
    space = text.rfind(" ", 0, LONGEST_READ)
    return text[:space if space > 0 else LONGEST_READ]


def _kept(line: Line, span: _Span) -> bool:
    if span.low.clock or span.high.clock or span.low.article and span.low.weak:
        return False
    if not span.low.weak:
        return True
    # A whole line "a quarter" or "one" answers a question that has just been asked.
    beside = [*range(span.first), *range(span.after, line.size)] if line.size < 12 else [0]
    return all(line.ends_at(place) for place in beside)


def _range(line: Line, first: Atom) -> tuple[list[_Span], int]:
    """The range that begins with an atom; else the atom alone, or two that share a unit."""
    joint, after = line.said(first.after), first.after
    alone = [_Span(first, first)]
    if first.mix is not None or first.problem is not None:
        return alone, after
    between = line.said(first.first - 1)
    if between in _LED_BY:
        between = line.said(first.first - 2)
    is_joint = joint in _DASHES or joint in _THROUGH or joint == "or" or (
        between in _BETWEEN and joint in ("and", "y", "to")
        or joint == "a" and between in ("de", "desde")
    )
    if not is_joint:
        return alone, after
    if joint == "or" and first.article and line.said(after + 1) == "two":
        # an hour or two
        first.approx = True
        second = Atom(2.0, after + 1, after + 2, unit=first.unit, degrees=first.degrees)
        return [_Span(first, second, "or")], second.after
    second = atom_at(line, after + 1)
    if not isinstance(second, Atom) or second.mix is not None or second.article:
        return alone, after
    if second.problem is not None or not _agree(first, second):
        return alone, after
    if joint == "-" and first.unit and second.unit and not line.glued(after + 1) and (
        second.value > _WIDEST_RANGE * first.value
    ):
        return alone, after  # "bleed 3 in - 92 in long" is a list
    if first.clock or second.clock:
        first.clock = second.clock = True  # "3-5 pm": neither is a quantity
        return [_Span(first, second, joint)], second.after
    _share(first, second)
    second.approx = second.approx and joint != "~"
    if joint == "or":
        if second.value != first.value + 1 or first.value != int(first.value):
            return [_Span(first, first), _Span(second, second)], second.after
        first.approx = True
    if first.value > second.value:
        return _backwards(first, second, joint, between in _BETWEEN)
    return [_Span(first, second, joint)], second.after


def _agree(first: Atom, second: Atom) -> bool:
    if first.clock or second.clock:
        return not any(atom.unit or atom.degrees for atom in (first, second))
    if first.degrees or second.degrees:
        return all(
            atom.unit in (None, "degF", "degC") for atom in (first, second)
        ) and (first.degrees or first.unit is None or second.degrees)
    if first.unit is None or second.unit is None:
        return True
    return kind_of(first.unit) == kind_of(second.unit)


def _share(first: Atom, second: Atom) -> None:
    """A unit given once serves both; of two of a kind, the smaller is told."""
    if first.unit is None and second.unit is not None:
        first.unit, first.degrees, first.weak = second.unit, False, False
    elif second.unit is None and first.unit is not None:
        second.unit, second.degrees, second.weak = first.unit, False, False
    elif first.degrees or second.degrees:
        first.degrees = second.degrees = True
    elif first.unit != second.unit and first.unit is not None and second.unit is not None:
        # 20 minutes to 1 hour, 80 cm to 1.2 m: the smaller unit tells both in round numbers.
        one, other = of(first.value, first.unit), of(second.value, second.unit)
        if of(1, first.unit) < of(1, second.unit):
            second.value, second.unit = other.to(first.unit), first.unit
        else:
            first.value, first.unit = one.to(second.unit), second.unit
    first.weak = first.weak and second.weak


def _backwards(
    first: Atom, second: Atom, joint: str, between: bool
) -> tuple[list[_Span], int]:
    """Two numbers joined like a range, the larger first."""
    if between:
        return [_Span(second, first, joint)], second.after
    if joint in _DASHES and first.unit in (None, "percent") and (
        first.value + second.value == 100
    ):
        first.mix = second.value
        first.unit = None
        return [_Span(first, Atom(second.value, first.first, second.after))], second.after
    if joint in _DASHES and not first.degrees and (
        first.unit is None or kind_of(first.unit) == "length"
    ):
        first.problem = (
            "a range runs upwards and the sides of a panel are written with an x; write one of them"
        )
        return [_Span(first, second, joint)], second.after
    if joint in _DASHES:
        return [_Span(second, first, joint)], second.after
    return [_Span(first, first), _Span(second, second)], second.after


def _sides(
    line: Line, spans: list[_Span], after: int
) -> tuple[list[list[_Span]], int]:
    """The sides that follow a number: groups of spans, one group for `92 x 31`."""
    groups = [[span] for span in spans]
    side = groups[-1]
    while len(side) < 4 and _could_be_side(side[-1]):
        step = after
        if line.said(step) in _SIDE_NAMES:
            step += 1
        if line.said(step) not in _SIDES:
            break
        atom = atom_at(line, step + 1)
        if not isinstance(atom, Atom) or atom.clock or atom.article:
            break
        following, reached = _range(line, atom)
        if len(following) != 1 or not _could_be_side(following[0]):
            break
        side.append(following[0])
        after = reached
    if len(side) > 1:
        _share_sides(side)
    return groups, after


def _could_be_side(span: _Span) -> bool:
    atom = span.low
    if atom.clock or atom.degrees or atom.mix is not None:
        return False
    return atom.unit is None or kind_of(atom.unit) == "length"


def _share_sides(side: list[_Span]) -> None:
    """A unit given once serves all sides, the one given last first."""
    units = [span.low.unit for span in side if span.low.unit is not None]
    for span in side:
        for atom in (span.low, span.high):
            atom.weak = atom.weak and not units
            if atom.unit is None and units:
                atom.unit = units[-1]


def _found(line: Line, span: _Span, group: int, sides: int) -> list[Found]:
    low, high = span.low, span.high
    start = line.at(min(low.first, high.first)).start
    end = line.at(max(low.after, high.after) - 1).end
    text = line.text[start:end]
    if low.mix is not None and low.problem is None:
        return [
            Found(text, start, end, part, part, "percent", group=group + turn)
            for turn, part in enumerate((low.value, low.mix))
        ]
    unit, difference = low.unit, False
    if unit in ("degF", "degC") or low.degrees:
        difference = is_difference(
            line, min(low.first, high.first), max(low.after, high.after),
            by_is_sides=line.is_number(low.first - 2), is_range=low is not high,
        )
        if difference and unit is not None:
            unit = {"degF": "dF", "degC": "dC"}[unit]
    problem = low.problem or high.problem
    return [Found(
        text, start, end, 0.0 if problem else low.value, 0.0 if problem else high.value, unit,
        group=group, sides=sides, degrees=low.degrees, difference=difference,
        approx=low.approx or high.approx, problem=problem,
    )]
