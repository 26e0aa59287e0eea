"""Dew point against psychrolib (ASHRAE formulas) and the published Magnus form."""

from __future__ import annotations

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import Impossible
from assistant.calculations.dew_point import (
    Inputs,
    calculate,
    dew_point,
    humidity_at,
    saturation_pressure,
)
from assistant.quantity.kinds import Ratio, Temperature


def air_of(celsius: float, percent: float) -> tuple[Temperature, Ratio]:
    return Temperature.of(celsius, "degC"), Ratio.of(percent, "percent")


# psychrolib 2.5.0, GetTDewPointFromRelHum in SI; all at or above 0 °C, where it too is over water.
PSYCHROLIB = [
    (10, 80, 6.713), (15, 60, 7.307), (18, 55, 8.835), (20, 30, 1.914), (20, 50, 9.272),
    (20, 95, 19.175), (25, 60, 16.701), (30, 70, 23.928), (35, 40, 19.385), (40, 50, 27.585),
    (40, 90, 38.038),
]


@pytest.mark.parametrize(("celsius", "percent", "expected"), PSYCHROLIB)
def test_the_dew_point_agrees_with_the_handbook_formulas(celsius, percent, expected):
    assert dew_point(*air_of(celsius, percent)).to("degC") == pytest.approx(expected, abs=0.05)


def test_the_dew_point_agrees_with_psychrolib_over_the_whole_bay_range():
    psychrolib.SetUnitSystem(psychrolib.SI)
    for celsius in range(5, 41, 5):
        for percent in range(30, 100, 10):
            expected = psychrolib.GetTDewPointFromRelHum(celsius, percent / 100)
            if expected >= 0:
                assert dew_point(*air_of(celsius, percent)).to("degC") == pytest.approx(
                    expected, abs=0.05
                )


# Hyland-Wexler over water, extended below 0 °C (psychrolib gives the frost point over ice there).
@pytest.mark.parametrize(("celsius", "percent", "expected"), [
    (0, 90, -1.442), (0, 50, -9.182), (5, 20, -16.118), (10, 40, -2.972), (15, 20, -7.774),
])
def test_below_freezing_it_is_the_dew_point_over_water(celsius, percent, expected):
    assert dew_point(*air_of(celsius, percent)).to("degC") == pytest.approx(expected, abs=0.06)


def test_below_freezing_the_working_says_that_it_is_over_water(us):
    air, humidity = air_of(5, 50)
    assert "over water" in " ".join(calculate(Inputs(air=air, humidity=humidity), us).working)


# ASHRAE Handbook Fundamentals 2017, ch. 1, table 3, as quoted in psychrolib's own tests.
@pytest.mark.parametrize(("celsius", "pascals"), [(5, 872.6), (25, 3169.7), (50, 12351.3)])
def test_saturation_pressure_is_within_half_a_percent_of_the_handbook(celsius, pascals):
    pressure = saturation_pressure(Temperature.of(celsius, "degC"))
    assert pressure.to("Pa") == pytest.approx(pascals, rel=0.005)


# Magnus 17.62/243.12 (WMO-No. 8), computed independently for the same points.
@pytest.mark.parametrize(("celsius", "percent", "expected"), [
    (18, 55, 8.819), (20, 60, 11.995), (25, 60, 16.693), (30, 70, 23.927), (20, 20, -3.671),
])
def test_the_magnus_form_is_followed_to_the_last_digit(celsius, percent, expected):
    assert dew_point(*air_of(celsius, percent)).to("degC") == pytest.approx(expected, abs=0.001)


def test_the_coldest_panel_lies_one_margin_above_the_dew_point(metric, figures):
    # psychrolib: 20 °C, 80 %: dew point 16.45, so 19.45 °C with the 3 °C margin.
    air, humidity = air_of(20, 80)
    found = figures(calculate(Inputs(air=air, humidity=humidity), metric))
    assert found["panel temperature, at least"].to("degC") == pytest.approx(19.45, abs=0.05)


def test_the_wanted_figure_comes_first(us):
    air, humidity = air_of(20, 60)
    assert calculate(Inputs(air=air, humidity=humidity), us).figures[0].name == "dew point"


@pytest.mark.parametrize(("celsius", "percent", "slot"), [
    (20, 140, "humidity"), (20, 0.5, "humidity"), (20, -5, "humidity"), (61, 50, "air"),
    (-46, 50, "air"),
])
def test_air_that_cannot_be_is_questioned_by_name(us, celsius, percent, slot):
    air, humidity = air_of(celsius, percent)
    with pytest.raises(Impossible) as refused:
        calculate(Inputs(air=air, humidity=humidity), us)
    assert refused.value.slot == slot


@given(st.floats(-45, 60), st.floats(1, 100))
def test_the_dew_point_is_never_above_the_air_temperature(celsius, percent):
    air, humidity = air_of(celsius, percent)
    assert dew_point(air, humidity) <= air + (air - air)


@given(st.floats(-20, 50), st.floats(5, 100))
def test_air_at_its_dew_point_gives_back_its_humidity(celsius, percent):
    air, humidity = air_of(celsius, percent)
    back = humidity_at(air, dew_point(air, humidity))
    assert back.to("percent") == pytest.approx(percent, rel=1e-9)


@given(st.floats(-20, 50), st.floats(1, 100), st.floats(1, 100))
def test_damper_air_never_has_a_lower_dew_point(celsius, one, other):
    drier, damper = sorted((one, other))
    assert dew_point(*air_of(celsius, drier)) <= dew_point(*air_of(celsius, damper))
