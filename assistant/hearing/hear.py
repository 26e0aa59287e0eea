"""Hear: a line becomes concepts, quantities and leftover words.

Owns the reading of a line from left to right. What the words mean is the lexicon's, where the
question stands in a long text is focus.py's, what is then answered is routing's.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.hearing.compiling import WORD
from assistant.hearing.focus import focus_of
from assistant.hearing.heard import (
    CONCEPT,
    FOREIGN,
    NUMBER,
    THING,
    UNKNOWN,
    WISH,
    Heard,
    Hit,
    Token,
)
from assistant.hearing.lexicon import Lexicon
from assistant.hearing.spelling import folded
from assistant.quantity.read import Found, read

# A longer text is read at its beginning and its end; questions stand there.
LONGEST_READ = 4000
_GAP = "\n … \n"

_LEANS = (
    "and", "what about", "how about", "what if", "same for", "and for", "also", "then", "but",
    "or", "ok and", "okay and", "so what about", "what of", "now for", "y para", "y", "why",
)
_FILLERS = frozenset("so ok okay hey hi um er well right yo please eh oh mate like".split())
_ASKING = frozenset(
    "is are can may do does should could would will has have must shall am was isnt arent cant "
    "doesnt dont wont shouldnt puedo puede debo hay es esta".split()
)
_JUDGING = (
    "ok", "okay", "enough", "alright", "all right", "too hot", "too cold", "too much", "allowed",
    "safe to", "good to go", "fine to",
)
_DENYING = frozenset("not no never without dont cant wont didnt isnt instead sin".split())
_POINTING = frozenset("it that this they them those these one same there".split())
_LONGEST_LEANING = 12
_THIN = frozenset(("um", "mil"))
_READ_OFF = frozenset("is at reads says reading was read shows showing".split())
COLDEST_READ, HOTTEST_READ = 5, 130     # a bare number so read is taken for degrees


@dataclass(slots=True)
class _Word:
    """A word on its way to becoming a token."""

    word: str
    typed: str
    start: int
    end: int
    number: bool = False
    mended: bool = False


def hear(text: str, lexicon: Lexicon) -> Heard:
    """What `text` says, read with `lexicon`. Any text at all is accepted.

    Texts over LONGEST_READ characters are read at both ends; `Heard.cut` tells.
    """
    cut = len(text) > LONGEST_READ
    if cut:
        half = LONGEST_READ // 2
        text = text[:half] + _GAP + text[-half:]
    tidy = " ".join(text.replace("’", "'").replace("‘", "'").casefold().split())
    quantities = tuple(read(text))
    words = _words(text, quantities, lexicon)
    tokens, hits, mends = _named(words, text, lexicon)
    hits += _readings(hits, quantities, lexicon, text)
    focus = focus_of(text, tokens, hits)
    things = any(hit.kind == "thing" for hit in hits)
    return Heard(
        text=text,
        tidy=tidy,
        tokens=tokens,
        concepts=hits,
        quantities=quantities,
        unknown=tuple(token.typed for token in tokens if token.sort == UNKNOWN),
        foreign=tuple(token.typed for token in tokens if token.sort == FOREIGN),
        yes_no=_asks_yes_no(tokens, tidy, focus),
        follow_up=_leans(tokens, tidy, things),
        negated=any(token.word in _DENYING for token in tokens),
        focus=focus,
        mended=mends,
        cut=cut,
    )


def hear_sample(text: str, lexicon: Lexicon) -> Heard:
    """The concepts and words of a text that was written with care: a sample phrase, a rule.

    Its numbers are not read as quantities and its spelling is not mended, which makes it quick.
    """
    words = _words(text, (), lexicon)
    tokens, hits, _ = _named(words, text, lexicon, False)
    return Heard(text, text.casefold(), tokens, hits, focus=(0, len(text)))


def _words(text: str, quantities: tuple[Found, ...], lexicon: Lexicon) -> list[_Word]:
    spans = [(found.start, found.end) for found in quantities]
    words: list[_Word] = []
    for found in WORD.finditer(text):
        start, end = found.span()
        number = found[0][0].isdigit() or any(
            start >= low and end <= high for low, high in spans
        )
        typed = found[0].lower()
        word = folded(found[0])
        words.append(_Word(word if number else lexicon.base(word), typed, start, end, number))
    return words


def _named(
    words: list[_Word], text: str, lexicon: Lexicon, mend: bool = True
) -> tuple[tuple[Token, ...], tuple[Hit, ...], tuple[tuple[str, str], ...]]:
    if mend:
        words = _mended(words, lexicon)
    spoken = [word.word for word in words]
    tokens: list[Token] = []
    hits: list[Hit] = []
    mends: dict[str, str] = {}
    place = 0
    while place < len(words):
        here = words[place]
        # A number may still open a group of the lexicon ("70/30", "two people").
        found = lexicon.at(spoken, place)
        if found is None or (here.number and found[0] == 1):
            if here.number:
                sort = NUMBER
            else:
                sort = lexicon.sort(here.word) or UNKNOWN
            tokens.append(Token(here.word, here.typed, here.start, here.end, sort))
            if here.mended:
                mends[here.typed] = here.word
            place += 1
            continue
        count, named = found
        group = words[place:place + count]
        start, end = group[0].start, group[-1].end
        said = text[start:end].lower()
        mended = any(word.mended for word in group)
        mends.update((word.typed, word.word) for word in group if word.mended)
        concepts = [(kind, concept) for kind, concept in named if kind != FOREIGN]
        for kind, concept in concepts:
            hits.append(Hit(concept, kind, said, start, end, mended))
        sort = CONCEPT if concepts else FOREIGN
        tokens.extend(Token(word.word, word.typed, word.start, word.end, sort) for word in group)
        place += count
    return tuple(tokens), tuple(hits), tuple(mends.items())


def _mended(words: list[_Word], lexicon: Lexicon) -> list[_Word]:
    """Unknown words joined to a neighbour, split in two, or mended; known ones as they stand."""
    done: list[_Word] = []
    strange: list[tuple[_Word, str]] = []
    beside = [word.word for word in words if not word.number and lexicon.telling(word.word)]
    place = 0
    while place < len(words):
        here = words[place]
        after = words[place + 1] if place + 1 < len(words) else None
        if after is not None and not here.number and not after.number and (
            not lexicon.knows(here.word) or not lexicon.knows(after.word)
        ):
            joined = lexicon.base(here.word + after.word)
            if lexicon.names(joined):
                typed = f"{here.typed} {after.typed}"
                done.append(_Word(joined, typed, here.start, after.end, mended=True))
                place += 2
                continue
        place += 1
        if here.number:
            done.append(here)
            continue
        if lexicon.knows(here.word):
            meant = lexicon.slip(here.word, beside)
            if meant is not None:
                here.word, here.mended = meant, True
            done.append(here)
            continue
        halves = lexicon.halves(here.word)
        if halves is not None:
            middle = here.start + min(len(halves[0]), here.end - here.start)
            done.append(_Word(halves[0], here.typed, here.start, middle))
            done.append(_Word(halves[1], here.typed, middle, here.end))
            continue
        near = lexicon.mend(here.word, beside)
        if near is not None:
            strange.append((here, here.word))
            here.word, here.mended = near, True
        done.append(here)
    if len(strange) > 1:
        # What stands for one of them may tell what stands for another.
        beside = [word.word for word in done if not word.number and lexicon.telling(word.word)]
        for word, spelt in strange:
            word.word = lexicon.mend(spelt, beside) or word.word
    return done


def _readings(
    hits: tuple[Hit, ...], quantities: tuple[Found, ...], lexicon: Lexicon, text: str
) -> tuple[Hit, ...]:
    """What the numbers are readings of, when nothing more is named than where: "bonnet 12 C" tells
    a temperature of the panel."""
    things = [hit.concept for hit in hits if hit.kind == THING]
    if not things or not quantities:
        return ()
    found: dict[str, Hit] = {}
    for number in quantities:
        kind = "thinness" if number.unit in _THIN else number.kind
        if number.bare and _read_off(number, text):
            kind = "temperature"
        read_of = [kind and lexicon.reading(thing, kind) for thing in things]
        if all(read_of):
            found.setdefault(read_of[0], Hit(
                read_of[0], THING, number.text, number.start, number.end
            ))
    return tuple(found.values())


def _read_off(number: Found, text: str) -> bool:
    """Whether a bare number is said as one reads a thermometer: "panel is 58"."""
    before = text[:number.start].split()
    return (
        COLDEST_READ <= number.low <= HOTTEST_READ
        and bool(before) and before[-1].lower() in _READ_OFF
    )


def _asks_yes_no(tokens: tuple[Token, ...], tidy: str, focus: tuple[int, int]) -> bool:
    inside = [token for token in tokens if token.start >= focus[0] and token.end <= focus[1]]
    first = next((token.word for token in inside if token.word not in _FILLERS), "")
    if first in _ASKING and not any(token.sort == WISH for token in inside):
        return True
    return any(f" {words} " in f" {tidy.rstrip('?!. ')} " for words in _JUDGING)


def _leans(tokens: tuple[Token, ...], tidy: str, things: bool) -> bool:
    """Whether a short line leans on what was said before it."""
    if not tokens or len(tokens) > _LONGEST_LEANING:
        return False
    bare = " ".join(token.word for token in tokens if token.sort != NUMBER)
    if any(bare == words or bare.startswith(words + " ") for words in _LEANS):
        return True
    return not things and any(token.word in _POINTING for token in tokens)


