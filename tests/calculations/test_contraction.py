"""Contraction, with the coefficients of Callister, 3rd ed., table B.6. Worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import Impossible, Missing
from assistant.calculations.contraction import FILM, PANELS, Inputs, calculate, change
from assistant.quantity.kinds import Length, Temperature, TemperatureDifference


def film(mm: float, material: str, start: float, end: float) -> Inputs:
    return Inputs(
        length=Length.of(mm, "mm"), material=material,
        start=Temperature.of(start, "degC"), end=Temperature.of(end, "degC"),
    )


# Callister and Rethwisch, table B.6, 1e-6 / degC.
@pytest.mark.parametrize(("material", "low", "high"), [
    ("steel", 11.7, 11.7), ("aluminium", 23.6, 23.6), ("plastic", 146, 180),
])
def test_the_coefficients_are_the_handbooks(material, low, high):
    assert PANELS[material].low * 1e6 == pytest.approx(low)
    assert PANELS[material].high * 1e6 == pytest.approx(high)
    assert (FILM.low * 1e6, FILM.high * 1e6) == pytest.approx((90, 180))


def test_a_metre_of_steel_over_fifty_degrees_moves_585_micrometres():
    moved = change(Length.of(1, "m"), 11.7e-6, TemperatureDifference.of(-50, "dC"))
    assert moved.to("um") == pytest.approx(-585)


def test_film_on_steel_pulls_back_in_the_cold(metric):
    # 1500 mm, 30 K colder: film 1500 x 90e-6 x 30 = 4.05 to 8.10 mm; steel 0.5265 mm.
    result = calculate(film(1500, "steel", 20, -10), metric)
    ends = {figure.name: (figure.low, figure.high) for figure in result.figures}
    low, high = ends["film shorter by"]
    assert (low.to("mm"), high.to("mm")) == pytest.approx((4.05, 8.10))
    assert ends["steel shorter by"][0].to("mm") == pytest.approx(0.5265)
    low, high = ends["difference that the adhesive holds"]
    assert (low.to("mm"), high.to("mm")) == pytest.approx((3.5235, 7.5735))
    assert result.verdict == "the edge is pulled back"
    assert "heat-gun" in result.cautions


def test_a_plastic_bumper_moves_about_as_much_as_its_film(metric):
    assert calculate(film(1500, "plastic", 20, -10), metric).verdict == "little pull"


def test_warmer_film_gets_longer(metric):
    assert "longer" in calculate(film(1500, "steel", 20, 60), metric).answer


@pytest.mark.parametrize(("inputs", "slot"), [
    (film(0, "steel", 20, -10), "length"), (film(1500, "steel", 20, -60), "end"),
    (film(1500, "steel", 120, 20), "start"),
])
def test_swings_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        calculate(inputs, us)
    assert refused.value.slot == slot


def test_an_unknown_panel_is_asked_for(us):
    with pytest.raises(Missing):
        calculate(film(1500, "oak", 20, 0), us)


@given(st.floats(-40, 80), st.floats(-40, 80), st.floats(10, 5000))
def test_there_and_back_the_film_moves_the_same(start, end, mm):
    swing = Temperature.of(end, "degC") - Temperature.of(start, "degC")
    length = Length.of(mm, "mm")
    assert change(length, FILM.low, swing).si == pytest.approx(-change(length, FILM.low, -swing).si)
