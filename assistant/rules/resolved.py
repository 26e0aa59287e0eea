"""Resolved: a rule as it holds for one film, with its figures filled into its words.

Owns the answer that layers.py's order gives, and which layer it came from. How the answer is told
belongs to the conversation.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from assistant.quantity.kinds import Quantity
from assistant.quantity.write import System, show, show_range
from assistant.rules.layers import HOUSE, SHEET, changed, loosened, variant_for
from assistant.rules.template import fill

if TYPE_CHECKING:
    from assistant.rules.films import FilmSheet, HouseOverride
    from assistant.rules.models import FigureSpec, Rule, Variant

SHEET_SOURCE = "sheet:"


@dataclass(frozen=True, slots=True)
class ResolvedFigure:
    """A figure after layers and variants; everything unrounded.

    key    its name in braces: `target`
    name   what it is, in words
    role   value | range | at_least | at_most | over
    unit   the unit code in which it was written
    basis, source, note   the figure's own where it has them, else the rule's
    """

    key: str
    name: str
    role: str
    unit: str
    low: Quantity
    high: Quantity
    tolerance: Quantity | None
    too_much: Quantity | None
    basis: str
    source: str | None
    note: str | None
    layer: str

    def quantities(self) -> tuple[Quantity, Quantity]:
        """(low, high); the same twice unless it is a range."""
        return self.low, self.high

    def shown(self, system: System = System.US) -> str:
        """The number in words, both systems."""
        if self.low == self.high:
            return show(self.low, system, unit=self.unit)
        return show_range(self.low, self.high, system, unit=self.unit)


@dataclass(frozen=True, slots=True)
class Overridden:
    """A number that a higher layer replaced: `shipped 225 °F (107 °C)`."""

    layer: str
    name: str
    figure: ResolvedFigure
    alone: bool

    def words(self, system: System = System.US) -> str:
        told = f"{self.layer} {self.figure.shown(system)}"
        return told if self.alone else f"{told} ({self.name})"


@dataclass(frozen=True, slots=True)
class ResolvedRule:
    """A rule as it holds now.

    layer     shipped | house | film sheet: the highest that had a say
    replaced  what the higher layers replaced, highest last
    variant   the variant that holds, if one does
    decided   who decided it, since when, on what grounds (house rules)
    """

    rule: Rule
    figures: dict[str, ResolvedFigure]
    layer: str
    replaced: tuple[Overridden, ...]
    variant: Variant | None
    variant_words: str
    cautions: tuple[str, ...]
    basis: str
    source: str | None
    note: str | None
    decided: str
    _texts: dict[str, str | tuple[str, ...]] = field(repr=False)
    _elsewhere: Callable[[str, System], str | None] = field(repr=False)

    @property
    def id(self) -> str:
        return self.rule.id

    @property
    def title(self) -> str:
        return self.rule.title

    @property
    def see_also(self) -> tuple[str, ...]:
        return self.rule.see_also

    @property
    def sketch(self) -> tuple[str, ...]:
        return self.rule.sketch

    @property
    def safety(self) -> bool:
        return self.rule.safety

    @property
    def overrode(self) -> tuple[str, ...]:
        """What the layer that speaks replaced, in words, US units first."""
        return self.overrode_in(System.US)

    def overrode_in(self, system: System) -> tuple[str, ...]:
        """The same with the person's own units first."""
        return tuple(each.words(system) for each in self.replaced)

    def says(self, system: System = System.US) -> str:
        return self._text("says", system)

    def why(self, system: System = System.US) -> str:
        return self._text("why", system)

    def check(self, system: System = System.US) -> str:
        return self._text("check", system)

    def steps(self, system: System = System.US) -> tuple[str, ...]:
        texts = self._texts["steps"]
        return tuple(self._filled(text, system) for text in texts)

    def _text(self, key: str, system: System) -> str:
        text = self._texts[key]
        return self._filled(text, system) if isinstance(text, str) else ""

    def _filled(self, text: str, system: System) -> str:
        def one(name: str) -> str | None:
            if name in self.figures:
                return self.figures[name].shown(system)
            return self._elsewhere(name, system) if "." in name else None

        return fill(text, one)


