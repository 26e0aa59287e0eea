"""Feet with inches, hours with minutes: two numbers, one measure. Values by plain arithmetic."""

from __future__ import annotations

import pytest

from tests.quantity.said import numbers, one


@pytest.mark.parametrize(("text", "meant"), [
    # 6 x 12 + 2 = 74
    ("6'2\"", (74, "in")), ("6′2″", (74, "in")), ("6’ 2”", (74, "in")), ("6' 2", (74, "in")),
    ("6'-2\"", (74, "in")), ("6 ft 2 in", (74, "in")), ("6ft 2in", (74, "in")),
    ("6 ft. 2 in.", (74, "in")), ("six foot two", (74, "in")), ("6 foot 2 long", (74, "in")),
    ("6 feet and 2 inches long", (74, "in")), ("door 6ft2 tall", (74, "in")),
    ('6ft2"', (74, "in")), ("6 ft 2 1/2 in", (74.5, "in")), ("6' 2½\"", (74.5, "in")),
    ("five foot ten and a half", (70.5, "in")), ("-6 ft 2 in", (-74, "in")),
    ("2 yards 1 foot", (7, "ft")),
    ("1 hour 30 min", (90, "min")), ("1 hour and 30 minutes", (90, "min")), ("1h30", (90, "min")),
    ("1h30m", (90, "min")), ("2h 15m", (135, "min")), ("2 hours, 30 minutes", (150, "min")),
    ("2 hrs 20", (140, "min")), ("an hour and 20 minutes", (80, "min")),
    ("2 days 4 hours", (52, "h")), ("1 week 2 days", (9, "day")), ("1 min 30 s", (90, "s")),
    ("2 m 30 cm", (230, "cm")), ("2m30", (230, "cm")),
    ("van side 3m 20 long", (320, "cm")), ("2 an a half inches", (2.5, "in")),
    ("2 lb 3 oz", (35, "oz")),
    ("half an hour", (0.5, "h")), ("an hour and a half", (1.5, "h")),
    ("2 hours and a quarter", (2.25, "h")), ("a foot and a half", (1.5, "ft")),
    ("a day and a half", (1.5, "day")), ("half a day", (0.5, "day")),
    ("half an inch", (0.5, "in")), ("a half inch", (0.5, "in")), ("half-inch", (0.5, "in")),
    ("a quarter inch", (0.25, "in")), ("quarter of an inch", (0.25, "in")),
    ("three quarter inch", (0.75, "in")), ("five eighths of an inch", (0.625, "in")),
    ("10 thousandths of an inch", (10, "mil")), ("a couple of hours", (2, "h")),
])
def test_a_measure_in_two_parts_is_one(text, meant):
    assert one(text) == meant


@pytest.mark.parametrize(("text", "meant"), [
    ("hood 2 m 30 cm bleed", [(2, "m"), (30, "cm")]),
    ("92 in 3 in bleed", [(92, "in"), (3, "in")]),
    ("6 ft and 3 in bleed", [(6, "ft"), (3, "in")]),
    ("1.5 ft 2 in", [(1.5, "ft"), (2, "in")]),
    ("6 ft 14 in", [(6, "ft"), (14, "in")]),
    ("cure 24 hours, 55", [(24, "h"), (55, None)]),
    ("2 h 20 C", [(2, "h"), (20, "degC")]),
    ("12 ft2", [(12, "ft2")]),
    ("an hour and a quarter inch gap", [(1, "h"), (0.25, "in")]),
])
def test_two_measures_side_by_side_stay_two(text, meant):
    assert numbers(text) == meant
