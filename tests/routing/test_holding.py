"""What intents hold of a feature is the same out of the index as it was put in."""

import json

from assistant.routing.facets import A_PHRASE, DECLARED, IN_ITS_TEXT, Profile, Rarity
from assistant.routing.holding import Holding
from assistant.routing.intent import Intent

PROFILES = [
    Profile(Intent("overlap"), {"thing:overlap": DECLARED + 2 * A_PHRASE, "=lap": A_PHRASE}, 3),
    Profile(Intent("bleed"), {"thing:overlap": IN_ITS_TEXT, "thing:bleed": DECLARED}, 2),
]


def test_an_index_that_was_in_a_file_answers_as_before():
    holding = Holding.of(PROFILES)
    again = Holding(json.loads(json.dumps(holding.postings)), holding.total)
    for feature in ("thing:overlap", "=lap", "thing:bleed", "thing:nothing"):
        assert again[feature] == holding[feature]


def test_what_is_declared_is_held_more_strongly_than_what_is_only_written():
    (first, declared, _), (second, written, _) = Holding.of(PROFILES)["thing:overlap"]
    assert (first, second) == (0, 1)
    assert declared == 1.0 > written > 0.0


def test_only_the_features_and_the_intents_asked_for_are_given():
    assert Holding.of(PROFILES).among(["=lap", "thing:bleed"], [0]) == {0: {"=lap": A_PHRASE}}


def test_a_feature_of_one_intent_tells_more_than_one_of_all():
    holding = Holding.of(PROFILES)
    rarity = Rarity(holding.count, holding.total)
    assert rarity.of("thing:bleed") > rarity.of("thing:overlap")
    assert rarity.of("thing:never heard") == 1.0
