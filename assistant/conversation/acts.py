"""Acts: greeting, thanks, help, topics: what is said about the talk itself.

Owns their replies. `more`, `why?`, `in celsius?` need the last reply and are talk.py's.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from assistant.reply import DONE, Reply

_TRY = (
    "how hot do I post-heat an overlap",
    "film for a rear bumper 92 by 31, 3 inch bleed",
    "bay is 18C and 60 percent, panel 16C, can I start",
)


def _greeting(knowledge: Any) -> Reply:
    return Reply(
        DONE, "Hello. Ask me anything about the wrap in hand, in your own words.",
        steps=(), see_also=_TRY[:1],
    )


def _thanks(knowledge: Any) -> Reply:
    return Reply(DONE, "You're welcome. Walk round the panel once more before you leave it.")


def _goodbye(knowledge: Any) -> Reply:
    return Reply(DONE, "Goodbye. Blades in the sharps box, heat gun unplugged.")


def _help(knowledge: Any) -> Reply:
    return Reply(
        DONE,
        "Type what you would say to a colleague; I answer with the rule, the number and the "
        "caution, and where each comes from.",
        steps=(
            f"Ask for a rule: {_TRY[0]}",
            f"Have a sum done: {_TRY[1]}",
            f"Check the bay: {_TRY[2]}",
            "Have a value judged: is 200 ok for an overlap?",
            "Go on from there: and for a recess? · what about chrome · why? · in celsius?",
            "more: the rest of a long reply · start over: drop what is open",
            "topics: what I know about · topics heat: the rules of one subject",
        ),
    )


def topics(knowledge: Any, subject: str | None = None) -> Reply:
    """The subjects, or the titles of one subject's rules."""
    subjects: dict[str, list[str]] = {}
    for rule in knowledge.rules.values():
        subjects.setdefault(rule.subject, []).append(rule.title)
    if subject in subjects:
        return Reply(
            DONE, f"{subject.capitalize()}: {'; '.join(subjects[subject])}.", heard="topics",
        )
    told = ", ".join(f"{name} ({len(titles)})" for name, titles in sorted(subjects.items()))
    sums = "; ".join(entry.title.lower() for entry in knowledge.calculations.values())
    return Reply(
        DONE, f"Rules I know, by subject: {told}. Sums: {sums}. Say `topics` and a subject for "
        "its list.", heard="topics",
    )


def sums(knowledge: Any) -> Reply:
    """Every sum with a line that works as it stands."""
    rows = sum_lines(knowledge)
    return Reply(
        DONE, f"{len(rows)} sums. Type a line like one of these, with your own numbers:",
        heading="Sums", heard="sums", sketch=rows,
    )


def sum_lines(knowledge: Any) -> tuple[str, ...]:
    """One line a sum: its example sentence, within 80 columns, by title."""
    return tuple(f"  {entry.example}" for entry in _by_title(knowledge))


def sums_listed(knowledge: Any) -> tuple[str, ...]:
    """Title and example sentence of every sum, a row each, by title."""
    return tuple(
        row for entry in _by_title(knowledge) for row in (entry.title, f"  {entry.example}")
    )


def _by_title(knowledge: Any) -> list[Any]:
    return sorted(knowledge.calculations.values(), key=lambda entry: entry.title)


ACTS: dict[str, Callable[[Any], Reply]] = {
    "greeting": _greeting,
    "thanks": _thanks,
    "goodbye": _goodbye,
    "help": _help,
    "topics": topics,
    "calculations": sums,
}
