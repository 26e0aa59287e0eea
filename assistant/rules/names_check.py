"""Names check: what a careful colleague would send back of a glossary and of body classes.

Owns the findings on their names and their words. What their links must lead to is links.py's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Protocol

from assistant.rules.knowledge import Knowledge
from assistant.rules.naming import plain_name
from assistant.rules.problem import Problem, quoted
from assistant.rules.template import bare

LONGEST_MEANING = 50  # words; longer, it is a lesson and belongs to a rule
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_NUMBER = re.compile(r"\d+(?:[.,/]\d+)*")


class _Named(Protocol):
    @property
    def id(self) -> str: ...
    @property
    def file(self) -> str: ...

    def names(self) -> tuple[str, ...]: ...


def names_unsound(knowledge: Knowledge) -> Iterator[Problem]:
    """The findings, words first."""
    held: dict[str, str] = {}
    for entry in knowledge.words.values():
        table = f"words.{entry.id}"
        yield from _of_names(entry, table)
        yield from _doubles(entry, table, held)
        for key in ("means", "not_to_confuse"):
            text = bare(getattr(entry, key))
            number = _NUMBER.search(text)
            if number is not None:
                yield Problem(entry.file, table, key, f"says {quoted(number[0])}",
                              "Name the figure of a rule: {rule-id.figure}.")
        if len(entry.means.split()) > LONGEST_MEANING:
            yield Problem(entry.file, table, "means", f"has {len(entry.means.split())} words",
                          f"At most {LONGEST_MEANING}: what is done with it belongs to a rule.")
    for vehicle in knowledge.vehicles.values():
        yield from _of_names(vehicle, "vehicle")


def _of_names(entry: _Named, table: str) -> Iterator[Problem]:
    if not _ID.fullmatch(entry.id):
        yield Problem(entry.file, table, "", "is no good id",
                      "Lower case, digits and hyphens: like-this-one.")
    seen: set[str] = set()
    for name in entry.names():
        plain = plain_name(name)
        if plain in seen:
            yield Problem(entry.file, table, "also", f"has {quoted(name)} a second time",
                          "Case, hyphens and plurals do not count: once is enough.")
        seen.add(plain)


def _doubles(entry: _Named, table: str, held: dict[str, str]) -> Iterator[Problem]:
    """Names that another entry has too: nobody could say which is meant."""
    for name in entry.names():
        holder = held.setdefault(plain_name(name), entry.id)
        if holder != entry.id:
            yield Problem(entry.file, table, "also", f"has {quoted(name)}, which {holder} has too",
                          "Leave it with the one that people mean.")
