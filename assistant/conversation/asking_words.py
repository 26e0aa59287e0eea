"""Asking words: whether a line asks what a word of the trade means, and which word.

Owns the ways in which that is asked, badly typed ones too. Only a line of which nothing is left
but a known word is such a question: "what is the temperature of an overlap" asks for a number.
The reply is glossary.py's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from rapidfuzz.distance import OSA
from rapidfuzz.process import extract

from assistant.rules.naming import plain_name, plain_words

# From so many letters on, so many slips of the finger are still the same word.
_SLIPS_FROM = ((14, 3), (9, 2), (5, 1))
_LONGEST_ASKED = 20  # words

_FRAME_WORDS = ("difference", "definition", "define", "meaning", "means", "between", "versus")
_SHORT = {
    "whats": "what is", "wots": "what is", "wats": "what is", "whts": "what is",
    "wahts": "what is", "whars": "what is", "wot": "what", "wat": "what", "waht": "what",
    "wht": "what", "whta": "what", "diff": "difference", "differences": "difference",
    "verses": "vs", "versus": "vs", "dose": "does", "teh": "the", "meen": "mean", "ment": "meant",
}
_LEAD = re.compile(
    r"(?:(?:hey|hi|hello|ok|okay|so|right|um|er|erm|well|and|but|also|please|pls|sorry|mate|boss|"
    r"now|then|actually|quick|dumb|stupid|silly|daft|basic|question|tell me|remind me|"
    r"explain to me|(?:can|could|would) (?:you|u) (?:please )?(?:tell me|explain|define)|"
    r"do you know|i (?:do not|dont) (?:know|get|understand)|i (?:need|want) to know|"
    r"what exactly is|im new) )+(?=.)"
)
_TAIL = re.compile(
    r"(?: (?:then|please|pls|mate|again|exactly|anyway|though|actually|really|"
    r"(?:in|for|when) (?:car |vehicle |vinyl |film |the |this |our )*(?:wrapping|wrap|trade|terms|"
    r"wrap terms|film terms|wraps)|on (?:a|the) (?:car|van|vehicle|panel)))+$"
)
_ARTICLE = re.compile(
    r"(?:(?P<the>the|this|that|your|my)|a|an|some|called|by|"
    r"(?:the |a )?(?:word|term|expression|phrase|thing called)) (?=.)"
)
_ONE = tuple(map(re.compile, (
    r"what (?:is|are|r|was)(?: (?:exactly|actually|really|meant by|the meaning of|"
    r"the definition of))* (?P<term>.+)",
    r"what (?:is|are) (?P<term>.+?) (?:mean|meaning|supposed to mean|short for|about)",
    r"what (?:does|do|is|did) (?P<term>.+?) (?:even |actually |really )?(?:mean|means|stand for)",
    r"what (?:do|does|did) (?:you|they|people|he|she|it|we) (?:mean|call) (?:by )?(?P<term>.+)",
    r"what (?P<term>.+?) (?:is|are|means|mean)",
    r"(?:define|(?:the )?(?:definition|meaning) (?:of|for))(?: .*?the (?:word|term))? (?P<term>.+)",
    r"explain (?:what )?(?:the )?(?:word|term|meaning of) (?P<term>.+?)(?: is| are| means)?",
    r"explain what (?P<term>.+?) (?:is|are|means|mean)",
    r"(?P<term>.+?) (?:meaning|definition|means what|mean what|what does (?:it|that) mean|"
    r"what is (?:it|that))",
)))
_AND = r"and|or|vs|from|to|with|n"
_SAME = (
    r"(?:just |exactly |basically |really |actually )*(?:the )?same(?: thing)? (?:as|like|to|with)|"
    r"(?:just )?(?:another|a different) (?:word|name|term) for|different (?:from|to|than)|equal to"
)


@dataclass(frozen=True, slots=True)
class _Pair:
    """A way to ask about two words. same: it wants a yes or a no."""

    frame: re.Pattern[str]
    between: re.Pattern[str]
    same: bool = False


def _pair(frame: str, between: str, same: bool = False) -> _Pair:
    return _Pair(re.compile(frame), re.compile(f" (?:{between}) "), same)


_TWO = (
    _pair(r"(?:what is |what are |is there |how big is |whats )?(?:the |a |any |much |real )*"
          r"difference (?:between |of |in |with )?(?P<body>.+)", _AND),
    _pair(r"(?P<body>.+?) (?:what is |what are |is there )?(?:the |a |any )*difference", _AND),
    _pair(r"(?:is|are) (?P<body>.+)", _SAME, same=True),
    _pair(r"(?:is|are) (?P<body>.+?) (?:both )?(?:the )?(?:same|different)(?: things?)?",
          "and|or|vs|n", same=True),
    _pair(r"how (?:is|are|does|do) (?P<body>.+)",
          r"(?:any )?(?:different|differ) (?:from|to|than)"),
    _pair(r"(?:does|do) (?P<body>.+)", "mean(?: the same(?: thing)? as)?", same=True),
    _pair(r"(?P<body>.+?) (?:are (?:they )?)?(?:the )?(?:same thing|same|which is which)",
          "and|or|vs|n", same=True),
    _pair(r"(?P<body>.+)", "vs|v"),
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked.

    terms     the ids of one word or two
    called    what each was called, plain
    same      whether a yes or a no is wanted: are the two the same
    definite  "the dew point": there may be a number that is meant
    """

    terms: tuple[str, ...]
    called: tuple[str, ...]
    same: bool = False
    definite: bool = False


