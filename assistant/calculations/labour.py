"""Labour: hours for a job from the shop's own rates by how hard a panel is.

Owns person-hours and clock hours. What an hour costs is job_price.py's; days in the shop,
knowledge/rules/job.toml's.
"""

from __future__ import annotations

from assistant.calculations.base import Impossible, Missing, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Count, Duration, Ratio

NOTHING = Duration.of(0, "h")
LONGEST = Duration.of(100, "h")
NONE = Count.of(0, "count")
MOST_PANELS = Count.of(200, "count")
NO_SHARE = Ratio.of(0, "percent")
ALONE, TWO = "alone", "two-people"
WHOLE = Ratio.of(200, "percent")


class Inputs(BaseInputs):
    """Panels by difficulty, hours for one of each, shares on top, people at work.

    easy (flat), medium (curved), hard (bumper, mirror, deep recess): numbers of panels
    panels           in all, where it was said: it must be their sum
    prepare, finish  shares of the laying hours that come on top
    crew, team       1 or 2 people; or in words ALONE or TWO; one person when neither is given
    """

    easy: Count = NONE
    medium: Count = NONE
    hard: Count = NONE
    panels: Count | None = None
    easy_hours: Duration
    medium_hours: Duration
    hard_hours: Duration
    prepare: Ratio
    finish: Ratio
    crew: Count | None = None
    team: str | None = None


def laying_hours(panels: tuple[tuple[float, Duration], ...]) -> Duration:
    """Hours of laying: the sum of number times hours, over pairs of number and hours of one.

    By hand: 4 at 1 h, 6 at 2 h, 2 at 4 h: 24 h.
    """
    return Duration.of(sum(number * hours.to("h") for number, hours in panels), "h")


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Person-hours with preparation and finish, and clock hours by the crew.

    total = laying x (1 + prepare + finish); clock hours = total / crew.
    Raises Impossible for no panels, parts of a panel, and crews other than one or two.
    """
    counts = (("easy", inputs.easy), ("medium", inputs.medium), ("hard", inputs.hard))
    for slot, number in counts:
        require(setting, slot, number, at_least=NONE, at_most=MOST_PANELS, name=f"{slot} panels")
        if abs(number.si - round(number.si)) > 1e-9:
            raise Impossible(slot, f"{number.si:g} {slot} panels? Panels come whole.")
    rates = (
        ("easy_hours", inputs.easy_hours), ("medium_hours", inputs.medium_hours),
        ("hard_hours", inputs.hard_hours),
    )
    for slot, hours in rates:
        require(setting, slot, hours, above=NOTHING, at_most=LONGEST)
    for slot, share in (("prepare", inputs.prepare), ("finish", inputs.finish)):
        require(setting, slot, share, at_least=NO_SHARE, at_most=WHOLE, name=f"share to {slot}")
    crew = inputs.crew.si if inputs.crew is not None else 2 if inputs.team == TWO else 1
    if crew not in (1, 2):
        raise Impossible("crew", f"A crew of {crew:g}? I reckon with one or two people.")
    _check_total(inputs, sum(number.si for _, number in counts))
    panels = tuple(
        (number.si, hours)
        for (_, number), (_, hours) in zip(counts, rates, strict=True) if number > NONE
    )
    if not panels:
        raise Impossible("easy", "No panels, no hours: how many easy, medium and hard ones?")

    laying = laying_hours(panels)
    before, after = laying * inputs.prepare.si, laying * inputs.finish.si
    total = laying + before + after
    clock = total / crew
    said = {"easy": "easy", "medium": "medium", "hard": "hard"}
    lines = [
        f"{number.si:g} {said[slot]} x {setting.own(hours)} = {setting.own(hours * number.si)}"
        for (slot, number), (_, hours) in zip(counts, rates, strict=True) if number > NONE
    ]
    people = "one person" if crew == 1 else "two people"
    return Result(
        answer=(
            f"{setting.own(total)} of work: {setting.own(clock)} on the clock for {people}."
        ),
        figures=(
            NamedFigure("person-hours in all", total),
            NamedFigure(f"clock hours for {people}", clock),
            NamedFigure("laying", laying),
            NamedFigure("preparation", before),
            NamedFigure("finishing", after),
        ),
        working=(
            *lines,
            f"laying {setting.own(laying)}; {setting.own(inputs.prepare)} on top to prepare = "
            f"{setting.own(before)}; {setting.own(inputs.finish)} to finish = "
            f"{setting.own(after)}",
            f"{setting.own(total)} / {crew:g} = {setting.own(clock)}",
        ),
        assumed=_assumed(inputs, crew),
        rules=("job-days",),
    )


def _assumed(inputs: Inputs, crew: float) -> tuple[str, ...]:
    if crew == 2:
        return ("two people share the work evenly",)
    return ("one person",) if inputs.crew is None and inputs.team is None else ()


def _check_total(inputs: Inputs, counted: float) -> None:
    """Panels in all, if they were named, are the panels by difficulty."""
    if inputs.panels is None or inputs.panels.si == counted:
        return
    total = f"{inputs.panels.si:g}"
    if counted == 0:
        raise Missing("easy", f"Of the {total} panels, how many are easy, medium and hard?")
    raise Impossible(
        "panels", f"{total} panels in all, but {counted:g} by how hard they are: which holds?"
    )
