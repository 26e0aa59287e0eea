"""App: the bay's screen: the board on the wall, the talk, and the bench with the line to type on.

Owns the layout, the keys and the way in and out. What is said comes from the conversation; how a
turn is drawn is drawing.py's.
"""

from __future__ import annotations

import asyncio
import os
import signal
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from textual.app import App, ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.message import Message
from textual.theme import Theme
from textual.widgets import Static

from assistant.reply import DONE, ERROR, Reply
from assistant.screen.asking import AskingLine
from assistant.screen.board import Board
from assistant.screen.drawing import ASKED, asked_block, pages, reply_block, welcome_block
from assistant.screen.history import History

_WELCOME = "What is in hand? Ask for a rule, a sum, or what to do next."
_EXAMPLES = (
    "how hot do I post-heat an overlap",
    "film for a rear bumper 92 by 31, 3 inch bleed",
    "help",
)
_LOOK_AT_TIMERS = 1.0  # seconds between two looks at the timers
_FURNITURE = 2  # rows of the bench: its edge and the line to type on

# The colours of a bay at night: floor grey, the amber of a heat lamp, the green of a dry panel.
_NIGHT = Theme(
    name="bay-night", primary="#e0a458", secondary="#8fa3ad", accent="#d9c27a",
    success="#9ccf8a", warning="#f0b45a", error="#e5787a", foreground="#e6e4de",
    background="#16191b", surface="#1d2124", panel="#24292c", dark=True,
)


class SetUp(Message):
    """The conversation is ready for lines, or could not be made."""

    def __init__(self, conversation: Any = None, error: Exception | None = None) -> None:
        super().__init__()
        self.conversation = conversation
        self.error = error


class Bench(Static):
    """The bench's edge: a line that carries the keys, or what is going on."""

    ALLOW_SELECT = False  # its words change: see Board

    def tell(self, words: str) -> None:
        width = self.app.size.width
        self.update(Content(f"── {words} ".ljust(width, "─")[:width]))


