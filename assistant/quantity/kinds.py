"""Kinds: a number with its unit, held exactly enough to be compared unrounded.

Owns the kinds of quantity, their units and factors, and what two kinds make when multiplied.
Reading them out of words is read.py's, putting them into words write.py's.
"""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Any, Self

from assistant.quantity.base import BadQuantity, Quantity

__all__ = [
    "KINDS", "UNITS", "Area", "ArealMass", "BadQuantity", "Concentration", "Count", "Duration",
    "Flow", "Length", "Mass", "MassConcentration", "Money", "Pressure", "Quantity", "Rate",
    "Ratio", "Temperature", "TemperatureDifference", "Volume", "kind_of", "of",
]

# Factors to the SI unit. The inch, the pound, the gallon and what follows from them are exact by
# definition; psi follows from the pound-force and standard gravity. NIST SP 811 (2008), B.8
# (values from memory; they agree with two reference libraries, see tests/quantity).
INCH = 0.0254
FOOT = 0.3048
YARD = 0.9144
CUBIC_FOOT = 0.028316846592
POUND = 0.45359237
GALLON = 3.785411784e-3
PSI = POUND * 9.80665 / INCH**2
ABSOLUTE_ZERO_C = -273.15


class Length(Quantity):
    """A length in metres."""

    __slots__ = ()
    kind = "length"
    units = {
        "in": INCH, "ft": FOOT, "yd": YARD, "mil": INCH / 1000,
        "mm": 1e-3, "cm": 1e-2, "m": 1.0, "um": 1e-6, "km": 1e3, "mi": 1609.344,
    }


class Area(Quantity):
    """An area in square metres."""

    __slots__ = ()
    kind = "area"
    # The squares of the factors of length, written out: FOOT**2 ends in ...40000000001.
    units = {
        "m2": 1.0, "ft2": 0.09290304, "yd2": 0.83612736, "in2": 6.4516e-4, "cm2": 1e-4,
        "mm2": 1e-6,
    }


class Volume(Quantity):
    """A volume in cubic metres; ounces are US unless said."""

    __slots__ = ()
    kind = "volume"
    units = {
        "mL": 1e-6, "L": 1e-3, "floz": GALLON / 128, "m3": 1.0, "ft3": CUBIC_FOOT,
        "gal": GALLON, "qt": GALLON / 4, "pt": GALLON / 8, "impfloz": 28.4130625e-6,
    }


class Mass(Quantity):
    """A mass in kilograms."""

    __slots__ = ()
    kind = "mass"
    units = {"g": 1e-3, "kg": 1.0, "lb": POUND, "oz": POUND / 16, "mg": 1e-6}


class Duration(Quantity):
    """A length of time in seconds; a year is 365.25 days, a month a twelfth of it."""

    __slots__ = ()
    kind = "duration"
    units = {
        "s": 1.0, "min": 60.0, "h": 3600.0, "day": 86400.0, "week": 604800.0,
        "month": 31557600.0 / 12, "year": 31557600.0,
    }


class TemperatureDifference(Quantity):
    """A difference of two temperatures, in kelvin."""

    __slots__ = ()
    kind = "temperature_difference"
    units = {"dC": 1.0, "dF": 1 / 1.8}

    @classmethod
    def celsius(cls, value: float) -> Self:
        return cls.of(value, "dC")

    @classmethod
    def fahrenheit(cls, value: float) -> Self:
        return cls.of(value, "dF")


class Temperature(Quantity):
    """A temperature in kelvin. Two readings subtract to a difference and do not add."""

    __slots__ = ()
    kind = "temperature"
    units = {"degC": 1.0, "degF": 1 / 1.8, "K": 1.0}

    def __init__(self, si: float) -> None:
        if si < 0:
            raise BadQuantity("that is below absolute zero (-459.67 °F, -273.15 °C)")
        super().__init__(si)

    @classmethod
    def of(cls, value: float, unit: str) -> Self:
        if unit == "degC":
            return cls(_kelvin(float(value) - ABSOLUTE_ZERO_C))
        if unit == "degF":
            return cls(_kelvin((float(value) + 459.67) / 1.8))
        return super().of(value, unit)

    def to(self, unit: str) -> float:
        if unit == "degC":
            return self.si + ABSOLUTE_ZERO_C
        if unit == "degF":
            return self.si * 1.8 - 459.67
        return super().to(unit)

    @classmethod
    def celsius(cls, value: float) -> Self:
        return cls.of(value, "degC")

    @classmethod
    def fahrenheit(cls, value: float) -> Self:
        return cls.of(value, "degF")

    def __add__(self, other: object) -> Any:
        if isinstance(other, TemperatureDifference):
            return Temperature(self.si + other.si)
        return NotImplemented

    def __radd__(self, other: object) -> Any:
        return self.__add__(other)

    def __sub__(self, other: object) -> Any:
        if isinstance(other, TemperatureDifference):
            return Temperature(self.si - other.si)
        if isinstance(other, Temperature):
            return TemperatureDifference(self.si - other.si)
        return NotImplemented

    def __neg__(self) -> Self:
        raise TypeError("a temperature has no negative; it may be below zero")

    def __mul__(self, other: object) -> Any:
        return NotImplemented

    __rmul__ = __mul__

    def __truediv__(self, other: object) -> Any:
        return NotImplemented


