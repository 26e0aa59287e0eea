"""Paths: where the shop's own files lie.

Owns the places, nothing in them: house rules and film sheets are read by rules/.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

HOME_VARIABLE = "BAYHAND_HOME"


def home(environment: Mapping[str, str] | None = None) -> Path:
    """The folder of everything that belongs to the shop; it need not exist.

    BAYHAND_HOME names it (`~` is read as the user's home); otherwise the user's data folder of
    this system. Nothing is made or opened.
    """
    given = (os.environ if environment is None else environment).get(HOME_VARIABLE, "").strip()
    if given:
        try:
            return Path(given).expanduser()
        except RuntimeError:  # no such user
            return Path(given)
    # Only asked when nobody said: the answer to a single question need not pay for it.
    from platformdirs import user_data_dir

    return Path(user_data_dir("bayhand", appauthor=False))


def house_rules(home_folder: Path) -> Path:
    """The folder of the shop's own rules."""
    return home_folder / "house"


def film_sheets(home_folder: Path) -> Path:
    """The folder of the shop's film sheets."""
    return home_folder / "films"


def shipped_folder() -> Path:
    """The knowledge that comes with the program: inside the package when installed, beside it in a
    checkout.
    """
    room = Path(__file__).resolve().parents[1]
    inside = room / "_knowledge"
    return inside if inside.is_dir() else room.parent / "knowledge"
