"""What a file of the knowledge may say, and the words in which a mistake is told."""

from __future__ import annotations

import pytest

from assistant.rules.load import load
from assistant.rules.models import BASES, STAGES
from assistant.store.paths import shipped_folder
from tests.rules.conftest import BAY, FILES, HEAT, SOLVENT

RULE, WORDS, SUM = "rules/heat.toml", "lexicon/words.toml", "calculations/panel-film.toml"
SHEET = "films/sheet-ninefathom-mirror.toml"


def test_a_sound_knowledge_loads_without_a_word(told):
    assert told() == []


def test_the_shipped_knowledge_is_found_and_every_subject_of_it_loads(knowledge):
    assert (shipped_folder() / "rules").is_dir()
    assert len(knowledge.rules) >= 60  # the first issue's least
    assert knowledge.problems == []


def test_a_rule_brings_all_that_was_written(loaded):
    rule = loaded().rules["post-heat-overlap"]
    assert (rule.subject, rule.file, rule.layer) == ("heat", "knowledge/rules/heat.toml", "shipped")
    assert rule.stage in STAGES and rule.basis in BASES
    assert rule.about.thing == ("overlap",)
    assert rule.figures["target"].role == "value"
    assert rule.kinds() == ("temperature",)


def test_words_for_a_concept_in_two_files_are_taken_together(loaded):
    more = '[things.overlap]\nwords = ["lap", "lapped seam"]\nhazard = "none"\n'
    lexicon = loaded({"lexicon/more.toml": more}).lexicon
    assert sorted(lexicon["things"]["overlap"]["words"]) == ["lap", "lapped seam", "overlap"]
    assert lexicon["things"]["overlap"]["broader"] == "panel"
    assert lexicon["things"]["solvent"]["hazard"] == "solvent"
    assert lexicon["spellings"] == {"wot": "what"}


def test_a_film_can_be_called_by_its_name(loaded):
    knowledge = loaded()
    assert knowledge.lexicon["films"]["ninefathom-mirror"] == {
        "words": ["ninefathom mirror"], "broader": "chrome",
    }
    assert knowledge.sheet_named({"chrome", "ninefathom-mirror"}) == "ninefathom-mirror"
    assert knowledge.family_named({"ninefathom-mirror"}) == "chrome"
    assert knowledge.family_named({"panel"}) is None


def test_a_file_saved_on_another_system_is_read(loaded):
    text = "\ufeff" + BAY.replace("\n", "\r\n")
    assert "dew-margin" in loaded({"rules/bay.toml": text.encode()}).rules


def test_a_broken_table_is_left_out_and_its_neighbours_stay(loaded):
    knowledge = loaded({"rules/two.toml": HEAT.replace("post-heat-overlap", "again")
                        + "\n[rules.broken]\ntitle = 3\n"})
    assert "again" in knowledge.rules and "broken" not in knowledge.rules


def test_all_mistakes_are_told_at_once(told):
    text = HEAT.replace('"edges"', '"edge"').replace('"memory"', '"guess"')
    assert len(told({RULE: text})) == 2


def changed(old, new, text=HEAT):
    assert old in text
    return text.replace(old, new, 1)


MARGIN = changed('unit = "dC"', 'unit = "degC"', BAY)
IN_RULE = "knowledge/rules/heat.toml: rules.post-heat-overlap"

