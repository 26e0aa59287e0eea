"""Life of the film: until when it is expected to last, and the months left today.

Owns the dates. The years come from the film sheet's own table by climate zone and upright or flat
surface; the years of a film in general are knowledge/rules/wear.toml's.
"""

from __future__ import annotations

from calendar import monthrange
from datetime import datetime

from assistant.calculations.base import (
    Impossible,
    Missing,
    NamedFigure,
    NamedMoment,
    Result,
    Setting,
    require,
)
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Count, Duration

NOTHING = Duration.of(0, "year")
LONGEST = Duration.of(30, "year")
UPRIGHT, FLAT = "upright", "flat"


class Inputs(BaseInputs):
    """When it was laid, on what surface, in what climate; the years, or the sheet's table.

    surface  upright (sides) | flat (hood, roof)
    zone     a climate zone as the film sheet names it
    years    life for this zone and surface, read from the film sheet
    table    the sheet's own: triples of zone, surface and life
    """

    laid: datetime
    surface: str = UPRIGHT
    zone: str | None = None
    years: Duration | None = None
    table: tuple[tuple[str, str, Duration], ...] = ()


def months_of(life: Duration) -> int:
    """Whole months of a life told in years: 12 a year, rounded to the nearest."""
    return round(life.to("year") * 12)


def after_months(start: datetime, months: int) -> datetime:
    """The same day so many calendar months on; the last of the month where that day is missing.

    By hand: 31 January 2025 and 1 month: 28 February 2025.
    """
    index = start.year * 12 + start.month - 1 + months
    year, month = divmod(index, 12)
    day = min(start.day, monthrange(year, month + 1)[1])
    return start.replace(year=year, month=month + 1, day=day)


def months_between(start: datetime, end: datetime) -> int:
    """Full calendar months from start to end; 0 when end is not after start."""
    if end <= start:
        return 0
    months = (end.year - start.year) * 12 + end.month - start.month
    return months - 1 if after_months(start, months) > end else months


def _life(inputs: Inputs, setting: Setting) -> tuple[Duration, Duration, str]:
    """Least and most years, and where they come from."""
    if inputs.years is not None:
        require(setting, "years", inputs.years, above=NOTHING, at_most=LONGEST, name="life")
        return inputs.years, inputs.years, "life as told from the film sheet"
    if inputs.table:
        zones = list(dict.fromkeys(zone for zone, _, _ in inputs.table))
        if inputs.zone is None:
            raise Missing("zone", "Which climate zone of the film sheet: " + ", ".join(zones) + "?")
        for zone, surface, life in inputs.table:
            if (zone, surface) == (inputs.zone, inputs.surface):
                return life, life, f"film sheet: {zone}, {surface}"
        raise Impossible(
            "zone",
            f"The film sheet has no life for {inputs.zone}, {inputs.surface}; it knows "
            + ", ".join(zones) + ".",
        )
    if inputs.surface == FLAT:
        raise Missing(
            "years",
            "How many years does the film sheet give for flat surfaces in this climate? "
            "Without it I know only upright panels.",
        )
    low, high = setting.figure("film-life", "life")
    return low, high, "no film sheet: the general life of cast film on upright panels"


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The date until which it is expected to last, and the full months left today.

    Calendar months from the day it was laid. Raises Impossible for film laid in the future and a
    zone that the sheet does not know; Missing where only the film sheet can tell.
    """
    if setting.now is not None and inputs.laid > setting.now:
        raise Impossible("laid", f"Laid {inputs.laid:%Y-%m-%d}? That is still to come.")
    if inputs.surface not in (UPRIGHT, FLAT):
        raise Missing("surface", "Is the surface upright or flat?")
    low, high, origin = _life(inputs, setting)
    first, last = (after_months(inputs.laid, months_of(life)) for life in (low, high))
    figures = []
    told = f"{first:%B %Y}" if first == last else f"{first:%B %Y} to {last:%B %Y}"
    answer = f"Expected to last until {told}."
    working = [
        f"laid {inputs.laid:%Y-%m-%d}, {months_of(life)} months: {end:%Y-%m-%d}"
        for life, end in (((low, first),) if first == last else ((low, first), (high, last)))
    ]
    if setting.now is not None:
        left = [months_between(setting.now, end) for end in (first, last)]
        figures.append(
            NamedFigure(
                "months left", Count.of(left[0], "count"),
                None if left[0] == left[1] else Count.of(left[1], "count"),
            )
        )
        if left[1] == 0:
            answer = f"Past it: it was expected to last until {told}."
        else:
            spoken = f"{left[0]}" if left[0] == left[1] else f"{left[0]} to {left[1]}"
            answer += f" {spoken} months left today."
        working.append(f"full months from {setting.now:%Y-%m-%d}: " + " to ".join(
            str(months) for months in dict.fromkeys(left)
        ))
    named = (
        (("expected to last until", first),) if first == last
        else (("expected to last at least until", first), ("at best until", last))
    )
    moments = tuple(NamedMoment(name, end, whole_day=True) for name, end in named)
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        assumed=(origin,),
        rules=("film-life",),
        times=moments,
        verdict="past" if setting.now is not None and last <= setting.now else "in its life",
    )
