"""Convert: a quantity told in another unit.

Owns the choice of the unit wanted, or of the counterpart when none is named. The factors are
quantity/kinds.py's, the wording quantity/write.py's.
"""

from __future__ import annotations

from assistant.calculations.base import Impossible, Missing, NamedFigure, Result, Setting
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import (
    UNITS,
    Area,
    ArealMass,
    Flow,
    Length,
    Mass,
    Pressure,
    Quantity,
    Temperature,
    TemperatureDifference,
    Volume,
)
from assistant.quantity.write import System, show, show_range, unit_in

_SLOTS = (
    "temperature", "difference", "length", "area", "volume", "pressure", "mass", "areal_mass",
    "flow",
)
# A target that a person names as a temperature's serves a difference, and the other way round.
_DIFFERENCE = {"degF": "dF", "degC": "dC"}
_READING = {"dF": "degF", "dC": "degC"}
_SAID = {
    "degF": "°F", "degC": "°C", "dF": "°F of difference", "dC": "°C of difference",
    "um": "µm", "m2": "m²", "ft2": "ft²", "m3": "m³", "ft3": "ft³", "yd2": "yd²", "floz": "fl oz",
    "impfloz": "imperial fl oz", "g/m2": "g/m²", "m3/h": "m³/h",
}


class Inputs(BaseInputs):
    """One quantity, in the slot of its kind, the upper end of a range, and the unit code wanted.

    to  a unit code of quantity/kinds.py, `to-` before it or not; without it the counterpart in
        the other system
    """

    temperature: Temperature | None = None
    difference: TemperatureDifference | None = None
    length: Length | None = None
    area: Area | None = None
    volume: Volume | None = None
    pressure: Pressure | None = None
    mass: Mass | None = None
    areal_mass: ArealMass | None = None
    flow: Flow | None = None
    temperature_to: Temperature | None = None
    difference_to: TemperatureDifference | None = None
    length_to: Length | None = None
    to: str | None = None


def counterpart(quantity: Quantity, system: System) -> str:
    """The unit that somebody of a system would want a quantity in.

    Lengths by size: film thickness under 1 mm, tape measure under 5 m, roll length beyond.
    """
    us = system == System.US
    if isinstance(quantity, Length):
        size = abs(quantity.si)
        if size < 1e-3:
            return "mil" if us else "um"
        if size < 5:
            return "in" if us else ("mm" if size < 0.1 else "cm" if size < 1 else "m")
        return "yd" if us else "m"
    if isinstance(quantity, Volume):
        if quantity.si < 4e-3:
            return "floz" if us else ("mL" if quantity.si < 1e-3 else "L")
        if quantity.si < 0.5:
            return "gal" if us else "L"
        return "ft3" if us else "m3"
    if isinstance(quantity, Mass):
        return ("oz" if us else "g") if quantity.si < 0.45 else ("lb" if us else "kg")
    pairs: dict[type[Quantity], tuple[str, str]] = {
        Temperature: ("degF", "degC"), TemperatureDifference: ("dF", "dC"), Area: ("ft2", "m2"),
        Pressure: ("psi", "bar"), ArealMass: ("g/m2", "g/m2"), Flow: ("cfm", "m3/h"),
    }
    return pairs[type(quantity)][0 if us else 1]


def unit_words(code: str) -> str:
    """A unit code as a person reads it."""
    return _SAID.get(code, code)


def _kind(quantity: Quantity) -> str:
    article = "an" if quantity.kind[0] in "aeiou" else "a"
    return f"{article} {quantity.kind.replace('_', ' ')}"


def told_in(code: str, quantity: Quantity) -> System:
    """The system whose unit a code is: the one in which it stands for itself."""
    return System.US if unit_in(code, System.US, quantity) == code else System.METRIC


