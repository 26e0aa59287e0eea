"""App: the bay's screen: the talk, the board with the main figure, and the line to type on.

Owns the layout and the keys. What is said comes from the conversation; how a turn is drawn is
drawing.py's.
"""

from __future__ import annotations

import signal
import sys
from collections.abc import Callable
from typing import Any

from textual.app import App, ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.theme import Theme
from textual.widgets import Static

from assistant.reply import DONE, Reply
from assistant.screen.asking import AskingLine
from assistant.screen.board import Board
from assistant.screen.drawing import GUTTER, asked_block, reply_block
from assistant.screen.history import History

_KEYS_WIDE = " enter ask · ↑↓ earlier lines · PgUp PgDn scroll · F2 board · ctrl+q leave"
_KEYS_NARROW = " ↑↓ earlier · PgUp PgDn · ctrl+q leave"

_WELCOME = Reply(
    DONE,
    "What is in hand? Ask for a rule, a sum, or what to do next.",
    heading="bayhand",
    steps=(
        "how hot do I post-heat an overlap",
        "film for a rear bumper 92 by 31, 3 inch bleed",
        "help: what else I can do",
    ),
)

# The colours of a bay at night: floor grey, the amber of a heat lamp, the green of a dry panel.
_NIGHT = Theme(
    name="bay-night", primary="#e0a458", secondary="#8fa3ad", accent="#d9c27a",
    success="#9ccf8a", warning="#f0b45a", error="#e5787a", foreground="#e6e4de",
    background="#16191b", surface="#1d2124", panel="#24292c", dark=True,
)


class BayScreen(App[None]):
    """The assistant on a full screen.

    converse  makes the conversation; called after the first frame is up, so that typing can begin
    """

    ENABLE_COMMAND_PALETTE = False
    AUTO_FOCUS = "#asking"
    TITLE = "bayhand"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (60, "-wide")]

    CSS = """
    Screen { layout: vertical; }
    #talk { height: 1fr; padding: 0 1; }
    #asking {
        height: 1; border: none; padding: 0 1; background: $panel;
    }
    #asking:focus { border: none; }
    #keys { height: 1; color: $text-muted; }
    #rule { height: 1; color: $text-muted; }
    """

    BINDINGS = [
        Binding("pageup", "talk_up", "scroll up", priority=True),
        Binding("pagedown", "talk_down", "scroll down", priority=True),
        Binding("ctrl+home", "talk_first", "first turn", priority=True),
        Binding("ctrl+end", "talk_last", "last turn", priority=True),
        Binding("f2", "fold_board", "fold the board", priority=True),
        Binding("ctrl+q", "quit", "leave", priority=True),
    ]

    def __init__(self, converse: Callable[[], Any]) -> None:
        super().__init__()
        self._converse = converse
        self._conversation: Any = None
        self._board_wanted = True
        self._trouble: str | None = None
        self.register_theme(_NIGHT)
        self.theme = "bay-night"

    def compose(self) -> ComposeResult:
        yield Board(id="board")
        yield History(id="talk")
        yield Static(Content("─" * 400), id="rule", markup=False)
        yield AskingLine(id="asking")
        yield Static(Content(_KEYS_WIDE), id="keys", markup=False)

    def on_mount(self) -> None:
        self._leave_cleanly_when_told()
        self.talk.append(reply_block(_WELCOME, self._rows()))
        self.call_after_refresh(self._load)

    def _leave_cleanly_when_told(self) -> None:
        """A terminal that is closed or a shutdown must not leave the terminal torn."""
        if self.is_headless:
            return
        import asyncio

        loop = asyncio.get_running_loop()
        for name in ("SIGTERM", "SIGHUP"):
            if hasattr(signal, name):
                try:
                    loop.add_signal_handler(getattr(signal, name), self.exit)
                except (NotImplementedError, RuntimeError):  # not every system's loop can
                    return

    def on_resize(self) -> None:
        wide = self.size.width >= 60
        self.query_one("#keys", Static).update(Content(_KEYS_WIDE if wide else _KEYS_NARROW))

    def _load(self) -> None:
        if self._conversation is None:
            self._conversation = self._converse()
            for problem in self._conversation.knowledge.problems:
                self.talk.append(reply_block(
                    Reply(DONE, f"Left out: {problem}", heading="The shop's own files"),
                    self._rows(),
                ))

    @property
    def talk(self) -> History:
        return self.query_one("#talk", History)

    @property
    def board(self) -> Board:
        return self.query_one("#board", Board)

    def _rows(self) -> int:
        """Rows that a reply may have so that it is seen whole, question and heading included."""
        return max(self.size.height - 3 - 3, 6)

    def on_input_submitted(self, event: AskingLine.Submitted) -> None:
        line = event.value
        event.input.value = ""
        if not line.strip():
            return
        self._load()
        self.query_one("#asking", AskingLine).keep(line)
        self.say(line)

    def say(self, line: str) -> Reply:
        """Take a line as if it were typed; draw it and the reply."""
        from assistant.hearing.plain import plain

        conversation = self._conversation
        # The board takes rows from the talk: the page is cut for what is left when it shows.
        conversation.columns = max(self.size.width - GUTTER - 3, 20)
        conversation.rows = self._rows() - (7 if self._board_wanted else 0)
        reply = conversation.turn(line)
        self.talk.follow = True
        if self._board_wanted and (reply.figures or reply.outcome != DONE):
            self.board.show_reply(reply)
        self.talk.append(asked_block(plain(line)))
        self.talk.append(reply_block(reply, max(conversation.rows, 6)))
        return reply

    def action_talk_up(self) -> None:
        self.talk.scroll_page_up(animate=False)

    def action_talk_down(self) -> None:
        self.talk.scroll_page_down(animate=False)

    def action_talk_first(self) -> None:
        self.talk.scroll_home(animate=False)

    def action_talk_last(self) -> None:
        self.talk.scroll_end(animate=False)

    def action_fold_board(self) -> None:
        self._board_wanted = not self._board_wanted
        last = self._conversation.memory.last if self._conversation is not None else None
        self.board.show_reply(last if self._board_wanted else None)

    def _handle_exception(self, error: Exception) -> None:
        """Leave with one sentence: a traceback would print local variables, customers' data too."""
        if self.is_headless:
            super()._handle_exception(error)
            return
        self._trouble = f"{type(error).__name__}: {error}"
        self._return_code = 1
        self.exit(return_code=1)


def open_bay(converse: Callable[[], Any], mouse: bool = True) -> int:
    """Open the screen and stay until the person leaves. Returns the exit status."""
    app = BayScreen(converse)
    app.run(mouse=mouse)
    if app._trouble is not None:
        sys.stderr.write(f"bayhand: stopped by a fault in the program ({app._trouble}).\n")
        return 1
    return app.return_code or 0
