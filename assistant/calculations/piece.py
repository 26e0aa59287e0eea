"""Piece: a panel's film as it lies on the roll, bleed included.

Owns the cut size, the way it lies and whether it fits. What is said about it is panel_film.py's;
where it lies among other pieces, cutplan/'s.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.calculations.base import SLACK
from assistant.calculations.strips import strips_to_cover
from assistant.quantity.kinds import Area, Length

FIRST, SECOND = "length-along-the-roll", "height-along-the-roll"


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of film as it lies on the roll.

    length, height  the cut size, bleed included, in the order the sides were said
    along, across   the same two as they lie on the roll
    turned          laid a quarter turn from the way that was asked for
    strips          1, or how many lapped strips it takes because it is wider than the roll
    off_roll        length of roll that it takes
    """

    length: Length
    height: Length
    along: Length
    across: Length
    turned: bool
    strips: int
    off_roll: Length

    @property
    def area(self) -> Area:
        return self.length * self.height


def _fits(across: Length, roll: Length) -> bool:
    return across.si <= roll.si * (1 + SLACK)


def _off_roll(piece: Piece) -> tuple[int, float]:
    return piece.strips, piece.off_roll.si


def lay_piece(
    length: Length,
    height: Length,
    bleed: Length,
    roll: Length,
    overlap: Length,
    *,
    may_turn: bool = True,
    shortest: bool = False,
    along: str = FIRST,
) -> Piece:
    """The piece for one panel as it lies on the roll.

    cut = side + 2 bleed, on both sides; the length off the roll is the cut side that runs along it.
    A piece wider than the roll is covered in n lapped strips (strips_to_cover), which takes n times
    the side along the roll.

    length, height  sides over the curve, > 0
    bleed           on each edge, >= 0
    roll            usable width, > overlap >= 0
    may_turn        a quarter turn may be taken: when the piece does not fit otherwise, or,
                    with `shortest`, whenever it takes less film
    along           FIRST or SECOND: the side that runs along the roll unless turned
    Source: geometry. By hand: 92 x 31 in, bleed 3 in: 98 x 37 in; 98 in off a 60 in roll, 23 left.
    """
    cut_length, cut_height = length + bleed * 2, height + bleed * 2

    def laid(first_along: bool) -> Piece:
        run, across = (cut_length, cut_height) if first_along else (cut_height, cut_length)
        strips = 1 if _fits(across, roll) else strips_to_cover(across, roll, overlap)
        turned = first_along != (along == FIRST)
        return Piece(cut_length, cut_height, run, across, turned, strips, run * strips)

    asked = laid(along == FIRST)
    if not may_turn:
        return asked
    turned = laid(along != FIRST)
    if shortest or asked.strips > 1:
        return min(asked, turned, key=_off_roll)
    return asked
