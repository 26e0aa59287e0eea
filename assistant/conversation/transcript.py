"""Transcripts: conversations on file that can be typed again and compared.

Owns the file's form and the comparison. A transcript is plain text:

    # a remark, kept and not typed
    today 2025-01-15 07:30
    > how hot for an overlap
    Post-heat every overlap to 225 °F (107 °C).
    ...
    ---                      forgets the context, like a new customer at the counter

What a reply says belongs to talk.py.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from assistant.conversation.talk import Conversation
from assistant.reply import lay_out

TYPED = "> "
FORGET = "---"
CLOCK = "today "


class BadTranscript(ValueError):
    """The file is not a transcript; the message names the line and the remedy."""


@dataclass(frozen=True)
class Step:
    """One step of a transcript.

    kind  typed | clock | forget | remark
    text  what is typed, the moment, or the remark as it stands
    said  the reply that the file expects, its rows joined by newlines (typed only)
    row   line number in the file, from 1
    """

    kind: str
    text: str
    said: str
    row: int


def read_steps(text: str) -> list[Step]:
    """The steps of a transcript. Raises BadTranscript with the row of what does not belong."""
    steps: list[Step] = []
    said: list[str] = []

    def close() -> None:
        if steps and steps[-1].kind == "typed":
            last = steps[-1]
            steps[-1] = Step("typed", last.text, "\n".join(said).strip("\n"), last.row)
        said.clear()

    for row, line in enumerate(text.splitlines(), 1):
        if line.startswith(TYPED):
            close()
            steps.append(Step("typed", line[len(TYPED):], "", row))
        elif line.startswith(CLOCK) and not said and (not steps or steps[-1].kind != "typed"):
            steps.append(Step("clock", line[len(CLOCK):].strip(), "", row))
        elif line.strip() == FORGET:
            close()
            steps.append(Step("forget", FORGET, "", row))
        elif line.startswith("# ") or line.strip() == "#":
            close()
            steps.append(Step("remark", line, "", row))
        elif steps and steps[-1].kind == "typed":
            said.append(line)
        elif line.strip():
            raise BadTranscript(
                f"line {row} is {line!r}: before the first typed line only remarks (`# ...`) and "
                f"the clock (`today 2025-01-15 07:30`) may stand; begin typed lines with {TYPED!r}."
            )
    close()
    return steps


def read_clock(text: str, row: int) -> datetime:
    """The moment of a `today` line: a date, with or without a time of day (07:30 else)."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise BadTranscript(
            f"line {row}: {text!r} is no date; write it as 2025-01-15 or 2025-01-15 07:30."
        ) from None
    return moment if len(text) > 10 else moment.replace(hour=7, minute=30)


def retyped(steps: Iterable[Step], begin: Callable[[Callable[[], datetime]], Conversation]
            ) -> Iterator[tuple[Step, str]]:
    """Each step with what the program says to it now (empty for steps that are not typed).

    begin  makes a new conversation from a clock
    """
    moment = datetime(2025, 1, 15, 7, 30)
    conversation = begin(lambda: moment)
    for step in steps:
        said = ""
        if step.kind == "clock":
            moment = read_clock(step.text, step.row)
        elif step.kind == "forget":
            conversation.forget()
        elif step.kind == "typed":
            said = lay_out(conversation.turn(step.text))[0]
        yield step, said


def written(pairs: Iterable[tuple[Step, str]]) -> str:
    """The transcript's text with the replies as they are now."""
    rows: list[str] = []
    for step, said in pairs:
        if step.kind == "typed":
            rows += [TYPED + step.text, *said.splitlines(), ""]
        elif step.kind == "clock":
            rows += [CLOCK + step.text, ""]
        else:
            rows.append(step.text)
    return "\n".join(rows).rstrip("\n") + "\n"


def differences(name: str, pairs: Iterable[tuple[Step, str]]) -> list[str]:
    """What the file says against what is said now, as unified-diff rows; empty if equal."""
    found: list[str] = []
    for step, said in pairs:
        if step.kind == "typed" and step.said != said:
            found.append(f"{name}, line {step.row}: {TYPED}{step.text}")
            found += [
                row for row in difflib.unified_diff(
                    step.said.splitlines(), said.splitlines(), "in the file", "now", lineterm=""
                ) if not row.startswith("@@")
            ]
    return found
