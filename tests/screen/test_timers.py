"""Timers on the screen: a bell and a line in the history, whatever is being typed."""

from __future__ import annotations

from tests.screen.scenes import Said, play, rows, typed

RINGS = "Time is up: flash-off (12:05 pm, Wed 15 Jan)."


def test_a_timer_that_is_due_rings_once_and_stands_in_the_history(monkeypatch):
    talk, bells = Said(), []

    async def scene(app, pilot):
        monkeypatch.setattr(app, "bell", lambda: bells.append(1))
        await typed(app, pilot, "overlap")
        app.query_one("#asking").value = "half a line"
        talk.ringing = (RINGS,)
        for _ in range(2):
            app.ring()
            await pilot.pause()
        return rows(app), app.query_one("#asking").value

    seen, typing = play(scene, converse=lambda: talk)
    assert bells == [1]
    assert sum(RINGS in row for row in seen) == 1
    assert typing == "half a line"


def test_the_screen_looks_for_timers_by_itself(monkeypatch):
    monkeypatch.setattr("assistant.screen.app._LOOK_AT_TIMERS", 0.02)
    talk = Said()

    async def scene(app, pilot):
        talk.ringing = (RINGS,)
        for _ in range(100):
            await pilot.pause(0.02)
            if not talk.ringing:
                break
        await pilot.pause()
        return rows(app)

    assert any(RINGS in row for row in play(scene, converse=lambda: talk))
