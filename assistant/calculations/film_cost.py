"""Film area, waste and cost: what the pulled film is worth, and how many rolls to order.

Owns area, waste of the film pulled, cost by any of the usual prices, whole rolls. The price of the
whole job is job_price.py's; how long each panel's film is, panel_film.py's.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from math import ceil

from assistant.calculations.base import (
    SLACK,
    Impossible,
    Missing,
    NamedFigure,
    Result,
    Setting,
    count_words,
    require,
)
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Area, Count, Length, Money, Ratio

ZERO = Length.of(0, "in")
NO_AREA = Area.of(0, "m2")
FREE = Money.of(0)
LONGEST = Length.of(10_000, "m")
CENT = Decimal("0.01")

# How a price is told, and the length or area that one of them buys.
PER_LENGTH = {
    "per-metre": Length.of(1, "m"), "per-yard": Length.of(1, "yd"), "per-foot": Length.of(1, "ft"),
}
PER_AREA = {"per-square-metre": Area.of(1, "m2"), "per-square-foot": Area.of(1, "ft2")}
ROLL = "per-roll"


class Inputs(BaseInputs):
    """pulled length and roll width; area that ends on the vehicle; the price and what it is per.

    pulled_area  the same film told as an area: pulled = area / roll width
    per  a key of PER_LENGTH or PER_AREA, or ROLL
    """

    pulled: Length | None = None
    pulled_area: Area | None = None
    roll_width: Length
    roll_length: Length
    used: Area | None = None
    price: Money | None = None
    per: str | None = None


def waste(used: Area, pulled: Area) -> Ratio:
    """Waste as a part of the film pulled: 1 - used / pulled; 0 <= used <= pulled, pulled > 0.

    By hand: 250 ft2 used of 375 ft2 pulled: a third.
    """
    return Ratio.of(1 - used / pulled, "ratio")


def rolls_needed(pulled: Length, roll_length: Length) -> int:
    """Whole rolls that a length takes: ceil(pulled / roll length), at least 1."""
    return max(1, ceil(pulled / roll_length - SLACK))


def cost(pulled: Length, width: Length, price: Money, per: str, roll_length: Length) -> Money:
    """Cost of the film pulled, to the cent: price x how many of `per` it is.

    By hand: 75 ft at 60 in wide is 375 ft2; at 2.50 a square foot, 937.50.
    """
    if per in PER_LENGTH:
        number = pulled / PER_LENGTH[per]
    elif per in PER_AREA:
        number = (pulled * width) / PER_AREA[per]
    else:
        number = pulled / roll_length
    return to_the_cent(price.amount * Decimal(repr(number)))


def to_the_cent(amount: Decimal) -> Money:
    """Money rounded to hundredths, halves up."""
    return Money(amount.quantize(CENT, ROUND_HALF_UP))


def _pulled(inputs: Inputs, setting: Setting, working: list[str]) -> Length:
    """The length off the roll, from the area that was pulled."""
    area = inputs.pulled_area
    if area is None:
        raise Missing("pulled", "How much film comes off the roll? For example: 25 yd.")
    require(setting, "pulled_area", area, above=NO_AREA, name="film pulled")
    length = Length.of(area.si / inputs.roll_width.si, "m")
    working.append(
        f"{setting.own(area)} / {setting.own(inputs.roll_width)} wide = "
        f"{setting.own(length, 'yd', 'm')} off the roll"
    )
    return length


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Area, waste, cost of the film pulled, and the order in whole rolls.

    Raises Impossible for lengths of zero or below and more film used than pulled; Missing for a
    price without what it is per.
    """
    width, roll = inputs.roll_width, inputs.roll_length
    require(setting, "roll_width", width, above=ZERO, name="roll width")
    working: list[str] = []
    pulled = inputs.pulled or _pulled(inputs, setting, working)
    require(setting, "pulled", pulled, above=ZERO, at_most=LONGEST, name="film pulled",
            unit=setting.unit("yd", "m"))
    require(setting, "roll_length", roll, above=ZERO, name="roll length")
    area = pulled * width
    number = rolls_needed(pulled, roll)
    left = roll * number - pulled
    yards = setting.unit("yd", "m")

    def own(length: Length) -> str:
        return setting.own(length, "yd", "m")

    figures: list[NamedFigure] = []
    working.append(f"{own(pulled)} x {setting.own(width)} wide = {setting.own(area)}")
    answer = f"{setting.both(area)} of film"
    if inputs.price is not None:
        if inputs.per is None:
            raise Missing(
                "per", "Is that price per metre, per yard, per square foot, or for a roll?"
            )
        require(setting, "price", inputs.price, at_least=FREE)
        spent = cost(pulled, width, inputs.price, inputs.per, roll)
        figures.append(NamedFigure("cost of the film pulled", spent))
        price, per = setting.own(inputs.price), inputs.per.replace("-", " ")
        working.append(f"at {price} {per}: {setting.own(spent)}")
        answer += f" costs {setting.own(spent)}"
        whole = cost(roll * number, width, inputs.price, inputs.per, roll)
        working.append(f"{count_words(number, 'whole roll')} to order: {setting.own(whole)}")
    figures.append(NamedFigure("area of the film pulled", area))
    if inputs.used is not None:
        require(setting, "used", inputs.used, above=NO_AREA, name="film on the vehicle")
        if inputs.used > area * (1 + SLACK):
            raise Impossible(
                "used",
                f"{setting.own(inputs.used)} on the vehicle is more than the {setting.own(area)} "
                "pulled off the roll.",
            )
        lost = waste(inputs.used, area)
        figures.append(NamedFigure("waste, of the film pulled", lost, fine=True))
        working.append(
            f"1 - {setting.own(inputs.used)} / {setting.own(area)} = "
            f"{setting.own(lost, fine=True)} waste"
        )
        answer += f", {setting.own(lost, fine=True)} of it waste"
    figures.append(NamedFigure("rolls to order", Count.of(number, "count")))
    if inputs.price is not None:
        figures.append(NamedFigure("cost of the order", whole))
    figures.append(NamedFigure("left on the last roll", left, unit=yards))
    working.append(
        f"{own(pulled)} / {own(roll)} a roll, rounded up: {count_words(number, 'roll')}, "
        f"{own(left)} left"
    )
    return Result(
        answer=f"{answer}; order {count_words(number, 'roll')} of {own(roll)}.",
        figures=tuple(figures),
        working=tuple(working),
        steps=("Order panels that meet from one lot.",) if number > 1 else (),
        rules=("roll-sizes", "one-lot") if number > 1 else ("roll-sizes",),
    )
