"""Whole lines: ranges, sides, lists, and what people in the bay type."""

from __future__ import annotations

import pytest

from assistant.quantity.read import read
from tests.quantity.said import numbers, one


@pytest.mark.parametrize(("text", "meant"), [
    ("185-195 F", (185, 195, "degF")), ("185–195 °F", (185, 195, "degF")),
    ("185 - 195 F", (185, 195, "degF")), ("185 to 195 F", (185, 195, "degF")),
    ("185F to 195F", (185, 195, "degF")), ("60F to 75", (60, 75, "degF")),
    ("between 60 and 75 F", (60, 75, "degF")), ("from 60 to 75 F", (60, 75, "degF")),
    ("between about 60 and 75 F", (60, 75, "degF")), ("-3 to 5 C", (-3, 5, "degC")),
    ("between -3 and 5 C", (-3, 5, "degC")), ("60° to 75°F", (60, 75, "degF")),
    ("1/4-1/2 in", (0.25, 0.5, "in")), ('1/4" - 1/2"', (0.25, 0.5, "in")),
    ("a quarter to half an inch", (0.25, 0.5, "in")), ("quarter to half inch", (0.25, 0.5, "in")),
    ("1 1/4 to 2 1/2 in", (1.25, 2.5, "in")), ("24-48 h", (24, 48, "h")),
    ("2 or 3 hours", (2, 3, "h")), ("a day or two", (1, 2, "day")),
    ("30 to 45 min", (30, 45, "min")), ("40-60%", (40, 60, "percent")),
    ("20 minutes to 1 hour", (20, 60, "min")),
    ("80 cm to 1.2 m", (80, 120, "cm")), ("entre 60 y 75 F", (60, 75, "degF")),
    ("de 60 a 75 F", (60, 75, "degF")), ("$40-50", (40, 50, "money")), ("3-5 days", (3, 5, "day")),
    ("one eighty five to one ninety five F", (185, 195, "degF")),
])
def test_a_range_has_two_ends_and_one_unit(text, meant):
    assert one(text) == meant


def test_the_text_of_a_range_runs_from_end_to_end():
    found, = read("post heat at 185 to 195 F please")
    assert (found.text, found.start, found.end) == ("185 to 195 F", 13, 25)


def test_a_larger_number_before_a_smaller_is_no_range():
    assert numbers("cool it from 225 to 185 F") == [(225, "degF"), (185, "degF")]
    found, = read("a panel 92-31")
    assert "x" in found.problem


def test_two_choices_are_two_numbers_with_one_unit():
    assert numbers("24 or 48 hours") == [(24, "h"), (48, "h")]
    assert numbers("25 or 50 yd") == [(25, "yd"), (50, "yd")]


@pytest.mark.parametrize(("text", "meant"), [
    ("92 x 31", [(92, None), (31, None)]), ('92x31"', [(92, "in"), (31, "in")]),
    ("92 × 31 in", [(92, "in"), (31, "in")]), ("92 by 31 inches", [(92, "in"), (31, "in")]),
    ('92" x 31', [(92, "in"), (31, "in")]), ("92*31 in", [(92, "in"), (31, "in")]),
    ("2.3m by 78cm", [(2.3, "m"), (78, "cm")]), ("1.2 x 2.4 metres", [(1.2, "m"), (2.4, "m")]),
    ("ninety two by thirty one", [(92, None), (31, None)]),
    ("92 wide by 31 high", [(92, None), (31, None)]),
    ('92" long x 31" high', [(92, "in"), (31, "in")]), ("7 ft. by 3 ft. 2 in.",
                                                         [(7, "ft"), (38, "in")]),
    ("20 by 12 by 10 ft", [(20, "ft"), (12, "ft"), (10, "ft")]),
    ("92 por 31 pulgadas", [(92, "in"), (31, "in")]), ("2m40 x 1m20", [(240, "cm"), (120, "cm")]),
    ("5 1/8 x 3 1/4 in", [(5.125, "in"), (3.25, "in")]),
])
def test_sides_share_the_unit_that_was_given_once(text, meant):
    found = read(text)
    assert [(f.low, f.unit) for f in found] == meant
    assert len({f.group for f in found}) == 1
    assert {f.sides for f in found} == {len(meant)}


@pytest.mark.parametrize("text", ["2 x 500 ml", "raise 200 by 5 F", "3 x 24 h", "10 x $5"])
def test_only_lengths_are_sides(text):
    found = read(text)
    assert len(found) == 2 and len({f.group for f in found}) == 2
    assert {f.sides for f in found} == {1}


@pytest.mark.parametrize(("text", "meant"), [
    ("how much film for a rear bumper 92 by 31, 3 inch bleed",
     [(92, None), (31, None), (3, "in")]),
    ("panel is 16C, the bay is at 18C, 55% rh", [(16, "degC"), (18, "degC"), (55, "percent")]),
    ("wots the gap on a hood 60in wide if im 2 1/2 in short", [(60, "in"), (2.5, "in")]),
    ("air at eighteen C panel at fifteen and a half C humidity fifty five percent",
     [(18, "degC"), (15.5, "degC"), (55, "percent")]),
    ("80 micron film, 92 by 31", [(80, "um"), (92, None), (31, None)]),
    ("roll is 60\" wide and I've 14 and a half yards left", [(60, "in"), (14.5, "yd")]),
    ("done at 3 pm, bay stays at 62F, when can it go", [(62, "degF")]),
    ("post-heated it to 200, is that ok? took 20 minutes", [(200, None), (20, "min")]),
    ("strips for 118 in, film 60 in, overlap 1/2 in", [(118, "in"), (60, "in"), (0.5, "in")]),
    ("50 ml of alcohol in 30 m3 with 5 air changes per hour",
     [(50, "mL"), (30, "m3"), (5, "per_h")]),
    ("225 °F (107 °C)", [(225, "degF"), (107, "degC")]),
    ("98 x 37 in (249 x 94 cm)", [(98, "in"), (37, "in"), (249, "cm"), (94, "cm")]),
    ("film 450, 20 hours at 40 an hour", [(450, None), (20, "h"), (40, None)]),
    ("25 yards at $12 a yard", [(25, "yd"), (12, "money")]),
    ("(62F/60%/58F)", [(62, "degF"), (60, "percent"), (58, "degF")]),
    ("cuánto calor, 107 grados C en la solapa", [(107, "degC")]),
    ("I'd leave it a week, two weeks if it's cold", [(1, "week"), (2, "week")]),
    ("is an eighth enough", [(0.125, None)]),
])
def test_lines_of_the_trade(text, meant):
    assert numbers(text) == meant


def test_every_number_outside_a_panel_has_a_group_of_its_own():
    found = read("bleed 3 in, 92 x 31, roll 60, 70/30 mix")
    assert [f.group for f in found] == [0, 1, 1, 2, 3, 4]


def test_a_line_without_numbers_has_none():
    assert read("") == read("how hot for an overlap?") == read("\x00\x1b[31m") == ()
