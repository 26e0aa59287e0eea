"""Timers run beside the talk: set, listed, stopped, and told once when they are due."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from assistant.conversation.talk import Conversation
from assistant.conversation.timers import MOST, Timers

NOON = datetime(2025, 1, 15, 12, 0)


class Clock:
    def __init__(self):
        self.at = NOON

    def __call__(self):
        return self.at

    def on(self, **span):
        self.at += timedelta(**span)


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def talk(ready, clock):
    return Conversation(ready, now=clock)


@pytest.mark.parametrize(("line", "minutes", "name"), [
    ("remind me in 20 minutes", 20, "20 min timer"),
    ("timer 5 min flash-off", 5, "flash-off"),
    ("cool-down 10 minutes", 10, "cool-down"),
    ("10 min cool down", 10, "cool-down"),
    ("set a timer for an hour and a half", 90, "1 h 30 min timer"),
    ("start a 20 minute timer", 20, "20 min timer"),
    ("please remind me in half an hour to check the edges", 30, "check the edges"),
    ("remind me at 5 pm to turn the heater off", 300, "turn the heater off"),
    ("remind me tomorrow at 8 am about the hood", 20 * 60, "the hood"),
    ("flash off 3 minutes", 3, "flash-off"),
    ("beep me in 90 seconds", 1.5, "2 min timer"),
])
def test_a_timer_is_set_as_the_bay_says_it(talk, line, minutes, name):
    reply = talk.turn(line)
    assert (reply.outcome, reply.intent) == ("done", "timer")
    (timer,) = talk.timers.running
    assert timer.due == NOON + timedelta(minutes=minutes)
    assert timer.name == name or minutes < 2
    assert reply.times[0].at == timer.due.isoformat(timespec="minutes")


@pytest.mark.parametrize("line", [
    "how long is the flash-off", "tell me when to stop heating", "does it need a cool-down",
    "how long do I set the timer for", "cool-down of the panel after post-heat",
])
def test_a_question_of_the_trade_sets_no_timer(talk, line):
    talk.turn(line)
    assert talk.timers.running == []


def test_a_timer_without_a_time_asks_for_it_and_takes_the_answer(talk):
    assert talk.turn("set a timer").needs == ("duration",)
    assert talk.turn("45 min").outcome == "done"
    assert talk.timers.running[0].due == NOON + timedelta(minutes=45)


@pytest.mark.parametrize("line", [
    "what timers are running", "timers", "list the timers", "which timers do I have",
    "how long is left on the timer",
])
def test_the_timers_are_listed_with_what_is_left(talk, clock, line):
    assert talk.turn(line).answer == "No timer is running."
    talk.turn("timer 5 min flash-off")
    talk.turn("cool-down 10 minutes")
    clock.on(minutes=2)
    told = talk.turn(line)
    assert "flash-off, 3 min to go; cool-down, 8 min to go" in told.answer
    assert [moment.name for moment in told.times] == ["flash-off", "cool-down"]


def test_the_timer_is_stopped_and_of_several_the_one_that_is_named(talk):
    talk.turn("timer 5 min flash-off")
    talk.turn("cool-down 10 minutes")
    asked = talk.turn("stop the timer")
    assert (asked.outcome, len(asked.choices)) == ("asks", 2)
    assert "flash-off" in talk.turn("1").answer
    assert "cool-down" in talk.turn("cancel the cool-down timer").answer
    assert talk.timers.running == []
    assert talk.turn("stop the timer").answer == "No timer is running."


def test_all_timers_are_stopped_at_once(talk):
    talk.turn("remind me in 5 minutes")
    talk.turn("remind me in 6 minutes")
    talk.turn("stop all timers")
    assert talk.timers.running == []


def test_a_timer_that_is_due_is_told_once_beside_the_next_answer(talk, clock):
    talk.turn("timer 5 min flash-off")
    clock.on(minutes=4)
    assert talk.turn("what is 225 F in C").due == ()
    clock.on(minutes=1)
    reply = talk.turn("what is 225 F in C")
    assert reply.due == ("Time is up: flash-off (12:05 pm, Wed 15 Jan).",)
    assert reply.answer.startswith("225 °F is")
    assert "* Time is up: flash-off" in reply.as_json()["text"]
    assert talk.turn("what is 225 F in C").due == ()


def test_the_screen_may_take_what_is_due_before_the_next_line(talk, clock):
    talk.turn("timer 5 min flash-off")
    clock.on(minutes=6)
    assert len(talk.due()) == 1
    assert talk.due() == ()
    assert talk.turn("timers").due == ()


def test_a_timer_leaves_an_open_sum_open(talk):
    talk.turn("how much film for a hood 60 x 50 in")
    talk.turn("remind me in 20 minutes")
    assert talk.turn("and with a 4 inch bleed?").figures[0].low == 68


def test_the_timers_outlast_the_context(talk):
    talk.turn("remind me in 20 minutes")
    talk.forget()
    assert len(talk.timers.running) == 1


def test_the_end_of_the_cure_rings(talk):
    talk.turn("finished at 10 am, bay at 65 F, when is it cured")
    talk.turn("remind me when the cure ends")
    # 24 h over 55 °F from 10 am.
    assert talk.timers.running[0].due == datetime(2025, 1, 16, 10)


def test_a_cure_that_is_not_known_is_asked_for_and_then_rings(talk):
    assert talk.turn("remind me when the cure ends").outcome == "asks"
    reply = talk.turn("finished at 10 am, bay at 65 F, when is it cured")
    assert any("timer set" in text for text in reply.assumed)
    assert talk.timers.running[0].due == datetime(2025, 1, 16, 10)


def test_a_moment_that_is_over_sets_nothing():
    timers = Timers()
    for due in (NOON, NOON - timedelta(minutes=1), NOON + timedelta(days=500)):
        with pytest.raises(ValueError):
            timers.start("x", due, NOON)
    assert timers.running == []


def test_there_are_only_so_many_at_once():
    timers = Timers()
    for minute in range(MOST):
        timers.start("x", NOON + timedelta(minutes=minute + 1), NOON)
    with pytest.raises(ValueError):
        timers.start("x", NOON + timedelta(hours=9), NOON)


def test_timers_ring_in_the_order_of_their_time():
    timers = Timers()
    for minutes, name in ((9, "late"), (3, "soon"), (6, "then")):
        timers.start(name, NOON + timedelta(minutes=minutes), NOON)
    due = timers.take_due(NOON + timedelta(minutes=7))
    assert [timer.name for timer in due] == ["soon", "then"]
    assert [timer.name for timer in timers.running] == ["late"]
