"""Life table: how long a film lasts, by climate zone and by upright or flat surface, as typed.

Owns the reading of such a line. The other questions of a bulletin are sheet_questions.py's, the
dates that follow from the years calculations/film_life_left.py's.
"""

from __future__ import annotations

from assistant.conversation.sheet_questions import BY_KEY, Nonsense, beyond, unit_of
from assistant.hearing.heard import Heard
from assistant.hearing.lexicon import WORD
from assistant.quantity.read import Found
from assistant.quantity.write import System
from assistant.rules.sheets import LifeSaid, Said

_SURFACES = {
    "upright": "upright", "vertical": "upright", "sides": "upright", "side": "upright",
    "flat": "flat", "horizontal": "flat", "level": "flat", "top": "flat",
}
_ZONE_NOISE = frozenset(
    "year years yr yrs y and or in the a an for zone climate of is on it lasts life surfaces "
    "surface month months".split()
)
ANY_ZONE = "any"


def life_of(heard: Heard, system: System) -> tuple[LifeSaid, ...] | Nonsense:
    """The lines of a life table in one line typed: zones, surfaces and years."""
    question = BY_KEY["life"]
    bounds = question.bounds
    assert bounds is not None
    lines: list[LifeSaid] = []
    zone, before = "", 0
    for found in heard.quantities:
        if found.problem:
            return Nonsense(f"I cannot read {found.text.strip()!r}: {found.problem}.")
        unit = unit_of(found, bounds, system)
        if unit is None:
            return Nonsense(f"{found.text.strip()} is no time that a film lasts.")
        said = Said(found.low, found.low, unit)
        wrong = beyond(question, found.low, unit, bounds, system)
        if found.low != found.high:
            wrong = f"{found.text.strip()}: the life table has one number each."
        if wrong:
            return Nonsense(wrong)
        words = WORD.findall(heard.text[before:found.start])
        before = found.end
        surfaces = [_SURFACES[word.lower()] for word in words if word.lower() in _SURFACES]
        if not surfaces:  # "7 years upright, 4 years flat"
            after = next(
                (each for each in WORD.finditer(heard.text, found.end, _next(heard, found))
                 if each[0].lower() in _SURFACES), None,
            )
            if after is not None:
                surfaces, before = [_SURFACES[after[0].lower()]], after.end()
        named = " ".join(
            word for word in words
            if word.lower() not in _SURFACES and word.lower() not in _ZONE_NOISE
        )
        zone = named or zone or ANY_ZONE
        if not surfaces:
            return Nonsense(f"{found.text.strip()}: upright or flat?")
        lines.append(LifeSaid(zone, surfaces[0], said))
    if not lines:
        return Nonsense("I heard no years.")
    return tuple(lines)


def _next(heard: Heard, found: Found) -> int:
    return min((each.start for each in heard.quantities if each.start >= found.end),
               default=len(heard.text))
