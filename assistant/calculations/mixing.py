"""Mixing: how much stock and how much water make a cleaner of a wanted strength.

Owns the volumes and the parts. Which strength is right for what, knowledge/rules/ say.
"""

from __future__ import annotations

from fractions import Fraction

from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.base import Missing, NamedFigure, Result, Setting, count_words, require
from assistant.quantity.kinds import Count, Ratio, Volume

NONE = Ratio.of(0, "percent")
ALL = Ratio.of(100, "percent")
NOTHING = Volume.of(0, "mL")
MOST = Volume.of(1000, "L")
# Parts that a person pours by eye; finer ones are told in volumes only.
COARSEST_PARTS = 20


class Inputs(BaseInputs):
    """target strength; total volume wanted, or the stock at hand; strength of the stock.

    parts  stock to water, as in `1:4`: takes the place of the strengths
    """

    target: Ratio | None = None
    stock: Ratio
    parts: Ratio | None = None
    total: Volume | None = None
    at_hand: Volume | None = None


def stock_volume(total: Volume, target: Ratio, stock: Ratio) -> Volume:
    """Stock that makes a total of a strength: V_s = V c / c_s, volumes taken as adding up.

    total > 0; 0 < target <= stock <= 100 %, by volume.
    By hand: 1 L at 70 % from 99 %: 707 mL, and 293 mL of water.
    """
    return total * (target / stock)


def parts(target: Ratio, stock: Ratio) -> tuple[int, int]:
    """The mix as whole parts of stock and water, the nearest with at most 20 parts in all."""
    share = Fraction(target / stock).limit_denominator(COARSEST_PARTS)
    return share.numerator, share.denominator - share.numerator


def _as_parts(target: Ratio, stock: Ratio) -> bool:
    """Whether the two are the halves of a whole, as in `70/30`: alcohol and water in parts."""
    return target > stock and abs(target.si + stock.si - 1) < 1e-9


def _about(target: Ratio, stock: Ratio) -> str:
    """`About ` where whole parts do not hit the strength."""
    one, other = parts(target, stock)
    return "" if abs(one / (one + other) - target / stock) < 1e-9 else "About "


def _parts_only(setting: Setting, target: Ratio, stock: Ratio, called: str) -> Result:
    """The mix where no amount was named: parts and the share of stock."""
    stock_parts, water_parts = parts(target, stock)
    share = Ratio.of(target / stock, "ratio")
    return Result(
        answer=(
            f"{_about(target, stock)}{count_words(stock_parts, 'part')} of {called} to "
            f"{count_words(water_parts, 'part')} of water give {setting.own(target)}. "
            "Tell me an amount for the volumes."
        ),
        figures=(
            NamedFigure("parts of stock", Count.of(stock_parts, "count")),
            NamedFigure("parts of water", Count.of(water_parts, "count")),
            NamedFigure("stock, of the mix", share, fine=True),
        ),
        working=(
            f"{setting.own(target)} / {setting.own(stock)} = {setting.own(share, fine=True)} "
            f"stock, about {stock_parts} of {stock_parts + water_parts} parts",
        ),
        assumed=("volumes taken as adding up",),
        cautions=("solvent",),
    )


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Volumes of stock and water, and the mix in parts.

    Without an amount, the parts alone. Raises Impossible for strengths outside 0 to 100 % and a
    target stronger than the stock.
    """
    target, stock = inputs.target, inputs.stock
    assumed = ["volumes taken as adding up"]
    called = f"the {setting.own(stock)} stock"
    if inputs.parts is not None:
        require(setting, "parts", inputs.parts, above=NONE, name="the parts")
        target, stock = Ratio.of(inputs.parts.si / (1 + inputs.parts.si), "ratio"), ALL
        called = "the stock as it is"
        assumed.append("told in parts: stock first, then water")
    elif target is None:
        raise Missing("target", "How strong shall the mix be? For example: 70 percent, or 1:4.")
    elif _as_parts(target, stock):
        # "70/30" is told as parts of what is in the can and of water.
        stock, called = ALL, "the stock as it is"
        assumed.append(f"{setting.own(target)} by volume of the stock as it is, the rest water")
    require(
        setting, "stock", stock, above=NONE, at_most=ALL, name="strength of the stock",
        because="A strength lies over 0 and at most at 100 %.",
    )
    require(
        setting, "target", target, above=NONE, at_most=ALL, name="strength wanted",
        because="A strength lies over 0 and at most at 100 %.",
    )
    require(
        setting, "target", target, at_most=stock, name="strength wanted",
        because=f"Water only weakens it: stock of {setting.own(stock)} gives that at most.",
    )
    if inputs.total is not None:
        require(setting, "total", inputs.total, above=NOTHING, at_most=MOST, name="the total")
        total = inputs.total
    elif inputs.at_hand is not None:
        require(setting, "at_hand", inputs.at_hand, above=NOTHING, at_most=MOST, name="the stock")
        total = inputs.at_hand * (stock / target)
    else:
        return _parts_only(setting, target, stock, called)
    strong = stock_volume(total, target, stock)
    water = total - strong
    stock_parts, water_parts = parts(target, stock)
    if water > NOTHING:
        answer = (
            f"{setting.both(strong)} of {called} and {setting.both(water)} "
            f"of water make {setting.both(total)} at {setting.own(target)}."
        )
    else:
        answer = f"Take it neat: {setting.both(strong)} of {called}, no water."
    return Result(
        answer=answer,
        figures=(
            NamedFigure("stock", strong),
            NamedFigure("water", water),
            NamedFigure("mix in all", total),
        ),
        working=(
            f"{setting.own(total)} x {setting.own(target)} / {setting.own(stock)} = "
            f"{setting.own(strong)} of stock",
            f"{setting.own(total)} - {setting.own(strong)} = {setting.own(water)} of water",
            f"about {stock_parts} parts stock to {water_parts} parts water" if water_parts
            else "all stock",
        ),
        steps=(
            "Pour the water first, then the stock, in moving air and away from anything hot.",
            "Label the bottle: what it is, its strength, the date.",
        ),
        assumed=tuple(assumed),
        rules=(),
        cautions=("solvent",),
    )
