"""Sketches: what of a drawing a terminal can show, and that the shipped ones do."""

from __future__ import annotations

import pytest

from assistant.rules.sketch import MOST_COLUMNS, MOST_ROWS, sketch_fault
from tests.rules.conftest import HEAT

DRAWN = {"relief-cut", "overlap-direction", "triangle-pull", "wrap-behind", "gap", "recess-lay"}


@pytest.mark.parametrize("rows, said", [
    (["panel"] * (MOST_ROWS + 1), "has 13 rows"),
    (["panel", "x" * (MOST_COLUMNS + 1)], "has 61 columns in row 2"),
    (["panel\t│"], r"has '\t' in row 1"),
    (["panel \x1b[1m"], r"has '\x1b' in row 1"),
    (["pa\u0301nel"], r"has '\u0301' in row 1"),
    (["panel 板"], r"has '\u677f' in row 1"),
    (["┌──┐", "└──┘"], "has no word in it"),
], ids=["too high", "too wide", "a tab", "an escape", "an accent apart", "a wide letter",
        "no label"])
def test_what_a_terminal_cannot_show_is_refused(rows, said):
    assert sketch_fault(rows)[0] == said


def test_a_labelled_drawing_of_the_largest_size_is_taken():
    assert sketch_fault(["│ panel".ljust(MOST_COLUMNS, "─")] * MOST_ROWS) is None


def test_a_bad_sketch_is_told_with_its_rule(told):
    found = told({"rules/heat.toml": HEAT.replace(
        'basis = "memory"', 'sketch = ["┌─┐"]\nbasis = "memory"', 1)})
    assert found[0] == (
        "knowledge/rules/heat.toml: rules.post-heat-overlap.sketch has no word in it. Label what "
        "is drawn."
    )


def test_a_sketch_keeps_the_blanks_it_was_drawn_with(loaded):
    rule = loaded({"rules/heat.toml": HEAT.replace(
        'basis = "memory"', 'sketch = ["   lap", "", "  ▄▄▄▄"]\nbasis = "memory"', 1)})
    assert rule.resolve("post-heat-overlap").sketch == ("   lap", "", "  ▄▄▄▄")


def test_what_words_say_badly_is_drawn(knowledge):
    drawn = {rule.id for rule in knowledge.rules.values() if rule.sketch}
    assert drawn >= DRAWN
