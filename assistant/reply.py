"""The Reply: everything that a person or a program could be shown for one line.

Owns the model, its JSON form and its plain-text pages. How a quantity is worded belongs to
quantity/write.py; what the reply says belongs to conversation/ and the subjects under it.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

ANSWER, RESULT, DONE, ASKS, OUTSIDE, ERROR = "answer", "result", "done", "asks", "outside", "error"
OUTCOMES = (ANSWER, RESULT, DONE, ASKS, OUTSIDE, ERROR)

COLUMNS = 80
ROWS = 24


@dataclass(frozen=True, slots=True)
class Figure:
    """A number that answers: `low` and `high` are equal unless it is a range.

    unit   a unit code of the JSON contract, in the asker's system
    shown  the same figure in words, both systems; for people, not in the JSON
    """

    name: str
    low: float
    high: float
    unit: str
    shown: str = ""

    def as_json(self) -> dict[str, Any]:
        return {"name": self.name, "low": self.low, "high": self.high, "unit": self.unit}


@dataclass(frozen=True, slots=True)
class Moment:
    """A point in time that answers: ISO 8601, and the clock time a person reads."""

    name: str
    at: str
    shown: str = ""

    def as_json(self) -> dict[str, str]:
        return {"name": self.name, "at": self.at}


@dataclass(frozen=True, slots=True)
class Reply:
    """What is said and what it rests on; a front end draws it and adds nothing.

    answer      the first sentence, which answers the question
    sketch      rows of block characters where a drawing says it better; never wrapped
    due         timers whose time is up, told beside whatever was asked
    confidence  0..1, how sure the router was of the intent
    """

    outcome: str
    answer: str
    intent: str | None = None
    heading: str = ""
    why: str = ""
    check: str = ""
    heard: str = ""
    assumed: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    figures: tuple[Figure, ...] = ()
    times: tuple[Moment, ...] = ()
    steps: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    sketch: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    basis: str | None = None
    basis_words: str = ""
    layer: str | None = None
    overrode: tuple[str, ...] = ()
    source: str | None = None
    choices: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    see_also: tuple[str, ...] = ()
    due: tuple[str, ...] = ()
    confidence: float = 1.0

    def __post_init__(self) -> None:
        if self.outcome not in OUTCOMES:
            raise ValueError(f"no such outcome: {self.outcome!r}; one of {', '.join(OUTCOMES)}")
        if self.outcome in (ASKS, OUTSIDE) and (self.figures or self.times):
            raise ValueError(f"an {self.outcome!r} reply carries no figures and no times")

    def as_json(self) -> dict[str, Any]:
        """The JSON object of the contract, its keys in the contract's order."""
        return {
            "outcome": self.outcome,
            "intent": self.intent,
            "heading": self.heading,
            "text": lay_out(self)[0],
            "heard": self.heard,
            "assumed": list(self.assumed),
            "rules": list(self.rules),
            "figures": [figure.as_json() for figure in self.figures],
            "times": [moment.as_json() for moment in self.times],
            "steps": list(self.steps),
            "working": list(self.working),
            "cautions": list(self.cautions),
            "basis": self.basis,
            "layer": self.layer,
            "overrode": list(self.overrode),
            "source": self.source,
            "choices": list(self.choices),
            "needs": list(self.needs),
            "confidence": round(self.confidence, 3),
        }

    def but(self, **changes: Any) -> Reply:
        """The same reply with some parts changed."""
        return replace(self, **changes)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a reply laid out in rows.

    kind  answer | due | figures | why | sketch | steps | check | working | caution | basis |
          assumed | heard | choices | see | more
    rank  what stays on the first page when not everything fits: 0 stays longest
    """

    kind: str
    rank: int
    rows: tuple[str, ...]


# A number and its unit stay on one row.
_HELD_TOGETHER = re.compile(
    r"(?<=\d) (?=(?:°[FC]|in|mm|cm|m|ft|yd|mil|µm|h|min|days?|weeks?|ppm|mL|L|ft²|m²)\b)"
)
_NO_BREAK = "\u00a0"


def _wrapped(text: str, width: int, lead: str = "", hang: str | None = None) -> list[str]:
    hang = " " * len(lead) if hang is None else hang
    rows: list[str] = []
    for paragraph in text.split("\n"):
        rows += textwrap.wrap(
            _HELD_TOGETHER.sub(_NO_BREAK, paragraph), width, initial_indent=lead,
            subsequent_indent=hang, break_on_hyphens=False,
        ) or [""]
        lead = hang
    return [row.replace(_NO_BREAK, " ") for row in rows]


def _listed(lines: Iterable[str], width: int, lead: str) -> list[str]:
    rows: list[str] = []
    for line in lines:
        rows += _wrapped(line, width, lead)
    return rows


def _figure_rows(reply: Reply, width: int) -> list[str]:
    told = [(f.shown, f.name) for f in reply.figures] + [(m.shown, m.name) for m in reply.times]
    # A lone figure that the answer already speaks would only be said twice.
    if len(told) == 1 and told[0][0] and told[0][0] in reply.answer:
        return []
    column = min(max((len(shown) for shown, _ in told), default=0), width // 2)
    return [
        row
        for shown, name in told
        for row in _wrapped(name, width, f"  {shown.ljust(column)}  ", " " * (column + 4))
    ]


def _basis_text(reply: Reply) -> str:
    pieces = [reply.basis_words or (reply.basis or "")]
    if reply.layer and reply.layer != "shipped":
        pieces.append(f"{reply.layer} speaks")
    pieces += [f"it overrides {what}" for what in reply.overrode]
    if reply.rules:
        pieces.append(("Rule " if len(reply.rules) == 1 else "Rules ") + ", ".join(reply.rules))
    return "; ".join(piece for piece in pieces if piece)


def parts(reply: Reply, width: int = COLUMNS) -> list[Part]:
    """The reply in reading order, each part wrapped to `width` columns."""
    made: list[Part] = []

    def add(kind: str, rank: int, rows: list[str]) -> None:
        if rows:
            made.append(Part(kind, rank, tuple(rows)))

    def say(kind: str, rank: int, text: str, lead: str = "") -> None:
        add(kind, rank, _wrapped(text, width, lead) if text else [])

    say("answer", 0, reply.answer)
    add("due", 0, _listed(reply.due, width, "* "))
    add("choices", 1, [
        row
        for number, choice in enumerate(reply.choices, 1)
        for row in _wrapped(choice, width, f"  {number}) ")
    ])
    add("figures", 2, _figure_rows(reply, width))
    say("why", 6, reply.why, "Why: ")
    add("sketch", 9, [row[:width] for row in reply.sketch])
    add("steps", 7, [
        row
        for number, step in enumerate(reply.steps, 1)
        for row in _wrapped(step, width, f"{number:>2}. ")
    ])
    add("working", 8, _listed(reply.working, width, "  = "))
    say("check", 7, reply.check, "Check: ")
    for caution in reply.cautions:  # one part each: a small page keeps as many as it can
        add("caution", 1, _wrapped(caution, width, "! "))
    say("assumed", 3, "; ".join(reply.assumed), "Assumed: ")
    say("basis", 4, _basis_text(reply), "Basis: ")
    say("heard", 5, reply.heard, "Heard: ")
    say("see", 10, "; ".join(reply.see_also), "See also: ")
    return made


def paged_parts(reply: Reply, width: int = COLUMNS, rows: int = ROWS) -> list[list[Part]]:
    """The parts of the reply dealt onto pages of at most `rows` rows, reading order kept.

    The first page keeps what answers and what warns; the rest follows under `more`. A part that
    is longer than what is left of a page is carried over whole when it can be, else by rows.
    """
    everything = parts(reply, width)
    if sum(len(part.rows) for part in everything) <= rows:
        return [everything]
    room = rows - 1  # the last row says that there is more
    chosen: set[int] = set()
    left = room
    for index in sorted(range(len(everything)), key=lambda i: everything[i].rank):
        size = len(everything[index].rows)
        if size <= left:
            chosen.add(index)
            left -= size
    first = [part for index, part in enumerate(everything) if index in chosen]
    pages, page, left = [first], list[Part](), room
    for part in (part for index, part in enumerate(everything) if index not in chosen):
        waiting = part.rows
        while waiting:
            if page and len(waiting) > left and len(waiting) <= room or left == 0:
                pages.append(page)
                page, left = [], room
            taken, waiting = waiting[:left], waiting[left:]
            page.append(Part(part.kind, part.rank, taken))
            left -= len(taken)
    if page:
        pages.append(page)
    for page in pages[:-1]:
        page.append(Part("more", 0, ("(more: type `more` for the rest)",)))
    return pages


def lay_out(reply: Reply, width: int = COLUMNS, rows: int = ROWS) -> list[str]:
    """The pages of the reply as plain text; each page at most `rows` rows of `width` columns."""
    return [
        "\n".join(row for part in page for row in part.rows)
        for page in paged_parts(reply, width, rows)
    ]
