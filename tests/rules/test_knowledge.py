"""What the knowledge answers, and what routing sees of it."""

from __future__ import annotations

import pytest

from assistant.quantity.write import System
from assistant.rules.template import bare, fill, names, stray
from assistant.store.paths import film_sheets, home, house_rules

# The wishes that the issue derives from figures, steps and reasons; common practice, no source.
WISHES = [
    ("post-heat-overlap", {"how-hot", "how-to", "why"}),
    ("dew-margin", {"how-hot", "how-close", "why"}),
    ("solvent-air", {"how-much", "how-hot", "how-wide", "how-far", "how-long", "when"}),
]


@pytest.mark.parametrize("rule, wishes", WISHES)
def test_the_wishes_of_a_rule_follow_from_its_figures_steps_and_reason(loaded, rule, wishes):
    intents = {intent.id: intent for intent in loaded().intents()}
    assert wishes <= intents[rule].wishes


def test_a_rule_without_steps_answers_no_how_to(loaded):
    intents = {intent.id: intent for intent in loaded().intents()}
    assert "how-to" not in intents["dew-margin"].wishes


def test_rules_with_the_same_figures_have_the_same_answer(loaded):
    twin = (
        '[rules.twin]\ntitle = "T"\nstage = "any"\nsays = "{t}."\nbasis = "memory"\n'
        'phrases = ["t"]\nfigures.t = { name = "t", value = 225, unit = "degF" }\n'
        '[rules.lone]\ntitle = "L"\nstage = "any"\nsays = "L."\nbasis = "memory"\nphrases = ["l"]\n'
    )
    intents = {intent.id: intent for intent in loaded({"rules/twin.toml": twin}).intents()}
    assert intents["twin"].answer_key == intents["post-heat-overlap"].answer_key
    assert intents["twin"].answer_key != intents["dew-margin"].answer_key
    assert intents["lone"].answer_key == "lone"


def test_routing_sees_rules_sums_and_acts_with_what_they_are_about(loaded):
    intents = {intent.id: intent for intent in loaded().intents()}
    assert {intent.kind for intent in intents.values()} == {"rule", "calculation", "act"}
    assert intents["panel-film"].takes == {"length"}
    assert intents["dew-margin"].safety and intents["dew-margin"].things == {"panel"}
    assert "share the heat" in intents["post-heat-overlap"].text
    assert "{" not in intents["post-heat-overlap"].text


def test_the_rules_of_a_stage_and_of_a_subject(loaded):
    knowledge = loaded()
    assert [rule.id for rule in knowledge.by_stage("edges")] == ["post-heat-overlap"]
    assert list(knowledge.by_subject()) == ["bay", "heat", "solvent"]


def test_a_rule_as_one_text_in_the_persons_own_units(loaded):
    assert loaded().text_of("post-heat-overlap", System.METRIC) == (
        "Post-heat every overlap to 107 °C (225 °F). Two layers share the heat. "
        "Heat it to 107 °C (225 °F). Let it cool by 3 °C (5 °F)."
    )


def test_a_source_is_told_by_its_title(loaded):
    knowledge = loaded()
    assert knowledge.source_title("guide") == "A printed guide"
    assert knowledge.source_title(None) is None


def test_the_default_of_a_slot_is_an_amount_or_a_rules_figure(loaded):
    slots = loaded().calculations["panel-film"].slots
    assert slots["room"].default.rule == "solvent-air"
    with pytest.raises(TypeError):
        slots["room"].default.quantity()
    assert slots["length"].above.quantity().to("in") == 0


def test_what_was_read_does_not_change(loaded):
    rule = loaded().rules["dew-margin"]
    with pytest.raises(ValueError):
        rule.says = "Whenever you like."


def test_the_rules_words_reach_the_ear(loaded):
    lexicon = loaded().hearing_lexicon()
    assert lexicon.knows("lap") and lexicon.knows("dew")


def test_braces_are_read_as_names_and_nothing_else():
    assert names("to {target}, then {rule-a.each_edge} and {target}") == (
        "target", "rule-a.each_edge",
    )
    assert stray("to {target}") is None
    assert stray("to {target!r:>10}") == "{target!r:>10}"
    assert stray("to {}") == "{}"
    assert stray("lone }") == "}"
    assert fill("{a} and {b}", {"a": "{b}"}.get) == "{b} and {b}"
    assert bare("to {target} it") == "to it"


def test_the_shops_folder_is_the_one_that_is_named(tmp_path, monkeypatch):
    assert home({"BAYHAND_HOME": str(tmp_path)}) == tmp_path
    monkeypatch.setenv("BAYHAND_HOME", str(tmp_path / "ours"))
    assert home() == tmp_path / "ours"
    assert house_rules(home()) == tmp_path / "ours" / "house"
    assert film_sheets(home()) == tmp_path / "ours" / "films"
    assert not (tmp_path / "ours").exists()


def test_without_a_name_it_lies_where_this_system_keeps_such_things(monkeypatch, tmp_path):
    monkeypatch.setenv("HOME", str(tmp_path))
    for variable in ("XDG_DATA_HOME", "BAYHAND_HOME"):
        monkeypatch.delenv(variable, raising=False)
    assert home({}).name == "bayhand"
    assert home({"BAYHAND_HOME": "~/ours"}) == tmp_path / "ours"
