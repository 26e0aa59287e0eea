"""Glossary entry: a word of the trade, as written in knowledge/words/*.toml.

Owns its keys. How it is asked for is conversation/glossary.py's; what makes a good one,
names_check.py's.
"""

from __future__ import annotations

from typing import Self

from pydantic import model_validator

from assistant.rules.models import UNSOURCED, Basis, Model, Text, Words


class Term(Model):
    """A word and what it means.

    also            what else people call it, British, American and at the bench
    means           one or two short sentences; figures only as `{rule-id.figure}`
    not_to_confuse  one sentence that tells it from what it is mistaken for
    rule            the rule that tells how it is done
    cautions        where the thing itself can hurt
    """

    id: str
    term: Text
    also: Words = ()
    means: Text
    not_to_confuse: str = ""
    rule: str | None = None
    cautions: tuple[str, ...] = ()
    basis: Basis
    source: str | None = None
    file: str = ""

    @model_validator(mode="after")
    def _sourced(self) -> Self:
        if self.basis == "published" and self.source is None:
            raise UNSOURCED
        return self

    def names(self) -> tuple[str, ...]:
        """The term and what else it is called."""
        return (self.term, *self.also)
