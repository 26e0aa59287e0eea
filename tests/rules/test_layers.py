"""Which layer speaks: the film sheet over the house rules over the shipped ones, and what none of
them may loosen.
"""

from __future__ import annotations

import pytest

from assistant.quantity.kinds import Temperature
from assistant.quantity.write import System
from assistant.rules.load import load

OVERLAP = "post-heat-overlap"


def house(rule, body):
    return {"house/ours.toml": f"[overrides.{rule}]\n{body}\n"}


def figure(rule, name, body, rest=""):
    return house(rule, f"{rest}\n[overrides.{rule}.figures.{name}]\n{body}")


HOTTER = figure(
    OVERLAP, "target", 'value = 230\nunit = "degF"',
    'who = "the trainer"\nwhen = "2025-01-15"\nbecause = "Our laps lifted at 225."',
)


def test_without_a_house_rule_the_shipped_one_speaks(loaded):
    rule = loaded().resolve(OVERLAP)
    assert (rule.layer, rule.overrode, rule.basis) == ("shipped", (), "memory")
    assert rule.says() == "Post-heat every overlap to 225 °F (107 °C)."


def test_a_house_rule_speaks_over_the_shipped_one_and_names_what_it_overrode(loaded):
    rule = loaded(house=HOTTER).resolve(OVERLAP)
    assert rule.layer == "house"
    assert rule.says() == "Post-heat every overlap to 230 °F (110 °C)."
    assert rule.overrode == ("shipped 225 °F (107 °C)",)
    assert rule.overrode_in(System.METRIC) == ("shipped 107 °C (225 °F)",)
    assert rule.basis == "practice"
    assert rule.decided == "by the trainer 2025-01-15; Our laps lifted at 225"


def test_a_film_sheet_speaks_over_the_house_rule(loaded):
    knowledge = loaded(house=HOTTER)
    rule = knowledge.resolve(OVERLAP, film_sheet="ninefathom-mirror")
    target = rule.figures["target"]
    assert rule.layer == target.layer == "film sheet"
    assert target.low == Temperature.celsius(100)
    assert rule.basis == "published"
    assert knowledge.source_title(rule.source) == (
        "bulletin of Ninefathom Mirror, as typed into its film sheet"
    )


def test_a_figure_keeps_its_tolerance_and_its_upper_limit_in_another_unit(loaded):
    changed = figure(OVERLAP, "target", 'value = 110\nunit = "degC"')
    target = loaded(house=changed).resolve(OVERLAP).figures["target"]
    # 10 °F of tolerance are 5 5/9 °C; 250 °F are 121.11 °C. By hand: n / 1.8, (n - 32) / 1.8.
    assert target.tolerance.to("dC") == pytest.approx(10 / 1.8)
    assert target.too_much.to("degC") == pytest.approx(121.1111, abs=1e-3)


def test_an_upper_limit_that_the_new_figure_has_passed_is_dropped(loaded):
    changed = figure(OVERLAP, "target", 'value = 260\nunit = "degF"')
    assert loaded(house=changed).resolve(OVERLAP).figures["target"].too_much is None


def test_the_variant_for_mirror_film_gives_its_own_figure_and_caution(loaded):
    rule = loaded().resolve(OVERLAP, family="chrome")
    assert rule.says() == "Post-heat an overlap of mirror film to 212 °F (100 °C)."
    assert rule.why() == "Two layers share the heat."
    assert rule.cautions == ("hot", "glare")
    assert rule.variant_words == "chrome film"
    assert rule.layer == "shipped"


def test_the_variant_that_asks_for_more_goes_first(loaded):
    rule = loaded().resolve(OVERLAP, family="chrome", conditions={"repainted", "alone"})
    assert rule.why() == "New paint and a mirror both ask for care."
    assert rule.variant_words == "chrome film, repainted"


