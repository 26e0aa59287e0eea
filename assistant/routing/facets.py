"""Facets: a line and an intent as weighable features, and how far one covers the other.

Owns the features and their weights by rarity. The decision over the scores is router.py's;
similarity of wording is likeness.py's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
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
from assistant.hearing.sample import Sample
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
MOST_WEIGHED = 8192     # weights kept

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

    def __init__(self, count: Callable[[str], float], total: int) -> None:
        """count  how many intents have a feature; a strength counts as a part of one
        total     how many intents there are
        """
        self._count = count
        self._total = total
        self._top = log(total + 1.5)
        self._weights: dict[str, float] = {}

    def of(self, feature: str) -> float:
        weight = self._weights.get(feature)
        if weight is None:
            if len(self._weights) >= MOST_WEIGHED:
                self._weights.clear()
            count = self._count(feature)
            weight = self._weights[feature] = 1.0 if not count else max(
                LEAST_RARITY, log((self._total + 1) / (count + 0.5)) / self._top
            )
        return weight


@dataclass(frozen=True, slots=True)
class Group:
    """Concepts that one group of words names, weighed.

    place  whether they only say where work is done
    """

    options: tuple[tuple[str, float], ...]
    weight: float
    kinds: frozenset[str]
    place: bool


class Scale:
    """What the words and concepts of lines weigh; each is weighed once."""

    def __init__(self, lexicon: Lexicon, rarity: Rarity) -> None:
        self._lexicon = lexicon
        self._rarity = rarity
        self._groups: dict[tuple[tuple[str, str], ...], Group] = {}

    def group(self, named: tuple[tuple[str, str], ...]) -> Group:
        """named  (kind, concept) pairs"""
        found = self._groups.get(named)
        if found is None:
            if len(self._groups) >= MOST_WEIGHED:
                self._groups.clear()
            found = self._groups[named] = self._weighed(named)
        return found

    def word(self, word: str, sort: str) -> float:
        return KIND_WEIGHT[sort] * self._rarity.of(f"={word}")

    def _weighed(self, named: tuple[tuple[str, str], ...]) -> Group:
        lexicon = self._lexicon
        options: dict[str, float] = {}
        weight = 0.0
        for kind, concept in named:
            feature = f"{kind}:{concept}"
            options[feature] = 1.0
            weight = max(weight, KIND_WEIGHT[kind] * self._rarity.of(feature))
            strength = 1.0
            for wider in lexicon.broader(kind, concept):
                strength *= BROADER_STEP
                options.setdefault(f"{kind}:{wider}", strength)
        return Group(
            tuple(options.items()), weight, frozenset(kind for kind, _ in named),
            any(kind == THING and lexicon.is_place(concept) for kind, concept in named),
        )


def weight_of(sample: Sample, scale: Scale) -> float:
    """What all that a sample says weighs together."""
    groups = [scale.group(named) for named in sample.groups]
    behind = _another_thing(groups)
    return sum(
        group.weight * (PLACE if behind and group.place else 1.0) for group in groups
    ) + sum(scale.word(word, sort) for word, sort in sample.words)


def units_of(heard: Heard, scale: Scale, inherited: Topic | None = None) -> list[Unit]:
    """The parts of a line, in reading order; those of the topic it goes on from come last."""
    spans: dict[tuple[int, int], list[Hit]] = {}
    for hit in heard.concepts:
        spans.setdefault((hit.start, hit.end), []).append(hit)
    named: list[tuple[str, Group, float]] = []
    for (start, end), hits in spans.items():
        factor = 1.0 if start >= heard.focus[0] and end <= heard.focus[1] else UNFOCUSED
        group = scale.group(tuple((hit.kind, hit.concept) for hit in hits))
        named.append((hits[0].words, group, factor))
    if inherited is not None:
        for kind, concepts in (
            (THING, inherited.things), (DOING, inherited.doings), (WISH, inherited.wishes),
            (FILM, inherited.films), (CONDITION, inherited.conditions),
        ):
            if concepts:
                group = scale.group(tuple((kind, each) for each in sorted(concepts)))
                named.append((" / ".join(sorted(concepts)), group, INHERITED))
    behind = _another_thing(
        replace(group, weight=group.weight * factor) for _, group, factor in named
    )
    units: list[Unit] = []
    for label, group, factor in named:
        weight = group.weight * factor * (PLACE if behind and group.place else 1.0)
        units.append(Unit(label, group.options, weight, weight, group.kinds, CONCEPT))
    for token in heard.tokens:
        if token.sort in (CONCEPT, NUMBER):
            continue
        weight = scale.word(token.word, token.sort)
        if not heard.in_focus(token):
            weight *= UNFOCUSED
        cost = 0.0 if token.sort == PLAIN else weight
        options = ((f"={token.word}", 1.0),)
        units.append(Unit(token.typed, options, weight, cost, frozenset(), token.sort))
    return units


def _another_thing(groups: Iterable[Group]) -> bool:
    """Whether a thing other than a place is spoken of: a panel or a vehicle beside it only says
    where ("the lap on the bonnet")."""
    return any(
        THING in group.kinds and not group.place and group.weight >= TELLING for group in groups
    )


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

    features  feature -> what it holds of it, see DECLARED; beside a line, only those of the line
    phrases   how many sample phrases there are, the title among them
    """

    intent: Intent
    features: dict[str, int]
    phrases: int

    @classmethod
    def of(cls, intent: Intent, phrases: Sequence[Sample], text: Sample) -> Profile:
        # Only a phrase excuses a word of another subject.
        elsewhere = {f"={word}" for word, sort in text.words if sort == FOREIGN}
        features = dict.fromkeys(sorted(features_of(text) - elsewhere), IN_ITS_TEXT)
        for sample in phrases:
            for feature in sorted(features_of(sample)):
                features[feature] = features.get(feature, 0) + A_PHRASE
        for feature in (*declared(intent), *(f"{WISH}:{wish}" for wish in sorted(intent.wishes))):
            features[feature] = features.get(feature, 0) | DECLARED
        return cls(intent, features, len(phrases))


def features_of(sample: Sample) -> set[str]:
    """What a sample holds: its concepts, and its words but for numbers."""
    return {f"{kind}:{concept}" for named in sample.groups for kind, concept in named} | {
        f"={word}" for word, _ in sample.words
    }


def declared(intent: Intent) -> Iterable[str]:
    """The features that the intent itself says it is about."""
    for kind, concepts in (
        (THING, intent.things), (DOING, intent.doings), (FILM, intent.films),
        (CONDITION, intent.conditions),
    ):
        for concept in concepts:
            yield f"{kind}:{concept}"
