"""Strips across a surface. Expected values are worked by hand beside each check."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import Impossible
from assistant.calculations.strips import Inputs, calculate, leftover, seams, strips_to_cover
from assistant.quantity.kinds import Length


def inches(value: float) -> Length:
    return Length.of(value, "in")


def test_a_surface_two_rolls_wide_needs_a_third_strip_once_seams_overlap():
    # 107.5 / 53.5 = 2.009
    assert strips_to_cover(inches(108), film=inches(54), overlap=inches(0.5)) == 3


def test_a_surface_that_two_lapped_strips_fit_exactly_is_not_charged_a_third():
    assert strips_to_cover(inches(107.5), film=inches(54), overlap=inches(0.5)) == 2


def test_a_sixteenth_more_than_the_exact_fit_is_charged_a_third():
    assert strips_to_cover(inches(107.5625), film=inches(54), overlap=inches(0.5)) == 3


def test_a_surface_no_wider_than_the_film_takes_one_strip_and_no_seam(us, figures):
    result = calculate(Inputs(surface=inches(48), film=inches(60), overlap=inches(0.125)), us)
    assert figures(result)["strips"].si == 1
    assert "no seam" in result.answer
    assert figures(result)["to spare beside the strip"].to("in") == pytest.approx(12)


def test_a_van_side_of_118_inches_takes_two_strips_with_a_seam_at_59_and_a_half(us, figures):
    # (118 - 0.5) / 59.5 = 1.975: 2 strips; second starts at 59.5; 2 x 59.5 + 0.5 - 118 = 1.5 over.
    # Cut alike: (118 + 0.5) / 2 = 59.25.
    found = figures(
        calculate(Inputs(surface=inches(118), film=inches(60), overlap=inches(0.5)), us)
    )
    assert found["strips"].si == 2
    assert found["seam 1 starts at"].to("in") == pytest.approx(59.5)
    assert found["left over beside the last strip"].to("in") == pytest.approx(1.5)
    assert found["width of each strip, if all are cut alike"].to("in") == pytest.approx(59.25)


def test_the_length_off_the_roll_counts_every_strip(us, figures):
    # 2 strips of 80 in.
    found = figures(calculate(
        Inputs(surface=inches(118), height=inches(80), film=inches(60), overlap=inches(0.5)), us
    ))
    assert found["length off the roll"].to("in") == pytest.approx(160)


def test_upright_strips_start_at_the_rear_and_level_strips_at_the_bottom(us):
    van = {"surface": inches(118), "film": inches(60), "overlap": inches(0.5)}
    assert "rearmost" in calculate(Inputs(**van, run="upright"), us).steps[0]
    assert "lowest" in calculate(Inputs(**van, run="level"), us).steps[0]


@pytest.mark.parametrize(("surface", "film", "overlap", "slot"), [
    (0, 60, 0.125, "surface"), (118, 0, 0.125, "film"), (118, 60, -1, "overlap"),
    (118, 60, 60, "overlap"), (118, 0.2, 0.125, "surface"),
])
def test_strips_that_cannot_be_are_questioned_by_name(us, surface, film, overlap, slot):
    with pytest.raises(Impossible) as refused:
        calculate(
            Inputs(surface=inches(surface), film=inches(film), overlap=inches(overlap)), us
        )
    assert refused.value.slot == slot


@given(st.floats(1, 400), st.floats(10, 72), st.floats(0, 4))
def test_the_strips_cover_the_surface_and_one_fewer_would_not(surface, film, overlap):
    number = strips_to_cover(inches(surface), inches(film), inches(overlap))
    assert number * (film - overlap) + overlap >= surface - 1e-6
    assert number == 1 or (number - 1) * (film - overlap) + overlap < surface + 1e-6
    assert len(seams(inches(surface), inches(film), inches(overlap))) == number - 1
    spare = leftover(inches(surface), inches(film), inches(overlap)).to("in")
    assert -1e-9 <= spare <= film


@given(st.floats(1, 400), st.floats(10, 72), st.floats(0, 2), st.floats(0, 2))
def test_a_wider_overlap_never_takes_fewer_strips(surface, film, one, other):
    less, more = sorted((one, other))
    counts = [strips_to_cover(inches(surface), inches(film), inches(lap)) for lap in (less, more)]
    assert counts[0] <= counts[1]
