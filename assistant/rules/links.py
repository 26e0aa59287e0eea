"""Links: ids, figures and units that one entry names of another.

Owns what must hold between entries before any is told. What makes an entry a good one is
check.py's.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping

from assistant.rules.entries import CalculationEntry
from assistant.rules.glossary_entry import Term
from assistant.rules.kits import Kit
from assistant.rules.models import FigureSpec, Rule, Variant
from assistant.rules.problem import Problem, listed, near, quoted
from assistant.rules.template import names, stray

Report = Callable[[str, str, str], None]


class Ids:
    """All ids that an entry can name."""

    def __init__(
        self, rules: Mapping[str, Rule], calculations: Mapping[str, CalculationEntry],
        cautions: Iterable[str], sources: Iterable[str], left_out: Iterable[str] = (),
    ) -> None:
        self.rules = rules
        self.entries = {**rules, **calculations}
        self.cautions = frozenset(cautions)
        self.sources = frozenset(sources)
        # What leads to these is dropped without a word: that they are broken was told already.
        self.left_out = frozenset(left_out)


def rule_with_links(rule: Rule, ids: Ids, problems: list[Problem]) -> Rule:
    """The rule without the links that lead nowhere; each is told."""
    def tell(key: str, wrong: str, remedy: str) -> None:
        problems.append(Problem(rule.file, f"rules.{rule.id}", key, wrong, remedy))

    kept = {
        "see_also": _linked(rule.see_also, ids.entries, "see_also", "rule or calculation", ids,
                            tell),
        "cautions": _linked(rule.cautions, ids.cautions, "cautions", "caution", ids, tell),
        "source": _sourced(rule.source, ids, "source", tell),
    }
    _figures(rule.figures, "figures", ids, tell)
    _texts(rule, None, ids, tell)
    variants = []
    for number, variant in enumerate(rule.variants, 1):
        place = f"variants[{number}]"
        found = _linked(variant.cautions, ids.cautions, f"{place}.cautions", "caution", ids, tell)
        _figures(variant.figures, f"{place}.figures", ids, tell)
        _texts(rule, variant, ids, tell, f"{place}.")
        variants.append(
            variant if found == variant.cautions else variant.model_copy(
                update={"cautions": found}
            )
        )
    changes = {key: value for key, value in kept.items() if value != getattr(rule, key)}
    if tuple(variants) != rule.variants:
        changes["variants"] = tuple(variants)
    return rule.model_copy(update=changes) if changes else rule


def calculation_with_links(
    entry: CalculationEntry, ids: Ids, problems: list[Problem]
) -> CalculationEntry:
    """The calculation without the links that lead nowhere; each is told."""
    def tell(key: str, wrong: str, remedy: str) -> None:
        table, _, last = key.rpartition(".")
        problems.append(Problem(entry.file, table or "calculation", last, wrong, remedy))

    kept = {
        "see_also": _linked(entry.see_also, ids.entries, "see_also", "rule or calculation", ids,
                            tell),
        "cautions": _linked(entry.cautions, ids.cautions, "cautions", "caution", ids, tell),
        "rules": _linked(entry.rules, ids.rules, "rules", "rule", ids, tell),
        "source": _sourced(entry.source, ids, "source", tell),
    }
    slots = dict(entry.slots)
    for name, slot in entry.slots.items():
        default = slot.default
        if default is None or default.rule is None or default.figure is None:
            continue
        wrong = _no_figure(default.rule, default.figure, ids)
        if default.rule not in ids.rules and default.rule in ids.left_out:
            slots[name] = slot.model_copy(update={"default": None})
            continue
        if wrong is None:
            figure = ids.rules[default.rule].figures[default.figure]
            kind = figure.quantities()[0].kind
            if kind == slot.kind:
                continue
            wrong = (f"names a figure of kind {kind}",
                     f"The slot is of kind {slot.kind}: name a figure that is.")
        tell(f"slots.{name}.default", *wrong)
        slots[name] = slot.model_copy(update={"default": None})
    changes = {key: value for key, value in kept.items() if value != getattr(entry, key)}
    if slots != entry.slots:
        changes["slots"] = slots
    return entry.model_copy(update=changes) if changes else entry


def word_with_links(term: Term, ids: Ids, problems: list[Problem]) -> Term:
    """The word without the links that lead nowhere; each is told."""
    def tell(key: str, wrong: str, remedy: str) -> None:
        problems.append(Problem(term.file, f"words.{term.id}", key, wrong, remedy))

    rule = () if term.rule is None else (term.rule,)
    kept = next(iter(_linked(rule, ids.rules, "rule", "rule", ids, tell)), None)
    cautions = _linked(term.cautions, ids.cautions, "cautions", "caution", ids, tell)
    source = _sourced(term.source, ids, "source", tell)
    for key in ("means", "not_to_confuse"):
        text = getattr(term, key)
        wrong = stray(text)
        if wrong is not None:
            tell(key, f"has {quoted(wrong)}, which is no name of a figure",
                 "Braces hold a rule and its figure: {rule-id.figure}.")
            continue
        for name in names(text):
            other, dot, figure = name.partition(".")
            if not dot:
                tell(key, f"names {{{name}}} without a rule", "Write {rule-id.figure}.")
                continue
            missing = _no_figure(other, figure, ids)
            if missing is not None and other not in ids.left_out:
                tell(key, *missing)
    changes = {"rule": kept, "cautions": cautions, "source": source}
    if all(value == getattr(term, key) for key, value in changes.items()):
        return term
    return term.model_copy(update=changes)


def _linked(
    named: tuple[str, ...], known: Collection[str], key: str, what: str, ids: Ids, tell: Report
) -> tuple[str, ...]:
    for name in named:
        if name not in known and name not in ids.left_out:
            tell(key, f"names {quoted(name)}, which is no {what}",
                 near(name, known, "Take it out, or write it."))
    return tuple(name for name in named if name in known)


def _sourced(source: str | None, ids: Ids, key: str, tell: Report) -> str | None:
    if source is not None and source not in ids.sources:
        if source not in ids.left_out:
            tell(key, f"is {quoted(source)}, which is no source of sources.toml",
                 near(source, ids.sources, f"One of {listed(sorted(ids.sources))}."))
        return None
    return source


def _figures(figures: Mapping[str, FigureSpec], place: str, ids: Ids, tell: Report) -> None:
    for name, figure in figures.items():
        _sourced(figure.source, ids, f"{place}.{name}.source", tell)


def _texts(rule: Rule, variant: Variant | None, ids: Ids, tell: Report, place: str = "") -> None:
    """Each name in braces is a figure, of the rule, of its variant, or of another rule."""
    # A figure that only a variant has cannot stand in the rule's own words.
    own = set(rule.figures) | (set(variant.figures) if variant is not None else set())
    teller: Rule | Variant = variant if variant is not None else rule
    for key in ("says", "why", "check", "steps"):
        text = getattr(teller, key)
        if not text:
            continue
        for each in (text if isinstance(text, tuple) else (text,)):
            wrong = stray(each)
            if wrong is not None:
                tell(place + key, f"has {quoted(wrong)}, which is no name of a figure",
                     "Braces hold the name of a figure, and nothing else stands in them.")
                continue
            for name in names(each):
                if "." in name:
                    other, _, figure = name.partition(".")
                    missing = _no_figure(other, figure, ids)
                    if missing is not None and other not in ids.left_out:
                        tell(place + key, *missing)
                elif name not in own:
                    known = listed("{" + one + "}" for one in sorted(own))
                    tell(place + key, f"names {{{name}}}, which is no figure of the rule",
                         f"Its figures: {known}." if known else "Write the figure first: "
                         f"[rules.{rule.id}.figures.{name}].")


def _no_figure(rule: str, figure: str, ids: Ids) -> tuple[str, str] | None:
    """What is wrong with a rule's figure that is named elsewhere; None when it is there."""
    if rule not in ids.rules:
        return (f"names the rule {quoted(rule)}, which there is not",
                near(rule, ids.rules, "Write the rule, or name another."))
    if figure not in ids.rules[rule].figures:
        known = listed(ids.rules[rule].figures)
        return (f"names the figure {quoted(figure)}, which {rule} does not have",
                f"Its figures: {known}." if known else "That rule has no figures.")
    return None


def kit_with_links(kit: Kit, ids: Ids, problems: list[Problem]) -> Kit:
    """The kit without the links that lead nowhere; each is told."""
    def tell(key: str, wrong: str, remedy: str) -> None:
        problems.append(Problem(kit.file, "kit", key, wrong, remedy))

    changes = {
        "rules": _linked(kit.rules, ids.rules, "rules", "rule", ids, tell),
        "cautions": _linked(kit.cautions, ids.cautions, "cautions", "caution", ids, tell),
        "source": _sourced(kit.source, ids, "source", tell),
    }
    if all(value == getattr(kit, key) for key, value in changes.items()):
        return kit
    return kit.model_copy(update=changes)
