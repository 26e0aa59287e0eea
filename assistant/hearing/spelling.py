"""Spelling: bringing a typed word to one that is known.

Owns inflected forms, keys of sound and the mending of misspelt words. Which words there are is
the lexicon's.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache

from rapidfuzz.distance import OSA
from rapidfuzz.process import extract

SHORTEST_MENDED = 4  # a slip in three letters could be any other word
ONE_SLIP_FROM = 5    # from this length on, one wrong letter is taken for a slip
TWO_SLIPS_FROM = 9
BY_SOUND_FROM = 6    # from here on, one slip more where the word sounds the same
SHORTEST_BASE = 3

_VOWELS = frozenset("aeiouy")
_SHORTENED = ("'s", "'ll", "'ve", "'re", "'d")
_NEVER_DOUBLED = frozenset("wxyhq")
_MOST_DOUBLED = 5       # of a longer word the last letter is seldom doubled
_ENDINGS_BY_SOUND = (
    ("x", "ks"), ("ough", "o"), ("igh", "i"), ("augh", "a"), ("tion", "xn"), ("sion", "xn"),
    ("dge", "j"), ("nge", "nj"), ("age", "aj"), ("tch", "c"), ("sh", "x"), ("ck", "k"),
    ("ph", "f"), ("gh", "g"), ("kn", "n"), ("wr", "r"), ("wh", "w"), ("qu", "kw"), ("z", "s"),
    ("ce", "se"), ("ci", "si"), ("cy", "sy"),
)


@lru_cache(maxsize=16384)
def folded(word: str) -> str:
    """Lower case, without accents and apostrophes; a possessive or shortened
    's, 'll, 've, 're or 'd is dropped."""
    word = word.casefold().replace("’", "'").replace("‘", "'").replace("`", "'")
    if not word.isascii():
        word = "".join(
            letter for letter in unicodedata.normalize("NFKD", word)
            if not unicodedata.combining(letter)
        )
    for ending in _SHORTENED:
        if word.endswith(ending) and len(word) > len(ending):
            word = word[: -len(ending)]
            break
    return word.replace("'", "")


def base_forms(word: str) -> Iterator[str]:
    """What the word may be an inflected form of, likeliest first; the word itself is not given."""
    for stem in _stems(word):
        if len(stem) >= SHORTEST_BASE and stem != word:
            yield stem


def _stems(word: str) -> Iterator[str]:
    if word.endswith("ies") and len(word) > 4:
        yield word[:-3] + "y"
        yield word[:-1]
    elif word.endswith(("ses", "xes", "zes", "ches", "shes")):
        yield word[:-2]
        yield word[:-1]
    elif word.endswith("s") and not word.endswith(("ss", "us", "is")):
        yield word[:-1]
        if word.endswith("es"):
            yield word[:-2]
    for ending in ("ing", "ed"):
        if word.endswith(ending):
            stem = word[: -len(ending)]
            if not any(letter in _VOWELS for letter in stem):
                continue
            yield stem + "e"
            yield stem
            if len(stem) > 2 and stem[-1] == stem[-2]:
                yield stem[:-1]
            if stem.endswith("i"):
                yield stem[:-1] + "y"
    if word.endswith("ings"):
        yield from _stems(word[:-1])


def forms_of(word: str) -> Iterator[str]:
    """The regular forms of a word: plural or third person, past, -ing (also without its g)."""
    if word.endswith(("s", "x", "z", "ch", "sh")):
        yield word + "es"
    elif word.endswith("y") and word[-2:-1] not in _VOWELS:
        yield word[:-1] + "ies"
        yield word[:-1] + "ied"
        yield word + "ing"
        return
    else:
        yield word + "s"
    if word.endswith(("ing", "ed")):
        return
    stems = [word]
    if word.endswith("e") and not word.endswith(("ee", "ye", "oe")):
        stems = [word[:-1]]
    elif len(word) <= _MOST_DOUBLED and word[-1] not in _NEVER_DOUBLED and (
        word[-1] not in _VOWELS and word[-2:-1] in _VOWELS and word[-3:-2] not in _VOWELS
    ):
        stems = [word + word[-1]]
    for stem in stems:
        yield stem + "ed"
        yield stem + "ing"


@lru_cache(maxsize=8192)
def sound(word: str) -> str:
    """A key that words of the same sound share: first letter, then the consonants by sound.

    sound("bumpar") == sound("bumper"), sound("resess") == sound("recess").
    """
    for spelled, heard in _ENDINGS_BY_SOUND:
        if spelled in word:
            word = word.replace(spelled, heard)
    word = word.replace("c", "k").replace("q", "k")
    key: list[str] = []
    before = ""
    for place, letter in enumerate(word):
        heard = letter
        if letter == "w" and place and word[place - 1] in _VOWELS:
            heard = ""
        elif letter in _VOWELS or letter == "h":
            heard = "a" if place == 0 and letter != "h" else ("h" if place == 0 else "")
        if heard and heard != before:
            key.append(heard)
        before = heard
    return "".join(key)


def mended(word: str, known: Sequence[str], preferred: Collection[str]) -> str | None:
    """The known word that a misspelt one stands for, or None.

    known      every word that may stand in a line, of any subject: a plain or foreign word that
               is nearer keeps the trade from claiming it
    preferred  wins between two equally near
    Words shorter than four letters are never mended. Four letters: neighbours swapped, or a letter
    doubled or undoubled. Longer ones: one slip, from nine letters on two; from six on, one more
    where the sound agrees. The first letter must agree, or be swapped with the second.
    """
    length = len(word)
    if length < SHORTEST_MENDED or not word.isalpha():
        return None
    most = 1 if length < TWO_SLIPS_FROM else 2
    key = sound(word)
    best: tuple[float, str] | None = None
    near = extract(word, known, scorer=OSA.distance, score_cutoff=most + 1, limit=40)
    for other, distance, _ in near:
        if len(other) < SHORTEST_MENDED or not _same_start(word, other):
            continue
        shorter = min(length, len(other))
        alike = sound(other) == key
        if distance > most + (alike and shorter >= BY_SOUND_FROM):
            continue
        if shorter < ONE_SLIP_FROM and not _mere_slip(word, other):
            continue
        # A word that is not wanted for its own sake must be as good as certain.
        if preferred and other not in preferred and not alike:
            continue
        cost = distance - 0.5 * alike - 0.25 * (other in preferred)
        if best is None or (cost, other) < best:
            best = (cost, other)
    return best[1] if best is not None else None


def _same_start(word: str, other: str) -> bool:
    if word[0] == other[0]:
        return True
    return len(other) > 1 and word[:2] == other[1::-1]


def _mere_slip(word: str, other: str) -> bool:
    """Neighbours swapped, or a letter doubled or left out of a double."""
    if sorted(word) == sorted(other):
        return True
    longer, shorter = (word, other) if len(word) > len(other) else (other, word)
    if len(longer) != len(shorter) + 1:
        return False
    return any(
        longer[place] == longer[place - 1] and longer[:place] + longer[place + 1:] == shorter
        for place in range(1, len(longer))
    )
