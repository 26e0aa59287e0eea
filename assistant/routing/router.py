"""The router: what was heard -> which intent answers, or which to offer, or none.

Owns the decision over the scores: sure, a choice, outside. The scores are ranking.py's, the
topic's merging topic.py's.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from assistant.hearing.heard import FOREIGN, PLAIN, UNKNOWN, Heard
from assistant.hearing.lexicon import Lexicon
from assistant.hearing.sample import sample_of
from assistant.routing.asking import LOOSE_WISHES, bare, topical, wishes_of, wording_of
from assistant.routing.certainty import chances, inside
from assistant.routing.facets import TOPICAL, Unit, units_of
from assistant.routing.intent import Intent
from assistant.routing.likeness import Likeness
from assistant.routing.ranking import LOOKED_AT, Fit, Ranking
from assistant.routing.topic import Topic, inherited, leans
from assistant.routing.verdict import CHOICE, OUTSIDE, SURE, Candidate, Verdict

TOLD_FROM = 0.7         # how likely a line must be about the trade to get more than a refusal
SURE_TOLD = 0.85        # ... and to be answered without asking
SURE_CHANCE = 0.65      # how likely an answer must be meant to be given without asking
SURE_FIGURE = 0.8       # ... one with figures: a wrong number costs more than a question
SURE_ONWARD = 0.5       # ... for a line that goes on from a subject: that rules out most others
SURE_BARE = 0.95        # ... for a line that names a thing and nothing else
VOUCHING = 1.0          # an intent whose score is within this of the best may vouch for the line
MOST_OFFERED = 3
MOST_OFFERED_VAGUE = 4
OFFERED_BESIDE = 0.04   # what is less likely than this beside the likeliest is not offered
ACT_SCORE = 0.65        # likeness from which a short line is about the talk itself
RANKED = 8
WORDED = 20             # the best by wording that are told apart by it
SHORT_ASKING = 5        # "can I start?": leave is asked, and not said for what

_STAYED = 0.7           # the confidence that a line which only sets the film stays where it was
_POINTING = frozenset("it this that they them these those".split())
_TO_THE_PROGRAM = frozenset("you your yourself u".split())


class Router:
    """Routes lines to intents. Build it with `build`."""

    def __init__(self, ranking: Ranking, likeness: Likeness, acts: Likeness) -> None:
        self._ranking = ranking
        self._likeness = likeness
        self._acts = acts
        self._intents = ranking.intents

    @classmethod
    def build(cls, intents: Iterable[Intent], lexicon: Lexicon) -> Router:
        """The router of these intents. Acts are told by their wording alone, the rest by facets."""
        every = tuple(intents)
        acts = tuple(intent for intent in every if intent.kind == "act")
        others = tuple(intent for intent in every if intent.kind != "act")
        phrases = [
            [sample_of(phrase, lexicon) for phrase in (*intent.phrases, intent.title)]
            for intent in others
        ]
        texts = [sample_of(intent.text, lexicon) for intent in others]
        return cls(
            Ranking.build(others, phrases, texts, lexicon),
            Likeness.build([
                replace(intent, phrases=(*intent.phrases, intent.title)) for intent in others
            ]),
            Likeness.build(acts),
        )

    def to_data(self) -> dict[str, Any]:
        """As plain data, for JSON; the intents and the lexicon are not part of it."""
        return {
            "ranking": self._ranking.to_data(),
            "likeness": self._likeness.to_data(),
            "acts": self._acts.to_data(),
        }

    @classmethod
    def from_data(
        cls, data: dict[str, Any], intents: Iterable[Intent], lexicon: Lexicon
    ) -> Router:
        """What `to_data` gave, for the same intents and the same lexicon."""
        others = tuple(intent for intent in intents if intent.kind != "act")
        return cls(
            Ranking.from_data(data["ranking"], others, lexicon),
            Likeness.from_data(data["likeness"]),
            Likeness.from_data(data["acts"]),
        )

    def route(self, heard: Heard, topic: Topic | None = None) -> Verdict:
        """The verdict on a line. `topic`: what the talk stands on, for lines that go on from it."""
        act = self._act(heard)
        if act is not None:
            return act
        alone = self._alone(heard)
        kept = inherited(heard, topic) if topic is not None else None
        if topic is None or kept is None or (alone.kind == SURE and not leans(heard)):
            return alone
        stayed = self._stay(heard, topic)
        if stayed is not None:
            return stayed
        onward = self._alone(heard, kept)
        if onward.kind != SURE and heard.things and topic.things:
            # "how much bleed", "and for a mirror?": the new thing may stand beside the old one.
            beside = self._alone(heard, inherited(heard, topic, beside=True))
            if beside.kind == SURE:
                return beside
        return onward if onward.kind != OUTSIDE else alone

    def ranked(self, heard: Heard, limit: int = RANKED) -> tuple[Candidate, ...]:
        """The best intents of a line and their scores, whatever the verdict."""
        units, fits = self._fits(heard, None, LOOKED_AT)
        return self._candidates(fits[:limit], units, chances(fits, self._key))

    # -- lines about the talk -----------------------------------------------------------------

    def _act(self, heard: Heard) -> Verdict | None:
        """The act that a short line without a topic of the trade calls for."""
        if heard.quantities or any(hit.kind in TOPICAL for hit in heard.concepts):
            return None
        ranked = self._acts.rank(heard.tidy, 1)
        if not ranked or min(ranked[0].score, ranked[0].coverage) < ACT_SCORE:
            return None
        act = Candidate(ranked[0].intent_id, _bounded(ranked[0].score))
        return Verdict(SURE, (act,), act.score, "its wording is that of an act")

    # -- questions ----------------------------------------------------------------------------

    def _alone(self, heard: Heard, kept: Topic | None = None) -> Verdict:
        units, fits = self._fits(heard, kept, LOOKED_AT)
        if not topical(units):
            return self._vague(heard, units)
        if not fits:
            return Verdict(OUTSIDE, (), 0.0, "no rule shares a word with it")
        likely = chances(fits, self._key)
        candidates = self._candidates(fits[:RANKED], units, likely)
        # Of several that come near, one that covers more of the line may vouch for them all.
        told = max(
            inside(fit, units)
            for fit in fits if fit.score >= fits[0].score - VOUCHING
        )
        if told < TOLD_FROM:
            return Verdict(OUTSIDE, candidates[:3], round(told * TOLD_FROM, 4),
                           "too little of it is known")
        chance = likely[self._key(fits[0])]
        confidence = round(chance * told, 4)
        sure_from = SURE_ONWARD if kept is not None else self._sure_from(fits[0], heard, units)
        if len(likely) == 1 or (chance >= sure_from and told >= SURE_TOLD):
            return Verdict(SURE, candidates, confidence, "one fits clearly best")
        offered = self._offered(fits, likely)
        return Verdict(CHOICE, self._candidates(offered, units, likely), confidence,
                       "several fit, with different answers")

    def _sure_from(self, fit: Fit, heard: Heard, units: Sequence[Unit]) -> float:
        if bare(heard, units):
            return SURE_BARE
        return SURE_FIGURE if self._intents[fit.index].gives else SURE_CHANCE

    def _fits(
        self, heard: Heard, kept: Topic | None, limit: int
    ) -> tuple[list[Unit], list[Fit]]:
        ranking = self._ranking
        units = units_of(heard, ranking.scale, kept)
        wishes = wishes_of(heard) or (kept.wishes if kept is not None else frozenset())
        text = wording_of(heard)
        worded = {found.intent_id: found.score for found in self._likeness.rank(text, WORDED)}
        return units, ranking.rank(units, heard, wishes, worded, limit)

    def _stay(self, heard: Heard, topic: Topic) -> Verdict | None:
        """A line that only sets the film or the condition stays with the rule that was told,
        unless there is a rule on the same subject for just that film or condition."""
        if heard.things or heard.doings or heard.wishes or topic.intent_id is None:
            return None
        if not (heard.films or heard.conditions) or not any(
            intent.id == topic.intent_id for intent in self._intents
        ):
            return None
        units, fits = self._fits(heard, inherited(heard, topic), LOOKED_AT)
        likely = chances(fits, self._key)
        wishes = topic.wishes - LOOSE_WISHES
        for fit in fits[:RANKED]:
            intent = self._intents[fit.index]
            if intent.id == topic.intent_id or (
                (intent.films & heard.films or intent.conditions & heard.conditions)
                and (not topic.things or intent.things & topic.things)
                and (not topic.doings or intent.doings & topic.doings)
                and (topic.things or topic.doings)
                and (not wishes or intent.wishes & wishes)
            ):
                return Verdict(SURE, self._candidates([fit], units, likely), _STAYED,
                               "it goes on from the last subject")
        stayed = Candidate(topic.intent_id, _STAYED)
        return Verdict(SURE, (stayed,), _STAYED, "it goes on from the last subject")

    def _offered(self, fits: Sequence[Fit], likely: Mapping[str, float]) -> list[Fit]:
        """One intent for each of the likeliest answers, at least two."""
        best_of: dict[str, Fit] = {}
        for fit in fits:
            best_of.setdefault(self._key(fit), fit)
        keys = list(likely)[:MOST_OFFERED]
        least = likely[keys[0]] * OFFERED_BESIDE
        return [
            best_of[key] for place, key in enumerate(keys) if place < 2 or likely[key] >= least
        ]

    def _key(self, fit: Fit) -> str:
        intent = self._intents[fit.index]
        return intent.answer_key or intent.id

    def _vague(self, heard: Heard, units: Sequence[Unit]) -> Verdict:
        """A line that names nothing of the trade: asked back when it wants something of the sort
        that rules give, outside otherwise."""
        words = {token.word for token in heard.tokens}
        strange = any(unit.sort in (UNKNOWN, FOREIGN) for unit in units)
        wishes = wishes_of(heard)
        asks = bool(wishes - LOOSE_WISHES) or (
            (heard.yes_no or wishes) and bool(words & _POINTING)
        ) or (
            "may-i" in wishes and len(heard.tokens) <= SHORT_ASKING
        )
        if strange or not asks or (words & _TO_THE_PROGRAM and not words & _POINTING):
            return Verdict(OUTSIDE, (), 0.0, "it names nothing of the trade")
        fits = self._ranking.of_wish(wishes, units)
        offered: dict[str, Fit] = {}
        for fit in fits:
            offered.setdefault(self._key(fit), fit)
        chosen = list(offered.values())[:MOST_OFFERED_VAGUE]
        if len(chosen) < 2:
            return Verdict(OUTSIDE, (), 0.0, "it names nothing of the trade")
        return Verdict(CHOICE, tuple(self._candidate(fit, units, fit.score) for fit in chosen),
                       _bounded(chosen[0].score), "it does not say of what")

    def _candidates(
        self, fits: Sequence[Fit], units: Sequence[Unit], likely: Mapping[str, float]
    ) -> tuple[Candidate, ...]:
        return tuple(self._candidate(fit, units, likely[self._key(fit)]) for fit in fits)

    def _candidate(self, fit: Fit, units: Sequence[Unit], score: float) -> Candidate:
        intent = self._intents[fit.index]
        features = fit.held
        telling = [unit for unit in units if unit.sort != PLAIN and unit.weight > 0]
        met = [any(feature in features for feature, _ in unit.options) for unit in telling]
        return Candidate(
            intent.id, _bounded(score),
            tuple(unit.label for unit, hit in zip(telling, met, strict=True) if hit),
            tuple(unit.label for unit, hit in zip(telling, met, strict=True) if not hit),
        )


def _bounded(score: float) -> float:
    return round(min(1.0, max(0.0, score)), 4)
