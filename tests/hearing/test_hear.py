"""Hearing: a line becomes things, doings, wishes, numbers and leftovers."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.hearing.hear import LONGEST_READ, hear
from assistant.hearing.lexicon import Lexicon

LEXICON = Lexicon.build({
    "things": {
        "seam": {"words": ["seam", "join"]},
        "overlap": {"words": ["overlap", "lap", "lapped seam"], "broader": "seam"},
        "panel": {"words": ["panel"]},
        "hood": {"words": ["hood", "bonnet", "capó"], "broader": "panel"},
        "bumper": {"words": ["bumper", "parachoques"], "broader": "panel"},
        "heat-gun": {"words": ["heat gun"], "broader": "ignition"},
        "ignition": {"words": ["flame"], "hazard": "ignition"},
        "lift": {"words": ["lift"]},
    },
    "doings": {
        "post-heat": {"words": ["post-heat", "postheat", "final heat"], "broader": "heat"},
        "heat": {"words": ["heat"]},
        "lift-film": {"words": ["lift"]},
    },
    "wishes": {
        "how-hot": {"words": ["how hot", "temp", "temperature", "temperatura"]},
        "how-wide": {"words": ["how wide"]},
    },
    "films": {"chrome": {"words": ["chrome"]}},
    "conditions": {"repainted": {"words": ["repainted"]}},
    "plain": {"all": {"words": ["my", "boss", "said", "the", "a", "for", "an", "it", "do", "i",
                                "is", "ok", "of", "what", "about", "and", "la", "que", "el"]}},
    "foreign": {"cooking": {"words": ["oven", "chicken"]},
                "cars": {"words": ["bleed the brakes"]}},
    "spellings": {"hete": "heat", "wot": "what"},
}, phrases=["quick release tape"])


def concepts(text):
    return {(hit.kind, hit.concept) for hit in hear(text, LEXICON).concepts}


@pytest.mark.parametrize("text", [
    "how hot do I post-heat an overlap", "POST HEATING LAPS, TEMP?", "postheat temp lap",
    "temp of the final heat for the lapped seam", "🔥 post–heat 🔥 overlap: temp",
])
def test_one_question_in_five_dresses_names_the_same_three(text):
    assert {("thing", "overlap"), ("doing", "post-heat"), ("wish", "how-hot")} == concepts(text)


def test_british_american_and_spanish_names_of_a_panel_are_one_thing():
    for word in ("hood", "bonnet", "BONNETS", "capó"):
        assert ("thing", "hood") in concepts(f"the {word}"), word


def test_a_word_with_two_meanings_names_both():
    assert {("thing", "lift"), ("doing", "lift-film")} == concepts("lift")


def test_the_longest_group_of_words_wins():
    assert concepts("the heat gun") == {("thing", "heat-gun")}


def test_what_was_mended_is_told():
    heard = hear("hete the ovrelap", LEXICON)
    assert ("thing", "overlap") in {(hit.kind, hit.concept) for hit in heard.concepts}
    assert ("ovrelap", "overlap") in heard.mended
    assert "ovrelap -> overlap" in heard.said()


def test_two_words_run_together_and_one_word_torn_apart_are_seen():
    assert ("thing", "heat-gun") in concepts("heatgun")
    assert ("thing", "bumper") in concepts("bum per")


def test_words_of_other_subjects_and_words_nobody_knows_are_kept_apart():
    heard = hear("my boss said the zyxwort is in the oven, bleed the brakes", LEXICON)
    assert "zyxwort" in heard.unknown
    assert {"oven", "bleed", "brakes"} <= set(heard.foreign)
    assert "boss" not in heard.unknown + heard.foreign


def test_numbers_are_quantities_and_not_unknown_words():
    heard = hear("is 200 F ok for an overlap", LEXICON)
    assert [found.unit for found in heard.quantities] == ["degF"]
    assert heard.yes_no
    assert not heard.unknown


def test_a_line_that_leans_on_the_last_one_is_known():
    for text in ("and for an overlap?", "what about chrome", "how hot is it"):
        assert hear(text, LEXICON).follow_up, text
    assert not hear("how hot for an overlap", LEXICON).follow_up


def test_the_summary_names_what_was_heard():
    assert hear("how hot do I post-heat an overlap, 200 F", LEXICON).said() == (
        "post-heat, overlap, how hot; 200 F"
    )


def test_a_ramble_is_read_where_it_asks():
    ramble = (
        "so my boss said the bonnet was a mess and i said it is what it is and the bumper and the "
        "lift and the heat gun and all of that and my boss said what about it and i said ok boss. "
        "what is the temp for an overlap?"
    )
    heard = hear(ramble, LEXICON)
    inside = {hit.concept for hit in heard.concepts if heard.in_focus(hit)}
    assert {"overlap", "how-hot"} <= inside
    assert "bumper" not in inside


def test_two_lines_read_as_one_keep_every_span():
    first, second = hear("how hot for an overlap", LEXICON), hear("the bumper 3 in", LEXICON)
    both = first.joined(second)
    assert both.things == {"overlap", "bumper"}
    for hit in both.concepts:
        assert both.text[hit.start:hit.end].lower() == hit.words
    for found in both.quantities:
        assert both.text[found.start:found.end] == found.text


def test_a_text_of_a_megabyte_is_read_at_both_ends():
    heard = hear("overlap temp " + "x " * 500_000 + " bonnet", LEXICON)
    assert heard.cut
    assert len(heard.text) < LONGEST_READ + 10
    assert {"overlap", "hood"} <= heard.things
    assert "beginning and end" in heard.said()


def test_a_case_of_something_knows_what_it_is_a_case_of():
    assert LEXICON.broader("thing", "overlap") == ("seam",)
    assert LEXICON.hazard("thing", "heat-gun") == "ignition"
    assert LEXICON.hazard("thing", "panel") is None


def test_a_circle_of_broader_concepts_ends():
    lexicon = Lexicon.build({"things": {
        "a": {"words": ["a"], "broader": "b"}, "b": {"words": ["b"], "broader": "a"},
    }})
    assert lexicon.broader("thing", "a") == ("b",)


def test_the_lexicon_is_the_same_after_a_stay_in_a_file():
    again = Lexicon.from_data(json.loads(json.dumps(LEXICON.to_data())))
    text = "how hot do I post-heat the ovrelap on the bonnet in the oven"
    assert hear(text, again) == hear(text, LEXICON)


def test_a_section_nobody_knows_is_named():
    with pytest.raises(ValueError, match="thinks"):
        Lexicon.build({"thinks": {}})


@settings(max_examples=150, deadline=None)
@given(st.text(st.characters(), max_size=300))
def test_any_text_is_heard_without_a_crash_and_every_span_lies_in_it(text):
    heard = hear(text, LEXICON)
    for part in (*heard.tokens, *heard.concepts, *heard.quantities):
        assert 0 <= part.start <= part.end <= len(heard.text)
    assert isinstance(heard.said(), str)
