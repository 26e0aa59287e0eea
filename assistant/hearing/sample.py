"""Sample: the concepts and words of a text that was written with care: a sample phrase, a rule.

Owns the quick reading of thousands of them when the index is built: no quantities, no mending, no
places in the text. What a person types is read by hear.py.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.hearing.compiling import WORD
from assistant.hearing.heard import FOREIGN, UNKNOWN
from assistant.hearing.lexicon import Lexicon


@dataclass(frozen=True, slots=True)
class Sample:
    """What a text holds, in reading order.

    groups  for each word or group of words that names concepts, its (kind, concept) pairs
    words   the other words but for numbers, each as (word in base form, sort)
    """

    groups: tuple[tuple[tuple[str, str], ...], ...]
    words: tuple[tuple[str, str], ...]


def sample_of(text: str, lexicon: Lexicon) -> Sample:
    """What `text` holds, read as hear() would read it without mending."""
    typed = WORD.findall(text)
    spoken = [lexicon.word(each) for each in typed]
    groups: list[tuple[tuple[str, str], ...]] = []
    words: list[tuple[str, str]] = []
    place = 0
    while place < len(spoken):
        found = lexicon.at(spoken, place)
        number = typed[place][0].isdigit()
        if found is None or (number and found[0] == 1):
            if not number:
                word = spoken[place]
                words.append((word, lexicon.sort(word) or UNKNOWN))
            place += 1
            continue
        count, named = found
        if named[0][0] == FOREIGN:
            concepts = tuple(pair for pair in named if pair[0] != FOREIGN)
        else:
            concepts = named
        if concepts:
            groups.append(concepts)
        else:
            words += [(word, FOREIGN) for word in spoken[place:place + count]]
        place += count
    return Sample(tuple(groups), tuple(words))
