"""Evidence: how strongly the parts of a line speak for each intent.

Owns the weights of one kind of part (groups, words, pairs, runs of letters) and their sum over a
line. Which parts a line has is grams.py's, how the kinds are put together likeness.py's.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from itertools import chain
from math import log, log1p, sqrt
from operator import mul
from typing import Any

# An intent's weight for a part is log(1 + phrases holding it) * rarity ** RARITY / size ** SIZE.
# Rarity: log of intents per intent holding the part. Size: length of the intent's weights, so that
# an intent of many or long phrases does not win by bulk; SIZE below 1, since an intent with more
# varied phrases truly is asked for in more ways. Both held by the benchmark.
RARITY = 0.5
SIZE = 0.75
LEAST_RARITY = 0.02     # a part that every intent has still counts a little
FEW = 20                # of no more intents than this, no part is too common

# A posting is one number: the intent times 2 ** COUNT_BITS, plus the phrases holding the part.
COUNT_BITS = 6
MOST_COUNTED = (1 << COUNT_BITS) - 1

_LOGS = [log1p(count) for count in range(MOST_COUNTED + 1)]


class Evidence:
    """The weights of one kind of part: part -> the intents that hold it. Build with `build`."""

    def __init__(self, held: dict[str, list[int]], size: list[float]) -> None:
        """held  part -> postings. size  for each intent, what its sum is multiplied with."""
        self._held = held
        self._size = size
        self._weights = _weights(len(size))

    @classmethod
    def build(cls, phrases: Sequence[Sequence[Iterable[str]]], common: float = 1.0) -> Evidence:
        """phrases  for each intent, for each of its phrases, the phrase's parts, each once.
        common   parts held by more than this share of the intents are left out of the sums: they
                 say too little for the time they take
        """
        counts = [Counter(chain.from_iterable(parts)) for parts in phrases]
        held: defaultdict[str, list[int]] = defaultdict(list)
        for intent, (counter, parts) in enumerate(zip(counts, phrases, strict=True)):
            if len(parts) > MOST_COUNTED:
                for part in counter:
                    counter[part] = min(counter[part], MOST_COUNTED)
            base = intent << COUNT_BITS
            for part, count in counter.items():
                held[part].append(base + count)
        weights = _weights(len(phrases))
        weight_of = {part: weights[len(postings)] for part, postings in held.items()}
        log_squares = [each * each for each in _LOGS]
        squares = [
            sum(map(
                mul, map(weight_of.__getitem__, counter),
                map(log_squares.__getitem__, counter.values()),
            ))
            for counter in counts
        ]
        some = [square for square in squares if square > 0]
        usual = sqrt(sum(some) / len(some)) if some else 1.0
        # Relative to the usual size, so that sums are cosines for an intent of usual size.
        most = max(common * len(phrases), FEW)
        kept = {part: postings for part, postings in held.items() if len(postings) <= most}
        return cls(kept, [
            1.0 / (sqrt(square) ** SIZE * usual ** (1 - SIZE)) if square > 0 else 0.0
            for square in squares
        ])

    def add_to(self, sums: list[float], parts: Iterable[str], weight: float) -> None:
        """Add `weight` times the evidence of the parts, each given once, to each intent's sum.

        The evidence of a line is like the cosine between it and the intent: 0 when nothing is
        shared, near 1 for a line that is all that the intent's phrases are.
        """
        held, weights, logs = self._held, self._weights, _LOGS
        gained = [0.0] * len(sums)
        square = 0.0
        for part in parts:
            postings = held.get(part)
            if postings is None:
                continue
            own = weights[len(postings)]
            square += own
            for posting in postings:
                gained[posting >> COUNT_BITS] += logs[posting & MOST_COUNTED] * own
        if square <= 0:
            return
        share = weight / sqrt(square)
        for intent, (gain, size) in enumerate(zip(gained, self._size, strict=True)):
            if gain:
                sums[intent] += gain * size * share

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON."""
        return {"held": self._held, "size": self._size}

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Evidence:
        return cls(data["held"], data["size"])


def _weights(intents: int) -> list[float]:
    """By the number of intents that hold a part, what it counts: rarity, line and intent sides."""
    return [0.0] + [
        max(LEAST_RARITY, log((intents + 1) / (number + 0.5))) ** (2 * RARITY)
        for number in range(1, intents + 1)
    ]
