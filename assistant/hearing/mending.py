"""Mending: which known word a misspelt one stands for, by sound, by keyboard and by company.

Owns the candidates, what each slip costs, and the choice among equals by the words beside it.
Sound keys and inflected forms are spelling.py's, which words there are the lexicon's.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from rapidfuzz.distance import OSA, Levenshtein
from rapidfuzz.process import extract

from assistant.hearing.spelling import forms_of, sound

SHORTEST = 3            # a shorter word could be anything
BY_COMPANY_BELOW = 4    # so short a word is mended only by sound, and in known company
MOST_SLIPS = 2          # letters; more only where the sound agrees
MORE_SLIPS_FROM = 6     # in a shorter word one letter, where the sound differs
LOOKED_AT = 30          # candidates a first letter whose slips are weighed

# What a slip costs; a letter that is wrong outright costs 1.
VOWEL = 0.5             # one vowel for another
LIKE_SOUND = 0.55       # consonants that sound alike
NEIGHBOUR_KEY = 0.7
DOUBLED = 0.35          # a letter doubled, or one of a pair left out
SOFT = 0.6              # a vowel or an h too many or too few
SILENT = 0.4            # the w of wrap, the k of knife, a last e
SWAPPED = 0.6           # two neighbours the other way round
SPELT_OTHERWISE = 0.3   # a consonant, where the words sound the same
FIRST = 0.3             # more, for a slip in the first letter
SAME_SOUND = -0.4       # for the whole word, and no more than SOUND_EACH for each sound of it
SOUND_EACH = -0.13
# What a candidate costs by what it is, and what it gains by the company it is known to keep.
NO_CONCEPT = 0.15
NO_CONCEPT_PLAIN = 0.08
OTHER_TRADE = 0.3
INFLECTED = 0.12
COMPANY = -0.45
# The most that a mend may cost, by the letters of the shorter of the two words.
_ALLOWED = (0.0, 0.0, 0.0, 0.35, 0.65, 1.0, 1.2, 1.5)
_ALLOWED_LONG = 1.9

_VOWELS = frozenset("aeiouy")
_ALIKE = frozenset(
    frozenset(pair) for pair in
    ("ck", "sc", "sz", "cz", "gj", "fv", "mn", "dt", "bp", "kq", "xs", "wv", "cq")
)
_ROWS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
# First letters that are heard for one another.
_STARTS = {
    "c": "cksq", "k": "kcqg", "q": "qkc", "s": "scz", "z": "zsx", "f": "fp", "p": "pf", "j": "jg",
    "g": "gj", "n": "nkg", "r": "rw", "w": "wro", "h": "hw", "x": "xz",
    "a": "aeiou", "e": "eaiou", "i": "ieay", "o": "oaue", "u": "uoaey",
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
        self.by_sound: dict[str, list[str]] = {}
        for form in self.forms:
            self.by_sound.setdefault(sound(form), []).append(form)


class Mender:
    """Finds the known words near a misspelt one."""

    def __init__(
        self, concepts: Iterable[str], trade: Iterable[str], plain: Iterable[str],
        foreign: Iterable[str], bases: Mapping[str, str], company: Sequence[Sequence[str]],
    ) -> None:
        """concepts  words that name something of the trade
        trade     other words of the rules' own texts
        plain     everyday words
        foreign   words of other subjects
        bases     form -> base, where it is known; anything else stands for itself
        company   for each sample phrase, its words that carry meaning, in base form
        """
        self._words: dict[str, list[tuple[str, str, float]]] = {}
        for words, cost in (
            (concepts, 0.0), (trade, NO_CONCEPT), (plain, NO_CONCEPT_PLAIN),
            (foreign, OTHER_TRADE),
        ):
            for word in words:
                if word.isalpha() and len(word) >= SHORTEST:
                    self._words.setdefault(word[0], []).append((word, bases.get(word, word), cost))
        self._letters: dict[str, _Letter] = {}
        self._kept: dict[str, set[int]] = {}
        for number, words in enumerate(company):
            for word in words:
                self._kept.setdefault(word, set()).add(number)

    def _letter(self, start: str) -> _Letter:
        found = self._letters.get(start)
        if found is None:
            found = self._letters[start] = _Letter(self._words.get(start, ()))
        return found

    def near(self, word: str) -> tuple[Near, ...]:
        """The known words that `word` may stand for, cheapest first; those too far are left out."""
        if len(word) < SHORTEST or not word.isalpha() or not word.isascii():
            return ()
        key = sound(word)
        slips = 1 if len(word) < MORE_SLIPS_FROM else MOST_SLIPS
        found: dict[str, Near] = {}
        for start in dict.fromkeys(word[0] + word[1] + _STARTS.get(word[0], "")):
            letter = self._letter(start)
            forms = set(letter.by_sound.get(key, ()))
            forms.update(form for form, _, _ in extract(
                word, letter.forms, scorer=OSA.distance, score_cutoff=slips, limit=LOOKED_AT
            ))
            for form in forms:
                if form == word or not _may_start(word, form):
                    continue
                alike = sound(form) == key
                shorter = min(len(word), len(form))
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
    """What the slips between two words cost together.

    alike  they sound the same: then their consonants are only spelt in other ways
    """
    steps = Levenshtein.editops(typed, meant)
    swaps = len(steps) - OSA.distance(typed, meant)
    if swaps > 0:
        # Each swap shows as two steps; what else was slipped is taken at the full rate.
        return SWAPPED * swaps + 1.0 * (len(steps) - 2 * swaps)
    cost = 0.0
    for step in steps:
        if step.tag == "replace":
            each = _replaced(typed[step.src_pos], meant[step.dest_pos])
        elif step.tag == "delete":
            each = _extra(typed, step.src_pos)
        else:
            each = _extra(meant, step.dest_pos)
        cost += min(each, SPELT_OTHERWISE) if alike and each > SOFT else each
        if (step.src_pos if step.tag != "insert" else step.dest_pos) == 0:
            cost += FIRST
    return cost


def _replaced(typed: str, meant: str) -> float:
    pair = frozenset((typed, meant))
    if pair <= _VOWELS:
        return VOWEL
    if pair in _ALIKE:
        return LIKE_SOUND
    return NEIGHBOUR_KEY if pair in _NEIGHBOURS else 1.0


def _extra(word: str, place: int) -> float:
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
    return SOFT if letter in _VOWELS or letter == "h" else 0.95
