"""Stretch over shapes: against numerical integration (scipy) and worked by hand."""

from __future__ import annotations

from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from assistant.calculations.base import Impossible, Missing
from assistant.calculations.stretch import (
    Inputs,
    calculate,
    dome,
    dome_area_growth,
    hem,
    round_recess,
    square_recess,
    step,
    thinning,
    v_recess,
)
from assistant.quantity.kinds import Length


def mm(value: float) -> Length:
    return Length.of(value, "mm")


def path_stretch(slope, width: float) -> float:
    """Length of a profile over its width, less one, by adaptive integration."""
    length, _ = quad(lambda x: sqrt(1 + slope(x) ** 2), 0, width, limit=200)
    return length / width - 1


def test_a_square_recess_takes_its_two_walls_from_the_mouth():
    # By hand: 4 in wide, 1/2 in deep: (4 + 2 x 0.5) / 4 - 1 = 25 %.
    assert square_recess(Length.of(4, "in"), Length.of(0.5, "in")) == pytest.approx(0.25)


def test_a_v_recess_equals_the_integrated_length_of_its_flanks():
    # By hand: 8 wide, 3 deep: two flanks of 5.
    assert v_recess(mm(8), mm(3)) == pytest.approx(0.25)
    assert v_recess(mm(70), mm(22)) == pytest.approx(path_stretch(lambda _: 2 * 22 / 70, 70))


@pytest.mark.parametrize(("width", "depth"), [(60, 5), (60, 20), (100, 40)])
def test_a_round_recess_equals_the_integrated_circle(width, depth):
    radius = width**2 / (8 * depth) + depth / 2

    def slope(x: float) -> float:
        across = x - width / 2
        return across / sqrt(radius**2 - across**2)

    assert round_recess(mm(width), mm(depth)) == pytest.approx(
        path_stretch(slope, width), rel=1e-6
    )


def test_a_half_round_channel_stretches_the_film_by_57_percent():
    # Handbook: half a circle over its diameter, pi / 2.
    assert round_recess(mm(50), mm(25)) == pytest.approx(pi / 2 - 1)


@pytest.mark.parametrize(("width", "rise"), [(180, 50), (200, 20), (100, 50)])
def test_a_domes_growth_in_area_equals_the_integrated_cap(width, rise):
    a = width / 2
    radius = (a**2 + rise**2) / (2 * rise)
    # Surface of revolution of a circle: area = integral of 2 pi r R / sqrt(R^2 - r^2) dr.
    area, _ = quad(lambda r: 2 * pi * r * radius / sqrt(radius**2 - r**2), 0, a, limit=200)
    assert dome_area_growth(mm(width), mm(rise)) == pytest.approx(
        area / (pi * a**2) - 1, rel=1e-6
    )


def test_a_half_ball_doubles_the_area_and_stretches_41_percent_each_way():
    # Handbook: half a sphere 2 pi r^2 over a circle pi r^2.
    assert dome_area_growth(mm(100), mm(50)) == pytest.approx(1.0)
    assert dome(mm(100), mm(50)) == pytest.approx(sqrt(2) - 1)


def test_a_step_of_three_over_a_run_of_four_stretches_a_quarter():
    assert step(mm(4), mm(3)) == pytest.approx(0.25)


def test_a_half_inch_hem_on_a_15_inch_arch_stretches_3_percent():
    # By hand: circumference 2 pi 15.5 over 2 pi 15.
    assert hem(Length.of(15, "in"), Length.of(0.5, "in")) == pytest.approx(15.5 / 15 - 1)


def test_film_thins_by_what_it_gains_in_length_and_twice_over_both_ways():
    # By hand, volume kept: 100 um x 1 / 1.25 = 80 um; x 1 / 1.25^2 = 64 um.
    hundred = Length.of(100, "um")
    assert thinning(hundred, 0.25, both_ways=False).to("um") == pytest.approx(80)
    assert thinning(hundred, 0.25, both_ways=True).to("um") == pytest.approx(64)


@pytest.mark.parametrize(("depth", "verdict", "rule"), [
    (4.9, "free", "stretch-free"), (5.0, "free", "stretch-free"),
    (5.1, "post-heat", "stretch-post-heat"), (15.0, "post-heat", "stretch-post-heat"),
    (15.1, "relief cut or inlay", "stretch-never"),
])
def test_the_verdict_turns_exactly_at_the_rules_limits(metric, depth, verdict, rule):
    # Square recess 100 mm wide: 2 d / 100; the limits are 10 and 30 %.
    result = calculate(Inputs(shape="square", width=mm(100), depth=mm(depth)), metric)
    assert result.verdict == verdict
    assert result.rules == (rule,)


def test_the_dome_tells_the_area_beside_the_linear_stretch(metric, figures):
    # By hand: rise 50 on half of 180: (50 / 90)^2 = 30.86 %; sqrt(1.3086) - 1 = 14.39 %.
    found = figures(calculate(Inputs(shape="dome", width=mm(180), depth=mm(50)), metric))
    assert found["stretch, equal both ways"].to("percent") == pytest.approx(14.39, abs=0.01)
    assert found["growth in area"].to("percent") == pytest.approx(30.86, abs=0.01)


def test_heat_and_blade_cautions_come_with_what_needs_them(us):
    shape = {"shape": "square", "width": mm(100)}
    assert calculate(Inputs(**shape, depth=mm(2)), us).cautions == ()
    assert "heat-gun" in calculate(Inputs(**shape, depth=mm(10)), us).cautions
    assert "blade" in calculate(Inputs(**shape, depth=mm(40)), us).cautions


@pytest.mark.parametrize(("width", "depth", "slot"), [
    (0, 5, "width"), (100, 0, "depth"), (100, -5, "depth"), (10, 200, "depth"),
])
def test_shapes_that_cannot_be_are_questioned_by_name(us, width, depth, slot):
    with pytest.raises(Impossible) as refused:
        calculate(Inputs(shape="square", width=mm(width), depth=mm(depth)), us)
    assert refused.value.slot == slot


def test_an_unknown_shape_is_asked_for(us):
    with pytest.raises(Missing):
        calculate(Inputs(shape="banana", width=mm(10), depth=mm(1)), us)


@given(st.floats(1, 500), st.floats(0.01, 100), st.floats(0.01, 100))
def test_a_deeper_shape_never_stretches_less(width, one, other):
    less, more = sorted((one, other))
    for shape in (square_recess, v_recess, round_recess, dome, step):
        assert shape(mm(width), mm(less)) <= shape(mm(width), mm(more)) + 1e-12


@given(st.floats(1, 500), st.floats(0.01, 100))
def test_a_square_recess_asks_more_than_a_round_one_and_that_more_than_a_v(width, depth):
    # The V is the shortest way to that depth, the square the longest; true for d <= w / 2.
    depth = min(depth, width / 2)
    square, round_, v = (
        shape(mm(width), mm(depth)) for shape in (square_recess, round_recess, v_recess)
    )
    assert v <= round_ + 1e-9 <= square + 2e-9
