"""Asking: the line that is typed on, and the recall of earlier lines.

Owns up and down, and what a paste becomes. What a line means is the conversation's.
"""

from __future__ import annotations

import re

from textual import events
from textual.binding import Binding
from textual.widgets import Input

from assistant.hearing.plain import plain

_MOST_KEPT = 500
_ROW_ENDS = re.compile(r"\s*[\n\t]\s*")


class AskingLine(Input):
    """One line of typing; up and down bring earlier lines back."""

    BINDINGS = [
        Binding("up", "earlier", "earlier line", show=False),
        Binding("down", "later", "later line", show=False),
        Binding("escape", "empty", "empty the line", show=False),
    ]

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(placeholder="ask in your own words", id=id, select_on_focus=False)
        self.cursor_blink = False
        self.kept: list[str] = []
        self._place = 0
        self._draft = ""

    def keep(self, line: str) -> None:
        """Keep a line that was sent; the same line twice in a row is kept once."""
        if not self.kept or self.kept[-1] != line:
            self.kept.append(line)
            del self.kept[:-_MOST_KEPT]
        self._place = len(self.kept)
        self._draft = ""

    def action_earlier(self) -> None:
        if self._place == len(self.kept):
            self._draft = self.value
        if self._place > 0:
            self._place -= 1
            self._bring(self.kept[self._place])

    def action_later(self) -> None:
        if self._place >= len(self.kept):
            return
        self._place += 1
        self._bring(self.kept[self._place] if self._place < len(self.kept) else self._draft)

    def action_empty(self) -> None:
        self._place = len(self.kept)
        self.value = ""

    def _on_paste(self, event: events.Paste) -> None:
        """Several lines are one thing said: the framework alone would drop all but the first."""
        event.prevent_default()
        event.stop()
        line = _ROW_ENDS.sub(" ", plain(event.text).strip("\n"))
        if line:
            self.replace(line, *self.selection)

    def _bring(self, line: str) -> None:
        self.value = line
        self.cursor_position = len(line)
