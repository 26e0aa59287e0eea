"""Cure clock: hours above the threshold so far, hours left, and the earliest release.

Owns the adding up of hours from a log or from steady temperatures. How many hours and above what,
is knowledge/rules/cure.toml's; timers and backward plans are the job's.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

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
from assistant.quantity.kinds import Duration, Temperature

NOTHING = Duration.of(0, "h")
LONGEST = Duration.of(30, "day")
COLDEST = Temperature.of(-40, "degC")
HOTTEST = Temperature.of(80, "degC")
# How far ahead a release is looked for; beyond it the clock practically stands still.
HORIZON = timedelta(days=365)

Reading = tuple[datetime, Temperature]


class Inputs(BaseInputs):
    """When the cure began and how warm the vehicle stands.

    start        the last post-heat; now when not given
    temperature  steady, while the heating is on
    off, back    when the heating goes off and comes on again; off_temperature in between
    log          pairs of time and temperature, oldest first; straight lines between them
    needed       hours that must be above the threshold; threshold  must be exceeded
    """

    start: datetime | None = None
    temperature: Temperature | None = None
    off: datetime | None = None
    back: datetime | None = None
    off_temperature: Temperature | None = None
    log: tuple[Reading, ...] = ()
    needed: Duration | None = None
    threshold: Temperature | None = None


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of time over which the temperature goes in a straight line."""

    begin: datetime
    end: datetime
    first: Temperature
    last: Temperature

    def above(self, threshold: Temperature) -> tuple[datetime, datetime] | None:
        """The part of the stretch that is over the threshold; None when no part is."""
        first, last, limit = self.first.si, self.last.si, threshold.si
        if first <= limit and last <= limit:
            return None
        if first > limit and last > limit:
            return self.begin, self.end
        crossing = self.begin + (self.end - self.begin) * ((limit - first) / (last - first))
        return (crossing, self.end) if last > limit else (self.begin, crossing)


def time_above(
    stretches: tuple[Stretch, ...], threshold: Temperature, until: datetime
) -> timedelta:
    """Time over the threshold up to a moment, added up over all stretches, gaps or not.

    stretches  oldest first, not overlapping. Over means over: at the threshold nothing counts.
    By hand: 8 h at 60 °F, 8 h at 50 °F, 4 h at 60 °F, over 55 °F: 12 h.
    """
    total = timedelta()
    for stretch in stretches:
        part = stretch.above(threshold)
        if part is not None and part[0] < until:
            total += min(part[1], until) - part[0]
    return total


def release(
    stretches: tuple[Stretch, ...], threshold: Temperature, needed: timedelta
) -> datetime | None:
    """The moment at which the needed time over the threshold is full; None if it never is."""
    left = needed
    for stretch in stretches:
        part = stretch.above(threshold)
        if part is None:
            continue
        if part[1] - part[0] >= left:
            return part[0] + left
        left -= part[1] - part[0]
    return None


def course(inputs: Inputs, start: datetime) -> tuple[Stretch, ...]:
    """The temperature from the start to the horizon: the log first, then the steady values.

    After the last reading of a log the steady temperature holds; without one, the last reading.
    """
    end = start + HORIZON
    stretches: list[Stretch] = []
    readings = [reading for reading in inputs.log]
    for (begin, first), (finish, last) in zip(readings, readings[1:], strict=False):
        if finish <= start:
            continue
        if begin < start:
            share = (start - begin) / (finish - begin)
            first = Temperature.of(first.si + (last.si - first.si) * share, "K")
            begin = start
        stretches.append(Stretch(begin, finish, first, last))
    steady = inputs.temperature or (readings[-1][1] if readings else None)
    if steady is None:
        raise Missing("temperature", "How warm does the vehicle stand while it cures?")
    at = max(start, readings[-1][0]) if readings else start

    def hold(begin: datetime, finish: datetime, level: Temperature) -> None:
        if finish > begin:
            stretches.append(Stretch(begin, finish, level, level))

    if inputs.off is None or inputs.off_temperature is None:
        hold(at, end, steady)
        return tuple(stretches)
    off = max(inputs.off, at)
    back = max(inputs.back, off) if inputs.back is not None else end
    hold(at, off, steady)
    hold(off, min(back, end), inputs.off_temperature)
    hold(back, end, steady)
    return tuple(stretches)


def _check(inputs: Inputs, setting: Setting) -> None:
    for slot, value in (
        ("temperature", inputs.temperature), ("off_temperature", inputs.off_temperature),
        ("threshold", inputs.threshold), *(("log", level) for _, level in inputs.log),
    ):
        if value is not None:
            require(setting, slot, value, at_least=COLDEST, at_most=HOTTEST)
    times = [moment for moment, _ in inputs.log]
    for earlier, later in zip(times, times[1:], strict=False):
        if later <= earlier:
            raise Impossible("log", f"The log goes back in time at {later:%H:%M}.")
    if inputs.off is not None and inputs.off_temperature is None:
        raise Missing("off_temperature", "How cold does it get while the heating is off?")
    if inputs.off is not None and inputs.back is not None and inputs.back <= inputs.off:
        raise Impossible("back", "The heating cannot come back before it goes off.")


