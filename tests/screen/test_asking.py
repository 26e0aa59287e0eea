"""The line to type on: earlier lines come back, a paste is one thing said."""

import asyncio
import time

from textual import events

from assistant.screen.app import BayScreen
from tests.screen.scenes import Said, play, rows, settled, typed


def test_up_and_down_walk_through_the_lines_that_were_sent():
    async def scene(app, pilot):
        await typed(app, pilot, "overlap", "bumper", "bumper")
        line = app.query_one("#asking")
        line.value = "half typ"
        seen = []
        for key in ("up", "up", "up", "down", "down", "down"):
            await pilot.press(key)
            seen.append(line.value)
        return seen

    assert play(scene) == ["bumper", "overlap", "overlap", "bumper", "half typ", "half typ"]


def test_a_paste_of_several_lines_is_one_line_without_control_characters():
    async def scene(app, pilot):
        pasted = events.Paste("the bay is 18C\r\nand\tthe \x1b[31mpanel\n")
        app.query_one("#asking").post_message(pasted)
        await pilot.pause()
        return app.query_one("#asking").value

    assert play(scene) == "the bay is 18C and the ␛[31mpanel"


def test_a_paste_goes_where_the_cursor_stands():
    async def scene(app, pilot):
        line = app.query_one("#asking")
        line.value = "how for an overlap"
        line.cursor_position = 4
        line.post_message(events.Paste("hot "))
        await pilot.pause()
        return line.value

    assert play(scene) == "how hot for an overlap"


def test_a_line_typed_while_the_rules_are_set_up_waits_and_is_answered():
    def slowly():
        time.sleep(0.6)
        return Said()

    async def go():
        app = BayScreen(slowly)
        async with app.run_test() as pilot:
            app.query_one("#asking").value = "overlap"
            await pilot.press("enter")
            waiting = rows(app)
            await settled(app, pilot)
            return waiting, rows(app)

    waiting, answered = asyncio.run(go())
    assert any("your line waits" in row for row in waiting)
    assert any("Post-heat every overlap" in row for row in answered)


def test_a_blank_line_is_no_turn():
    async def scene(app, pilot):
        before = len(app.talk.blocks)
        await typed(app, pilot, "", "   ")
        return len(app.talk.blocks) - before

    assert play(scene) == 0
