"""Infrared readings against Planck's law integrated over 8-14 um by scipy."""

from __future__ import annotations

from math import expm1

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants
from scipy.integrate import quad

from assistant.calculations.base import Impossible, Missing
from assistant.calculations.infrared import (
    Inputs,
    band_radiance,
    calculate,
    fourth_power,
    reading_of,
    true_temperature,
)
from assistant.quantity.kinds import Ratio, Temperature

ROOM = Temperature.of(293.15, "K")


def kelvin(value: float) -> Temperature:
    return Temperature.of(value, "K")


def planck(value: float) -> float:
    """Band radiance by adaptive integration, CODATA constants, relative units."""
    c2 = constants.h * constants.c / constants.k
    area, _ = quad(
        lambda um: (um * 1e-6) ** -5 / expm1(c2 / (um * 1e-6 * value)) * 1e-6, 8, 14,
        epsabs=0, epsrel=1e-12,
    )
    return area


@pytest.mark.parametrize("value", [250, 293.15, 340, 400, 500])
def test_the_band_radiance_equals_adaptive_integration(value):
    assert band_radiance(kelvin(value)) == pytest.approx(planck(value), rel=1e-8)


# Readings of a thermometer set to 1, surroundings 293.15 K: Planck integrated 8-14 um (scipy quad,
# CODATA constants), emissivity, true temperature, reading.
READINGS = [
    (0.30, 300, 295.252), (0.30, 340, 309.174), (0.30, 400, 333.798), (0.50, 320, 307.351),
    (0.50, 360, 330.640), (0.50, 400, 355.397), (0.70, 340, 327.647), (0.70, 373.15, 353.329),
    (0.80, 360, 348.909), (0.90, 340, 335.999), (0.90, 400, 391.840), (0.95, 320, 318.792),
    (0.95, 360, 357.296), (0.95, 400, 395.958),
]


@pytest.mark.parametrize(("emissivity", "true", "reading"), READINGS)
def test_the_reading_of_a_thermometer_set_to_one_is_met_both_ways(emissivity, true, reading):
    assert reading_of(kelvin(true), 1, emissivity, ROOM).si == pytest.approx(reading, abs=0.01)
    assert true_temperature(kelvin(reading), 1, emissivity, ROOM).si == pytest.approx(
        true, abs=0.02
    )


# The same for a thermometer set to 0.95 that allows for 293.15 K around it.
@pytest.mark.parametrize(("emissivity", "true", "reading"), [
    (0.30, 320, 302.328), (0.30, 400, 335.620), (0.50, 350, 326.094), (0.70, 373.15, 355.889),
    (0.80, 350, 342.451), (0.90, 400, 395.744),
])
def test_the_reading_of_a_thermometer_set_to_095_is_met(emissivity, true, reading):
    assert reading_of(kelvin(true), 0.95, emissivity, ROOM).si == pytest.approx(
        reading, abs=0.01
    )


def test_the_fourth_power_agrees_at_high_emissivity_and_fails_at_low():
    # Error of the T^4 form: 0.07 K at 340 K and 0.95; 5.8 K at 400 K and 0.3 (too cold).
    good = fourth_power(kelvin(338.013), 1, 0.95, ROOM).si
    poor = fourth_power(kelvin(333.798), 1, 0.30, ROOM).si
    assert good == pytest.approx(340, abs=0.1)
    assert poor - 400 == pytest.approx(-5.789, abs=0.02)


def reading(celsius: float, **more) -> Inputs:
    return Inputs(
        reading=Temperature.of(celsius, "degC"),
        set_to=Ratio.of(more.pop("set_to", 1), "ratio"),
        surroundings=Temperature.of(more.pop("room", 20), "degC"),
        emissivity=Ratio.of(more.pop("emissivity"), "ratio") if "emissivity" in more else None,
        **more,
    )


def test_film_read_with_a_thermometer_at_one_is_warmer_than_it_shows(us, figures):
    result = calculate(reading(93.3, surface="vinyl"), us)
    found = figures(result)
    assert found["true surface temperature"].to("degC") > 93.3
    assert found["error of the reading, reading less true"].to("dC") < 0
    assert result.verdict == "usable"


def test_chrome_without_a_known_emissivity_is_never_assumed(us):
    with pytest.raises(Missing) as refused:
        calculate(reading(60, surface="chrome"), us)
    assert "masking tape" in refused.value.text


def test_a_low_emissivity_is_worked_out_and_called_unreliable(us):
    result = calculate(reading(48.8, emissivity=0.1), us)
    assert result.verdict == "unreliable"
    assert "masking tape" in " ".join(result.steps)
    assert result.answer.startswith("Do not rely on it")


@pytest.mark.parametrize(("inputs", "slot"), [
    (reading(60, emissivity=0), "emissivity"), (reading(60, emissivity=1.2), "emissivity"),
    (reading(400, emissivity=0.9), "reading"), (reading(60, emissivity=0.9, room=-80),
    "surroundings"), (reading(60, emissivity=0.9, set_to=0), "set_to"),
    (reading(0, emissivity=0.05, room=40), "reading"),
])
def test_readings_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        calculate(inputs, us)
    assert refused.value.slot == slot


@given(st.floats(250, 400), st.floats(0.3, 1), st.floats(0.5, 1), st.floats(260, 310))
def test_a_reading_worked_back_gives_the_true_temperature(true, emissivity, set_to, room):
    shown = reading_of(kelvin(true), set_to, emissivity, kelvin(room))
    if shown is not None:
        back = true_temperature(shown, set_to, emissivity, kelvin(room))
        assert back.si == pytest.approx(true, abs=1e-4)


@given(st.floats(300, 400), st.floats(0.3, 0.99))
def test_a_surface_warmer_than_the_room_never_reads_too_warm(true, emissivity):
    assert reading_of(kelvin(true), 1, emissivity, ROOM).si <= true
