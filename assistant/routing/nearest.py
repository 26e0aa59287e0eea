"""Nearest: how near a line comes to the single sample phrases of an intent.

Owns the comparison with one phrase and the share of a line that an intent's phrases hold. What
all phrases of an intent say together is evidence.py's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain
from math import fsum, log, sqrt
from operator import mul

BY_MEANING = 0.8        # what a stem counts as covered when only its group of meaning is held


@dataclass(frozen=True, slots=True)
class _Held:
    """What one intent's phrases hold: each phrase with its length, and all parts together."""

    phrases: list[tuple[frozenset[str], float]]
    parts: frozenset[str]


class Nearest:
    """The phrases of each intent by their parts: stems and groups of meaning."""

    def __init__(self, phrases: list[list[list[str]]]) -> None:
        """phrases  for each intent, for each of its phrases, the phrase's parts, each once."""
        self._phrases = phrases
        self._sets: dict[int, _Held] = {}
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

    def of(self, parts: Sequence[str], intents: Iterable[int]) -> dict[int, float]:
        """For each of the intents, the cosine, 0..1, between the line and its nearest phrase.

        parts  of the line, each once. Those that no phrase holds lengthen the line, and so lower
               every cosine.
        """
        rarity = self._rarity
        length = sqrt(sum(rarity.get(part, self._unheard) for part in parts))
        known = frozenset(part for part in parts if part in rarity)
        near = {}
        for intent in intents:
            best = 0.0
            for phrase, size in self._of_intent(intent).phrases:
                # fsum: the same whatever order a set comes in
                shared = fsum(map(rarity.__getitem__, known & phrase))
                best = max(best, shared / size)
            near[intent] = best / length if length else 0.0
        return near

    def coverage(
        self, stems: Sequence[str], groups: Mapping[str, Iterable[int]], intents: Iterable[int]
    ) -> dict[int, float]:
        """For each of the intents, the share of the line, by rarity among all intents, that its
        phrases hold.

        groups  the line's groups of meaning, with the places of the stems that name each
        """
        weights = [
            max(0.0, log((len(self._phrases) + 1) / (self._holders[part] + 0.5)))
            for part in stems
        ]
        total = sum(weights)
        covered = {}
        for intent in intents:
            held = self._of_intent(intent).parts
            share = [1.0 if part in held else 0.0 for part in stems]
            for group, places in groups.items():
                if group in held:
                    for place in places:
                        share[place] = max(share[place], BY_MEANING)
            covered[intent] = sum(map(mul, weights, share)) / total if total else 1.0
        return covered

    def _of_intent(self, intent: int) -> _Held:
        found = self._sets.get(intent)
        if found is None:
            rarity = self._rarity
            phrases = [
                (frozenset(parts), sqrt(sum(rarity[part] for part in parts)) or 1.0)
                for parts in self._phrases[intent]
            ]
            found = self._sets[intent] = _Held(
                phrases, frozenset(chain.from_iterable(self._phrases[intent]))
            )
        return found

    def to_data(self) -> list[list[list[str]]]:
        """As plain data, for JSON."""
        return self._phrases

    @classmethod
    def from_data(cls, data: list[list[list[str]]]) -> Nearest:
        return cls(data)
