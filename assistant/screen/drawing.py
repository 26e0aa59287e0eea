"""Drawing: a turn of the talk as rows of styled text.

Owns the marks and the styles of a reply's parts. The order and the wrapping of the parts are
reply.py's; where the rows stand on the screen is history.py's.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from assistant.hearing.plain import plain
from assistant.reply import ASKS, ERROR, OUTSIDE, Part, Reply, paged_parts
from assistant.screen.history import Block

# Marks and words tell the parts apart; the style only helps.
_STYLES = {
    "answer": "bold",
    "due": "bold $warning",
    "choices": "$accent",
    "figures": "bold $success",
    "sketch": "$secondary",
    "working": "$secondary",
    "caution": "bold $warning",
    "assumed": "italic",
    "basis": "$secondary",
    "heard": "$secondary",
    "see": "$secondary",
    "more": "bold",
}
# Down the left of a reply: a line for what is told, another mark where the person's word is wanted.
_TOLD = "│"
_MARKS = {ASKS: "?", OUTSIDE: "~", ERROR: "x"}
ASKED = "» "
GUTTER = 2


def _rows(text: str, width: int, lead: str, style: str) -> list[Content]:
    # Wrapped as Content, so that what was typed is never read as markup.
    body = Content(plain(text)).wrap(max(width - len(lead), 1)) or [Content("")]
    return [
        Content.assemble((lead if number == 0 else " " * len(lead), style), row.stylize(style))
        for number, row in enumerate(body)
    ]


def asked_block(line: str) -> Block:
    """The line that was typed, as a block; a blank row parts it from the turn before."""

    def block(width: int) -> Sequence[Content]:
        return [Content(""), *_rows(line, width, ASKED, "bold $primary")]

    return block


def welcome_block(words: str, examples: Sequence[str]) -> Block:
    """What stands on an empty screen: a sentence and lines to try."""

    def block(width: int) -> Sequence[Content]:
        rows = _rows(words, width, "", "bold")
        for example in examples:
            rows += _rows(example, width, "  try: ", "$secondary")
        return rows

    return block


def pages(reply: Reply, width: int, rows: int) -> list[list[Part]]:
    """The pages of a reply as they are drawn in `width` columns, at most `rows` rows each."""
    return paged_parts(reply, max(width - GUTTER, 10), max(rows, 3))


def reply_block(reply: Reply, rows: int, page: int = 0) -> Block:
    """A page of a reply as a block, indented behind a mark that tells its outcome.

    rows  how many rows the page may have, its heading not counted
    page  from 0; a page that a wider screen no longer needs draws nothing
    """

    def block(width: int) -> Sequence[Content]:
        dealt = pages(reply, width, rows)
        if page >= len(dealt):
            return []
        mark = _MARKS.get(reply.outcome, _TOLD)
        drawn: list[Content] = []
        if reply.heading and page == 0:
            drawn += _rows(reply.heading, width, "┌ ", "underline")
        for part in dealt[page]:
            style = _STYLES.get(part.kind, "")
            drawn += [
                Content.assemble((f"{mark} ", "$secondary"), (plain(row), style))
                for row in part.rows
            ]
        return drawn

    return block