def test_a_variant_for_textured_film_holds_for_carbon_too(loaded):
    heat = (
        '[rules.r]\ntitle = "R"\nstage = "any"\nsays = "A."\nbasis = "practice"\nphrases = ["r"]\n'
        '[[rules.r.variants]]\nwhen = { film = ["textured"] }\nsays = "B."\n'
    )
    knowledge = loaded({"rules/more.toml": heat})
    assert knowledge.resolve("r", family="carbon").says() == "B."
    assert knowledge.resolve("r", family="gloss").says() == "A."


def test_a_house_rule_speaks_of_the_general_case_and_leaves_a_variant_its_figure(loaded):
    rule = loaded(house=HOTTER).resolve(OVERLAP, family="chrome")
    assert (rule.layer, rule.figures["target"].shown()) == ("shipped", "212 °F (100 °C)")


def test_the_shop_words_a_rule_its_own_way(loaded):
    ours = house(OVERLAP, 'says = "Laps: {target}, gun close."\nsteps = ["Hold it there."]')
    rule = loaded(house=ours).resolve(OVERLAP)
    assert rule.says() == "Laps: 225 °F (107 °C), gun close."
    assert rule.steps() == ("Hold it there.",)
    assert rule.layer == "house" and rule.overrode == ()


def test_the_figure_of_another_rule_is_told_as_it_holds_now(loaded):
    ours = figure("dew-margin", "margin", 'at_least = 5\nunit = "dC"')
    assert loaded(house=ours).resolve(OVERLAP).steps(System.METRIC)[1] == (
        "Let it cool by 5 °C (9 °F)."
    )


def test_text_brought_in_by_a_figure_is_not_filled_again(loaded):
    ours = house(OVERLAP, 'why = "We say {target} and {0.__class__} alike."')
    knowledge = loaded(house=ours)
    assert knowledge.resolve(OVERLAP).why() == "Two layers share the heat."
    assert [str(problem) for problem in knowledge.problems] == [
        f"{shop_file(knowledge)}: overrides.post-heat-overlap.why names {{0.__class__}}, which is "
        "no figure of the rule. Its figures: {target}."
    ]


def shop_file(knowledge):
    """The shop's file as the problems name it."""
    return knowledge.problems[0].file


# -- what may not be loosened --------------------------------------------------------------------

TIGHTER = {
    "a higher least": ("dew-margin", "margin", 'at_least = 6\nunit = "dF"'),
    "the same least in the other unit": ("dew-margin", "margin", 'at_least = 5.4\nunit = "dF"'),
    "a lower most": ("solvent-air", "limit", 'at_most = 200\nunit = "ppm"'),
    "a lower limit from which it holds": ("solvent-air", "bin", 'over = 2\nunit = "min"'),
    "a smaller range": ("solvent-air", "temperature", 'low = 62\nhigh = 74\nunit = "degF"'),
    "one value inside the range": ("solvent-air", "temperature", 'value = 70\nunit = "degF"'),
    "a value within its tolerance": ("solvent-air", "room", 'value = 11\nunit = "ft"'),
}
SOLVENT = "overrides.solvent-air.figures"
LOOSER = {
    "a lower least": (
        "dew-margin", "margin", 'at_least = 5\nunit = "dF"',
        "overrides.dew-margin.figures.margin would loosen a safety rule from 5.4 °F (3 °C) to "
        "5 °F (2.8 °C). The shipped figure stays; this limit may only go up.",
    ),
    "a higher most": (
        "solvent-air", "limit", 'at_most = 500\nunit = "ppm"',
        f"{SOLVENT}.limit would loosen a safety rule from 400 ppm to 500 ppm. The shipped figure "
        "stays; this limit may only go down.",
    ),
    "a higher limit from which it holds": (
        "solvent-air", "bin", 'over = 6\nunit = "min"',
        f"{SOLVENT}.bin would loosen a safety rule from 5 min to 6 min. The shipped figure stays; "
        "this limit may only go down.",
    ),
    "a wider range": (
        "solvent-air", "temperature", 'low = 50\nhigh = 75\nunit = "degF"',
        f"{SOLVENT}.temperature would loosen a safety rule from 60-75 °F (16-24 °C) to 50-75 °F "
        "(10-24 °C). The shipped figure stays; this range may only shrink.",
    ),
    "a value beyond its tolerance": (
        "solvent-air", "room", 'value = 8\nunit = "ft"',
        f"{SOLVENT}.room would loosen a safety rule from 10 ft (3.05 m) to 8 ft (2.44 m). The "
        "shipped figure stays; this value may only move within its tolerance.",
    ),
}


