"""Fitting: how one facet of an intent meets what a line says, as a number.

Owns the values for met, not spoken of, and another spoken of. Their weights are ranking.py's.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.hearing.heard import CONDITION, DOING, FILM, THING, WISH, Heard
from assistant.routing.facets import Unit
from assistant.routing.intent import Intent

TAKES_BONUS = 0.16    # a sum that takes the kinds of quantity in the line
NO_NUMBERS_AND_MORE = -0.5   # ... while it speaks of something else
SURELY_A_SUM = 3      # so many numbers are not named to have one of them judged
NO_NUMBERS = -0.20    # a sum, when the line has nothing to put into it
# How a facet of an intent fits a line: met, not spoken of, spoken of but another.
_SILENT = {THING: 0.45, DOING: 0.6, FILM: 0.55, CONDITION: 0.7}
_OTHER = {THING: 0.0, DOING: 0.25, FILM: 0.1, CONDITION: 0.5}
_FREE = 0.75          # a facet that the intent leaves open
_NO_WISH = 0.7
# Wishes that any rule can be asked with.
_ANY_RULE = frozenset(("may-i", "what-is", "which", "where", "signs"))


def taken(takes: frozenset[str], heard: Heard, wording: float, covered: float) -> float:
    """What the numbers of a line say for a sum that takes such quantities. A value that is only
    asked about ("is 2 in enough") is judged by a rule, not put into a sum."""
    count = len(heard.quantities)
    if not count or (heard.yes_no and count < SURELY_A_SUM):
        # Asked for in so many words, and nothing else with it, the sum asks for its numbers.
        return NO_NUMBERS * (1.0 - wording) + NO_NUMBERS_AND_MORE * (1.0 - covered)
    fitting = sum(1.0 if found.kind in takes else 0.5 * found.bare for found in heard.quantities)
    return TAKES_BONUS * fitting / count * min(count, SURELY_A_SUM) / SURELY_A_SUM


def facet(
    kind: str, concepts: frozenset[str], units: Sequence[Unit],
    said: dict[str, tuple[Unit, float]], features: dict[str, float],
) -> float:
    """How one kind of facet of an intent fits, 0..1."""
    if not concepts:
        return _FREE
    best = 0.0
    for concept in concepts:
        found = said.get(f"{kind}:{concept}")
        if found is not None and found[1] > best:
            best = found[1]
    if best:
        return best
    fit = _SILENT[kind]
    for unit in units:
        if kind in unit.kinds and unit.weight > 0:
            for feature, _ in unit.options:
                if feature in features:
                    # Not declared, but its own phrases speak of it.
                    return (_SILENT[kind] + 1.0) / 2
            fit = _OTHER[kind]
    return fit


def wish_fit(intent: Intent, features: dict[str, float], wishes: frozenset[str]) -> float:
    if not wishes:
        return _NO_WISH
    best = 0.1
    for wish in (wishes - _ANY_RULE) or wishes:
        if wish in intent.wishes:
            return 1.0
        if f"{WISH}:{wish}" in features:
            best = max(best, 0.85)
        elif wish in _ANY_RULE:
            best = max(best, 0.6)
    return best
