"""Kits: what must lie ready before a part of the job begins, as written in knowledge/kits/*.toml.

Owns their keys. How each thing is used is the rules'; the film itself is a sum's.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, model_validator

from assistant.rules.models import UNSOURCED, Basis, Model, Text, Words

GENERAL = "general"


class Kit(Model):
    """What a part of the job takes on top of the general kit: [kit] of its own file.

    id           the stem of the file; `general` is the one that every job takes
    name, also   what people call the part; things: the concepts that stand for it
    tools        what is kept afterwards; consumables: what is used up
    people       at least so many; hands: who does what
    place        where, and how the vehicle stands
    first        what must be done before the film comes near, in order
    rules        ids of the rules that tell how
    """

    id: str
    name: Text
    also: Words = ()
    things: Words = ()
    tools: Words = ()
    consumables: Words = ()
    people: Annotated[int, Field(ge=1, le=6)] = 1
    hands: Text
    place: Text
    first: Words = ()
    basis: Basis
    source: str | None = None
    note: str | None = None
    cautions: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    file: str = ""

    @model_validator(mode="after")
    def _sourced(self) -> Kit:
        if self.basis == "published" and self.source is None:
            raise UNSOURCED
        return self

    def names(self) -> tuple[str, ...]:
        """The part and what else it is called."""
        return (self.name, *self.also)