def resolved(
    rule: Rule,
    house: HouseOverride | None,
    sheet: FilmSheet | None,
    families: frozenset[str],
    conditions: Iterable[str],
    elsewhere: Callable[[str, System], str | None],
) -> ResolvedRule:
    """A rule after its variant, its house override and a film sheet, in that order.

    families   the family of the film and the broader ones; empty when no film is spoken of
    elsewhere  words a figure of another rule, `bleed.each_edge`
    A part that the variant gives itself is the variant's: a house rule speaks of the general case.
    """
    held = frozenset(conditions)
    variant = variant_for(rule, families, held)
    figures: dict[str, tuple[FigureSpec, str]] = {
        name: (figure, rule.layer) for name, figure in rule.figures.items()
    }
    texts: dict[str, str | tuple[str, ...]] = {
        key: getattr(rule, key) for key in ("says", "why", "steps", "check")
    }
    cautions = rule.cautions
    basis, source, note = rule.basis, rule.source, rule.note
    own: set[str] = set()
    layer = rule.layer
    if variant is not None:
        for name, figure in variant.figures.items():
            figures[name] = (figure, rule.layer)
        own |= set(variant.figures)
        for key in texts:
            if getattr(variant, key) is not None:
                texts[key] = getattr(variant, key)
                own.add(key)
        cautions = (*cautions, *variant.cautions)
        if variant.basis is not None:
            basis, source = variant.basis, variant.source
        note = variant.note or note

    replaced: list[Overridden] = []

    def replace(changes: Mapping[str, object], speaker: str) -> bool:
        said = False
        for name, change in changes.items():
            if name not in figures or speaker == HOUSE and name in own:
                continue
            figure, below = figures[name]
            if rule.safety and loosened(figure, change):
                continue
            replaced.append(Overridden(
                below, figure.name, _figure(name, figure, rule, below), len(figures) == 1
            ))
            figures[name] = (changed(figure, change), speaker)
            said = True
        return said

    decided = ""
    if house is not None:
        said = replace(house.figures, HOUSE)
        for key in texts:
            text = getattr(house, key)
            if text is not None and key not in own:
                texts[key] = text
                said = True
        if house.cautions is not None:
            cautions = (*house.cautions, *(variant.cautions if variant is not None else ()))
        if said:
            layer, basis, source = HOUSE, "practice", None
            decided = _decision(house)
            note = decided or None
    if sheet is not None and replace(sheet.overrides.get(rule.id, {}), SHEET):
        layer, basis, source = SHEET, "published", SHEET_SOURCE + sheet.id
        note = None
    return ResolvedRule(
        rule=rule,
        figures={
            name: _figure(name, figure, rule, speaker, basis, source, note)
            for name, (figure, speaker) in figures.items()
        },
        layer=layer,
        replaced=tuple(replaced),
        variant=variant,
        variant_words=_variant_words(variant, families, held),
        cautions=tuple(dict.fromkeys(cautions)),
        basis=basis,
        source=source,
        note=note,
        decided=decided,
        _texts=texts,
        _elsewhere=elsewhere,
    )


def _figure(
    key: str, figure: FigureSpec, rule: Rule, layer: str, basis: str | None = None,
    source: str | None = None, note: str | None = None,
) -> ResolvedFigure:
    low, high = figure.quantities()
    if layer == rule.layer:
        basis = figure.basis or rule.basis
        source = figure.source if figure.basis else rule.source
        note = figure.note or rule.note
    return ResolvedFigure(
        key, figure.name, figure.role, figure.unit, low, high, figure.tolerance_quantity(),
        figure.too_much_quantity(), basis or rule.basis, source, note, layer,
    )


def _decision(house: HouseOverride) -> str:
    by = " ".join(part for part in (house.who and f"by {house.who}", house.when) if part)
    return "; ".join(part for part in (by, house.because.rstrip(".")) if part)


def _variant_words(
    variant: Variant | None, families: frozenset[str], conditions: frozenset[str]
) -> str:
    if variant is None:
        return ""
    film = next((name for name in variant.when.film if name in families), None)
    condition = next((name for name in variant.when.condition if name in conditions), None)
    return ", ".join(
        part for part in (film and f"{film} film", condition and condition.replace("-", " "))
        if part
    )
