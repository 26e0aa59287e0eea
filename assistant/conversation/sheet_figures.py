"""Sheet figures: which questions of a bulletin a figure with a few words before it may answer.

Owns "max stretch 25%" and "post heat 95 C" said out of turn, and what is asked where the words
leave it open. How the number is read is sheet_questions.py's, when it is asked add_film.py's.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from assistant.conversation.picking import Choice
from assistant.conversation.sheet_questions import BY_KEY
from assistant.hearing.heard import Heard
from assistant.quantity.kinds import kind_of

_STRETCH = re.compile(r"\bstretch(?:ed|es|ing|able)?\b")
_FREE = re.compile(
    r"\b(?:without|no|needs no|not need(?:ing)?) (?:any )?(?:post[- ]?)?heat|\bfree\b|\bunheated\b"
    r"|\bpost[- ]?heat(?:ed|ing)? (?:if |when )?(?:over|above|from|past|beyond)\b"
    r"|\b(?:over|above|past|beyond)\b.*\bpost[- ]?heat"
)
_NEVER = re.compile(
    r"\bnever\b|\bmax(?:imum)?\b|\bat (?:the )?most\b|\bmost stretch\b|\bstretch limit\b"
    r"|\bgreatest\b|\bno more than\b|\bnot (?:over|above|more)\b"
)
_HEAT = re.compile(r"\bpost[- ]?heat(?:ed|ing)?\b")
_OVERLAPS = re.compile(r"\b(?:over)?laps?\b|\bseams?\b")
_STRETCHED = re.compile(r"\bstretched\b|\brecess(?:es)?\b|\bedges?\b|\bchannels?\b")
_PANEL = re.compile(r"\b(?:panel|surface|substrate|body)\b")
_AIR = re.compile(r"\b(?:bay|air|room|shop|workshop|ambient)\b")
_PLAIN = (
    ("wash", re.compile(r"\bwash(?:ed|ing)?\b"), "time"),
    ("cure", re.compile(r"\bcur(?:e|es|ed|ing)\b"), "time"),
    ("thickness", re.compile(r"\bthick(?:ness)?\b"), "length"),
)
_LABELS = {
    ("free",): "free up to that: no post-heat needed",
    ("free", "over"): "post-heat over that",
    ("never",): "never over that",
    ("overlaps",): "overlaps",
    ("stretched",): "stretched film and recesses",
    ("overlaps", "stretched"): "both alike",
}


@dataclass(frozen=True, slots=True)
class Unclear:
    """A figure of which it must be asked what it is.

    choices  what it may be; the id of each names the questions that it then answers
    """

    heard: Heard
    asks: str
    choices: tuple[Choice, ...]


def keys_of(heard: Heard) -> tuple[str, ...] | Unclear | None:
    """The question that a figure answers by its words, what must be asked, or None when the words
    name no question of a bulletin."""
    if not heard.quantities:
        return None
    line, found = heard.tidy, heard.quantities[0]
    kind = None if found.bare or found.unit is None else kind_of(found.unit)
    said = " ".join(heard.text.split())
    if kind in (None, "ratio") and _STRETCH.search(line):
        if _FREE.search(line):
            return ("free",)
        if _NEVER.search(line):
            return ("never",)
        return Unclear(
            heard, f"{said}: is it free up to that, to be post-heated over that, or never to be "
            "stretched over that?", _choices(("free",), ("free", "over"), ("never",)),
        )
    if kind not in (None, "temperature"):
        return next(((key,) for key, words, of in _PLAIN if kind == of and words.search(line)),
                    None)
    if _HEAT.search(line):
        overlaps, stretched = _OVERLAPS.search(line), _STRETCHED.search(line)
        if overlaps and not stretched:
            return ("overlaps",)
        if stretched and not overlaps:
            return ("stretched",)
        return ("overlaps", "stretched") if overlaps else Unclear(
            heard, f"{said}: of overlaps, or of stretched film and recesses?",
            _choices(("overlaps",), ("stretched",), ("overlaps", "stretched")),
        )
    if _PANEL.search(line):
        return ("panel",)
    return ("air",) if _AIR.search(line) else None


def _choices(*meant: tuple[str, ...]) -> tuple[Choice, ...]:
    return tuple(Choice(_LABELS[keys], " ".join(keys)) for keys in meant)


def keys_chosen(choice: Choice) -> tuple[str, ...]:
    """The questions that a choice answers."""
    return tuple(key for key in choice.intent_id.split() if key in BY_KEY)


def name_and_rest(text: str) -> tuple[str, tuple[str, ...]]:
    """What stands before the first comma, and the parts after it. A comma inside a number ("1,5")
    parts nothing."""
    name, *rest = re.split(r"\s*(?:,(?!\d)|;)\s*", text.strip())
    return name, tuple(part for part in rest if part)
