"""Telling: a rule of the trade as a reply.

Owns which parts of a rule answer which wish, and the verdict on a value that was named. Finding
the rule is routing's, its layers are rules/'s.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from assistant.conversation.judging import Judgement, figure_for, judge, plausible_unit
from assistant.conversation.wording import (
    basis_words,
    caution_texts,
    figure_of,
    see_also_titles,
)
from assistant.hearing.heard import Heard
from assistant.quantity.kinds import Quantity, of
from assistant.quantity.read import Found, UnclearQuantity, read
from assistant.quantity.write import System, show
from assistant.reply import ANSWER, Reply

# Which kinds of figure a wish is after; the wanted figure comes first.
_WANTED = {
    "how-hot": ("temperature", "temperature_difference"),
    "how-long": ("duration", "length"),
    "when": ("duration",),
    "how-often": ("duration", "count"),
    "how-much": ("length", "ratio", "concentration", "volume", "area"),
    "how-wide": ("length",),
    "how-far": ("length",),
    "how-close": ("temperature_difference", "length"),
    "how-many": ("count",),
}

# Days from now that words of time stand for, where a rule counts a wait.
_DAYS = (
    ("day after tomorrow", 2.0), ("tomorrow", 1.0), ("tonight", 0.0), ("today", 0.0),
    ("this evening", 0.0), ("right away", 0.0), ("straight away", 0.0), ("right now", 0.0),
    ("next week", 7.0), ("next month", 30.0), ("the weekend", 2.0), ("a week", 7.0),
)


# Words that name no figure, though they stand in the names of some.
_IN_ANY_NAME = frozenset("the and for what how much many too over from into least most".split())


@dataclass(frozen=True)
class Film:
    """The film that is spoken of: a sheet's id, a family, and the conditions that hold."""

    sheet: str | None = None
    family: str | None = None
    conditions: tuple[str, ...] = ()


def tell(
    knowledge: Any, rule_id: str, heard: Heard, system: System, settled: bool, film: Film,
    confidence: float = 1.0,
) -> Reply:
    """The reply of a rule to what was heard.

    settled  whether the person's system is known; a bare number is judged accordingly
    """
    rule = knowledge.resolve(
        rule_id, film_sheet=film.sheet, family=film.family, conditions=film.conditions
    )
    wishes = heard.wishes
    figures = _in_order(list(rule.figures.values()), heard)
    says, why = rule.says(system), rule.why(system)
    assumed: list[str] = []
    judgement = None
    if "why" not in wishes:
        judgement = _judged(figures, heard, system, settled, assumed)
    if judgement is not None:
        answer = f"{judgement.words(heard.tidy)} {says}"
        figures = [judgement.figure, *(each for each in figures if each is not judgement.figure)]
    elif "why" in wishes and why:
        answer, why = f"{says} {why}", ""
    else:
        answer = says
    if rule.variant is not None and rule.variant_words:
        assumed.append(rule.variant_words)
    return Reply(
        ANSWER,
        answer,
        intent=rule_id,
        heading=rule.title,
        why=why,
        check=rule.check(system),
        heard=heard.said(),
        assumed=tuple(assumed),
        rules=(rule_id,),
        figures=tuple(
            figure_of(figure.name, *figure.quantities(), figure.unit, system)
            for figure in figures
        ),
        steps=tuple(rule.steps(system)),
        sketch=rule.sketch,
        cautions=caution_texts(knowledge, rule.cautions),
        basis=rule.basis,
        basis_words=basis_words(knowledge, rule.basis, rule.source, rule.note),
        layer=rule.layer,
        overrode=rule.overrode_in(system),
        source=knowledge.source_title(rule.source),
        see_also=see_also_titles(knowledge, rule.see_also),
        confidence=confidence,
    )


def tell_why(knowledge: Any, rule_id: str, system: System, film: Film) -> Reply:
    """The reason behind a rule, with the rule it belongs to."""
    rule = knowledge.resolve(
        rule_id, film_sheet=film.sheet, family=film.family, conditions=film.conditions
    )
    return Reply(
        ANSWER,
        rule.why(system) or "No reason is written with that rule.",
        intent=rule_id,
        heading=f"Why: {rule.title}",
        check=rule.check(system),
        heard="why",
        rules=(rule_id,),
        cautions=caution_texts(knowledge, rule.cautions),
        basis=rule.basis,
        basis_words=basis_words(knowledge, rule.basis, rule.source, rule.note),
        layer=rule.layer,
        source=knowledge.source_title(rule.source),
        see_also=see_also_titles(knowledge, rule.see_also),
    )


def _in_order(figures: list[Any], heard: Heard) -> list[Any]:
    """The wanted figure first: by the kind that the wish is after, then by shared words."""
    wanted = [_WANTED[wish] for wish in heard.wishes if wish in _WANTED]
    words = _stems(heard.tidy)

    def rank(figure: Any) -> tuple[bool, int, int]:
        kind = figure.quantities()[0].kind
        place = next((n for n, kinds in enumerate(wanted) if kind in kinds), len(wanted))
        return not _names(figure, heard.quantities), place, -len(words & _stems(figure.name))

    return sorted(figures, key=rank)


def _stems(text: str) -> set[str]:
    return {word.rstrip("s") for word in re.findall(r"\w{3,}", text.lower())} - _IN_ANY_NAME


def _names(figure: Any, quantities: Iterable[Found]) -> bool:
    """Whether a quantity of the line is part of the figure's name: "the 15 minute limit"."""
    named = {(found.low, found.unit) for found in read(figure.name)}
    return any((found.low, found.unit) in named for found in quantities)


def _judged(
    figures: list[Any], heard: Heard, system: System, settled: bool, assumed: list[str]
) -> Judgement | None:
    """The verdict on the first value in the line that one of the figures can judge."""
    for found in heard.quantities:
        if found.problem or any(_names(figure, (found,)) for figure in figures):
            continue
        value, unit = _value_for(figures, found, system, settled, assumed)
        if value is None:
            continue
        figure = figure_for(figures, value, heard.tidy)
        if figure is not None:
            return judge(figure, value, system, unit)
    if heard.yes_no:
        for figure in figures:
            if figure.quantities()[0].kind != "duration" or figure.quantities()[0].to("h") < 20:
                continue
            for words, days in _DAYS:
                if words in heard.tidy:
                    assumed.append(f"counted from today, {words} is {show(of(days, 'day'))} on")
                    return judge(figure, of(days, "day"), system, "day")
    return None


def _value_for(
    figures: list[Any], found: Any, system: System, settled: bool, assumed: list[str]
) -> tuple[Quantity | None, str | None]:
    if not found.bare:
        try:
            return found.quantity(), found.unit
        except (UnclearQuantity, ValueError):
            return None, None
    if found.group and _is_side(found):
        return None, None
    for figure in figures:
        if getattr(found, "degrees", False) and "temperature" not in figure.quantities()[0].kind:
            continue
        unit = plausible_unit(figure, found.low, system, settled)
        try:
            value = found.quantity(unit)
        except (UnclearQuantity, ValueError):
            continue
        assumed.append(f"{found.text.strip()} taken as {show(value, system, unit=unit)}")
        return value, unit
    return None, None


def _is_side(found: Any) -> bool:
    return getattr(found, "sides", 1) > 1
