"""The talk stays at its end, can be read back, and costs the same however long it gets."""

from textual.content import Content

from assistant.screen import history
from assistant.screen.drawing import asked_block
from tests.screen.scenes import NARROW, play, rows, typed


def fill(app, turns):
    for number in range(turns):
        app.talk.append(asked_block(f"line {number}"))


def test_the_last_turn_is_in_view_after_every_turn_and_after_a_change_of_size():
    async def scene(app, pilot):
        fill(app, 60)
        await typed(app, pilot, "overlap")
        seen = [any("Rule post-heat-overlap" in row for row in rows(app))]
        for width, height in (NARROW, (100, 30)):
            await pilot.resize_terminal(width, height)
            await pilot.pause(0.2)
            seen.append(app.talk.scroll_offset.y == app.talk.max_scroll_y > 0)
        return seen

    assert play(scene) == [True, True, True]


def test_somebody_who_reads_back_is_not_pulled_to_the_end_by_a_change_of_size():
    async def scene(app, pilot):
        fill(app, 60)
        await pilot.pause()
        await pilot.press("pageup", "pageup")
        await pilot.pause()
        top = rows(app)[1]
        await pilot.resize_terminal(60, 24)
        await pilot.pause(0.2)
        return top, rows(app)[:3], app.talk.follow, any("newer lines below" in r for r in rows(app))

    top, now, follow, told = play(scene)
    assert top in now and not follow and told


def test_the_end_is_reached_again_with_one_key_and_with_a_new_line():
    async def scene(app, pilot):
        fill(app, 60)
        await pilot.pause()
        seen = []
        for way in ("ctrl+end", "typed"):
            await pilot.press("pageup")
            await pilot.pause()
            seen.append(app.talk.follow)
            if way == "typed":
                await typed(app, pilot, "overlap")
            else:
                await pilot.press(way)
            await pilot.pause()
            seen.append(app.talk.follow)
        return seen

    assert play(scene) == [False, True, False, True]


def test_five_thousand_turns_are_one_widget_and_a_bounded_number_of_blocks():
    async def scene(app, pilot):
        before = len(list(app.query("*")))
        fill(app, 5_000)
        await pilot.pause()
        return before, len(list(app.query("*"))), len(app.talk.blocks), rows(app)

    before, now, blocks, seen = play(scene)
    assert now == before and blocks <= history.MOST_BLOCKS
    assert any("line 4999" in row for row in seen)


def test_text_marked_with_the_mouse_is_the_text_and_not_its_marks():
    async def scene(app, pilot):
        app.talk.append(lambda width: [Content("one [b]two[/b] three")])
        await pilot.pause()
        app.talk.text_select_all()
        return app.screen.get_selected_text()

    assert "one [b]two[/b] three" in play(scene)