def _target(
    quantity: Quantity, to: str | None, setting: Setting, said_in: str | None, fits_another: bool
) -> str:
    """The unit wanted of a quantity; the counterpart of its own where none is named for it."""
    if to is not None:
        to = to.removeprefix("to-")
        if isinstance(quantity, TemperatureDifference):
            to = _DIFFERENCE.get(to, to)
        elif isinstance(quantity, Temperature):
            to = _READING.get(to, to)
        if UNITS.get(to) is type(quantity):
            return to
        if not fits_another:
            said = _as_said(quantity, None, said_in or counterpart(quantity, setting.system))
            raise Impossible(
                "to", f"{said} is {_kind(quantity)}; it cannot be told in {unit_words(to)}."
            )
    own = told_in(said_in, quantity) if said_in is not None else setting.system
    return counterpart(quantity, System.METRIC if own == System.US else System.US)


def _start(quantity: Quantity, to: str, setting: Setting) -> str:
    """The unit to convert from where the person's own is not known: the one that fits it."""
    start = counterpart(quantity, setting.system)
    if start == to:
        start = counterpart(
            quantity, System.METRIC if setting.system == System.US else System.US
        )
    return start


def _as_said(quantity: Quantity, high: Quantity | None, unit: str) -> str:
    """`225 °F`, `185-195 °F`: what was given, in its own unit."""
    low = f"{quantity.to(unit):.6g}"
    sixteenths = quantity.si / Length.of(1 / 16, "in").si
    if unit == "in" and high is None and abs(sixteenths - round(sixteenths)) < 1e-9:
        # As a tape is read: 3/8 in, not 0.375.
        return show(quantity, System.US, unit="in", second=False)
    number = low if high is None else f"{low}-{high.to(unit):.6g}"
    return f"{number} {unit_words(unit)}"


def _how(quantity: Quantity, to: str, setting: Setting, said_in: str | None = None) -> str:
    """The arithmetic of one conversion, from the person's unit (or the one that fits it)."""
    start = said_in or _start(quantity, to, setting)
    value, result = quantity.to(start), quantity.to(to)
    left, right = unit_words(start), unit_words(to)
    if isinstance(quantity, Temperature):
        if start == to:
            return f"{value:.6g} {left}"
        if to == "degC":
            return f"({value:.6g} {left} - 32) / 1.8 = {result:.6g} {right}"
        return f"{value:.6g} {left} x 1.8 + 32 = {result:.6g} {right}"
    factor = type(quantity).of(1, start).to(to)
    return f"{value:.6g} {left} x {factor:.8g} = {result:.6g} {right}"


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The quantity in the unit wanted. Exact factors (NIST SP 811, Appendix B.8).

    A difference is converted as a difference: 3 degC more is 5.4 degF more, not 37.4 degF.
    Raises Impossible when the unit wanted measures something else; Missing without a quantity.
    """
    given = [
        (value, getattr(inputs, f"{slot}_to", None), setting.said_in.get(slot))
        for slot in _SLOTS if (value := getattr(inputs, slot)) is not None
    ]
    if not given:
        raise Missing("length", "What shall I convert? Give the number with its unit.")
    wanted = UNITS.get((inputs.to or "").removeprefix("to-"))
    fits = any(type(quantity) is wanted for quantity, _, _ in given)
    figures, working, answers = [], [], []
    for quantity, high, said_in in given:
        to = _target(quantity, inputs.to, setting, said_in, fits)
        said = _as_said(quantity, high, said_in or _start(quantity, to, setting))
        theirs = told_in(to, quantity)
        figures.append(
            NamedFigure(f"in {unit_words(to)}", quantity, high, unit=to, system=theirs, fine=True)
        )
        if high is not None:
            working += [_how(each, to, setting, said_in) for each in (quantity, high)]
            answers.append(
                f"{said} is {show_range(quantity, high, theirs, second=False, unit=to)}"
            )
            continue
        shown = show(quantity, theirs, unit=to, second=False, fine=True)
        if to == "in":
            shown += f", {show(quantity, theirs, unit=to, second=False)} on the tape"
        working.append(_how(quantity, to, setting, said_in))
        answers.append(f"{said} is {shown}")
    return Result(
        answer=f"{'; '.join(answers)}.",
        figures=tuple(figures),
        working=tuple(working),
    )
