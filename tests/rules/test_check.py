"""What the check sends back, and how the questions of a rule prove it."""

from __future__ import annotations

import pytest

from assistant.routing.verdict import CHOICE, OUTSIDE, SURE, Candidate, Verdict
from assistant.rules.check import check, check_all, load_from
from assistant.rules.soundness import unsound
from tests.rules.conftest import BAY, FILES, HEAT, SOLVENT, write

RULE, SUM = "rules/heat.toml", "calculations/panel-film.toml"


def changed(old, new, text=HEAT):
    assert old in text
    return text.replace(old, new, 1)


IN_RULE = "knowledge/rules/heat.toml: rules.post-heat-overlap"
LONG = " ".join(["overlap"] * 26)

FINDINGS = {
    "an id with capitals": (
        RULE, HEAT.replace("post-heat-overlap", "Post_Heat"),
        "knowledge/rules/heat.toml: rules.Post_Heat is no good id. Lower case, digits and hyphens: "
        "like-this-one.",
    ),
    "no phrases": (
        RULE, changed('phrases = ["how hot for an overlap"]', ""),
        f"{IN_RULE}.phrases is missing. Write how people ask for it, four lines or more.",
    ),
    "one question only": (
        RULE, changed(', "overlap needs how much heat at the end"', ""),
        f"{IN_RULE}.reaches has 1 question. Write two or more that must end here, worded unlike "
        "the phrases.",
    ),
    "no near miss": (
        RULE, changed('must_not_reach = ["how wide is an overlap"]', ""),
        f"{IN_RULE}.must_not_reach is missing. Write a near miss that belongs to another.",
    ),
    "a phrase like a speech": (
        RULE, changed('phrases = [', f'phrases = ["{LONG}", '),
        f"{IN_RULE}.phrases[1] has 26 words. A phrase has at most 25.",
    ),
    "a test copied from the phrases": (
        RULE, changed('reaches = [', 'reaches = ["How hot, for an OVERLAP?", '),
        f'{IN_RULE}.reaches[1] is the phrase "How hot, for an OVERLAP?" again. A test is worded '
        "unlike the phrases.",
    ),
    "a concept without words": (
        RULE, changed('thing = ["overlap"]', 'thing = ["seam"]'),
        f'{IN_RULE}.about.thing names "seam", which is in no lexicon. Write [things.seam] with its '
        "words, or name another.",
    ),
    "a variant for a film without words": (
        RULE, changed('film = ["chrome"], condition', 'film = ["pearl"], condition'),
        f'{IN_RULE}.variants[2].when.film names "pearl", which is in no lexicon. Write '
        "[films.pearl] with its words, or name another.",
    ),
    "no reason": (
        RULE, changed('why = "Two layers share the heat."\n', ""),
        f"{IN_RULE}.why is missing. Write the reason in one line.",
    ),
    "eight steps": (
        RULE, changed('steps = [', 'steps = ["a", "b", "c", "d", "e", "f", '),
        f"{IN_RULE}.steps has 8 steps. At most 7: join some, or split the rule.",
    ),
    "about nothing": (
        RULE, changed('about = { thing = ["overlap"], doing = ["heat"] }\n', ""),
        f"{IN_RULE}.about names no thing and no doing. Name what a question must name.",
    ),
    "a source beside practice": (
        RULE, changed('basis = "memory"', 'basis = "memory"\nsource = "guide"'),
        f'{IN_RULE}.source stands beside the basis "memory". Write basis = "published", or take '
        "the source out.",
    ),
    "a blade without a caution": (
        "rules/cut.toml", changed('cautions = ["local"]', "", BAY).replace("dew-margin", "cut")
        .replace("above the dew point.", "away from the blade."),
        'knowledge/rules/cut.toml: rules.cut.cautions is empty, and the rule speaks of "blade". '
        "Name the caution that goes with it.",
    ),
    "a figure that no text names": (
        "rules/solvent.toml", changed(", rag in {bin}", "", SOLVENT),
        "knowledge/rules/solvent.toml: rules.solvent-air.figures.bin is named in no text. Put "
        "{bin} where the rule says it, or take the figure out.",
    ),
    "a limit that does not say so": (
        "rules/solvent.toml", changed('"solvent in air, at most"', '"solvent in air"', SOLVENT),
        "knowledge/rules/solvent.toml: rules.solvent-air.figures.limit gives at_most, and its name "
        '"solvent in air" does not say so. Put "at most" into the name.',
    ),
    "a figure with a strange name": (
        RULE, HEAT.replace("figures.target", "figures.Target").replace("{target}", "{Target}"),
        f"{IN_RULE}.figures.Target is no good name. Lower case, digits, hyphens or underscores.",
    ),
    "a required slot without an example": (
        SUM, changed('example = "31 in"\n', "", FILES[SUM]),
        "knowledge/calculations/panel-film.toml: slots.height.example is missing. A required slot "
        "is asked for with an example: write one.",
    ),
    "a required slot that fills itself": (
        SUM, changed('option = "along" }', 'option = "along" }\nrequired = true\nexample = "x"',
                     FILES[SUM]),
        "knowledge/calculations/panel-film.toml: slots.run.default stands beside required = true. "
        "Take one of the two out.",
    ),
    "an example like a speech": (
        SUM, changed('example = "film for a panel 92 by 31"', f'example = "{LONG}"', FILES[SUM]),
        "knowledge/calculations/panel-film.toml: calculation.example is too long to be shown. One "
        "line that works as it stands.",
    ),
    "one phrase for two rules": (
        "rules/bay.toml", changed('phrases = [', 'phrases = ["How hot for an overlap?", ', BAY),
        f'{IN_RULE}.phrases[1] is "how hot for an overlap", which dew-margin has too. Leave it '
        "with the one that answers it.",
    ),
    "a source of nothing": (
        "sources.toml", FILES["sources.toml"] + '[sources.spare]\ntitle = "S"\ngives = "G"\n',
        "knowledge/sources.toml: sources.spare is a source of nothing. Name it where a figure "
        "rests on it, or take it out.",
    ),
    "a caution of nothing": (
        "cautions.toml", FILES["cautions.toml"] + '[cautions.spare]\nsays = "S"\ntopic = "t"\n',
        "knowledge/cautions.toml: cautions.spare is a caution of nothing. Name it where it warns, "
        "or take it out.",
    ),
    "a broader concept without words": (
        "lexicon/more.toml", '[things.tile]\nwords = ["tile"]\nbroader = "roofing"\n',
        'knowledge/lexicon: things.tile.broader is "roofing", which is in no lexicon. Write '
        "[things.roofing], or name another.",
    ),
}


