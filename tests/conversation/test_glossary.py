"""Words of the trade, asked as people ask: what is X, what does X mean, X or Y.

What they mean is common practice of the trade, without a source. Words of other trades are never
explained, and a question for a number is never taken for one about a word.
"""

from __future__ import annotations

import pytest

from assistant.reply import COLUMNS, ROWS, lay_out


def asked(reply):
    return reply.intent if reply.outcome == "answer" else reply.outcome


@pytest.mark.parametrize("line, word", [
    ("what is a relief cut", "relief-cut"),
    ("What's a relief cut?", "relief-cut"),
    ("whats a releif cut", "relief-cut"),
    ("waht is a hem", "hem"),
    ("what are relief cuts", "relief-cut"),
    ("what does glassing mean", "glassing"),
    ("silvering, what is that", "silvering"),
    ("so what's a hinge then mate", "hinge"),
    ("ok dumb question what is bleed", "bleed"),
    ("define tenting", "tenting"),
    ("definition of shrink-back", "shrink-back"),
    ("defination of emissivity", "emissivity"),
    ("meaning of silvering", "silvering"),
    ("dew margin meaning", "dew-margin"),
    ("what do you mean by anchor", "anchor"),
    ("what is meant by shingling", "shingling"),
    ("explain what tack is", "tack"),
    ("can you tell me what a squeegee is", "squeegee"),
    ("whats a squidgy", "squeegee"),
    ("what is post heating", "post-heat"),
    ("what is postheat", "post-heat"),
    ("what is a rocker", "sill"),
    ("what is the decklid", "trunk-lid"),
    ("what is a hem on a car", "hem"),
    ("what does ppf stand for", "clear-film"),
    ("whats cast vinyl", "cast-film"),
    ("what is a lapped seam in wrapping", "overlap"),
    ("what is calanderd film", "calendered-film"),
])
def test_a_word_is_explained_however_it_is_asked(talk, line, word):
    reply = talk.turn(line)
    assert asked(reply) == f"word:{word}", lay_out(reply)[0]
    assert reply.heading and reply.basis in ("practice", "memory", "published")


def test_the_answer_is_the_meaning_with_its_rule_and_its_basis(talk, knowledge):
    reply = talk.turn("what is a hem")
    word = knowledge.words["hem"]
    assert reply.answer == f"{word.means} {word.not_to_confuse}"
    assert reply.heading == "Hem" and reply.rules == ("trim-hem",)
    assert reply.see_also == (knowledge.rules["trim-hem"].title,)
    assert reply.basis == "practice" and reply.figures == ()


def test_a_figure_in_a_meaning_is_the_rules_and_speaks_the_persons_units(talk):
    reply = talk.turn("what is an overlap")
    assert [(each.low, each.unit) for each in reply.figures] == [(0.125, "in")]
    assert "1/8 in (3 mm)" in reply.answer
    assert "3 mm (1/8 in)" in talk.turn("in mm?").answer


def test_another_name_is_said_to_be_one(talk):
    assert talk.turn("what is a bonnet").answer.startswith("Bonnet, another word for hood.")
    assert not talk.turn("what are hoods").answer.startswith("Hood, another")


def test_a_word_that_is_drawn_brings_its_sketch(talk, knowledge):
    assert talk.turn("what is a relief cut").sketch == knowledge.rules["relief-cut"].sketch


# -- two words ------------------------------------------------------------------------------------


@pytest.mark.parametrize("line, words", [
    ("difference between inlay and overlay", "inlay+overlay"),
    ("what's the difference between an inlay and an overlay?", "inlay+overlay"),
    ("diffrence between cast and calendered film", "cast-film+calendered-film"),
    ("inlay vs overlay", "inlay+overlay"),
    ("edge tape v edge sealer", "edge-tape+edge-sealer"),
    ("edge tape or edge sealer whats the difference", "edge-tape+edge-sealer"),
    ("is post heating the same as curing", "post-heat+cure"),
    ("are tack and anchor the same thing", "tack+anchor"),
    ("how is matte different from satin", "matte-film+satin-film"),
    ("bubble or blister, same thing?", "bubble+blister"),
    ("difference between tuck and cut and a relief cut", "tuck-and-cut+relief-cut"),
])
def test_two_words_stand_side_by_side(talk, knowledge, line, words):
    reply = talk.turn(line)
    assert asked(reply) == f"word:{words}", lay_out(reply)[0]
    for word in words.split("+"):
        first = knowledge.words[word].means.split("{")[0][:40]
        assert first in reply.answer


