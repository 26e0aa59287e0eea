"""The verdict: what routing concludes about a line.

Owns the three endings. Which candidates there are is router.py's; what is said is conversation/'s.
"""

from __future__ import annotations

from dataclasses import dataclass, field

SURE, CHOICE, OUTSIDE = "sure", "choice", "outside"


@dataclass(frozen=True, slots=True)
class Candidate:
    """An intent that the line may mean.

    score    0..1, comparable within one line
    matched  what of the line it covers (concepts and words), for `why did you answer that`
    missing  what of the line it does not cover
    """

    intent_id: str
    score: float
    matched: tuple[str, ...] = field(default=())
    missing: tuple[str, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Verdict:
    """sure: the first candidate answers. choice: 2 to 4 candidates to offer. outside: not known;
    the candidates are then the nearest things that are known.

    confidence  0..1
    reason      in words, why it ended so
    """

    kind: str
    candidates: tuple[Candidate, ...] = ()
    confidence: float = 0.0
    reason: str = ""

    @property
    def top(self) -> Candidate | None:
        return self.candidates[0] if self.candidates else None
