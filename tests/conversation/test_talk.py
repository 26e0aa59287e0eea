"""A talk in the bay: what is understood from one line to the next.

The figures are common practice of the trade, without a source, unless said otherwise.
"""

import pytest

from assistant.conversation.talk import Conversation
from assistant.reply import lay_out


def figures(reply):
    return [(figure.low, figure.high, figure.unit) for figure in reply.figures]


def say(talk: Conversation, *lines):
    for line in lines:
        reply = talk.turn(line)
    return reply


# -- one question, one rule ------------------------------------------------------------------


@pytest.mark.parametrize("line, figure", [
    ("how hot for an overlap", (225, 225, "degF")),
    ("what temp do i finish the lap at", (225, 225, "degF")),
    ("post heat temperature of a recess", (185, 195, "degF")),
    ("how much bleed on each edge", (3, 3, "in")),
    ("how warm should the bay be", (60, 75, "degF")),
    ("how long before i can wash the car", (7, 7, "day")),
    ("how wide is a roll", (60, 60, "in")),
    ("how close to the dew point can the panel be", (5, 5, "dF")),
    ("how much film to wrap behind an edge", (0.25, 0.5, "in")),
    ("how long do rolls acclimatise", (24, 24, "h")),
])
def test_a_plain_question_gets_the_figure_of_its_rule(talk, line, figure):
    reply = talk.turn(line)
    assert reply.outcome == "answer", lay_out(reply)[0]
    assert figures(reply)[0] == figure


def test_the_figures_are_those_of_the_one_rule_that_answers(talk):
    reply = talk.turn("how hot for an overlap")
    assert figures(reply) == [(225, 225, "degF")]
    assert reply.rules == ("post-heat-overlap",)
    assert reply.basis == "practice" and reply.layer == "shipped"


def test_both_unit_systems_stand_in_the_text_the_askers_first(talk):
    assert "225 °F (107 °C)" in talk.turn("how hot for an overlap").answer
    assert "107 °C (225 °F)" in talk.turn("in celsius?").answer


# -- what goes on from the last line ---------------------------------------------------------


def test_and_for_something_else_keeps_the_doing(talk):
    say(talk, "how hot do i post-heat a recess")
    assert figures(talk.turn("and for an overlap?")) == [(225, 225, "degF")]


def test_in_celsius_says_the_same_figure_in_the_other_system(talk):
    say(talk, "how hot for an overlap")
    assert figures(talk.turn("in celsius?")) == [(107, 107, "degC")]
    assert figures(talk.turn("in fahrenheit")) == [(225, 225, "degF")]


def test_why_gives_the_reason_of_the_last_rule(talk):
    first = talk.turn("how hot for an overlap")
    reason = talk.turn("why?")
    assert reason.outcome == "answer"
    assert reason.answer == first.why
    assert reason.rules == first.rules


def test_more_brings_what_did_not_fit_and_nothing_twice(talk):
    reply = talk.turn("how do i wrap a bumper")
    assert len(lay_out(reply)[0].splitlines()) <= 24
    more = talk.turn("more")
    assert more.outcome == "done"


def test_forgetting_the_context_makes_the_next_line_the_first(talk):
    say(talk, "how hot do i post-heat a recess")
    talk.forget()
    assert talk.turn("and for that?").outcome != "answer"


# -- not enough said -------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["how hot?", "is it ready?", "how long?"])
def test_a_line_that_names_nothing_is_asked_back_with_choices(talk, line):
    reply = talk.turn(line)
    assert reply.outcome == "asks", lay_out(reply)[0]
    assert 2 <= len(reply.choices) <= 4
    assert not reply.figures


def test_a_thing_whose_doings_differ_is_asked_back_and_the_next_word_decides(talk):
    reply = talk.turn("overlap")
    assert reply.outcome == "asks"
    assert 2 <= len(reply.choices) <= 4
    width = next(i for i, choice in enumerate(reply.choices, 1) if "wid" in choice.lower())
    answer = talk.turn(str(width))
    assert figures(answer) == [(0.125, 0.125, "in")]


# -- other subjects --------------------------------------------------------------------------


