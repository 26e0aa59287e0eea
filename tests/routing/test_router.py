"""The router on the shipped knowledge: sure, a choice, or outside.

The questions of tests/questions/dev_router.jsonl are in nobody's phrase list; which rule they mean
is the trade's common practice, as the table of figures in the knowledge says.
"""

import json
import statistics
import time
from pathlib import Path

import pytest

from assistant.hearing.hear import hear
from assistant.routing.router import Router
from assistant.routing.topic import Topic

_FILE = Path(__file__).parents[1] / "questions" / "dev_router.jsonl"
QUESTIONS = [json.loads(line) for line in _FILE.read_text(encoding="utf-8").splitlines()]

RIGHT_FIRST = 0.93        # measured 0.953
WRONG = 0.02              # measured 0.007: sure, and of another rule
OUTSIDE_REFUSED = 0.94    # measured 0.969


@pytest.fixture(scope="package")
def ask(router, lexicon):
    return lambda text, topic=None: router.route(hear(text, lexicon), topic)


@pytest.fixture(scope="package")
def answered(ask):
    """(question, what was meant, verdict), all of the file."""
    return [
        (each["text"], _meant(each["expect"]), ask(each["text"])) for each in QUESTIONS
    ]


def _meant(expect):
    return expect if isinstance(expect, list) else [expect]


def _first(verdict):
    return verdict.candidates[0].intent_id if verdict.candidates else None


def test_questions_in_other_words_find_their_rule_first(answered):
    asked = [row for row in answered if row[1] not in (["outside"], ["choice"])]
    right = [row for row in asked if row[2].kind != "outside" and _first(row[2]) in row[1]]
    wrong = [row for row in asked if row[2].kind == "sure" and _first(row[2]) not in row[1]]
    assert len(right) / len(asked) >= RIGHT_FIRST
    assert len(wrong) / len(asked) <= WRONG, [(row[0], _first(row[2])) for row in wrong]


def test_other_trades_and_other_subjects_are_refused(answered):
    asked = [row for row in answered if row[1] == ["outside"]]
    refused = [row for row in asked if row[2].kind == "outside"]
    assert len(refused) / len(asked) >= OUTSIDE_REFUSED


@pytest.mark.parametrize(
    "text", ["how hot?", "is it ready?", "how long", "can i start?", "overlap"]
)
def test_a_line_that_does_not_say_of_what_is_asked_back_with_two_to_four_choices(ask, text):
    verdict = ask(text)
    assert verdict.kind == "choice"
    assert 2 <= len(verdict.candidates) <= 4
    assert len({each.intent_id for each in verdict.candidates}) == len(verdict.candidates)


@pytest.mark.parametrize("text", [
    "WIPING IT WITH FUEL WHILE THE HEATER RUNS",
    "smoking while degreasing",
    "im heating the film right next to the open can of ipa",
    "charger is on next to the thinners",
    "vaping while i wipe down with alcohol",
    "pilot light on and acetone open",
    "my mate has the grinder throwing sparks and im wiping with panel wipe",
])
def test_fire_and_solvent_in_one_breath_meet_the_rule_about_fire(ask, text):
    verdict = ask(text)
    assert (verdict.kind, _first(verdict)) == ("sure", "no-heat-near-solvent")


def test_work_at_a_restraint_meets_the_rule_about_restraints(ask):
    assert _first(ask("drilling near the airbag")) == "airbags"


@pytest.mark.parametrize(("text", "rule"), [
    ("post heat lap temp", "post-heat-overlap"),
    ("OVRELAP POST HETE TEMPRATURE!!", "post-heat-overlap"),
    ("🔥 overlap 🔥 temp", "post-heat-overlap"),
    ("a qué temperatura el overlap", "post-heat-overlap"),
    ("cuánto tiempo de curado", "cure"),
    ("temperatura del taller", "bay-temperature"),
    ("is 200 ok for an overlap", "post-heat-overlap"),
    ("how wide should the lap be", "overlap-width"),
])
def test_fragments_slips_pictures_and_spanish_are_read_as_far_as_the_key_words_go(ask, text, rule):
    verdict = ask(text)
    assert (verdict.kind, _first(verdict)) == ("sure", rule)


@pytest.mark.parametrize(("text", "sum_"), [
    ("how much film for a rear bumper 92 by 31, 3 inch bleed", "panel-film"),
    ("dew point at 20C 60%", "dew-point"),
    ("bay is 18C and 60 percent, panel 16C, can I start", "bay-check"),
    ("strips to cover 108 in with 54 in film", "strips"),
])
def test_numbers_lead_to_a_sum(ask, text, sum_):
    assert _first(ask(text)) == sum_


@pytest.mark.parametrize(("lines", "rules"), [
    (["how hot do i post-heat a recess", "and for an overlap?", "how wide should it be?"],
     ["post-heat-stretched", "post-heat-overlap", "overlap-width"]),
    (["how wide should an overlap be", "and how hot?"], ["overlap-width", "post-heat-overlap"]),
    (["how hot for an overlap", "what about chrome", "can i wash it tomorrow"],
     ["post-heat-overlap", "post-heat-overlap", "first-wash"]),
    (["how long does it need to cure", "what if it's cold"], ["cure", "cold-night"]),
])
def test_a_talk_goes_on_from_its_last_subject(ask, lexicon, lines, rules):
    topic, told = None, []
    for line in lines:
        verdict = ask(line, topic)
        told.append(_first(verdict) if verdict.kind == "sure" else verdict.kind)
        topic = Topic.after(hear(line, lexicon), topic, _first(verdict))
    assert told == rules


def test_a_ramble_is_answered_by_the_question_in_it(ask):
    ramble = (
        "so we had this van in on monday and the customer was standing there the whole time "
        "telling us about his holiday and his dog and the radio was on and my boss kept going in "
        "and out and the young one dropped his coffee all over the bench and then the phone rang "
        "twice and nobody answered it, anyway, we got the sides on in the end and they look fine "
        "to me but he is never happy and he says the last place he worked did it all another way. "
    ) * 2 + "what i wanted to ask is how hot do you post heat an overlap because he will not say"
    assert len(ramble.split()) >= 180
    assert _first(ask(ramble)) == "post-heat-overlap"


def test_a_megabyte_of_anything_is_refused_or_asked_back_in_bounded_time(ask):
    started = time.process_time()
    verdict = ask("x" * 1_000_000)
    assert time.process_time() - started < 3.0
    assert verdict.kind == "outside"


def test_the_verdict_tells_what_it_matched_and_what_not(ask):
    verdict = ask("how hot do I post-heat an overlap with a zyxwort")
    assert {"post-heat", "overlap"} <= set(verdict.candidates[0].matched)
    assert verdict.candidates[0].missing == ("zyxwort",)
    assert 0 <= verdict.confidence <= 1
    assert verdict.reason


def test_the_index_is_the_same_after_a_stay_in_a_file(router, knowledge, lexicon):
    again = Router.from_data(
        json.loads(json.dumps(router.to_data())), knowledge.intents(), lexicon
    )
    for each in QUESTIONS[::12]:
        heard = hear(each["text"], lexicon)
        assert again.route(heard) == router.route(heard)


@pytest.mark.heavy
def test_a_turn_takes_five_milliseconds(ask):
    spent = []
    for each in QUESTIONS:
        started = time.process_time()
        ask(each["text"])
        spent.append(time.process_time() - started)
    assert statistics.quantiles(spent, n=20)[-1] <= 0.005
