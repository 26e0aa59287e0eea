"""Folder: finding and opening TOML files, whatever state they are in.

Owns what can go wrong with a file as such: missing, a folder, unreadable, too big, not UTF-8, not
TOML. What the tables in it mean is load.py's.
"""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assistant.hearing.plain import plain
from assistant.rules.problem import Problem

LARGEST = 1_000_000  # bytes; a file of rules that a person keeps is a hundredth of it
_AT_LINE = re.compile(r"\s*\(at line (\d+), column (\d+)\)$")
_AT_END = re.compile(r"\s*\(at end of document\)$")


@dataclass(frozen=True, slots=True)
class Document:
    """A file that was read: its name as a person would write it, its stem, its tables."""

    shown: str
    stem: str
    data: dict[str, Any]


def toml_files(folder: Path, shown: str, problems: list[Problem]) -> Iterator[tuple[Path, str]]:
    """The files ending in .toml under a folder, sorted, with the names to show; none if there is no
    folder. Hidden files are passed over.
    """
    if not os.path.lexists(folder):
        return
    if not folder.is_dir():
        problems.append(Problem(shown, "", "", "is no folder", "Put a folder in its place."))
        return

    def failed(error: OSError) -> None:
        where = plain(os.path.join(shown, os.path.relpath(str(error.filename), folder)))
        problems.append(Problem(
            where, "", "", f"cannot be opened ({plain(error.strerror or 'refused')})",
            "Give yourself leave to read it, or take it away.",
        ))

    for base, inner, files in os.walk(folder, onerror=failed):
        inner.sort()
        # A folder by such a name holds no rules that anybody would find: it is told, not entered.
        named = [name for name in inner if name.endswith(".toml")]
        inner[:] = [name for name in inner if not name.startswith(".") and name not in named]
        for name in sorted([*files, *named]):
            if name.endswith(".toml") and not name.startswith("."):
                path = Path(base, name)
                below = path.relative_to(folder).as_posix()
                yield path, plain(f"{shown}/{below}")


def read(path: Path, shown: str, clean: bool = False) -> Document | Problem:
    """The tables of a file, or what is wrong with it.

    clean  make control characters in its texts visible (files that are not our own)
    """
    try:
        if path.is_dir():
            return Problem(shown, "", "", "is a folder",
                           "Move its files out, or rename it so that it does not end in .toml.")
        if not path.is_file():
            return Problem(shown, "", "", "is no file", "Put a text file there, or take it away.")
        size = path.stat().st_size
        if size > LARGEST:
            return Problem(shown, "", "", f"is {size / 1e6:.1f} MB",
                           f"A file may have {LARGEST / 1e6:.0f} MB: split it, or take it away.")
        raw = path.read_bytes()
    except OSError as error:
        return Problem(shown, "", "", f"cannot be read ({plain(error.strerror or 'refused')})",
                       "Give yourself leave to read it, or take it away.")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return Problem(shown, "", "", "is not UTF-8 text", "Save it as UTF-8.",
                       line=raw.count(b"\n", 0, error.start) + 1)
    try:
        data = tomllib.loads(text)
        if clean:
            data = _cleaned(data)
    except RecursionError:
        return Problem(shown, "", "", "is nested too deep", "Write plain tables and lists.")
    except ValueError as error:
        return _not_toml(shown, str(error))
    return Document(shown, path.stem, data)


def _not_toml(shown: str, message: str) -> Problem:
    found = _AT_LINE.search(message)
    line = int(found[1]) if found else None
    message = _AT_END.sub("", _AT_LINE.sub("", message))
    told = plain(message[:1].lower() + message[1:]) or "cannot be understood"
    end = "" if found else " at its end"
    return Problem(shown, "", "", f"is not TOML{end}: {told}",
                   "Mend it there: texts in quotes, lists in [ ], one key = value a line.", line)


def _cleaned(value: Any) -> Any:
    if isinstance(value, str):
        return plain(value)
    if isinstance(value, list):
        return [_cleaned(each) for each in value]
    if isinstance(value, dict):
        return {plain(key): _cleaned(each) for key, each in value.items()}
    return value
