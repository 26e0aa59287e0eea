"""The glossary: what a file of words may say, what is sent back, and what it holds.

What the words mean is common practice of the trade, without a source, unless an entry says
otherwise.
"""

from __future__ import annotations

import re

import pytest

from assistant.quantity.kinds import Length
from assistant.rules.names_check import names_unsound
from assistant.rules.naming import names_of, plain_name
from assistant.rules.ready import make_ready
from assistant.rules.template import names

WORDS = """
[words.overlap]
term = "overlap"
also = ["lap", "lapped seam"]
means = "A seam in which one film lies on the other."
not_to_confuse = "Bleed is cut away; an overlap stays."
rule = "post-heat-overlap"
cautions = ["hot"]
basis = "practice"
[words.margin]
term = "dew margin"
means = "How far the panel stays above the dew point: {dew-margin.margin}."
rule = "dew-margin"
basis = "practice"
"""
FILE = "words/laying.toml"


def changed(old, new):
    assert old in WORDS
    return {FILE: WORDS.replace(old, new, 1)}


def test_a_sound_glossary_loads_without_a_word(told):
    assert told({FILE: WORDS}) == []


def test_a_word_brings_all_that_was_written_and_is_found_by_each_of_its_names(loaded):
    knowledge = loaded({FILE: WORDS})
    word = knowledge.words["overlap"]
    assert (word.term, word.also, word.rule) == (
        "overlap", ("lap", "lapped seam"), "post-heat-overlap")
    assert word.file == "knowledge/words/laying.toml"
    assert knowledge.names["words"]["lapped seam"] == ["overlap"]
    assert knowledge.names["words"]["dew margin"] == ["margin"]


@pytest.mark.parametrize("old, new, said", [
    ('rule = "post-heat-overlap"', 'rule = "post-heat-overlop"',
     'words.overlap.rule names "post-heat-overlop", which is no rule. Did you mean '
     '"post-heat-overlap"?'),
    ('cautions = ["hot"]', 'cautions = ["cold"]',
     'words.overlap.cautions names "cold", which is no caution.'),
    ("{dew-margin.margin}", "{dew-margin.gap}",
     'words.margin.means names the figure "gap", which dew-margin does not have.'),
    ("{dew-margin.margin}", "{margin}",
     "words.margin.means names {margin} without a rule. Write {rule-id.figure}."),
    ('term = "overlap"', 'name = "overlap"', "words.overlap.name is no key here"),
    ('basis = "practice"', 'basis = "published"',
     'words.overlap.basis is "published" without a source.'),
    ('basis = "practice"', 'basis = "hearsay"', 'words.overlap.basis is "hearsay"'),
], ids=["rule to nowhere", "caution to nowhere", "figure to nowhere", "figure of no rule",
        "unknown key", "no source", "unknown basis"])
def test_a_mistake_in_a_word_is_told_where_it_stands(told, old, new, said):
    found = told(changed(old, new))
    assert any(said in each for each in found), found
    assert all(each.startswith("knowledge/words/laying.toml: ") for each in found)


def test_a_broken_word_is_left_out_and_the_others_stay(loaded):
    knowledge = loaded(changed('term = "overlap"', "term = 5"))
    assert list(knowledge.words) == ["margin"]


@pytest.mark.parametrize("old, new, said", [
    ('term = "dew margin"', 'term = "Laps"', 'also has "Laps", which overlap has too.'),
    ('also = ["lap", ', 'also = ["over-lap", "Over laps", ',
     'also has "Over laps" a second time.'),
    ("A seam in which", "A seam of 3 mm in which", 'means says "3". Name the figure of a rule'),
    ("A seam in which", "A seam " + "of film " * 30 + "in which", "means has 70 words."),
    ("[words.overlap]", "[words.Over_lap]", "words.Over_lap is no good id."),
], ids=["two words of one name", "a name twice", "a bare number", "a lesson", "a bad id"])
def test_the_check_sends_back_a_careless_word(loaded, old, new, said):
    found = [str(each) for each in names_unsound(loaded(changed(old, new)))]
    assert len(found) == 1 and said in found[0], found


def test_a_sound_glossary_passes_the_check(loaded):
    assert list(names_unsound(loaded({FILE: WORDS}))) == []


@pytest.mark.parametrize("one, other", [
    ("Wrap-behinds", "wrap behind"), ("Post-Heat", "post heat"), ("coupé", "coupe"),
    ("squeegees", "squeegee"), ("boxes", "box"), ("bodies", "body"), ("A-pillar", "a pillar"),
])
def test_case_hyphens_accents_and_plurals_make_no_other_name(one, other):
    assert plain_name(one) == plain_name(other)


@pytest.mark.parametrize("word", ["glass", "ipa", "gas", "chassis", "inlay", "overlay"])
def test_what_is_no_plural_keeps_its_letters(word):
    assert plain_name(word) == word


def test_a_name_that_two_share_leads_to_both():
    assert names_of({"one": ["van"], "two": ["vans", "bus"]}) == {
        "van": ["one", "two"], "bus": ["two"],
    }


# -- the shipped glossary ------------------------------------------------------------------------


def test_the_shipped_glossary_holds_the_words_of_the_trade(knowledge):
    assert len(knowledge.words) >= 150
    assert [str(each) for each in names_unsound(knowledge)] == []


def test_nearly_every_word_leads_on_to_a_rule(knowledge):
    led = [word for word in knowledge.words.values() if word.rule is not None]
    assert len(led) >= 0.9 * len(knowledge.words)


def test_a_meaning_is_no_more_than_two_sentences_and_starts_like_one(knowledge):
    for word in knowledge.words.values():
        ends = re.findall(r"[.?!](?= |$)", word.means)
        assert 1 <= len(ends) <= 2 and word.means[0].isupper() and word.means[-1] == ".", word.id


@pytest.mark.parametrize("british, american", [
    ("bonnet", "hood"), ("boot lid", "trunk lid"), ("windscreen", "windshield"),
    ("number plate", "license plate"), ("rocker", "sill"), ("door shut", "door jamb"),
    ("moulding", "molding"), ("saloon", "sedan"), ("front wing", "fender"),
    ("lacquer", "clear coat"), ("estate car", "station wagon"), ("petrol flap", "gas door"),
    ("plasticiser", "plasticizer"),
])
def test_british_and_american_names_are_one_word(knowledge, british, american):
    found = knowledge.names["words"]
    assert found[plain_name(british)] == found[plain_name(american)]


def test_a_mil_is_a_fortieth_of_a_millimetre(knowledge):
    """NIST SP 811, appendix B: 1 mil = 25.4 micrometres."""
    assert Length.of(1, "mil").to("um") == pytest.approx(25.4)
    assert 1 / Length.of(1, "mil").to("mm") == pytest.approx(40, rel=0.02)
    assert "forty" in knowledge.words["mil"].not_to_confuse
    assert "twenty-five" in knowledge.words["micron"].not_to_confuse


def test_the_kept_index_gives_the_same_words_under_the_same_names(tmp_path):
    fresh, kept = (make_ready(tmp_path, tmp_path / "kept").knowledge for _ in range(2))
    assert kept.names == fresh.names
    for name, word in fresh.words.items():
        twin = kept.words[name]
        for key in type(word).model_fields:
            assert getattr(twin, key) == getattr(word, key), (name, key)


def test_figures_in_the_glossary_are_those_of_the_rules(knowledge):
    told = [name for word in knowledge.words.values() for name in names(word.means)]
    assert "bleed.each_edge" in told and "overlap-width.width" in told
    for name in told:
        rule, _, figure = name.partition(".")
        assert figure in knowledge.rules[rule].figures
