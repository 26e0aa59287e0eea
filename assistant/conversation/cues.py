"""Cues: how strongly a word beside a number claims it for a slot.

Owns the distance between words and numbers, and which words point forward only. Who gets the number
is slots.py's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from assistant.quantity.read import Found

if TYPE_CHECKING:
    from assistant.quantity.moment import FoundMoment

# A word beside a number; each word between takes some of it away.
BESIDE = 5.0
_CUE_STEP = 1.2
_CUE_REACH = 4
# Such a word belongs to the number after it: "70 percent from 99".
LEADING = frozenset(
    ("from", "to", "at", "of", "for", "out of", "by", "with", "to get", "add to", "off a", "in a",
     "kept at", "sits at", "down to", "drops to", "falls to", "give me", "dilute")
)
# Such a word does where a number follows: "5 cm over 18 cm", but "13 cm over".
_LEADING_IF = frozenset(("over", "across", "run", "run of", "over a run of"))


def _words_between(text: str, one: tuple[int, int], other: tuple[int, int]) -> int | None:
    """Words between two spans; None when they overlap. A comma counts as a word and a half."""
    if one[0] < other[1] and other[0] < one[1]:
        return None
    first, second = sorted((one, other))
    gap = text[first[1]:second[0]]
    return len(re.findall(r"[\w%°]+", gap)) + gap.count(",") + 2 * gap.count(".")


def cue_strength(
    text: str, found: Found | FoundMoment, cues: Sequence[str], others: Sequence[Found]
) -> float:
    """How strongly the nearest cue beside the number claims it."""
    best = 0.0
    for cue in cues:
        for match in re.finditer(rf"(?<!\w){re.escape(cue.lower())}s?(?!\w)", text):
            distance = _words_between(text, match.span(), (found.start, found.end))
            if match.end() > found.start and (
                cue in LEADING or cue in _LEADING_IF and re.match(
                    r"\s*(?:an?|the)?\s*[\d¼½¾]", text[match.end():]
                )
            ):
                continue
            if distance is None:
                # The cue stands inside the number's own words ("60% rh").
                return BESIDE + 1
            between = sum(
                other is not found
                and min(match.start(), found.start) <= other.start
                and other.end <= max(match.end(), found.end)
                for other in others
            )
            distance += 2 * between
            if distance <= _CUE_REACH:
                best = max(best, BESIDE - _CUE_STEP * distance)
    return best


def own_cues(spec: Any) -> list[str]:
    """The cues of a slot that are words of its name: "core" means the core and nothing else."""
    words = set(re.findall(r"[\w-]+", spec.name.lower()))
    return [spec.name, *(cue for cue in spec.cues if set(cue.lower().split()) <= words)]
