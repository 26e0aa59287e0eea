"""Systems: which unit a quantity is told in, in each of the two systems.

Owns the pairs of units and the choice by size where nobody chose. How many digits are shown is
rounding.py's.
"""

from __future__ import annotations

from enum import StrEnum
from math import inf

from assistant.quantity.kinds import FOOT, GALLON, INCH, UNITS, Quantity, kind_of


class System(StrEnum):
    """The person's units: US customary or metric."""

    US = "us"
    METRIC = "metric"


# Units by size: each row holds up to its bound, in the SI unit of the kind.
_Rows = tuple[tuple[float, str], ...]
_LONG_IN_INCHES = 20 * FOOT  # as far as people count a tape in inches
_TAPE: _Rows = ((1.0, "mm"), (inf, "m"))
_JUG: _Rows = ((1e-3, "mL"), (inf, "L"))
_US_JUG: _Rows = ((GALLON, "floz"), (inf, "gal"))
_SCALE: _Rows = ((1.0, "g"), (inf, "kg"))
# Never by itself in ounces: those are fluid until somebody says otherwise.
_US_SCALE: _Rows = ((inf, "lb"),)

# The unit of the other system that a person would read beside this one.
_METRIC_FOR: dict[str, _Rows] = {
    "in": _TAPE, "ft": _TAPE, "yd": _TAPE, "floz": _JUG, "gal": _JUG, "qt": _JUG, "pt": _JUG,
    "impfloz": _JUG, "oz": _SCALE, "lb": _SCALE,
} | {
    unit: ((inf, metric),) for unit, metric in {
        "mil": "um", "mi": "km", "degF": "degC", "dF": "dC", "ft2": "m2", "yd2": "m2",
        "in2": "cm2", "ft3": "m3", "psi": "bar", "cfm": "m3/h",
    }.items()
}
_US_FOR: dict[str, _Rows] = {
    "m": ((_LONG_IN_INCHES, "in"), (inf, "ft")), "mL": _US_JUG, "L": _US_JUG, "g": _US_SCALE,
    "kg": _US_SCALE, "mg": _US_SCALE,
} | {
    unit: ((inf, us),) for unit, us in {
        "mm": "in", "cm": "in", "um": "mil", "km": "mi", "degC": "degF", "dC": "dF", "K": "degF",
        "m2": "ft2", "cm2": "in2", "mm2": "in2", "m3": "ft3", "bar": "psi", "kPa": "psi",
        "Pa": "psi", "m3/h": "cfm",
    }.items()
}
# Both systems read these alike, or the trade knows but one: no second form.
SHARED = frozenset(UNITS) - frozenset(_METRIC_FOR) - frozenset(_US_FOR)

# What a person of each system uses where nobody chose a unit.
_HOURS, _DAYS, _YEARS = 3600.0, 86400.0, 31557600.0
_TIME: _Rows = (
    (120.0, "s"), (_HOURS, "min"), (3 * _DAYS + 1, "h"), (2 * _YEARS, "day"), (inf, "year"),
)
_BY_SIZE: dict[str, tuple[_Rows, _Rows]] = {
    "length": (
        ((INCH / 32, "mil"), (_LONG_IN_INCHES, "in"), (inf, "ft")), ((5e-4, "um"), *_TAPE),
    ),
    "volume": (
        ((GALLON, "floz"), (0.5, "gal"), (inf, "ft3")), ((1e-3, "mL"), (0.5, "L"), (inf, "m3")),
    ),
    "mass": (_US_SCALE, _SCALE),
    "duration": (_TIME, _TIME),
} | {
    kind: (((inf, us),), ((inf, metric),)) for kind, us, metric in (
        ("area", "ft2", "m2"), ("temperature", "degF", "degC"),
        ("temperature_difference", "dF", "dC"), ("pressure", "psi", "bar"),
        ("ratio", "percent", "percent"), ("concentration", "ppm", "ppm"),
        ("mass_concentration", "mg/m3", "mg/m3"), ("areal_mass", "g/m2", "g/m2"),
        ("rate", "per_h", "per_h"), ("flow", "cfm", "m3/h"), ("count", "count", "count"),
        ("money", "money", "money"),
    )
}
# Nothing at all is told in the unit of the tape, the scale, the clock.
_NOTHING = {"length": 0.1, "mass": 1.0, "duration": 600.0}

# A reply's figure carries a unit of the JSON contract; what nobody chose is converted to one.
_CONTRACT = {
    "s": "min", "month": "day", "mi": "ft", "km": "m", "K": "degC", "yd2": "ft2", "in2": "ft2",
    "cm2": "m2", "mm2": "m2", "gal": "floz", "qt": "floz", "pt": "floz", "impfloz": "floz",
    "lb": "kg", "oz": "g", "mg": "g", "kPa": "bar", "Pa": "bar", "mmHg": "bar", "g/m3": "mg/m3",
    "kg/m2": "g/m2", "cfm": "m3/h",
}


def _row(rows: _Rows, quantity: Quantity | None) -> str:
    # A hair below the bound belongs to it: 1 m held as 0.9999999999999999.
    size = 0.0 if quantity is None else abs(quantity.si) * (1 + 1e-9)
    return next(unit for bound, unit in rows if size < bound)


def unit_in(unit: str, system: System, quantity: Quantity | None = None) -> str:
    """The unit that stands for `unit` in a system; itself when it belongs there or to both.

    quantity  lets the counterpart fit its size: millimetres below a metre, metres from there
    """
    if unit in SHARED:
        return unit
    own, other = (_METRIC_FOR, _US_FOR) if system == System.US else (_US_FOR, _METRIC_FOR)
    return unit if unit in own else _row(other[unit], quantity)


def unit_for(quantity: Quantity, system: System, wanted: str | None = None) -> str:
    """The unit in which a person of the system is told a quantity.

    wanted  a unit to keep to: itself, or its counterpart in the system. A unit of another kind
            is passed over, save that degF asks a difference to be told in dF.
    """
    if wanted is not None:
        wanted = wanted_of(quantity, wanted)
        if wanted is not None:
            return unit_in(wanted, system, quantity)
    us, metric = _BY_SIZE[quantity.kind]
    size = type(quantity)(_NOTHING[quantity.kind]) if (
        quantity.si == 0 and quantity.kind in _NOTHING
    ) else quantity
    return _row(us if system == System.US else metric, size)


def wanted_of(quantity: Quantity, wanted: str) -> str | None:
    """The unit wanted, if it can tell this quantity."""
    scales = {"degF": "dF", "degC": "dC"} if quantity.kind == "temperature_difference" else {}
    wanted = scales.get(wanted, wanted)
    return wanted if kind_of(wanted) == quantity.kind else None


def bracket_unit(quantity: Quantity, code: str, system: System, wanted: str | None) -> str | None:
    """The unit of the brackets behind `code`; None where one form is enough."""
    if code in SHARED:
        return None
    if wanted is not None:
        # What was asked for, or stored, stands in the brackets when it is not already in front.
        kept = wanted_of(quantity, wanted)
        if kept is not None and kept != code:
            return kept
    other = System.METRIC if system == System.US else System.US
    return unit_in(code, other, quantity)


def contract_unit(code: str, wanted: str | None) -> str:
    """The unit a figure carries: one of the contract, unless that very unit was asked for."""
    return code if code == wanted else _CONTRACT.get(code, code)
