"""Written: a file of the shop, put in place whole or not at all, with what stood before beside it.

Owns the writing: aside, synced, renamed; the one step back; a damaged file set aside, never written
over. What stands in a file is the business of whoever hands over its text.
"""

from __future__ import annotations

import os
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

BEFORE = ".before"      # ends the name of a file that holds what the last write replaced
DAMAGED = ".damaged"    # ends the name of one that was set aside; neither is read as TOML
_PRIVATE = 0o600


class Moved(Exception):
    """The file is no longer what was written: somebody else has changed it since."""


@dataclass(frozen=True, slots=True)
class Written:
    """One write that can be taken back.

    before  what the file held; None when there was none
    after   what it holds since; None when it was taken away
    """

    path: Path
    before: bytes | None
    after: bytes | None

    def take_back(self) -> None:
        """Put back what stood before.

        Raises Moved when the file has been changed by another since, OSError when it cannot be.
        """
        if standing(self.path) != self.after:
            raise Moved
        replace_with(self.path, self.before)


def standing(path: Path) -> bytes | None:
    """What the file holds now; None when there is none. Raises OSError when it cannot be read."""
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None


def write(path: Path, content: bytes | None, expected: bytes | None) -> Written:
    """Put a file in place, or with None take it away; what it held stays beside it.

    expected  what the writer has read there; None: no file
    The folder is made when it is missing; file and folder are for the user's eyes only.
    Raises Moved when something else stands there by now, OSError; the file then is what it was.
    """
    path = Path(os.path.realpath(path))  # a link to a shared file stays a link
    before = standing(path)
    if before != expected:
        raise Moved
    if before is not None and before != content:
        replace_with(path.with_name(path.name + BEFORE), before)
    replace_with(path, content)
    return Written(path, before, content)


def set_aside(path: Path, mark: str) -> Path:
    """Give a damaged file a name under which nobody reads it, and no two the same.

    mark  what tells it from others: the date
    Raises OSError.
    """
    number = 1
    while True:
        more = "" if number == 1 else f"-{number}"
        aside = path.with_name(f"{path.name}{DAMAGED}-{mark}{more}")
        if not os.path.lexists(aside):
            os.rename(path, aside)
            return aside
        number += 1


def replace_with(path: Path, content: bytes | None) -> None:
    """The file with this content and nothing in between; None: no file. Raises OSError."""
    if content is None:
        path.unlink(missing_ok=True)
        _sync_folder(path.parent)
        return
    import tempfile  # only who writes needs it

    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    # A short name of its own: that of the file may already be as long as a name can be.
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=".bayhand-", suffix=".new")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(aside, _PRIVATE)
        os.replace(aside, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(aside)
        raise
    _sync_folder(path.parent)


def _sync_folder(folder: Path) -> None:
    """Where a folder can be synced, so that the new name outlives a power cut too."""
    with suppress(OSError, AttributeError):
        handle = os.open(folder, os.O_RDONLY | getattr(os, "O_DIRECTORY", 0))
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
