"""Rounding: as far as the instrument that reads a unit can tell apart.

Owns how many digits are shown: a tape has sixteenths or millimetres, a thermometer degrees.
Verdicts compare unrounded values and never come here.
"""

from __future__ import annotations

from math import floor, log10

from assistant.quantity.kinds import Quantity

# Unit -> steps by size: (below this many, step). A step of 0 keeps three significant digits.
_COARSE: tuple[tuple[float, float], ...] = ((1e99, 0.0),)
_STEPS: dict[str, tuple[tuple[float, float], ...]] = {
    "in": ((120, 1 / 16), (1e99, 1 / 4)),
    "mm": ((1e99, 1),), "um": ((1e99, 1),), "cm": ((1e99, 0.1),),
    "m": ((0.1, 0), (1e99, 0.01)),
    "ft": ((10, 0.01), (1e99, 0.1)), "yd": ((10, 0.01), (1e99, 0.1)), "mil": ((1e99, 0.1),),
    "degF": ((1e99, 1),), "degC": ((1e99, 1),), "K": ((1e99, 1),),
    "dF": ((3, 0.5), (1e99, 1)), "dC": ((3, 0.5), (1e99, 1)),
    "percent": ((10, 0.1), (1e99, 1)), "ratio": ((1e99, 0.01),),
    "m2": ((0.1, 0), (100, 0.01), (1e99, 0.1)),
    "ft2": ((0.1, 0), (10, 0.01), (100, 0.1), (1e99, 1)),
    "yd2": ((0.1, 0), (10, 0.01), (100, 0.1), (1e99, 1)), "in2": ((1e99, 1),), "cm2": ((1e99, 1),),
    "gal": ((10, 0.01), (100, 0.1), (1e99, 1)), "L": ((10, 0.01), (100, 0.1), (1e99, 1)),
    "qt": ((1e99, 0.1),), "pt": ((1e99, 0.1),), "mL": ((10, 0.1), (1e99, 1)),
    "floz": ((100, 0.1), (1e99, 1)), "impfloz": ((100, 0.1), (1e99, 1)),
    "m3": ((10, 0.01), (100, 0.1), (1e99, 1)), "ft3": ((100, 0.1), (1e99, 1)),
    "kg": ((0.1, 0), (10, 0.01), (100, 0.1), (1e99, 1)),
    "lb": ((0.1, 0), (10, 0.01), (100, 0.1), (1e99, 1)),
    "g": ((10, 0.1), (1e99, 1)), "oz": ((1e99, 0.1),),
    "s": ((1e99, 1),), "min": ((10, 0.5), (1e99, 1)), "h": ((1, 0.01), (1e99, 0.1)),
    "day": ((1e99, 0.1),), "week": ((1e99, 0.1),), "month": ((1e99, 0.1),), "year": ((1e99, 0.1),),
    "psi": ((100, 0.1), (1e99, 1)), "bar": ((1, 0.01), (1e99, 0.1)), "kPa": ((1e99, 1),),
    "ppm": ((10, 0.1), (1e99, 1)), "mg/m3": ((10, 0.1), (1e99, 1)), "g/m2": ((1e99, 1),),
    "per_h": ((1e99, 0.1),), "m3/h": ((100, 0.1), (1e99, 1)),
    "cfm": ((1e99, 1),),
    "money": ((1e99, 0.01),),
}
# A worked-out number, told finer than the instrument reads.
_FINE = {
    "in": 0.01, "mm": 0.1, "cm": 0.01, "m": 0.001, "um": 0.1, "mil": 0.01, "ft": 0.01, "yd": 0.01,
    "degF": 0.1, "degC": 0.1, "dF": 0.1, "dC": 0.1, "percent": 0.1,
}
# A number given in this very unit keeps what it was given to: a rule's 12.5 percent, a 1/32 in gap.
_GIVEN = {
    "in": 1 / 64, "mm": 0.5, "degF": 0.5, "degC": 0.5, "dF": 0.5, "dC": 0.5, "percent": 0.1,
    "mil": 0.05, "h": 0.25, "min": 0.5, "bar": 0.05, "psi": 0.5, "L": 0.05, "gal": 0.05,
    "floz": 0.1, "mL": 0.5, "day": 0.25, "ratio": 0.001, "ppm": 0.1, "per_h": 0.25,
}
_GIVEN_BELOW = {"in": 12.0, "mm": 10.0}
_NUDGE = 1e-9


def half_up(value: float, step: float) -> float:
    """The nearest multiple of a step, halves away from zero as people round."""
    # 0.3 / 0.1 is 2.9999999999999996: without the nudge a true half would fall.
    rounded = floor(abs(value) / step + 0.5 + _NUDGE) * step
    return -rounded if value < 0 else rounded


def rounded(quantity: Quantity, unit: str, fine: bool = False, given: bool = False) -> float:
    """The value in a unit, to what can be read.

    fine   finer than the instrument: for a worked-out number
    given  the number was given in this very unit and keeps its own digits, within reason
    Nothing that is there is rounded away: 0.2 mm stays 0.2 mm.
    """
    value = quantity.to(unit)
    size = abs(value)
    exact = _GIVEN.get(unit)
    if given and exact and size < _GIVEN_BELOW.get(unit, 1e9) and (
        abs(size / exact - round(size / exact)) < 1e-6
    ):
        return _tidy(half_up(value, exact))
    step = _FINE.get(unit, 0.0) if fine else next(
        step for below, step in _STEPS.get(unit, _COARSE) if size < below or below == 1e99
    )
    if unit == "count" and abs(size - round(size)) < 1e-6:
        step = 1.0
    result = half_up(value, step) if step else significant(value, 4 if fine else 3)
    return _tidy(result if result or not value else significant(value, 2))


def significant(value: float, digits: int) -> float:
    """The value to so many significant digits."""
    power = floor(log10(abs(value))) if value else 0
    if not value or power > 14:
        return value
    return _tidy(half_up(value, 10.0 ** (power + 1 - digits)))


def _tidy(value: float) -> float:
    # 98.00000000000001 is not what anybody measured; -0 is nothing.
    return float(f"{value:.10g}") + 0.0
