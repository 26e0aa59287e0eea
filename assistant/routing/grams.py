"""Grams: the small parts of a line by which two lines can be compared.

Owns which parts there are: stems, neighbouring stems, runs of letters. How much a part says about
an intent is evidence.py's.
"""

from __future__ import annotations

from collections.abc import Sequence

SHORTEST_RUN = 2
LONGEST_RUN = 5      # in letters; runs go across the gap between two words

_START, _END = "^", "$"


def pairs_of(stems: Sequence[str]) -> set[str]:
    """Neighbouring stems, and stems with one other between them ("how _ is"); ends count."""
    if not stems:
        return set()
    row = [_START, *stems, _END]
    pairs = {f"{first} {second}" for first, second in zip(row, row[1:], strict=False)}
    pairs.update(f"{first} _ {third}" for first, third in zip(row, row[2:], strict=False))
    return pairs


def runs_of(words: Sequence[str]) -> set[str]:
    """Runs of SHORTEST_RUN to LONGEST_RUN letters of the line, a space at each end."""
    if not words:
        return set()
    line = f" {' '.join(words)} "
    size = len(line)
    return {
        line[start:start + length]
        for length in range(SHORTEST_RUN, LONGEST_RUN + 1)
        for start in range(size - length + 1)
    }
