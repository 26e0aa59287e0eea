"""Board: the main figure in large digits, to be read from two metres away with gloves on.

Owns the large letters. Which figure is the main one is the reply's order.
"""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from assistant.reply import Figure, Reply

HEIGHT = 5

_GLYPHS = {
    "0": ("███", "█ █", "█ █", "█ █", "███"),
    "1": ("▄█ ", " █ ", " █ ", " █ ", "▄█▄"),
    "2": ("███", "  █", "███", "█  ", "███"),
    "3": ("███", "  █", " ██", "  █", "███"),
    "4": ("█ █", "█ █", "███", "  █", "  █"),
    "5": ("███", "█  ", "███", "  █", "███"),
    "6": ("███", "█  ", "███", "█ █", "███"),
    "7": ("███", "  █", "  █", "  █", "  █"),
    "8": ("███", "█ █", "███", "█ █", "███"),
    "9": ("███", "█ █", "███", "  █", "███"),
    "-": ("   ", "   ", "███", "   ", "   "),
    ".": (" ", " ", " ", " ", "█"),
    "/": ("   █", "  █ ", " █  ", "█   ", "    "),
    " ": ("  ", "  ", "  ", "  ", "  "),
    "°": ("▄▄", "██", "  ", "  ", "  "),
    "F": ("███", "█  ", "██ ", "█  ", "█  "),
    "C": ("███", "█  ", "█  ", "█  ", "███"),
    "%": ("█  █", "  █ ", " █  ", "█  █", "    "),
    "<": ("  █", " █ ", "█  ", " █ ", "  █"),
    ">": ("█  ", " █ ", "  █", " █ ", "█  "),
}


def large(text: str) -> list[str] | None:
    """The text in letters five rows high; None when a letter has no large form."""
    if not text or any(letter not in _GLYPHS for letter in text):
        return None
    return [" ".join(_GLYPHS[letter][row] for letter in text) for row in range(HEIGHT)]


def split_shown(figure: Figure) -> tuple[str, str]:
    """The figure's own-system number and what follows it: `185-195`, `°F (85-91 °C)`."""
    shown = figure.shown
    end = 0
    while end < len(shown) and (shown[end].isdigit() or shown[end] in ".-/ "):
        end += 1
    number = shown[:end].strip()
    return number, shown[end:].strip()


def board_rows(reply: Reply, width: int) -> list[str]:
    """The rows of the board for a reply; none when it has no figure to show large."""
    if not reply.figures:
        return []
    figure = reply.figures[0]
    number, rest = split_shown(figure)
    unit, _, second = rest.partition(" (")
    second = f"({second}" if second else ""
    for attempt in (f"{number} {unit}", number):
        drawn = large(attempt)
        if drawn is not None and len(drawn[0]) + 4 <= width:
            break
    else:
        return []
    beside = ["", unit if attempt == number else "", second, figure.name, ""]
    room = width - len(drawn[0]) - 4
    if room < 12:
        return [row for row in drawn]
    return [f"{row}  {words[:room]}" for row, words in zip(drawn, beside, strict=True)]


class Board(Static):
    """The band that holds the main figure; it folds away when there is none."""

    # A selection over text that is then replaced ends the program (an open bug of the framework).
    ALLOW_SELECT = False

    DEFAULT_CSS = """
    Board {
        height: 7;
        padding: 1 2 1 2;
        background: $boost;
        color: $text-success;
        text-style: bold;
    }
    Board.-folded { display: none; }
    """

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(Content(""), id=id, markup=False)
        self.reply: Reply | None = None
        self.add_class("-folded")

    def show_reply(self, reply: Reply | None) -> None:
        self.reply = reply
        self._redraw()

    def on_resize(self) -> None:
        self._redraw()

    def _redraw(self) -> None:
        width = self.app.size.width - 4
        rows = board_rows(self.reply, width) if self.reply is not None else []
        self.set_class(not rows, "-folded")
        self.update(Content("\n".join(rows)))
