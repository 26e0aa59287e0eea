"""Chances add up, and words of another subject speak against a line being about the trade."""

import pytest

from assistant.hearing.hear import hear
from assistant.routing.certainty import chances
from assistant.routing.ranking import Fit


def _fit(index, score):
    return Fit(index, score, 0.0, 0.0, 0.0, {})


def test_chances_add_up_to_one_and_come_likeliest_first():
    found = chances([_fit(0, 1.0), _fit(1, 3.0), _fit(2, 2.0)], lambda fit: str(fit.index))
    assert sum(found.values()) == pytest.approx(1.0)
    assert list(found) == ["1", "2", "0"]


def test_rules_with_the_same_answer_share_their_chance():
    apart = chances([_fit(0, 1.0), _fit(1, 1.0), _fit(2, 1.0)], lambda fit: str(fit.index))
    shared = chances([_fit(0, 1.0), _fit(1, 1.0), _fit(2, 1.0)], lambda fit: str(fit.index > 0))
    assert apart["1"] == pytest.approx(1 / 3)
    assert shared["True"] == pytest.approx(2 / 3)


def test_nothing_has_no_chances():
    assert chances([], lambda fit: "") == {}


@pytest.mark.parametrize(("trade", "elsewhere"), [
    ("how long does it need to cure", "how long does concrete need to cure"),
    ("how wide should an overlap be", "how wide should an overlap be on roof shingles"),
    ("how much bleed on each side", "how much bleed on each side of a printed flyer"),
])
def test_the_same_question_about_another_subject_is_refused(router, lexicon, trade, elsewhere):
    assert router.route(hear(trade, lexicon)).kind != "outside"
    assert router.route(hear(elsewhere, lexicon)).kind == "outside"
