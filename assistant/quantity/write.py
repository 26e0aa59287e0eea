"""Write: a quantity in words, the person's own system first, the other in brackets.

Owns the wording of numbers and units. Which unit is systems.py's, how many digits rounding.py's;
nothing outside these rounds. Verdicts are reached before anything comes here.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from assistant.quantity.kinds import Money, Quantity
from assistant.quantity.rounding import rounded, significant
from assistant.quantity.systems import (
    System,
    bracket_unit,
    contract_unit,
    unit_for,
    unit_in,
    wanted_of,
)

__all__ = ["System", "figure_value", "show", "show_range", "unit_in"]

_NAMES = {
    "degF": "°F", "degC": "°C", "dF": "°F", "dC": "°C", "um": "µm", "percent": "%", "m2": "m²",
    "ft2": "ft²", "yd2": "yd²", "in2": "in²", "cm2": "cm²", "mm2": "mm²", "m3": "m³",
    "ft3": "ft³", "floz": "fl oz", "impfloz": "imp fl oz", "oz": "oz by weight",
    "g/m2": "g/m²", "kg/m2": "kg/m²",
    "mg/m3": "mg/m³", "g/m3": "g/m³", "m3/h": "m³/h", "count": "", "ratio": "", "money": "",
}
_ONE_AND_MORE = {
    "day": ("day", "days"), "week": ("week", "weeks"), "month": ("month", "months"),
    "year": ("year", "years"),
    "per_h": ("air change per hour", "air changes per hour"),
}


def figure_value(
    quantity: Quantity, system: System = System.US, unit: str | None = None, fine: bool = False
) -> tuple[float, str]:
    """The number as it is shown, and its unit code: what a reply's figure carries.

    unit  the unit wanted; the other system's counterpart is taken when it belongs there
    fine  a worked-out number, told finer than a tape or a thermometer on the wall reads
    A whole number comes as an int, so that JSON says 225 and not 225.0. Where nobody asked for a
    unit outside the JSON contract (pounds, gallons), the figure is in one inside it.
    """
    shown = unit_for(quantity, system, unit)
    code = contract_unit(shown, unit)
    if isinstance(quantity, Money):
        value = float(quantity.amount)
    elif code == shown or code == bracket_unit(quantity, shown, system, unit):
        value = rounded(quantity, code, fine, _is_given(quantity, code, unit))
    else:
        value = significant(quantity.to(code), 5)
    return (int(value) if value == int(value) else value), code


def show(
    quantity: Quantity, system: System = System.US, second: bool = True, unit: str | None = None,
    fine: bool = False,
) -> str:
    """A quantity in words: `225 °F (107 °C)`, `98 in (2.49 m)`, `3 in (76 mm)`, `5 °F (3 °C)`.

    second  whether the other system follows in brackets
    unit    the unit wanted, or its counterpart in the person's system; a number that was given in
            it keeps its own digits
    fine    a worked-out number: tenths of a degree, inches in decimals
    """
    code = unit_for(quantity, system, unit)
    first = _told(quantity, code, unit, fine)
    other = bracket_unit(quantity, code, system, unit) if second else None
    if other is None or other == code:
        return first
    return f"{first} ({_told(quantity, other, unit, fine)})"


def show_range(
    low: Quantity, high: Quantity, system: System = System.US, second: bool = True,
    unit: str | None = None, fine: bool = False,
) -> str:
    """A range in words: `185-195 °F (85-91 °C)`, `1/4-1/2 in (6-13 mm)`, `-3 to 5 °C (27-41 °F)`.

    Both ends are told in the unit that fits the upper one. Arguments as of `show`.
    """
    if low == high:
        return show(low, system, second, unit, fine)
    code = unit_for(high, system, unit)
    first = _ends(low, high, code, unit, fine)
    other = bracket_unit(high, code, system, unit) if second else None
    if other is None or other == code:
        return first
    return f"{first} ({_ends(low, high, other, unit, fine)})"


def _is_given(quantity: Quantity, code: str, unit: str | None) -> bool:
    return unit is not None and wanted_of(quantity, unit) == code


def _told(quantity: Quantity, code: str, unit: str | None, fine: bool) -> str:
    if isinstance(quantity, Money):
        return f"{quantity.amount:.2f}"
    value = rounded(quantity, code, fine, _is_given(quantity, code, unit))
    return _joined(_number(value, code, fine), _name(code, value))


def _ends(low: Quantity, high: Quantity, code: str, unit: str | None, fine: bool) -> str:
    if isinstance(low, Money) and isinstance(high, Money):
        return f"{low.amount:.2f}-{high.amount:.2f}"
    values = [rounded(end, code, fine, _is_given(end, code, unit)) for end in (low, high)]
    numbers = [_number(value, code, fine) for value in values]
    if numbers[0] == numbers[1]:
        return _joined(numbers[1], _name(code, values[1]))
    # "-3--1" would be read wrongly, "1 1/4-2 1/2" slowly.
    dash = not any(" " in number or number.startswith("-") for number in numbers)
    return _joined(("-" if dash else " to ").join(numbers), _name(code, values[1]))


def _number(value: float, code: str, fine: bool) -> str:
    if code == "in" and not fine:
        inches = _in_fractions(value)
        if inches is not None:
            return inches
    if code == "m" and not fine and value != int(value) and round(value, 2) == value:
        return f"{value:.2f}"
    # No marks between thousands: "2,452 mm" reads as two and a half where the comma is decimal.
    text = format(Decimal(repr(float(value))), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _in_fractions(value: float) -> str | None:
    """`5 1/8`, as a tape is read; None where the number is no part of 64."""
    whole = int(abs(value))
    part = Fraction(abs(value) - whole).limit_denominator(64)
    if abs(float(part) - (abs(value) - whole)) > 1e-6 or 64 % part.denominator:
        return None
    sign = "-" if value < 0 else ""
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def _name(code: str, value: float) -> str:
    if code in _ONE_AND_MORE:
        return _ONE_AND_MORE[code][abs(value) != 1]
    return _NAMES.get(code, code)


def _joined(number: str, name: str) -> str:
    return f"{number}%" if name == "%" else f"{number} {name}".strip()
