"""A line is ranked by its wording: which intent, how surely, and what is refused.

Expected values: the CLINC150 labels (everyday.txt names the source), and hand-made lines whose
intent no reader would doubt.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.routing.evidence import Evidence
from assistant.routing.intent import Intent
from assistant.routing.likeness import Likeness
from tests.benchmarks.routing import OUTSIDE, intents_of, main, measure, read

HERE = Path(__file__).parent
PHRASES = HERE / "everyday_phrases.jsonl"
QUESTIONS = HERE / "everyday_questions.jsonl"

INTENTS = (
    Intent(id="bleed", phrases=(
        "how much bleed on each edge", "how far past the edge do I cut",
        "what bleed do I leave around a panel", "how much extra film around the panel",
    )),
    Intent(id="cure", phrases=(
        "how long does the film cure", "how long until it is cured",
        "when can the vehicle go outside", "how many hours does it stay in the bay",
    )),
    Intent(id="overlap-heat", phrases=(
        "how hot do I post-heat an overlap", "overlap post heat temperature",
        "what temperature for the lap", "how hot must the seam get",
    )),
    Intent(id="wash", phrases=(
        "when can it be washed", "how soon may I wash the car",
        "first wash after the wrap", "how long before washing",
    )),
)


@pytest.fixture(scope="module")
def likeness() -> Likeness:
    return Likeness.build(INTENTS)


def _first(likeness: Likeness, text: str) -> str | None:
    ranked = likeness.rank(text)
    return ranked[0].intent_id if ranked else None


@pytest.mark.parametrize("intent", INTENTS, ids=lambda intent: intent.id)
def test_every_sample_phrase_is_known_for_certain(likeness: Likeness, intent: Intent) -> None:
    for phrase in intent.phrases:
        ranked = likeness.rank(phrase.upper() + "?")
        assert ranked[0].intent_id == intent.id
        assert ranked[0].score == pytest.approx(1.0)
        assert ranked[0].coverage == pytest.approx(1.0)
        assert likeness.confidence(ranked) > 0.9


@pytest.mark.parametrize(("line", "intent"), [
    ("what's the temp for post heating overlaps", "overlap-heat"),
    ("how many hours till it's cured", "cure"),
    ("is it ok to wash it yet, how soon", "wash"),
    ("how much bleed do you leave at the edges", "bleed"),
])
def test_other_words_for_the_same_question_reach_the_same_intent(
    likeness: Likeness, line: str, intent: str
) -> None:
    assert _first(likeness, line) == intent


@pytest.mark.parametrize(("line", "intent"), [
    ("how hot for an overlpa", "overlap-heat"),
    ("wen can it be wahsed", "wash"),
    ("how much bleeed", "bleed"),
    ("tempreature of a seem", "overlap-heat"),
])
def test_a_misspelt_word_is_read_as_the_one_meant(
    likeness: Likeness, line: str, intent: str
) -> None:
    assert _first(likeness, line) == intent


def test_words_that_nobody_taught_lower_what_is_covered(likeness: Likeness) -> None:
    plain = likeness.rank("how much bleed on each edge")[0]
    strange = likeness.rank("how much bleed on each edge of a quixotic zeppelin")[0]
    assert strange.intent_id == plain.intent_id == "bleed"
    assert strange.coverage < plain.coverage
    assert strange.score < plain.score


@pytest.mark.parametrize("line", [
    "who won the match last night", "sing me a lullaby in portuguese", "where do giraffes live",
    "the quick brown fox jumps over the lazy dog",
])
def test_a_question_about_anything_else_is_not_answered(line: str) -> None:
    many = Likeness.build((*INTENTS, *intents_of(read(PHRASES))))
    assert not many.sure(many.rank(line))


@pytest.mark.parametrize("line", ["", "   ", "?!...", "\n\t", "\u3042\u3044\u3046", "\x00"])
def test_a_line_that_shares_nothing_ranks_nothing(likeness: Likeness, line: str) -> None:
    ranked = likeness.rank(line)
    assert ranked == []
    assert likeness.confidence(ranked) == 0.0
    assert not likeness.sure(ranked)


def test_without_any_intent_nothing_is_known() -> None:
    assert Likeness.build(()).rank("how much bleed") == []
    assert Likeness.build((Intent(id="empty"),)).rank("how much bleed") == []


def test_equals_are_told_apart_by_id_whatever_order_they_came_in() -> None:
    twins = [Intent(id=name, phrases=("measure the hood",)) for name in ("b", "a", "c")]
    for order in (twins, twins[::-1]):
        ranked = Likeness.build(order).rank("measure a hood")
        assert [found.intent_id for found in ranked] == ["a", "b", "c"]
        assert len({found.score for found in ranked}) == 1


def test_between_two_equals_the_first_is_less_sure_than_alone() -> None:
    one = Intent(id="a", phrases=("measure the hood first", "take the size of the hood"))
    other = Intent(id="z", phrases=("wait for the roll to warm", "let the roll warm up"))
    twin = Intent(id="b", phrases=one.phrases)
    line = "size of the hood please"
    alone, doubled = Likeness.build((one, other)), Likeness.build((one, other, twin))
    assert alone.confidence(alone.rank(line)) > doubled.confidence(doubled.rank(line))


def test_no_more_are_ranked_than_asked_for(likeness: Likeness) -> None:
    assert len(likeness.rank("how long before it is cured", 2)) == 2
    every = likeness.rank("how long before it is cured", 50)
    assert likeness.rank("how long before it is cured", 2) == every[:2]


def test_the_index_comes_back_the_same_through_json(likeness: Likeness) -> None:
    again = Likeness.from_data(json.loads(json.dumps(likeness.to_data())))
    for line in ("how hot for an overlpa", "cured yet", "how much bleed", "giraffe"):
        assert again.rank(line) == likeness.rank(line)


def test_a_fold_is_applied_to_phrases_and_to_lines() -> None:
    def fold(text: str) -> str:
        return text.replace("bonnet", "hood")

    intents = (Intent(id="hood", phrases=("measure the bonnet",)), INTENTS[0])
    ranked = Likeness.build(intents, fold).rank("hood")
    assert ranked[0].intent_id == "hood"
    assert ranked[0].coverage == pytest.approx(1.0)


def test_the_ranking_does_not_change_from_one_start_to_the_next() -> None:
    script = (
        "import json\n"
        "from tests.benchmarks.routing import intents_of, read\n"
        "from assistant.routing.likeness import Likeness\n"
        "from pathlib import Path\n"
        f"like = Likeness.build(intents_of(read(Path({str(PHRASES)!r}))))\n"
        "lines = ['wake me at noon', 'flip it', 'is it warm out', 'thanks for teh help']\n"
        "print([[(f.intent_id, f.score, f.coverage) for f in like.rank(x)] for x in lines])\n"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", script], capture_output=True, text=True, check=True,
            cwd=HERE.parents[1], env={"PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(told) == 1


_LIKENESS = Likeness.build(INTENTS)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=200))
def test_any_text_at_all_is_ranked_without_falling_over(text: str) -> None:
    ranked = _LIKENESS.rank(text)
    assert all(0.0 < found.score <= 1.0 and 0.0 <= found.coverage <= 1.0 for found in ranked)
    assert [found.score for found in ranked] == sorted(
        (found.score for found in ranked), reverse=True
    )
    assert 0.0 <= _LIKENESS.confidence(ranked) <= 1.0
    assert ranked == _LIKENESS.rank(text)


def test_a_ramble_of_ten_thousand_words_is_read_at_its_ends(likeness: Likeness) -> None:
    ramble = "so I said to him " * 2000 + "and how hot do I post-heat an overlap"
    assert _first(likeness, ramble) == "overlap-heat"


def test_a_part_that_fewer_intents_hold_speaks_louder() -> None:
    evidence = Evidence.build([[["common", "rare"]], [["common", "other"]], [["common", "third"]]])
    sums = [0.0, 0.0, 0.0]
    evidence.add_to(sums, ["common", "rare"], 1.0)
    assert sums[0] > 2 * sums[1]
    assert sums[1] == pytest.approx(sums[2])


def test_everyday_questions_reach_their_intent_and_others_are_refused() -> None:
    # The labels are CLINC150's. The best single phrase by token-set ratio gets 0.72 right.
    summary, told = measure(read(PHRASES), read(QUESTIONS))
    assert len(told) == 92
    assert summary["in_scope_accuracy"] >= 0.88
    assert summary["answered_right"] >= 0.72
    assert summary["outside_refused"] >= 0.75


def test_the_benchmark_writes_a_line_a_question_and_one_summary(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out.jsonl"
    given_files = ["--phrases", str(PHRASES), "--questions", str(QUESTIONS), "--out", str(out)]
    assert main(given_files) == 0
    summary = json.loads(capsys.readouterr().out)
    rows = [json.loads(line) for line in out.read_text(encoding="utf-8").splitlines()]
    questions = read(QUESTIONS)
    assert [row["text"] for row in rows] == [text for text, _ in questions]
    inside = [(row, intent) for row, (_, intent) in zip(rows, questions, strict=True)
              if intent != OUTSIDE]
    right = [row["top"] == intent for row, intent in inside]
    assert summary["in_scope_accuracy"] == pytest.approx(sum(right) / len(right), abs=1e-4)
    assert set(summary) == {
        "in_scope_accuracy", "answered", "answered_right", "outside_refused", "p50_ms", "p95_ms",
        "build_ms",
    }


def test_the_benchmark_names_the_line_it_cannot_read(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    broken = tmp_path / "broken.jsonl"
    broken.write_text('{"text": "a", "intent": "b"}\n{"text": "a"}\n', encoding="utf-8")
    assert main(["--phrases", str(broken), "--questions", str(QUESTIONS)]) == 2
    assert "broken.jsonl:2" in capsys.readouterr().err
