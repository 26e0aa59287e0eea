"""The kept index answers as the files do, and never outlives them."""

import os
import stat

import pytest

from assistant.hearing.hear import hear
from assistant.quantity.write import System
from assistant.rules.ready import make_ready

LINES = (
    "how hot for an overlap", "and a recess", "film for a bumper 92 by 31", "how hot?",
    "what is the capital of france", "hello", "wiping it with fuel while the heater runs",
)


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    folder = tmp_path_factory.mktemp("shop")
    (folder / "house").mkdir()
    (folder / "house" / "ours.toml").write_text(
        '[overrides.post-heat-overlap]\nwho = "trainer"\n'
        "[overrides.post-heat-overlap.figures.target]\nvalue = 230\nunit = \"degF\"\n"
    )
    return folder


@pytest.fixture(scope="module")
def fresh_and_kept(shop):
    return make_ready(shop, shop / "kept"), make_ready(shop, shop / "kept")


def told(ready, rule_id, system=System.METRIC):
    rule = ready.knowledge.resolve(rule_id, family="chrome")
    return (
        rule.title, rule.says(system), rule.why(system), rule.steps(system), rule.check(system),
        tuple(rule.cautions), rule.basis, rule.source, rule.note, rule.layer,
        rule.overrode_in(system), tuple(rule.see_also), rule.variant_words,
        [(f.key, f.name, f.role, f.unit, f.low, f.high, f.tolerance, f.too_much, f.basis)
         for f in rule.figures.values()],
    )


def test_every_rule_says_the_same_out_of_the_index(fresh_and_kept):
    fresh, kept = fresh_and_kept
    assert list(kept.knowledge.rules) == list(fresh.knowledge.rules)
    for rule_id in fresh.knowledge.rules:
        assert told(kept, rule_id) == told(fresh, rule_id)


def test_the_house_rule_speaks_out_of_the_index_too(fresh_and_kept):
    _, kept = fresh_and_kept
    rule = kept.knowledge.resolve("post-heat-overlap")
    assert rule.layer == "house" and "230 °F" in rule.says()


def test_every_sum_asks_the_same_out_of_the_index(fresh_and_kept):
    fresh, kept = fresh_and_kept
    for name, entry in fresh.knowledge.calculations.items():
        other = kept.knowledge.calculations[name]
        assert (other.title, other.example, other.basis) == (
            entry.title, entry.example, entry.basis)
        for slot, spec in entry.slots.items():
            twin = other.slots[slot]
            assert (twin.kind, twin.prompt, twin.required, tuple(twin.cues), twin.pair) == (
                spec.kind, spec.prompt, spec.required, spec.cues, spec.pair)
            assert (twin.default is None) == (spec.default is None)
            if spec.at_most is not None:
                assert twin.at_most.quantity() == spec.at_most.quantity()


@pytest.mark.parametrize("line", LINES)
def test_a_line_is_routed_the_same_out_of_the_index(fresh_and_kept, line):
    fresh, kept = fresh_and_kept
    one = fresh.router.route(hear(line, fresh.lexicon))
    other = kept.router.route(hear(line, kept.lexicon))
    assert one == other


def test_the_index_is_for_the_users_eyes_only(fresh_and_kept, shop):
    file = shop / "kept" / "index.json"
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_a_changed_house_file_is_seen_at_once(tmp_path):
    make_ready(tmp_path, tmp_path / "kept")
    (tmp_path / "house").mkdir()
    (tmp_path / "house" / "new.toml").write_text(
        "[overrides.bleed.figures.each_edge]\nvalue = 4\nunit = \"in\"\n"
    )
    ready = make_ready(tmp_path, tmp_path / "kept")
    assert ready.knowledge.resolve("bleed").layer == "house"


@pytest.mark.parametrize("damage", [
    lambda raw: b"",
    lambda raw: raw[:-20],
    lambda raw: raw.replace(b"225", b"525", 1),
    lambda raw: b"\xff\xfe" + raw,
    lambda raw: raw.split(b"\n")[0] + b"\n[]\n",
], ids=["empty", "cut short", "one figure changed", "other bytes", "other JSON"])
def test_a_damaged_index_is_made_again_and_nothing_is_said(shop, damage):
    file = shop / "kept" / "index.json"
    if not file.exists():
        make_ready(shop, shop / "kept")
    file.write_bytes(damage(file.read_bytes()))
    ready = make_ready(shop, shop / "kept")
    assert "230 °F" in ready.knowledge.resolve("post-heat-overlap").says()


@pytest.mark.skipif(os.name != "posix", reason="folders closed by mode bits")
def test_a_folder_that_cannot_be_written_does_no_harm(tmp_path):
    place = tmp_path / "kept"
    place.write_text("a file where the folder should be")
    assert make_ready(tmp_path, place).intents
