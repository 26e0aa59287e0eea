"""Films and house rules: what a shop writes itself, and the families that films belong to.

Owns the keys of knowledge/films/, of the shop's film sheets and of its house rules. Which of the
layers speaks, and what may loosen what, is layers.py's.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from assistant.rules.models import Amount, Limits, Model, Text, Truth, Words


class FilmFamily(Model):
    """Films that behave alike.

    note         what sets the family apart
    directional  all pieces one way, never turned
    conforms     how readily it follows a curve, 1 (hardly) to 5
    """

    id: str
    name: Text
    note: str = ""
    directional: Truth = False
    conforms: Annotated[int, Field(ge=1, le=5)] | None = None
    file: str = ""


class FigureChange(Limits):
    """The number that takes the place of a rule's figure; the rest of the figure stays."""

    note: str | None = None


class Life(Limits):
    """A line of a film's life table: how long it lasts on a surface in a climate zone, as one
    value, low with high, at_least or at_most.

    zone     as the bulletin names it
    surface  upright (sides) | flat (hood, roof)
    """

    zone: Text
    surface: Literal["upright", "flat"]


class FilmHead(Model):
    """A film: its name, family, thickness and life table, as its maker's bulletin gives them.

    family  None where nobody has said: the rules of no finish hold more than those of another
    words   what people call it, beside its name
    """

    name: Text
    family: Text | None = None
    thickness: Amount | None = None
    life: tuple[Life, ...] = ()
    note: str = ""
    words: Words = ()


class FilmSheet(Model):
    """What a film maker's bulletin says, typed in by the shop: [film] and [overrides.<rule id>]
    with one number a figure. What the bulletin leaves out stays out: the layers below speak.
    """

    id: str
    film: FilmHead
    overrides: dict[str, dict[str, FigureChange]] = {}
    file: str = ""


class HouseOverride(Model):
    """What the shop has decided about a shipped rule: [overrides.<rule id>] of a house file.

    figures   name of the rule's figure -> its number here
    says, why, steps, check   take the place of the rule's; a safety rule keeps its own words
    cautions  take the place of the rule's; a safety rule's can only become more
    who, when, because   whose decision, since when, on what grounds
    """

    id: str
    figures: dict[str, FigureChange] = {}
    says: Text | None = None
    why: Text | None = None
    steps: Words | None = None
    check: Text | None = None
    cautions: tuple[str, ...] | None = None
    who: str = ""
    when: str = ""
    because: str = ""
    file: str = ""
