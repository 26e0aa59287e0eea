"""Write: a quantity in words, the person's own system first, the other in brackets.

Owns rounding, and is the only place that rounds: to what a tape measure, a thermometer or a jug can
show. Verdicts are reached before anything comes here.
"""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from math import floor, isclose

from assistant.quantity.kinds import Money, Quantity, kind_of


class System(StrEnum):
    """The person's units: US customary or metric."""

    US = "us"
    METRIC = "metric"


# The unit of the other system that a person would read beside this one.
_PAIRS = {
    "in": "mm", "ft": "m", "yd": "m", "mil": "um", "degF": "degC", "dF": "dC", "ft2": "m2",
    "yd2": "m2", "in2": "cm2", "ft3": "m3", "floz": "mL", "gal": "L", "qt": "L", "pt": "mL",
    "psi": "bar", "lb": "kg", "oz": "g", "mi": "km", "cfm": "m3/h", "impfloz": "mL",
}
_BACK = {
    "mm": "in", "cm": "in", "m": "in", "um": "mil", "degC": "degF", "dC": "dF", "m2": "ft2",
    "cm2": "in2", "mm2": "in2", "m3": "ft3", "mL": "floz", "L": "gal", "bar": "psi",
    "kPa": "psi", "kg": "lb", "g": "oz", "km": "mi",
}
# Units that both systems read alike; they get no second form.
_SHARED = frozenset(
    "percent ratio s min h day week month year ppm mg/m3 g/m3 per_h count money m3/h g/m2 kg/m2 "
    "mmHg Pa K mg".split()
)
_DEFAULTS = {
    "length": ("in", "mm"), "area": ("ft2", "m2"), "volume": ("floz", "mL"),
    "mass": ("lb", "kg"), "duration": ("h", "h"), "temperature": ("degF", "degC"),
    "temperature_difference": ("dF", "dC"), "ratio": ("percent", "percent"),
    "pressure": ("psi", "bar"), "areal_mass": ("g/m2", "g/m2"), "concentration": ("ppm", "ppm"),
    "mass_concentration": ("mg/m3", "mg/m3"), "rate": ("per_h", "per_h"),
    "flow": ("m3/h", "m3/h"), "count": ("count", "count"), "money": ("money", "money"),
}
_NAMES = {
    "degF": "°F", "degC": "°C", "dF": "°F", "dC": "°C", "um": "µm", "percent": "%", "m2": "m²",
    "ft2": "ft²", "yd2": "yd²", "in2": "in²", "cm2": "cm²", "mm2": "mm²", "m3": "m³",
    "ft3": "ft³", "floz": "fl oz", "impfloz": "imp fl oz", "g/m2": "g/m²", "kg/m2": "kg/m²",
    "mg/m3": "mg/m³", "g/m3": "g/m³", "m3/h": "m³/h", "per_h": "an hour", "K": "K",
    "count": "", "ratio": "", "money": "",
}
_PLURALS = {"day": "days", "week": "weeks", "month": "months", "year": "years"}
_METRE = 1.0
_TAPE_INCHES = 120.0  # a tape is read in sixteenths up to here, in halves beyond


def unit_in(unit: str, system: System, quantity: Quantity | None = None) -> str:
    """The unit that stands for `unit` in a system; itself when it belongs there or to both.

    quantity  lets lengths choose between millimetres and metres
    """
    if unit in _SHARED:
        return unit
    is_us = unit in _PAIRS
    if system == System.US:
        return unit if is_us else _BACK.get(unit, unit)
    if not is_us:
        return unit
    metric = _PAIRS[unit]
    if unit == "in" and quantity is not None and abs(quantity.to("m")) >= _METRE:
        return "m"
    return metric


def _unit_for(quantity: Quantity, system: System, unit: str | None) -> str:
    if unit is None or kind_of(unit) != quantity.kind:
        us, metric = _DEFAULTS[quantity.kind]
        unit = us if system == System.US else metric
        if unit == "mm" and abs(quantity.to("m")) >= _METRE:
            unit = "m"
        if unit == "in" and 0 < abs(quantity.to("in")) < 1 / 32:
            unit = "mil"
        if unit == "mm" and 0 < abs(quantity.to("mm")) < 0.5:
            unit = "um"
        if unit == "h" and 0 < abs(quantity.to("h")) < 1:
            unit = "min"
        return unit
    return unit_in(unit, system, quantity)


def _half_up(value: float, step: float) -> float:
    """The nearest multiple of a step, halves away from zero as people round."""
    scaled = abs(value) / step
    # 0.3 / 0.1 is 2.9999999999999996: without the nudge a true half would fall.
    rounded = floor(scaled + 0.5 + 1e-9) * step
    return -rounded if value < 0 else rounded


def _significant(value: float, digits: int) -> float:
    return float(f"{value:.{digits}g}") if value else 0.0


def _step(quantity: Quantity, unit: str) -> float:
    """What the instrument that reads this unit can tell apart; 0 for significant digits."""
    size = abs(quantity.to(unit))
    if unit == "in":
        return 1 / 16 if size < _TAPE_INCHES else 0.5
    if unit in ("mm", "um"):
        return 1.0 if size >= 10 else 0.5 if unit == "mm" else 1.0
    if unit == "cm":
        return 0.1
    if unit in ("m", "bar"):
        return 0.01
    if unit in ("ft", "yd"):
        return 0.1
    if unit == "mil":
        return 0.1
    if unit in ("degF", "degC"):
        return 1.0
    if unit in ("dF", "dC"):
        return 1.0 if size >= 3 else 0.5
    if unit == "percent":
        return 1.0 if size >= 10 else 0.1
    if unit in ("m2", "ft2", "yd2", "gal", "L", "kg", "lb"):
        return 0.01 if unit == "m2" or size < 10 else 0.1 if size < 100 else 1.0
    if unit in ("mL", "g", "ppm", "mg/m3"):
        return 1.0 if size >= 10 else 0.1
    if unit in ("floz", "oz"):
        return 0.1
    if unit in ("min", "s"):
        return 1.0
    if unit == "h":
        return 0.1 if size >= 1 else 0.01
    if unit in ("day", "week", "month", "year", "per_h"):
        return 0.1
    if unit == "count":
        return 1.0 if isclose(size, round(size), abs_tol=1e-6) else 0.1
    if unit == "money":
        return 0.01
    return 0.0


