"""Likeness: which intents a line is worded like, and how surely. Knows no trade, no concepts.

Owns how the views of a line (stems, pairs, runs of letters, nearest phrase) are put together, and
the confidence in the first of the ranking. What the line is about is facets.py's, and the verdict
router.py's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp
from typing import Any

from assistant.hearing.spelling import mended
from assistant.routing.evidence import Evidence
from assistant.routing.grams import pairs_of, runs_of
from assistant.routing.intent import Intent
from assistant.routing.nearest import Nearest
from assistant.routing.wording import stem, words_of

# How much each view counts. Held by tests/benchmarks/routing.py.
STEMS = 1.0
PAIRS = 0.3
RUNS = 1.2
NEAREST = 0.5
_ALL = STEMS + PAIRS + RUNS + NEAREST

# The confidence is a logistic of what separates right first answers from wrong ones.
BIAS = -3.0
BY_SCORE = 3.0
BY_MARGIN = 6.0
BY_COVERAGE = 3.0
SURE = 0.5

Fold = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Likely:
    """An intent that a line is worded like.

    score     0..1, comparable between lines too
    coverage  0..1, the share of what the line says, by rarity, that the intent's phrases hold
    """

    intent_id: str
    score: float
    coverage: float


class Likeness:
    """Ranks intents by their sample phrases. Build with `build`."""

    def __init__(
        self, ids: list[str], known: list[str], views: tuple[Evidence, Evidence, Evidence],
        nearest: Nearest, fold: Fold | None = None,
    ) -> None:
        self._ids = ids
        self._known = known
        self._known_set = frozenset(known)
        self._stems, self._pairs, self._runs = views
        self._nearest = nearest
        self._fold = fold
        self._mended: dict[str, str | None] = {}

    @classmethod
    def build(cls, intents: Sequence[Intent], fold: Fold | None = None) -> Likeness:
        """The likeness to these intents, in any order.

        fold  applied to every phrase and line first, say to put a concept for its many words
        """
        ordered = sorted(intents, key=lambda intent: intent.id)
        words = [
            [words_of(fold(phrase) if fold else phrase) for phrase in intent.phrases]
            for intent in ordered
        ]
        stem_of = {word: stem(word) for each in words for phrase in each for word in phrase}
        rows = [[[stem_of[word] for word in phrase] for phrase in each] for each in words]
        stems = [[set(row) for row in each] for each in rows]
        return cls(
            [intent.id for intent in ordered],
            sorted(stem_of),
            (
                Evidence.build(stems),
                Evidence.build([[pairs_of(row) for row in each] for each in rows]),
                Evidence.build([[runs_of(phrase) for phrase in each] for each in words]),
            ),
            Nearest.build(stems),
            fold,
        )

    def rank(self, text: str, limit: int = 10) -> list[Likely]:
        """The likeliest intents, best first, equals by id; none when nothing at all is shared."""
        words = self._heard(text)
        if not words or not self._ids:
            return []
        row = [stem(word) for word in words]
        stems = set(row)
        sums = [0.0] * len(self._ids)
        self._stems.add_to(sums, stems, STEMS)
        self._pairs.add_to(sums, pairs_of(row), PAIRS)
        self._runs.add_to(sums, runs_of(words), RUNS)
        for intent, near in self._nearest.of(stems).items():
            sums[intent] += NEAREST * near
        best = sorted(
            (intent for intent, sum_ in enumerate(sums) if sum_ > 0),
            key=lambda intent: (-sums[intent], intent),
        )[:limit]
        weights = [(part, self._stems.rarity(part)) for part in sorted(stems)]
        total = sum(weight for _, weight in weights)
        return [
            Likely(
                self._ids[intent],
                min(1.0, sums[intent] / _ALL),
                sum(weight for part, weight in weights if self._stems.holds(part, intent)) / total,
            )
            for intent in best
        ]

    def confidence(self, ranked: Sequence[Likely], text: str = "") -> float:
        """How likely the first of a ranking is meant, 0..1; 0 for an empty ranking."""
        if not ranked:
            return 0.0
        first = ranked[0]
        second = ranked[1].score if len(ranked) > 1 else 0.0
        margin = (first.score - second) / first.score
        drawn = (
            BIAS + BY_SCORE * first.score + BY_MARGIN * margin + BY_COVERAGE * first.coverage
        )
        return 1.0 / (1.0 + exp(-drawn))

    def sure(self, ranked: Sequence[Likely], text: str = "") -> bool:
        """Whether the first of a ranking is likely enough to be answered without asking."""
        return self.confidence(ranked, text) >= SURE

    def _heard(self, text: str) -> list[str]:
        """The words of a line, misspelt ones mended to a word of the phrases where one is near."""
        words = []
        for word in words_of(self._fold(text) if self._fold else text):
            if word not in self._known_set:
                if word not in self._mended:
                    self._mended[word] = mended(word, self._known, ())
                word = self._mended[word] or word
            words.append(word)
        return words

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON; `fold` is not part of it."""
        return {
            "ids": self._ids,
            "known": self._known,
            "views": [view.to_data() for view in (self._stems, self._pairs, self._runs)],
            "nearest": self._nearest.to_data(),
        }

    @classmethod
    def from_data(cls, data: dict[str, Any], fold: Fold | None = None) -> Likeness:
        """What `to_data` gave; `fold` must be the one it was built with."""
        stems, pairs, runs = (Evidence.from_data(view) for view in data["views"])
        return cls(
            data["ids"], data["known"], (stems, pairs, runs),
            Nearest.from_data(data["nearest"]), fold,
        )
