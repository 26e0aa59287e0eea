"""Kits: what must lie ready before a part of the job, as a reply.

Owns which lines ask for that and how it is told. The kits are knowledge/kits/*.toml; how the work
is done, the rules'.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from assistant.conversation.wording import basis_words, caution_texts
from assistant.reply import ANSWER, Figure, Reply
from assistant.rules.naming import plain_name

PREFIX = "kit:"
GENERAL = "general"
_PREFACE = r"(?:(?:so|ok|and|hey|please|can you|could you|tell me|show me|give me|list)[ ,]+)*"
_NEEDED = r"(?:need|want|get|have|bring|take|lay out|set out|put out|prepare|grab)"
_THE = r"(?:(?:the|a|an|my|our|this|that)\s+)?"
_BEFORE = (
    r"(?:before (?:i|we|you)?\s*(?:can\s+)?(?:start|begin|wrap|do|lay|starting|beginning|wrapping|"
    r"doing|laying)(?:\s+(?:on|with|wrapping|laying|doing))?|for(?:\s+(?:wrapping|laying|doing))?|"
    r"to (?:wrap|lay|do|start|begin)(?:\s+(?:on|with))?|when (?:i|we)?\s*(?:wrap|start|begin|do)"
    r"(?:\s+(?:on|with))?|ready for|at hand for|with)"
)
_GOODS = (
    r"(?:tools?|consumables?|materials?|stuff|things|kit|gear|equipment|supplies|bits|everything)"
)
_STARTS = re.compile(r"\b(?:kit|start|begin|before|ready|prepare)")
_MARKS = re.compile(r"\b(?:kits?|need|ready|tools?|material|have|bring|gear|equipment|lie)")
_ASKS = (
    # what do I need before I start a bumper; what tools do I need for a roof
    rf"(?:what|which)(?:\s+{_GOODS}|\s+all|\s+else)?\s+(?:do|should|must|will|would|shall)\s+"
    rf"(?:i|we|you|one)\s+(?:all\s+)?{_NEEDED}(?:\s+(?:ready|at hand|there|out))?\s+{_BEFORE}"
    rf"(?:\s+(?:i|we))?\s*(?:(?:start|begin)\s+)?(?P<part>.*?)",
    # what has to be ready before a roof; what must lie ready for a hood
    rf"(?:what|which\s+{_GOODS})\s+(?:has to|must|should|needs to)\s+(?:be|lie)\s+"
    rf"(?:ready|there|at hand|prepared)\s+(?:before|for)\s*(?P<part>.*?)",
    # kit for a roof; tools for a hood; bumper kit; list of tools for a door
    rf"(?:(?:the|a|an|my|full)\s+)?(?:kit|tool|shopping|packing|material|equipment)?\s*"
    rf"(?:{_GOODS}|kit list|checklist|list|tool list)(?:\s+(?:and|&|plus)\s+{_GOODS})?"
    rf"(?:\s+(?:needed|required|i need|we need))?\s+(?:{_BEFORE})\s*(?P<part>.*?)",
    r"(?P<part>[a-z -]+?) (?:kit|kit list|tool list|tools and consumables|tools and materials)",
    r"(?:what is|whats|what's) in (?:the|a|my) kit(?: for (?P<part>.*?))?",
    r"(?:the )?(?:kit|kit list|list of kits|general kit)(?P<part>)",
)


@lru_cache(maxsize=1)
def _patterns() -> tuple[re.Pattern[str], ...]:
    """Compiled when a line first looks like asking for a kit."""
    return tuple(re.compile(f"{_PREFACE}{pattern}[?.! ]*") for pattern in _ASKS)


def kit_asked(
    line: str, knowledge: Any, things: frozenset[str], after_a_kit: bool = False
) -> str | None:
    """The id of the kit that a line asks for; None when it asks for anything else.

    line    with one space between words, case folded
    things  the concepts it names: "bonnet" is the hood
    after_a_kit  the line goes on from a kit: "and for a roof?"
    """
    if after_a_kit:
        part = re.sub(r"^(?:and|what about|how about|now|then)\b|\bfor\b|[?.!]", " ", line.strip())
        kit = _kit_of(part, knowledge, things)
        if kit is not None and kit != GENERAL:
            return kit
    if not _MARKS.search(line):
        return None
    for pattern in _patterns():
        match = pattern.fullmatch(line.strip())
        if match is not None:
            found = _kit_of(match["part"] or "", knowledge, things)
            # Tools in general are a rule of their own.
            return found if found != GENERAL or _STARTS.search(line) else None
    return None


def _kit_of(part: str, knowledge: Any, things: frozenset[str]) -> str | None:
    """The kit of a part as named; the general one where none is named."""
    name = plain_name(re.sub(rf"^{_THE}|\b(?:i|we|you|start|begin|begins|work|on|my)\b", " ", part))
    name = " ".join(word for word in name.split() if word not in ("a", "an", "the"))
    if not name or name in ("general", "shop", "bay", "wrap"):
        return GENERAL if GENERAL in knowledge.kits else None
    ids = knowledge.names.get("kits", {}).get(name)
    if ids:
        return ids[0]
    # "the bonnet of a van": the concept that the lexicon hears in it.
    named = [
        kit.id for kit in knowledge.kits.values()
        if kit.id != GENERAL and things.intersection(kit.things)
    ]
    return named[0] if len(named) == 1 and len(name.split()) <= 5 else None


def tell_kit(knowledge: Any, kit_id: str) -> Reply:
    """What lies ready: the part's own, then what every job takes."""
    kit = knowledge.kits[kit_id]
    own = kit_id == GENERAL
    people = f"{kit.people} {'person' if kit.people == 1 else 'people'}"
    told = f"Kit for {kit.name if own else _one(kit.name)}: {people}"
    steps = [f"Tools: {_list(kit.tools)}."]
    if kit.consumables:
        steps.append(f"Used up: {_list(kit.consumables)}.")
    steps += [f"Hands: {kit.hands}", f"Place: {kit.place}"]
    if kit.first:
        steps.append(f"First: {' '.join(kit.first)}")
    return Reply(
        ANSWER,
        f"{told}{'' if own else ', the general kit (say `kit`), and on top of it these'}.",
        intent=PREFIX + kit.id,
        heading=f"Kit: {kit.name}",
        heard=f"kit, {kit.name}",
        rules=tuple(kit.rules),
        figures=(Figure("people", kit.people, kit.people, "count", people),),
        steps=tuple(steps),
        cautions=caution_texts(knowledge, kit.cautions),
        basis=kit.basis,
        basis_words=basis_words(knowledge, kit.basis, kit.source, kit.note),
        layer="shipped",
        source=knowledge.source_title(kit.source),
    )


def _one(name: str) -> str:
    return f"{'an' if name[0].lower() in 'aeiou' else 'a'} {name}"


def _list(things: Sequence[str]) -> str:
    return "; ".join(things)
