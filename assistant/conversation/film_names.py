"""Film names: what the name of a film sheet is not: a number of the line, a subject of its own.

Owns these two steps. Which film a line names is the lexicon's.
"""

from __future__ import annotations

from collections.abc import Container
from dataclasses import replace

from assistant.hearing.heard import FILM, Heard
from assistant.routing.topic import Topic


def without_numbers_of_names(heard: Heard, films: Container[str]) -> Heard:
    """The line without the quantities that stand in the names of film sheets: nobody means 3000
    degrees by "how hot for an overlap on Ninefathom 3000".

    films  the ids of all film sheets
    """
    if not heard.quantities:
        return heard
    names = [hit for hit in heard.concepts if hit.kind == FILM and hit.concept in films]
    kept = tuple(
        found for found in heard.quantities
        if not any(found.start < hit.end and hit.start < found.end for hit in names)
    )
    return heard if len(kept) == len(heard.quantities) else replace(heard, quantities=kept)


def topic_without_names(topic: Topic | None, films: Container[str]) -> Topic | None:
    """The topic as routing goes on from it: any rule may be asked about any film of the shop's."""
    if topic is None or not topic.films:
        return topic
    return replace(topic, films=frozenset(film for film in topic.films if film not in films))
