"""Cure clock. Expected hours and clock times are worked by hand beside each check."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import Impossible, Missing, Setting
from assistant.calculations.cure_clock import Inputs, Stretch, calculate, release, time_above
from assistant.quantity.kinds import Duration, Temperature
from assistant.quantity.write import System
from tests.calculations.conftest import setting_for

FOUR_PM = datetime(2025, 1, 14, 16, 0)  # a Tuesday; the tests' now is Wednesday 7:30


def f(value: float) -> Temperature:
    return Temperature.of(value, "degF")


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2025, 1, day, hour, minute)


def test_a_steady_warm_bay_is_done_24_hours_after_the_last_post_heat(us, figures):
    # 16:00 to 7:30 is 15.5 h; 24 h after 16:00 is 16:00 the next day.
    result = calculate(Inputs(start=FOUR_PM, temperature=f(65)), us)
    found = figures(result)
    assert found["hours counted"].to("h") == pytest.approx(15.5)
    assert found["hours left"].to("h") == pytest.approx(8.5)
    assert result.times[0].at == at(15, 16)
    assert "4:00 pm" in result.answer
    assert result.verdict == "wait"


def test_a_metric_reply_tells_the_24_hour_clock(metric):
    assert "16:00" in calculate(Inputs(start=FOUR_PM, temperature=f(65)), metric).answer


def test_hours_with_the_heating_off_do_not_count_but_those_before_and_after_do(us, figures):
    # 16:00-18:00 warm (2 h), 18:00-7:00 at 45 °F (0 h), from 7:00 warm: by 7:30 2.5 h;
    # 22 h more from 7:00 is 5:00 on Thursday; without the gap it would be 16:00: 13 h later.
    result = calculate(
        Inputs(start=FOUR_PM, temperature=f(65), off=at(14, 18), off_temperature=f(45),
               back=at(15, 7)), us,
    )
    found = figures(result)
    assert found["hours counted"].to("h") == pytest.approx(2.5)
    assert found["hours left"].to("h") == pytest.approx(21.5)
    assert result.times[0].at == at(16, 5)
    assert found["later because the heating is off"].to("h") == pytest.approx(13)


def test_heating_that_goes_off_after_the_release_changes_nothing(us):
    result = calculate(
        Inputs(start=FOUR_PM, temperature=f(65), off=at(15, 18), off_temperature=f(45)), us
    )
    assert result.times[0].at == at(15, 16)


def test_a_night_that_stays_over_the_threshold_costs_nothing(us):
    result = calculate(
        Inputs(start=FOUR_PM, temperature=f(65), off=at(14, 18), off_temperature=f(56)), us
    )
    assert result.times[0].at == at(15, 16)


def test_exactly_at_the_threshold_no_hour_counts(us):
    result = calculate(Inputs(start=FOUR_PM, temperature=f(55)), us)
    assert result.verdict == "stands still"
    assert not result.times


def test_a_log_is_read_in_straight_lines_between_its_readings(us, figures):
    # 65 °F at 16:00 falls to 45 °F at 20:00: over 55 °F for 2 h; to 65 °F at 6:00 (10 h): over
    # 55 °F from 1:00 on, 5 h; then 65 °F holds to 7:30: 1.5 h. Together 8.5 h.
    log = ((at(14, 16), f(65)), (at(14, 20), f(45)), (at(15, 6), f(65)))
    found = figures(calculate(Inputs(log=log), us))
    assert found["hours counted"].to("h") == pytest.approx(8.5)


def test_readings_before_the_last_post_heat_do_not_count(us, figures):
    # The log begins at noon, the cure at 16:00: 15.5 h by 7:30.
    log = ((at(14, 12), f(65)), (at(14, 18), f(65)))
    found = figures(calculate(Inputs(start=FOUR_PM, log=log), us))
    assert found["hours counted"].to("h") == pytest.approx(15.5)


def test_a_cure_that_is_over_is_released(us, figures):
    result = calculate(Inputs(start=at(13, 12), temperature=f(65)), us)
    assert result.verdict == "done"
    assert figures(result)["hours left"].si == 0


def test_added_up_hours_need_not_be_in_one_run():
    # 8 h at 60, 8 h at 50, 4 h at 60, over 55: 12 h.
    parts = []
    for begin, hours, level in ((0, 8, 60), (8, 8, 50), (16, 4, 60)):
        start = FOUR_PM + timedelta(hours=begin)
        parts.append(Stretch(start, start + timedelta(hours=hours), f(level), f(level)))
    total = time_above(tuple(parts), f(55), FOUR_PM + timedelta(days=9))
    assert total == timedelta(hours=12)
    assert release(tuple(parts), f(55), timedelta(hours=10)) == FOUR_PM + timedelta(hours=18)
    assert release(tuple(parts), f(55), timedelta(hours=13)) is None


def test_without_any_temperature_it_is_asked_for(us):
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(start=FOUR_PM), us)
    assert wanted.value.slot == "temperature"


def test_heating_off_without_the_night_temperature_asks_for_it(us):
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(start=FOUR_PM, temperature=f(65), off=at(14, 18)), us)
    assert wanted.value.slot == "off_temperature"


def test_without_a_clock_and_a_start_it_asks_when(us):
    no_clock = Setting(System.US, us.figure, None)
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(temperature=f(65)), no_clock)
    assert wanted.value.slot == "start"


@pytest.mark.parametrize(("inputs", "slot"), [
    (Inputs(start=FOUR_PM, temperature=f(400)), "temperature"),
    (Inputs(start=FOUR_PM, temperature=f(65), needed=Duration.of(0, "h")), "needed"),
    (Inputs(log=((at(14, 18), f(65)), (at(14, 17), f(65)))), "log"),
    (Inputs(start=FOUR_PM, temperature=f(65), off=at(14, 18), off_temperature=f(45),
            back=at(14, 17)), "back"),
])
def test_cures_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        calculate(inputs, us)
    assert refused.value.slot == slot


@given(st.floats(56, 80), st.floats(-10, 80), st.floats(0, 40), st.floats(0.1, 40))
def test_a_cold_spell_never_brings_the_release_forward(warm, night, off_after, off_for):
    off = FOUR_PM + timedelta(hours=off_after)
    plain = calculate(Inputs(start=FOUR_PM, temperature=f(warm)), setting_for(System.US))
    spell = calculate(
        Inputs(start=FOUR_PM, temperature=f(warm), off=off, off_temperature=f(night),
               back=off + timedelta(hours=off_for)), setting_for(System.US),
    )
    assert spell.times[0].at >= plain.times[0].at
    assert spell.times[0].at <= plain.times[0].at + timedelta(hours=off_for, seconds=1)