@pytest.mark.parametrize("line", [
    "what is the capital of france",
    "how long do i roast a chicken",
    "how much overlap for roof shingles",
    "how long does concrete need to cure",
    "how do i bleed the brakes",
    "what bleed do i need on a business card",
    "tell me a joke",
    "asdf qwer zxcv",
])
def test_what_it_does_not_know_it_says(talk, line):
    reply = talk.turn(line)
    assert reply.outcome == "outside", lay_out(reply)[0]
    assert not reply.figures


# -- judged values ---------------------------------------------------------------------------


def test_two_hundred_is_short_for_an_overlap(talk):
    reply = talk.turn("is 200 ok for an overlap?")
    assert reply.answer.startswith("No: 200 °F is 25 °F (14 °C) short of 225 °F")
    assert figures(reply)[0] == (225, 225, "degF")


def test_washing_tomorrow_is_too_soon_after_the_wrap(talk):
    reply = talk.turn("can i wash it tomorrow")
    assert reply.answer.startswith("No: 1 day is 6 days short of")


def test_a_cold_panel_does_not_start(talk):
    reply = talk.turn("panel is 58, can i start")
    assert reply.answer.startswith("No: 58 °F is 2 °F")
    assert figures(reply)[0] == (60, 75, "degF")


# -- sums ------------------------------------------------------------------------------------


def test_the_film_for_a_bumper_in_one_line(talk):
    reply = talk.turn("how much film for a rear bumper 92 by 31, 3 inch bleed")
    assert reply.outcome == "result"
    # By hand: 92 + 2 x 3 = 98; 31 + 2 x 3 = 37; 60 - 37 = 23.
    assert "98 x 37 in" in lay_out(reply)[0]
    assert "98 in (2.49 m)" in lay_out(reply)[0]
    assert (98, 98, "in") == figures(reply)[0]
    assert (23, 23, "in") in figures(reply)
    assert any("60 in" in assumed for assumed in reply.assumed)


def test_one_number_can_be_changed_afterwards(talk):
    say(talk, "how much film for a rear bumper 92 by 31, 3 inch bleed")
    reply = talk.turn("and with a 4 inch bleed?")
    assert reply.outcome == "result"
    assert figures(reply)[0] == (100, 100, "in")  # by hand: 92 + 2 x 4


def test_numbers_without_a_unit_are_asked_back_and_the_unit_is_enough(talk):
    reply = talk.turn("how much film for a door 48 by 37")
    assert reply.outcome == "asks" and reply.needs == ("unit",)
    assert "48" in reply.answer
    assert talk.turn("inches").outcome == "result"


def test_a_missing_number_is_asked_for_and_the_bare_number_is_enough(talk):
    asked = talk.turn("bay check, air is 20C and the panel is 16C")
    assert asked.outcome == "asks" and len(asked.needs) == 1
    assert talk.turn("60").outcome == "result"


def test_start_over_drops_the_open_sum(talk):
    say(talk, "bay check, air is 20C and the panel is 16C")
    assert talk.turn("start over").outcome == "done"
    assert talk.turn("60").outcome != "result"


def test_nonsense_is_questioned_by_name_and_nothing_is_computed(talk):
    reply = talk.turn("dew point at 20C and 140 percent humidity")
    assert reply.outcome == "asks"
    assert "140" in reply.answer
    assert not reply.figures and not reply.working


# -- safety ----------------------------------------------------------------------------------


@pytest.mark.parametrize("line", [
    "wiping it with fuel while the heater runs",
    "having a smoke while i degrease the door",
    "im going to hit it with the heat gun, the ipa is still wet",
])
def test_an_unsafe_act_is_answered_with_the_safety_rule(talk, line):
    reply = talk.turn(line)
    assert reply.outcome == "answer", lay_out(reply)[0]
    assert reply.cautions
    assert talk.knowledge.rules[reply.rules[0]].safety


# -- the talk itself -------------------------------------------------------------------------


@pytest.mark.parametrize("line", ["hello", "thanks", "help", "what can you do", "good morning"])
def test_manners_are_returned(talk, line):
    reply = talk.turn(line)
    assert reply.outcome == "done" and reply.answer


def test_an_empty_line_gets_a_reply_too(talk):
    assert talk.turn("   ").outcome == "asks"


def test_escape_codes_and_markup_are_shown_harmlessly(talk):
    reply = talk.turn("how hot \x1b[31m for an [b]overlap[/b] \x07")
    assert "\x1b" not in lay_out(reply)[0] and "\x07" not in lay_out(reply)[0]
