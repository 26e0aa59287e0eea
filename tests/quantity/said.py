"""What a test says about a number in a line: (low, high, unit), in reading order."""

from __future__ import annotations

from assistant.quantity.read import read


def numbers(text: str) -> list[tuple]:
    """(value, unit), or (low, high, unit) for a range, of every number without a problem."""
    return [
        (found.low, found.unit) if found.low == found.high else (found.low, found.high, found.unit)
        for found in read(text) if not found.problem
    ]


def one(text: str) -> tuple:
    """The only number of a line."""
    found = numbers(text)
    assert len(found) == 1, f"{text!r} reads as {found}"
    return found[0]
