"""Which unit a person of each system is told."""

from __future__ import annotations

import pytest

from assistant.quantity.kinds import UNITS, of
from assistant.quantity.systems import System, bracket_unit, unit_for, unit_in

US, METRIC = System.US, System.METRIC


@pytest.mark.parametrize(("value", "unit", "us", "metric"), [
    (80, "um", "mil", "um"), (1 / 32, "in", "in", "mm"), (3, "in", "in", "mm"),
    (99.9, "cm", "in", "mm"), (1, "m", "in", "m"), (19.9, "ft", "in", "m"), (20, "ft", "ft", "m"),
    (0, "in", "in", "mm"), (127, "floz", "floz", "L"), (2, "gal", "gal", "L"),
    (30, "m3", "ft3", "m3"), (30, "s", "s", "s"), (59, "min", "min", "min"), (1, "h", "h", "h"),
    (72, "h", "h", "h"), (7, "day", "day", "day"), (3, "year", "year", "year"),
    (0, "h", "min", "min"), (900, "g", "lb", "g"),
])
def test_the_unit_fits_the_size(value, unit, us, metric):
    assert unit_for(of(value, unit), US) == us
    assert unit_for(of(value, unit), METRIC) == metric


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("system", System)
def test_a_counterpart_measures_the_same_kind_and_stays_in_its_system(unit, system):
    for size in (0.001, 1, 500):
        counterpart = unit_in(unit, system, of(size, unit))
        assert UNITS[counterpart] is UNITS[unit]
        assert unit_in(counterpart, system) == counterpart


def test_what_was_stored_stands_in_the_brackets():
    film = of(25, "yd")
    assert bracket_unit(film, "m", METRIC, "yd") == "yd"
    assert bracket_unit(film, "yd", US, "yd") == "m"
    assert bracket_unit(of(24, "h"), "h", US, None) is None