@pytest.mark.parametrize("name", TIGHTER)
def test_a_safety_rule_may_be_tightened(loaded, name):
    rule, key, body = TIGHTER[name]
    knowledge = loaded(house=figure(rule, key, body))
    assert knowledge.problems == []
    assert knowledge.resolve(rule).layer == "house"


@pytest.mark.parametrize("name", LOOSER)
def test_a_safety_rule_may_not_be_loosened_by_the_shop(loaded, name):
    rule, key, body, sentence = LOOSER[name]
    knowledge = loaded(house=figure(rule, key, body))
    assert [str(problem).partition(": ")[2] for problem in knowledge.problems] == [sentence]
    assert knowledge.resolve(rule).layer == "shipped"


@pytest.mark.parametrize("name", LOOSER)
def test_a_safety_rule_may_not_be_loosened_by_a_film_sheet(loaded, name):
    rule, key, body, sentence = LOOSER[name]
    sheet = f'[film]\nname = "Loose"\nfamily = "gloss"\n[overrides.{rule}.{key}]\n{body}\n'
    knowledge = loaded(house={"films/loose.toml": sheet})
    assert len(knowledge.problems) == 1
    assert "would loosen a safety rule" in knowledge.problems[0].wrong
    assert knowledge.resolve(rule, film_sheet="loose").layer == "shipped"


def test_a_film_sheet_does_not_loosen_what_the_shop_has_tightened(loaded):
    ours = figure("dew-margin", "margin", 'at_least = 6\nunit = "dC"')
    ours["films/keen.toml"] = (
        '[film]\nname = "Keen"\nfamily = "gloss"\n'
        '[overrides.dew-margin.margin]\nat_least = 4\nunit = "dC"\n'
    )
    rule = loaded(house=ours).resolve("dew-margin", film_sheet="keen")
    assert (rule.layer, rule.figures["margin"].low.to("dC")) == ("house", 6)


def test_a_rule_that_is_no_safety_rule_may_be_changed_either_way(loaded):
    for value in (150, 300):
        ours = figure(OVERLAP, "target", f'value = {value}\nunit = "degF"')
        assert loaded(house=ours).resolve(OVERLAP).layer == "house"


def test_the_cautions_of_a_safety_rule_can_become_more(loaded):
    ours = house("dew-margin", 'cautions = ["local", "hot"]')
    assert loaded(house=ours).resolve("dew-margin").cautions == ("local", "hot")


