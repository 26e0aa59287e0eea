"""Streams: text in and out of the process, whatever bytes and encodings stand at either end.

Owns the reading of typed lines and the writing of rows. What is said belongs to conversation/,
which command was wanted to cli.py.
"""

from __future__ import annotations

import codecs
import errno
import os
import sys
from collections.abc import Iterator
from typing import TextIO

from assistant.hearing.plain import plain

# What a narrow encoding cannot print, in letters that it can.
_LETTERS = str.maketrans({
    "°": " deg ", "µ": "u", "μ": "u", "×": "x", "²": "2", "³": "3", "½": "1/2", "¼": "1/4",
    "¾": "3/4", "–": "-", "—": "-", "−": "-", "≥": ">=", "≤": "<=", "→": "->", "…": "...",
    "’": "'", "‘": "'", "“": '"', "”": '"', "′": "'", "″": '"', "π": "pi", "·": "-",
    "█": "#", "▀": "#", "▄": "#", "│": "|", "─": "-", "┌": "+", "┐": "+", "└": "+", "┘": "+",
})


def is_wide(stream: TextIO | None) -> bool:
    """Whether the stream can print every letter there is."""
    return "utf" in (getattr(stream, "encoding", None) or "").lower()


def printable(text: str, encoding: str | None) -> str:
    """The text in letters that the encoding knows: `225 °F` becomes `225 deg F` in ASCII."""
    encoding = encoding or "ascii"
    try:
        text.encode(encoding)
        return text
    except (UnicodeEncodeError, LookupError):
        plainer = text.translate(_LETTERS).replace("  deg ", " deg ").replace(" deg )", " deg)")
        return plainer.encode("ascii", "replace").decode("ascii")


def speak(text: str, stream: TextIO | None = None) -> None:
    """Write a line (to standard output) and hand it on at once: somebody may wait for it.

    Control characters of any origin are shown, never sent. Raises OSError when nobody can be
    written to: a closed stream, a full disk, a reader that has gone.
    """
    stream = stream or sys.stdout
    if stream is None:  # the process was started with its output closed
        raise OSError(errno.EBADF, "standard output is closed")
    stream.write(printable(plain(text), getattr(stream, "encoding", None)) + "\n")
    stream.flush()


def complain(text: str) -> None:
    """Write a line to standard error; where that is closed or gone, nowhere."""
    if sys.stderr is None:
        return
    try:
        speak(text, sys.stderr)
    except (OSError, ValueError):
        hush(sys.stderr)


def hush(stream: TextIO | None) -> None:
    """Hand the rest of a stream to nobody, so that closing it at the end cannot fail."""
    try:
        if stream is not None:
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    except (OSError, ValueError):
        return  # it has no file behind it: nothing is closed at the end


def typed_lines(stream: TextIO) -> Iterator[str]:
    """The lines of a stream, one at a time, whatever bytes they hold.

    Bytes that are not UTF-8 come out as the replacement character; a byte order mark at the start
    and the line ends of all systems are dropped; the last line needs no line end.
    """
    raw = getattr(stream, "buffer", None)
    if raw is None:
        yield from (line.rstrip("\r\n") for line in stream)
        return
    first = True
    # readline and not iteration: a program on the other end waits for its reply line by line.
    while line := raw.readline():
        if first:
            line = line.removeprefix(codecs.BOM_UTF8)
            first = False
        yield line.decode("utf-8", "replace").rstrip("\r\n")


def argument(text: str) -> str:
    """An argument of the command line as it was typed, even where the locale is not UTF-8."""
    try:
        text.encode("utf-8")
        return text
    except UnicodeEncodeError:  # bytes that the locale could not read stand in it as surrogates
        return text.encode(sys.getfilesystemencoding(), "surrogateescape").decode(
            "utf-8", "replace"
        )
