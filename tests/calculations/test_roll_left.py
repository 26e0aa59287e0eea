"""Film left on a roll: against the exact spiral (scipy) and worked by hand."""

from __future__ import annotations

from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from assistant.calculations import roll_left_by_weight
from assistant.calculations.base import Impossible, Missing
from assistant.calculations.roll_left import Inputs, calculate, length_left
from assistant.quantity.kinds import ArealMass, Length, Mass


def mm(value: float) -> Length:
    return Length.of(value, "mm")


def um(value: float) -> Length:
    return Length.of(value, "um")


def spiral(diameter: float, core: float, thickness: float) -> float:
    """Exact length of an Archimedean spiral r = d/2 + t phi / 2 pi from d/2 to D/2, in mm."""
    rise = thickness / (2 * pi)
    turns = (diameter - core) / (2 * thickness)
    length, _ = quad(
        lambda phi: sqrt((core / 2 + rise * phi) ** 2 + rise**2), 0, 2 * pi * turns, limit=500
    )
    return length


@pytest.mark.parametrize("diameter", [90, 120, 160, 200])
def test_the_area_form_equals_the_exact_spiral_to_a_tenth_of_a_millimetre(diameter):
    # Core 76 mm, film with liner 250 um; the difference is under 0.02 mm.
    assert length_left(mm(diameter), mm(76), um(250)).to("mm") == pytest.approx(
        spiral(diameter, 76, 0.25), abs=0.1
    )


def test_a_ring_of_12_over_8_centimetres_at_a_quarter_millimetre_holds_25_metres():
    # Machinery's Handbook 31, p. 79: the ring's area is 62.83 cm2; over 0.025 cm: 2513.3 cm.
    assert length_left(mm(120), mm(80), um(250)).to("cm") == pytest.approx(2513.27, abs=0.01)


def test_an_empty_core_holds_nothing(metric, figures):
    result = calculate(Inputs(diameter=mm(76), core=mm(76), thickness=um(250)), metric)
    assert figures(result)["film left"].si == 0


def test_a_wanted_length_is_judged_with_what_measuring_costs(metric):
    # 27.09 m on the roll: 20 m fits with room, 26.5 m only just, 30 m does not.
    roll = {"diameter": mm(120), "core": mm(76), "thickness": um(250)}
    for wanted, verdict in ((20, "enough"), (26.5, "tight"), (30, "short")):
        result = calculate(Inputs(**roll, wanted=Length.of(wanted, "m")), metric)
        assert result.verdict == verdict


def test_the_thickness_follows_from_a_full_roll_of_known_length(metric, figures):
    # A full roll of 52.54 m at 150 mm over 76 mm is 250 um thick; so 120 mm holds 27.093 m.
    found = figures(calculate(
        Inputs(diameter=mm(120), core=mm(76), full_diameter=mm(150),
               full_length=Length.of(52.54, "m")), metric,
    ))
    assert found["film left"].to("m") == pytest.approx(27.0931, abs=0.0005)


def test_one_millimetre_of_tape_error_is_told_in_film(metric):
    # By difference of the exact lengths at 120 and 121 mm: 0.757 m.
    result = calculate(Inputs(diameter=mm(120), core=mm(76), thickness=um(250)), metric)
    assert "0.76 m more film" in " ".join(result.working)


def test_without_any_thickness_it_is_asked_for(metric):
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(diameter=mm(120), core=mm(76)), metric)
    assert wanted.value.slot == "thickness"


@pytest.mark.parametrize(("diameter", "core", "thickness", "slot"), [
    (70, 76, 250, "core"), (120, 0, 250, "core"), (0, 76, 250, "diameter"),
    (5000, 76, 250, "diameter"), (120, 76, 5, "thickness"), (120, 76, 9000, "thickness"),
])
def test_rolls_that_cannot_be_are_questioned_by_name(us, diameter, core, thickness, slot):
    with pytest.raises(Impossible) as refused:
        calculate(Inputs(diameter=mm(diameter), core=mm(core), thickness=um(thickness)), us)
    assert refused.value.slot == slot


@given(st.floats(80, 300), st.floats(80, 300), st.floats(100, 500))
def test_a_fatter_roll_never_holds_less(one, other, thickness):
    less, more = sorted((one, other))
    assert length_left(mm(less), mm(76), um(thickness)) <= length_left(
        mm(more), mm(76), um(thickness)
    )


def by_weight(weight: float, core: float, per_area: float) -> roll_left_by_weight.Inputs:
    return roll_left_by_weight.Inputs(
        weight=Mass.of(weight, "kg"), core=Mass.of(core, "kg"),
        per_area=ArealMass.of(per_area, "g/m2"), roll_width=Length.of(1.52, "m"),
    )


def test_eight_kilos_of_film_at_250_grams_on_a_152_roll_is_21_metres(metric, figures):
    # By hand: (9 - 1) / (0.25 x 1.52) = 21.053 m.
    result = roll_left_by_weight.calculate(by_weight(9, 1, 250), metric)
    assert figures(result)["film left"].to("m") == pytest.approx(21.0526, abs=1e-4)


@pytest.mark.parametrize(("weight", "core", "per_area", "slot"), [
    (9, 10, 250, "core"), (0, 0, 250, "weight"), (9, -1, 250, "core"), (9, 1, 5, "per_area"),
])
def test_weights_that_cannot_be_are_questioned_by_name(us, weight, core, per_area, slot):
    with pytest.raises(Impossible) as refused:
        roll_left_by_weight.calculate(by_weight(weight, core, per_area), us)
    assert refused.value.slot == slot
