"""Spelling: slips of hand and ear are mended, other words are left alone.

The pairs are how people type; which word was meant needs no source.
"""

import pytest

from assistant.hearing.spelling import base_forms, folded, mended, sound

KNOWN = sorted(
    "overlap heat recess bumper squeegee temperature adhesive mirror corner panel post cure lap "
    "bleed edge spray river bread coat hood wing".split()
)
TRADE = frozenset(KNOWN) - {"river", "bread", "coat", "spray"}


@pytest.mark.parametrize(("typed", "meant"), [
    ("overlpa", "overlap"),        # neighbours swapped
    ("bummper", "bumper"),         # a letter doubled
    ("adhesve", "adhesive"),       # a letter missing
    ("temprature", "temperature"),
    ("tempreture", "temperature"),
    ("mirrer", "mirror"),          # by ear
    ("squeejee", "squeegee"),
    ("skwijy", None),              # too far from any word
])
def test_a_slip_in_a_word_of_the_trade_is_mended(typed, meant):
    assert mended(typed, KNOWN, TRADE) == meant


@pytest.mark.parametrize("word", ["lip", "lop", "heap", "head", "hint", "coal", "core", "boar"])
def test_a_short_word_is_never_bent_into_another(word):
    assert mended(word, KNOWN, TRADE) is None


def test_a_word_of_another_subject_that_is_nearer_keeps_the_trade_from_claiming_it():
    assert mended("bredd", KNOWN, TRADE) != "bleed"


def test_the_first_letter_must_agree():
    assert mended("panel"[1:] + "x", KNOWN, TRADE) is None
    assert mended("banel", KNOWN, TRADE) is None


def test_words_of_the_same_sound_share_a_key():
    assert sound("bumpar") == sound("bumper")
    assert sound("resess") == sound("recess")
    assert sound("panel") != sound("bumper")


def test_forms_of_a_word_lead_back_to_it():
    for form, word in (("edges", "edge"), ("cutting", "cut"), ("cured", "cure"),
                       ("bodies", "body"), ("washes", "wash"), ("taping", "tape")):
        assert word in tuple(base_forms(form)), form
    assert not tuple(base_forms("glass"))


def test_accents_capitals_and_apostrophes_do_not_count():
    assert folded("Película") == "pelicula"
    assert folded("WHAT'S") == folded("what’s") == "what"
    assert folded("don't") == "dont"
