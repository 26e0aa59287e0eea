"""Problem: something wrong in a file of the knowledge, as data.

Owns its shape and its one sentence. What counts as wrong is said where it is found (models.py,
load.py, layers.py, check.py); who prints it is the front ends' business.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from assistant.hearing.plain import plain

_LONGEST_QUOTE = 60
_NEAR = 60  # likeness of letters from which a name is taken for a misspelt one


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong, where, and what to write instead.

    file    as a person would name it: `knowledge/rules/bay.toml`
    table   the TOML table: `rules.dew-point-margin.figures.margin`; empty for the file itself
    key     the key in it; empty for the table itself
    wrong   goes on from the key: `is "degC", which is a temperature`
    remedy  what to do: `A margin is a difference: write "dC".`
    line    only when the parser told it
    """

    file: str
    table: str
    key: str
    wrong: str
    remedy: str
    line: int | None = None

    def __str__(self) -> str:
        where = ".".join(part for part in (self.table, self.key) if part)
        line = "" if self.line is None else f" line {self.line}"
        place = f"{where} " if where else ""
        return f"{self.file}{line}: {place}{self.wrong.rstrip('.')}. {self.remedy}".rstrip()


def quoted(value: Any) -> str:
    """A value of a file in quotes, short and harmless on a terminal."""
    if isinstance(value, bool):
        text = "true" if value else "false"
    elif isinstance(value, str):
        text = json.dumps(value, ensure_ascii=False)
    elif isinstance(value, (list, tuple)):
        text = "a list"
    elif isinstance(value, dict):
        text = "a table"
    else:
        text = str(value)
    text = plain(text)
    if len(text) > _LONGEST_QUOTE:
        text = text[:_LONGEST_QUOTE - 4].rstrip() + '..."'
    return text


def listed(words: Iterable[Any], last: str = "or") -> str:
    """`a, b or c`."""
    texts = [str(word) for word in words]
    if len(texts) < 2:
        return "".join(texts)
    return f"{', '.join(texts[:-1])} {last} {texts[-1]}"


def near(name: str, known: Iterable[str], otherwise: str) -> str:
    """A remedy for a name that nobody has: the one that it resembles in its letters."""
    from rapidfuzz import fuzz, process

    found = process.extractOne(name, list(known), scorer=fuzz.ratio, score_cutoff=_NEAR)
    return otherwise if found is None else f'Did you mean "{found[0]}"?'
