"""A reply fits one screen and keeps the contract that other programs rely on."""

import json

import pytest

from assistant.reply import ANSWER, ASKS, OUTCOMES, RESULT, Figure, Reply, lay_out, paged_parts

OVERLAP = Reply(
    ANSWER,
    "Post-heat every overlap to 225 °F (107 °C).",
    intent="post-heat-overlap",
    heading="Post-heat: overlaps",
    why="Two layers of film share the heat.",
    figures=(Figure("overlap post-heat temperature", 225, 225, "degF", "225 °F (107 °C)"),),
    rules=("post-heat-overlap",),
    cautions=("Hot film burns: let it cool before you touch it.",),
    basis="practice",
    basis_words="common practice, no source",
    layer="shipped",
    heard="post-heat, overlap, how hot",
)

# The keys of the published contract, in its order.
KEYS = (
    "outcome intent heading text heard assumed rules figures times steps working cautions basis "
    "layer overrode source choices needs confidence"
).split()


def long_reply(steps: int = 7, cautions: int = 3) -> Reply:
    return OVERLAP.but(
        steps=tuple(f"Step {number}: " + "hold the heat where the film is " * 8
                    for number in range(1, steps + 1)),
        cautions=tuple(f"Caution {number}: mind the hot film and the gun beside it."
                       for number in range(1, cautions + 1)),
    )


def test_the_first_line_answers():
    assert lay_out(OVERLAP)[0].splitlines()[0] == "Post-heat every overlap to 225 °F (107 °C)."


def test_a_lone_figure_that_the_answer_speaks_is_not_said_twice():
    assert lay_out(OVERLAP)[0].count("225 °F") == 1


def test_every_key_of_the_contract_is_there_and_no_other():
    assert list(OVERLAP.as_json()) == KEYS
    assert json.loads(json.dumps(OVERLAP.as_json())) == OVERLAP.as_json()


def test_a_figure_is_four_values_in_the_json():
    assert OVERLAP.as_json()["figures"] == [
        {"name": "overlap post-heat temperature", "low": 225, "high": 225, "unit": "degF"}
    ]


def test_a_long_reply_is_cut_to_the_screen_and_says_that_there_is_more():
    pages = lay_out(long_reply())
    assert len(pages) > 1
    for page in pages:
        rows = page.splitlines()
        assert len(rows) <= 24
        assert all(len(row) <= 80 for row in rows)
    assert pages[0].splitlines()[-1].startswith("(more")


def test_the_first_page_keeps_the_cautions_whatever_else_must_wait():
    first = lay_out(long_reply(steps=7, cautions=4))[0]
    assert all(f"Caution {number}" in first for number in range(1, 5))


def test_nothing_is_lost_between_the_pages():
    reply = long_reply()
    told = "\n".join(lay_out(reply))
    assert all(f"Step {number}:" in told for number in range(1, 8))


@pytest.mark.parametrize("width, rows", [(80, 24), (40, 20), (40, 6)])
def test_a_page_never_runs_over_its_screen(width, rows):
    for page in paged_parts(long_reply(), width, rows):
        lines = [row for part in page for row in part.rows]
        assert len(lines) <= rows
        assert max(map(len, lines)) <= width


def test_asking_and_not_knowing_carry_no_figures():
    with pytest.raises(ValueError, match="carries no figures"):
        OVERLAP.but(outcome=ASKS)


def test_only_the_outcomes_of_the_contract_exist():
    assert set(OUTCOMES) == {"answer", "result", "done", "asks", "outside", "error"}
    with pytest.raises(ValueError, match="no such outcome"):
        Reply("maybe", "perhaps")


def test_a_result_shows_its_working_line_by_line():
    working = ("92 + 2 x 3 = 98 in", "31 + 2 x 3 = 37 in")
    reply = Reply(RESULT, "98 in off the roll.", working=working)
    assert "  = 92 + 2 x 3 = 98 in\n  = 31 + 2 x 3 = 37 in" in lay_out(reply)[0]


def test_a_number_and_its_unit_stay_on_one_row():
    reply = Reply(RESULT, "The panel should read at least " + "x" * 42 + " 60 °F before it starts.")
    assert any("60 °F" in row for row in lay_out(reply)[0].splitlines())
