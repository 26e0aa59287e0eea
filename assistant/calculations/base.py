"""What every calculation takes and gives: inputs, the setting it runs in, a worded result.

Owns the shapes and the few checks that all sums share. Which sum a line asks for, and which number
fills which slot, is the conversation's; how a quantity is worded is quantity/write.py's.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from pydantic import BaseModel, ConfigDict

from assistant.quantity.kinds import Duration, Length, Quantity
from assistant.quantity.write import System, show

# Held as SI floats, an exact fit can miss by a rounding; no tape measure sees a part in a billion.
SLACK = 1e-9


class Inputs(BaseModel):
    """The numbers of one calculation, one field a slot, each a quantity of its own kind.

    A slot that may stay empty has the default None. What a value may be is checked in
    `calculate`, because most bounds depend on another value.
    """

    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True
    )


class Impossible(Exception):
    """A value that is nonsense or contradicts another: named, and nothing is computed.

    slot  the slot that should be given again
    text  one or two sentences for the person: what stands there, and why it cannot be
    """

    def __init__(self, slot: str, text: str) -> None:
        super().__init__(text)
        self.slot = slot
        self.text = text


class Missing(Impossible):
    """A value that only this way of working needs; the text asks for it."""


def _pair(one: str, other: str) -> str:
    """`98 in` and `37 in` to `98 x 37 in`."""
    first, _, unit = one.rpartition(" ")
    return f"{first if other.endswith(' ' + unit) else one} x {other}"


def _no_rules(rule: str, figure: str) -> tuple[Quantity, Quantity]:
    raise KeyError(f"no rules at hand: figure {figure!r} of rule {rule!r}")


@dataclass(frozen=True, slots=True)
class Life:
    """A line of a film's life table: climate zone, upright or flat, least and most."""

    zone: str
    surface: str
    low: Duration
    high: Duration


@dataclass(frozen=True, slots=True)
class FilmInHand:
    """The film that is spoken of, as far as it is known.

    name         of its sheet, or of the family
    directional  all pieces one way, never turned
    conforms     how readily it follows a curve, 1 (hardly) to 5
    thickness, life   as its sheet gives them; none without a sheet
    """

    name: str
    family: str = ""
    directional: bool = False
    conforms: int | None = None
    thickness: Length | None = None
    life: tuple[Life, ...] = ()


@dataclass(frozen=True, slots=True)
class Setting:
    """Where a calculation runs: whose units, whose rules, which film, what time it is.

    figure  (rule id, figure name) -> (low, high) after house rules and film sheet
    now     the moment of asking; None where no clock is at hand
    film    the film in hand; None where none was named
    said_in slot -> the unit code in which the person gave it
    """

    system: System = System.US
    figure: Callable[[str, str], tuple[Quantity, Quantity]] = _no_rules
    now: datetime | None = None
    film: FilmInHand | None = None
    said_in: Mapping[str, str] = field(default_factory=dict)

    def limit(self, rule: str, figure: str) -> Quantity:
        """A rule's figure that is one value or one limit."""
        return self.figure(rule, figure)[0]

    def unit(self, us: str | None, metric: str | None) -> str | None:
        """The unit code of the person's own system; None leaves the choice to the writer."""
        return us if self.system == System.US else metric

    def own(
        self, quantity: Quantity, us: str | None = None, metric: str | None = None,
        fine: bool = False,
    ) -> str:
        """A quantity in the person's own system only, as lines of working carry it."""
        return show(quantity, self.system, unit=self.unit(us, metric), second=False, fine=fine)

    def both(
        self, quantity: Quantity, us: str | None = None, metric: str | None = None,
        fine: bool = False,
    ) -> str:
        """A quantity in the person's own system, the other in brackets."""
        return show(quantity, self.system, unit=self.unit(us, metric), fine=fine)

    def sides(self, one: Length, other: Length, second: bool = True) -> str:
        """Two sides as a piece of film is spoken of: `98 x 37 in (2489 x 940 mm)`."""
        own = _pair(show(one, self.system, unit=self.unit("in", "mm"), second=False),
                    show(other, self.system, unit=self.unit("in", "mm"), second=False))
        if not second:
            return own
        theirs, code = (
            (System.METRIC, "mm") if self.system == System.US else (System.US, "in")
        )
        return own + " (" + _pair(show(one, theirs, unit=code, second=False),
                                  show(other, theirs, unit=code, second=False)) + ")"


@dataclass(frozen=True, slots=True)
class NamedFigure:
    """A number that answers; `high` only where it is a range.

    unit    the unit preferred, or its counterpart in the person's system
    system  the system it is told in, where that is not the person's: a conversion asks for it
    fine    told finer than a tape or a wall thermometer reads
    """

    name: str
    low: Quantity
    high: Quantity | None = None
    unit: str | None = None
    system: System | None = None
    fine: bool = False


@dataclass(frozen=True, slots=True)
class NamedMoment:
    """A point in time that answers; `whole_day` where the time of day means nothing."""

    name: str
    at: datetime
    whole_day: bool = False


@dataclass(frozen=True, slots=True)
class Result:
    """What a calculation found.

    answer    the first sentence answers; quantities are already in the person's system
    figures   the wanted one first
    working   lines of arithmetic in the person's own units, in the order of working
    steps     what the hands do about it, in order
    assumed   what this run took for granted beyond the defaults of its slots
    rules     ids of the rules relied on
    verdict   the judgement in a word or two (`go`, `wait`, `relief cut or inlay`), if it judges
    """

    answer: str
    figures: tuple[NamedFigure, ...] = ()
    working: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    verdict: str | None = None
    times: tuple[NamedMoment, ...] = ()
    sketch: tuple[str, ...] = field(default=())


def require(
    setting: Setting,
    slot: str,
    value: Quantity,
    *,
    above: Quantity | None = None,
    at_least: Quantity | None = None,
    below: Quantity | None = None,
    at_most: Quantity | None = None,
    name: str = "",
    because: str = "",
    unit: str | None = None,
) -> None:
    """Refuse a value beyond its bounds by its name.

    name     what a person calls the slot; the slot's id with spaces if not given
    because  why it cannot be; without it the bound is told
    unit     the unit to word the value and its bound in
    Raises Impossible naming the slot, its value and the bound it broke.
    """
    bounds = (
        (above, lambda limit: value > limit, "over"),
        (at_least, lambda limit: value >= limit, "at least"),
        (below, lambda limit: value < limit, "under"),
        (at_most, lambda limit: value <= limit, "at most"),
    )
    for limit, holds, words in bounds:
        if limit is None or holds(limit):
            continue
        called = name or slot.replace("_", " ")
        shown = show(value, setting.system, unit=unit, second=False)
        bound = show(limit, setting.system, unit=unit, second=False)
        why = because or f"It must be {words} {bound}."
        raise Impossible(slot, f"{called[0].upper()}{called[1:]} {shown}? {why}")


def count_words(number: int, one: str, many: str = "") -> str:
    """`1 strip`, `3 strips`."""
    return f"{number} {one if number == 1 else many or one + 's'}"
