"""Arcs against Machinery's Handbook, 31st edition (2020), and published worked examples."""

from __future__ import annotations

from math import degrees, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.arc import Inputs, angle, arc_length, calculate, radius
from assistant.calculations.base import Impossible
from assistant.quantity.kinds import Length


def mm(value: float) -> Length:
    return Length.of(value, "mm")


def test_the_handbooks_chord_16_height_6_has_a_radius_of_eight_and_a_third():
    # Machinery's Handbook 31, p. 79.
    assert radius(mm(16), mm(6)).to("mm") == pytest.approx(25 / 3)


def test_chord_21_height_6_gives_the_published_radius_angle_and_arc():
    # MatheAss help, "Circular Sections": r 12.1875, 118.97953 degrees, arc 25.308373.
    assert radius(mm(21), mm(6)).to("mm") == pytest.approx(12.1875)
    assert degrees(angle(mm(21), mm(6))) == pytest.approx(118.97953, abs=1e-5)
    assert arc_length(mm(21), mm(6)).to("mm") == pytest.approx(25.308373, abs=1e-6)


# Circular segments for radius 1 (form of Machinery's Handbook, table of segments; rows computed).
@pytest.mark.parametrize(("arc", "height", "chord"), [
    (0.349066, 0.015192, 0.347296), (0.785398, 0.076120, 0.765367),
    (1.047198, 0.133975, 1.000000), (1.570796, 0.292893, 1.414214),
    (2.094395, 0.500000, 1.732051), (2.617994, 0.741181, 1.931852), (pi, 1.0, 2.0),
])
def test_the_table_of_segments_is_met(arc, height, chord):
    # Heights carry six digits: near a flat segment that limits the arc to about 1e-5.
    assert arc_length(mm(chord), mm(height)).to("mm") == pytest.approx(arc, abs=2e-5)


@pytest.mark.parametrize(("chord", "height", "arc"), [
    (1000, 10, 1000.266645), (1000, 100, 1026.456911), (600, 60, 615.874147),
    (24, 3, 24.987824),
])
def test_the_arc_is_exact_where_the_rule_of_thumb_is_not(chord, height, arc):
    assert arc_length(mm(chord), mm(height)).to("mm") == pytest.approx(arc, abs=1e-6)


def test_the_length_over_the_curve_comes_first(us):
    result = calculate(Inputs(chord=mm(1500), rise=mm(25)), us)
    assert result.figures[0].name == "length over the curve"
    assert result.figures[0].low.to("mm") == pytest.approx(1501.110864)


def test_more_than_a_half_circle_is_said(us):
    result = calculate(Inputs(chord=mm(100), rise=mm(80)), us)
    assert any("half circle" in text for text in result.assumed)


@pytest.mark.parametrize(("chord", "rise", "slot"), [
    (0, 5, "chord"), (100, 0, "rise"), (100, -3, "rise"), (10, 150, "rise"),
])
def test_curves_that_cannot_be_are_questioned_by_name(us, chord, rise, slot):
    with pytest.raises(Impossible) as refused:
        calculate(Inputs(chord=mm(chord), rise=mm(rise)), us)
    assert refused.value.slot == slot


@given(st.floats(1, 5000), st.floats(0.01, 2000))
def test_an_arc_is_longer_than_its_chord_and_twice_its_rise(chord, rise):
    length = arc_length(mm(chord), mm(rise)).to("mm")
    assert length >= chord * (1 - 1e-12)
    assert length >= 2 * rise
