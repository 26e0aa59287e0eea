"""Points in time as people say them, counted by hand; now is Wednesday 15 January 2025."""

from __future__ import annotations

from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.quantity.moment import FUTURE, PAST, TODAY, read_moments
from assistant.quantity.write import System

NOW = datetime(2025, 1, 15, 7, 30)


def one(text: str, towards: str = TODAY, system: System = System.US) -> datetime:
    (found,) = read_moments(text, NOW, system)
    return found.at(NOW, towards)


@pytest.mark.parametrize(("text", "hour", "minute"), [
    ("at 4 pm", 16, 0), ("at 4:30pm", 16, 30), ("16:30", 16, 30), ("noon", 12, 0),
    ("midnight", 0, 0), ("half past two", 14, 30), ("quarter to five", 16, 45),
    ("quarter past 9 am", 9, 15), ("12 am", 0, 0), ("12 pm", 12, 0), ("five o'clock", 17, 0),
    ("4 p.m. sharp", 16, 0), ("6 in the morning", 6, 0), ("6:30 in the evening", 18, 30),
    ("12 at night", 0, 0), ("8 this morning", 8, 0),
])
def test_a_clock_time_is_read_as_the_shop_says_it(text, hour, minute):
    assert one(text) == datetime(2025, 1, 15, hour, minute)


def test_four_in_the_afternoon_is_yesterdays_when_it_is_over_and_todays_when_it_is_to_come():
    assert one("finished at 4 pm", PAST) == datetime(2025, 1, 14, 16)
    assert one("off at 4 pm", FUTURE) == datetime(2025, 1, 15, 16)
    assert one("off at 6 am", FUTURE) == datetime(2025, 1, 16, 6)


@pytest.mark.parametrize(("text", "day"), [
    ("2022-03-31", (2022, 3, 31)), ("31 March 2022", (2022, 3, 31)),
    ("March 31st, 2022", (2022, 3, 31)), ("the 1st of June 2022", (2022, 6, 1)),
    ("April 2022", (2022, 4, 1)), ("31/01/2020", (2020, 1, 31)), ("31.1.2020", (2020, 1, 31)),
    ("3 years ago", (2022, 1, 15)), ("2 months ago", (2024, 11, 15)),
    ("yesterday", (2025, 1, 14)), ("last friday", (2025, 1, 10)), ("next monday", (2025, 1, 20)),
])
def test_a_day_is_read_in_the_usual_forms(text, day):
    assert one(text).date() == datetime(*day).date()


def test_the_order_of_day_and_month_is_the_persons_own():
    assert one("12/01/2020", system=System.US) == datetime(2020, 12, 1)
    assert one("12/01/2020", system=System.METRIC) == datetime(2020, 1, 12)


@pytest.mark.parametrize(("text", "expected"), [
    ("ready Friday 5 pm", datetime(2025, 1, 17, 17)),
    ("at 16:00 yesterday", datetime(2025, 1, 14, 16)),
    ("2025-01-14 16:00", datetime(2025, 1, 14, 16)),
    ("5 tomorrow morning", datetime(2025, 1, 16, 5)),
    ("tomorrow morning", datetime(2025, 1, 16, 8)), ("tonight", datetime(2025, 1, 15, 18)),
    ("on sat 9 am", datetime(2025, 1, 18, 9)),
])
def test_a_day_and_a_clock_time_side_by_side_are_one_moment(text, expected):
    assert one(text, FUTURE) == expected


def test_a_day_without_its_year_is_last_years_when_it_must_be_over():
    assert one("laid 31 March", PAST) == datetime(2024, 3, 31)
    assert one("31 March", FUTURE) == datetime(2025, 3, 31)


def test_a_weekday_of_the_past_is_the_last_one():
    assert one("on Friday", PAST) == datetime(2025, 1, 10)


def test_times_are_counted_from_now():
    assert one("2 hours ago") == datetime(2025, 1, 15, 5, 30)
    assert one("in 20 minutes") == datetime(2025, 1, 15, 7, 50)


def test_two_moments_of_a_line_stay_two():
    found = read_moments("off at 6 pm and on again at 7 am tomorrow", NOW)
    assert [m.at(NOW, FUTURE) for m in found] == [
        datetime(2025, 1, 15, 18), datetime(2025, 1, 16, 7),
    ]


@pytest.mark.parametrize("text", [
    "92 x 31 in", "half an inch", "may in the bay", "sun damage", "60 in at 70 F", "31 June 2022",
    "24 h above 55 F", "1/8 in", "25:00", "13 pm",
])
def test_what_is_no_moment_is_left_alone(text):
    assert read_moments(text, NOW) == ()


@given(st.text(max_size=60))
def test_any_text_is_read_without_a_crash(text):
    for moment in read_moments(text, NOW):
        assert moment.start < moment.end
        assert isinstance(moment.at(NOW, PAST), datetime)


@given(st.datetimes(datetime(1990, 1, 1), datetime(2060, 1, 1)))
def test_a_written_moment_reads_back(moment):
    exact = moment.replace(second=0, microsecond=0)
    assert one(exact.strftime("%Y-%m-%d %H:%M")) == exact
