"""Models: what a rule of the trade is, as written in knowledge/rules/*.toml.

Owns the keys of a rule, its figures and variants, and the cautions and sources it names. Sums and
acts are entries.py's, films and house rules films.py's; which layer speaks is layers.py's.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, Self, get_args

from pydantic import BaseModel, ConfigDict, Field, Strict, StringConstraints, model_validator
from pydantic_core import PydanticCustomError

from assistant.quantity.kinds import UNITS as ALL_UNITS
from assistant.quantity.kinds import Quantity, kind_of, of
from assistant.rules.layers import SHIPPED
from assistant.rules.number import Numbered
from assistant.rules.problem import listed, quoted
from assistant.rules.sketch import sketch_fault

Stage = Literal[
    "check-in", "preparation", "cutting", "laying", "edges", "cure", "inspection", "hand-over",
    "any",
]
Basis = Literal["published", "practice", "memory"]
STAGES: tuple[str, ...] = get_args(Stage)
BASES: tuple[str, ...] = get_args(Basis)

# The unit codes that a file may use: those of the JSON contract, and seconds.
UNIT_CODES = frozenset(
    "degF degC dF dC mm cm m in ft yd um mil percent ratio s min h day week year ppm mg/m3 m2 ft2 "
    "m3 ft3 mL L floz psi bar g kg g/m2 per_h m3/h count money".split()
)
ONE_OF = "value, low with high, at_least, at_most or over"
# A figure that is called so is never what a thermometer reads.
_DIFFERENCES = ("margin", "difference")
_OF_A_DIFFERENCE = {"degF": "dF", "degC": "dC"}

Text = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]
Number = Annotated[float, Strict(), Field(allow_inf_nan=False)]
Truth = Annotated[bool, Strict()]
Words = tuple[Text, ...]


def broken(key: str, wrong: str, remedy: str) -> PydanticCustomError:
    """An error of a model that already knows its key and its remedy."""
    return PydanticCustomError(
        "told", "{key} {wrong}", {"key": key, "wrong": wrong, "remedy": remedy}
    )


UNSOURCED = broken(
    "basis", 'is "published" without a source',
    "Name the source (an id of sources.toml), or write another basis.",
)


def check_unit(unit: str, key: str = "unit") -> None:
    """Refuse a unit code that no file may use."""
    if unit not in UNIT_CODES:
        near = {"C": "degC", "F": "degF", "°C": "degC", "°F": "degF", "%": "percent", '"': "in",
                "inch": "in", "inches": "in", "hour": "h", "hours": "h", "days": "day",
                "weeks": "week", "years": "year", "minutes": "min", "micron": "um", "µm": "um",
                "ml": "mL", "l": "L", "g/m3": "mg/m3"}.get(unit)
        raise broken(
            key, f"is {quoted(unit)}, which is no unit here",
            f'Write "{near}".' if near else f"One of {' '.join(sorted(UNIT_CODES))}.",
        )


class Model(BaseModel):
    """A table of a file: no unknown keys, and it does not change."""

    # Built when first validated: an answer out of the kept index validates nothing.
    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


class Amount(Model):
    """A number with its unit: `{ value = 3, unit = "in" }`."""

    value: Number
    unit: str

    @model_validator(mode="after")
    def _sound(self) -> Self:
        if self.unit not in ALL_UNITS:
            check_unit(self.unit)
        return self

    def quantity(self) -> Quantity:
        return of(self.value, self.unit)


class Limits(Model, Numbered):
    """The number of a figure: exactly one of value, low with high, at_least, at_most, over.

    over       the limit is where something starts to hold ("over 10 percent: post-heat")
    tolerance  how far a reading may lie from `value` and still do, a number in the unit
               (a difference where the unit is a temperature)
    too_much   from where it does harm, a number in the unit
    """

    value: Number | None = None
    low: Number | None = None
    high: Number | None = None
    at_least: Number | None = None
    at_most: Number | None = None
    over: Number | None = None
    unit: str
    tolerance: Number | None = None
    too_much: Number | None = None

    @model_validator(mode="after")
    def _one_number(self) -> Self:
        check_unit(self.unit)
        given = [key for key in ("value", "low", "high", "at_least", "at_most", "over")
                 if getattr(self, key) is not None]
        if given not in (["value"], ["low", "high"], ["at_least"], ["at_most"], ["over"]):
            raise broken(
                "", f"gives {listed(given, 'and')}" if given else "gives no number",
                f"Give exactly one of {ONE_OF}.",
            )
        try:
            low, high = self.quantities()
            if self.too_much is not None:
                of(self.too_much, self.unit)
        except ValueError as error:
            raise broken(given[0], f"cannot be: {error}", "Give a number that can be.") from None
        if given == ["low", "high"] and not low < high:
            raise broken("low", "is not under high", "Swap them, or give value alone.")
        if self.tolerance is not None and self.tolerance < 0:
            raise broken("tolerance", "is under zero", "Give how far either way, over zero.")
        if self.too_much is not None and of(self.too_much, self.unit) < high:
            raise broken(
                "too_much", "lies under the figure itself", "Give where harm starts, above it."
            )
        return self


class FigureSpec(Limits):
    """A figure of a rule, with a name that tells what it is and, for a limit, its direction.

    basis, source, note  only where they differ from the rule's
    """

    name: Text
    basis: Basis | None = None
    source: str | None = None
    note: str | None = None

    @model_validator(mode="after")
    def _sourced(self) -> Self:
        if self.basis == "published" and self.source is None:
            raise UNSOURCED
        return self


def check_differences(figures: Mapping[str, FigureSpec]) -> None:
    """Refuse a margin or a difference that is written as a temperature."""
    for key, figure in figures.items():
        right = _OF_A_DIFFERENCE.get(figure.unit)
        called = next(
            (word for word in _DIFFERENCES if word in key or word in figure.name.lower()), None
        )
        if right is not None and called is not None:
            raise broken(
                f"figures.{key}.unit", f'is "{figure.unit}", which is a temperature',
                f'A {called} is a difference: write "{right}".' if called == "margin"
                else f'A difference has a unit of its own: write "{right}".',
            )


class About(Model):
    """What a question must name to be about it: any one of each list; an absent list is free."""

    thing: Words = ()
    doing: Words = ()
    film: Words = ()
    condition: Words = ()


class When(Model):
    """Where a variant holds: for one of the films, under one of the conditions; both if both."""

    film: Words = ()
    condition: Words = ()

    @model_validator(mode="after")
    def _something(self) -> Self:
        if not self.film and not self.condition:
            raise broken("", "names no film and no condition", "Say when the variant holds.")
        return self


class Variant(Model):
    """What differs for some films or under some conditions; what is absent stays the rule's.

    cautions come on top of the rule's own.
    """

    when: When
    says: Text | None = None
    why: Text | None = None
    steps: Words | None = None
    check: Text | None = None
    figures: dict[str, FigureSpec] = {}
    cautions: tuple[str, ...] = ()
    basis: Basis | None = None
    source: str | None = None
    note: str | None = None

    @model_validator(mode="after")
    def _sound(self) -> Self:
        check_differences(self.figures)
        if self.basis == "published" and self.source is None:
            raise UNSOURCED
        return self


class Asked(Model):
    """What everything that can be asked for has: a title, what it is about, its proof.

    phrases         as people would really type it
    reaches         questions that must end here, worded otherwise than the phrases
    must_not_reach  near misses that belong to another
    """

    id: str
    title: Text
    about: About = About()
    phrases: Words = ()
    reaches: Words = ()
    must_not_reach: Words = ()
    file: str = ""


class Rule(Asked):
    """A rule of the trade.

    id, subject, file, layer  given by the loader: the table's name, the file's stem, the file,
              "shipped" or "house"
    says      the first sentence answers; figures stand in it by name, `{target}`
    basis     published (then a source is compulsory) | practice | memory
    safety    house rules and film sheets may tighten it, never loosen it
    sketch    rows in block characters, for what words say badly
    """

    subject: str = ""
    layer: str = SHIPPED
    stage: Stage
    says: Text
    why: str = ""
    steps: Words = ()
    check: str = ""
    basis: Basis
    source: str | None = None
    note: str | None = None
    cautions: tuple[str, ...] = ()
    safety: Truth = False
    see_also: tuple[str, ...] = ()
    figures: dict[str, FigureSpec] = {}
    variants: tuple[Variant, ...] = ()
    sketch: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _sound(self) -> Self:
        fault = sketch_fault(self.sketch)
        if fault is not None:
            raise broken("sketch", *fault)
        check_differences(self.figures)
        if self.basis == "published" and self.source is None:
            raise UNSOURCED
        return self

    def kinds(self) -> tuple[str, ...]:
        """The kinds of quantity its figures are, each once."""
        return tuple(dict.fromkeys(kind_of(figure.unit) for figure in self.figures.values()))


class Caution(Model):
    """What can hurt, in one breath, and who has the last word on it."""

    id: str
    says: Text
    topic: Text
    file: str = ""


class Source(Model):
    """A published document. `read` tells whether the passage itself was seen."""

    id: str
    title: Text
    body: str = ""
    author: str = ""
    year: int | None = None
    gives: Text
    read: Truth = False
    note: str = ""
    file: str = ""


