"""Ranking: how well each intent fits a line, as numbers.

Owns the measures of fit and their weights. What follows from the numbers is router.py's; what the
features are is facets.py's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from heapq import nlargest
from typing import Any

from assistant.hearing.heard import CONDITION, DOING, FILM, THING, WISH, Heard
from assistant.hearing.lexicon import Lexicon
from assistant.routing.facets import TOPICAL, Profile, Rarity, Unit, declared, units_of
from assistant.routing.fitting import facet, taken, wish_fit
from assistant.routing.intent import Intent

# The measures and what each counts; a line that meets all of them scores 1.
WEIGHTS = {
    "covered": 0.12,    # share of the line's weight that the intent covers
    "evidence": 0.20,   # the same with plain words, against the best intent of this line
    "phrase": 0.10,     # nearness of its nearest phrase
    "wording": 0.28,    # likeness of wording, as likeness.py has it
    THING: 0.06, DOING: 0.09, WISH: 0.05, FILM: 0.03, CONDITION: 0.07,
}
NEGLIGIBLE = 0.07     # a plain word or a wish that weighs less is in half of all phrases
LOOKED_AT = 25        # the facets are compared for this many intents only
SAFETY_BONUS = 0.06   # an intent about harm, when the line names what it is about
HAZARD_BONUS = 0.30   # ... when the line brings two of its hazards together
_TOPICAL = frozenset(TOPICAL)


@dataclass(frozen=True, slots=True)
class Fit:
    """An intent beside a line.

    score    about 0..1 (a safety intent may pass 1)
    covered  share of the line's weight that it covers, 0..1
    phrase   nearness of its nearest phrase, 0..1
    topical  weight of the concepts of the line that it covers
    parts    the measures by name, each 0..1
    """

    index: int
    score: float
    covered: float
    phrase: float
    topical: float
    parts: dict[str, float]


@dataclass(frozen=True, slots=True)
class PhraseIndex:
    """Which sample phrases hold which feature.

    holding  numbers of phrases, by feature
    of       place of the intent, by number of phrase
    weight   of all that the phrase says, by number of phrase
    """

    holding: dict[str, list[int]]
    of: list[int]
    weight: list[float]

    def add(self, place: int, units: Sequence[Unit]) -> None:
        number = len(self.of)
        self.of.append(place)
        self.weight.append(sum(unit.weight for unit in units))
        # Only the concepts themselves: what is broader was not said.
        for feature in sorted({
            feature for unit in units for feature, strength in unit.options if strength == 1.0
        }):
            self.holding.setdefault(feature, []).append(number)


class Ranking:
    """All intents, indexed by feature."""

    def __init__(
        self, intents: Sequence[Intent], lexicon: Lexicon, features: Sequence[dict[str, float]],
        index: PhraseIndex,
    ) -> None:
        self.intents = tuple(intents)
        self.lexicon = lexicon
        self.profiles = [Profile(*each) for each in zip(intents, features, strict=True)]
        self.rarity = Rarity.among(features)
        self._index = index
        self._index_of = {intent.id: place for place, intent in enumerate(self.intents)}
        self._declared = [frozenset(declared(intent)) for intent in intents]
        self._hazards = [
            frozenset(
                hazard for feature in each
                if (hazard := lexicon.hazard(*feature.split(":", 1))) is not None
            )
            for each in self._declared
        ]
        self._with: dict[str, list[tuple[int, float]]] = {}
        for place, held in enumerate(features):
            for feature, strength in held.items():
                self._with.setdefault(feature, []).append((place, strength))

    @classmethod
    def build(
        cls, intents: Sequence[Intent], phrases: Sequence[Sequence[Heard]],
        texts: Sequence[Heard], lexicon: Lexicon,
    ) -> Ranking:
        """The ranking of intents, with their sample phrases and their texts as heard."""
        features = [
            Profile.of(*each).features for each in zip(intents, phrases, texts, strict=True)
        ]
        rarity = Rarity.among(features)
        index = PhraseIndex({}, [], [])
        for place, samples in enumerate(phrases):
            for sample in samples:
                index.add(place, units_of(sample, lexicon, rarity))
        return cls(intents, lexicon, features, index)

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON; the intents and the lexicon are not part of it."""
        return {
            "features": [profile.features for profile in self.profiles],
            "phrases": [self._index.holding, self._index.of, self._index.weight],
        }

    @classmethod
    def from_data(
        cls, data: dict[str, Any], intents: Sequence[Intent], lexicon: Lexicon
    ) -> Ranking:
        """What `to_data` gave, for the same intents in the same order."""
        return cls(intents, lexicon, data["features"], PhraseIndex(*data["phrases"]))

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
        rough = nlargest(LOOKED_AT, [
            (weight / most + nearest.get(index, 0.0) + wordings.get(index, 0.0), index)
            for index, weight in told.items()
        ])
        said = {
            feature: (unit, strength) for unit in units for feature, strength in unit.options
        }
        fits = [
            self._fit(index, {
                "covered": paid.get(index, 0.0) / charged,
                "evidence": told[index] / most,
                "phrase": min(1.0, nearest.get(index, 0.0)),
                "wording": wordings.get(index, 0.0),
            }, units, said, wishes, heard)
            for _, index in rough
        ]
        fits.sort(key=lambda fit: (-fit.score, fit.index))
        return fits[:limit]

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
                for index, held in self._with.get(feature, ()):
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
            for feature, strength in unit.options:
                for index, held in self._with.get(feature, ()):
                    if strength * held > best.get(index, 0.0):
                        best[index] = strength * held
                for number in self._index.holding.get(feature, ()):
                    if strength > best_phrase.get(number, 0.0):
                        best_phrase[number] = strength
            for index, strength in best.items():
                sums[index] = sums.get(index, 0.0) + weight * strength
            for number, strength in best_phrase.items():
                phrases[number] = phrases.get(number, 0.0) + weight * strength
        return paid, plain, phrases

    def _fit(
        self, index: int, parts: dict[str, float], units: Sequence[Unit],
        said: dict[str, tuple[Unit, float]], wishes: frozenset[str], heard: Heard,
    ) -> Fit:
        intent = self.intents[index]
        features = self.profiles[index].features
        for kind, concepts in (
            (THING, intent.things), (DOING, intent.doings), (FILM, intent.films),
            (CONDITION, intent.conditions),
        ):
            parts[kind] = facet(kind, concepts, units, said, features)
        parts[WISH] = wish_fit(intent, features, wishes)
        score = 0.0
        for name, part in parts.items():
            score += WEIGHTS[name] * part
        score *= intent.weight
        topical = sum(
            unit.weight for unit in units
            if unit.kinds & _TOPICAL and any(feature in features for feature, _ in unit.options)
        )
        if intent.takes:
            score += taken(intent.takes, heard, parts["wording"], parts["covered"])
        if intent.safety and topical:
            score += self._safety(index, units, heard, not wishes and not heard.yes_no)
        return Fit(index, score, parts["covered"], parts["phrase"], topical, parts)

    def _safety(self, index: int, units: Sequence[Unit], heard: Heard, told: bool) -> float:
        """What an intent about harm gains: two hazards that it is about brought together in one
        line, or one of its things in a line that tells and does not ask."""
        own = self._hazards[index]
        if len(own) > 1:
            met: dict[str, str] = {}
            for hit in heard.concepts:
                # Heat is part of the work: only a line that tells of it, and asks nothing, warns.
                if hit.kind == DOING and not told:
                    continue
                hazard = self.lexicon.hazard(hit.kind, hit.concept)
                if hazard in own:
                    met[hazard] = hit.words
            if len(set(met.values())) > 1:
                return HAZARD_BONUS
        if told and any(
            feature in self._declared[index] for unit in units for feature, _ in unit.options
            if feature.startswith(f"{THING}:")
        ):
            return SAFETY_BONUS
        return 0.0
