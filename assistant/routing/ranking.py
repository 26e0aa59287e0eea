"""Ranking: how well each intent fits a line, as numbers.

Owns the measures of fit and their weights. What follows from the numbers is router.py's; what the
features are is facets.py's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from heapq import nlargest
from math import log
from typing import Any

from assistant.hearing.heard import WISH, Heard
from assistant.hearing.lexicon import Lexicon
from assistant.hearing.sample import Sample
from assistant.routing.facets import (
    TOPICAL,
    Profile,
    Rarity,
    Scale,
    Unit,
    declared,
)
from assistant.routing.given import Given, nearness, tightest
from assistant.routing.harm import harm
from assistant.routing.holding import Holding
from assistant.routing.intent import Intent
from assistant.routing.measures import Line, facets, numbers, shares, wish_fit
from assistant.routing.phrases import PhraseIndex
from assistant.routing.weights import WEIGHTS

WITHIN_REACH = 2.5    # a limit counts for intents whose scores are within this of the best
NEGLIGIBLE = 0.07     # a plain word or a wish that weighs less is in half of all phrases
LOOKED_AT = 30        # intents that are compared part by part
_TOPICAL = frozenset(TOPICAL)


@dataclass(frozen=True, slots=True)
class Fit:
    """An intent beside a line.

    score    as log odds
    covered  share of the line's weight that it covers, 0..1
    phrase   nearness of its nearest phrase, 0..1
    topical  weight of the concepts of the line that it covers
    parts    the measures by name, each about 0..1
    held     what the intent holds of the line's features
    """

    index: int
    score: float
    covered: float
    phrase: float
    topical: float
    parts: dict[str, float]
    held: Mapping[str, int] = field(default_factory=dict)


class Ranking:
    """All intents, indexed by feature."""

    def __init__(
        self, intents: Sequence[Intent], lexicon: Lexicon, holding: Holding,
        samples: Sequence[int], index: PhraseIndex,
    ) -> None:
        """samples  how many sample phrases each intent has"""
        self.intents = tuple(intents)
        self.lexicon = lexicon
        self.scale = Scale(lexicon, Rarity(holding.count, len(intents)))
        self._holding = holding
        self._samples = samples
        self._given = [
            [Given.read(text) for text in sorted(intent.gives)] for intent in self.intents
        ]
        kinds = Counter(kind for each in self._given for kind in {given.kind for given in each})
        self._tells = {
            kind: (log((len(intents) + 1) / (count + 0.5)) / log(len(intents) + 1.5)) ** 2
            for kind, count in kinds.items()
        }
        self._index = index
        self._index_of = {intent.id: place for place, intent in enumerate(self.intents)}
        self._declared = [frozenset(declared(intent)) for intent in self.intents]
        self._hazards = [
            frozenset(
                hazard for feature in each
                if (hazard := lexicon.hazard(*feature.split(":", 1))) is not None
            )
            for each in self._declared
        ]

    @classmethod
    def build(
        cls, intents: Sequence[Intent], phrases: Sequence[Sequence[Sample]],
        texts: Sequence[Sample], lexicon: Lexicon,
    ) -> Ranking:
        """The ranking of intents, with their sample phrases and their texts as heard."""
        profiles = [Profile.of(*each) for each in zip(intents, phrases, texts, strict=True)]
        ranking = cls(
            intents, lexicon, Holding.of(profiles), [profile.phrases for profile in profiles],
            PhraseIndex({}, [], []),
        )
        for place, samples in enumerate(phrases):
            for sample in samples:
                ranking._index.add(place, sample, ranking.scale)
        return ranking

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON; the intents and the lexicon are not part of it."""
        return {
            "holding": self._holding.postings,
            "samples": list(self._samples),
            "phrases": [self._index.holding, self._index.of, self._index.weight],
        }

    @classmethod
    def from_data(
        cls, data: dict[str, Any], intents: Sequence[Intent], lexicon: Lexicon
    ) -> Ranking:
        """What `to_data` gave, for the same intents in the same order."""
        return cls(
            intents, lexicon, Holding(data["holding"], len(intents)), data["samples"],
            PhraseIndex(*data["phrases"]),
        )

    def rank(
        self, units: Sequence[Unit], heard: Heard, wishes: frozenset[str],
        worded: Mapping[str, float], limit: int,
    ) -> list[Fit]:
        """The best intents, best first.

        worded  likeness of the line to an intent's phrases, 0..1, by intent id
        """
        total = sum(unit.weight for unit in units) or 1.0
        charged = sum(unit.cost for unit in units) or 1.0
        paid, plain, phrase_sums = self._sums(units)
        nearest: dict[int, float] = {}
        intent_of, weight_of = self._index.of, self._index.weight
        for number, shared in phrase_sums.items():
            near = 2 * shared / (total + weight_of[number])
            index = intent_of[number]
            if index not in nearest or near > nearest[index]:
                nearest[index] = near
        told = dict(paid)
        for index, weight in plain.items():
            told[index] = told.get(index, 0.0) + weight
        most = max(told.values(), default=0.0) or 1.0
        wordings = {
            self._index_of[intent_id]: score for intent_id, score in worded.items()
        }
        likest = max(wordings.values(), default=0.0) or 1.0
        line = Line.of(heard, units, wishes)
        near_figure = self._near_figures(line) if line.values else {}
        rough = nlargest(LOOKED_AT, [
            (weight / most + nearest.get(index, 0.0) + wordings.get(index, 0.0)
             + near_figure.get(index, 0.0), index)
            for index, weight in told.items()
        ])
        held = self._holding.among(
            dict.fromkeys((*line.said, *(f"{WISH}:{wish}" for wish in wishes))),
            [index for _, index in rough],
        )
        fits = []
        for _, index in rough:
            wording = wordings.get(index, 0.0)
            profile = Profile(self.intents[index], held[index], self._samples[index])
            fits.append(self._fit(index, profile, line, {
                "covered": paid.get(index, 0.0) / charged,
                "evidence": told[index] / most,
                "nearest phrase": min(1.0, nearest.get(index, 0.0)),
                "wording": wording,
                "wording beside best": wording / likest,
            }))
        if line.judged and line.values:
            fits = self._limited(fits, line)
        fits.sort(key=lambda fit: (-fit.score, fit.index))
        return fits[:limit]

    def _limited(self, fits: list[Fit], line: Line) -> list[Fit]:
        """Of the fits that hold from a limit on which a value passes, the one of the tightest limit
        gains: 35 % is over 10 % and over 30 %, and the rule from 30 % on is meant."""
        best = max(fit.score for fit in fits)
        passed = {
            fit.index: tight for fit in fits if fit.score >= best - WITHIN_REACH
            if (tight := tightest(self._given[fit.index], line.values)) is not None
        }
        if not passed:
            return fits
        most = max(passed.values())
        gain = WEIGHTS["tightest limit"]
        return [
            replace(fit, score=fit.score + gain, parts={**fit.parts, "tightest limit": 1.0})
            if passed.get(fit.index) == most else fit for fit in fits
        ]

    def of_wish(self, wishes: frozenset[str], units: Sequence[Unit]) -> list[Fit]:
        """The intents that a line without a topic may be after: those whose phrases share its plain
        words, then those that most often are asked with its wish."""
        _, _, phrases = self._sums(units)
        nearest: dict[int, float] = {}
        asked: dict[int, float] = {}
        for wish in wishes:
            for number in self._index.holding.get(f"{WISH}:{wish}", ()):
                index = self._index.of[number]
                asked[index] = asked.get(index, 0.0) + 1.0
        for number, shared in phrases.items():
            index = self._index.of[number]
            near = shared / self._index.weight[number]
            nearest[index] = max(nearest.get(index, 0.0), near)
        fits = []
        for index in set(nearest) | set(asked):
            intent = self.intents[index]
            answers = bool(intent.wishes & wishes) or not wishes
            share = asked.get(index, 0.0) / self._index.of.count(index)
            score = 0.5 * nearest.get(index, 0.0) + 0.3 * share + 0.2 * answers
            fits.append(Fit(index, score, 0.0, nearest.get(index, 0.0), 0.0, {}))
        fits.sort(key=lambda fit: (-fit.score, fit.index))
        return fits

    def _sums(
        self, units: Sequence[Unit]
    ) -> tuple[dict[int, float], dict[int, float], dict[int, float]]:
        """By intent: weight met of what costs, weight met of what costs nothing; by phrase: weight
        shared."""
        paid: dict[int, float] = {}
        plain: dict[int, float] = {}
        phrases: dict[int, float] = {}
        for unit in units:
            weight = unit.weight
            if weight < NEGLIGIBLE and unit.kinds.isdisjoint(_TOPICAL):
                continue
            sums = paid if unit.cost else plain
            if len(unit.options) == 1:
                feature = unit.options[0][0]
                for index, held, _ in self._holding[feature]:
                    if index in sums:
                        sums[index] += weight * held
                    else:
                        sums[index] = weight * held
                for number in self._index.holding.get(feature, ()):
                    if number in phrases:
                        phrases[number] += weight
                    else:
                        phrases[number] = weight
                continue
            best: dict[int, float] = {}
            best_phrase: dict[int, float] = {}
            for feature, strong in unit.options:
                for index, held, _ in self._holding[feature]:
                    if strong * held > best.get(index, 0.0):
                        best[index] = strong * held
                for number in self._index.holding.get(feature, ()):
                    if strong > best_phrase.get(number, 0.0):
                        best_phrase[number] = strong
            for index, strong in best.items():
                sums[index] = sums.get(index, 0.0) + weight * strong
            for number, strong in best_phrase.items():
                phrases[number] = phrases.get(number, 0.0) + weight * strong
        return paid, plain, phrases

    def _near_figures(self, line: Line) -> dict[int, float]:
        """How near a figure of each intent comes to a value of the line; those of no such kind are
        left out."""
        near = {}
        for index, figures in enumerate(self._given):
            best = nearness(figures, line.values, self._tells) if figures else 0.0
            if best:
                near[index] = best
        return near

    def _fit(
        self, index: int, profile: Profile, line: Line, parts: dict[str, float]
    ) -> Fit:
        intent = profile.intent
        parts.update(shares(line, profile))
        topical = parts.pop("topical")
        parts.update(facets(line, profile))
        parts.update(wish_fit(line, profile))
        parts.update(numbers(line, profile, self._given[index], self._tells))
        if intent.safety and topical:
            parts.update(harm(line, self._declared[index], self._hazards[index], self.lexicon))
        score = 0.0
        for name, part in parts.items():
            if part and name in WEIGHTS:
                score += WEIGHTS[name] * part
        return Fit(index, score + log(intent.weight), parts["covered"], parts["nearest phrase"],
                   topical, parts, profile.features)