def test_a_sound_knowledge_gives_nothing_to_send_back(loaded):
    assert list(map(str, unsound(loaded()))) == []


@pytest.mark.parametrize("name", FINDINGS)
def test_what_a_careful_colleague_would_send_back(loaded, name):
    file, text, sentence = FINDINGS[name]
    found = list(map(str, unsound(loaded({file: text}))))
    assert sentence in found, found


# -- the questions -------------------------------------------------------------------------------


class Told:
    """A router that says what it is told to say; every question else is answered rightly."""

    def __init__(self, knowledge, **verdicts):
        self.right = {
            line: entry.id for entry in knowledge.entries()
            for line in (*entry.reaches, *entry.phrases)
        }
        self.verdicts = verdicts

    def verdict(self, line):
        kind, ids = self.verdicts.get(line.replace(" ", "_").replace(",", ""), (None, ()))
        if kind is None:
            ids = (self.right[line],) if line in self.right else ()
            kind = SURE if ids else OUTSIDE
        return Verdict(kind, tuple(Candidate(each, 1.0) for each in ids))


def proof(knowledge, phrases=False, **verdicts):
    return [str(each) for each in check(knowledge, Told(knowledge, **verdicts), phrases)]


LAP = "the_lap_on_the_hood_what_temp"


def test_questions_that_end_where_they_should_say_nothing(loaded):
    assert proof(loaded(), phrases=True) == []


@pytest.mark.parametrize("verdict, ended", [
    ((SURE, ("dew-margin",)), "is answered by dew-margin"),
    ((CHOICE, ("dew-margin", "solvent-air")), "offers dew-margin, solvent-air"),
    ((OUTSIDE, ("dew-margin",)), "is refused (nearest dew-margin)"),
    ((OUTSIDE, ()), "is refused"),
])
def test_a_question_that_ends_elsewhere_is_told_with_where_it_ended(loaded, verdict, ended):
    assert proof(loaded(), **{LAP: verdict}) == [
        f'{IN_RULE}.reaches[1] "the lap on the hood, what temp" {ended}. Mend the words of the '
        "lexicon or the phrases; or the question is another's."
    ]


def test_a_question_that_is_offered_among_the_choices_has_arrived(loaded):
    assert proof(loaded(), **{LAP: (CHOICE, ("dew-margin", "post-heat-overlap"))}) == []


def test_a_near_miss_that_is_answered_by_the_rule_is_told(loaded):
    found = proof(loaded(), how_wide_is_an_overlap=(SURE, ("post-heat-overlap",)))
    assert found == [
        f'{IN_RULE}.must_not_reach[1] "how wide is an overlap" is answered by it. Give its own '
        "rule the words, or take a phrase away that draws it here."
    ]


def test_a_rule_that_none_of_its_questions_reaches_is_told(loaded):
    away = (OUTSIDE, ())
    found = proof(loaded(), **{LAP: away, "overlap_needs_how_much_heat_at_the_end": away})
    assert found[-1] == (
        f"{IN_RULE}.reaches is reached by none of its questions. Nobody will find it: look at "
        "what its words share with others."
    )


def test_a_phrase_that_reaches_another_rule_is_told(loaded):
    found = proof(loaded(), phrases=True, how_hot_for_an_overlap=(SURE, ("dew-margin",)))
    assert found == [
        f'{IN_RULE}.phrases[1] "how hot for an overlap" is answered by dew-margin. Two rules draw '
        "the same line: leave it with the one that answers it."
    ]


def test_the_check_runs_the_router_that_answers(shipped, shop, monkeypatch):
    folder = shipped()
    report = check_all(folder)
    # 3 rules and a sum with 3 questions each, an act with 3.
    assert "3 rules, 1 sum, 1 film sheet; " in report.summary
    assert " of 15 questions end where they should; " in report.summary


def test_a_whole_knowledge_is_checked_alone_and_house_files_over_the_shipped_one(
    shipped, tmp_path, home
):
    assert set(load_from(shipped()).rules) == {"dew-margin", "post-heat-overlap", "solvent-air"}
    own = '[rules.our-tea]\ntitle = "Tea"\nsays = "At ten."\nphrases = ["when is tea"]\n'
    folder = write(tmp_path / "own", {"tea.toml": own})
    knowledge = load_from(folder)
    assert knowledge.rules["our-tea"].layer == "house" and len(knowledge.rules) > 60
    write(home, {"house/tea.toml": own})
    assert "our-tea" in load_from(None).rules
