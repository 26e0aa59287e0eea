"""Likeness: which intents a line is worded like, and how surely. Knows no trade, no concepts.

Owns how the views of a line (groups of meaning, stems, pairs, runs of letters, nearest phrase) are
put together, and the confidence in the first of the ranking. What the line is about is facets.py's,
the verdict router.py's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import exp
from typing import Any

from assistant.hearing.spelling import mended
from assistant.routing.alike import Alike
from assistant.routing.evidence import Evidence
from assistant.routing.grams import pairs_of, runs_of
from assistant.routing.intent import Intent
from assistant.routing.nearest import Nearest
from assistant.routing.wording import stem, words_of

# How much each view counts; each is like a cosine. Held by tests/benchmarks/routing.py.
VIEWS = {"groups": 1.1, "words": 1.5, "pairs": 1.0, "runs": 2.0}
NEAREST = 0.3
# Parts held by a larger share of the intents than this are left out of a view.
COMMON = {"runs": 0.35, "words": 0.5}

FULL = 3.5              # evidence at which a line is worded like its intent through and through
SAME_PHRASE = 0.9999    # a cosine from here on is 1: the line is one of the phrases
LOOKED_AT = 15          # the nearest phrase is sought for this many intents only

MOST_REMEMBERED = 4096  # mended words kept

# The confidence is a logistic of the three things that part right first answers from wrong ones
# and from questions of no intent. Fitted on half of the benchmark's questions, over 10 to 150
# intents (the intents left out then make the outside), inside and outside weighing the same; the
# number of intents did not matter beside these three.
BIAS = -6.0
BY_SCORE = 7.2
BY_MARGIN = 3.0         # of the first over the second, as a share of the first's score
BY_COVERAGE = 2.0
SURE = 0.3              # refuses nine of ten outside questions, answers seven of ten inside right

Fold = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Likely:
    """An intent that a line is worded like.

    score     0..1, comparable between lines too; 1 for a line that is one of the phrases
    coverage  0..1, the share of what the line says, by rarity, that the intent's phrases hold
    """

    intent_id: str
    score: float
    coverage: float


@dataclass(frozen=True, slots=True)
class _Line:
    """The parts of one line, by view."""

    stems: list[str]                       # the row, in reading order
    groups: dict[str, list[int]]           # with the places of the stems that name them
    views: dict[str, list[str]]
    both: list[str]                        # stems and groups, each once


class Likeness:
    """Ranks intents by their sample phrases. Build with `build`."""

    def __init__(
        self, ids: list[str], known: list[str], views: dict[str, Evidence], nearest: Nearest,
        fold: Fold | None = None,
    ) -> None:
        self._ids = ids
        self._known = known
        self._known_set = frozenset(known)
        self._by_letter: dict[str, list[str]] = {}
        for word in known:
            self._by_letter.setdefault(word[0], []).append(word)
        self._views = views
        self._nearest = nearest
        self._fold = fold
        self._alike = Alike.everyday()
        self._mended: dict[str, str] = {}

    @classmethod
    def build(cls, intents: Sequence[Intent], fold: Fold | None = None) -> Likeness:
        """The likeness to these intents, in any order.

        fold  applied to every phrase and line first, say to put a concept for its many words
        """
        ordered = sorted(intents, key=lambda intent: intent.id)
        alike = Alike.everyday()
        known: set[str] = set()
        lines: list[list[_Line]] = []
        for intent in ordered:
            lines.append([])
            for phrase in intent.phrases:
                words = words_of(fold(phrase) if fold else phrase)
                known.update(words)
                lines[-1].append(_line(words, alike))
        views = {
            view: Evidence.build(
                [[line.views[view] for line in each] for each in lines], COMMON.get(view, 1.0)
            )
            for view in VIEWS
        }
        nearest = Nearest([[line.both for line in each] for each in lines])
        return cls([intent.id for intent in ordered], sorted(known), views, nearest, fold)

    def rank(self, text: str, limit: int = 10) -> list[Likely]:
        """The likeliest intents, best first, equals by id; none when nothing at all is shared."""
        words = self._heard(text)
        if not words or not self._ids:
            return []
        line = _line(words, self._alike)
        sums = [0.0] * len(self._ids)
        for view, weight in VIEWS.items():
            self._views[view].add_to(sums, line.views[view], weight)
        looked_at = max(limit, LOOKED_AT)
        best = sorted(range(len(sums)), key=sums.__getitem__, reverse=True)[:looked_at]
        for intent, near in self._nearest.of(line.both, best).items():
            sums[intent] += NEAREST * near + (FULL if near >= SAME_PHRASE else 0.0)
        best.sort(key=lambda intent: (-sums[intent], intent))
        best = [intent for intent in best[:limit] if sums[intent] > 0]
        covered = self._nearest.coverage(line.stems, line.groups, best)
        return [
            Likely(self._ids[intent], min(1.0, sums[intent] / FULL), covered[intent])
            for intent in best
        ]

    def confidence(self, ranked: Sequence[Likely]) -> float:
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

    def sure(self, ranked: Sequence[Likely]) -> bool:
        """Whether the first of a ranking is likely enough to be answered without asking."""
        return self.confidence(ranked) >= SURE

    def _heard(self, text: str) -> list[str]:
        """The words of a line, misspelt ones mended to a word of the phrases where one is near."""
        words = []
        for word in words_of(self._fold(text) if self._fold else text):
            if word not in self._known_set:
                if word not in self._mended:
                    if len(self._mended) >= MOST_REMEMBERED:
                        self._mended.clear()
                    self._mended[word] = self._mend(word)
                word = self._mended[word]
            words.append(word)
        return words

    def _mend(self, word: str) -> str:
        """A word that no phrase has as the one meant. One that is known by another form of it, or
        as everyday English, is spelt as it should be."""
        base = stem(word)
        if self._nearest.knows(base) or base in self._alike.stems:
            return word
        # A slip leaves the first letter, or swaps it with the second: no other word need be tried.
        near = [
            other for letter in dict.fromkeys(word[:2]) for other in self._by_letter.get(letter, ())
        ]
        return mended(word, near, ()) or word

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON; `fold` is not part of it."""
        return {
            "ids": self._ids,
            "known": self._known,
            "views": {name: view.to_data() for name, view in self._views.items()},
            "nearest": self._nearest.to_data(),
        }

    @classmethod
    def from_data(cls, data: dict[str, Any], fold: Fold | None = None) -> Likeness:
        """What `to_data` gave; `fold` must be the one it was built with."""
        views = {name: Evidence.from_data(data["views"][name]) for name in VIEWS}
        return cls(data["ids"], data["known"], views, Nearest.from_data(data["nearest"]), fold)


def _line(words: Sequence[str], alike: Alike) -> _Line:
    stems = [stem(word) for word in words]
    groups, put = alike.read(stems)
    return _Line(
        stems, groups,
        {
            "groups": list(groups),
            "words": list(dict.fromkeys(put)),
            "pairs": pairs_of(put),
            "runs": runs_of(words),
        },
        list(dict.fromkeys((*stems, *groups))),
    )
