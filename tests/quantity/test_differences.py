"""A difference of temperature against a reading, told apart by the words beside it."""

from __future__ import annotations

import pytest

from assistant.quantity.read import read
from tests.quantity.said import numbers, one


@pytest.mark.parametrize(("text", "meant"), [
    ("3 C above the dew point", (3, "dC")), ("5 degrees F above", (5, "dF")),
    ("5 F over the dew point", (5, "dF")), ("panel 3 C below the air", (3, "dC")),
    ("a margin of 3 C", (3, "dC")), ("margin 3 C", (3, "dC")), ("margin: 3C", (3, "dC")),
    ("the margin is only 3 C", (3, "dC")), ("margin of at least 5 F", (5, "dF")),
    ("a 3 C margin", (3, "dC")), ("a 5-degree F difference", (5, "dF")),
    ("10 C warmer", (10, "dC")), ("25 F short", (25, "dF")),
    ("warm it by 3 C", (3, "dC")), ("off by 5 F", (5, "dF")), ("±2 C", (2, "dC")),
    ("+/- 2 C", (2, "dC")), ("plus or minus 2 C", (2, "dC")), ("within 5 F of it", (5, "dF")),
    ("it drops 10 F", (10, "dF")), ("a rise of 4 C", (4, "dC")), ("reads 20 F low", (20, "dF")),
    ("reads 20 F too low", (20, "dF")), ("2 C clear of the dew point", (2, "dC")),
    ("5 to 10 C above the dew point", (5, 10, "dC")), ("3 C more", (3, "dC")),
])
def test_a_gap_between_two_readings_is_a_difference(text, meant):
    assert one(text) == meant


@pytest.mark.parametrize(("text", "meant"), [
    ("225 F", (225, "degF")), ("above 55 F", (55, "degF")), ("over 140 F", (140, "degF")),
    ("below 60 F", (60, "degF")), ("55 F or above", (55, "degF")), ("60 F or more", (60, "degF")),
    ("is 200 F too hot for a hood", (200, "degF")), ("it drops to 45 F", (45, "degF")),
    ("margin at 17 C", (17, "degC")), ("dew point 12 C", (12, "degC")),
    ("140 F over 10 minutes", (140, "degF")), ("60 F under the lamp", (60, "degF")),
    ("within 60-75 F", (60, 75, "degF")), ("the difference between 60 and 75 F", (60, 75, "degF")),
    ("12 C below zero", (-12, "degC")), ("down to -3 C", (-3, "degC")),
])
def test_a_limit_or_a_reading_stays_a_temperature(text, meant):
    assert numbers(text)[0] == meant


def test_degrees_without_a_scale_can_be_a_difference_too():
    found, = read("2 degrees over the dew point")
    assert found.degrees and found.difference and found.unit is None
    found, = read("17 degrees in the bay")
    assert found.degrees and not found.difference
