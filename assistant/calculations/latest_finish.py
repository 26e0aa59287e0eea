"""Latest finish: when the last panel must be post-heated so that the cure is full in time.

Owns the plan backwards from a hand-over. Counting the hours above the threshold is cure_clock.py's;
how many there must be, knowledge/rules/cure.toml's.
"""

from __future__ import annotations

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
from assistant.calculations.cure_clock import (
    COLDEST,
    HOTTEST,
    LONGEST,
    NOTHING,
    Stretch,
    clock_words,
    time_above,
)
from assistant.quantity.kinds import Duration, Temperature

# How far back a finish is looked for.
BACK = timedelta(days=60)


class Inputs(BaseInputs):
    """When the vehicle must be ready, and how warm it stands until then.

    ready        the hand-over
    temperature  steady while the heating is on; taken to be over the threshold when not given
    off, back    when the heating goes off and comes on again; off_temperature in between. Told by
                 the clock alone, it is every night's: such an `off` comes after `ready`
    """

    ready: datetime
    temperature: Temperature | None = None
    off: datetime | None = None
    back: datetime | None = None
    off_temperature: Temperature | None = None
    needed: Duration | None = None
    threshold: Temperature | None = None


def latest_start(
    stretches: tuple[Stretch, ...], threshold: Temperature, needed: timedelta, ready: datetime
) -> datetime | None:
    """The latest moment from which the needed time over the threshold fits before `ready`.

    stretches  oldest first, not overlapping, reaching `ready`
    Returns None when they do not hold that much. By hand: always over, 24 h, ready Friday 17:00:
    Thursday 17:00.
    """
    left = needed
    for stretch in reversed(stretches):
        part = stretch.above(threshold)
        if part is None or part[0] >= ready:
            continue
        span = min(part[1], ready) - part[0]
        if span >= left:
            return min(part[1], ready) - left
        left -= span
    return None


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The latest last post-heat for a hand-over, as a clock time.

    Raises Impossible for a hand-over that is over and temperatures that never count; Missing for a
    heating that goes off without the temperature then.
    """
    needed = inputs.needed or setting.limit("cure", "time")
    threshold = inputs.threshold or setting.limit("cure", "threshold")
    require(setting, "needed", needed, above=NOTHING, at_most=LONGEST, name="cure time")
    for slot in ("temperature", "off_temperature", "threshold"):
        if (value := getattr(inputs, slot)) is not None:
            require(setting, slot, value, at_least=COLDEST, at_most=HOTTEST)
    if setting.now is not None and inputs.ready <= setting.now:
        raise Impossible("ready", f"Ready {clock_words(inputs.ready, setting)}? That is over.")
    if inputs.off is not None and inputs.off_temperature is None:
        raise Missing("off_temperature", "How cold does it get while the heating is off?")
    if inputs.off is not None and inputs.off >= inputs.ready:
        if inputs.back is None:
            raise Missing("back", "When does the heating come on again in the morning?")
        if not timedelta() < inputs.back - inputs.off < timedelta(days=1):
            raise Impossible("back", "The heating comes on again within a day of going off.")
    steady = inputs.temperature
    if steady is not None and steady <= threshold:
        raise Impossible(
            "temperature",
            f"At {setting.own(steady)} no hour counts: it must be over {setting.own(threshold)}.",
        )
    stretches = _course(inputs, steady or HOTTEST)
    latest = latest_start(stretches, threshold, timedelta(seconds=needed.si), inputs.ready)
    if latest is None:
        raise Impossible("ready", "No finish in the last two months would be cured by then.")
    now = setting.now or latest
    late = latest < now
    span = Duration.of((inputs.ready - latest).total_seconds(), "s")
    over = time_above(_from(stretches, latest), threshold, inputs.ready)
    counted = Duration.of(over.total_seconds(), "s")
    when = clock_words(latest, setting)
    figures = [NamedFigure("hours before the hand-over", span, unit="h")]
    if late:
        short = Duration.of((now - latest).total_seconds(), "s")
        figures.append(NamedFigure("too late by", short, unit="h"))
        answer = (
            f"Not in time: the last panel had to be post-heated by {when}, "
            f"{setting.own(short, 'h', 'h')} ago."
        )
    else:
        answer = f"The last panel must be down and post-heated by {when}."
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=(
            f"ready {clock_words(inputs.ready, setting)}, {setting.own(needed, 'h', 'h')} over "
            f"{setting.own(threshold)} before it: {when}",
            f"{setting.own(counted, 'h', 'h')} of the {setting.own(span, 'h', 'h')} count",
        ),
        assumed=_assumed(inputs),
        steps=("Tell the customer a later hand-over, or keep it in the warm after it.",)
        if late else (),
        rules=("cure", "hand-over-timing"),
        verdict="too late" if late else "in time",
        times=(NamedMoment("last post-heat no later than", latest),),
    )


def _assumed(inputs: Inputs) -> tuple[str, ...]:
    if inputs.off is not None and inputs.off >= inputs.ready:
        return ("the heating goes off every night",)
    if inputs.off is None and inputs.temperature is None:
        return ("the bay stays over the threshold day and night",)
    return ()


def _course(inputs: Inputs, steady: Temperature) -> tuple[Stretch, ...]:
    """The temperature over the two months before the hand-over."""
    begin, end = inputs.ready - BACK, inputs.ready
    if inputs.off is None or inputs.off_temperature is None:
        return (Stretch(begin, end, steady, steady),)
    if inputs.off >= end and inputs.back is not None:
        return _nights(inputs, steady, begin)
    off = min(max(inputs.off, begin), end)
    back = min(max(inputs.back, off), end) if inputs.back is not None else end
    cold = inputs.off_temperature
    pieces = ((begin, off, steady), (off, back, cold), (back, end, steady))
    return tuple(Stretch(a, b, level, level) for a, b, level in pieces if b > a)


def _nights(inputs: Inputs, steady: Temperature, begin: datetime) -> tuple[Stretch, ...]:
    """The heating goes off at the same time every night, and comes on again."""
    cold, day = inputs.off_temperature, timedelta(days=1)
    off, span = inputs.off, inputs.back - inputs.off
    off -= day * -(-(off - begin) // day)
    pieces: list[Stretch] = []
    at = begin
    while at < inputs.ready:
        for until, level in ((off, steady), (off + span, cold)):
            end = min(until, inputs.ready)
            if end > at:
                pieces.append(Stretch(at, end, level, level))
                at = end
        off += day
    return tuple(pieces)


def _from(stretches: tuple[Stretch, ...], start: datetime) -> tuple[Stretch, ...]:
    """Level stretches from a moment on."""
    return tuple(
        Stretch(max(stretch.begin, start), stretch.end, stretch.first, stretch.last)
        for stretch in stretches if stretch.end > start
    )
