"""Deciding: which figure of which rule a line decides otherwise, and at what.

Owns the step from "post-heat overlaps at 230" to a figure and its new number. Proposing it and
asking is house_rule.py's; what may not be loosened is rules/layers.py's.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from assistant.conversation.judging import plausible_unit
from assistant.hearing.heard import Heard
from assistant.quantity.kinds import Quantity, Temperature, of
from assistant.quantity.read import Found, UnclearQuantity, read
from assistant.quantity.write import System, show, show_range
from assistant.routing.verdict import OUTSIDE, Candidate
from assistant.rules.models import UNIT_CODES

NEAR_TOP = 0.2     # a rule that fits the line so much worse than the best is not meant
TELLS_APART = 0.05  # nearer than this to one another, it is asked which rule is meant
FAR = 6.0           # so many times the figure that holds, or a part of it, another figure is meant
# Film is worked nowhere near these (from memory); a number beyond them is a slip of the keys.
COLDEST, HOTTEST = Temperature.celsius(-30), Temperature.celsius(150)

# Words before the number, and right after it, that make a limit of it.
MOST, LEAST = "most", "least"
_BEFORE = (
    (MOST, re.compile(r"\b(?:at most|no(?:t)? (?:more|later|longer|higher|over|above)(?: than)?"
                      r"|never over|max(?:imum)?(?: of)?|up to|within|under|below)\W*$")),
    (LEAST, re.compile(r"\b(?:at least|no(?:t)? (?:less|closer|sooner|under|below|before)(?: than)?"
                       r"|never under|min(?:imum)?(?: of)?|over|above|after)\W*$")),
)
_AFTER = (
    (MOST, re.compile(r"\W*(?:at (?:the )?(?:most|latest)|max(?:imum)?|or less|tops)\b")),
    (LEAST, re.compile(r"\W*(?:at (?:the )?(?:least|earliest)|min(?:imum)?|or more)\b")),
)


@dataclass(frozen=True, slots=True)
class Option:
    """A figure that the line may decide, and the number it gives it, in `unit`.

    assumed  what was taken for granted, in words
    limit    "most" or "least" when the line makes a limit of the number
    far      the number is nowhere near the one that holds
    """

    rule_id: str
    title: str
    key: str
    figure: Any
    low: float
    high: float
    unit: str
    assumed: tuple[str, ...] = ()
    limit: str = ""
    far: bool = False

    @property
    def quantities(self) -> tuple[Quantity, Quantity]:
        return of(self.low, self.unit), of(self.high, self.unit)

    def shown(self, system: System) -> str:
        low, high = self.quantities
        if low == high:
            return show(low, system, unit=self.unit)
        return show_range(low, high, system, unit=self.unit)


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a line decides nothing, and what to say instead."""

    words: str


def options_of(
    knowledge: Any, heard: Heard, kind: str, ranked: Sequence[Candidate], system: System,
    settled: bool,
) -> list[Option] | Refused:
    """The figures that a line may decide: one, several to choose from, or why none.

    kind    of the router's verdict on the line
    ranked  its candidates, best first
    """
    rules = [
        (candidate, knowledge.rules[candidate.intent_id]) for candidate in ranked
        if candidate.intent_id in knowledge.rules
        and candidate.score >= ranked[0].score - NEAR_TOP
    ]
    if not heard.quantities:
        return Refused("A house rule gives a figure another number, and there is none in that. "
                       "For example: `house rule: post-heat overlaps at 230`.")
    # A short statement may be too little for an answer; with a number that fits it will do here.
    if not rules or kind == OUTSIDE and not (heard.things or heard.doings):
        return Refused("I know no rule about that. Say it with the rule's own words and a number: "
                       "`house rule: post-heat overlaps at 230`.")
    found = _number(heard, [figure.name for _, rule in rules for figure in rule.figures.values()])
    if isinstance(found, Refused):
        return found
    fitting = [
        (candidate, options) for candidate, rule in rules
        if (options := _of_rule(knowledge, rule, found, heard, system, settled))
    ]
    near = [pair for pair in fitting if not all(option.far for option in pair[1])]
    # With a unit it may be meant, and is proposed with a warning; a bare number is another one.
    fitting = near or ([] if found.bare else fitting)
    if not fitting:
        return Refused(_no_such_figure(knowledge, rules[0][1], found, system))
    best = fitting[0][0].score
    options = [
        option for candidate, each in fitting if candidate.score >= best - TELLS_APART
        for option in _told_apart([one for one in each if not one.far] or each, heard)
    ]
    said = options[0].quantities
    if isinstance(said[0], Temperature) and not COLDEST <= said[0] <= said[1] <= HOTTEST:
        return Refused(f"{options[0].shown(system)} cannot be meant for {options[0].figure.name}: "
                       "no film is worked there. Say it again.")
    return options


