"""Drawing: a turn of the talk as rows of styled text.

Owns the marks and the styles of a reply's parts. The order and the wrapping of the parts are
reply.py's; where the rows stand on the screen is history.py's.
"""

from __future__ import annotations

from collections.abc import Sequence

from textual.content import Content

from assistant.reply import ASKS, ERROR, OUTSIDE, Reply, paged_parts

# Marks and words tell the parts apart; the style only helps.
_STYLES = {
    "answer": "bold",
    "choices": "$text-accent",
    "figures": "bold $text-success",
    "why": "",
    "sketch": "$text-muted",
    "steps": "",
    "check": "",
    "working": "$text-muted",
    "caution": "bold $text-warning",
    "assumed": "italic",
    "basis": "$text-muted",
    "heard": "$text-muted",
    "see": "$text-muted",
    "more": "bold",
}
_OUTCOME_MARKS = {ASKS: "?", OUTSIDE: "~", ERROR: "x"}
ASKED = "» "
GUTTER = 2


def _rows(text: str, width: int, lead: str, style: str) -> list[Content]:
    # Wrapped as Content, so that what was typed is never read as markup.
    body = Content(text).wrap(max(width - len(lead), 1)) or [Content("")]
    return [
        Content.assemble((lead if number == 0 else " " * len(lead), style), row.stylize(style))
        for number, row in enumerate(body)
    ]


def asked_block(line: str):
    """The line that was typed, as a block."""

    def block(width: int) -> Sequence[Content]:
        return [Content(""), *_rows(line, width, ASKED, "bold $text-primary")]

    return block


def reply_block(reply: Reply, rows: int, page: int = 0):
    """A page of a reply as a block, indented behind a mark that tells its outcome.

    rows  how many rows the page may have, its heading not counted
    """

    def block(width: int) -> Sequence[Content]:
        inner = max(width - GUTTER, 10)
        pages = paged_parts(reply, inner, rows)
        if page >= len(pages):
            return []
        mark = _OUTCOME_MARKS.get(reply.outcome, "│")
        drawn: list[Content] = []
        if reply.heading and page == 0:
            drawn += _rows(reply.heading, width, "┌ ", "underline")
        for part in pages[page]:
            style = _STYLES.get(part.kind, "")
            drawn += [
                Content.assemble((f"{mark} ", "$text-muted"), (row, style)) for row in part.rows
            ]
        return drawn

    return block
