"""Layers: which number and which words hold, of the shipped rule, the house rule, the film sheet.

Owns the order (film sheet over house over shipped), the variants by film and condition, and what
may not be loosened. Reading the files is load.py's; filling the figures into the words is
resolved.py's.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from assistant.quantity.kinds import kind_of, of
from assistant.quantity.write import show, show_range
from assistant.rules.problem import listed, quoted
from assistant.rules.template import names, stray

if TYPE_CHECKING:
    from assistant.rules.films import FigureChange, HouseOverride
    from assistant.rules.models import FigureSpec, Limits, Rule, Variant

SHIPPED, HOUSE, SHEET = "shipped", "house", "film sheet"

# Held as binary fractions, 107.2 °C and 225 °F may miss each other by a hair.
_SLACK = 1e-9
_KIND_WORDS = {"temperature_difference": "difference"}


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a change: the key inside the override, and its remedy."""

    key: str
    wrong: str
    remedy: str


def variant_for(
    rule: Rule, families: frozenset[str], conditions: frozenset[str]
) -> Variant | None:
    """The variant that holds; of several the one that asks for most, of equals the first."""
    def fit(variant: Variant) -> int:
        film, condition = variant.when.film, variant.when.condition
        if film and not families.intersection(film):
            return 0
        if condition and not conditions.intersection(condition):
            return 0
        return bool(film) + bool(condition)

    best = max(rule.variants, key=fit, default=None)
    return best if best is not None and fit(best) else None


def worded(limits: Limits, fine: bool = False) -> str:
    """The number of a figure as a message tells it; fine: to tenths of a degree."""
    low, high = limits.quantities()
    if low == high:
        return show(low, unit=limits.unit, fine=fine)
    return show_range(low, high, unit=limits.unit)


def loosened(figure: Limits, change: Limits) -> str | None:
    """Why a change would loosen a figure of a safety rule; None when it does not.

    A limit at_most or over may only go down, at_least only up, a range only shrink, a value move
    within its tolerance. Compared unrounded.
    """
    low, high = (each.si for each in figure.quantities())
    new_low, new_high = (each.si for each in change.quantities())
    slack = _SLACK * max(1.0, abs(low), abs(high))
    if figure.role in ("at_most", "over"):
        return "this limit may only go down" if new_high > high + slack else None
    if figure.role == "at_least":
        return "this limit may only go up" if new_low < low - slack else None
    if figure.role == "range":
        if new_low < low - slack or new_high > high + slack:
            return "this range may only shrink"
        return None
    tolerance = figure.tolerance_quantity()
    room = slack + (tolerance.si if tolerance is not None else 0.0)
    if new_low < low - room or new_high > high + room:
        return "this value may only move within its tolerance"
    return None


def figure_fault(rule: Rule, name: str, change: FigureChange) -> Fault | None:
    """What forbids a change to one figure of a rule; None when nothing does."""
    figure = rule.figures.get(name)
    if figure is None:
        known = listed(rule.figures) or "it has none"
        return Fault("", f"changes a figure that {rule.id} does not have",
                     f"Its figures: {known}.")
    wanted, given = kind_of(figure.unit), kind_of(change.unit)
    if wanted != given:
        article = "a " if given[0] not in "aeiou" else "an "
        same = {"degF": "dF", "degC": "dC", "dF": "degF", "dC": "degC"}.get(change.unit)
        return Fault(
            "unit", f"is {quoted(change.unit)}, which is {article}{_spoken(given)}",
            f"The figure is a {_spoken(wanted)}: write "
            f'"{same if same and kind_of(same) == wanted else figure.unit}".',
        )
    both = {figure.role, change.role}
    if figure.role != change.role and both != {"value", "range"}:
        keys = {"range": "low and high"}
        return Fault(
            "", f"gives {keys.get(change.role, change.role)}, "
            f"where the rule has {keys.get(figure.role, figure.role)}",
            f"Write {keys.get(figure.role, figure.role)}; the words of the rule are made for it.",
        )
    if rule.safety:
        reason = loosened(figure, change)
        if reason is not None:
            # 3 °C and 5 °F are told alike, and are not: 5 °F is 2.8 °C.
            fine = worded(figure) == worded(change)
            return Fault(
                "", f"would loosen a safety rule from {worded(figure, fine)} to "
                f"{worded(change, fine)}",
                f"The shipped figure stays; {reason}.",
            )
    return None


def _spoken(kind: str) -> str:
    return _KIND_WORDS.get(kind, kind.replace("_", " "))


def words_faults(rule: Rule, override: HouseOverride, cautions: Iterable[str]) -> list[Fault]:
    """What forbids the words and cautions of a house override."""
    faults: list[Fault] = []
    known = set(cautions)
    for key in ("says", "why", "steps", "check"):
        text = getattr(override, key)
        if text is None:
            continue
        if rule.safety and key != "why":
            faults.append(Fault(
                key, "would put other words into a safety rule",
                "The shipped words stay; write what the shop adds as a rule of its own.",
            ))
            continue
        whole = " ".join(text) if isinstance(text, tuple) else text
        unknown = [name for name in names(whole) if "." not in name and name not in rule.figures]
        if unknown or stray(whole):
            faults.append(Fault(
                key, f"names {'{' + unknown[0] + '}' if unknown else stray(whole)}, "
                "which is no figure of the rule",
                f"Its figures: {listed('{' + name + '}' for name in rule.figures) or 'none'}.",
            ))
    if override.cautions is not None:
        strange = [name for name in override.cautions if name not in known]
        gone = [name for name in rule.cautions if name not in override.cautions]
        if strange:
            faults.append(Fault("cautions", f"names {quoted(strange[0])}, which is no caution",
                                "Name ids of cautions.toml."))
        elif rule.safety and gone:
            faults.append(Fault(
                "cautions", f"leaves out {quoted(gone[0])} of a safety rule",
                "A safety rule's cautions can only become more; name the shipped ones too.",
            ))
    return faults


def changed(figure: FigureSpec, change: FigureChange) -> FigureSpec:
    """The figure with the number of a change; what the change leaves out stays.

    Tolerance and too_much are numbers in the figure's own unit, so they stay only while the unit
    does; a too_much that no longer lies above the figure is dropped.
    """
    tolerance, too_much = change.tolerance, change.too_much
    if change.unit == figure.unit:
        tolerance = figure.tolerance if tolerance is None else tolerance
        too_much = figure.too_much if too_much is None else too_much
    else:
        if tolerance is None and (kept := figure.tolerance_quantity()) is not None:
            tolerance = kept.to(_difference_of(change.unit))
        if too_much is None and (harm := figure.too_much_quantity()) is not None:
            too_much = harm.to(change.unit)
    if too_much is not None and of(too_much, change.unit) < change.quantities()[1]:
        too_much = None
    # A model of a file or a record of the kept index: the new figure is what the old one was.
    return type(figure)(
        name=figure.name, unit=change.unit, value=change.value, low=change.low, high=change.high,
        at_least=change.at_least, at_most=change.at_most, over=change.over, tolerance=tolerance,
        too_much=too_much, basis=figure.basis, source=figure.source,
        note=change.note or figure.note,
    )


def _difference_of(unit: str) -> str:
    return {"degF": "dF", "degC": "dC"}.get(unit, unit)
