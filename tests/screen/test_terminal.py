"""The program on a real terminal: it draws, takes keys, and gives the terminal back."""

from __future__ import annotations

import os
import re
import select
import signal
import subprocess
import sys
import time

import pytest

pty = pytest.importorskip("pty", reason="no pseudo-terminals on this system")
fcntl = pytest.importorskip("fcntl")
termios = pytest.importorskip("termios")

PATIENCE = 60.0
# Given back: the first screen, and a cursor that shows (ECMA-48 private modes 1049 and 25).
GIVEN_BACK = (b"\x1b[?1049l", b"\x1b[?25h")


class Terminal:
    """The program on a pseudo-terminal of 80x24."""

    def __init__(self, home: os.PathLike[str], **environment: str) -> None:
        self.leader, follower = pty.openpty()
        fcntl.ioctl(follower, termios.TIOCSWINSZ, b"\x18\x00\x50\x00\x00\x00\x00\x00")
        surroundings = {**os.environ, "TERM": "xterm-256color", "BAYHAND_HOME": str(home)}
        surroundings.pop("NO_COLOR", None)
        self.process = subprocess.Popen(
            [sys.executable, "-m", "assistant.cli"], stdin=follower, stdout=follower,
            stderr=follower, env={**surroundings, **environment}, start_new_session=True,
        )
        os.close(follower)
        self.seen = b""

    def type(self, keys: bytes) -> None:
        os.write(self.leader, keys)

    def until(self, wanted: bytes) -> None:
        """Read until the words were drawn."""
        end = time.monotonic() + PATIENCE
        while wanted not in self.seen:
            assert self.process.poll() is None, f"it left: {self.seen[-500:]!r}"
            assert time.monotonic() < end, f"{wanted!r} was not drawn: {self.seen[-2000:]!r}"
            self._read()

    def status(self) -> int:
        """Read to the end; the exit status."""
        end = time.monotonic() + PATIENCE
        while self.process.poll() is None and time.monotonic() < end:
            self._read()
        self._read()
        return self.process.wait(timeout=1)

    def _read(self) -> None:
        if select.select([self.leader], [], [], 0.1)[0]:
            try:
                self.seen += os.read(self.leader, 65_536)
            except OSError:  # the other end has closed
                time.sleep(0.05)

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        os.close(self.leader)


@pytest.fixture
def terminal(shop):
    opened = []

    def open_one(**environment):
        opened.append(Terminal(shop, **environment))
        return opened[-1]

    yield open_one
    for each in opened:
        each.close()


def test_it_draws_answers_and_leaves_with_status_0(terminal):
    screen = terminal()
    screen.until(b"What is in hand?")
    screen.type(b"how hot for an overlap\r")
    screen.until("107 °C".encode())
    screen.type(b"\x11")
    assert screen.status() == 0
    assert b"Traceback" not in screen.seen
    assert all(mode in screen.seen for mode in GIVEN_BACK)


def test_somebody_who_leaves_at_once_is_not_kept(terminal, tmp_path):
    screen = terminal(BAYHAND_HOME=str(tmp_path / "new"))
    screen.until(b"What is in hand?")
    screen.type(b"\x11")
    assert screen.status() == 0
    assert all(mode in screen.seen for mode in GIVEN_BACK)


def test_told_to_stop_it_gives_the_terminal_back(terminal):
    screen = terminal()
    screen.until(b"ctrl+q leave")
    screen.process.send_signal(signal.SIGTERM)
    screen.status()
    assert all(mode in screen.seen for mode in GIVEN_BACK)


def test_no_color_sends_no_colour(terminal):
    screen = terminal(NO_COLOR="1")
    screen.until(b"ctrl+q leave")
    screen.type(b"\x11")
    assert screen.status() == 0
    # ECMA-48 SGR: 30-37, 40-47, 90-97, 100-107 and 38/48 are colours; 39 and 49 the terminal's own.
    codes = {
        int(code)
        for group in re.findall(rb"\x1b\[([0-9;]*)m", screen.seen)
        for code in group.split(b";") if code
    }
    assert codes and not codes & {*range(30, 39), *range(40, 49), *range(90, 98), *range(100, 108)}


def test_a_terminal_that_only_knows_rows_gets_the_talk_line_by_line(terminal):
    screen = terminal(TERM="dumb")
    screen.until(b"Ctrl-D leaves")
    screen.type(b"thanks\n")
    screen.until(b"welcome")
    screen.type(b"\x04")
    assert screen.status() == 0
    assert b"\x1b" not in screen.seen
