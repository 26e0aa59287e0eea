"""Weights: what each part of the comparison between a line and an intent counts.

Owns the numbers. The parts are told in measures.py and harm.py, their sum is ranking.py's.
"""

from __future__ import annotations

# What each part counts. A score is a log odds: the chance of an intent is the exponential of its
# score, as a share of those of all (certainty.py). Fitted so on half of tests/questions, the rules'
# own questions counting a third.
WEIGHTS = {
    # the line beside all that the intent has
    "evidence": 2.0, "had": 1.3, "had of plain words": 1.0, "covered": 1.0, "about": 0.6,
    # ... beside its phrases, what it declares, its text
    "spoken": 1.95, "nearest phrase": 2.0, "wording": 2.1, "wording beside best": 3.2,
    "declared": 0.6, "written": 0.9,
    # what is wanted
    "asked so": 1.7, "can answer": 1.2,
    # facet by facet
    "thing met": 0.6, "thing told": -0.15, "thing other": 0.1, "thing open": 0.3,
    "thing open, said": 0.5,
    "doing met": 0.55, "doing told": -0.2, "doing other": -0.55, "doing open": 0.3,
    "doing open, said": 0.5,
    "film met": 0.2, "film silent": -0.55, "film open": 0.3,
    "condition met": 0.55, "condition told": -0.15, "condition other": -0.25,
    "condition open, said": -0.15,
    # the numbers; few questions have any, and those of figures are set by hand: a value that is
    # judged belongs to the rule with a figure of its kind
    "sum with numbers": 1.1, "sum without numbers": -1.2, "figure near": 0.5,
    "figure near, judged": 5.0, "tightest limit": 1.5,
    # harm comes first: set by hand too, for a wrong answer costs more there
    "hazards meet": 3.0, "unsafe thing told": 0.6,
}