def _kelvin(value: float) -> float:
    # -459.67 °F is 0 K, but not quite in binary.
    return 0.0 if -1e-9 < value < 0 else value


class Ratio(Quantity):
    """A part of a whole: 0.6 is 60 percent."""

    __slots__ = ()
    kind = "ratio"
    units = {"percent": 0.01, "ratio": 1.0}


class Pressure(Quantity):
    """A pressure in pascals."""

    __slots__ = ()
    kind = "pressure"
    units = {"psi": PSI, "bar": 1e5, "kPa": 1e3, "Pa": 1.0, "mmHg": 133.322387415}


class ArealMass(Quantity):
    """A mass per area, kg/m2: the weight of a film."""

    __slots__ = ()
    kind = "areal_mass"
    units = {"g/m2": 1e-3, "kg/m2": 1.0}


class Concentration(Quantity):
    """A part of the air by volume, as a fraction."""

    __slots__ = ()
    kind = "concentration"
    units = {"ppm": 1e-6}


class MassConcentration(Quantity):
    """A mass in a volume of air, kg/m3."""

    __slots__ = ()
    kind = "mass_concentration"
    units = {"mg/m3": 1e-6, "g/m3": 1e-3}


class Rate(Quantity):
    """So many times a second: air changes."""

    __slots__ = ()
    kind = "rate"
    units = {"per_h": 1 / 3600}


class Flow(Quantity):
    """A volume per time, m3/s."""

    __slots__ = ()
    kind = "flow"
    units = {"m3/h": 1 / 3600, "cfm": CUBIC_FOOT / 60}


class Count(Quantity):
    """So many of something."""

    __slots__ = ()
    kind = "count"
    units = {"count": 1.0}


class Money(Quantity):
    """An amount of money, exact to the last digit that was given (`amount`, a Decimal)."""

    __slots__ = ("amount",)
    kind = "money"
    units = {"money": 1.0}
    amount: Decimal

    def __init__(self, amount: Decimal | float | str) -> None:
        try:
            exact = amount if isinstance(amount, Decimal) else Decimal(str(amount))
        except InvalidOperation:
            raise BadQuantity(f"{amount!r} is no amount of money") from None
        super().__init__(float(exact))
        object.__setattr__(self, "amount", exact)

    @classmethod
    def of(cls, value: float | Decimal | str, unit: str = "money") -> Self:
        if unit != "money":
            raise BadQuantity(f"{unit!r} is no unit of money")
        return cls(value)  # type: ignore[arg-type]

    def __add__(self, other: object) -> Self:
        return Money(self.amount + other.amount) if self._same(other) else NotImplemented

    def __sub__(self, other: object) -> Any:
        return Money(self.amount - other.amount) if self._same(other) else NotImplemented

    def __neg__(self) -> Self:
        return type(self)(-self.amount)

    def __mul__(self, factor: object) -> Any:
        if isinstance(factor, (int, Decimal)):
            return Money(self.amount * factor)
        if isinstance(factor, float):
            return Money(self.amount * Decimal(str(factor)))
        return NotImplemented

    __rmul__ = __mul__

    def __reduce__(self) -> tuple:
        return Money, (self.amount,)


def _multiply(one: type[Quantity], other: type[Quantity], product: type[Quantity]) -> None:
    for first, second in ((one, other), (other, one)):
        Quantity.products[first, second] = product
        Quantity.quotients[product, second] = first


_multiply(Length, Length, Area)
_multiply(Area, Length, Volume)
_multiply(ArealMass, Area, Mass)
_multiply(MassConcentration, Volume, Mass)
_multiply(Rate, Volume, Flow)
_multiply(Flow, Duration, Volume)

KINDS: dict[str, type[Quantity]] = {
    kind.kind: kind
    for kind in (
        Length, Area, Volume, Mass, Duration, Temperature, TemperatureDifference, Ratio, Pressure,
        ArealMass, Concentration, MassConcentration, Rate, Flow, Count, Money,
    )
}
UNITS: dict[str, type[Quantity]] = {
    unit: kind for kind in KINDS.values() for unit in kind.units
}


def of(value: float, unit: str) -> Quantity:
    """The quantity of a value in a unit, its kind told by the unit.

    Raises BadQuantity naming the unit when nobody knows it.
    """
    kind = UNITS.get(unit)
    if kind is None:
        raise BadQuantity(f"{unit!r} is no unit; one of {', '.join(UNITS)}")
    return kind.of(value, unit)


def kind_of(unit: str) -> str:
    """The name of the kind a unit measures. Raises BadQuantity for an unknown unit."""
    kind = UNITS.get(unit)
    if kind is None:
        raise BadQuantity(f"{unit!r} is no unit; one of {', '.join(UNITS)}")
    return kind.kind
