"""Why that answer: what was heard, the two best and their scores, and how it was decided."""

import pytest

from assistant.reply import lay_out


def asked(talk, *lines):
    for line in lines:
        reply = talk.turn(line)
    assert reply.outcome == "done" and reply.intent == "why-that", reply
    return " ".join(lay_out(reply)[0].split())


@pytest.mark.parametrize("line", [
    "why did you answer that", "how did you understand that?", "what did you hear",
    "Why did you say that?", "what did you understand",
])
def test_however_it_is_asked_what_was_heard_is_told(talk, line):
    assert "overlap" in asked(talk, "how hot for an overlap", line)


def test_concepts_by_kind_numbers_and_mended_words_are_told(talk):
    text = asked(talk, "is 200 ok for a chrome overlp post heat?", "what did you hear")
    assert "things: overlap" in text and "doings: post-heat" in text and "films: chrome" in text
    assert "numbers: 200" in text
    assert "overlp -> overlap" in text


def test_the_two_best_are_told_with_their_scores(talk):
    verdict = None
    talk.turn("how hot for an overlap")
    verdict = talk.memory.verdict
    text = asked(talk, "why did you answer that")
    for candidate in verdict.candidates[:2]:
        assert f"({candidate.intent_id}), score {candidate.score:.2f}" in text
    assert f"verdict: sure, {verdict.reason}" in text


def test_words_of_other_subjects_and_unknown_words_are_told_and_why_it_was_outside(talk):
    text = asked(talk, "how long do zzyzx flombles bake in the oven", "why did you answer that")
    assert "verdict: outside" in text and "so it was not answered" in text
    assert "zzyzx" in text and "oven" in text


def test_a_choice_says_that_several_fit(talk):
    reply = talk.turn("overlap")
    assert reply.outcome == "asks" and reply.choices
    assert "verdict: choice" in asked(talk, "why did you answer that")


def test_an_answer_to_what_was_asked_is_not_said_to_have_been_looked_up(talk):
    text = asked(talk, "what is the dew point at 18 C", "60 percent", "why did you answer that")
    assert "what I was waiting for" in text and "60 percent" in text


def test_it_can_be_asked_twice_and_changes_nothing(talk):
    first = asked(talk, "how hot for an overlap", "why did you answer that")
    assert asked(talk, "why did you answer that") == first
    assert talk.turn("and for a recess?").rules == ("post-heat-stretched",)


def test_before_anything_was_answered_there_is_nothing_to_tell(talk):
    assert talk.turn("why did you answer that").outcome == "asks"
    talk.turn("how hot for an overlap")
    talk.forget()
    assert talk.turn("why did you answer that").outcome == "asks"
