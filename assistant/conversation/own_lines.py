"""Own lines: by which words a shop decides, forgets, lists, adds a film, or asks how it was heard.

Owns the patterns, and the one letter that may be wrong in "house rule". What then happens is
authoring.py's.
"""

from __future__ import annotations

import re

DECIDE = re.compile(
    r"\s*(?:(?:a |new |our |my |the )*(?:house|shop) rule(?:\s*(?P<told>[:,-])\s*|\s+)"
    r"|from (?:now|today) on\s*[:,]?\s+(?=.*\d))(?P<text>.*)", re.IGNORECASE | re.DOTALL,
)
ASKING = re.compile(
    r"(?:what|which|is|are|do|does|can|may|how|why|when|who|where|show|tell|list)\b", re.IGNORECASE
)
FORGET = re.compile(
    r"(?:please )?(?:forget|drop|remove|delete|undo|take back|cancel|scrap|lift) "
    r"(?:that|this|the|our|my|your|last|a|all|\s)*(?:house|shop) rules?"
    r"(?:\s+(?:on|about|for|of|over|to|concerning)\s+(?P<what>.+?))?[\s.!?]*", re.IGNORECASE,
)
# The same without the word "house": a rule by its subject, or what was said of it.
FORGET_SUBJECT = re.compile(
    r"(?:please )?(?:forget|drop|remove|delete|take back|scrap) (?:"
    r"(?:the|our|my|that) rules? (?:on|about|for|of|over|to|concerning) (?P<on>.+?)"
    r"|(?:the|our|my|that) (?P<of>.+?) (?:house |shop )?rules?"
    r"|what (?:we|i|you|they) (?:said|decided|agreed|settled|told you|wrote)"
    r" (?:on|about|for|of|over|concerning) (?P<said>.+?))[\s.!?]*", re.IGNORECASE,
)
FORGET_FILM = re.compile(
    r"(?:please )?(?:forget|drop|remove|delete|scrap|take out) (?:(?:the|our|my|that) )?"
    r"(?:film )?(?P<word>film|sheet|bulletin)(?: (?:sheet|bulletin))?"
    r"(?: (?:of|for|called|named))? (?P<name>.+?)[\s.!?]*", re.IGNORECASE,
)
LIST = re.compile(
    r"(?:(?:show|list|tell|give|what are|which are|what|which|see|read|all|me|us|the|our|my|your"
    r"|do we have|have we(?: got)?|have i got|are there)[\s:]+)*(?:house|shop) rules?"
    r"(?: do we have| have we(?: got)?| are there| please)?[\s?.!]*", re.IGNORECASE,
)
UNDO = re.compile(r"(?:please )?(?:undo|take it back|undo (?:it|that|the last|last))(?: please)?"
                  r"[\s.!]*", re.IGNORECASE)
ADD_FILM = re.compile(
    r"(?:please )?(?:(?:i want to |i'd like to |can i |let me |let's )?"
    r"(?:add|enter|type in|put in|create|make|start)(?: me| us)? (?:a |another |the |one )?"
    r"(?:new )?(?:film sheet|film|sheet|bulletin)|(?:a )?new film(?: sheet)?|(?:a )?new sheet)"
    r"(?:\s*(?::|called|named|for)\s*(?P<name>.+?))?[\s.!?]*", re.IGNORECASE | re.DOTALL,
)
WHY_THAT = re.compile(
    r"(?:and |but |so )?(?:why (?:did|do|would) (?:you|u) (?:answer|say|tell|reply|give)"
    r"(?: me| us)? (?:that|this|it|so)|why (?:that|this) (?:answer|reply)"
    r"|how (?:did|do|have) (?:you|u) (?:understand|understood|read|take|hear|get|heard) "
    r"(?:that|this|it|me)"
    r"|what (?:did|do|have) (?:you|u) (?:hear|understand|heard|understood|make of (?:that|it))"
    r"|how did you (?:come to|arrive at|get to) (?:that|this|it)|what was heard"
    r"|show (?:me )?what you heard)[\s?.!]*", re.IGNORECASE,
)
# "is 3 mil ok", "what films do you know": a whole question, whatever it is about.
_QUESTION = re.compile(
    r"(?:and |but |so )?(?:(?:what|which|how|why|when|where|who|whose|is|are|do|does|did|can|could"
    r"|may|must|should|shall|will|would)(?:'s)?\s+\S+\s+\S|(?:whats|hows)\s+\S"
    r"|(?:show|tell|give|remind) (?:me|us)\b|(?:show|list) (?:the|all|my|our)\b"
    r"|(?:set|start|stop|cancel) (?:a |the |my )?timer\b|topics\b)", re.IGNORECASE,
)
_HOW_ABOUT = re.compile(r"(?:how|what) about\b", re.IGNORECASE)

_WORD = re.compile(r"[^\W\d_]+")
_FIRST_WORDS = 8


def is_whole_question(text: str) -> bool:
    """Whether a line, by its own words alone, asks and gives nothing."""
    text = text.strip()
    return _QUESTION.match(text) is not None and _HOW_ABOUT.match(text) is None


def mended(text: str) -> str:
    """The line with "house rule" spelt right where one letter of it is wrong, missing, too many or
    changed with its neighbour. One of the two words must be right."""
    words = list(_WORD.finditer(text))[:_FIRST_WORDS]
    for one, two in zip(words, words[1:], strict=False):
        house, rule = one[0].lower(), two[0].lower()
        right = house in ("house", "shop"), rule in ("rule", "rules")
        if sum(right) != 1 or text[one.end():two.start()].strip():
            continue
        # "our rule": a short word is near to many.
        if min(len(house), len(rule)) < 3 or len(house) < 4:
            continue
        from rapidfuzz.distance import OSA

        many = "rules" if rule.endswith("s") else "rule"
        if right[0] and OSA.distance(rule, many) == 1:
            return text[:two.start()] + many + text[two.end():]
        if right[1] and OSA.distance(house, "house") == 1:
            return text[:one.start()] + "house" + text[one.end():]
    return text
