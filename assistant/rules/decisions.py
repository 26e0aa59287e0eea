"""Decisions: what the shop decides about shipped rules in a talk, in house/decisions.toml.

Owns the making, writing and forgetting of one decision. Which layer then speaks is resolved.py's;
what may not be loosened, layers.py's; asking whether to write it is the conversation's.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assistant.rules.films import FigureChange
from assistant.rules.knowledge import Knowledge
from assistant.rules.layers import Fault, figure_fault
from assistant.rules.problem import Problem
from assistant.rules.shop import Standing, house_place, put, read_or_set_aside
from assistant.rules.validate import built
from assistant.store.written import Written

FILE = "decisions.toml"
OPENING = (
    "# What the shop has decided about shipped rules. Written by the program: comments put here\n"
    "# are not kept. Another file in this folder is left as it is."
)
_LIMITS = ("at_least", "at_most", "over")


@dataclass(frozen=True, slots=True)
class Decision:
    """One figure of a shipped rule, decided otherwise.

    figure  the key of the figure in the rule
    when    the date, ISO 8601
    """

    rule_id: str
    figure: str
    change: FigureChange
    who: str = ""
    when: str = ""
    because: str = ""


def decisions_file(home: Path) -> Path:
    """Where the decisions lie in the shop's folder."""
    return house_place(home) / FILE


def change_of(role: str, low: float, high: float, unit: str) -> FigureChange | str:
    """The number of a decision in the form that a figure has.

    role  of the rule's figure: value | range | at_least | at_most | over
    low, high  in `unit`; equal unless a range was said
    Returns why not, in words, when the number cannot be.
    """
    if role in _LIMITS:
        if low != high:
            return "The rule has a limit there, one number and not a range."
        number = {role: low}
    else:
        number = {"value": low} if low == high else {"low": low, "high": high}
    made = built(FigureChange, {**number, "unit": unit}, "", "", found := list[Problem]())
    if made is None:
        return " ".join(f"{each.wrong.capitalize().rstrip('.')}. {each.remedy}" for each in found)
    return made


def forbidden(knowledge: Knowledge, decision: Decision) -> Fault | None:
    """What forbids a decision: a safety rule that it would loosen; None when nothing does."""
    return figure_fault(knowledge.rules[decision.rule_id], decision.figure, decision.change)


def write_decision(home: Path, decision: Decision) -> tuple[Written, Path | None]:
    """Put a decision into the file, beside the others; and where a damaged file went, if one did.

    Raises OSError, written.Moved.
    """
    file = _standing(home, decision.when)
    overrides = dict(file.data.get("overrides", {}))
    held = overrides.get(decision.rule_id)
    entry: dict[str, Any] = dict(held) if isinstance(held, dict) else {}
    figures = entry.pop("figures", {})
    for key in ("who", "when", "because"):
        entry.pop(key, None)
        if getattr(decision, key):
            entry[key] = getattr(decision, key)
    entry["figures"] = {
        **(figures if isinstance(figures, dict) else {}),
        decision.figure: decision.change.model_dump(mode="json", exclude_none=True),
    }
    overrides[decision.rule_id] = entry
    return put(file, {**file.data, "overrides": overrides}, OPENING), file.aside


def forget_decision(home: Path, rule_id: str, today: str) -> tuple[Written, Path | None]:
    """Take what was decided about a rule out of the file. Raises KeyError when nothing was (any
    more), OSError, written.Moved."""
    file = _standing(home, today)
    overrides = dict(file.data.get("overrides", {}))
    del overrides[rule_id]
    rest = {name: each for name, each in file.data.items() if name != "overrides"}
    return put(file, {**rest, "overrides": overrides} if overrides else rest, OPENING), file.aside


def decided(knowledge: Knowledge) -> Iterator[Any]:
    """The overrides that hold, of all house files, in the order of the rules."""
    return (knowledge.house[name] for name in knowledge.rules if name in knowledge.house)


def _standing(home: Path, today: str) -> Standing:
    return read_or_set_aside(decisions_file(home), today, {"overrides": dict})
