"""Lexicon files: the words that name concepts, as written in knowledge/lexicon/*.toml.

Owns their keys. Finding the concepts in a line is hearing/'s.
"""

from __future__ import annotations

from assistant.rules.models import Model, Text

# The sections whose entries are concepts, and those that are plain groups of words.
CONCEPTS = ("things", "doings", "wishes", "films", "conditions")
GROUPS = ("plain", "foreign")


class Concept(Model):
    """A concept and the words for it.

    broader  the concept that it is a case of
    place    beside another thing it only says where (a panel, a vehicle)
    reads    kind of number -> the thing that such a number beside it is the reading of: degrees
             of a panel are its temperature ("temperature", "thinness" for microns and mils)
    hazard   what it brings to a job that can hurt (ignition, solvent); two that meet are a danger
    """

    words: tuple[Text, ...] = ()
    broader: Text | None = None
    hazard: Text | None = None
    place: bool = False
    reads: dict[str, Text] = {}


class Group(Model):
    """Words that name nothing of the trade."""

    words: tuple[Text, ...] = ()


class LexiconFile(Model):
    """A file of words. All files are taken together; a concept may get words from several."""

    things: dict[str, Concept] = {}
    doings: dict[str, Concept] = {}
    wishes: dict[str, Concept] = {}
    films: dict[str, Concept] = {}
    conditions: dict[str, Concept] = {}
    plain: dict[str, Group] = {}
    foreign: dict[str, Group] = {}
    spellings: dict[str, Text] = {}
