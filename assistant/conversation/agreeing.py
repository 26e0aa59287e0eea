"""Agreeing: yes or no to what was proposed, and by whom and why it was decided.

Owns the words of consent. What is proposed belongs to whoever asks.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

NEEDS = ("yes or no",)

_YES = re.compile(
    r"(?:(?:yes|yep|yeah|yea|yup|y|aye|sure|ok|okay|si|sí|oui|ja|go ahead|do it|do that|write it"
    r"|save it|keep it|please do|please|that is right|thats right|that's right|right|correct"
    r"|agreed|confirmed|confirm|forget it)[\s,.!]*)+", re.IGNORECASE,
)
_NO = re.compile(
    r"(?:(?:no|nope|nah|n|don't|dont|do not|not now|leave it|better not|thanks|thank you|write it"
    r"|rather not|wait|stop|wrong|as it is)[\s,.!]*)+", re.IGNORECASE,
)
_BECAUSE = re.compile(r"(?:^|[\s,;.])(?:because|reason:|'cause|cos)\s+(?P<why>.+)$",
                      re.IGNORECASE | re.DOTALL)
_BY_ASIDE = re.compile(r"[,;.]\s*(?:decided )?by\s+(?P<who>[^\d,;]+?)[\s.!]*$", re.IGNORECASE)
_BY = re.compile(r"(?:^|[\s,;.])(?:decided )?by\s+(?P<who>[^\d,;]+?)[\s.!]*$", re.IGNORECASE)
_LONGEST_WHO, _LONGEST_WHY = 60, 200


@dataclass(frozen=True, slots=True)
class Ground:
    """Whose decision something is, and why; empty where it was not said."""

    who: str = ""
    because: str = ""

    def with_more(self, other: Ground) -> Ground:
        """What is said later takes the place of what was said before."""
        return Ground(other.who or self.who, other.because or self.because)

    def __bool__(self) -> bool:
        return bool(self.who or self.because)


def ground_of(text: str, answering: bool = False) -> tuple[str, Ground]:
    """The line without its "by ..." and "because ...", and what they say.

    answering  the line answers a proposal: "by" then needs no comma before it. In a rule it does:
               "lap panels by a quarter inch" names nobody.
    """
    by = _BY if answering else _BY_ASIDE
    why = ""
    found = _BECAUSE.search(text)
    if found is not None:
        text, why = text[:found.start()], found["why"].strip()
        named = _BY_ASIDE.search(why)
        if named is not None:
            why = why[:named.start()]
            return text.strip(" ,;"), _ground(named["who"], why)
    named = by.search(text)
    if named is None:
        return text.strip(" ,;"), _ground("", why)
    return text[:named.start()].strip(" ,;"), _ground(named["who"], why)


def _ground(who: str, why: str) -> Ground:
    return Ground(_short(who, _LONGEST_WHO), _short(why.rstrip(" .!"), _LONGEST_WHY))


def _short(text: str, most: int) -> str:
    text = " ".join(text.split())
    return text if len(text) <= most else text[:most - 3].rstrip() + "..."


def agreed(text: str) -> bool | None:
    """True for yes, False for no, None when the line is neither."""
    bare = " ".join(text.split()).strip(" .!?")
    if not bare:
        return None
    if _YES.fullmatch(bare):
        return True
    return False if _NO.fullmatch(bare) and not bare.lower().startswith("write it") else None
