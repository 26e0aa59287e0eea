"""Infrared reading: the true surface temperature behind what the thermometer shows.

Owns the radiation in the 8-14 micrometre band, its inversion, and when a reading is worth nothing.
The emissivity to set on film and the tape patch for chrome are knowledge/rules/thermometer.toml's.
"""

from __future__ import annotations

from functools import lru_cache
from math import expm1

from assistant.calculations.base import Impossible, Missing, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Ratio, Temperature, TemperatureDifference

# Planck's second constant h c / k, in m K, from the exact SI constants.
C2 = 6.62607015e-34 * 299792458.0 / 1.380649e-23
BAND = (8e-6, 14e-6)
# Ten-point Gauss-Legendre on [-1, 1], one side (Abramowitz & Stegun, table 25.4).
_NODES = (
    (0.148874338981631, 0.295524224714753),
    (0.433395394129247, 0.269266719309996),
    (0.679409568299024, 0.219086362515982),
    (0.865063366688985, 0.149451349150581),
    (0.973906528517172, 0.066671344308688),
)
COLDEST = Temperature.of(-40, "degC")
HOTTEST = Temperature.of(300, "degC")
# Below this the surroundings outweigh the surface: the correction multiplies every small error.
UNRELIABLE = 0.5
# How well an emissivity is ever known; what it costs in temperature is told.
EMISSIVITY_ERROR = 0.02
# A worse spread than this is no reading to heat film by.
WIDEST_SPREAD = TemperatureDifference.of(5, "dC")
ONE = Ratio.of(1, "ratio")

# Mid values of published tables; the ranges behind them are in EMISSIVITIES.
EMISSIVITIES: dict[str, tuple[float, float, float, str]] = {
    # surface: (used, low, high, where from)
    "vinyl": (0.95, 0.93, 0.97, "vinyl tape about 0.96 in 8-14 µm, instrument maker's table"),
    "masking-tape": (0.95, 0.93, 0.96, "reference patch set to 0.95, instrument maker's manual"),
    "paint": (0.93, 0.92, 0.94, "paints in 8-14 µm, from memory of an instrument maker's table"),
    "plastic": (0.90, 0.85, 0.95, "plastics in general, instrument maker's table"),
    "rubber": (0.94, 0.93, 0.95, "black rubber, instrument maker's table"),
    "paper": (0.85, 0.70, 0.94, "paper, instrument maker's table"),
}
MIRROR = ("chrome", "bare-metal")


class Inputs(BaseInputs):
    """reading and the emissivity set on the thermometer; the surface; the surroundings.

    setting_  emissivity the thermometer is set to, 0.1 to 1
    emissivity  of the surface, if it is known; otherwise `surface` names it
    """

    reading: Temperature
    set_to: Ratio
    surroundings: Temperature
    emissivity: Ratio | None = None
    surface: str | None = None


@lru_cache(maxsize=512)
def _band(kelvin: float) -> float:
    """Radiance of a black body in the band, in units of 2 h c^2 (only ratios are used).

    Integral of lambda^-5 / (exp(C2 / (lambda T)) - 1) over 8-14 um by ten-point Gauss-Legendre;
    within 1e-9 of adaptive integration from 230 to 600 K.
    """
    middle, half = (BAND[0] + BAND[1]) / 2, (BAND[1] - BAND[0]) / 2
    total = 0.0
    for node, weight in _NODES:
        for sign in (-1.0, 1.0):
            wavelength = middle + sign * half * node
            total += weight * wavelength**-5 / expm1(C2 / (wavelength * kelvin))
    return total * half


def band_radiance(temperature: Temperature) -> float:
    """Black-body radiance in the 8-14 micrometre band, relative units. See _band."""
    return _band(temperature.si)


def _temperature_of(radiance: float) -> Temperature | None:
    """The black body with a radiance in the band, from 150 to 900 K; None outside."""
    low, high = 150.0, 900.0
    if not _band(low) <= radiance <= _band(high):
        return None
    # Newton on ln W over 1/T, nearly a straight line, kept inside the bracket.
    guess = 300.0
    for _ in range(60):
        value = _band(guess)
        if value > radiance:
            high = guess
        else:
            low = guess
        slope = (_band(guess * 1.0001) - value) / (guess * 0.0001)
        following = guess - (value - radiance) / slope
        if not low < following < high:
            following = (low + high) / 2
        if abs(following - guess) < 1e-9:
            return Temperature.of(following, "K")
        guess = following
    return Temperature.of(guess, "K")


def true_temperature(
    reading: Temperature, set_to: float, emissivity: float, surroundings: Temperature
) -> Temperature | None:
    """The surface temperature behind a reading.

    The thermometer balances  e_s W(T_read) + (1 - e_s) W(T_sur) = e W(T) + (1 - e) W(T_sur),
    so  W(T) = (e_s W(T_read) + (e - e_s) W(T_sur)) / e,  W being black-body radiance in 8-14 um.

    set_to, emissivity  in (0, 1]; surroundings black and all at one temperature, in kelvin inside
    Returns None where no temperature of 150 to 900 K would give that reading.
    Source: measurement formula of infrared thermometry; constants CODATA, exact.
    Check: true 360 K, e 0.5, surroundings 293.15 K, set to 1: reads 330.640 K.
    """
    radiance = (
        set_to * _band(reading.si) + (emissivity - set_to) * _band(surroundings.si)
    ) / emissivity
    return _temperature_of(radiance)


def reading_of(
    true: Temperature, set_to: float, emissivity: float, surroundings: Temperature
) -> Temperature | None:
    """What the thermometer shows for a true temperature: true_temperature's inverse."""
    return true_temperature(true, emissivity, set_to, surroundings)