def test_what_tells_two_words_apart_is_said_where_it_is_written(talk, knowledge):
    reply = talk.turn("difference between inlay and overlay")
    assert knowledge.words["inlay"].not_to_confuse in reply.answer or (
        knowledge.words["overlay"].not_to_confuse in reply.answer)


def test_a_rule_about_both_words_is_named_first_and_heard(talk, knowledge):
    reply = talk.turn("difference between post-heat and cure")
    assert reply.rules[0] == "cure-vs-post-heat"
    assert knowledge.resolve("cure-vs-post-heat").says() in reply.answer


def test_the_same_thing_by_two_names_is_a_yes_and_two_things_a_no(talk):
    assert talk.turn("is a bonnet the same as a hood").answer.startswith(
        "Yes, bonnet and hood are two names for the same thing.")
    assert talk.turn("is an inlay the same as an overlay").answer.startswith(
        "No, they are two things.")


# -- what is no question about a word -------------------------------------------------------------


@pytest.mark.parametrize("line", [
    "what is the temperature of an overlap", "what is the width of an overlap",
    "what is the bleed on each edge", "how hot for an overlap", "what blade", "overlap",
    "what is the dew point margin", "what is the bleed", "what is wrap made of",
    "is 200 ok for an overlap", "what is a good bay temperature", "why post-heat an overlap",
])
def test_a_question_for_a_rule_or_a_number_goes_to_the_rules(talk, line):
    assert not (talk.turn(line).intent or "").startswith("word:")


@pytest.mark.parametrize("line", [
    "what is grout", "what is love", "what is the meaning of life", "what is a rafter",
    "what is bitcoin", "what is photosynthesis", "difference between a nail and a screw",
    "what is a tack coat", "what is weld bead", "what is a bumper crop", "what is vinyl flooring",
    "inlay in marquetry meaning", "what is a bleed nipple", "what is shortcrust",
    "difference between overlap and grout", "what is a wrap in a sandwich shop",
    "define mortgage", "what is a felt tip", "what does dna stand for", "what is a cravat",
])
def test_words_of_other_trades_are_not_explained(talk, line):
    assert not (talk.turn(line).intent or "").startswith("word:")


def test_a_bare_word_goes_to_the_router_and_is_explained_only_when_nothing_else_is(talk):
    assert talk.turn("overlap").outcome == "asks"
    talk.forget()
    assert asked(talk.turn("emissivity")) != "outside"


# -- what goes on from a word ---------------------------------------------------------------------


def test_a_talk_goes_on_from_a_word(talk):
    talk.turn("what is an overlap")
    assert talk.turn("how hot?").rules == ("post-heat-overlap",)


def test_why_gives_the_reason_of_the_words_rule(talk, knowledge):
    talk.turn("what is bleed")
    assert talk.turn("why?").answer == knowledge.resolve("bleed").why()


def test_a_word_asked_in_the_middle_of_a_sum_does_not_lose_the_sum(talk):
    talk.turn("film for a bumper")
    assert asked(talk.turn("what is bleed")) == "word:bleed"
    reply = talk.turn("92 by 31 in")
    assert reply.outcome == "result" and reply.intent == "panel-film"


def test_a_word_asked_while_a_choice_is_open_leaves_it_open(talk):
    choices = talk.turn("overlap").choices
    assert asked(talk.turn("what is a hem")) == "word:hem"
    assert talk.turn("1").heading == choices[0]


# -- all of them ----------------------------------------------------------------------------------


def test_every_word_is_found_by_each_of_its_names_and_fits_the_screen(talk, knowledge):
    for name, word in knowledge.words.items():
        for called in (word.term, *word.also):
            found = talk.words_asked.asked(f"what does {called.lower()} mean")
            assert found is not None and found.terms == (name,), called
        for page in lay_out(talk.turn(f"what does {word.term} mean")):
            rows = page.split("\n")
            assert len(rows) <= ROWS and max(map(len, rows)) <= COLUMNS, name
