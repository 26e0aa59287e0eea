"""Vehicles: body classes and their panels, as written in knowledge/vehicles/*.toml.

Owns their keys. The sizes are typical ones, to plan by: the piece is cut by what was measured on
the vehicle, so no sum takes a size from here unasked.
"""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from assistant.quantity.kinds import UNITS
from assistant.rules.models import Amount, Basis, Model, Text, Truth, Words, broken
from assistant.rules.problem import near, quoted


class PanelSpec(Model):
    """A panel of a body class.

    length, height  over the curve, without bleed; height is the upright side where one is
    run             the side that usually lies along the roll
    difficulty      1 (flat) to 5
    seam            whether a seam in it is usual
    meets           the panels it meets on the vehicle: film of one lot for all of them
    mirrored        there is a left one and a right one
    """

    name: Text
    length: Amount
    height: Amount
    run: Literal["length", "height"]
    difficulty: Annotated[int, Field(ge=1, le=5)]
    seam: Truth = False
    meets: Words = ()
    mirrored: Truth = False

    @model_validator(mode="after")
    def _lengths(self) -> Self:
        for key in ("length", "height"):
            amount: Amount = getattr(self, key)
            if UNITS[amount.unit].kind != "length":
                raise broken(f"{key}.unit", f"is {quoted(amount.unit)}, which is no length",
                             'Write "cm" or "in".')
            if amount.value <= 0:
                raise broken(f"{key}.value", f"is {amount.value:g}", "A side is over zero.")
        return self


class Vehicle(Model):
    """A body class: [vehicle] and its [[panels]].

    id    the stem of the file
    also  what else people call it; a name that several share is asked back
    """

    id: str
    name: Text
    also: Words = ()
    note: str = ""
    basis: Basis
    panels: Annotated[tuple[PanelSpec, ...], Field(min_length=1)]
    file: str = ""

    @model_validator(mode="after")
    def _joined(self) -> Self:
        meets = {panel.name: panel.meets for panel in self.panels}
        if len(meets) < len(self.panels):
            raise broken("panels", "names a panel twice",
                         "Left and right are one: mirrored = true.")
        for name, others in meets.items():
            for other in others:
                if other not in meets:
                    raise broken("panels", f"has {name} meet {quoted(other)}, which is no panel",
                                 near(other, meets, "Write the panel, or take the name out."))
                if name not in meets[other]:
                    raise broken("panels", f"has {name} meet {other}, but not the other way round",
                                 f"Name {quoted(name)} under {other} too.")
        return self

    def names(self) -> tuple[str, ...]:
        """The class and what else it is called."""
        return (self.name, *self.also)