class BayScreen(App[None]):
    """The assistant on a full screen.

    converse  makes the conversation; called in a thread once the first frame is up, so that
              typing can begin at once
    turn      (conversation, line) -> Reply
    """

    ENABLE_COMMAND_PALETTE = False
    AUTO_FOCUS = "#asking"
    TITLE = "bayhand"

    CSS = """
    Screen { layout: vertical; }
    #talk { height: 1fr; padding: 0 1; }
    #bench { height: 1; color: $secondary; }
    #line { height: 1; }
    #prompt { width: 3; padding: 0 0 0 1; color: $primary; text-style: bold; }
    #asking, #asking:focus { width: 1fr; height: 1; border: none; padding: 0; background: $panel; }
    """

    BINDINGS = [
        Binding("pageup", "talk_up", "scroll up", priority=True),
        Binding("pagedown", "talk_down", "scroll down", priority=True),
        Binding("ctrl+home", "talk_first", "first turn", priority=True),
        Binding("ctrl+end", "talk_last", "last turn", priority=True),
        Binding("f2", "fold_board", "fold the board", priority=True),
        Binding("ctrl+q", "quit", "leave", priority=True),
    ]

    def __init__(
        self, converse: Callable[[], Any], turn: Callable[[Any, str], Reply] | None = None
    ) -> None:
        # With this the framework sends no colour codes at all under NO_COLOR, instead of greys.
        no_color = "NO_COLOR" in os.environ
        super().__init__(ansi_color=True if no_color else None)
        self._converse = converse
        self._turn = turn or (lambda conversation, line: conversation.turn(line))
        self._conversation: Any = None
        # Not one of the framework's own workers: leaving would wait for those to finish.
        self._setting_up = threading.Thread(target=self._set_up, daemon=True)
        self._waiting: list[str] = []
        self._shown: tuple[Reply, int, int] | None = None  # reply, rows of its pages, last page
        self._leaving = False
        self.failed = False
        self.trouble: str | None = None
        if no_color:
            self.theme = "ansi-dark"
        else:
            self.register_theme(_NIGHT)
            self.theme = _NIGHT.name

    def compose(self) -> ComposeResult:
        yield Board(id="board")
        yield History(id="talk")
        yield Bench(id="bench", markup=False)
        with Horizontal(id="line"):
            yield Static(Content(ASKED), id="prompt", markup=False)
            yield AskingLine(id="asking")

    @property
    def talk(self) -> History:
        return self.query_one("#talk", History)

    @property
    def board(self) -> Board:
        return self.query_one("#board", Board)

    @property
    def bench(self) -> Bench:
        return self.query_one("#bench", Bench)

    # -- the way in and out -------------------------------------------------------------------

    def on_mount(self) -> None:
        self._leave_cleanly_when_told()
        self.talk.append(welcome_block(_WELCOME, _EXAMPLES))
        self.watch(self.talk, "follow", self._tell_bench)
        self.set_interval(_LOOK_AT_TIMERS, self.ring)
        self.call_after_refresh(self._setting_up.start)

    def _leave_cleanly_when_told(self) -> None:
        """A terminal that is closed or a shutdown must not leave the terminal torn."""
        if self.is_headless:
            return
        loop = asyncio.get_running_loop()
        for name in ("SIGTERM", "SIGHUP"):
            if hasattr(signal, name):
                try:
                    loop.add_signal_handler(getattr(signal, name), self.exit)
                except (NotImplementedError, RuntimeError):  # not every system's loop can
                    return

    def _set_up(self) -> None:
        """Make the conversation; runs in a thread of its own."""
        try:
            outcome = SetUp(self._converse())
        except Exception as error:
            outcome = SetUp(error=error)
        with suppress(RuntimeError):  # the screen was left in the meantime
            self.post_message(outcome)

    def on_set_up(self, event: SetUp) -> None:
        if event.error is not None:
            raise event.error
        self._conversation = event.conversation
        for problem in self._conversation.knowledge.problems:
            told = Reply(DONE, f"Left out: {problem}", heading="The shop's own files")
            self.talk.append(reply_block(told, self._room(None)))
        self._tell_bench()
        waiting, self._waiting = self._waiting, []
        for line in waiting:
            self.say(line)

    @property
    def is_set_up(self) -> bool:
        """Whether lines are answered, no longer kept waiting."""
        return self._conversation is not None

    @property
    def is_setting_up(self) -> bool:
        return self._setting_up.is_alive()

    def _handle_exception(self, error: Exception) -> None:
        """Leave with one sentence: a traceback would print local variables, customers' data too."""
        self.trouble = f"{type(error).__name__}: {error}".partition("\n")[0]
        if self.is_headless:
            super()._handle_exception(error)
            return
        self._return_code = 1
        self.exit(return_code=1)

    # -- turns --------------------------------------------------------------------------------

    def on_input_submitted(self, event: AskingLine.Submitted) -> None:
        line = event.value
        event.input.value = ""
        if not line.strip():
            if self._leaving:
                self.exit()
            return
        self.query_one("#asking", AskingLine).keep(line)
        if self._conversation is None:
            self._waiting.append(line)
            self._tell_bench()
        else:
            self.say(line)

    def say(self, line: str) -> Reply:
        """Take a line as if it were typed; draw it and the reply."""
        reply = self._turn(self._conversation, line)
        self.failed |= reply.outcome == ERROR
        asked = asked_block(line)
        self.talk.follow = True
        self.talk.append(asked)
        if reply.intent == "more":
            self.talk.append(self._next_page(len(asked(self._columns))))
        else:
            # A thank-you in between leaves the figure that is being worked to on the board.
            on_board = self.board.reply if reply.outcome == DONE else reply
            rows = self._room(on_board, len(asked(self._columns)))
            self._shown = (reply, rows, 0)
            self.board.show_reply(on_board)
            self.talk.append(reply_block(reply, rows))
        self._leaving = reply.intent == "goodbye"
        self._tell_bench()
        return reply

    @property
    def _columns(self) -> int:
        return max(self.talk.scrollable_content_region.width, 1)

    def _room(self, on_board: Reply | None, asked: int = 2) -> int:
        """Rows for a page of a reply, so that it is seen whole with its question and heading."""
        talk = self.size.height - _FURNITURE - self.board.height_for(on_board)
        return max(talk - (asked - 1) - 1, 3)

    def _next_page(self, asked: int):
        """The next page of the reply on the screen, whose pages are those of this window."""
        if self._shown is not None:
            reply, rows, page = self._shown
            if page + 1 < len(pages(reply, self._columns, rows)):
                self._shown = (reply, rows, page + 1)
                return reply_block(reply, rows, page + 1)
        return reply_block(Reply(DONE, "That was all of it."), self._room(None, asked))

    def ring(self) -> None:
        """Ring the bell for timers whose time is up, and say which, whatever is being typed."""
        due = self._conversation.due() if self._conversation is not None else ()
        for words in due:
            self.bell()
            told = Reply(DONE, words, intent="timer", heading="Timer")
            self.talk.append(reply_block(told, self._room(None)))

    # -- the bench ----------------------------------------------------------------------------

    def on_resize(self) -> None:
        # The event comes before the screen has its new size.
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        self.board.redraw()
        self._tell_bench()

    def _tell_bench(self) -> None:
        if self._conversation is None:
            self.bench.tell("your line waits" if self._waiting else "setting up the rules")
        elif self._leaving:
            self.bench.tell("enter leaves · or ask on")
        elif not self.talk.follow:
            self.bench.tell("newer lines below: ctrl+end")
        elif self.size.width >= 70:
            self.bench.tell("↑↓ earlier lines · PgUp PgDn scroll · F2 board · ctrl+q leave")
        else:
            self.bench.tell("↑↓ PgUp PgDn · F2 · ctrl+q leave")

    def action_talk_up(self) -> None:
        self.talk.scroll_page_up(animate=False)

    def action_talk_down(self) -> None:
        self.talk.scroll_page_down(animate=False)

    def action_talk_first(self) -> None:
        self.talk.scroll_home(animate=False)

    def action_talk_last(self) -> None:
        self.talk.scroll_end(animate=False)

    def action_fold_board(self) -> None:
        self.board.fold()


def open_bay(
    converse: Callable[[], Any], turn: Callable[[Any, str], Reply], mouse: bool = True
) -> int:
    """Open the screen and stay until the person leaves.

    Returns the exit status: 1 if the program met a fault or any turn ended in an error, else 0.
    """
    app = BayScreen(converse, turn)
    app.run(mouse=mouse)
    if app.trouble is not None:
        sys.stderr.write(f"bayhand: stopped by a fault in the program ({app.trouble}).\n")
    status = 1 if app.failed or app.trouble is not None else app.return_code or 0
    if app.is_setting_up:
        # Whoever leaves at once is not kept waiting. The thread has nothing to lose: what it keeps
        # on file is written aside and renamed. Ended by the interpreter instead, a thread that is
        # inside a compiled library can bring the process down with a noise.
        sys.stderr.flush()
        os._exit(status)
    return status
