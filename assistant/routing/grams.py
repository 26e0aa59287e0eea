"""Grams: the small parts of a line by which two lines can be compared.

Owns the pairs of neighbours and the runs of letters. The words and stems they are made of are
wording.py's; how much a part says about an intent is evidence.py's.
"""

from __future__ import annotations

from collections.abc import Sequence

SHORTEST_RUN = 3
LONGEST_RUN = 4      # in letters; runs go across the gap between two words

_START, _END = "^", "$"


def pairs_of(row: Sequence[str]) -> list[str]:
    """Neighbours, and those with one other between them ("how _ is"); both ends count.

    Each pair once, in the order of the line: sums over the parts then come out the same each time.
    """
    if not row:
        return []
    row = [_START, *row, _END]
    pairs = dict.fromkeys(map(" ".join, zip(row, row[1:], strict=False)))
    pairs.update(dict.fromkeys(map(" _ ".join, zip(row, row[2:], strict=False))))
    return list(pairs)


def runs_of(words: Sequence[str]) -> list[str]:
    """Runs of SHORTEST_RUN to LONGEST_RUN letters of the line, a space at each end, each once."""
    if not words:
        return []
    line = f" {' '.join(words)} "
    runs: list[str] = []
    for length in range(SHORTEST_RUN, LONGEST_RUN + 1):
        runs += [line[start:start + length] for start in range(len(line) - length + 1)]
    return list(dict.fromkeys(runs))
