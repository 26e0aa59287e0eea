"""How far a tape, a thermometer and a clock tell apart; expected values by hand."""

from __future__ import annotations

import pytest

from assistant.quantity.kinds import of
from assistant.quantity.rounding import half_up, rounded, significant


@pytest.mark.parametrize(("value", "step", "expected"), [
    (2.5, 1, 3), (-2.5, 1, -3), (2.4999, 1, 2), (0.3, 0.1, 0.3), (1.15, 0.1, 1.2), (0, 1, 0),
])
def test_a_half_goes_away_from_zero(value, step, expected):
    assert half_up(value, step) == pytest.approx(expected)


@pytest.mark.parametrize(("value", "unit", "expected"), [
    (30.709, "in", 30.6875), (150.2, "in", 150.25), (76.2, "mm", 76), (2.4892, "m", 2.49),
    (107.22, "degC", 107), (62.6, "degF", 63), (5.4, "dF", 5), (1.11, "dC", 1.0),
    (92.4, "min", 92), (2.38, "h", 2.4), (34.83864, "m2", 34.84), (2.7579, "bar", 2.8),
])
def test_a_reading_is_as_fine_as_its_instrument(value, unit, expected):
    assert rounded(of(value, unit), unit) == pytest.approx(expected)


def test_a_number_keeps_the_digits_it_was_given():
    assert rounded(of(12.5, "percent"), "percent", given=True) == 12.5
    assert rounded(of(1 / 32, "in"), "in", given=True) == 1 / 32
    # 62.6 F is 17 C read off another scale, not somebody's tenth of a degree.
    assert rounded(of(62.6, "degF"), "degF", given=True) == 63


def test_a_worked_out_number_is_finer():
    assert rounded(of(62.61, "degF"), "degF", fine=True) == 62.6
    assert rounded(of(2.48923, "m"), "m", fine=True) == 2.489


@pytest.mark.parametrize("unit", ["in", "mm", "m", "degF", "min", "ft2", "mL", "percent", "ppm"])
def test_what_is_there_is_never_rounded_to_nothing(unit):
    value = 0.003 if unit != "degF" else 0.3
    assert rounded(of(value, unit), unit) == pytest.approx(value, rel=0.01)


def test_significant_digits():
    assert significant(123456, 3) == 123000
    assert significant(0.0012345, 3) == 0.00123
    assert significant(-1.25, 2) == -1.3
    assert significant(0, 3) == 0