def fourth_power(
    reading: Temperature, set_to: float, emissivity: float, surroundings: Temperature
) -> Temperature:
    """The same by T^4 in place of the band: a check at high emissivity, up to 6 K off at 0.3.

    T = ((e_s T_read^4 + (e - e_s) T_sur^4) / e)^(1/4), kelvin.
    """
    fourth = (set_to * reading.si**4 + (emissivity - set_to) * surroundings.si**4) / emissivity
    return Temperature.of(max(fourth, 0.0) ** 0.25, "K")


def _emissivity(inputs: Inputs, setting: Setting) -> tuple[float, str]:
    """The emissivity to work with, and how it came about."""
    if inputs.emissivity is not None:
        require(
            setting, "emissivity", inputs.emissivity, above=Ratio.of(0, "ratio"), at_most=ONE,
            because="Emissivity lies between 0 and 1.", unit="ratio",
        )
        return inputs.emissivity.si, ""
    if inputs.surface in MIRROR:
        raise Missing(
            "emissivity",
            "I never assume an emissivity for a mirror surface: it shows the room, not itself. "
            "Stick a patch of masking tape on it, let it take the panel's heat, and read the tape; "
            "or tell me the emissivity that you measured.",
        )
    if inputs.surface is None or inputs.surface not in EMISSIVITIES:
        surfaces = ", ".join(name.replace("-", " ") for name in EMISSIVITIES)
        raise Missing("surface", f"Which surface: {surfaces}? Or give its emissivity.")
    value, low, high, source = EMISSIVITIES[inputs.surface]
    called = inputs.surface.replace("-", " ")
    return value, f"{called}: emissivity {value:g} ({low:g}-{high:g}; {source})"


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """True temperature, the error if the reading is believed, and whether it can be relied on.

    Raises Impossible for readings no surface could give and emissivities outside 0 to 1; Missing
    for mirror surfaces without a stated emissivity.
    """
    for slot, value in (("reading", inputs.reading), ("surroundings", inputs.surroundings)):
        require(setting, slot, value, at_least=COLDEST, at_most=HOTTEST)
    require(
        setting, "set_to", inputs.set_to, at_least=Ratio.of(0.1, "ratio"), at_most=ONE,
        name="emissivity set on the thermometer", unit="ratio",
        because="A thermometer is set between 0.1 and 1.",
    )
    emissivity, assumed = _emissivity(inputs, setting)
    set_to, surroundings = inputs.set_to.si, inputs.surroundings
    true = true_temperature(inputs.reading, set_to, emissivity, surroundings)
    if true is None:
        raise Impossible(
            "reading",
            f"No surface of emissivity {emissivity:g} reads {setting.own(inputs.reading)} in "
            f"surroundings of {setting.own(surroundings)}. Check the three.",
        )
    error = inputs.reading - true
    size = TemperatureDifference.of(abs(error.to("dC")), "dC")
    spread = _spread(inputs.reading, set_to, emissivity, surroundings)
    poor = emissivity < UNRELIABLE or spread is None or spread > WIDEST_SPREAD

    level = "right" if size.to("dC") < 0.05 else (
        f"{setting.both(size, fine=True)} {'low' if error.to('dC') < 0 else 'high'}"
    )
    answer = f"The surface is at {setting.both(true, fine=True)}; the thermometer reads {level}."
    steps: tuple[str, ...] = ()
    if poor:
        answer = (
            f"Do not rely on it: worked out, the surface is at {setting.both(true, fine=True)}, "
            f"but at emissivity {emissivity:g} it mostly shows the surroundings."
            if emissivity < UNRELIABLE else
            f"Do not rely on it: about {setting.both(true, fine=True)}, but a slip of "
            f"{EMISSIVITY_ERROR:g} in the emissivity moves that too far."
        )
        steps = (
            "Stick a patch of masking tape on the surface and press it down.",
            "Give it a minute to take the surface's temperature.",
            "Set the thermometer to 0.95 and read the patch, square on and close.",
        )
    figures = [
        NamedFigure("true surface temperature", true, fine=True),
        NamedFigure("error of the reading, reading less true", error, fine=True),
    ]
    working = [
        f"{set_to:g} x W({setting.own(inputs.reading)}) + ({emissivity:g} - {set_to:g}) x "
        f"W({setting.own(surroundings)}), over {emissivity:g}, = "
        f"W({setting.own(true, fine=True)}); W is black-body radiation from 8 to 14 µm",
    ]
    if spread is not None:
        off = f"{EMISSIVITY_ERROR:g}"
        figures.append(
            NamedFigure(f"spread for {off} either way in emissivity", spread, fine=True)
        )
        working.append(f"emissivity off by {off}: {setting.own(spread, fine=True)} off")
    if emissivity >= 0.8:
        check = fourth_power(inputs.reading, set_to, emissivity, surroundings)
        working.append(f"check by T^4: {setting.own(check, fine=True)}")
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        steps=steps,
        assumed=tuple(
            text for text in (assumed, "the thermometer allows for its surroundings") if text
        ),
        rules=("infrared-reading", "chrome-reading") if poor else ("infrared-reading",),
        verdict="unreliable" if poor else "usable",
    )


def _spread(
    reading: Temperature, set_to: float, emissivity: float, surroundings: Temperature
) -> TemperatureDifference | None:
    """Half the span of the true temperature for EMISSIVITY_ERROR either way; None if boundless."""
    ends = [
        true_temperature(reading, set_to, value, surroundings)
        for value in (
            max(emissivity - EMISSIVITY_ERROR, 0.01), min(emissivity + EMISSIVITY_ERROR, 1.0)
        )
    ]
    if ends[0] is None or ends[1] is None:
        return None
    return TemperatureDifference.of(abs((ends[0] - ends[1]).to("dC")) / 2, "dC")
