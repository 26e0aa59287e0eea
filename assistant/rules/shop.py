"""Shop: the files that the program itself writes into the shop's folder.

Owns where they lie, how they are read before they are changed, and their form as text. What stands
in them is decisions.py's and sheets.py's; how a file is put in place store/written.py's.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assistant.store.paths import film_sheets, house_rules
from assistant.store.written import Written, set_aside, standing, write


@dataclass(frozen=True, slots=True)
class Standing:
    """A file of the shop as it stands.

    raw    its bytes; None when there is none
    data   its tables
    aside  the name under which a damaged one was set aside before
    """

    path: Path
    raw: bytes | None
    data: dict[str, Any]
    aside: Path | None = None


def house_place(home: Path) -> Path:
    """The folder for house rules: `house/`, unless the shop keeps its files loose in its folder,
    which a new `house/` would hide."""
    return home if _keeps_loose_files(home) else house_rules(home)


def sheet_place(home: Path) -> Path:
    """The folder for film sheets, as for house rules."""
    return home if _keeps_loose_files(home) else film_sheets(home)


def _keeps_loose_files(home: Path) -> bool:
    # A folder that cannot be looked into is told when it is written to.
    if os.path.isdir(house_rules(home)) or os.path.isdir(film_sheets(home)):
        return False
    with suppress(OSError):
        return any(home.glob("*.toml"))
    return False


def read_or_set_aside(path: Path, mark: str, holds: Mapping[str, type]) -> Standing:
    """The tables of a file that is about to be changed; a damaged one is set aside first.

    mark   what tells the name of a damaged file from others: the date
    holds  the sections it may hold and what each must be; another section is kept as it is
    Raises OSError.
    """
    raw = standing(path)
    if raw is None:
        return Standing(path, None, {})
    try:
        data = tomllib.loads(raw.decode("utf-8-sig"))
        sound = all(isinstance(data.get(name, kind()), kind) for name, kind in holds.items())
    except (ValueError, RecursionError):
        sound, data = False, {}
    if sound:
        return Standing(path, raw, data)
    return Standing(path, None, {}, set_aside(path, mark))


def put(file: Standing, data: Mapping[str, Any], opening: str) -> Written:
    """Write tables in the place of what stands in a file; none at all: take the file away.

    opening  the comment at its top
    Raises written.Moved when another has changed the file since it was read, OSError.
    """
    import tomli_w  # only who writes needs it

    text = f"{opening.rstrip()}\n\n{tomli_w.dumps(data)}" if data else None
    return write(file.path, None if text is None else text.encode("utf-8"), file.raw)
