"""Wording: a line of everyday English as a list of plain words and their stems.

Owns what counts as a word, short forms written out ("what's" -> "what is") and the stem that the
inflected forms of a word share. Runs of words and letters are grams.py's; concepts of the trade
are hearing/'s.
"""

from __future__ import annotations

import re
from functools import lru_cache

MOST_WORDS = 120       # of a ramble, this many from its beginning and as many from its end are read

_WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)*")
_QUOTES = str.maketrans("\u2019\u2018\u02bc\u0060\u00b4", "'''''")

# Short forms as typed, with and without the apostrophe.
_WHOLE = {
    "can't": "can not", "cant": "can not", "cannot": "can not", "won't": "will not",
    "wont": "will not", "shan't": "shall not", "let's": "let us", "lets": "let us",
    "i'm": "i am", "im": "i am", "ive": "i have", "dont": "do not", "doesnt": "does not",
    "didnt": "did not", "isnt": "is not", "arent": "are not", "wasnt": "was not",
    "havent": "have not", "hasnt": "has not", "couldnt": "could not", "wouldnt": "would not",
    "shouldnt": "should not", "whats": "what is", "wheres": "where is", "whos": "who is",
    "hows": "how is", "whens": "when is", "thats": "that is", "theres": "there is",
    "youre": "you are", "theyre": "they are", "wanna": "want to", "gonna": "going to",
    "gotta": "have to", "gimme": "give me", "lemme": "let me", "dunno": "do not know",
    "kinda": "kind of", "coulda": "could have", "u": "you", "ur": "your", "pls": "please",
    "plz": "please", "thx": "thanks", "ok": "okay",
}
_ENDS = {"n't": "not", "'re": "are", "'ve": "have", "'ll": "will", "'d": "would", "'m": "am"}
# After these an 's is "is"; after any other word it is the possessive and says nothing.
_IS_AFTER = frozenset("what where who how when why that there it he she here".split())

_VOWELS = frozenset("aeiouy")
_SHORTEST_STEM = 3


def words_of(text: str) -> list[str]:
    """The words of a line in reading order: case folded, short forms written out.

    Any text is accepted. A line of more than twice MOST_WORDS words is read at its two ends.
    """
    found = _WORD.findall(text.casefold().translate(_QUOTES))
    if len(found) > 2 * MOST_WORDS:
        found = found[:MOST_WORDS] + found[-MOST_WORDS:]
    words: list[str] = []
    for word in found:
        whole = _WHOLE.get(word)
        if whole is not None:
            words.extend(whole.split())
        elif "'" in word:
            words.extend(_parted(word))
        else:
            words.append(word)
    return words


def _parted(word: str) -> list[str]:
    """A word with an apostrophe as the words it is short for."""
    if word.endswith("'s"):
        first = word[:-2].replace("'", "")
        return [first, "is"] if first in _IS_AFTER else [first]
    for end, meant in _ENDS.items():
        if word.endswith(end) and len(word) > len(end):
            return [word[: -len(end)].replace("'", ""), meant]
    return [word.replace("'", "")]


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """What the inflected forms of a word share: laying, lays and lay give one stem.

    Light on purpose: a stem that joins words of different meaning costs more than one that keeps
    two forms apart, since grams.py compares letters as well.
    """
    if len(word) <= 3 or not word.isalpha():
        return word
    if word.endswith("ies") and len(word) > 4:
        word = word[:-3] + "y"
    elif word.endswith(("sses", "shes", "ches", "xes")):
        word = word[:-2]
    elif word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-1]
    for ending in ("ing", "ed"):
        if word.endswith(ending):
            rest = word[: -len(ending)]
            if len(rest) >= _SHORTEST_STEM and not _VOWELS.isdisjoint(rest):
                word = rest
                if len(word) > 3 and word[-1] == word[-2] and word[-1] not in "lsz":
                    word = word[:-1]
            break
    if word.endswith("ly") and len(word) > 4:
        word = word[:-2]
    if word.endswith("ation") and len(word) > 7:
        word = word[:-5]
    elif word.endswith("ment") and len(word) > 7:
        word = word[:-4]
    elif word.endswith(("sion", "tion")) and len(word) > 5:
        word = word[:-3]
    if word.endswith("e") and len(word) > 3:
        word = word[:-1]
    if word.endswith("y") and len(word) > 3:
        word = word[:-1] + "i"
    return word
