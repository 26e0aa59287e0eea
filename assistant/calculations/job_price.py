"""Price of the job: film, consumables, labour, margin, tax, each line shown.

Owns decimal money from cost to price. The film's cost is film_cost.py's, the hours labour.py's;
what belongs on a quote, knowledge/rules/job.toml's.
"""

from __future__ import annotations

from decimal import Decimal

from assistant.calculations.base import Impossible, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.film_cost import to_the_cent
from assistant.quantity.kinds import Duration, Money, Ratio

FREE = Money.of(0)
NO_TIME = Duration.of(0, "h")
NO_SHARE = Ratio.of(0, "percent")
ALL = Ratio.of(100, "percent")


class Inputs(BaseInputs):
    """film and consumables in money; hours and the hourly rate; margin or markup; tax.

    margin  share of the price before tax that is left over the cost
    markup  share of the cost that is put on top; one of the two, not both
    """

    film: Money
    hours: Duration
    rate: Money
    consumables: Money = FREE
    margin: Ratio | None = None
    markup: Ratio | None = None
    tax: Ratio = NO_SHARE


def _decimal(share: Ratio) -> Decimal:
    """A share as people wrote it: 0.2 and not 0.20000000000000001."""
    return Decimal(f"{share.si:.10g}")


def price_before_tax(cost: Money, margin: Ratio | None, markup: Ratio | None) -> Money:
    """cost / (1 - margin), or cost x (1 + markup), to the cent; the cost itself without either.

    margin  0 <= margin < 1; markup  >= 0. By hand: 800 at a margin of 20 %: 1000.00; at a markup
    of 20 %: 960.00.
    """
    if margin is not None:
        return to_the_cent(cost.amount / (1 - _decimal(margin)))
    if markup is not None:
        return to_the_cent(cost.amount * (1 + _decimal(markup)))
    return to_the_cent(cost.amount)


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The price with tax, and every line that leads to it; each line is rounded to the cent.

    Raises Impossible for negative money, a margin of 100 % or more, and margin and markup together.
    """
    for slot in ("film", "consumables", "rate"):
        require(setting, slot, getattr(inputs, slot), at_least=FREE)
    require(setting, "hours", inputs.hours, at_least=NO_TIME)
    require(setting, "tax", inputs.tax, at_least=NO_SHARE, at_most=ALL)
    if inputs.margin is not None and inputs.markup is not None:
        raise Impossible(
            "margin",
            "A margin and a markup together? A margin is a share of the price, a markup a share of "
            "the cost: give one.",
        )
    if inputs.margin is not None:
        require(
            setting, "margin", inputs.margin, at_least=NO_SHARE, below=ALL,
            because="A margin is a share of the price, under 100%.",
        )
    if inputs.markup is not None:
        require(setting, "markup", inputs.markup, at_least=NO_SHARE)

    hours = Decimal(f"{inputs.hours.to('h'):.10g}")
    labour = to_the_cent(inputs.rate.amount * hours)
    film, consumables = to_the_cent(inputs.film.amount), to_the_cent(inputs.consumables.amount)
    cost = film + consumables + labour
    net = price_before_tax(cost, inputs.margin, inputs.markup)
    tax = to_the_cent(net.amount * _decimal(inputs.tax))
    gross = net + tax
    own = setting.own

    def percent(share: Ratio) -> str:
        return f"{100 * share.si:g}%"

    if inputs.margin is not None:
        how = f"{own(cost)} / (1 - {percent(inputs.margin)}) = {own(net)} before tax"
    elif inputs.markup is not None:
        how = f"{own(cost)} x (1 + {percent(inputs.markup)}) = {own(net)} before tax"
    else:
        how = f"no margin: {own(net)} before tax"
    with_tax = f"with {percent(inputs.tax)} tax" if tax > FREE else "no tax counted"
    return Result(
        answer=f"{own(gross)}, {with_tax}: {own(net)} before tax, over a cost of {own(cost)}.",
        figures=(
            NamedFigure("price with tax", gross),
            NamedFigure("price before tax", net),
            NamedFigure("tax", tax),
            NamedFigure("cost", cost),
            NamedFigure("film", film),
            NamedFigure("consumables", consumables),
            NamedFigure("labour", labour),
            NamedFigure("left over the cost", net - cost),
        ),
        working=(
            f"labour {own(inputs.hours)} x {own(inputs.rate)} = {own(labour)}",
            f"film {own(film)} + consumables {own(consumables)} + labour {own(labour)} = "
            f"{own(cost)} cost",
            how,
            f"{own(net)} + tax {own(tax)} = {own(gross)}",
        ),
        assumed=("no margin",) if inputs.margin is None and inputs.markup is None else (),
        rules=("quote",),
    )
