"""What is written reads back: to the displayed precision, in both systems."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.quantity.kinds import UNITS, of
from assistant.quantity.read import read
from assistant.quantity.rounding import rounded
from assistant.quantity.systems import bracket_unit, unit_for
from assistant.quantity.write import System, figure_value, show, show_range

# A number alone has no unit to read back; a difference is told by its words, see below.
WRITTEN = sorted(set(UNITS) - {"count", "money", "ratio", "dF", "dC", "K", "kg/m2", "mmHg", "Pa"})
LARGEST = {"mi": 10, "km": 10, "m3": 1e4, "degC": 400, "degF": 700, "year": 100, "month": 100}
systems = st.sampled_from(System)


@st.composite
def quantities(draw, units=WRITTEN):
    unit = draw(st.sampled_from(units))
    top = LARGEST.get(unit, 1000)
    low = -40 if unit in ("degC", "degF") else 0.01
    return unit, of(draw(st.floats(low, top, allow_nan=False)), unit)


def read_back(text):
    return [(found.unit, found.low, found.high) for found in read(text)]


def as_shown(quantity, code, fine=False, given_in=None):
    value = rounded(quantity, code, fine, given=code == given_in)
    return code, value, value


@settings(max_examples=400, deadline=None)
@given(quantities(), systems, st.booleans())
def test_a_written_quantity_reads_back_in_both_systems(drawn, system, fine):
    _, quantity = drawn
    code = unit_for(quantity, system)
    expected = [as_shown(quantity, code, fine)]
    other = bracket_unit(quantity, code, system, None)
    if other is not None:
        expected.append(as_shown(quantity, other, fine))
    shown = show(quantity, system, fine=fine)
    assert read_back(shown) == [pytest.approx(row) for row in expected], shown


@settings(max_examples=400, deadline=None)
@given(quantities(), systems)
def test_a_quantity_written_in_its_own_unit_reads_back(drawn, system):
    unit, quantity = drawn
    code = unit_for(quantity, system, unit)
    shown = show(quantity, system, unit=unit, second=False)
    assert read_back(shown) == [pytest.approx(as_shown(quantity, code, given_in=unit))], shown


@settings(max_examples=300, deadline=None)
@given(quantities(), st.floats(0.01, 100), systems)
def test_a_written_range_reads_back(drawn, width, system):
    unit, low = drawn
    high = of(low.to(unit) + width, unit)
    code = unit_for(high, system)
    ends = [rounded(end, code) for end in (low, high)]
    shown = show_range(low, high, system, second=False)
    assert read_back(shown) == [pytest.approx((code, *ends))], shown


@settings(max_examples=200, deadline=None)
@given(st.floats(0.1, 60), st.sampled_from(("dF", "dC")), systems)
def test_a_written_margin_reads_back_as_a_difference(value, unit, system):
    margin = of(value, unit)
    code = unit_for(margin, system)
    shown = show(margin, system, second=False)
    assert read_back(f"keep {shown} above the dew point") == [
        pytest.approx(as_shown(margin, code))
    ]


@settings(max_examples=300, deadline=None)
@given(quantities(), systems)
def test_a_figure_lies_within_what_is_shown(drawn, system):
    unit, quantity = drawn
    value, code = figure_value(quantity, system, unit=unit)
    # Half of what the tape, the ruler, the roll, the gauge or the clock tells apart.
    half = {
        "in": 0.126, "m": 0.0051, "cm": 0.051, "mil": 0.051, "ft": 0.051, "yd": 0.051,
        "bar": 0.051, "psi": 0.051, "h": 0.051,
    }.get(code, 0.51)
    assert abs(value - quantity.to(code)) <= max(half, 0.006 * abs(value))
