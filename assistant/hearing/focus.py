"""Focus: where in a long text the question stands.

Owns the choice of the clause. What the clause means is hear.py's.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.hearing.heard import DOING, FOREIGN, THING, UNKNOWN, WISH, Hit, Token

# Up to this many words a line is one thought, whatever its punctuation.
SHORT = 24
# A stretch of words without a full stop is cut into overlapping windows of this length.
WINDOW = 22
_ENDS = ".?!;\n…"
_ASKING = frozenset(
    "what whats how when why which where who can may should could do does is are will would "
    "must shall que como cuanto cuando cual por".split()
)


def focus_of(text: str, tokens: Sequence[Token], hits: Sequence[Hit]) -> tuple[int, int]:
    """The span of the clause with the question; the whole text when it is short.

    A clause earns by what it holds: a wish most, then a thing, a doing, a question mark, an asking
    word; it pays for words nobody knows. Of two equals the later one wins: a ramble ends with its
    question.
    """
    if len(tokens) <= SHORT:
        return 0, len(text)
    best, best_worth = (0, len(text)), -1.0
    for first, last in _clauses(text, tokens):
        inside = tokens[first:last]
        start = inside[0].start
        end = tokens[last].start if last < len(tokens) else len(text)
        worth = _worth(text, inside, start, end, hits) + 0.3 * last / len(tokens)
        if worth >= best_worth:
            best, best_worth = (start, end), worth
    return best


def _worth(
    text: str, inside: Sequence[Token], start: int, end: int, hits: Sequence[Hit]
) -> float:
    kinds = {hit.kind for hit in hits if hit.start >= start and hit.end <= end}
    strange = sum(token.sort in (UNKNOWN, FOREIGN) for token in inside)
    asked = any(token.word in _ASKING for token in inside)
    return (
        2.0 * (WISH in kinds) + 1.5 * (THING in kinds) + 1.0 * (DOING in kinds)
        + 1.5 * ("?" in text[start:end]) + 1.0 * asked - 0.15 * strange
    )


def _clauses(text: str, tokens: Sequence[Token]) -> list[tuple[int, int]]:
    """Index pairs into `tokens`: sentences; long ones as windows that overlap by half."""
    bounds = [0]
    for place in range(1, len(tokens)):
        between = text[tokens[place - 1].end:tokens[place].start]
        # A full stop inside "2.5" stands within one token and never shows here.
        if any(mark in between for mark in _ENDS):
            bounds.append(place)
    bounds.append(len(tokens))
    clauses: list[tuple[int, int]] = []
    for first, last in zip(bounds, bounds[1:], strict=False):
        if last - first <= SHORT:
            clauses.append((first, last))
            continue
        for start in range(first, last - WINDOW // 2, WINDOW // 2):
            clauses.append((start, min(start + WINDOW, last)))
    return clauses