# What a worked-out number is told to, where it is wanted finer than the instrument reads.
_FINE = {
    "in": 0.01, "mm": 0.1, "cm": 0.01, "m": 0.001, "um": 0.1, "mil": 0.01, "ft": 0.01, "yd": 0.01,
    "degF": 0.1, "degC": 0.1, "dF": 0.1, "dC": 0.1, "percent": 0.1,
}


def _rounded(quantity: Quantity, unit: str, fine: bool = False) -> float:
    value = quantity.to(unit)
    step = _FINE.get(unit, 0.0) if fine else _step(quantity, unit)
    if unit == "mm" and 0 < abs(value) < 0.25:
        return _significant(value, 2)
    rounded = _half_up(value, step) if step else _significant(value, 4)
    if rounded == 0 and value != 0 and step:
        return _significant(value, 2)
    # 98.00000000000001 and 0.1 + 0.2 are not what anybody measured.
    return float(f"{rounded:.10g}")


def _number_words(value: float, unit: str, fine: bool = False) -> str:
    if unit == "in" and not fine:
        whole = int(abs(value))
        part = Fraction(abs(value) - whole).limit_denominator(16)
        if part and abs(float(part) - (abs(value) - whole)) < 1e-9:
            sign = "-" if value < 0 else ""
            return f"{sign}{whole} {part}" if whole else f"{sign}{part}"
    if unit == "money":
        return f"{value:,.2f}"
    if unit == "m" and not fine:
        return f"{value:.2f}".rstrip("0").rstrip(".") if value == int(value) else f"{value:.2f}"
    # "2,452 mm" reads as two and a half where the comma is the decimal mark.
    mark = "," if abs(value) >= 10_000 else ""
    text = f"{value:{mark}.10g}" if abs(value) >= 1e-4 else f"{value:.10f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _name(unit: str, value: float) -> str:
    if unit in _PLURALS:
        return unit if abs(value) == 1 else _PLURALS[unit]
    return _NAMES.get(unit, unit)


def _joined(number: str, name: str) -> str:
    return f"{number}%" if name == "%" else f"{number} {name}".strip()


def _one(quantity: Quantity, unit: str, fine: bool = False) -> str:
    if isinstance(quantity, Money):
        return f"{quantity.amount:,.2f}"
    value = _rounded(quantity, unit, fine)
    return _joined(_number_words(value, unit, fine), _name(unit, value))


def _other_unit(code: str, wanted: str | None, system: System, quantity: Quantity) -> str:
    """The unit for the brackets: the one that was wanted, when it is not already in front."""
    other = System.METRIC if system == System.US else System.US
    if wanted is not None and wanted != code and kind_of(wanted) == quantity.kind:
        return wanted
    return unit_in(code, other, quantity)


def figure_value(
    quantity: Quantity, system: System = System.US, unit: str | None = None, fine: bool = False
) -> tuple[float, str]:
    """The number as it is shown, and its unit code: what a reply's figure carries.

    unit  the unit wanted; the other system's counterpart is taken when it belongs there
    fine  a worked-out number, told finer than a tape or a thermometer on the wall reads
    A whole number comes as an int, so that JSON says 225 and not 225.0.
    """
    code = _unit_for(quantity, system, unit)
    if code == "month":
        code = "day"
    if isinstance(quantity, Money):
        value = float(quantity.amount)
    else:
        value = _rounded(quantity, code, fine)
    return (int(value) if value == int(value) else value), code


def show(
    quantity: Quantity, system: System = System.US, second: bool = True, unit: str | None = None,
    fine: bool = False,
) -> str:
    """A quantity in words: `225 °F (107 °C)`, `98 in (2.49 m)`, `3 in (76 mm)`, `5 °F (3 °C)`.

    second  whether the other system follows in brackets
    unit    the unit wanted, or its counterpart in the person's system
    fine    a worked-out number: tenths of a degree, inches in decimals
    """
    code = _unit_for(quantity, system, unit)
    first = _one(quantity, code, fine)
    if not second or code in _SHARED:
        return first
    other = _other_unit(code, unit, system, quantity)
    return first if other == code else f"{first} ({_one(quantity, other, fine)})"


def show_range(
    low: Quantity, high: Quantity, system: System = System.US, second: bool = True,
    unit: str | None = None,
) -> str:
    """A range in words: `185-195 °F (85-91 °C)`, `1/4-1/2 in (6.5-13 mm)`."""
    code = _unit_for(high, system, unit)

    def ends(unit_code: str) -> str:
        bottom, top = _rounded(low, unit_code), _rounded(high, unit_code)
        name = _name(unit_code, top)
        numbers = [_number_words(value, unit_code) for value in (bottom, top)]
        # "-3--1" would be read wrongly, and "1 1/4-2 1/2" at least slowly.
        joint = " to " if any(" " in number or number.startswith("-") for number in numbers) else (
            "-"
        )
        return _joined(joint.join(numbers), name)

    first = ends(code)
    if not second or code in _SHARED:
        return first
    other = _other_unit(code, unit, system, high)
    return first if other == code else f"{first} ({ends(other)})"
