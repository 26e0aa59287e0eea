"""Picking: which of the offered choices a short line means.

Owns numbers, ordinals and distinguishing words. Offering choices is talk.py's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from rapidfuzz import fuzz

from assistant.hearing.heard import Heard

_ORDINALS = {
    "1": 0, "one": 0, "first": 0, "2": 1, "two": 1, "second": 1, "3": 2, "three": 2, "third": 2,
    "4": 3, "four": 3, "fourth": 3, "last": -1, "latter": -1, "former": 0,
}
_SMALL = frozenset("the option number no please that this choice i mean one".split())
# Words that tell no choice from another, though only one label may hold them.
_NOT_TELLING = frozenset(
    "a an the is are was be do does how what when where why which who it its this that of on in at "
    "for to from with without and or not no must may can i you we hot long much many wide".split()
)
_ALIKE = 85  # two words this alike by letters are the same word badly typed
_LONGEST_PICK = 7


@dataclass(frozen=True)
class Choice:
    """One of the things that may have been meant.

    label  the words that tell it apart, as offered
    about  concepts the choice is about, beside its label
    """

    label: str
    intent_id: str
    about: tuple[str, ...] = ()


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z0-9]+", text.lower())


def picked(choices: Sequence[Choice], heard: Heard) -> Choice | None:
    """The choice that the line picks, or None when it is about something else."""
    words = _words(heard.tidy)
    if not words or len(words) > _LONGEST_PICK:
        return None
    ordinal = [word for word in words if word in _ORDINALS]
    if ordinal and all(word in _ORDINALS or word in _SMALL for word in words):
        place = _ORDINALS[ordinal[0] if ordinal[0] != "one" or len(ordinal) == 1 else ordinal[1]]
        if -1 <= place < len(choices):
            return choices[place]
        return None
    telling = [_distinguishing(choice, choices) for choice in choices]
    said = set(words) | {word for hit in heard.concepts for word in _words(hit.concept)}
    scores = [sum(_is_said(word, said) for word in own) for own in telling]
    best = max(scores)
    if best == 0 or scores.count(best) > 1:
        return None
    return choices[scores.index(best)]


def _distinguishing(choice: Choice, choices: Sequence[Choice]) -> set[str]:
    own = set(_words(choice.label)) | {word for about in choice.about for word in _words(about)}
    others = set().union(*(
        set(_words(other.label)) | {word for about in other.about for word in _words(about)}
        for other in choices
        if other is not choice
    ))
    # "long van" beside "short van": all that tells them apart is a word that seldom tells.
    return own - others - _NOT_TELLING or own - others


def _is_said(word: str, said: set[str]) -> bool:
    if word in said:
        return True
    return len(word) > 3 and any(
        len(other) > 3 and fuzz.ratio(word, other) >= _ALIKE for other in said
    )
