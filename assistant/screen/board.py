"""Board: the board on the wall, with the main figure in large digits.

Owns which figure is drawn and how its words stand by it. The letters are glyphs.py's; which figure
comes first is the reply's order.
"""

from __future__ import annotations

import textwrap

from textual.content import Content
from textual.widgets import Static

from assistant.hearing.plain import plain
from assistant.reply import Reply
from assistant.screen.glyphs import Size, large

_BESIDE = 24       # columns from which the words stand beside the digits, else beneath
_MOST_BENEATH = 2  # rows of words beneath the digits
_GAP = 3
_LOW_SCREEN = 18   # rows under which the digits are drawn half as high
_NO_ROOM = 11      # rows under which the talk needs the screen for itself


def main_figure(reply: Reply) -> tuple[str, str]:
    """What the board shows of a reply, and its name: the first figure, else the first moment."""
    for shown, name in (
        *((figure.shown, figure.name) for figure in reply.figures),
        *((moment.shown, moment.name) for moment in reply.times),
    ):
        if shown:
            return plain(shown), plain(name)
    return "", ""


def _drawn(shown: str, width: int, height: int) -> list[str] | None:
    """The largest form that fits: with its unit before without, wide before narrow."""
    own = shown.partition(" (")[0]
    bare = own[: len(own) - len(own.lstrip("0123456789.,-/ "))].strip()
    sizes = (Size.WIDE, Size.TALL) if height >= _LOW_SCREEN else (Size.LOW,)
    for text in (own, bare):
        for size in sizes:
            rows = large(text, size)
            if rows is not None and len(rows[0]) <= width:
                return rows
    return None


def board_rows(reply: Reply | None, width: int, height: int) -> list[str]:
    """The rows of the board for a reply; none when there is nothing to show large.

    width   columns that the board may use
    height  rows of the whole screen
    """
    if reply is None or height < _NO_ROOM:
        return []
    shown, name = main_figure(reply)
    digits = _drawn(shown, width, height) if shown else None
    if digits is None:
        return []
    room = width - len(digits[0]) - _GAP
    if room >= _BESIDE:
        words = [shown, *_short(name, room, len(digits) - 1)]
        lead = (len(digits) - len(words)) // 2
        words = [""] * lead + words + [""] * (len(digits) - len(words) - lead)
        return [
            f"{row}{' ' * _GAP}{beside}".rstrip()
            for row, beside in zip(digits, words, strict=True)
        ]
    return [*(row.rstrip() for row in digits), *_short(f"{shown}  {name}", width, _MOST_BENEATH)]


def _short(text: str, width: int, rows: int) -> list[str]:
    return textwrap.wrap(
        text, width, max_lines=max(rows, 1), placeholder=" …", break_on_hyphens=False
    )


class Board(Static):
    """The band that holds the main figure; it folds away when there is none."""

    # A selection over text that is then replaced ends the program (an open bug of the framework).
    ALLOW_SELECT = False

    PADDING = 2   # columns left and right together
    LEDGE = 1     # the row that parts the board from the talk

    DEFAULT_CSS = """
    Board {
        height: auto;
        padding: 0 1;
        color: $success;
        text-style: bold;
        border-bottom: heavy $secondary;
    }
    Board.-folded { display: none; }
    """

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(Content(""), id=id, markup=False)
        self.reply: Reply | None = None
        self.wanted = True
        self.add_class("-folded")

    def height_for(self, reply: Reply | None) -> int:
        """Rows of the screen that the board takes when it shows this reply."""
        rows = self._rows_for(reply)
        return len(rows) + self.LEDGE if rows else 0

    def show_reply(self, reply: Reply | None) -> None:
        """Show a reply's main figure; without one the board folds away."""
        self.reply = reply
        self.redraw()

    def fold(self) -> None:
        """Fold the board away, or open it again."""
        self.wanted = not self.wanted
        self.redraw()

    def _rows_for(self, reply: Reply | None) -> list[str]:
        size = self.app.size
        return board_rows(reply, size.width - self.PADDING, size.height) if self.wanted else []

    def redraw(self) -> None:
        rows = self._rows_for(self.reply)
        self.set_class(not rows, "-folded")
        self.update(Content("\n".join(rows)))
