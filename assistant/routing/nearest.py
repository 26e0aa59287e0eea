"""Nearest: how near a line comes to the single sample phrases of an intent.

Owns the comparison with one phrase and the share of a line that an intent's phrases hold. What
all phrases of an intent say together is evidence.py's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from itertools import chain
from math import log, sqrt

BY_MEANING = 0.8        # what a stem counts as covered when only its group of meaning is held


class Nearest:
    """The phrases of each intent by their parts: stems and groups of meaning."""

    def __init__(self, phrases: list[list[list[str]]]) -> None:
        """phrases  for each intent, for each of its phrases, the phrase's parts, each once."""
        self._phrases = phrases
        self._sets: dict[int, list[tuple[frozenset[str], float]]] = {}
        every = [parts for each in phrases for parts in each]
        total = len(every) + 1
        self._unheard = log(total) ** 2
        self._rarity = {
            part: log(total / count) ** 2
            for part, count in Counter(chain.from_iterable(every)).items()
        }
        holders: Counter[str] = Counter()
        for each in phrases:
            holders.update(set(chain.from_iterable(each)))
        self._holders = holders

    def knows(self, part: str) -> bool:
        """Whether any phrase has the part."""
        return part in self._rarity

    def of(self, parts: Sequence[str], intent: int) -> float:
        """The cosine, 0..1, between the line and the intent's nearest phrase.

        parts  of the line, each once. Those that no phrase holds lengthen the line, and so lower
               every cosine.
        """
        rarity, unheard = self._rarity, self._unheard
        length = sqrt(sum(rarity.get(part, unheard) for part in parts))
        best = 0.0
        for phrase, size in self._of_intent(intent):
            shared = sum(rarity[part] for part in parts if part in phrase)
            best = max(best, shared / (length * size)) if shared > 0 else best
        return best

    def coverage(
        self, stems: Sequence[str], groups: Mapping[str, Iterable[int]], intent: int
    ) -> float:
        """The share of the line, by rarity among intents, that the intent's phrases hold.

        groups  the line's groups of meaning, with the places of the stems that name each
        """
        phrases = self._of_intent(intent)
        meant = {
            place for group, places in groups.items() for place in places
            if any(group in phrase for phrase, _ in phrases)
        }
        total = covered = 0.0
        for place, part in enumerate(stems):
            weight = log((len(self._phrases) + 1) / (self._holders[part] + 0.5))
            if weight <= 0:
                continue
            total += weight
            if any(part in phrase for phrase, _ in phrases):
                covered += weight
            elif place in meant:
                covered += BY_MEANING * weight
        return covered / total if total else 1.0

    def _of_intent(self, intent: int) -> list[tuple[frozenset[str], float]]:
        """The intent's phrases as sets, each with its length."""
        found = self._sets.get(intent)
        if found is None:
            rarity = self._rarity
            found = self._sets[intent] = [
                (frozenset(parts), sqrt(sum(rarity[part] for part in parts)) or 1.0)
                for parts in self._phrases[intent]
            ]
        return found

    def to_data(self) -> list[list[list[str]]]:
        """As plain data, for JSON."""
        return self._phrases

    @classmethod
    def from_data(cls, data: list[list[list[str]]]) -> Nearest:
        return cls(data)
