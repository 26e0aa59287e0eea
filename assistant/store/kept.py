"""Kept: results of long work on file, so that they need not be worked out again.

Owns the file's form: a header with a key and a checksum, then JSON, then a shelf of small pieces.
What is kept, and when it is out of date, is the business of whoever keeps it. Nothing here may
ever be needed: a file that is missing, damaged or out of date is no result, and one that cannot be
written is no harm.
"""

from __future__ import annotations

import json
import os
import zlib
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from assistant.store.paths import home

_FORM = "bayhand 1"


def kept_folder() -> Path:
    """Where results are kept: in the shop's folder."""
    return home() / "kept"


class Shelf:
    """Many small JSON values in one piece of bytes, each read only when it is wanted."""

    def __init__(self, raw: bytes = b"") -> None:
        self._raw = raw
        self._new: list[bytes] = []
        self._length = len(raw)

    def put(self, value: Any) -> tuple[int, int]:
        """Add a value; the place to ask for it by."""
        piece = _dumped(value)
        self._new.append(piece)
        place = self._length, self._length + len(piece)
        self._length = place[1]
        return place

    def get(self, place: Sequence[int]) -> Any:
        """The value at a place. Raises ValueError when there is none."""
        return json.loads(self._raw[place[0]:place[1]])

    def as_bytes(self) -> bytes:
        return b"".join((self._raw, *self._new))


def recall(path: Path, key: str) -> tuple[Any, Shelf] | None:
    """What was kept under `key`; None when there is nothing sound for that key."""
    try:
        raw = path.read_bytes()
        header, _, body = raw.partition(b"\n")
        if header.decode("ascii") != f"{_FORM} {key} {zlib.crc32(body):08x}":
            return None
        data, _, shelf = body.partition(b"\n")
        return json.loads(data), Shelf(shelf)
    except (OSError, ValueError, RecursionError):
        return None


def _dumped(value: Any) -> bytes:
    # JSON writes no line break of its own, so that one can part the pieces of a file.
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode("utf-8")


def keep(path: Path, key: str, data: Any, shelf: Shelf) -> None:
    """Keep JSON data under a key: written aside, then renamed; for the user's eyes only."""
    _put(path, key, _dumped(data) + b"\n" + shelf.as_bytes())


def amend(path: Path, old: str, new: str, change: Callable[[str, Shelf], str]) -> None:
    """Keep under a new key what was kept under the old one, with a change to its JSON.

    change  is handed the JSON text and the shelf, on which it may put more, and gives the new text;
            a ValueError of it leaves all as it was
    """
    try:
        raw = path.read_bytes()
        header, _, body = raw.partition(b"\n")
        if header.decode("ascii") != f"{_FORM} {old} {zlib.crc32(body):08x}":
            return
        data, _, pieces = body.partition(b"\n")
        shelf = Shelf(pieces)
        changed = change(data.decode("utf-8"), shelf)
    except (OSError, ValueError, RecursionError):
        return
    _put(path, new, changed.encode("utf-8") + b"\n" + shelf.as_bytes())


def _put(path: Path, key: str, body: bytes) -> None:
    header = f"{_FORM} {key} {zlib.crc32(body):08x}\n".encode("ascii")
    import tempfile  # only who writes needs it

    aside = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        handle, aside = tempfile.mkstemp(dir=path.parent, prefix=path.name, suffix=".new")
        with os.fdopen(handle, "wb") as file:
            file.write(header + body)
        os.replace(aside, path)
    except OSError:  # a full disk or a read-only folder: the next start works it out again
        if aside is not None:
            with suppress(OSError):
                os.unlink(aside)
