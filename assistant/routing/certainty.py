"""Certainty: how likely a line is about the trade at all, and how likely each answer is meant.

Owns the two estimates. The scores they are drawn from are ranking.py's, what follows from them is
router.py's.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import exp

from assistant.hearing.heard import FOREIGN, UNKNOWN
from assistant.routing.facets import Unit
from assistant.routing.ranking import Fit

# That a line is about the trade is drawn from its best intent by a logistic of these; fitted on
# half of tests/questions, where it lets through 97 in 100 questions of the trade.
BIAS = -3.7
BY_PART = {
    "covered": 3.2,         # share of what costs that the intent has
    "had": 2.3,             # share of all of the line
    "about": 1.2,           # share of the concepts
    "wording": 2.4,
    "thing met": 0.9, "doing met": 0.4,
}
BY_FOREIGN = -0.3       # each word of another subject that the intent does not know
BY_FOREIGN_SHARE = -4.7  # and their share of the line
BY_UNKNOWN = -0.9       # each word that nobody knows
MOST_COUNTED = 3
STRANGE_FROM = 0.3      # words outside the clause of the question weigh less and do not count


def inside(fit: Fit, units: Sequence[Unit]) -> float:
    """How likely the line is about what the intent is about, 0..1."""
    strange = {FOREIGN: 0, UNKNOWN: 0}
    total = foreign = 0.0
    for unit in units:
        total += unit.weight
        if unit.sort in strange:
            if unit.sort == FOREIGN:
                foreign += unit.weight
            if unit.weight > STRANGE_FROM and unit.options[0][0] not in fit.held:
                strange[unit.sort] += 1
    drawn = (
        BIAS + sum(weight * fit.parts.get(part, 0.0) for part, weight in BY_PART.items())
        + BY_FOREIGN * min(strange[FOREIGN], MOST_COUNTED)
        + BY_UNKNOWN * min(strange[UNKNOWN], MOST_COUNTED)
        + BY_FOREIGN_SHARE * foreign / (total or 1.0)
    )
    return 1.0 / (1.0 + exp(-drawn))


def chances(fits: Sequence[Fit], key: Callable[[Fit], str]) -> dict[str, float]:
    """How likely each answer is the one meant if any of them is, likeliest first; they add up to 1.

    key  of a fit: fits that share it give the same answer
    """
    if not fits:
        return {}
    best = max(fit.score for fit in fits)
    sums: dict[str, float] = {}
    for fit in fits:
        name = key(fit)
        sums[name] = sums.get(name, 0.0) + exp(fit.score - best)
    total = sum(sums.values())
    return {
        name: part / total for name, part in sorted(sums.items(), key=lambda each: -each[1])
    }
