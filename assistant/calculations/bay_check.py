"""Bay check: may film go on now, by air temperature, humidity and panel temperature?

Owns the verdict and what to change. The dew point's formula is dew_point.py's; the window and the
margin are knowledge/rules/bay.toml's.
"""

from __future__ import annotations

from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.base import NamedFigure, Result, Setting, require
from assistant.calculations.dew_point import (
    COLDEST,
    DRIEST,
    dew_point,
    humidity_at,
    require_air,
    working_lines,
)
from assistant.quantity.kinds import Ratio, Temperature, TemperatureDifference

# A body panel in the sun gets no hotter; beyond it the number is a slip.
HOTTEST_PANEL = Temperature.of(100, "degC")
NONE = TemperatureDifference.of(0, "dC")


class Inputs(BaseInputs):
    """Air temperature and relative humidity of the bay, and the coldest panel."""

    air: Temperature
    humidity: Ratio
    panel: Temperature


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The verdict: air and panel inside their windows, and the panel above the dew point.

    margin = panel - dew point, compared unrounded with the rule's. What to change: warm the panel
    by the greater of what the margin and the window lack, or dry the air to the humidity whose dew
    point lies one margin below the panel. Warming the air does not move the dew point.
    Raises Impossible for humidity, air or panel beyond what they can be.
    """
    air, humidity, panel = inputs.air, inputs.humidity, inputs.panel
    require_air(setting, air, humidity)
    require(
        setting, "panel", panel, at_least=COLDEST, at_most=HOTTEST_PANEL, name="panel temperature"
    )
    dew = dew_point(air, humidity)
    margin = panel - dew
    needed = setting.limit("dew-point-margin", "margin")
    air_low, air_high = setting.figure("bay-temperature", "air")
    panel_low, panel_high = setting.figure("panel-temperature", "panel")

    troubles: list[str] = []
    steps: list[str] = []
    figures = [
        NamedFigure("margin above the dew point", margin, fine=True),
        NamedFigure("dew point", dew, fine=True),
    ]
    if margin < needed:
        where = (
            f"only {setting.both(margin, fine=True)} above the dew point"
            if margin > NONE else "at the dew point or below it: it is wet or will be"
        )
        troubles.append(f"the panel is {where}")
    if air < air_low or air > air_high:
        troubles.append(
            f"the air, {setting.both(air)}, is {'under' if air < air_low else 'over'} "
            f"{setting.both(air_low if air < air_low else air_high)}"
        )
    if panel < panel_low or panel > panel_high:
        troubles.append(
            f"the panel, {setting.both(panel)}, is {'under' if panel < panel_low else 'over'} "
            f"{setting.both(panel_low if panel < panel_low else panel_high)}"
        )

    target = max(dew + needed, panel_low)
    if panel < target:
        warm = target - panel
        figures.append(NamedFigure("warm the panel by", warm, fine=True))
        steps.append(
            f"Warm the panel by {setting.both(warm, fine=True)}, "
            f"to {setting.both(target, fine=True)}."
        )
    if margin < needed:
        driest = humidity_at(air, panel - needed) if panel - needed >= COLDEST else None
        if driest is not None and driest >= DRIEST:
            figures.append(NamedFigure("or dry the air to", driest))
            steps.append(
                f"Or dry the air to {setting.own(driest)}: that alone gives the margin."
            )
    if air < air_low:
        steps.append(
            f"Warm the air by {setting.both(air_low - air)}; a vented heater leaves the dew point "
            "where it is, an open flame adds water."
        )
    if air > air_high:
        steps.append(f"Cool the air by {setting.both(air - air_high)}: shade, open doors, wait.")
    if panel > panel_high:
        steps.append(f"Let the panel cool by {setting.both(panel - panel_high)} in the shade.")
    if steps:
        steps.append("Measure all three again before you start.")

    if troubles:
        answer = "Not yet: " + "; ".join(troubles) + "."
    else:
        answer = (
            f"Yes, start: the panel is {setting.both(margin, fine=True)} above the dew point, "
            f"{setting.both(dew, fine=True)}, and air and panel are inside their windows."
        )
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=(
            *working_lines(setting, air, humidity),
            f"panel {setting.own(panel, fine=True)} - dew point {setting.own(dew, fine=True)} = "
            f"{setting.own(margin, fine=True)}; it takes {setting.own(needed, fine=True)}",
        ),
        steps=tuple(steps),
        rules=("dew-point-margin", "bay-temperature", "panel-temperature"),
        verdict="wait" if troubles else "go",
    )
