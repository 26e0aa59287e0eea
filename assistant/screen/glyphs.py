"""Glyphs: letters drawn from square dots, so that a figure can be read from across the bay.

Owns the shapes and the three sizes. Which words are drawn large is board.py's.
"""

from __future__ import annotations

from enum import Enum

_DOTS = 5  # rows of dots in every letter

# One letter is five rows of dots from the top, parted by blanks. Small letters stand on four.
_SHAPES = {
    "0": "### #.# #.# #.# ###", "1": ".#. ##. .#. .#. ###", "2": "### ..# ### #.. ###",
    "3": "### ..# .## ..# ###", "4": "#.# #.# ### ..# ..#", "5": "### #.. ### ..# ###",
    "6": "### #.. ### #.# ###", "7": "### ..# ..# .#. .#.", "8": "### #.# ### #.# ###",
    "9": "### #.# ### ..# ###",
    " ": ". . . . .", ".": ". . . . #", ",": ".. .. .. .# #.", ":": ". # . # .",
    "-": ".. .. ## .. ..", "+": "... .#. ### .#. ...", "/": "..# ..# .#. #.. #..",
    "°": "## ## .. .. ..", "%": "#..# ...# .##. #... #..#", "'": "# # . . .",
    '"': "#.# #.# ... ... ...", "<": "..# .#. #.. .#. ..#", ">": "#.. .#. ..# .#. #..",
    "=": "... ### ... ### ...", "x": "... #.# .#. .#. #.#", "×": "... #.# .#. .#. #.#",
    "²": "##. .#. #.. ##. ...", "³": "##. .#. ##. .#. ##.", "$": ".## ##. .## ##. .#.",
    "C": "### #.. #.. #.. ###", "F": "### #.. ##. #.. #..", "L": "#.. #.. #.. #.. ###",
    "P": "### #.# ### #.. #..", "K": "#.# #.# ##. #.# #.#", "W": "#...# #...# #.#.# #.#.# .#.#.",
    "a": "... ##. .## #.# .##", "b": "#.. #.. ##. #.# ##.", "c": "... .## #.. #.. .##",
    "d": "..# ..# .## #.# .##", "e": "... .#. #.# ##. .##", "f": ".## #.. ##. #.. #..",
    "g": "... .## #.# .## ##.", "h": "#.. #.. ##. #.# #.#", "i": "# . # # #",
    "j": ".# .. .# .# ##", "k": "#.. #.. #.# ##. #.#", "l": "#. #. #. #. ##",
    "m": "..... ####. #.#.# #.#.# #.#.#", "n": "... ##. #.# #.# #.#", "o": "... .#. #.# #.# .#.",
    "p": "... ##. #.# ##. #..", "q": "... .## #.# .## ..#", "r": "... #.# ##. #.. #..",
    "s": "... .## #.. ..# ##.", "t": ".#. ### .#. .#. .##", "u": "... #.# #.# #.# .##",
    "v": "... #.# #.# #.# .#.", "w": "..... #.#.# #.#.# #.#.# .####", "y": "... #.# .## ..# ##.",
    "z": "... ### .## #.. ###", "µ": "... #.# #.# ##. #..",
}


class Size(Enum):
    """How a dot is drawn; from the largest to the smallest."""

    WIDE = "two columns by one row"
    TALL = "one column by one row"
    LOW = "one column by half a row"

    @property
    def height(self) -> int:
        """Rows of the screen that a line in this size takes."""
        return 3 if self is Size.LOW else _DOTS


def large(text: str, size: Size) -> list[str] | None:
    """The text as rows of blocks, all of one width; None if a letter has no large form.

    A capital without a shape of its own is drawn as its small letter.
    """
    shapes = [_SHAPES.get(letter) or _SHAPES.get(letter.lower()) for letter in text]
    if not text or None in shapes:
        return None
    letters = [shape.split() for shape in shapes if shape]
    dots = [".".join(letter[row] for letter in letters) for row in range(_DOTS)]
    if size is Size.LOW:
        dots.append("." * len(dots[0]))
        return [
            "".join(_HALVES[pair] for pair in zip(dots[top], dots[top + 1], strict=True))
            for top in range(0, _DOTS, 2)
        ]
    across = 2 if size is Size.WIDE else 1
    return ["".join(("█" if dot == "#" else " ") * across for dot in row) for row in dots]


_HALVES = {("#", "#"): "█", ("#", "."): "▀", (".", "#"): "▄", (".", "."): " "}