class WordsAsked:
    """Finds the questions about words.

    names  plain name -> ids, as Knowledge.names["words"] has them
    knows  whether a word is known to stand for itself; only others are taken for misspelt
    """

    def __init__(self, names: Mapping[str, list[str]], knows: Callable[[str], bool]) -> None:
        self._names = names
        self._knows = knows

    def asked(self, line: str, bare: bool = False) -> Asked | None:
        """What a line asks; None when it is no question about words.

        bare  the word alone will do, if it is spelt as it should be
        """
        words = plain_words(line.replace("what's", "what is").replace("it's", "it is"))
        if not words or len(words) > _LONGEST_ASKED:
            return None
        text = " ".join(self._frame_word(word) for word in words)
        for each in dict.fromkeys((text, _LEAD.sub("", text, count=1))):
            found = self._two(each) or self._one(each)
            if found is None and bare:
                name = plain_name(each)
                found = Asked((self._names[name][0],), (name,)) if name in self._names else None
            if found is not None:
                return found
        return None

    def _frame_word(self, word: str) -> str:
        if word in _SHORT:
            return _SHORT[word]
        if len(word) > 4 and not self._knows(word):
            near = extract(word, _FRAME_WORDS, scorer=OSA.distance, limit=1,
                           score_cutoff=2 if len(word) > 7 else 1)
            if near:
                return near[0][0]
        return word

    def _one(self, text: str) -> Asked | None:
        for frame in _ONE:
            for each in dict.fromkeys((text, _TAIL.sub("", text))):
                match = frame.fullmatch(each)
                found = self._term(match["term"]) if match is not None else None
                if found is not None:
                    term, called, definite = found
                    return Asked((term,), (called,), definite=definite)
        return None

    def _two(self, text: str) -> Asked | None:
        text = _TAIL.sub("", text)
        for pair in _TWO:
            match = pair.frame.fullmatch(text)
            if match is None:
                continue
            for one, other in _splits(match["body"], pair.between):
                first, second = self._term(one), self._term(other)
                if first is not None and second is not None:
                    return Asked((first[0], second[0]), (first[1], second[1]), same=pair.same)
        return None

    def _term(self, text: str) -> tuple[str, str, bool] | None:
        """(id, what it was called, whether "the" stood before it) of a text that is a name."""
        definite = False
        while True:
            name = plain_name(text)
            found = self._found(name)
            if found is not None:
                return self._names[found][0], found, definite
            article = _ARTICLE.match(text)
            if article is None:
                return None
            definite = definite or article["the"] is not None
            text = text[article.end():]

    def _found(self, name: str) -> str | None:
        if name in self._names:
            return name
        slips = next((slips for length, slips in _SLIPS_FROM if len(name) >= length), 0)
        if not slips:
            return None
        near = extract(name, list(self._names), scorer=OSA.distance, score_cutoff=slips, limit=6)
        near = [(other, distance) for other, distance, _ in near if self._slipped(name, other)]
        if not near:
            return None
        least = min(distance for _, distance in near)
        best = [other for other, distance in near if distance == least]
        ids = {self._names[other][0] for other in best}
        return best[0] if len(ids) == 1 else None

    def _slipped(self, name: str, other: str) -> bool:
        """Whether only words that nobody knows differ: "grout" is a word, "releif" is none."""
        if name.replace(" ", "") == other.replace(" ", ""):
            return True
        if name[0] != other[0]:
            return False
        meant = other.split()
        return all(word in meant or not self._knows(word) for word in name.split())


def _splits(body: str, between: re.Pattern[str]) -> Iterator[tuple[str, str]]:
    place = 0
    while (found := between.search(body, place)) is not None:
        yield body[:found.start()], body[found.end():]
        place = found.start() + 1
