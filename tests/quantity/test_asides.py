"""Numbers that measure nothing."""

from __future__ import annotations

import pytest

from tests.quantity.said import numbers


@pytest.mark.parametrize("text", [
    "done at 3 pm", "3pm", "3 p.m. sharp", "15:30", "at 7.30am", "open 8 am to 5 pm", "3-5 pm",
    "from 8 to 5 pm", "between 3 and 5 pm", "3 o'clock", "at 10 in the morning",
    "half past three", "quarter past nine", "ten past two", "at 1500 hours", "quarter to one",
])
def test_a_time_of_day_is_no_quantity(text):
    assert numbers(text) == []


@pytest.mark.parametrize("text", [
    "12/25/2024", "2025-01-15", "15.01.2025", "15 January", "January 15th", "the 3rd of March 2025",
    "Jan 15, 2025", "on 1 May 2023", "laid in May 2023", "my 2019 van", "a 2021 model",
    "built in 2019", "the 90s", "1970s paint", "open 24/7",
])
def test_a_date_or_a_year_is_no_quantity(text):
    assert numbers(text) == []


@pytest.mark.parametrize("text", [
    "an m8 bolt", "size A4", "stage_2", "4wd", "2k primer", "a 5-piece bumper", "two-part epoxy",
    "the 2nd coat", "ISO 8502-4", "29 CFR 1910.1000", "ASTM D3359", "lot 4471", "lot no. 12",
    "bay #3", "call 555-123-4567", "the 1/4 panel", "rear 1/4", "12 volt", "2000 watt gun",
    "400 grit", "40 mph", "a 5000K lamp", "v2.1",
])
def test_a_number_in_a_name_is_no_quantity(text):
    assert numbers(text) == []


@pytest.mark.parametrize("text", [
    "one of them lifted", "this one", "a panel", "a second coat", "wait a minute", "one by one",
    "the two of us", "two people on it", "cut it in two", "once a day", "2 of them", "one or two",
    "a quarter panel", "quarter of the hood", "half the roll", "a couple of bubbles",
    "the dew point", "at the point of the knife", "order one roll or two", "I am in",
])
def test_a_word_that_only_looks_like_a_number_is_none(text):
    assert numbers(text) == []


@pytest.mark.parametrize(("text", "meant"), [
    ("is 2000 ok", (2000, None)), ("2000 mm", (2000, "mm")),
    ("the 2000 by 900 piece", (2000, None)),
    ("at 60F", (60, "degF")), ("at60F", (60, "degF")), ("in 5 days", (5, "day")),
    ("200 am I ok", (200, None)), ("1:30 hours", (90, "min")), ("bleed of two", (2, None)),
    ("one inch", (1, "in")), ("an hour", (1, "h")), ("roll is sixty", (60, None)),
    ("two", (2, None)), ("a quarter", (0.25, None)), ("one", (1, None)),
])
def test_a_number_close_to_those_is_still_read(text, meant):
    assert numbers(text)[0] == meant
