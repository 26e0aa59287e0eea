"""Facets: a line and an intent as weighable features, and how far one covers the other.

Owns the features and their weights by rarity. The decision over the scores is router.py's;
similarity of wording is likeness.py's.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import log

from assistant.hearing.heard import (
    CONCEPT,
    CONDITION,
    DOING,
    FILM,
    FOREIGN,
    NUMBER,
    PLAIN,
    THING,
    TRADE,
    UNKNOWN,
    WISH,
    Heard,
    Hit,
)
from assistant.hearing.lexicon import Lexicon
from assistant.routing.intent import Intent
from assistant.routing.topic import Topic

# How much a kind of feature weighs beside its rarity.
KIND_WEIGHT = {
    THING: 1.0, DOING: 0.8, FILM: 1.0, CONDITION: 0.6, WISH: 0.4,
    TRADE: 0.8, PLAIN: 0.3, UNKNOWN: 1.0, FOREIGN: 1.8,
}
BROADER_STEP = 0.65     # what a case of something counts for the thing itself, a step
IN_PHRASES = 0.9        # a feature that several phrases of an intent hold, against a declared one
IN_ONE_PHRASE = 0.75
IN_TEXT = 0.45          # ... that only the rule's own words hold
UNFOCUSED = 0.2         # a word outside the clause of the question
PLACE = 0.35            # a place beside the thing that is asked about
TELLING = 0.3           # a thing that weighs less ("film") is named in half of all questions
INHERITED = 0.8         # a concept carried over from the topic
LEAST_RARITY = 0.1

TOPICAL = (THING, DOING, FILM, CONDITION)


@dataclass(frozen=True, slots=True)
class Unit:
    """A part of a line: what it may stand for, and how much it weighs.

    options  (feature, strength 0..1), each feature once; a feature is "kind:concept" or "=word"
    weight   what it tells when an intent has it
    cost     what it costs when the intent has it not; plain words cost nothing
    kinds    the kinds of the options that are concepts
    """

    label: str
    options: tuple[tuple[str, float], ...]
    weight: float
    cost: float
    kinds: frozenset[str]
    sort: str


class Rarity:
    """The weight of a feature: the fewer intents have it, the more it tells."""

    def __init__(self, counts: Mapping[str, float], total: int) -> None:
        self._top = log(total + 1.5)
        self._weights = {
            feature: max(LEAST_RARITY, log((total + 1) / (count + 0.5)) / self._top)
            for feature, count in counts.items()
        }

    @classmethod
    def among(cls, features: Sequence[Mapping[str, float]]) -> Rarity:
        """The rarity among intents, each given by its features and their strengths."""
        counts: dict[str, float] = {}
        for held in features:
            for feature, strength in held.items():
                counts[feature] = counts.get(feature, 0.0) + strength
        return cls(counts, len(features))

    def of(self, feature: str) -> float:
        return self._weights.get(feature, 1.0)


def units_of(
    heard: Heard, lexicon: Lexicon, rarity: Rarity | None = None, inherited: Topic | None = None
) -> list[Unit]:
    """The parts of a line, in reading order; those of the topic it goes on from come last."""
    spans: dict[tuple[int, int], list[Hit]] = {}
    for hit in heard.concepts:
        spans.setdefault((hit.start, hit.end), []).append(hit)
    units: list[Unit] = []
    for (start, end), hits in spans.items():
        factor = 1.0 if start >= heard.focus[0] and end <= heard.focus[1] else UNFOCUSED
        units.append(_concepts(hits[0].words, [(h.kind, h.concept) for h in hits], lexicon,
                               rarity, factor))
    for token in heard.tokens:
        if token.sort in (CONCEPT, NUMBER):
            continue
        factor = 1.0 if heard.in_focus(token) else UNFOCUSED
        feature = f"={token.word}"
        rare = rarity.of(feature) if rarity is not None else 1.0
        weight = KIND_WEIGHT[token.sort] * rare * factor
        cost = 0.0 if token.sort == PLAIN else weight
        units.append(Unit(token.typed, ((feature, 1.0),), weight, cost, frozenset(), token.sort))
    if inherited is not None:
        for kind, concepts in (
            (THING, inherited.things), (DOING, inherited.doings), (WISH, inherited.wishes),
            (FILM, inherited.films), (CONDITION, inherited.conditions),
        ):
            if concepts:
                units.append(_concepts(
                    " / ".join(sorted(concepts)), [(kind, each) for each in sorted(concepts)],
                    lexicon, rarity, INHERITED,
                ))
    return _places_behind(units, lexicon)


def _places_behind(units: list[Unit], lexicon: Lexicon) -> list[Unit]:
    """A panel or a vehicle beside another thing only says where: "the lap on the bonnet"."""
    places = [
        THING in unit.kinds and any(
            lexicon.is_place(feature.partition(":")[2]) for feature, strength in unit.options
            if feature.startswith(THING) and strength == 1.0
        )
        for unit in units
    ]
    if not any(
        THING in unit.kinds and not place and unit.weight >= TELLING
        for unit, place in zip(units, places, strict=True)
    ):
        return units
    return [
        replace(unit, weight=unit.weight * PLACE, cost=unit.cost * PLACE) if place else unit
        for unit, place in zip(units, places, strict=True)
    ]


def _concepts(
    label: str, named: Sequence[tuple[str, str]], lexicon: Lexicon, rarity: Rarity | None,
    factor: float,
) -> Unit:
    options: dict[str, float] = {}
    weight = 0.0
    for kind, concept in named:
        feature = f"{kind}:{concept}"
        options[feature] = 1.0
        rare = rarity.of(feature) if rarity is not None else 1.0
        weight = max(weight, KIND_WEIGHT[kind] * rare)
        strength = 1.0
        for wider in lexicon.broader(kind, concept):
            strength *= BROADER_STEP
            options.setdefault(f"{kind}:{wider}", strength)
    kinds = frozenset(kind for kind, _ in named)
    weight *= factor
    return Unit(label, tuple(options.items()), weight, weight, kinds, CONCEPT)


# What an intent holds of a feature is one number: DECLARED, and IN_ITS_TEXT, and the number of
# sample phrases that hold it times A_PHRASE.
DECLARED, IN_ITS_TEXT, A_PHRASE = 1, 2, 4


def strength(held: int) -> float:
    """How strongly an intent has a feature, 0..1."""
    if held & DECLARED:
        return 1.0
    phrases = held // A_PHRASE
    if phrases:
        return IN_PHRASES if phrases > 1 else IN_ONE_PHRASE
    return IN_TEXT if held else 0.0


@dataclass(frozen=True, slots=True)
class Profile:
    """An intent as features: what it declares, and what its phrases and its text hold.

    features  feature -> what it holds of it, see DECLARED
    phrases   how many sample phrases there are, the title among them
    """

    intent: Intent
    features: dict[str, int]
    phrases: int

    @classmethod
    def of(cls, intent: Intent, phrases: Sequence[Heard], text: Heard) -> Profile:
        # Only a phrase excuses a word of another subject.
        elsewhere = {f"={token.word}" for token in text.tokens if token.sort == FOREIGN}
        features = dict.fromkeys(sorted(features_of(text) - elsewhere), IN_ITS_TEXT)
        for heard in phrases:
            for feature in sorted(features_of(heard)):
                features[feature] = features.get(feature, 0) + A_PHRASE
        for feature in (*declared(intent), *(f"{WISH}:{wish}" for wish in sorted(intent.wishes))):
            features[feature] = features.get(feature, 0) | DECLARED
        return cls(intent, features, len(phrases))


def features_of(heard: Heard) -> set[str]:
    """What a sample holds: its concepts, and its words but for numbers."""
    return {f"{hit.kind}:{hit.concept}" for hit in heard.concepts} | {
        f"={token.word}" for token in heard.tokens if token.sort not in (NUMBER, CONCEPT)
    }


def declared(intent: Intent) -> Iterable[str]:
    """The features that the intent itself says it is about."""
    for kind, concepts in (
        (THING, intent.things), (DOING, intent.doings), (FILM, intent.films),
        (CONDITION, intent.conditions),
    ):
        for concept in concepts:
            yield f"{kind}:{concept}"
