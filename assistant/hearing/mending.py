"""Mending: which known word a misspelt one stands for, by sound, by keyboard and by company.

Owns the candidates, what each slip costs, and the choice among equals by the words beside it.
Sound keys and inflected forms are spelling.py's, which words there are the lexicon's.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from rapidfuzz.distance import OSA
from rapidfuzz.process import extract

from assistant.hearing.spelling import forms_of, sound

SHORTEST = 3            # a shorter word could be anything
BY_COMPANY_BELOW = 4    # so short a word is mended only by sound, and in known company
MOST_SLIPS = 2          # letters; more only where the sound agrees
MORE_SLIPS_FROM = 6     # in a shorter word one letter, where the sound differs
BY_SOUND_FROM = 4       # a shorter word has too little sound to go by
LONG = 8                # from here on one slip more, where the sound agrees
LOOKED_AT = 150         # candidates a first letter that are looked at

# What a slip costs; a letter that is wrong outright costs 1.
VOWEL = 0.5             # one vowel for another
LIKE_SOUND = 0.55       # consonants that sound alike
NEIGHBOUR_KEY = 0.7
DOUBLED = 0.35          # a letter doubled, or one of a pair left out
SOFT = 0.6              # a vowel or an h too many or too few
SILENT = 0.4            # the w of wrap, the k of knife, a last e
MISSING = 0.95          # a consonant too many or too few
SWAPPED = 0.6           # two neighbours the other way round
SWAPPED_VOWELS = 0.35   # ie and ei
SPELT_OTHERWISE = 0.3   # a consonant, where the words sound the same
FIRST = 0.3             # more, for a slip in the first letter
SAME_SOUND = -0.4       # for the whole word, and no more than SOUND_EACH for each sound of it
SOUND_EACH = -0.13
# What a candidate costs by what it is, and what it gains by the company it is known to keep.
NO_CONCEPT = 0.15
NO_CONCEPT_PLAIN = 0.08
OTHER_TRADE = 0.3
INFLECTED = 0.12
COMPANY = -0.3
# The most that a mend may cost, by the letters of the shorter of the two words.
_ALLOWED = (0.0, 0.0, 0.0, 0.35, 0.65, 1.0, 1.2, 1.5)
_ALLOWED_LONG = 1.9

_VOWELS = frozenset("aeiouy")
_ALIKE = frozenset(
    frozenset(pair) for pair in
    ("ck", "sc", "sz", "cz", "gj", "fv", "mn", "dt", "bp", "kq", "xs", "wv", "cq", "kh", "fp")
)
_ROWS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
# First letters that are heard for one another.
_STARTS = {
    "c": "cksq", "k": "kcqg", "q": "qkc", "s": "scz", "z": "zsx", "f": "fp", "p": "pf", "j": "jg",
    "g": "gj", "n": "nkg", "r": "rw", "w": "wro", "h": "hw", "x": "xz",
    "e": "i", "i": "e",
}


def _neighbours() -> frozenset[frozenset[str]]:
    pairs = set()
    for row, keys in enumerate(_ROWS):
        for place, key in enumerate(keys):
            pairs.add(frozenset((key, keys[place - 1] if place else key)))
            if row + 1 < len(_ROWS):
                below = _ROWS[row + 1]
                for other in below[max(0, place - 1):place + 1]:
                    pairs.add(frozenset((key, other)))
    return frozenset(pairs)


_NEIGHBOURS = _neighbours()


@dataclass(frozen=True, slots=True)
class Near:
    """A known word that a typed one may stand for.

    word  the known word in base form
    cost  of the slips that would have to have happened
    most  that they may cost
    """

    word: str
    cost: float
    most: float
    alike: bool


class _Letter:
    """The known words and their forms that begin with one letter."""

    def __init__(self, words: Iterable[tuple[str, str, float]]) -> None:
        """words  (word, its base form, what it costs by what it is)"""
        self.meant: dict[str, tuple[str, float]] = {}
        for word, base, cost in words:
            self.meant.setdefault(word, (base, cost))
            if cost == NO_CONCEPT_PLAIN or cost == OTHER_TRADE:
                continue        # lists of everyday words hold the forms that they want
            for form in forms_of(word):
                self.meant.setdefault(form, (base, cost + INFLECTED))
        self.forms = list(self.meant)


class Mender:
    """Finds the known words near a misspelt one."""

    def __init__(
        self, concepts: Collection[str], trade: Collection[str], plain: Collection[str],
        foreign: Collection[str], bases: Mapping[str, str], company: Sequence[Sequence[str]],
    ) -> None:
        """concepts  words that name something of the trade
        trade     other words of the rules' own texts
        plain     everyday words
        foreign   words of other subjects
        bases     form -> base, where it is known; anything else stands for itself
        company   for each sample phrase, its words that carry meaning, in base form
        """
        self._lists = (
            (concepts, 0.0), (trade, NO_CONCEPT), (plain, NO_CONCEPT_PLAIN), (foreign, OTHER_TRADE),
        )
        self._bases = bases
        self._letters: dict[str, _Letter] = {}
        self._company = company

    def _letter(self, start: str) -> _Letter:
        found = self._letters.get(start)
        if found is None:
            bases = self._bases
            found = self._letters[start] = _Letter(
                (word, bases.get(word, word), cost)
                for words, cost in self._lists for word in words
                if word[0] == start and len(word) >= SHORTEST and word.isalpha()
            )
        return found

    @cached_property
    def _kept(self) -> dict[str, set[int]]:
        """The numbers of the sample phrases that hold a word."""
        kept: dict[str, set[int]] = {}
        for number, words in enumerate(self._company):
            for word in words:
                kept.setdefault(word, set()).add(number)
        return kept

    def near(self, word: str) -> tuple[Near, ...]:
        """The known words that `word` may stand for, cheapest first; those too far are left out."""
        if len(word) < SHORTEST or not word.isalpha() or not word.isascii():
            return ()
        key = sound(word)
        length = len(word)
        by_letter = 1 if length < MORE_SLIPS_FROM else MOST_SLIPS
        by_sound = by_letter if length < BY_SOUND_FROM else MOST_SLIPS + (length >= LONG)
        found: dict[str, Near] = {}
        for start in dict.fromkeys(word[:2] + _STARTS.get(word[0], "")):
            letter = self._letter(start)
            for form, slips, _ in extract(
                word, letter.forms, scorer=OSA.distance, score_cutoff=by_sound, limit=LOOKED_AT
            ):
                if form == word or not _may_start(word, form):
                    continue
                alike = sound(form) == key
                if slips > by_letter and not alike:
                    continue
                shorter = min(length, len(form))
                most = _ALLOWED[shorter] if shorter < len(_ALLOWED) else _ALLOWED_LONG
                base, cost = letter.meant[form]
                cost += _slips(word, form, alike)
                if alike:
                    cost += max(SAME_SOUND, SOUND_EACH * len(key))
                if cost <= most - COMPANY and (base not in found or cost < found[base].cost):
                    found[base] = Near(base, cost, most, alike)
        return tuple(sorted(found.values(), key=lambda near: (near.cost, near.word)))

    def choose(self, nears: Sequence[Near], beside: Iterable[str]) -> str | None:
        """The one that is meant beside these words (in base form); None: none is near enough."""
        if not nears:
            return None
        best: tuple[float, str] | None = None
        others = [self._kept[word] for word in beside if word in self._kept]
        for near in nears:
            own = self._kept.get(near.word)
            known = own is not None and any(
                not own.isdisjoint(each) for each in others if each is not own
            )
            cost = near.cost + COMPANY * known
            if cost > near.most or (near.most < _ALLOWED[BY_COMPANY_BELOW] and not (
                near.alike or known
            )):
                continue
            if best is None or (cost, near.word) < best:
                best = (cost, near.word)
        return best[1] if best is not None else None

    def keeps_company(self, word: str, beside: Iterable[str]) -> bool:
        """Whether some phrase has the word together with one of the others."""
        own = self._kept.get(word)
        return own is not None and any(
            not own.isdisjoint(self._kept[other]) for other in beside if other in self._kept
        )


def _may_start(word: str, form: str) -> bool:
    if word[0] == form[0] or word[:2] == form[1::-1]:
        return True
    return sound(word)[:1] == sound(form)[:1]


def _slips(typed: str, meant: str, alike: bool) -> float:
    """What the slips between two words cost together, by the cheapest way to tell them.

    alike  they sound the same: then their consonants are only spelt in other ways
    """
    before: list[float] = []
    row = [0.0]
    for place in range(len(meant)):
        row.append(row[-1] + _extra(meant, place, alike))
    for place, letter in enumerate(typed):
        extra = _extra(typed, place, alike)
        last, row = row, [row[0] + extra]
        for other, wanted in enumerate(meant):
            best = last[other] if letter == wanted else min(
                last[other] + _replaced(letter, wanted, alike),
                last[other + 1] + extra,
                row[other] + _extra(meant, other, alike),
            )
            if other and place and letter == meant[other - 1] and typed[place - 1] == wanted:
                vowels = letter in _VOWELS and wanted in _VOWELS
                best = min(best, before[other - 1] + (SWAPPED_VOWELS if vowels else SWAPPED))
            row.append(best)
        before = last
    return row[-1] + FIRST * (typed[0] != meant[0])


def _replaced(typed: str, meant: str, alike: bool) -> float:
    pair = frozenset((typed, meant))
    if pair <= _VOWELS:
        return VOWEL
    if pair in _ALIKE:
        return SPELT_OTHERWISE if alike else LIKE_SOUND
    return NEIGHBOUR_KEY if pair in _NEIGHBOURS else 1.0


def _extra(word: str, place: int, alike: bool) -> float:
    """A letter that one of the two words has and the other has not."""
    letter = word[place]
    after = word[place + 1:place + 2]
    if (place and word[place - 1] == letter) or after == letter:
        return DOUBLED
    if (letter == "e" and not after) or letter + after in ("wr", "kn", "gh", "gn", "ck"):
        return SILENT
    if word[place:place + 3] in ("dge", "tch"):
        return SILENT
    if place and word[place - 1] + letter in ("ck", "wh", "gh", "rh", "ch"):
        return SILENT
    if letter in _VOWELS or letter == "h":
        return SOFT
    return SPELT_OTHERWISE if alike else MISSING
