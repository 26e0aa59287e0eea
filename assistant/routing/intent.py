"""Intent: one thing that a person may want, as routing sees it.

Owns the shape only. Intents are made from the rules, calculations and acts by rules/; which one
a line means is the question of router.py, how near it comes to the sample phrases that of
likeness.py.
"""

from __future__ import annotations

from dataclasses import dataclass

_NONE: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Intent:
    """What can be asked for, with the lines that people ask it by.

    id          never reused; ties are broken by it
    phrases     sample lines, as people would type them
    things, doings, films, conditions   the concepts it declares itself to be about
    wishes      the wishes that it can answer (how-hot, how-to, why ...)
    answer_key  intents that share it give the same figure, so between them there is no doubt
    kind        "rule" | "calculation" | "act"
    safety      whether a wrong answer could hurt somebody
    takes       kinds of quantity that a sum takes ("length", "temperature" ...)
    gives       the figures that it tells, each as "kind role low high", the bounds in SI
                ("ratio over 0.1 0.1"); role is value | range | at_least | at_most | over
    text        what it says besides: the rule's words, reason and steps, as one text
    weight      how readily it is taken beside others, 1 for all that are equal
    """

    id: str
    title: str = ""
    phrases: tuple[str, ...] = ()
    things: frozenset[str] = _NONE
    doings: frozenset[str] = _NONE
    films: frozenset[str] = _NONE
    conditions: frozenset[str] = _NONE
    wishes: frozenset[str] = _NONE
    answer_key: str = ""
    kind: str = "rule"
    safety: bool = False
    weight: float = 1.0
    takes: frozenset[str] = _NONE
    text: str = ""
    gives: frozenset[str] = _NONE
