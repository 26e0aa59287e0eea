"""Nearest: the sample phrase of each intent that comes nearest to a line.

Owns the comparison with single phrases. What all phrases of an intent say together is
evidence.py's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import log, sqrt
from typing import Any


class Nearest:
    """Sample phrases by the parts they hold. Build with `build`."""

    def __init__(self, owners: list[int], held: dict[str, list[int]]) -> None:
        """owners  the intent of each phrase. held  part -> the phrases holding it, as numbers."""
        self._owners = owners
        self._held = held
        total = len(owners) + 1
        self._rarity = {
            part: log(total / len(phrases)) ** 2 for part, phrases in held.items()
        }
        self._holders: dict[str, frozenset[int]] = {}
        self._unheard = log(total) ** 2
        squares = [0.0] * len(owners)
        for part, phrases in held.items():
            rarity = self._rarity[part]
            for phrase in phrases:
                squares[phrase] += rarity
        self._size = [sqrt(square) or 1.0 for square in squares]

    @classmethod
    def build(cls, phrases: Sequence[Sequence[Iterable[str]]]) -> Nearest:
        """phrases  for each intent, for each of its phrases, the phrase's parts, each once."""
        owners: list[int] = []
        held: dict[str, list[int]] = {}
        for intent, parts_of_phrases in enumerate(phrases):
            for parts in parts_of_phrases:
                for part in parts:
                    held.setdefault(part, []).append(len(owners))
                owners.append(intent)
        return cls(owners, held)

    def of(self, parts: Iterable[str]) -> dict[int, float]:
        """Intent -> the cosine, 0..1, between the line and its nearest phrase.

        parts  of the line, each once. Those that no phrase holds lengthen the line, and so
        lower every cosine.
        """
        shared: dict[int, float] = {}
        square = 0.0
        for part in parts:
            phrases = self._held.get(part)
            if phrases is None:
                square += self._unheard
                continue
            rarity = self._rarity[part]
            square += rarity
            for phrase in phrases:
                shared[phrase] = shared.get(phrase, 0.0) + rarity
        best: dict[int, float] = {}
        if square <= 0:
            return best
        length = sqrt(square)
        owners, size = self._owners, self._size
        for phrase, sum_ in shared.items():
            near = sum_ / (length * size[phrase])
            intent = owners[phrase]
            if near > best.get(intent, 0.0):
                best[intent] = near
        return best

    def holders(self, part: str) -> frozenset[int]:
        """The intents of which a phrase holds the part."""
        found = self._holders.get(part)
        if found is None:
            owners = self._owners
            found = frozenset(owners[phrase] for phrase in self._held.get(part, ()))
            if found:
                self._holders[part] = found
        return found

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON."""
        return {"owners": self._owners, "held": self._held}

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Nearest:
        return cls(data["owners"], data["held"])
