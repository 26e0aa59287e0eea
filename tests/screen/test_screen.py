"""The screen as a person sees it: parts told apart by words and marks, text taken as text."""

import asyncio
import re
from html import unescape

import pytest

from assistant.reply import ERROR, RESULT, Figure, Reply
from assistant.screen.app import BayScreen
from tests.screen.scenes import (
    LONG,
    NARROW,
    WIDE,
    Said,
    after,
    picture,
    play,
    rows,
    settled,
    typed,
)

# -- pictures: look at where things stand and whether they are told apart without colour ----------

def test_picture_the_empty_bench(snapshot):
    assert after() == snapshot


def test_picture_a_rule_with_its_figure_on_the_board(snapshot):
    assert after("overlap") == snapshot


def test_picture_a_rule_on_a_narrow_screen(snapshot):
    assert after("overlap", size=NARROW) == snapshot


def test_picture_a_talk_with_a_sum_on_a_wide_screen(snapshot):
    assert after("overlap", "thanks", "bumper", size=WIDE) == snapshot


def test_picture_a_question_back_on_a_narrow_screen(snapshot):
    assert after("which", size=NARROW) == snapshot


def test_picture_a_line_that_is_not_known(snapshot):
    assert after("giraffe") == snapshot


# -- and the same in words ------------------------------------------------------------------------

def test_the_rows_are_those_of_the_public_picture():
    async def scene(app, pilot):
        await typed(app, pilot, "which")
        return rows(app), app.export_screenshot(simplify=True)

    seen, drawn = play(scene)
    letters = unescape("".join(re.findall(r"<text[^>]*>([^<]*)</text>", drawn)))
    public = re.sub(r"\s", "", letters)
    for row in seen:
        assert re.sub(r"\s", "", row) in public


def test_cautions_steps_working_and_choices_are_told_apart_without_colour():
    assert "! Hot film and the metal" in after("overlap", size=WIDE)
    assert " 1. Squeegee the lap" in after("overlap", size=WIDE)
    assert "  = 92 in + 2 x 3 in bleed" in after("bumper", size=WIDE)
    assert "?   1) Overlap width" in after("which")
    assert "~ I don't know that one." in after("giraffe")


@pytest.mark.parametrize("typed_text", [
    "[b]bold[/b]", "x [/] y", "[@click=app.quit]pay[/]", '[x="]', "C:\\[x]", "[red]",
])
def test_typed_text_is_never_markup(typed_text):
    assert f"» {typed_text}" in after(typed_text)


def test_text_of_a_rule_is_never_markup_and_its_control_characters_are_shown():
    odd = Reply(
        RESULT, "Lay it [/] down\x1b]0;title\x07.", heading="[@click=app.quit]x[/]",
        figures=(Figure("a [b] \x1b[2J name", 1, 1, "in", "98 in"),), steps=("\x9b31m [/red]",),
        cautions=("\u202etxet",),
    )

    async def scene(app, pilot):
        await typed(app, pilot, "odd")
        return picture(app)

    seen = play(scene, converse=lambda: Said({"odd": odd}))
    assert "Lay it [/] down␛]0;title␇." in seen and "[@click=app.quit]x[/]" in seen
    assert "[/red]" in seen and "a [b] ␛[2J name" in seen
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202e]", seen)


def test_more_brings_the_next_page_of_this_window_until_all_is_told():
    async def scene(app, pilot):
        await typed(app, pilot, "long")
        first = "\n".join(rows(app))
        pages = []
        while "That was all of it." not in "\n".join(pages[-1:]):
            await typed(app, pilot, "more")
            pages.append("\n".join(rows(app)))
        return first, pages

    first, pages = play(scene)
    everything = "\n".join([first, *pages])
    assert "(more: type `more` for the rest)" in first
    assert all(step in everything for step in LONG.steps)
    # On a screen with room for all of it there is no more to bring.
    tall = after("long", "more", size=(100, 70))
    assert "(more" not in tall and "That was all of it." in tall


@pytest.mark.parametrize("size", [(20, 6), (40, 20), (80, 24), (120, 40), (200, 60)])
def test_no_size_of_screen_breaks_it(size):
    for line in ("overlap", "bumper", "long", "which"):
        assert "»" in after(line, size=size)


def test_goodbye_leaves_with_one_more_enter_and_a_new_question_stays():
    async def scene(app, pilot):
        await typed(app, pilot, "bye")
        told = any("enter leaves" in row for row in rows(app))
        await typed(app, pilot, "overlap", "")
        stayed = app.is_running and not app._exit
        await typed(app, pilot, "bye", "")
        return told, stayed, app._exit

    assert play(scene) == (True, True, True)


def test_what_was_left_out_of_the_shops_files_is_told_on_the_screen():
    async def scene(app, pilot):
        return picture(app)

    seen = play(scene, converse=lambda: Said(problems=["house/own.toml: says is missing."]))
    assert "Left out: house/own.toml: says is missing." in seen


def test_a_turn_that_ends_in_an_error_is_told_and_remembered_for_the_exit_status():
    async def scene(app, pilot):
        await typed(app, pilot, "x")
        return picture(app), app.failed

    seen, failed = play(scene, converse=lambda: Said({"x": Reply(ERROR, "The disk is full.")}))
    assert "x The disk is full." in seen and failed


def test_a_fault_while_setting_up_ends_the_screen():
    def broken():
        raise ValueError("no knowledge")

    async def go():
        app = BayScreen(broken)
        with pytest.raises(ValueError, match="no knowledge"):
            async with app.run_test() as pilot:
                await settled(app, pilot)
        return app.trouble

    assert asyncio.run(go()) == "ValueError: no knowledge"


def test_the_shipped_knowledge_answers_on_the_screen(talk):
    async def scene(app, pilot):
        await typed(app, pilot, "how hot for an overlap")
        return picture(app)

    # 225 °F: common practice of the trade, no source.
    assert "225 °F (107 °C)" in play(scene, converse=lambda: talk)
