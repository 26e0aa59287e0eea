"""Entries: calculations and acts, as written in knowledge/calculations/ and knowledge/intents/.

Owns their keys. The sum itself is calculations/'s, which number fills which slot conversation/'s.
"""

from __future__ import annotations

from typing import Self

from pydantic import model_validator

from assistant.quantity.kinds import KINDS, Quantity
from assistant.quantity.kinds import UNITS as ALL_UNITS
from assistant.rules.models import (
    UNSOURCED,
    Amount,
    Asked,
    Basis,
    Model,
    Number,
    Text,
    Truth,
    Words,
    broken,
)
from assistant.rules.problem import listed, quoted

# Slots that no single number fills.
OTHER_KINDS = ("choice", "panel", "film", "moment", "text", "log")


class Units(Model):
    """The unit of a bare number once the person's system is known."""

    us: str
    metric: str

    @model_validator(mode="after")
    def _known(self) -> Self:
        for key in ("us", "metric"):
            unit = getattr(self, key)
            if unit not in ALL_UNITS:
                raise broken(key, f"is {quoted(unit)}, which is no unit",
                             f"One of {' '.join(sorted(ALL_UNITS))}.")
        return self


class Default(Model):
    """What an empty slot takes: an amount, a rule's figure, or one of its options."""

    value: Number | None = None
    unit: str | None = None
    rule: str | None = None
    figure: str | None = None
    option: str | None = None

    @model_validator(mode="after")
    def _one(self) -> Self:
        given = [key for key in ("value", "unit", "rule", "figure", "option")
                 if getattr(self, key) is not None]
        if given not in (["value", "unit"], ["rule", "figure"], ["option"]):
            raise broken("", f"gives {listed(given, 'and') or 'nothing'}",
                         "Give value with unit, rule with figure, or option.")
        if self.unit is not None and self.unit not in ALL_UNITS:
            raise broken("unit", f"is {quoted(self.unit)}, which is no unit",
                         f"One of {' '.join(sorted(ALL_UNITS))}.")
        return self

    def quantity(self) -> Quantity:
        """The amount. Raises TypeError when the default is a rule's figure or an option."""
        if self.value is None or self.unit is None:
            raise TypeError("this default is no amount")
        return Amount(value=self.value, unit=self.unit).quantity()


class SlotSpec(Model):
    """An input of a calculation.

    name        as spoken
    kind        a kind of quantity, or choice | panel | film | moment | text | log
    cues        words beside a number that claim it for this slot
    pair        the slot that takes the other side when two numbers come as sides
    units       the unit of a bare number, by system
    above, at_least, below, at_most   beyond these a value is nonsense and is asked about by name
    impossible  what to say then
    many        takes several values
    replaces    slots that lose their value when this one gets one: two ways of telling one thing
    carried     "sum: figure": what it takes where a line leans on the result of that sum
    """

    name: Text
    kind: str
    prompt: Text
    example: str = ""
    required: Truth = False
    cues: Words = ()
    pair: str | None = None
    default: Default | None = None
    options: dict[str, Words] | None = None
    units: Units | None = None
    many: Truth = False
    replaces: Words = ()
    carried: Words = ()
    above: Amount | None = None
    at_least: Amount | None = None
    below: Amount | None = None
    at_most: Amount | None = None
    impossible: str = ""

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.kind not in KINDS and self.kind not in OTHER_KINDS:
            raise broken("kind", f"is {quoted(self.kind)}",
                         f"One of {listed([*KINDS, *OTHER_KINDS])}.")
        if (self.kind == "choice") != bool(self.options):
            raise broken("options", "is missing" if self.kind == "choice" else "is given",
                         'A slot of kind "choice" has options, no other has.')
        if self.default and self.default.option and self.default.option not in (
            self.options or {}
        ):
            raise broken("default", f"names the option {quoted(self.default.option)}",
                         f"One of {listed(self.options or {}) or 'the options'}.")
        if self.kind in KINDS:
            self._same_kind()
        return self

    def _same_kind(self) -> None:
        """Every unit of the slot measures what the slot is."""
        used = [(f"{key}.unit", bound.unit) for key in ("above", "at_least", "below", "at_most")
                if (bound := getattr(self, key)) is not None]
        if self.units is not None:
            used += [("units.us", self.units.us), ("units.metric", self.units.metric)]
        if self.default is not None and self.default.unit is not None:
            used.append(("default.unit", self.default.unit))
        for key, unit in used:
            kind = ALL_UNITS[unit].kind
            if kind != self.kind:
                raise broken(key, f"is {quoted(unit)}, a unit of {kind}",
                             f'The slot is of kind "{self.kind}": '
                             f"write one of {' '.join(KINDS[self.kind].units)}.")


class CalculationEntry(Asked):
    """A sum that can be asked for: [calculation] and its [slots].

    example  a whole line that works as it stands
    rules    ids of the rules it relies on
    """

    example: Text
    slots: dict[str, SlotSpec] = {}
    rules: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    see_also: tuple[str, ...] = ()
    basis: Basis
    source: str | None = None
    note: str | None = None

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.basis == "published" and self.source is None:
            raise UNSOURCED
        for name, slot in self.slots.items():
            if slot.pair is not None and slot.pair not in self.slots:
                raise broken(f"slots.{name}.pair", f"names {quoted(slot.pair)}",
                             f"One of its slots: {listed(self.slots)}.")
        return self

    def takes(self) -> frozenset[str]:
        """The kinds of quantity that its slots take."""
        return frozenset(slot.kind for slot in self.slots.values() if slot.kind in KINDS)


class ActEntry(Asked):
    """Something said about the talk itself; the reply is the conversation's."""

    says: Words = ()
