"""The lexicon: which words name which concepts, and which words carry no topic.

Owns the lookup of words and word groups. It is built from plain data that somebody else read;
finding the concepts of a line belongs to hear.py.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from assistant.hearing.compiling import WORD, LexiconData, compiled
from assistant.hearing.heard import FOREIGN, PLAIN, THING, TRADE
from assistant.hearing.mending import Mender, Near
from assistant.hearing.spelling import base_forms, folded

__all__ = ["WORD", "Lexicon"]

_MOST_REMEMBERED = 4096
_Named = tuple[tuple[str, str], ...]    # (kind, concept) pairs
_Entries = tuple[_Named | None, dict[str, list[tuple[list[str], _Named]]]]


class Lexicon:
    """Words -> concepts.

    Build it with `build`; `to_data` and `from_data` carry it through JSON.
    """

    def __init__(self, data: dict[str, Any]) -> None:
        self._data = data
        # By first word, as they stand in the data; read when a line first has that word.
        self._raw: dict[str, list[list[Any]]] = {}
        own: set[str] = set()
        singles: list[str] = []
        for entry in data["entries"]:
            words = entry[0]
            self._raw.setdefault(words[0], []).append(entry)
            own.update(words)
            if len(words) == 1:
                singles.append(words[0])
        self._named: dict[str, _Entries] = {}
        self._broader: dict[str, str] = data["broader"]
        self._hazards: dict[str, str] = data["hazards"]
        self._places = frozenset(data["places"])
        self._reads: dict[str, dict[str, str]] = data["reads"]
        self._plain = frozenset(data["plain"])
        self._foreign = frozenset(data["foreign"])
        self._trade = frozenset(data["trade"])
        self._own = frozenset(own)
        self._singles = frozenset(singles)
        self._spellings: dict[str, str] = data["spellings"]
        self._bases: dict[str, str] = data["bases"]
        self._known = self._own | self._plain | self._foreign | self._trade
        self._preferred = self._own - self._plain
        self._mender: Mender | None = None
        self._typed: dict[str, str] = {}
        self._remembered: dict[str, tuple[Near, ...]] = {}

    @classmethod
    def build(cls, data: LexiconData, phrases: Iterable[str] = ()) -> Lexicon:
        """The lexicon of `data`; `phrases` are those of all intents: their words are the trade's.

        Raises ValueError naming the section when a section is none that is known.
        """
        return cls(compiled(data, phrases))

    def to_data(self) -> dict[str, Any]:
        """Plain data for JSON; `from_data` takes it back."""
        return self._data

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Lexicon:
        return cls(data)

    # -- single words -----------------------------------------------------------------------

    def knows(self, word: str) -> bool:
        return word in self._known

    def names(self, word: str) -> bool:
        """Whether the single word names a concept."""
        return word in self._singles

    def word(self, typed: str) -> str:
        """A word as typed in base form; a number stays as it is."""
        found = self._typed.get(typed)
        if found is None:
            if len(self._typed) >= _MOST_REMEMBERED:
                self._typed.clear()
            word = folded(typed)
            found = self._typed[typed] = word if word[:1].isdigit() else self.base(word)
        return found

    def telling(self, word: str) -> bool:
        """Whether the word says something of the trade."""
        return word in self._preferred or word in self._trade

    def base(self, word: str) -> str:
        """The known word that `word` is a form of; `word` itself when there is none."""
        word = self._spellings.get(word, word)
        if word in self._bases:
            return self._bases[word]
        if word in self._known:
            return word
        for form in base_forms(word):
            form = self._bases.get(form, form)
            if form in self._known:
                return form
        return word

    def mend(self, word: str, beside: Iterable[str] = ()) -> str | None:
        """The known word that a misspelt one stands for, in base form; None when none is near.

        beside  the known words of the line, in base form: of two equally near, the one that some
                sample phrase has together with one of them is meant
        """
        return self._mending().choose(self._near(word), beside)

    def slip(self, word: str, beside: Sequence[str]) -> str | None:
        """The word of the trade that was meant by a known word which no phrase has: one that sounds
        the same, where it keeps company with the other words of the line ("due point")."""
        if word in self._singles or word in self._trade or word in self._plain:
            return None
        mender = self._mending()
        nears = [near for near in self._near(word) if near.alike and near.word in self._preferred]
        return next(
            (near.word for near in nears if mender.keeps_company(near.word, beside)), None
        )

    def _near(self, word: str) -> tuple[Near, ...]:
        if word not in self._remembered:
            if len(self._remembered) >= _MOST_REMEMBERED:
                self._remembered.clear()
            self._remembered[word] = self._mending().near(word)
        return self._remembered[word]

    def _mending(self) -> Mender:
        """Made when the first word has to be mended: most lines need none."""
        if self._mender is None:
            trade = self._data["trade"]
            self._mender = Mender(
                sorted(self._own), trade, self._data["plain"], self._data["foreign"], self._bases,
                [[trade[place] for place in line] for line in self._data["company"]],
            )
        return self._mender

    def halves(self, word: str) -> tuple[str, str] | None:
        """Two concept words written as one ("bumpercorner"), or None."""
        for place in range(3, len(word) - 2):
            left, right = self.base(word[:place]), self.base(word[place:])
            if left in self._preferred and right in self._preferred and (
                left in self._singles or right in self._singles
            ):
                return left, right
        return None

    def sort(self, word: str) -> str | None:
        """plain | foreign | trade for a word that names no concept by itself; None: unknown."""
        if word in self._plain:
            return PLAIN
        if word in self._foreign:
            return FOREIGN
        if word in self._trade or word in self._own:
            return TRADE
        return None

    def is_foreign(self, word: str) -> bool:
        return word in self._foreign

    # -- groups of words --------------------------------------------------------------------

    def at(self, words: list[str], place: int) -> tuple[int, _Named] | None:
        """The longest group that starts at `place`: (how many words, (kind, concept) pairs)."""
        first = words[place]
        if first not in self._raw:
            return None
        alone, longer = self._named.get(first) or self._entries(first)
        if longer and place + 1 < len(words):
            for group, named in longer.get(words[place + 1], ()):
                if words[place:place + len(group)] == group:
                    return len(group), named
        return None if alone is None else (1, alone)

    def _entries(self, first: str) -> _Entries:
        """What begins with a word: the concepts of that word alone, and the longer groups by their
        second word, longest first."""
        alone: _Named | None = None
        longer: dict[str, list[tuple[list[str], _Named]]] = {}
        for words, named in sorted(self._raw[first], key=lambda entry: -len(entry[0])):
            pairs = tuple((kind, concept) for kind, concept in named)
            if len(words) == 1:
                alone = pairs
            else:
                longer.setdefault(words[1], []).append((list(words), pairs))
        found = self._named[first] = (alone, longer)
        return found

    def broader(self, kind: str, concept: str) -> tuple[str, ...]:
        """The concepts that it is a case of, nearest first; a circle ends where it closes."""
        chain: list[str] = []
        found = self._broader.get(f"{kind}:{concept}")
        while found is not None and found not in chain and found != concept:
            chain.append(found)
            found = self._broader.get(f"{kind}:{found}")
        return tuple(chain)


    def is_place(self, thing: str) -> bool:
        """Whether the thing, or what it is a case of, is where work is done rather than what is
        asked about: a panel, a vehicle."""
        return any(each in self._places for each in (thing, *self.broader(THING, thing)))

    def reading(self, thing: str, kind: str) -> str | None:
        """What a number of the kind beside the thing is the reading of; None when of nothing known.

        kind  as Found.kind, or "thinness" for microns and mils
        """
        for each in (thing, *self.broader(THING, thing)):
            found = self._reads.get(each, {}).get(kind)
            if found is not None:
                return found
        return None

    def hazard(self, kind: str, concept: str) -> str | None:
        """The hazard that it brings ("ignition", "solvent"), its own or of what it is a case of."""
        for each in (concept, *self.broader(kind, concept)):
            found = self._hazards.get(f"{kind}:{each}")
            if found is not None:
                return found
        return None
