"""Kits: what lies ready before a part of the job, whoever asks for it and however."""

from __future__ import annotations

import pytest

from assistant.conversation.kits import GENERAL, kit_asked, tell_kit
from assistant.conversation.talk import Conversation
from assistant.reply import lay_out
from assistant.rules.load import load


@pytest.fixture
def talk(ready):
    return Conversation(ready)


@pytest.mark.parametrize(("line", "kit"), [
    ("what do I need before I start a bumper", "bumper"), ("kit for a roof", "roof"),
    ("tools for a hood", "hood"), ("what tools do I need for the bonnet", "hood"),
    ("what should I have ready before I do a door", "door"), ("bumper kit", "bumper"),
    ("which tools do I need to wrap mirrors", "mirror"), ("gear for a full wrap", "whole-car"),
    ("what consumables do I need for a tailgate", "trunk"),
    ("what has to be ready before a roof", "roof"), ("tools and consumables for a wing", "fender"),
    ("what do I need for removing film", "removal"), ("kit list", GENERAL),
    ("what do I need before I start", GENERAL),
])
def test_the_kit_of_a_part_is_told(talk, line, kit):
    reply = talk.turn(line)
    assert (reply.outcome, reply.intent) == ("answer", f"kit:{kit}")


@pytest.mark.parametrize("line", [
    "how much film do i need for a hood", "what temperature do i need for a bumper",
    "what squeegee do i need for chrome", "what do i need to know for a roof",
    "how many people do i need for a giraffe", "what do i need for a birthday cake",
    "is the kit lost", "what tools do I need to wrap",
])
def test_a_question_for_anything_else_is_none_of_the_kits(ready, line):
    assert kit_asked(line.lower(), ready.knowledge, frozenset()) is None


def test_a_kit_is_followed_by_another_for_the_asking(talk):
    talk.turn("kit for a bumper")
    assert talk.turn("and for a roof?").intent == "kit:roof"


def test_every_kit_fits_one_screen_and_says_how_many_people(ready):
    for kit in ready.knowledge.kits.values():
        reply = tell_kit(ready.knowledge, kit.id)
        (page,) = lay_out(reply)
        rows = page.split("\n")
        assert len(rows) <= 24 and max(map(len, rows)) <= 80
        assert reply.figures[0].low == kit.people >= 1
        assert reply.cautions and reply.basis in ("practice", "memory", "published")
        told = " ".join(reply.steps)
        assert all(thing in told for thing in (*kit.tools, *kit.consumables))


def test_no_two_kits_share_a_name(ready):
    assert all(len(ids) == 1 for ids in ready.knowledge.names["kits"].values())


def test_a_kit_that_names_no_rule_is_told_and_the_rest_of_it_kept(tmp_path, monkeypatch):
    from assistant.store.paths import shipped_folder

    folder = tmp_path / "knowledge"
    (folder / "kits").mkdir(parents=True)
    for name in ("cautions.toml", "sources.toml"):
        (folder / name).write_text((shipped_folder() / name).read_text("utf-8"), "utf-8")
    (folder / "kits" / "tail.toml").write_text(
        '[kit]\nname = "tail"\nhands = "One."\nplace = "Here."\nbasis = "practice"\n'
        'rules = ["no-such-rule"]\ncautions = ["blade"]\n', "utf-8",
    )
    knowledge = load(shipped=folder, house=tmp_path / "none")
    assert knowledge.kits["tail"].rules == ()
    assert knowledge.kits["tail"].cautions == ("blade",)
    assert [(each.key, each.table) for each in knowledge.problems] == [("rules", "kit")]
