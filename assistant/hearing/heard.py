"""Heard: what one line said, as concepts, quantities and leftover words.

Owns the model and the short summary that a reply repeats back. How it is found belongs to
hear.py; what it asks for belongs to routing/.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import TypeVar

from assistant.quantity.read import Found

THING, DOING, WISH, FILM, CONDITION = "thing", "doing", "wish", "film", "condition"
KINDS = (THING, DOING, WISH, FILM, CONDITION)

# What a word turned out to be.
CONCEPT, TRADE, PLAIN, FOREIGN, UNKNOWN, NUMBER = (
    "concept", "trade", "plain", "foreign", "unknown", "number",
)

_Spanned = TypeVar("_Spanned", "Token", "Hit")

_SAID_ORDER = (DOING, THING, FILM, CONDITION, WISH)
_MOST_SAID = 6


@dataclass(frozen=True, slots=True)
class Token:
    """One word of the line.

    word   folded: lower case, no accents, no apostrophe, spelling mended, base form where known
    typed  as it stands in the line, lower case
    start, end  its span in Heard.text
    sort   concept | trade (only in the rules' phrases) | plain | foreign | unknown | number
    """

    word: str
    typed: str
    start: int
    end: int
    sort: str


@dataclass(frozen=True, slots=True)
class Hit:
    """A concept of the lexicon that the line names.

    words   the words that named it, as typed (lower case)
    mended  whether the spelling had to be mended to see it
    """

    concept: str
    kind: str
    words: str
    start: int
    end: int
    mended: bool = False


@dataclass(frozen=True, slots=True)
class Heard:
    """What one line said.

    text        the line as typed (a very long one: its beginning and its end, see `cut`)
    tidy        the same, case folded, one space between words, straight quotes
    concepts    in reading order; one word may name two concepts ("lift")
    quantities  every quantity and bare number, in reading order
    unknown     content words that nobody knows, as typed
    foreign     words that belong to other trades and subjects, as typed
    focus       span in `text` of the clause that holds the question; the whole line when short
    mended      (typed, understood) pairs
    cut         the line was too long and its middle was not read
    """

    text: str
    tidy: str
    tokens: tuple[Token, ...] = ()
    concepts: tuple[Hit, ...] = ()
    quantities: tuple[Found, ...] = ()
    unknown: tuple[str, ...] = ()
    foreign: tuple[str, ...] = ()
    yes_no: bool = False
    follow_up: bool = False
    negated: bool = False
    focus: tuple[int, int] = (0, 0)
    mended: tuple[tuple[str, str], ...] = field(default=())
    cut: bool = False

    def of(self, kind: str) -> frozenset[str]:
        """The concepts of one kind."""
        return frozenset(hit.concept for hit in self.concepts if hit.kind == kind)

    @property
    def things(self) -> frozenset[str]:
        return self.of(THING)

    @property
    def doings(self) -> frozenset[str]:
        return self.of(DOING)

    @property
    def wishes(self) -> tuple[str, ...]:
        """The wishes, in reading order, each once."""
        return tuple(dict.fromkeys(hit.concept for hit in self.concepts if hit.kind == WISH))

    @property
    def films(self) -> frozenset[str]:
        return self.of(FILM)

    @property
    def conditions(self) -> frozenset[str]:
        return self.of(CONDITION)

    def in_focus(self, hit: Hit | Token) -> bool:
        """Whether it stands in the clause that holds the question."""
        return hit.start >= self.focus[0] and hit.end <= self.focus[1]

    def said(self) -> str:
        """What was heard, for the reply: "post-heat, overlap, how hot; 200 °F; hete -> heat"."""
        parts = [", ".join(self._named()), ", ".join(self._numbers()), ", ".join(
            f"{typed} -> {word}" for typed, word in self.mended
        )]
        if self.cut:
            parts.append("a long text: only its beginning and end were read")
        return "; ".join(part for part in parts if part)

    def _named(self) -> list[str]:
        hits = [hit for hit in self.concepts if self.in_focus(hit)] or list(self.concepts)
        names = dict.fromkeys(
            hit.concept.replace("-", " ") if kind in (WISH, CONDITION) else hit.concept
            for kind in _SAID_ORDER
            for hit in hits
            if hit.kind == kind
        )
        return list(names)[:_MOST_SAID]

    def _numbers(self) -> list[str]:
        return [" ".join(found.text.split()) for found in self.quantities][:_MOST_SAID]

    def joined(self, other: Heard) -> Heard:
        """This line and a later one read as one: a question and the answer to a choice."""
        shift = len(self.text) + 1
        groups = 1 + max((found.group for found in self.quantities), default=-1)
        return replace(
            self,
            text=f"{self.text}\n{other.text}",
            tidy=f"{self.tidy} {other.tidy}".strip(),
            tokens=self.tokens + _shifted(other.tokens, shift),
            concepts=self.concepts + _shifted(other.concepts, shift),
            quantities=self.quantities + tuple(
                replace(
                    found, start=found.start + shift, end=found.end + shift,
                    group=found.group + groups,
                )
                for found in other.quantities
            ),
            unknown=self.unknown + other.unknown,
            foreign=self.foreign + other.foreign,
            yes_no=self.yes_no or other.yes_no,
            follow_up=self.follow_up,
            negated=self.negated or other.negated,
            focus=(0, shift + len(other.text)),
            mended=self.mended + other.mended,
            cut=self.cut or other.cut,
        )


def _shifted(spans: Iterable[_Spanned], by: int) -> tuple[_Spanned, ...]:
    return tuple(replace(span, start=span.start + by, end=span.end + by) for span in spans)
