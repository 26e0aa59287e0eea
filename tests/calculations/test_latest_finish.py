"""Backwards from the hand-over, counted by hand; now is Wednesday 15 January 2025, 7:30."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations import cure_clock
from assistant.calculations.base import Impossible, Missing
from assistant.calculations.latest_finish import Inputs, calculate
from assistant.quantity.kinds import Temperature
from assistant.quantity.write import System
from tests.calculations.conftest import setting_for

FRIDAY = datetime(2025, 1, 17, 17)


def f(value: float) -> Temperature:
    return Temperature.of(value, "degF")


def test_ready_on_friday_at_five_means_down_by_thursday_at_five(us):
    result = calculate(Inputs(ready=FRIDAY), us)
    assert result.times[0].at == datetime(2025, 1, 16, 17)
    assert "5:00 pm" in result.answer
    assert any("over the threshold" in text for text in result.assumed)


def test_a_cold_night_in_between_moves_the_finish_forward(us):
    # Friday 17:00 back to 7:00: 10 h; 19:00-7:00 at 45 °F does not count; 14 h more before
    # Thursday 19:00: Thursday 5:00.
    result = calculate(
        Inputs(ready=FRIDAY, temperature=f(65), off=datetime(2025, 1, 16, 19),
               back=datetime(2025, 1, 17, 7), off_temperature=f(45)), us,
    )
    assert result.times[0].at == datetime(2025, 1, 16, 5)


def test_a_hand_over_tonight_is_too_late_and_says_by_how_much(us, figures):
    # Ready today 18:00: the last post-heat had to be yesterday 18:00, 13.5 h before 7:30.
    result = calculate(Inputs(ready=datetime(2025, 1, 15, 18)), us)
    assert result.verdict == "too late"
    assert figures(result)["too late by"].to("h") == pytest.approx(13.5)


@pytest.mark.parametrize(("inputs", "slot"), [
    (Inputs(ready=datetime(2025, 1, 14, 12)), "ready"),
    (Inputs(ready=FRIDAY, temperature=f(55)), "temperature"),
    (Inputs(ready=FRIDAY, temperature=f(400)), "temperature"),
])
def test_plans_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        calculate(inputs, us)
    assert refused.value.slot == slot


def test_a_heating_that_goes_off_at_a_time_of_day_goes_off_every_night(us):
    # Ready Friday 5 pm: Friday from 6 am 11 h, Thursday 6 am to 8 pm 14 h: 13 h of it from 7 am.
    off = FRIDAY.replace(hour=20)
    result = calculate(
        Inputs(ready=FRIDAY, temperature=f(65), off=off, back=off + timedelta(hours=10),
               off_temperature=f(45)), us,
    )
    assert result.times[0].at == datetime(2025, 1, 16, 7)


def test_every_night_off_without_the_morning_asks_for_it(us):
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(ready=FRIDAY, off=FRIDAY.replace(hour=20), off_temperature=f(45)), us)
    assert wanted.value.slot == "back"


def test_heating_off_without_the_night_temperature_asks_for_it(us):
    with pytest.raises(Missing):
        calculate(Inputs(ready=FRIDAY, off=datetime(2025, 1, 16, 19)), us)


@given(st.floats(56, 80), st.floats(0, 80), st.integers(0, 40), st.integers(1, 30))
def test_a_car_finished_at_the_latest_moment_is_cured_exactly_in_time(warm, night, off, hours):
    setting = setting_for(System.US)
    begin = datetime(2025, 1, 15, 12) + timedelta(hours=off)
    spell = {"off": begin, "back": begin + timedelta(hours=hours), "off_temperature": f(night)}
    ready = datetime(2025, 1, 19, 17)
    planned = calculate(Inputs(ready=ready, temperature=f(warm), **spell), setting)
    start = planned.times[0].at
    clock = cure_clock.calculate(
        cure_clock.Inputs(start=start, temperature=f(warm), **spell), setting
    )
    assert abs(clock.times[0].at - ready) <= timedelta(seconds=1)