def _duration(span: timedelta) -> Duration:
    return Duration.of(span.total_seconds(), "s")


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Hours counted by now, hours left, and the earliest release as a clock time.

    Hours need not be in one run. Raises Impossible for a log that runs backwards and temperatures
    out of all measure; Missing without any temperature.
    """
    _check(inputs, setting)
    needed = inputs.needed or setting.limit("cure", "time")
    threshold = inputs.threshold or setting.limit("cure", "threshold")
    require(setting, "needed", needed, above=NOTHING, at_most=LONGEST, name="cure time")
    start = inputs.start or (inputs.log[0][0] if inputs.log else setting.now)
    if start is None:
        raise Missing("start", "When was the last post-heat?")
    now = setting.now or start
    stretches = course(inputs, start)
    span = timedelta(seconds=needed.si)
    counted = min(time_above(stretches, threshold, max(now, start)), span)
    left = span - counted
    done = release(stretches, threshold, span)

    figures = [
        NamedFigure("hours counted", _duration(counted), unit="h"),
        NamedFigure("hours left", _duration(left), unit="h"),
    ]
    level = setting.both(threshold)
    working = _log_lines(inputs, setting, threshold) + [
        f"{setting.own(part, 'h', 'h')} over {setting.own(threshold)} by now, "
        f"of {setting.own(needed, 'h', 'h')}"
        for part in (_duration(counted),)
    ]
    times: tuple[NamedMoment, ...] = ()
    steps: list[str] = []
    if done is None:
        answer = _stands_still(inputs, setting, stretches, threshold, span)
        verdict = "stands still"
        steps.append("Bring the vehicle into the warm and start again from the hours counted.")
    else:
        verdict = "done" if left == timedelta() else "wait"
        answer = (
            f"Cured: {setting.own(needed, 'h', 'h')} over {level} are full."
            if verdict == "done" else
            f"{setting.own(_duration(left), 'h', 'h')} left over {level}; earliest release "
            f"{clock_words(done, setting)}."
        )
        times = (NamedMoment("earliest release", done),)
        if inputs.off is not None and inputs.off_temperature is not None:
            warm = release(
                course(inputs.model_copy(update={"off": None}), start), threshold, span
            )
            if warm is not None and warm < done:
                lost = _duration(done - warm)
                figures.append(NamedFigure("later because the heating is off", lost, unit="h"))
                working.append(
                    f"heating on throughout: {clock_words(warm, setting)}; off costs "
                    f"{setting.own(lost, 'h', 'h')}"
                )
    if verdict != "done":
        steps.append("Leave a minimum thermometer by the vehicle and log what it reads.")
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        steps=tuple(steps),
        assumed=_assumed(inputs, setting, start),
        rules=("cure",),
        verdict=verdict,
        times=times,
    )


def _log_lines(inputs: Inputs, setting: Setting, threshold: Temperature) -> list[str]:
    """One line for each pair of readings: what of it counts."""
    lines = []
    for (begin, first), (end, last) in zip(inputs.log, inputs.log[1:], strict=False):
        part = Stretch(begin, end, first, last).above(threshold)
        counts = part[1] - part[0] if part is not None else timedelta()
        lines.append(
            f"{setting.own(first)} at {_hour(begin, setting)}, {setting.own(last)} at "
            f"{_hour(end, setting)}: {setting.own(_duration(counts), 'h', 'h')} count"
        )
    return lines


def _hour(moment: datetime, setting: Setting) -> str:
    return clock_words(moment, setting).partition(",")[0]


def _stands_still(
    inputs: Inputs, setting: Setting, stretches: tuple[Stretch, ...], threshold: Temperature,
    span: timedelta,
) -> str:
    """The answer where the hours never fill: since when nothing counts, and what is left then."""
    level = setting.both(threshold)
    most = min(time_above(stretches, threshold, stretches[-1].end), span)
    left = setting.own(_duration(span - most), "h", "h")
    last = stretches[-1]
    if most > timedelta() and inputs.off is not None and last.begin <= inputs.off:
        stop = clock_words(inputs.off, setting)
        return (
            f"The clock stops when the heating goes off, {stop}: {left} over {level} still to go "
            f"then. It goes on when the bay is warm again; tell me when that is."
        )
    return (
        f"The clock stands still: it must be over {level}, and it is {setting.both(last.last)}; "
        f"{left} still to go."
    )


def _assumed(inputs: Inputs, setting: Setting, start: datetime) -> tuple[str, ...]:
    assumed = []
    if inputs.start is None:
        assumed.append(f"the cure began {clock_words(start, setting)}")
    if inputs.log and inputs.start is None:
        assumed = ["the cure began with the first reading"]
    if not inputs.log and inputs.off is None:
        assumed.append("the temperature holds day and night")
    elif inputs.log:
        assumed.append("straight lines between the readings; the last one holds")
    return tuple(assumed)


def clock_words(moment: datetime, setting: Setting) -> str:
    """`3:00 pm, Wed 15 Jan` or `15:00, Wed 15 Jan`."""
    day = f"{moment:%a} {moment.day} {moment:%b}"
    if setting.unit("us", None):
        return f"{moment:%I:%M %p}, ".lstrip("0").lower() + day
    return f"{moment:%H:%M}, {day}"
