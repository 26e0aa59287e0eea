"""Life of the film: until when it is expected to last, and the months left today.

Owns the dates. The years come from the life table of the film in hand (its sheet) by climate zone
and upright or flat surface; the years of a film in general are knowledge/rules/wear.toml's.
"""

from __future__ import annotations

from calendar import monthrange
from datetime import datetime

from assistant.calculations.base import (
    FilmInHand,
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
    """When it was laid, on what surface, in what climate; the years where the sheet is not at hand.

    surface  upright (sides) | flat (hood, roof)
    zone     a climate zone as the film sheet names it
    years    life for this zone and surface, read off the bulletin; years_to the most, if a range
    """

    laid: datetime
    surface: str = UPRIGHT
    zone: str | None = None
    years: Duration | None = None
    years_to: Duration | None = None


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


def _day(moment: datetime) -> str:
    return f"{moment.day} {moment:%b %Y}"


def _life(inputs: Inputs, setting: Setting) -> tuple[Duration, Duration, str]:
    """Least and most years, and where they come from."""
    if inputs.years is not None:
        most = inputs.years_to or inputs.years
        for life in (inputs.years, most):
            require(setting, "years", life, above=NOTHING, at_most=LONGEST, name="life")
        return inputs.years, most, "life as you read it from the film sheet"
    film = setting.film
    if film is not None and film.life:
        return _of_the_sheet(inputs, film)
    if inputs.surface == FLAT:
        raise Missing(
            "years",
            "How many years does the film sheet give for flat surfaces in this climate? "
            "Without it I know only upright panels.",
        )
    low, high = setting.figure("film-life", "life")
    whose = film.name if film is not None else "no film named"
    return low, high, f"{whose}, no life table at hand: the range of the rule, upright panels"


def _of_the_sheet(inputs: Inputs, film: FilmInHand) -> tuple[Duration, Duration, str]:
    zones = list(dict.fromkeys(line.zone for line in film.life))
    known = ", ".join(zones)
    if inputs.zone is None and len(zones) > 1:
        raise Missing("zone", f"In which climate zone of the sheet of {film.name}: {known}?")
    zone = inputs.zone or zones[0]
    for line in film.life:
        if (line.zone.casefold(), line.surface) == (zone.casefold(), inputs.surface):
            return line.low, line.high, f"sheet of {film.name}: {line.zone}, {line.surface}"
    raise Impossible(
        "zone",
        f"The sheet of {film.name} has no life for {zone}, {inputs.surface}; it knows {known}.",
    )


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The date until which it is expected to last, and the full months left today.

    Calendar months from the day it was laid. Raises Impossible for film laid in the future and a
    zone that the sheet does not know; Missing where only the film sheet can tell.
    """
    if setting.now is not None and inputs.laid > setting.now:
        raise Impossible("laid", f"Laid {_day(inputs.laid)}? That is still to come.")
    if inputs.surface not in (UPRIGHT, FLAT):
        raise Missing("surface", "Is the surface upright or flat?")
    low, high, origin = _life(inputs, setting)
    first, last = (after_months(inputs.laid, months_of(life)) for life in (low, high))
    figures = []
    told = _day(first) if first == last else f"{_day(first)} to {_day(last)}"
    answer = f"Expected to last until {told}."
    working = [
        f"laid {_day(inputs.laid)}, {months_of(life)} months: {_day(end)}"
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
            one = "" if left == [1, 1] else "s"
            answer += f" {spoken} month{one} left today."
        working.append(f"full months from {_day(setting.now)}: " + " to ".join(
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
