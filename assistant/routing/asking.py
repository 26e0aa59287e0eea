"""Asking: what a line wants, and how much it says of what it wants it of.

Owns the reading of a heard line for routing. How well an intent fits it is ranking.py's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from assistant.hearing.heard import NUMBER, THING, TRADE, WISH, Heard
from assistant.routing.facets import TOPICAL, Unit

_TEMPERATURE, _LENGTH, _DURATION = "temperature", "length", "duration"
# What a quantity in the line says is wanted when no wish is spoken ("is 200 F ok").
_WISH_OF_KIND = {
    _TEMPERATURE: "how-hot", "temperature_difference": "how-close", _LENGTH: "how-wide",
    _DURATION: "how-long", "ratio": "how-much", "volume": "how-much",
}
HOTTEST_NUMBER = 400
HOT_NUMBER = 90         # a bare number from here on, asked about, is a heat in degrees
# Wishes that say little of what is wanted.
LOOSE_WISHES = frozenset(("may-i", "what-is", "which", "where", "how-to", "why"))
_LEAVE = frozenset(("may-i",))
_DAYS = frozenset("today tonight tomorrow now week weekend month morning".split())
_TOPICAL = frozenset(TOPICAL)
BARE_WORDS = 3          # a line of more words says something beside the thing it names


def wishes_of(heard: Heard) -> frozenset[str]:
    """What is wanted: the wishes in the clause of the question, or what a quantity implies."""
    hits = [hit for hit in heard.concepts if hit.kind == WISH]
    spoken = frozenset(hit.concept for hit in hits if heard.in_focus(hit))
    if spoken - LOOSE_WISHES:
        return spoken
    implied = set()
    for found in heard.quantities:
        if found.kind in _WISH_OF_KIND:
            implied.add(_WISH_OF_KIND[found.kind])
        elif found.bare and HOT_NUMBER <= found.low <= HOTTEST_NUMBER:
            implied.add("how-hot")


    if heard.yes_no or spoken & _LEAVE:
        if any(token.word in _DAYS for token in heard.tokens if heard.in_focus(token)):
            implied.add("when")
    return spoken | implied


def wording_of(heard: Heard) -> str:
    """The clause of the question without its numbers, spelling mended, for likeness of wording."""
    return " ".join(
        token.word for token in heard.tokens
        if heard.in_focus(token) and token.sort != NUMBER
    )


def bare(heard: Heard, units: Sequence[Unit]) -> bool:
    """Whether the line names a thing and says nothing of what is done or wanted."""
    if heard.wishes or heard.yes_no or heard.quantities or len(heard.tokens) > BARE_WORDS:
        return False
    return all(THING in unit.kinds for unit in units)


def topical(units: Iterable[Unit]) -> bool:
    return any(
        unit.weight > 0 and (unit.kinds & _TOPICAL or unit.sort == TRADE) for unit in units
    )
