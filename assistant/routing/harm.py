"""Harm: whether a line tells of what an intent about harm warns of.

Owns that reading. What it counts beside the other parts is ranking.py's; which words bring which
hazard is the lexicon's.
"""

from __future__ import annotations

from collections.abc import Collection

from assistant.hearing.heard import DOING, THING
from assistant.hearing.lexicon import Lexicon
from assistant.routing.measures import Line


def harm(
    line: Line, declared: Collection[str], hazards: Collection[str], lexicon: Lexicon
) -> dict[str, float]:
    """Whether the line brings two hazards together that the intent is about, or tells of one of its
    things without asking.

    declared  the features that the intent declares
    hazards   those of the things and doings among them
    """
    found: dict[str, float] = {}
    told = not line.wishes and not line.heard.yes_no
    if len(hazards) > 1:
        met: dict[str, str] = {}
        for hit in line.heard.concepts:
            # Heat is part of the work: only a line that tells of it, and asks nothing, warns.
            if hit.kind == DOING and not told:
                continue
            hazard = lexicon.hazard(hit.kind, hit.concept)
            if hazard in hazards:
                met[hazard] = hit.words
        if len(set(met.values())) > 1:
            found["hazards meet"] = 1.0
    if told and any(f"{THING}:{concept}" in declared for concept in line.of_kind.get(THING, ())):
        found["unsafe thing told"] = 1.0
    return found
