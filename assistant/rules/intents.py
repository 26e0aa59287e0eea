"""Intents: rules, sums and acts as routing sees them.

Owns which wishes an entry can answer and when two entries give the same figure. Finding the right
one is routing/'s.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from assistant.routing.intent import Intent
from assistant.rules.template import bare

if TYPE_CHECKING:
    from assistant.rules.entries import ActEntry, CalculationEntry
    from assistant.rules.models import Asked, FigureSpec, Rule

# What a figure answers, by its unit or its kind.
_WISHES_OF_UNIT = {
    **dict.fromkeys(("degF", "degC"), ("how-hot",)),
    **dict.fromkeys(("dF", "dC"), ("how-hot", "how-close")),
    **dict.fromkeys(("s", "min", "h", "day", "week", "year"), ("how-long", "when")),
    **dict.fromkeys(("mm", "cm", "m", "in", "ft", "yd", "um", "mil"),
                    ("how-much", "how-wide", "how-far")),
    **dict.fromkeys(("percent", "ratio", "ppm", "mg/m3"), ("how-much",)),
    **dict.fromkeys(("m2", "ft2", "m3", "ft3", "mL", "L", "floz", "g", "kg", "g/m2", "psi", "bar",
                     "per_h", "m3/h", "money"), ("how-much",)),
    "count": ("how-many",),
}
# Whatever a rule says, it can be asked for these ways.
_ALWAYS = ("what-is", "may-i", "which", "where")


def wishes_of(rule: Rule) -> frozenset[str]:
    """The wishes that a rule can answer, from its figures, its steps and its reason."""
    wishes = set(_ALWAYS)
    for figure in _all_figures(rule):
        wishes.update(_WISHES_OF_UNIT[figure.unit])
        name = figure.name.lower()
        if any(word in name for word in ("every", "interval", "often", "between ")):
            wishes.add("how-often")
    if rule.steps:
        wishes.update(("how-to", "what-first"))
    if rule.why:
        wishes.add("why")
    if rule.check:
        wishes.add("signs")
    return frozenset(wishes)


def answer_key(rule: Rule) -> str:
    """The figures of a rule as one text: rules that share it give the same answer in numbers.

    A rule without figures has its id for key.
    """
    if not rule.figures:
        return rule.id
    parts = []
    for figure in rule.figures.values():
        low, high = figure.quantities()
        parts.append(f"{figure.role} {low.kind} {low.si:.9g} {high.si:.9g}")
    return "; ".join(sorted(parts))


def given(figure: FigureSpec) -> str:
    """A figure as routing compares it with the values in a line: see Intent.gives."""
    low, high = figure.quantities()
    return f"{low.kind} {figure.role} {low.si:.9g} {high.si:.9g}"


def intent_of_rule(rule: Rule) -> Intent:
    return _intent(
        rule, "rule", wishes_of(rule), answer_key(rule), safety=rule.safety, text=words_of(rule),
        # A variant's figure is for one film or condition: the rule's own is what is asked about.
        gives=frozenset(
            given(figure) for figure in rule.figures.values() or _all_figures(rule)
        ),
    )


def intent_of_calculation(entry: CalculationEntry) -> Intent:
    wishes: set[str] = {"how-to", "what-is"}
    for slot in entry.slots.values():
        if slot.units is not None:
            wishes.update(_WISHES_OF_UNIT.get(slot.units.us, ()))
    return _intent(
        entry, "calculation", frozenset(wishes), entry.id, takes=entry.takes(),
    )


def intent_of_act(act: ActEntry) -> Intent:
    return _intent(act, "act", frozenset(), act.id)


def words_of(rule: Rule) -> str:
    """What a rule says, why and how, as one text without its figures."""
    return bare(" ".join(part for part in (rule.says, rule.why, *rule.steps, rule.check) if part))


def _all_figures(rule: Rule) -> Iterable[FigureSpec]:
    yield from rule.figures.values()
    for variant in rule.variants:
        yield from variant.figures.values()


def _intent(
    asked: Asked, kind: str, wishes: frozenset[str], key: str, safety: bool = False,
    takes: frozenset[str] = frozenset(), text: str = "", gives: frozenset[str] = frozenset(),
) -> Intent:
    about = asked.about
    return Intent(
        id=asked.id, title=asked.title, phrases=asked.phrases,
        things=frozenset(about.thing), doings=frozenset(about.doing),
        films=frozenset(about.film), conditions=frozenset(about.condition),
        wishes=wishes, answer_key=key, kind=kind, safety=safety, takes=takes, text=text,
        gives=gives,
    )
