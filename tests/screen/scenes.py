"""Scenes: the screen played without a terminal, and its rows as text.

The one place in the tests that touches a private name of the screen framework: there is no public
way to the rows. `test_the_rows_are_those_of_the_public_picture` holds it.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from types import SimpleNamespace
from typing import Any

from assistant.reply import ASKS, DONE, OUTSIDE, RESULT, Figure, Moment, Reply
from assistant.screen.app import BayScreen

WIDE, USUAL, NARROW = (120, 40), (80, 24), (40, 20)

OVERLAP = Reply(
    "answer", "Post-heat every overlap to 225 °F (107 °C).", intent="post-heat-overlap",
    heading="Post-heat: overlaps", why="Two layers share the heat.",
    figures=(Figure("overlap post-heat temperature", 225, 225, "degF", "225 °F (107 °C)"),),
    steps=("Squeegee the lap down dry.", "Keep the gun moving along the lap."),
    check="Read the film, not the air.",
    cautions=("Hot film and the metal under it burn at a touch: gloves on.",),
    basis="practice", basis_words="common practice, no source", layer="shipped",
    rules=("post-heat-overlap",), heard="overlap, how hot",
)
BUMPER = Reply(
    RESULT, "98 in (2.49 m) off a 60 in roll.", intent="panel-film", heading="Film for a panel",
    figures=(
        Figure("length off the roll", 98, 98, "in", "98 in (2.49 m)"),
        Figure("cut width", 37, 37, "in", "37 in (940 mm)"),
    ),
    working=("92 in + 2 x 3 in bleed = 98 in", "31 in + 2 x 3 in bleed = 37 in"),
    assumed=("roll width 60 in",), basis="practice", basis_words="common practice, no source",
)
READY = Reply(
    RESULT, "Ready at 3:00 pm.", times=(Moment("ready", "2025-01-15T15:00", "3:00 pm"),),
)
WHICH = Reply(ASKS, "Which one do you mean?", choices=("Overlap width", "Post-heat: overlaps"))
UNKNOWN = Reply(OUTSIDE, "I don't know that one.", heard="giraffe")
LONG = OVERLAP.but(steps=tuple(f"Step {number} of many." for number in range(1, 40)))

ANSWERS = {
    "overlap": OVERLAP, "bumper": BUMPER, "ready": READY, "which": WHICH, "giraffe": UNKNOWN,
    "long": LONG, "thanks": Reply(DONE, "You're welcome."), "more": Reply(DONE, "", intent="more"),
    "bye": Reply(DONE, "Goodbye.", intent="goodbye"),
}


class Said:
    """A conversation that knows a few lines by heart."""

    def __init__(self, answers: dict[str, Reply] = ANSWERS, problems: Sequence[str] = ()) -> None:
        self.answers = answers
        self.knowledge = SimpleNamespace(problems=problems)
        self.ringing: tuple[str, ...] = ()

    def due(self) -> tuple[str, ...]:
        """What rings now, each once."""
        ringing, self.ringing = self.ringing, ()
        return ringing

    def turn(self, line: str) -> Reply:
        return self.answers.get(line, UNKNOWN)


Scene = Callable[[BayScreen, Any], Any]


def play(
    scene: Scene, size: tuple[int, int] = USUAL, converse: Callable[[], Any] = Said, **more: Any
) -> Any:
    """Open the screen at a size, wait until it is set up, and play the scene on it."""

    async def go() -> Any:
        app = BayScreen(converse, **more)
        async with app.run_test(size=size) as pilot:
            await settled(app, pilot)
            return await scene(app, pilot)

    return asyncio.run(go())


async def settled(app: BayScreen, pilot: Any) -> None:
    """Until the conversation is there and the screen has drawn it."""
    while not app.is_set_up and app.trouble is None:
        await pilot.pause(0.01)
    await pilot.pause()


async def typed(app: BayScreen, pilot: Any, *lines: str) -> None:
    """Type lines, each with enter."""
    for line in lines:
        app.query_one("#asking").value = line
        await pilot.press("enter")
        await pilot.pause()


def rows(app: BayScreen) -> list[str]:
    update = app.screen._compositor.render_update(
        full=True, screen_stack=app._background_screens, simplify=True
    )
    return ["".join(strip.text for strip in strips).rstrip() for strips in update.strips]


def picture(app: BayScreen) -> str:
    """The screen as text, its size on top."""
    width, height = app.size
    return "\n".join([f"-- {width}x{height} --", *rows(app)]).rstrip() + "\n"


def after(*lines: str, size: tuple[int, int] = USUAL) -> str:
    """The picture after typing the lines."""

    async def scene(app: BayScreen, pilot: Any) -> str:
        await typed(app, pilot, *lines)
        return picture(app)

    return play(scene, size)
