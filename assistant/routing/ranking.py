"""Ranking: how well each intent fits a line, as numbers.

Owns the three measures (how much of the line the intent covers, how near its nearest phrase comes,
how its declared facets fit) and their sum. What follows from the numbers is router.py's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from heapq import nlargest

from assistant.hearing.heard import CONDITION, DOING, FILM, THING, WISH, Heard
from assistant.hearing.lexicon import Lexicon
from assistant.routing.facets import TOPICAL, Profile, Rarity, Unit, declared, units_of
from assistant.routing.intent import Intent

COVER, PHRASE, FIT, WORDING = 0.34, 0.30, 0.24, 0.12   # shares of the score; their sum is 1
LOOKED_AT = 40        # the facets are compared for this many intents only
SAFETY_BONUS = 0.06   # an intent about harm, when the line names what it is about
HAZARD_BONUS = 0.30   # ... when the line brings two of its hazards together
TAKES_BONUS = 0.10    # a calculation that takes the kinds of quantity in the line

# How a facet of an intent fits: met, not spoken of, spoken of but another.
_MET = {THING: 1.0, DOING: 1.0, FILM: 1.0, CONDITION: 1.0}
_SILENT = {THING: 0.45, DOING: 0.6, FILM: 0.55, CONDITION: 0.7}
_OTHER = {THING: 0.0, DOING: 0.25, FILM: 0.1, CONDITION: 0.5}
_FACET_SHARE = {THING: 0.38, DOING: 0.24, WISH: 0.24, FILM: 0.07, CONDITION: 0.07}
_FREE = 0.75          # a facet that the intent leaves open
# Wishes that any rule can be asked with.
_ANY_RULE = frozenset(("may-i", "what-is", "which", "where", "signs"))


@dataclass(frozen=True, slots=True)
class Fit:
    """An intent beside a line.

    score     0..1 (a safety intent may pass 1)
    covered   share of the line's weight that it covers
    phrase    nearness of its nearest phrase, 0..1
    topical   weight of the concepts of the line that it covers
    """

    index: int
    score: float
    covered: float
    phrase: float
    topical: float


class Ranking:
    """All intents, indexed by feature."""

    def __init__(
        self, intents: Sequence[Intent], heard: Sequence[Sequence[Heard]], lexicon: Lexicon
    ) -> None:
        self.intents = tuple(intents)
        self.lexicon = lexicon
        self.profiles = [
            Profile.of(intent, phrases, lexicon)
            for intent, phrases in zip(intents, heard, strict=True)
        ]
        counts: dict[str, int] = {}
        for profile in self.profiles:
            for feature in profile.features:
                counts[feature] = counts.get(feature, 0) + 1
        self.rarity = Rarity(counts, len(self.intents))
        self._declared = [frozenset(declared(intent)) for intent in intents]
        self._with: dict[str, list[tuple[int, float]]] = {}
        for index, profile in enumerate(self.profiles):
            for feature, strength in profile.features.items():
                self._with.setdefault(feature, []).append((index, strength))
        self._phrases_with: dict[str, list[int]] = {}
        self._phrase_of: list[int] = []
        self._phrase_weight: list[float] = []
        for index, phrases in enumerate(heard):
            for phrase in phrases:
                number = len(self._phrase_of)
                units = units_of(phrase, lexicon, self.rarity)
                self._phrase_of.append(index)
                self._phrase_weight.append(sum(unit.weight for unit in units))
                # Only the concepts themselves: what is broader was not said.
                for feature in {
                    feature for unit in units for feature, strength in unit.options
                    if strength == 1.0
                }:
                    self._phrases_with.setdefault(feature, []).append(number)

    def rank(
        self, units: Sequence[Unit], heard: Heard, wishes: frozenset[str],
        wording: Callable[[int], float], limit: int,
    ) -> list[Fit]:
        """The best intents, best first.

        wording  likeness of the line to an intent's phrases, 0..1, by index
        """
        total = sum(unit.weight for unit in units) or 1.0
        covers, phrase_sums = self._sums(units)
        nearest = [0.0] * len(self.intents)
        for number, shared in phrase_sums.items():
            near = 2 * shared / (total + self._phrase_weight[number])
            index = self._phrase_of[number]
            if near > nearest[index]:
                nearest[index] = near
        rough = nlargest(
            LOOKED_AT, covers,
            key=lambda index: COVER * covers[index] / total + PHRASE * nearest[index],
        )
        said = {
            feature: (unit, strength) for unit in units for feature, strength in unit.options
        }
        kinds_of = frozenset(found.kind for found in heard.quantities if found.kind)
        fits = [
            self._fit(index, covers[index] / total, nearest[index], units, said, wishes,
                      kinds_of, wording(index))
            for index in rough
        ]
        fits.sort(key=lambda fit: (-fit.score, fit.index))
        return fits[:limit]

    def of_wish(self, wishes: frozenset[str], units: Sequence[Unit]) -> list[Fit]:
        """The intents that a line without a topic may be after: those whose phrases share its plain
        words, then those that most often are asked with its wish."""
        _, phrases = self._sums(units)
        nearest: dict[int, float] = {}
        asked: dict[int, float] = {}
        for wish in wishes:
            for number in self._phrases_with.get(f"{WISH}:{wish}", ()):
                index = self._phrase_of[number]
                asked[index] = asked.get(index, 0.0) + 1.0
        for number, shared in phrases.items():
            index = self._phrase_of[number]
            near = shared / self._phrase_weight[number]
            nearest[index] = max(nearest.get(index, 0.0), near)
        fits = []
        for index in set(nearest) | set(asked):
            intent = self.intents[index]
            answers = bool(intent.wishes & wishes) or not wishes
            share = asked.get(index, 0.0) / (1 + len(intent.phrases))
            score = 0.5 * nearest.get(index, 0.0) + 0.3 * share + 0.2 * answers
            fits.append(Fit(index, score, 0.0, nearest.get(index, 0.0), 0.0))
        fits.sort(key=lambda fit: (-fit.score, fit.index))
        return fits

    def _sums(self, units: Sequence[Unit]) -> tuple[dict[int, float], dict[int, float]]:
        covers: dict[int, float] = {}
        phrases: dict[int, float] = {}
        for unit in units:
            weight = unit.weight
            if weight <= 0:
                continue
            if len(unit.options) == 1:
                feature, strength = unit.options[0]
                for index, held in self._with.get(feature, ()):
                    covers[index] = covers.get(index, 0.0) + weight * held
                for number in self._phrases_with.get(feature, ()):
                    phrases[number] = phrases.get(number, 0.0) + weight
                continue
            best: dict[int, float] = {}
            best_phrase: dict[int, float] = {}
            for feature, strength in unit.options:
                for index, held in self._with.get(feature, ()):
                    if strength * held > best.get(index, 0.0):
                        best[index] = strength * held
                for number in self._phrases_with.get(feature, ()):
                    if strength > best_phrase.get(number, 0.0):
                        best_phrase[number] = strength
            for index, strength in best.items():
                covers[index] = covers.get(index, 0.0) + weight * strength
            for number, strength in best_phrase.items():
                phrases[number] = phrases.get(number, 0.0) + weight * strength
        return covers, phrases

    def _fit(
        self, index: int, covered: float, phrase: float, units: Sequence[Unit],
        said: dict[str, tuple[Unit, float]], wishes: frozenset[str], kinds_of: frozenset[str],
        wording: float,
    ) -> Fit:
        intent = self.intents[index]
        features = self.profiles[index].features
        fit = 0.0
        for kind, concepts in (
            (THING, intent.things), (DOING, intent.doings), (FILM, intent.films),
            (CONDITION, intent.conditions),
        ):
            fit += _FACET_SHARE[kind] * self._facet(kind, concepts, units, said, features)
        fit += _FACET_SHARE[WISH] * _wish_fit(intent, features, wishes)
        score = (
            COVER * covered + PHRASE * min(1.0, phrase) + FIT * fit + WORDING * wording
        ) * intent.weight
        topical = sum(
            unit.weight for unit in units
            if unit.kinds & set(TOPICAL) and any(f in features for f, _ in unit.options)
        )
        if intent.takes and kinds_of and topical:
            score += TAKES_BONUS * len(intent.takes & kinds_of) / len(kinds_of)
        if intent.safety and topical:
            score += self._safety(index, said, wishes)
        return Fit(index, score, covered, phrase, topical)

    def _facet(
        self, kind: str, concepts: frozenset[str], units: Sequence[Unit],
        said: dict[str, tuple[Unit, float]], features: dict[str, float],
    ) -> float:
        spoken = [unit for unit in units if kind in unit.kinds and unit.weight > 0]
        if not concepts:
            # A rule that holds for any film still fits a named one a little less than its own.
            return _FREE
        best = 0.0
        for concept in concepts:
            found = said.get(f"{kind}:{concept}")
            if found is not None:
                best = max(best, found[1])
        if best:
            return _MET[kind] * best
        if not spoken:
            return _SILENT[kind]
        # Not declared, but its own phrases speak of it.
        if any(features.get(f, 0.0) for unit in spoken for f, _ in unit.options):
            return (_SILENT[kind] + _MET[kind]) / 2
        return _OTHER[kind]

    def _safety(
        self, index: int, said: dict[str, tuple[Unit, float]], wishes: frozenset[str]
    ) -> float:
        """What an intent about harm gains: two hazards brought together, or one told of."""
        roots: dict[str, str] = {}
        for feature in self._declared[index]:
            if feature.startswith(f"{THING}:") and feature in said:
                concept = feature.partition(":")[2]
                root = (concept, *self.lexicon.broader(THING, concept))[-1]
                roots[root] = said[feature][0].label
        if len(roots) > 1 and len(set(roots.values())) > 1:
            return HAZARD_BONUS
        return SAFETY_BONUS if roots and not wishes else 0.0


def _wish_fit(intent: Intent, features: dict[str, float], wishes: frozenset[str]) -> float:
    if not wishes:
        return 0.7
    best = 0.0
    for wish in wishes:
        if wish in intent.wishes:
            best = max(best, 1.0)
        elif f"{WISH}:{wish}" in features:
            best = max(best, 0.85)
        elif wish in _ANY_RULE:
            best = max(best, 0.6)
    return best or 0.1