def _number(heard: Heard, names: Iterable[str]) -> Found | Refused:
    """The one number of a line. One that is part of a figure's name ("over an eight-hour shift")
    only says which figure is meant."""
    for found in heard.quantities:
        if found.problem:
            return Refused(f"I cannot read {found.text.strip()!r}: {found.problem}.")
    numbers = {(found.low, found.high, found.unit): found for found in heard.quantities}
    if len(numbers) > 1:
        named = {(each.low, each.high, each.unit) for name in names for each in read(name)}
        numbers = {key: found for key, found in numbers.items() if key not in named} or numbers
    if len(numbers) > 1:
        told = " and ".join(found.text.strip() for found in numbers.values())
        return Refused(f"I hear {told}: say one figure at a time.")
    return next(iter(numbers.values()))


def _of_rule(
    knowledge: Any, rule: Any, found: Found, heard: Heard, system: System, settled: bool
) -> list[Option]:
    """The figures of a rule that the number fits by its kind."""
    options = []
    resolved = knowledge.resolve(rule.id)
    for key, figure in rule.figures.items():
        now = resolved.figures[key]
        unit = plausible_unit(now, found.low, system, settled) if found.bare else now.unit
        try:
            low, high = found.quantities(unit)
        except (UnclearQuantity, ValueError):
            continue
        if low.kind != now.low.kind:
            continue
        assumed: tuple[str, ...] = ()
        code = found.unit if not found.bare and _fits(found.unit, low) else unit
        if code not in UNIT_CODES:
            code = now.unit
        if found.bare and low.kind != "count":
            assumed = (f"{found.text.strip()} taken as {show(low, system, unit=code)}",)
        # As typed; a number that has been to SI and back would carry its dust.
        typed = code == (unit if found.bare else found.unit)
        ends = (found.low, found.high) if typed else (
            float(f"{low.to(code):.10g}"), float(f"{high.to(code):.10g}")
        )
        option = Option(rule.id, rule.title, key, figure, *ends, code, assumed,
                        _limit(heard, found), _is_far(now, low, high))
        options.append(_one_end(option, now))
    return options


def _fits(unit: str | None, value: Quantity) -> bool:
    """Whether the number stands in the unit in which it was typed: 5 °F of margin is dF."""
    try:
        return unit is not None and of(1.0, unit).kind == value.kind
    except ValueError:
        return False


def _is_far(now: Any, low: Quantity, high: Quantity) -> bool:
    if isinstance(low, Temperature):
        return abs(low.si - now.low.si) > 60 and abs(high.si - now.high.si) > 60
    least, most = sorted((abs(high.si), abs(now.high.si)))
    return most > FAR * least


def _limit(heard: Heard, found: Found) -> str:
    before, after = heard.text[:found.start].lower(), heard.text[found.end:].lower()
    said = [limit for limit, words in _BEFORE if words.search(before)]
    said += [limit for limit, words in _AFTER if words.match(after)]
    return said[0] if said else ""


def _one_end(option: Option, now: Any) -> Option:
    """Of a range that holds, "at least 65" and "at most 75" move one end."""
    if now.role != "range" or option.low != option.high:
        return option
    low, high = now.low.to(option.unit), now.high.to(option.unit)
    if option.limit == LEAST:
        low = option.low
    elif option.limit == MOST:
        high = option.high
    else:
        return option
    if low >= high:
        return option
    return replace(option, low=low, high=high,
                   assumed=(*option.assumed, "the other end of the range stays"))


def against_limit(option: Option) -> str | None:
    """What to say when the line turns a limit round: "at most 10 days" where at least holds."""
    if option.figure.role == "at_least" and option.limit == MOST:
        return "the rule gives the least it may be, and you say the most"
    if option.figure.role == "at_most" and option.limit == LEAST:
        return "the rule gives the most it may be, and you say the least"
    return None


def _told_apart(options: list[Option], heard: Heard) -> list[Option]:
    """Of several figures of one rule, those that the line's own words tell best."""
    if len(options) < 2:
        return options
    names = [_words(option.figure.name) | _words(option.key.replace("_", " "))
             for option in options]
    common = set.intersection(*names)
    said = _words(heard.tidy)
    scores = [len(said & (each - common)) for each in names]
    best = max(scores)
    return [option for option, score in zip(options, scores, strict=True) if score == best]


def _words(text: str) -> set[str]:
    return {word.rstrip("s") for word in re.findall(r"[a-z]+", text.lower())}


def _no_such_figure(knowledge: Any, rule: Any, found: Found, system: System) -> str:
    said = " ".join(found.text.split())
    figures = knowledge.resolve(rule.id).figures.values()
    if not figures:
        return f"The rule on that is \"{rule.title}\", and it has no figure to change."
    told = "; ".join(_told(figures, system))
    return f"The rule on that is \"{rule.title}\", and {said} fits no figure of it. It has: {told}."


def _told(figures: Iterable[Any], system: System) -> Iterable[str]:
    return (f"{figure.name} {figure.shown(system)}" for figure in figures)
