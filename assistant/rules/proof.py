"""Proof: the questions that each entry brings along, put to the router.

Owns what counts as reached. The questions are written with the rules; what routing makes of them
is routing/'s.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

from assistant.hearing.hear import hear
from assistant.hearing.lexicon import Lexicon
from assistant.routing.intent import Intent
from assistant.routing.router import Router
from assistant.routing.verdict import CHOICE, SURE, Verdict
from assistant.rules.knowledge import Knowledge
from assistant.rules.models import Asked
from assistant.rules.problem import Problem, quoted
from assistant.rules.soundness import table_of


class Routes(Protocol):
    """Anything that gives a verdict on a line."""

    def verdict(self, line: str) -> Verdict: ...


class Routed:
    """The router over a knowledge base, as the conversation builds it."""

    def __init__(self, knowledge: Knowledge) -> None:
        self._lexicon: Lexicon = knowledge.hearing_lexicon()
        self._router = Router.build(knowledge.intents(), self._lexicon)

    def verdict(self, line: str) -> Verdict:
        return self._router.route(hear(line, self._lexicon))


@dataclass(slots=True)
class Tally:
    """How many questions were put, and how many ended where they should."""

    put: int = 0
    right: int = 0


def unproven(
    knowledge: Knowledge, routes: Routes, tally: Tally, phrases: bool = False
) -> Iterator[Problem]:
    """Questions that end elsewhere than they should, and phrases that reach another entry.

    reached  the entry is the answer, or gives the same figures as the answer, or is among the
             choices offered
    phrases  put the phrases themselves to the router too
    """
    intents = {intent.id: intent for intent in knowledge.intents()}
    for entry in knowledge.entries():
        table = table_of(entry)
        reached = 0
        for number, line in enumerate(entry.reaches, 1):
            verdict = routes.verdict(line)
            tally.put += 1
            if reaches(verdict, intents[entry.id], intents):
                tally.right += 1
                reached += 1
            else:
                yield Problem(
                    entry.file, table, f"reaches[{number}]",
                    f"{quoted(line)} {ended(verdict)}",
                    "Mend the words of the lexicon or the phrases; or the question is another's.",
                )
        for number, line in enumerate(entry.must_not_reach, 1):
            verdict = routes.verdict(line)
            tally.put += 1
            if verdict.kind == SURE and verdict.candidates[0].intent_id == entry.id:
                yield Problem(
                    entry.file, table, f"must_not_reach[{number}]",
                    f"{quoted(line)} is answered by it",
                    "Give its own rule the words, or take a phrase away that draws it here.",
                )
            else:
                tally.right += 1
        if entry.reaches and not reached:
            yield Problem(entry.file, table, "reaches", "is reached by none of its questions",
                          "Nobody will find it: look at what its words share with others.")
        if phrases:
            yield from _strayed(entry, table, routes, tally, intents)


def _strayed(
    entry: Asked, table: str, routes: Routes, tally: Tally, intents: dict[str, Intent]
) -> Iterator[Problem]:
    for number, line in enumerate(entry.phrases, 1):
        verdict = routes.verdict(line)
        tally.put += 1
        if reaches(verdict, intents[entry.id], intents):
            tally.right += 1
            continue
        yield Problem(
            entry.file, table, f"phrases[{number}]", f"{quoted(line)} {ended(verdict)}",
            "Two rules draw the same line: leave it with the one that answers it.",
        )


def reaches(verdict: Verdict, wanted: Intent, intents: dict[str, Intent]) -> bool:
    """Whether a verdict leads to an entry."""
    if verdict.kind == SURE:
        got = intents.get(verdict.candidates[0].intent_id)
        return got is not None and (
            got.id == wanted.id or got.answer_key == wanted.answer_key != ""
        )
    return verdict.kind == CHOICE and any(
        candidate.intent_id == wanted.id for candidate in verdict.candidates
    )


def ended(verdict: Verdict) -> str:
    """Where a line ended, in words."""
    ids = [candidate.intent_id for candidate in verdict.candidates[:3]]
    if verdict.kind == SURE:
        return f"is answered by {ids[0]}"
    if verdict.kind == CHOICE:
        return f"offers {', '.join(ids)}"
    return f"is refused (nearest {ids[0]})" if ids else "is refused"
