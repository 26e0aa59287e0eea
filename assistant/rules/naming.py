"""Naming: what people call a term or a body class, brought to one form.

Owns when two spellings are the same name: case, hyphens, apostrophes and plurals do not count.
What the names stand for is glossary_entry.py's and vehicles.py's.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from assistant.hearing.spelling import folded

_WORD = re.compile(r"[^\W_]+(?:['’‘`][^\W_]+)*")
_SHORTEST_PLURAL = 4


def plain_words(text: str) -> list[str]:
    """The words of a text without accents, apostrophes and marks; the form stays as it is."""
    return [folded(word) for word in _WORD.findall(text)]


def plain_name(text: str) -> str:
    """The one form of a name: `Wrap-behinds` and `wrap behind` are both `wrap behind`."""
    return " ".join(_singular(word) for word in plain_words(text))


def names_of(named: Mapping[str, Iterable[str]]) -> dict[str, list[str]]:
    """Plain name -> ids that have it, in the order given.

    named  id -> all its names, as written
    """
    found: dict[str, list[str]] = {}
    for entry_id, names in named.items():
        for name in names:
            ids = found.setdefault(plain_name(name), [])
            if entry_id not in ids:
                ids.append(entry_id)
    return found


def _singular(word: str) -> str:
    if len(word) < _SHORTEST_PLURAL or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > _SHORTEST_PLURAL:
        return word[:-3] + "y"
    if word.endswith(("xes", "ches", "shes", "sses")):
        return word[:-2]
    return word[:-1]
