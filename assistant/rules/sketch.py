"""Sketch: a drawing in block characters that goes with a rule.

Owns what a terminal can show of it. When it is shown is reply.py's.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

MOST_ROWS = 12
MOST_COLUMNS = 60


def sketch_fault(rows: Sequence[str]) -> tuple[str, str] | None:
    """What is wrong with a sketch, and what to do about it; None when nothing is.

    rows  from the top; at most MOST_ROWS of MOST_COLUMNS, each character one column wide
    """
    if len(rows) > MOST_ROWS:
        return f"has {len(rows)} rows", f"At most {MOST_ROWS}: draw less, or label less."
    for number, row in enumerate(rows, 1):
        if len(row) > MOST_COLUMNS:
            return (f"has {len(row)} columns in row {number}",
                    f"At most {MOST_COLUMNS}, so that it fits a small terminal.")
        for character in row:
            if unicodedata.category(character)[0] in "CM" or (
                unicodedata.east_asian_width(character) in "WF"
            ):
                return (f"has {ascii(character)} in row {number}",
                        "Every character must take exactly one column.")
    if rows and not any(character.isalpha() for row in rows for character in row):
        return "has no word in it", "Label what is drawn."
    return None
