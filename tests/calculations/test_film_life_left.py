"""Life left in the film. Dates are counted by hand on the calendar."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import FilmInHand, Impossible, Life, Missing
from assistant.calculations.film_life_left import (
    Inputs,
    after_months,
    calculate,
    months_between,
)
from assistant.quantity.kinds import Duration

LAID = datetime(2022, 3, 31)  # the tests' now is 15 January 2025


def years(value: float) -> Duration:
    return Duration.of(value, "year")


def line(zone: str, surface: str, low: float, high: float | None = None) -> Life:
    return Life(zone, surface, years(low), years(high or low))


# An invented sheet.
SHEET = FilmInHand("Ninefathom Test", life=(
    line("temperate", "upright", 5, 7), line("temperate", "flat", 4),
    line("desert", "upright", 4), line("desert", "flat", 2),
))
NO_TABLE = FilmInHand("Ninefathom Bare")


def test_a_month_after_the_31st_of_january_is_the_last_of_february():
    assert after_months(datetime(2025, 1, 31), 1) == datetime(2025, 2, 28)
    assert after_months(datetime(2024, 1, 31), 1) == datetime(2024, 2, 29)
    assert after_months(datetime(2025, 12, 5), 2) == datetime(2026, 2, 5)


@pytest.mark.parametrize(("start", "end", "months"), [
    (datetime(2025, 1, 15), datetime(2025, 2, 14), 0),
    (datetime(2025, 1, 15), datetime(2025, 2, 15), 1),
    (datetime(2025, 1, 15), datetime(2027, 3, 31), 26),
    (datetime(2025, 1, 15), datetime(2024, 1, 15), 0),
])
def test_only_full_months_count(start, end, months):
    assert months_between(start, end) == months


def test_five_years_on_the_sheet_end_in_march_2027_with_26_months_left(us, figures):
    result = calculate(Inputs(laid=LAID, years=years(5)), us)
    assert result.times[0].at == datetime(2027, 3, 31)
    assert figures(result)["months left"].si == 26


@pytest.mark.parametrize(("zone", "surface", "end"), [
    ("temperate", "flat", datetime(2026, 3, 31)), ("Desert", "upright", datetime(2026, 3, 31)),
    ("desert", "flat", datetime(2024, 3, 31)),
])
def test_the_sheets_own_table_decides_by_zone_and_surface(us, zone, surface, end):
    result = calculate(Inputs(laid=LAID, zone=zone, surface=surface), replace(us, film=SHEET))
    assert result.times[0].at == end
    assert (result.verdict == "past") == (end < us.now)
    assert "Ninefathom Test" in result.assumed[0]


def test_a_line_of_the_sheet_with_two_numbers_gives_two_dates(us, figures):
    # 5 and 7 years from 31 March 2022; from 15 January 2025 that is 26 and 50 full months.
    result = calculate(Inputs(laid=LAID, zone="temperate"), replace(us, film=SHEET))
    assert [moment.at.year for moment in result.times] == [2027, 2029]
    (left,) = result.figures
    assert (left.low.si, left.high.si) == (26, 50)


def test_years_told_as_a_range_give_two_dates(us):
    result = calculate(Inputs(laid=LAID, years=years(5), years_to=years(7)), us)
    assert [moment.at.year for moment in result.times] == [2027, 2029]


def test_a_film_whose_sheet_has_no_table_gets_the_general_range_and_says_so(us):
    result = calculate(Inputs(laid=LAID), replace(us, film=NO_TABLE))
    assert [moment.at.year for moment in result.times] == [2025, 2029]
    assert "Ninefathom Bare, no life table" in result.assumed[0]


def test_a_table_without_the_zone_asks_for_it_by_name(us):
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(laid=LAID), replace(us, film=SHEET))
    assert wanted.value.slot == "zone"
    assert "temperate, desert" in wanted.value.text


def test_without_a_sheet_an_upright_panel_gets_the_general_range_and_says_so(us):
    # The rule's range of 3 to 7 years: March 2025 to March 2029.
    result = calculate(Inputs(laid=LAID), us)
    assert [moment.at.year for moment in result.times] == [2025, 2029]
    assert "no life table" in result.assumed[0]


def test_without_a_sheet_a_roof_is_not_guessed(us):
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(laid=LAID, surface="flat"), us)
    assert wanted.value.slot == "years"


@pytest.mark.parametrize(("inputs", "slot"), [
    (Inputs(laid=datetime(2026, 1, 1)), "laid"), (Inputs(laid=LAID, years=years(0)), "years"),
    (Inputs(laid=LAID, years=years(99)), "years"),
    (Inputs(laid=LAID, zone="moon"), "zone"),
])
def test_lives_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        calculate(inputs, replace(us, film=SHEET))
    assert refused.value.slot == slot


@given(st.dates(datetime(2000, 1, 1).date(), datetime(2040, 1, 1).date()), st.integers(0, 240))
def test_months_put_on_come_off_again(day, months):
    start = datetime(day.year, day.month, day.day)
    assert months_between(start, after_months(start, months)) in (months, months - 1)