MISTAKES = {
    "a margin in degrees of a thermometer": (
        "rules/bay.toml", MARGIN,
        'knowledge/rules/bay.toml: rules.dew-margin.figures.margin.unit is "degC", which is a '
        'temperature. A margin is a difference: write "dC".',
    ),
    "a difference in degrees of a thermometer": (
        RULE, changed('name = "overlap post-heat temperature"', 'name = "difference to the panel"'),
        f'{IN_RULE}.figures.target.unit is "degF", which is a temperature. A difference has a '
        'unit of its own: write "dF".',
    ),
    "a unit by its everyday name": (
        RULE, changed('unit = "degF"', 'unit = "F"'),
        f'{IN_RULE}.figures.target.unit is "F", which is no unit here. Write "degF".',
    ),
    "a misspelt key": (
        RULE, changed("why =", "whi ="),
        f'{IN_RULE}.whi is no key here. Did you mean "why"?',
    ),
    "a key that belongs nowhere": (
        RULE, changed("value = 225", "value = 225\ncolour = 3"),
        f"{IN_RULE}.figures.target.colour is no key here. Known here: value, low, high, at_least, "
        "at_most, over, unit, tolerance, too_much, name, basis, source and note.",
    ),
    "a missing key": (
        RULE, changed('stage = "edges"\n', ""),
        f"{IN_RULE}.stage is missing. Write stage = ...",
    ),
    "a stage that is none": (
        RULE, changed('"edges"', '"edge"'),
        f'{IN_RULE}.stage is "edge". One of "check-in", "preparation", "cutting", "laying", '
        '"edges", "cure", "inspection", "hand-over" or "any".',
    ),
    "an empty text": (
        RULE, changed('"Post-heat: overlaps"', '" "'),
        f"{IN_RULE}.title is empty. Write it out, or take the key away.",
    ),
    "a number where a text belongs": (
        RULE, changed('"Post-heat: overlaps"', "3"),
        f"{IN_RULE}.title is 3. Write a text in quotes.",
    ),
    "a text where a number belongs": (
        RULE, changed("value = 225", 'value = "225"'),
        f'{IN_RULE}.figures.target.value is "225". Write a number without quotes.',
    ),
    "a number that is none": (
        RULE, changed("value = 225", "value = nan"),
        f"{IN_RULE}.figures.target.value is nan. Write a number that can be.",
    ),
    "a yes or no in words": (
        RULE, changed("basis =", 'safety = "yes"\nbasis ='),
        f'{IN_RULE}.safety is "yes". Write true or false.',
    ),
    "a text where a list belongs": (
        RULE, changed('cautions = ["hot"]', 'cautions = "hot"'),
        f'{IN_RULE}.cautions is "hot". Write a list: ["...", "..."].',
    ),
    "a list item that is no text": (
        RULE, changed('phrases = ["how hot', 'phrases = [3, "how hot'),
        f"{IN_RULE}.phrases[1] is 3. Write a text in quotes.",
    ),
    "a text where a table belongs": (
        RULE, changed('about = { thing = ["overlap"], doing = ["heat"] }', 'about = "overlap"'),
        f'{IN_RULE}.about is "overlap". Write a table: {{ key = value }}.',
    ),
    "two numbers in one figure": (
        RULE, changed("value = 225", "value = 225\nat_most = 230"),
        f"{IN_RULE}.figures.target gives value and at_most. Give exactly one of value, low with "
        "high, at_least, at_most or over.",
    ),
    "no number in a figure": (
        RULE, changed("value = 225\n", ""),
        f"{IN_RULE}.figures.target gives no number. Give exactly one of value, low with high, "
        "at_least, at_most or over.",
    ),
    "a range upside down": (
        RULE, changed("value = 225", "low = 230\nhigh = 225"),
        f"{IN_RULE}.figures.target.low is not under high. Swap them, or give value alone.",
    ),
    "colder than cold can be": (
        RULE, changed("value = 225", "value = -500"),
        f"{IN_RULE}.figures.target.value cannot be: that is below absolute zero (-459.67 °F, "
        "-273.15 °C). Give a number that can be.",
    ),
    "a tolerance under zero": (
        RULE, changed("tolerance = 10", "tolerance = -1"),
        f"{IN_RULE}.figures.target.tolerance is under zero. Give how far either way, over zero.",
    ),
    "too much that is too little": (
        RULE, changed("too_much = 250", "too_much = 220"),
        f"{IN_RULE}.figures.target.too_much lies under the figure itself. Give where harm starts, "
        "above it.",
    ),
    "published without a source": (
        RULE, changed('basis = "memory"', 'basis = "published"'),
        f'{IN_RULE}.basis is "published" without a source. Name the source (an id of '
        "sources.toml), or write another basis.",
    ),
    "a variant that never holds": (
        RULE, changed('when = { film = ["chrome"] }', "when = {}"),
        f"{IN_RULE}.variants[1].when names no film and no condition. Say when the variant holds.",
    ),
    "an id written into the table": (
        RULE, changed("stage =", 'id = "x"\nstage ='),
        f"{IN_RULE}.id is not written in the file. Take it out; the name of the table and of the "
        "file tell it.",
    ),
    "a rule that is no table": (
        RULE, "[rules]\npost-heat-overlap = 3\n",
        f"{IN_RULE} is 3. Write a table: [rules.post-heat-overlap] and its keys below it.",
    ),
    "rules that are no tables": (
        RULE, "rules = 3\n",
        "knowledge/rules/heat.toml: rules is 3. Write tables: [rules.<id>].",
    ),
    "a table of another file": (
        RULE, HEAT + "\n[rule.x]\n",
        'knowledge/rules/heat.toml: rule is no table of such a file. Did you mean "rules"?',
    ),
    "an id that another file has": (
        "rules/twice.toml", BAY,
        "knowledge/rules/twice.toml: rules.dew-margin is an id that knowledge/rules/bay.toml has. "
        "Ids are never used twice: name this one otherwise.",
    ),
    "an act with the id of a rule": (
        "intents/acts.toml", FILES["intents/acts.toml"].replace("greeting", "dew-margin"),
        "knowledge/intents/acts.toml: acts.dew-margin is an id that knowledge/rules/bay.toml has. "
        "Ids are never used twice: name this one otherwise.",
    ),
    "a link to a missing rule": (
        RULE, changed('see_also = ["dew-margin"]', 'see_also = ["dew-margins"]'),
        f'{IN_RULE}.see_also names "dew-margins", which is no rule or calculation. Did you mean '
        '"dew-margin"?',
    ),
    "a caution that is none": (
        RULE, changed('cautions = ["glare"]', 'cautions = ["sparks"]'),
        f'{IN_RULE}.variants[1].cautions names "sparks", which is no caution. Take it out, or '
        "write it.",
    ),
    "a source that is none": (
        "rules/solvent.toml", changed('"guide"', '"almanac"', SOLVENT),
        'knowledge/rules/solvent.toml: rules.solvent-air.source is "almanac", which is no source '
        "of sources.toml. One of guide.",
    ),
    "a figure that the rule does not have": (
        RULE, changed("overlap to {target}", "overlap to {aim}"),
        f"{IN_RULE}.says names {{aim}}, which is no figure of the rule. Its figures: {{target}}.",
    ),
    "a figure of a rule that is not there": (
        RULE, changed("{dew-margin.margin}", "{dew-margins.margin}"),
        f'{IN_RULE}.steps names the rule "dew-margins", which there is not. Did you mean '
        '"dew-margin"?',
    ),
    "a figure that another rule does not have": (
        RULE, changed("{dew-margin.margin}", "{dew-margin.gap}"),
        f'{IN_RULE}.steps names the figure "gap", which dew-margin does not have. Its figures: '
        "margin.",
    ),
    "a brace that holds something else": (
        RULE, changed("share the heat", "share {the heat}"),
        f'{IN_RULE}.why has "{{the heat}}", which is no name of a figure. Braces hold the name of '
        "a figure, and nothing else stands in them.",
    ),
    "a lone brace": (
        RULE, changed("share the heat", "share } the heat"),
        f'{IN_RULE}.why has "}}", which is no name of a figure. Braces hold the name of a figure, '
        "and nothing else stands in them.",
    ),
    "a word list that is none": (
        WORDS, changed('words = ["wipe"]', 'words = "wipe"', FILES[WORDS]),
        'knowledge/lexicon/words.toml: doings.wipe.words is "wipe". Write a list: '
        '["...", "..."].',
    ),
    "a sum named unlike its file": (
        SUM, changed('id = "panel-film"', 'id = "panels"', FILES[SUM]),
        'knowledge/calculations/panel-film.toml: calculation.id is "panels". The file is named '
        'for it: write id = "panel-film".',
    ),
    "a sum without a head": (
        SUM, "[slots.x]\n",
        "knowledge/calculations/panel-film.toml: calculation is missing. Write [calculation] with "
        "its id, title, example and phrases.",
    ),
    "a sum that rests on no rule": (
        SUM, changed('rules = ["solvent-air"]', 'rules = ["panel-film"]', FILES[SUM]),
        'knowledge/calculations/panel-film.toml: calculation.rules names "panel-film", which is '
        "no rule. Take it out, or write it.",
    ),
    "a slot of no kind": (
        SUM, changed('kind = "choice"', 'kind = "way"', FILES[SUM]),
        'knowledge/calculations/panel-film.toml: slots.run.kind is "way". One of length, area, '
        "volume, mass, duration, temperature, temperature_difference, ratio, pressure, "
        "areal_mass, concentration, mass_concentration, rate, flow, count, money, choice, panel, "
        "film, moment, text or log.",
    ),
    "a choice without options": (
        SUM, changed('options = { along = ["along the roll"], across = [] }\n', "", FILES[SUM]),
        "knowledge/calculations/panel-film.toml: slots.run.options is missing. A slot of kind "
        '"choice" has options, no other has.',
    ),
    "a default that is no option": (
        SUM, changed('option = "along"', 'option = "round"', FILES[SUM]),
        'knowledge/calculations/panel-film.toml: slots.run.default names the option "round". One '
        "of along or across.",
    ),
    "a default that is two things": (
        SUM, changed('option = "along"', 'option = "along", value = 3', FILES[SUM]),
        "knowledge/calculations/panel-film.toml: slots.run.default gives value and option. Give "
        "value with unit, rule with figure, or option.",
    ),
    "a default in no unit": (
        SUM, changed('option = "along"', 'value = 3, unit = "ells"', FILES[SUM]),
        'knowledge/calculations/panel-film.toml: slots.run.default.unit is "ells", which is no '
        "unit. One of ",
    ),
    "a default that the rule does not have": (
        SUM, changed('figure = "room"', 'figure = "place"', FILES[SUM]),
        "knowledge/calculations/panel-film.toml: slots.room.default names the figure \"place\", "
        "which solvent-air does not have. Its figures: limit, temperature, room or bin.",
    ),
    "a default of another kind": (
        SUM, changed('figure = "room"', 'figure = "bin"', FILES[SUM]),
        "knowledge/calculations/panel-film.toml: slots.room.default names a figure of kind "
        "duration. The slot is of kind length: name a figure that is.",
    ),
    "a bound of another kind": (
        SUM, changed('above = { value = 0, unit = "in" }', 'above = { value = 0, unit = "h" }',
                     FILES[SUM]),
        'knowledge/calculations/panel-film.toml: slots.length.above.unit is "h", a unit of '
        'duration. The slot is of kind "length": write one of in ft yd mil mm cm m um km mi.',
    ),
    "a bare number in no unit": (
        SUM, changed('units = { us = "ft"', 'units = { us = "feet"', FILES[SUM]),
        'knowledge/calculations/panel-film.toml: slots.room.units.us is "feet", which is no unit. '
        "One of ",
    ),
    "a pair that is no slot": (
        SUM, changed('pair = "height"', 'pair = "depth"', FILES[SUM]),
        'knowledge/calculations/panel-film.toml: slots.length.pair names "depth". One of its '
        "slots: length, height, room or run.",
    ),
    "a film of no family": (
        SHEET, changed('"chrome"', '"crome"', FILES[SHEET]),
        'knowledge/films/sheet-ninefathom-mirror.toml: film.family is "crome", which is no '
        'family. Did you mean "chrome"?',
    ),
    "a sheet without a film": (
        SHEET, '[film]\nfamily = "chrome"\n',
        "knowledge/films/sheet-ninefathom-mirror.toml: film.name is missing. Write name = ...",
    ),
    "a sheet's number in no unit": (
        SHEET, changed('"degC"', '"C"', FILES[SHEET]),
        "knowledge/films/sheet-ninefathom-mirror.toml: overrides.post-heat-overlap.target.unit is "
        '"C", which is no unit here. Write "degC".',
    ),
    "a sheet's figure without its name": (
        SHEET, '[film]\nname = "N"\nfamily = "chrome"\n[overrides]\ndew-margin = 3\n',
        "knowledge/films/sheet-ninefathom-mirror.toml: overrides.dew-margin is 3. Write a table "
        "for the figure: [overrides.dew-margin.<figure>].",
    ),
    "a text that is no TOML": (
        RULE, '[rules.x]\ntitle = "X"\nstage laying\n',
        "knowledge/rules/heat.toml line 3: is not TOML: expected '=' after a key in a key/value "
        "pair. Mend it there: texts in quotes, lists in [ ], one key = value a line.",
    ),
    "a text that stops too soon": (
        RULE, '[rules.x]\nphrases = ["a",',
        "knowledge/rules/heat.toml: is not TOML at its end: ",
    ),
    "letters of an old encoding": (
        RULE, '[rules.x]\ntitle = "caf\xe9"\n'.encode("latin-1"),
        "knowledge/rules/heat.toml line 2: is not UTF-8 text. Save it as UTF-8.",
    ),
    "a thousand brackets": (
        RULE, "x = " + "[" * 20_000,
        "knowledge/rules/heat.toml: is nested too deep. Write plain tables and lists.",
    ),
    "a file as long as a library": (
        RULE, "# " + "x" * 1_200_000,
        "knowledge/rules/heat.toml: is 1.2 MB. A file may have 1 MB: split it, or take it away.",
    ),
}


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_told_with_file_and_key_and_remedy(told, name):
    file, text, sentence = MISTAKES[name]
    found = told({file: text})
    assert any(each.startswith(sentence) for each in found), found


def test_a_folder_named_like_a_file_is_told(shipped, tmp_path):
    folder = shipped()
    (folder / "rules" / "spare.toml").mkdir()
    problems = [str(problem) for problem in load(folder, tmp_path / "none").problems]
    assert problems == ["knowledge/rules/spare.toml: is a folder. Move its files out, or rename it "
                        "so that it does not end in .toml."]


def test_a_file_in_the_place_of_the_folder_is_told(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "knowledge").write_text("hello")
    problems = [str(problem) for problem in load(tmp_path / "knowledge", tmp_path / "x").problems]
    assert problems == ["knowledge: is no folder. Put a folder in its place."]


def test_hidden_files_are_passed_over(told):
    assert told({"rules/.heat.toml.swp.toml": "not toml", "rules/notes.txt": "not toml"}) == []


def test_a_loop_of_links_between_folders_ends(shipped, tmp_path):
    folder = shipped()
    (folder / "rules" / "loop").symlink_to(folder, target_is_directory=True)
    assert load(folder, tmp_path / "none").problems == []
