"""Dew point of air, from its temperature and relative humidity.

Owns the Magnus formula and its inverse. Whether a panel may be wrapped at that dew point is
bay_check.py's; how wide the margin must be, knowledge/rules/bay.toml's.
"""

from __future__ import annotations

from math import exp, log

from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.base import NamedFigure, Result, Setting, require
from assistant.quantity.kinds import Pressure, Ratio, Temperature
from assistant.quantity.write import System

# Magnus constants over water, WMO-No. 8 (2008) Annex 4.B after Sonntag 1990.
PRESSURE_AT_FREEZING = 611.2  # Pa
B = 17.62
C = 243.12  # degC
# The range over water as remembered of the same guide; the page with it was not read.
COLDEST = Temperature.of(-45, "degC")
HOTTEST = Temperature.of(60, "degC")
DRIEST = Ratio.of(1, "percent")
SATURATED = Ratio.of(100, "percent")
FREEZING = Temperature.of(0, "degC")


class Inputs(BaseInputs):
    """Air temperature and relative humidity, read at the same spot."""

    air: Temperature
    humidity: Ratio


def _exponent(celsius: float) -> float:
    return B * celsius / (C + celsius)


def saturation_pressure(air: Temperature) -> Pressure:
    """Pressure of saturated water vapour over water, plane and pure.

    e_s = 611.2 Pa exp(17.62 t / (243.12 + t)), t in degC, from -45 to 60 degC.
    Source: WMO-No. 8 (2008) Annex 4.B. Within 0.5 % of the ASHRAE values from 5 to 50 degC.
    By hand: 20 degC: exp(352.4 / 263.12) = 3.8164, times 611.2 Pa is 2333 Pa.
    """
    return Pressure.of(PRESSURE_AT_FREEZING * exp(_exponent(air.to("degC"))), "Pa")


def dew_point(air: Temperature, humidity: Ratio) -> Temperature:
    """The temperature at which the air's water begins to condense, over water.

    g = ln(RH) + B t / (C + t); t_d = C g / (B - g), t in degC, RH as a fraction,
    B = 17.62, C = 243.12 degC.

    air       -45 to 60 degC
    humidity  relative, over water, 1 to 100 %
    Below freezing this is the dew point over water, a little lower than the frost point over ice.
    Source: WMO-No. 8 (2008) Annex 4.B. Within 0.05 K of the ASHRAE formulas above 0 degC.
    By hand: 18 degC, 55 %: g = -0.5978 + 1.2147 = 0.6168; 243.12 x 0.6168 / 17.003 = 8.82 degC.
    """
    if humidity >= SATURATED:
        return air
    g = log(humidity.si) + _exponent(air.to("degC"))
    return Temperature.of(C * g / (B - g), "degC")


def humidity_at(air: Temperature, dew: Temperature) -> Ratio:
    """The relative humidity at which air has a given dew point: RH = e_s(t_d) / e_s(t).

    Bounds as in dew_point. By hand: air 20 degC, dew point 12 degC: 1402 / 2333 Pa = 60 %.
    """
    return Ratio.of(
        100 * exp(_exponent(dew.to("degC")) - _exponent(air.to("degC"))), "percent"
    )


def require_air(setting: Setting, air: Temperature, humidity: Ratio) -> None:
    """Refuse air that the formula does not hold for, or that cannot be."""
    require(
        setting, "humidity", humidity, at_most=SATURATED,
        because="Air holds 100% at most.",
    )
    require(
        setting, "humidity", humidity, at_least=DRIEST,
        because="No bay is that dry. Is it a fraction, or the battery of the hygrometer?",
    )
    span = f"The formula holds from {setting.own(COLDEST)} to {setting.own(HOTTEST)}."
    require(
        setting, "air", air, at_least=COLDEST, at_most=HOTTEST, name="air temperature",
        because=span,
    )


def working_lines(setting: Setting, air: Temperature, humidity: Ratio) -> tuple[str, ...]:
    """The arithmetic of dew_point, in degC because the formula's constants are."""
    t = air.to("degC")
    dew = dew_point(air, humidity)
    us = setting.system == System.US
    g = log(humidity.si) + _exponent(t)
    lines = [
        (f"{setting.own(air)} is {t:.1f} °C: " if us else "")
        + f"ln({humidity.si:.2f}) + 17.62 x {t:.1f} / (243.12 + {t:.1f}) = {g:.4f}",
        f"243.12 x {g:.4f} / (17.62 - {g:.4f}) = {dew.to('degC'):.1f} °C"
        + (f" ({setting.own(dew, fine=True)})" if us else ""),
    ]
    if dew < FREEZING:
        lines.append("dew point over water; the frost point over ice lies a little higher")
    return tuple(lines)


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The dew point, and the coldest panel that keeps the margin above it.

    Raises Impossible for humidity beyond 1 to 100 % and air beyond -45 to 60 degC.
    """
    require_air(setting, inputs.air, inputs.humidity)
    dew = dew_point(inputs.air, inputs.humidity)
    margin = setting.limit("dew-point-margin", "margin")
    coldest = dew + margin
    return Result(
        answer=(
            f"The dew point is {setting.both(dew, fine=True)}: "
            f"the panel must be at least {setting.both(coldest, fine=True)}."
        ),
        figures=(
            NamedFigure("dew point", dew, fine=True),
            NamedFigure("panel temperature, at least", coldest, fine=True),
        ),
        working=(
            *working_lines(setting, inputs.air, inputs.humidity),
            f"{setting.own(dew, fine=True)} + {setting.own(margin, fine=True)} margin = "
            f"{setting.own(coldest, fine=True)}",
        ),
        rules=("dew-point-margin",),
    )
