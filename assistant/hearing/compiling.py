"""Compiling: the files of words -> what the lexicon looks up.

Owns which words are forms of which, and what is kept of the sample phrases. The look-up is
lexicon.py's.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from assistant.hearing.heard import CONDITION, DOING, FILM, FOREIGN, THING, WISH
from assistant.hearing.spelling import base_forms, folded

# {"things": {id: {"words": [...], "broader": id, "hazard": name,
#              "place": bool, "reads": {kind: id}}}, "doings": ..., "wishes": ...,
#  "films": ..., "conditions": ..., "plain": {group: {"words": [...]}}, "foreign": the same,
#  "spellings": {typed: meant}}
LexiconData = Mapping[str, Mapping[str, Any]]

SECTIONS = {
    "things": THING, "doings": DOING, "wishes": WISH, "films": FILM, "conditions": CONDITION,
}
WORD = re.compile(r"[^\W\d_]+(?:['’‘`][^\W\d_]+)*|\d+(?:[.,]\d+)*")
SAMPLE = 25             # words; a longer text is no sample phrase, and says little of company


def compiled(data: LexiconData, phrases: Iterable[str]) -> dict[str, Any]:
    """The lexicon as plain data for JSON.

    Raises ValueError naming the section when a section is none that is known.
    """
    strange = set(data) - set(SECTIONS) - {"plain", "foreign", "spellings"}
    if strange:
        raise ValueError(f"lexicon: no section {sorted(strange)}; use {sorted(SECTIONS)}, "
                         "plain, foreign or spellings")
    named: list[tuple[list[str], str, str]] = []
    broader: dict[str, str] = {}
    hazards: dict[str, str] = {}
    places: list[str] = []
    reads: dict[str, dict[str, str]] = {}
    for section, kind in SECTIONS.items():
        for concept, entry in data.get(section, {}).items():
            for text in (*entry.get("words", ()), concept.replace("-", " ")):
                words = _split(text)
                if words:
                    named.append((words, kind, concept))
            if entry.get("hazard"):
                hazards[f"{kind}:{concept}"] = entry["hazard"]
            if entry.get("place"):
                places.append(concept)
            if entry.get("reads"):
                reads[concept] = dict(entry["reads"])
            if entry.get("broader"):
                broader[f"{kind}:{concept}"] = entry["broader"]
    plain = _listed(data.get("plain", {}))
    foreign = _listed(data.get("foreign", {}))
    singles: dict[str, set[str]] = {}
    for words, kind, concept in named:
        if len(words) == 1:
            singles.setdefault(words[0], set()).add(f"{kind}:{concept}")
    # A form listed beside its base for the same concept ("heating", "heat") is the same word.
    whole = {
        word for word, meant in singles.items()
        if not any(meant <= singles.get(form, set()) for form in base_forms(word))
    } | {words[0] for words in plain + foreign if len(words) == 1}
    lines = [_split(text) for text in phrases]
    trade = {word for line in lines for word in line}
    raw = whole | {w for words, _, _ in named for w in words} | {
        w for words in plain + foreign for w in words
    } | trade
    bases = {}
    for word in raw - whole:
        for form in base_forms(word):
            if form in raw:
                bases[word] = form
                break
    entries: dict[tuple[str, ...], dict[tuple[str, str], None]] = {}
    for words, kind, concept in named:
        entries.setdefault(tuple(_settled(words, bases)), {})[(kind, concept)] = None
    for words in foreign:
        if len(words) > 1:
            group = entries.setdefault(tuple(_settled(words, bases)), {})
            group[(FOREIGN, " ".join(words))] = None
    plain_words = {words[0] for words in plain if len(words) == 1}
    foreign_words = {words[0] for words in foreign if len(words) == 1}
    trade_words = sorted({bases.get(word, word) for word in trade} - plain_words)
    place_of = {word: place for place, word in enumerate(trade_words)}
    return {
        "entries": [[list(words), [list(pair) for pair in pairs]]
                    for words, pairs in entries.items()],
        "broader": broader,
        "hazards": hazards,
        "places": places,
        "reads": reads,
        "plain": sorted(plain_words),
        "foreign": sorted(foreign_words),
        "trade": trade_words,
        "company": [
            held for line in lines if len(line) <= SAMPLE and len(held := sorted({
                place_of[word] for word in _settled(line, bases) if word in place_of
            })) > 1
        ],
        "spellings": {
            folded(typed): meant for typed, meant in data.get("spellings", {}).items()
        },
        "bases": bases,
    }


def _split(text: str) -> list[str]:
    return [folded(found) for found in WORD.findall(text)]


def _listed(groups: Mapping[str, Any]) -> list[list[str]]:
    texts = (text for entry in groups.values() for text in entry.get("words", ()))
    return [words for words in (_split(text) for text in texts) if words]


def _settled(words: list[str], bases: Mapping[str, str]) -> list[str]:
    return [bases.get(word, word) for word in words]