FAULTS = {
    "other words for a safety rule": (
        house("dew-margin", 'says = "Whenever you like."'),
        "overrides.dew-margin.says would put other words into a safety rule. The shipped words "
        "stay; write what the shop adds as a rule of its own.",
    ),
    "a caution left out of a safety rule": (
        house("solvent-air", 'cautions = ["hot"]'),
        'overrides.solvent-air.cautions leaves out "local" of a safety rule. A safety rule\'s '
        "cautions can only become more; name the shipped ones too.",
    ),
    "a caution that is none": (
        house(OVERLAP, 'cautions = ["sparks"]'),
        'overrides.post-heat-overlap.cautions names "sparks", which is no caution. Name ids of '
        "cautions.toml.",
    ),
    "a figure that the rule does not have": (
        figure(OVERLAP, "aim", 'value = 230\nunit = "degF"'),
        "overrides.post-heat-overlap.figures.aim changes a figure that post-heat-overlap does not "
        "have. Its figures: target.",
    ),
    "a temperature for a difference": (
        figure("dew-margin", "margin", 'at_least = 5\nunit = "degC"'),
        'overrides.dew-margin.figures.margin.unit is "degC", which is a temperature. The figure is '
        'a difference: write "dC".',
    ),
    "a length for a temperature": (
        figure(OVERLAP, "target", 'value = 5\nunit = "in"'),
        'overrides.post-heat-overlap.figures.target.unit is "in", which is a length. The figure is '
        'a temperature: write "degF".',
    ),
    "a limit for a value": (
        figure(OVERLAP, "target", 'at_most = 230\nunit = "degF"'),
        "overrides.post-heat-overlap.figures.target gives at_most, where the rule has value. Write "
        "value; the words of the rule are made for it.",
    ),
    "a rule that is none": (
        figure("post-heat-overlaps", "target", 'value = 230\nunit = "degF"'),
        'overrides.post-heat-overlaps is no shipped rule. Did you mean "post-heat-overlap"?',
    ),
    "a figure outside figures": (
        house(OVERLAP, 'target = { value = 230, unit = "degF" }'),
        "overrides.post-heat-overlap.target is no key here. A figure stands under figures: write "
        "figures.target.",
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_in_a_house_rule_is_told_and_the_shipped_rule_stays(loaded, name):
    files, sentence = FAULTS[name]
    knowledge = loaded(house=files)
    assert [str(problem).partition(": ")[2] for problem in knowledge.problems] == [sentence]
    for rule in knowledge.rules:
        assert knowledge.resolve(rule).layer == "shipped"


def test_a_rule_decided_in_two_files_is_decided_by_the_first(loaded):
    files = {**HOTTER, "house/zz.toml": HOTTER["house/ours.toml"].replace("230", "240")}
    knowledge = loaded(house=files)
    assert knowledge.resolve(OVERLAP).figures["target"].low == Temperature.fahrenheit(230)
    assert str(knowledge.problems[0]).endswith(
        f"is decided in {knowledge.house[OVERLAP].file} already. Keep one of the two."
    )


# -- the shop's own rules and films --------------------------------------------------------------

OWN = """
[rules.our-tea]
title = "Tea"
says = "Tea at ten."
phrases = ["when is tea"]
"""


def test_a_rule_of_the_shop_stands_beside_the_shipped_ones(loaded):
    knowledge = loaded(house={"house/tea.toml": OWN})
    rule = knowledge.resolve("our-tea")
    assert (rule.layer, rule.basis, rule.rule.stage) == ("house", "practice", "any")
    assert "our-tea" in {intent.id for intent in knowledge.intents()}


def test_a_rule_of_the_shop_may_not_take_a_shipped_id(loaded):
    knowledge = loaded(house={"house/tea.toml": OWN.replace("our-tea", OVERLAP)})
    assert str(knowledge.problems[0]).endswith(
        "rules.post-heat-overlap is an id that knowledge/rules/heat.toml has. To change the "
        "shipped rule write [overrides.post-heat-overlap]; for a rule of your own take another id."
    )
    assert knowledge.rules[OVERLAP].layer == "shipped"


def test_a_rule_of_the_shop_is_changed_where_it_stands(loaded):
    knowledge = loaded(house={
        "house/tea.toml": OWN, "house/zz.toml": '[overrides.our-tea]\nsays = "Never."\n',
    })
    assert "overrides.our-tea is a rule of the shop. Change it where it stands, in " in str(
        knowledge.problems[0]
    )


def test_a_film_sheet_of_the_shop_takes_the_place_of_a_shipped_one(loaded):
    sheet = '[film]\nname = "Ninefathom Mirror"\nfamily = "chrome"\nwords = ["the mirror"]\n'
    knowledge = loaded(house={"films/ninefathom-mirror.toml": sheet})
    assert knowledge.problems == []
    assert knowledge.films["ninefathom-mirror"].overrides == {}
    assert "the mirror" in knowledge.lexicon["films"]["ninefathom-mirror"]["words"]


def test_two_sheets_of_the_shop_for_one_film_are_told(loaded):
    sheet = '[film]\nname = "Twice"\nfamily = "gloss"\n'
    knowledge = loaded(house={"films/a/twice.toml": sheet, "films/b/twice.toml": sheet})
    assert str(knowledge.problems[0]).endswith("already. Keep one of the two.")


BROKEN = {
    "no toml": ("house/x.toml", "this is not toml"),
    "no text": ("house/x.toml", b"\xff\xfe\x00rules"),
    "a table that is none": ("house/x.toml", "[recipes.soup]\nsays = 'x'\n"),
    "overrides that are no tables": ("house/x.toml", "overrides = 3\n"),
    "a rule that is no table": ("house/x.toml", "[rules]\nx = 3\n"),
    "a number in quotes": ("house/x.toml", HOTTER["house/ours.toml"].replace("230", '"230"')),
    "dates and deep keys": ("house/x.toml", "[rules.x]\ntitle = 2025-01-15\n" + "a." * 900 + "b=1"),
    "a number of ten thousand digits": ("house/x.toml", "x = " + "9" * 10_000),
    "a sheet that is none": ("films/x.toml", "film = 3\n"),
    "a sheet without a name": ("films/x.toml", "[film]\nfamily = 'gloss'\n"),
    "an empty name": ("house/x.toml", '[rules.""]\ntitle = "T"\n'),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_file_of_the_shop_is_told_and_nothing_else_suffers(loaded, name):
    file, text = BROKEN[name]
    knowledge = loaded(house={file: text, "house/tea.toml": OWN})
    assert knowledge.problems and all(
        file.rpartition("/")[2] in problem.file for problem in knowledge.problems
    )
    assert knowledge.resolve("our-tea").layer == "house"
    assert knowledge.resolve(OVERLAP).layer == "shipped"


def test_a_table_that_no_house_file_holds_is_told(loaded):
    knowledge = loaded(house={"house/x.toml": "[recipes.soup]\n"})
    assert str(knowledge.problems[0]).endswith(
        "recipes is no table of a house file. A house file holds [rules.<id>] and "
        "[overrides.<id>], a film sheet [film] and [overrides.<id>]."
    )


def test_escape_sequences_in_a_file_of_the_shop_are_made_harmless(loaded):
    own = OWN.replace("Tea at ten.", r"Tea \u001b[31mnow\u009b")
    says = loaded(house={"house/tea.toml": own}).resolve("our-tea").says()
    assert "\x1b" not in says and "\x9b" not in says and "[31mnow" in says


def test_a_file_that_cannot_be_opened_is_told(shipped, shop, monkeypatch):
    folder, home = shipped(), shop({"house/tea.toml": OWN})
    from pathlib import Path

    whole = Path.read_bytes

    def locked(path):
        if path.name == "tea.toml":
            raise PermissionError(13, "Permission denied", str(path))
        return whole(path)

    monkeypatch.setattr(Path, "read_bytes", locked)
    problems = load(folder, home).problems
    assert str(problems[0]).endswith(
        "tea.toml: cannot be read (Permission denied). Give yourself leave to read it, or take it "
        "away."
    )


def test_a_shop_without_any_files_is_no_trouble(shipped, tmp_path):
    assert load(shipped(), tmp_path / "nowhere").problems == []


def test_any_folder_of_house_files_will_do(shipped, tmp_path):
    from tests.rules.conftest import write

    folder = write(tmp_path / "some", {"a.toml": OWN, "b.toml": HOTTER["house/ours.toml"]})
    knowledge = load(shipped(), folder)
    assert "our-tea" in knowledge.rules and knowledge.resolve(OVERLAP).layer == "house"
