"""Evidence: how strongly the parts of a line speak for each intent.

Owns the weights of one kind of part (groups, stems, pairs, runs of letters) and their sum over a line.
Which parts a line has is grams.py's, how the kinds are put together likeness.py's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from math import log, log1p, sqrt
from typing import Any

# An intent's weight for a part is log(1 + phrases holding it) * rarity ** RARITY / size ** SIZE.
# Rarity: log of intents per intent holding the part. Size: length of the intent's weights, so that
# an intent of many or long phrases does not win by bulk; SIZE below 1, since an intent with more
# varied phrases truly is asked for in more ways. Both held by the benchmark.
RARITY = 0.5
SIZE = 0.75
LEAST_RARITY = 0.02     # a part that every intent has still counts a little


class Evidence:
    """The weights of one kind of part: part -> the intents that hold it. Build with `build`."""

    def __init__(self, held: dict[str, list[int]], intents: int) -> None:
        """held  part -> [intent, phrases holding it, intent, phrases ...], intents as numbers."""
        self._held = held
        self._count = intents
        most = max(intents, 1)
        self._rarity = [1.0] + [
            max(LEAST_RARITY, log((most + 1) / (number + 0.5))) for number in range(1, most + 1)
        ]
        self._unheard = max(LEAST_RARITY, log((most + 1) / 0.5))
        self._size = self._sizes()

    @classmethod
    def build(cls, phrases: Sequence[Sequence[Iterable[str]]]) -> Evidence:
        """phrases  for each intent, for each of its phrases, the phrase's parts."""
        held: dict[str, list[int]] = {}
        for number, parts_of_phrases in enumerate(phrases):
            counts: Counter[str] = Counter()
            for parts in parts_of_phrases:
                counts.update(parts)
            for part, count in counts.items():
                postings = held.get(part)
                if postings is None:
                    held[part] = [number, count]
                else:
                    postings.append(number)
                    postings.append(count)
        return cls(held, len(phrases))

    def _sizes(self) -> list[float]:
        squares = [0.0] * self._count
        logs: list[float] = [0.0]
        for postings in self._held.values():
            rarity = self._rarity[len(postings) >> 1] ** (2 * RARITY)
            for place in range(0, len(postings), 2):
                count = postings[place + 1]
                while len(logs) <= count:
                    logs.append(log1p(len(logs)))
                squares[postings[place]] += logs[count] * logs[count] * rarity
        self._logs = logs
        held = [square for square in squares if square > 0]
        usual = sqrt(sum(held) / len(held)) if held else 1.0
        # Relative to the usual size, so that sums are cosines for an intent of usual size.
        return [
            1.0 / (sqrt(square) ** SIZE * usual ** (1 - SIZE)) if square > 0 else 0.0
            for square in squares
        ]

    def rarity(self, part: str) -> float:
        """What a part says by being there at all; the most for one that no intent has."""
        postings = self._held.get(part)
        return self._unheard if postings is None else self._rarity[len(postings) >> 1]

    def holds(self, part: str, intent: int) -> bool:
        """Whether a phrase of the intent has the part."""
        postings = self._held.get(part, ())
        return intent in postings[::2]

    def add_to(self, sums: list[float], parts: Iterable[str], weight: float) -> None:
        """Add `weight` times the evidence of the parts, each given once, to each intent's sum.

        The evidence of a line is like the cosine between it and the intent: 0 when nothing is
        shared, near 1 for a line that is all that the intent's phrases are.
        """
        held, rarities, logs = self._held, self._rarity, self._logs
        found = []
        square = 0.0
        for part in parts:
            postings = held.get(part)
            if postings is not None:
                rarity = rarities[len(postings) >> 1]
                square += rarity ** (2 * RARITY)
                found.append((postings, rarity ** (2 * RARITY)))
        if not found:
            return
        share = weight / sqrt(square)
        gained = [0.0] * len(sums)
        for postings, rarity in found:
            for intent, count in zip(postings[::2], postings[1::2], strict=True):
                gained[intent] += logs[count] * rarity
        size = self._size
        for intent, gain in enumerate(gained):
            if gain:
                sums[intent] += gain * size[intent] * share

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON."""
        return {"intents": self._count, "held": self._held}

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Evidence:
        return cls(data["held"], data["intents"])
