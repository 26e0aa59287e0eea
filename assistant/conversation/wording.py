"""Wording: figures, moments, cautions and bases as a reply carries them.

Owns the step from a stored quantity to a reply's figure. Rounding and units are
quantity/write.py's; what a rule says is telling.py's.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from assistant.quantity.kinds import Quantity
from assistant.quantity.write import System, figure_value, show, show_range
from assistant.reply import Figure, Moment

_BASIS = {
    "practice": "common practice, no source",
    "memory": "from memory; confirm it against the film maker's bulletin",
    "published": "published",
}


def figure_of(
    name: str, low: Quantity, high: Quantity | None, unit: str | None, system: System,
    fine: bool = False,
) -> Figure:
    """A reply's figure: rounded as shown, in the asker's system; the words carry both."""
    value, code = figure_value(low, system, unit=unit, fine=fine)
    if high is None or high == low:
        return Figure(name, value, value, code, show(low, system, unit=unit, fine=fine))
    top, _ = figure_value(high, system, unit=code)
    return Figure(name, value, top, code, show_range(low, high, system, unit=unit))


def clock_words(moment: datetime, system: System) -> str:
    """A moment as a person says it: `3:00 pm, Wed 15 Jan` or `15:00, Wed 15 Jan`."""
    if system == System.US:
        hour = moment.strftime("%I:%M %p").lstrip("0").lower()
    else:
        hour = moment.strftime("%H:%M")
    return f"{hour}, {moment.strftime('%a')} {moment.day} {moment.strftime('%b')}"


def moment_of(name: str, moment: datetime, system: System, whole_day: bool = False) -> Moment:
    """A reply's moment; one that is a whole day is told as its date, with the year."""
    words = f"{moment.day} {moment:%b %Y}" if whole_day else clock_words(moment, system)
    return Moment(name, moment.isoformat(timespec="minutes"), words)


def caution_texts(knowledge: Any, ids: Iterable[str]) -> tuple[str, ...]:
    """The cautions in words, each once, in the order relied on."""
    return tuple(knowledge.cautions[name].says for name in dict.fromkeys(ids))


def see_also_titles(knowledge: Any, ids: Iterable[str]) -> tuple[str, ...]:
    """What else to ask about, by title, as a person would."""
    return tuple(
        entry.title
        for name in ids
        if (entry := knowledge.rules.get(name) or knowledge.calculations.get(name)) is not None
    )


def basis_words(knowledge: Any, basis: str | None, source: str | None, note: str | None) -> str:
    """The basis as a sentence fragment; the source's title where there is one."""
    if basis is None:
        return ""
    words = _BASIS[basis]
    if source is not None:
        words += f": {knowledge.source_title(source)}"
    if note:
        words += f" ({note.rstrip('.')})"
    return words
