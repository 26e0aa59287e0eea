"""Mending: what a word stands for by its sound, by the keys beside it and by its company.

The pairs are how people type; which word was meant needs no source.
"""

import pytest

from assistant.hearing.lexicon import Lexicon

DATA = {
    "things": {
        "roll": {"words": ["roll"]}, "anchor": {"words": ["anchor"]},
        "glove": {"words": ["glove"]}, "adhesive": {"words": ["glue"]},
        "crease": {"words": ["crease"]}, "film": {"words": ["film", "wrap", "vinyl"]},
        "spoiler": {"words": ["spoiler"]}, "light": {"words": ["light"]},
        "hinge": {"words": ["hinge"]}, "lot": {"words": ["batch"]},
        "dew-point": {"words": ["dew point"]}, "bay": {"words": ["bay"]},
    },
    "doings": {
        "touch": {"words": ["touch"]}, "cure": {"words": ["cure"]}, "tuck": {"words": ["tuck"]},
        "cut": {"words": ["cut"]}, "acclimatise": {"words": ["acclimatise"]},
        "check": {"words": ["check"]}, "peel": {"words": ["peel"]}, "rip": {"words": ["rip"]},
    },
    "plain": {"some": {"words": ["open", "how", "the", "back", "number", "say", "old"]}},
    "foreign": {"some": {"words": ["peal"]}},
}
PHRASES = (
    "how close to the dew point may the panel be", "wrap the spoiler", "peel the film",
    "which batch number",
)
LEXICON = Lexicon.build(DATA, PHRASES)


@pytest.mark.parametrize(("typed", "meant"), [
    ("ankor", "anchor"),         # ch heard as k
    ("hinj", "hinge"), ("gluv", "glove"), ("creeses", "crease"), ("cuer", "cure"),
    ("tuk", "tuck"), ("opn", "open"), ("chek", "check"),
    ("rols", "roll"), ("ligths", "light"),          # a plural beside the slip
    ("toched", "touch"), ("cuting", "cut"), ("peeled", "peel"),
    ("aclimatise", "acclimatise"), ("vibyl", "vinyl"),    # b lies beside n
])
def test_a_word_spelt_by_ear_or_by_a_slip_of_the_thumb_is_mended(typed, meant):
    base = LEXICON.base(typed)
    assert (base if LEXICON.knows(base) else LEXICON.mend(base)) == meant


@pytest.mark.parametrize("word", ["sdkfjh", "qqq", "photosynthesis", "xylophone", "giraffe"])
def test_a_word_that_is_like_none_stays_unknown(word):
    assert LEXICON.mend(word) is None


def test_the_company_decides_between_two_that_are_equally_near():
    assert LEXICON.mend("raping", ["spoiler"]) == "wrap"
    assert LEXICON.mend("bach", ["number"]) in ("batch", "back")


def test_a_word_of_another_meaning_that_sounds_the_same_is_heard_by_its_company():
    assert LEXICON.slip("peal", ["film"]) == "peel"
    assert LEXICON.slip("peal", ["glove"]) is None


def test_a_word_that_the_trade_uses_is_never_taken_for_a_slip():
    assert LEXICON.slip("rip", ["spoiler"]) is None
    assert LEXICON.slip("old", ["spoiler"]) is None
