"""In force: the figures that a sum takes from the rules, with the film in hand, and whose they are.

Owns the step from the film of the talk to the film of a sum, and the record of what was taken from
which layer. Which layer speaks is rules/'s; what the sum does with it, calculations/'s.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from assistant.conversation.telling import Film
from assistant.quantity.kinds import Quantity
from assistant.quantity.write import System

if TYPE_CHECKING:
    from assistant.calculations.base import FilmInHand

_SHIPPED = "shipped"
# The layers, the highest last.
_ORDER = (_SHIPPED, "house", "film sheet")


@dataclass
class InForce:
    """The rules as they hold for one film, for one sum; it notes every figure that is taken.

    knowledge  answers resolve(rule_id, film_sheet, family, conditions)
    """

    knowledge: Any
    film: Film = field(default_factory=Film)
    taken: list[tuple[Any, Any]] = field(default_factory=list)

    def figure(self, rule_id: str, name: str) -> tuple[Quantity, Quantity]:
        """(low, high) of a rule's figure. Raises KeyError for what no rule has."""
        return self.resolved(rule_id, name).quantities()

    def resolved(self, rule_id: str, name: str) -> Any:
        """The figure itself, with its unit and its layer."""
        rule = self.knowledge.resolve(
            rule_id, film_sheet=self.film.sheet, family=self.film.family,
            conditions=self.film.conditions,
        )
        figure = rule.figures[name]
        self.taken.append((rule, figure))
        return figure

    def layer(self) -> str:
        """The highest layer that gave a figure."""
        layers = [figure.layer for _, figure in self.taken]
        return max(layers, key=_ORDER.index, default=_SHIPPED)

    def overrode(self, system: System) -> tuple[str, ...]:
        """What the figures taken replaced: `shipped 10% (stretch that needs no post-heat)`."""
        return tuple(dict.fromkeys(
            f"{each.layer} {each.figure.shown(system)} ({each.name})"
            for rule, figure in self.taken
            for each in rule.replaced
            if each.figure.key == figure.key
        ))

    def source(self) -> str | None:
        """The source of the highest layer, where it has one of its own."""
        top = self.layer()
        if top == _SHIPPED:
            return None
        return next((f.source for _, f in self.taken if f.layer == top and f.source), None)

    def told(self, system: System) -> tuple[str, ...]:
        """The figures that are not simply the shipped rule's, with whose they are."""
        found = []
        for rule, figure in self.taken:
            whose = figure.layer
            if whose == "film sheet" and self.film.sheet is not None:
                whose = f"sheet of {self.knowledge.films[self.film.sheet].film.name}"
            elif whose == _SHIPPED:
                variant = rule.variant
                if variant is None or figure.key not in variant.figures:
                    continue
                whose = rule.variant_words
            found.append(f"{figure.name}: {figure.shown(system)} ({whose})")
        return tuple(dict.fromkeys(found))


def in_hand(knowledge: Any, film: Film) -> FilmInHand | None:
    """The film of the talk as a sum takes it; None where none was named."""
    if film.sheet is None and film.family is None:
        return None
    from assistant.calculations.base import FilmInHand, Life

    head = None if film.sheet is None else knowledge.films[film.sheet].film
    name = film.family or (head.family if head is not None else None)
    family = knowledge.families.get(name) if name is not None else None
    return FilmInHand(
        name=head.name if head is not None else family.name if family is not None else "",
        family=name or "",
        directional=bool(family is not None and family.directional),
        conforms=family.conforms if family is not None else None,
        thickness=head.thickness.quantity() if head is not None and head.thickness else None,
        life=tuple(
            Life(line.zone, line.surface, *line.quantities())
            for line in (head.life if head is not None else ())
        ),
    )
