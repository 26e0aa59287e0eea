"""The topic: what the talk stands on, so that a short line can go on from there.

Owns which part of a new line replaces which part of the old. Scoring is router.py's.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.hearing.heard import Heard

_NONE: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Topic:
    """The concepts of the question that was last answered, and the intent that answered it."""

    things: frozenset[str] = _NONE
    doings: frozenset[str] = _NONE
    wishes: frozenset[str] = _NONE
    films: frozenset[str] = _NONE
    conditions: frozenset[str] = _NONE
    intent_id: str | None = None

    @classmethod
    def of(cls, heard: Heard, intent_id: str | None = None) -> Topic:
        """The topic of one line on its own."""
        return cls(
            heard.things, heard.doings, frozenset(heard.wishes), heard.films, heard.conditions,
            intent_id,
        )

    @classmethod
    def after(cls, heard: Heard, topic: Topic | None, intent_id: str | None = None) -> Topic:
        """The topic once `heard` was answered by `intent_id` while `topic` stood.

        A question of its own starts anew. Otherwise what the line names replaces what the topic
        held of the same kind, and the rest is kept: `and for an overlap?` changes the thing,
        `how long?` the wish, `what about chrome` the film, `what if it's repainted` the condition.
        """
        if topic is None or stands_alone(heard):
            return cls.of(heard, intent_id)
        return cls(
            heard.things or topic.things,
            heard.doings or topic.doings,
            frozenset(heard.wishes) or topic.wishes,
            heard.films or topic.films,
            heard.conditions or topic.conditions,
            intent_id or topic.intent_id,
        )


def stands_alone(heard: Heard) -> bool:
    """Whether the line is a whole question: a thing with a doing or a wish, or a doing with a wish,
    and no opening word that leans on what was said before."""
    if leans(heard):
        return False
    parts = (bool(heard.things), bool(heard.doings), bool(heard.wishes) or heard.yes_no)
    return sum(parts) >= 2


def leans(heard: Heard) -> bool:
    """Whether the line leans on what was said before, and more than by an `it` beside a doing and
    a wish of its own ("can I wash it tomorrow")."""
    return heard.follow_up and not (heard.doings and (heard.wishes or heard.yes_no))


def inherited(heard: Heard, topic: Topic, beside: bool = False) -> Topic | None:
    """What a line takes over from the topic: the kinds that it does not name itself. None when it
    is a question of its own, or when there is nothing to take over.

    beside  keep the topic's things beside those that the line names
    """
    if stands_alone(heard):
        return None
    kept = Topic(
        _NONE if heard.things and not beside else topic.things,
        _NONE if heard.doings else topic.doings,
        _NONE if heard.wishes else topic.wishes,
        _NONE if heard.films else topic.films,
        _NONE if heard.conditions else topic.conditions,
        topic.intent_id,
    )
    if not (kept.things or kept.doings or kept.films or kept.conditions):
        return None
    return kept
