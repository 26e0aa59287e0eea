"""Moment: points in time as people say them, clock times and dates.

Owns reading `4 pm`, `half past two`, `Friday 5 pm`, `31 March 2022`, `3 years ago` out of a line,
and which of the possible days is meant. Lengths of time are read.py's; what a moment is for, the
sum's that takes it.
"""

from __future__ import annotations

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import lru_cache

from assistant.quantity.write import System

PAST, TODAY, FUTURE = "past", "today", "future"

_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_NUMBERS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
)
# The hour that a part of the day stands for when no clock time is said.
_PARTS = {
    "morning": time(8), "midday": time(12), "noon": time(12), "afternoon": time(14),
    "evening": time(18), "tonight": time(18), "night": time(20), "midnight": time(0),
}
_STEPS = {
    "min": timedelta(minutes=1), "h": timedelta(hours=1), "day": timedelta(days=1),
    "week": timedelta(weeks=1),
}


@dataclass(frozen=True, slots=True)
class FoundMoment:
    """A point in time in a line.

    text, start, end  as it stands there
    day      the date, where it was said
    weekday  0 (Monday) to 6, where only that was said
    clock    the time of day, where it was said
    exact    a moment counted from now ("2 hours ago")
    yearless the year was not said: this year's, or last year's where it must be over
    """

    text: str
    start: int
    end: int
    day: date | None = None
    weekday: int | None = None
    clock: time | None = None
    exact: datetime | None = None
    yearless: bool = False

    def at(self, now: datetime, towards: str = TODAY) -> datetime:
        """The moment meant, seen from now.

        towards  what to do with a clock time or a weekday alone: PAST takes the latest that is
                 over, FUTURE the next to come, TODAY today's (for a weekday, the next)
        A day without a clock time begins at midnight.
        """
        if self.exact is not None:
            return self.exact
        if self.day is not None:
            day = self.day
            if self.yearless and towards == PAST and day > now.date():
                day = _shifted(datetime.combine(day, time(0)), -1, "year").date()
            return datetime.combine(day, self.clock or time(0))
        if self.weekday is not None:
            ahead = (self.weekday - now.weekday()) % 7
            moment = datetime.combine(now.date() + timedelta(days=ahead), self.clock or time(0))
            if towards == PAST:
                return moment - timedelta(days=7) if moment > now else moment
            return moment + timedelta(days=7) if moment < now and self.clock else moment
        moment = datetime.combine(now.date(), self.clock or time(0))
        if towards == PAST and moment > now:
            return moment - timedelta(days=1)
        if towards == FUTURE and moment < now:
            return moment + timedelta(days=1)
        return moment


def read_moments(
    text: str, now: datetime, system: System = System.US
) -> tuple[FoundMoment, ...]:
    """Every point in time of a line, in reading order; a day and a clock time side by side are one.

    now     what `yesterday` and `ago` are counted from
    system  which of two numbers of `04/05/2025` is the month: the first in US dates
    """
    lower = text.lower()
    found = sorted(
        [*_days(lower, now, system), *_clocks(lower, now), *_counted(lower, now)],
        key=lambda moment: (moment.start, -moment.end),
    )
    kept: list[FoundMoment] = []
    for moment in found:
        if kept and moment.start < kept[-1].end:
            continue
        joined = _joined(lower, kept[-1], moment) if kept else None
        if joined is not None:
            kept[-1] = joined
        else:
            kept.append(moment)
    return tuple(kept)


def _joined(text: str, one: FoundMoment, other: FoundMoment) -> FoundMoment | None:
    """`Friday` and `5 pm`, `16:00` and `yesterday` as one moment; None when they stand apart."""
    between = text[one.end:other.start]
    if not re.fullmatch(r"[\s,t]*(?:at|on)?\s*", between):
        return None
    dated, clocked = (one, other) if one.day or one.weekday is not None else (other, one)
    has_day = dated.day is not None or dated.weekday is not None
    if not has_day or clocked.day or clocked.weekday is not None or clocked.clock is None:
        return None
    if one.exact or other.exact:
        return None
    return FoundMoment(
        text[one.start:other.end], one.start, other.end, dated.day, dated.weekday, clocked.clock,
        yearless=dated.yearless,
    )


@lru_cache(maxsize=1)
def _patterns() -> dict[str, re.Pattern[str]]:
    """Compiled when the first moment is looked for: most lines name none."""
    months = "|".join(f"{name}|{name[:3]}" for name in _MONTHS) + "|sept"
    days = "|".join(f"{name}|{name[:3]}" for name in _WEEKDAYS) + "|tues|thur|thurs"
    hours = "|".join(_NUMBERS[1:])
    return {name: re.compile(pattern) for name, pattern in {
        "iso": r"\b(\d{4})-(\d{1,2})-(\d{1,2})\b",
        "slash": r"(?<![\d/.])(\d{1,2})([/.])(\d{1,2})\2(\d{4}|\d{2})(?![\d/.])",
        "day_month": rf"\b(\d{{1,2}})(?:st|nd|rd|th)?\s+(?:of\s+)?({months})\b\.?,?"
                     r"(?:\s+(\d{4})\b)?",
        "month_day": rf"\b({months})\b\.?\s+(\d{{1,2}})(?:st|nd|rd|th)?\b(?!\s*[:/])"
                     r"(?:,?\s+(\d{4})\b)?",
        "month_year": rf"(?<!\d\s)\b({months})\b\.?,?\s+(\d{{4}})\b",
        "weekday": rf"\b(?:(last|next|this|on|by)\s+)?({days})\b",
        "near": r"\b(today|tonight|tomorrow|yesterday|last night|this morning|this afternoon|"
                r"this evening)(?:\s+(morning|afternoon|evening|night))?\b",
        "colon": r"(?<![\d:])(\d{1,2}):(\d{2})(?::\d{2})?\s*(?:([ap])\.?m\b\.?)?(?!\d)",
        "half": rf"\b(half past|quarter past|quarter to)\s+(\d{{1,2}}|{hours})\b"
                r"(?:\s*([ap])\.?m\b\.?)?",
        "ampm": rf"(?<![\d.:/])\b(\d{{1,2}}|{hours})\s*([ap])\.?m\b\.?",
        "daypart": rf"(?<![\d.:/])\b(?P<hour>\d{{1,2}}|{hours})(?::(?P<minute>\d{{2}}))?\s*"
                   r"(?:o'?\s?clock\s+)?(?:in the |(?P<day>this|tomorrow|yesterday) )?"
                   r"(?P<part>morning|afternoon|evening|at night)\b",
        "oclock": rf"\b(\d{{1,2}}|{hours})\s*o'?\s?clock\b",
        "part": r"\b(noon|midday|midnight)\b",
        "counted": rf"\b(an?|\d+(?:\.\d+)?|{hours})\s+(min(?:ute)?s?|h|hrs?|hours?|days?|weeks?|"
                   r"months?|years?|yrs?)\s+(ago|from now)\b",
        "within": rf"\bin\s+(an?|\d+(?:\.\d+)?|{hours})\s+"
                  r"(min(?:ute)?s?|h|hrs?|hours?|days?|weeks?|months?)\b(?!\s+of)",
    }.items()}


def _of_name(names: tuple[str, ...], said: str) -> int:
    """The place of a month or a weekday by its first three letters."""
    return next(place for place, name in enumerate(names) if name[:3] == said[:3])


def _days(text: str, now: datetime, system: System) -> list[FoundMoment]:
    found: list[FoundMoment] = []
    patterns = _patterns()

    def add(
        match: re.Match[str], year: int, month: int, day: int, yearless: bool = False
    ) -> None:
        # 31 June is no date; what is none stays a number.
        if 1 <= month <= 12 and 1 <= day <= monthrange(year, month)[1] and 1900 <= year <= 2999:
            found.append(FoundMoment(
                match.group(), match.start(), match.end(), day=date(year, month, day),
                yearless=yearless,
            ))

    for match in patterns["iso"].finditer(text):
        add(match, *(int(part) for part in match.groups()))
    for match in patterns["slash"].finditer(text):
        one, mark, other, year = match.groups()
        first, second = int(one), int(other)
        month_first = mark == "/" and (system == System.US and first <= 12 or second > 12)
        month, day = (first, second) if month_first else (second, first)
        add(match, int(year) if len(year) == 4 else 2000 + int(year), month, day)
    for match in patterns["day_month"].finditer(text):
        day, month, year = match.groups()
        add(match, int(year or now.year), _of_name(_MONTHS, month) + 1, int(day), year is None)
    for match in patterns["month_day"].finditer(text):
        month, day, year = match.groups()
        add(match, int(year or now.year), _of_name(_MONTHS, month) + 1, int(day), year is None)
    for match in patterns["month_year"].finditer(text):
        add(match, int(match.group(2)), _of_name(_MONTHS, match.group(1)) + 1, 1)
    found += _weekdays(text, now)
    for match in patterns["near"].finditer(text):
        word, part = match.groups()
        shift = {"tomorrow": 1, "yesterday": -1, "last night": -1}.get(word, 0)
        said = part or word.split()[-1]
        found.append(FoundMoment(
            match.group(), match.start(), match.end(), day=now.date() + timedelta(days=shift),
            clock=_PARTS.get(said),
        ))
    return found


def _weekdays(text: str, now: datetime) -> list[FoundMoment]:
    found = []
    for match in _patterns()["weekday"].finditer(text):
        lead, name = match.groups()
        if len(name) == 3 and lead is None:
            # "sat", "sun" and "wed" are words of their own.
            continue
        weekday = _of_name(_WEEKDAYS, name)
        day = None
        if lead in ("last", "next"):
            ahead = (weekday - now.weekday()) % 7
            ahead = ahead - 7 if lead == "last" else ahead or 7
            day = now.date() + timedelta(days=ahead)
        found.append(FoundMoment(
            match.group(), match.start(), match.end(), day=day,
            weekday=None if day is not None else weekday,
        ))
    return found


def _hour(said: str) -> int:
    return int(said) if said.isdecimal() else _NUMBERS.index(said)


def _clock(hour: int, minute: int, half: str | None) -> time | None:
    if half is not None:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "p" else 0)
    return time(hour, minute) if 0 <= hour <= 23 and 0 <= minute <= 59 else None


def _working_hour(hour: int) -> int:
    """An hour said without am or pm, as a shop means it: 1 to 6 in the afternoon."""
    return hour + 12 if 1 <= hour <= 6 else hour


def _clocks(text: str, now: datetime) -> list[FoundMoment]:
    found: list[FoundMoment] = []
    patterns = _patterns()

    def add(match: re.Match[str], clock: time | None) -> None:
        if clock is not None:
            found.append(FoundMoment(match.group(), match.start(), match.end(), clock=clock))

    for match in patterns["colon"].finditer(text):
        hour, minute, half = match.groups()
        add(match, _clock(int(hour), int(minute), half))
    for match in patterns["half"].finditer(text):
        how, said, half = match.groups()
        hour = _hour(said) if half else _working_hour(_hour(said))
        minutes = {"half past": 30, "quarter past": 15, "quarter to": -15}[how]
        base = _clock(hour, 0, half)
        if base is not None:
            moment = datetime.combine(date(2000, 1, 1), base) + timedelta(minutes=minutes)
            add(match, moment.time())
    for match in patterns["ampm"].finditer(text):
        add(match, _clock(_hour(match.group(1)), 0, match.group(2)))
    for match in patterns["daypart"].finditer(text):
        # "6 in the morning"; "at night" is before midnight from six on
        hour = _hour(match["hour"])
        early = match["part"] == "morning" or match["part"] == "at night" and (
            hour < 6 or hour == 12
        )
        clock = _clock(hour, int(match["minute"] or 0), "a" if early else "p")
        if match["day"] is None:
            add(match, clock)
        elif clock is not None:
            shift = {"tomorrow": 1, "yesterday": -1}.get(match["day"], 0)
            found.append(FoundMoment(
                match.group(), match.start(), match.end(),
                day=now.date() + timedelta(days=shift), clock=clock,
            ))
    for match in patterns["oclock"].finditer(text):
        add(match, _clock(_working_hour(_hour(match.group(1))), 0, None))
    for match in patterns["part"].finditer(text):
        add(match, _PARTS[match.group(1)])
    return found


def _counted(text: str, now: datetime) -> list[FoundMoment]:
    """`3 years ago`, `2 hours from now`, `in 20 minutes`."""
    found = []
    for name in ("counted", "within"):
        for match in _patterns()[name].finditer(text):
            said, unit = match.group(1), match.group(2)
            number = 1.0 if said in ("a", "an") else (
                float(said) if said[0].isdigit() else float(_NUMBERS.index(said))
            )
            back = name == "counted" and match.group(3) == "ago"
            moment = _shifted(now, -number if back else number, unit)
            if moment is not None:
                found.append(FoundMoment(
                    match.group(), match.start(), match.end(), exact=moment
                ))
    return found


def _shifted(now: datetime, number: float, unit: str) -> datetime | None:
    """Now moved by so many of a unit; months and years on the calendar. None beyond it."""
    try:
        if unit[:5] == "month" or unit[0] == "y":
            index = now.year * 12 + now.month - 1 + round(number * (1 if unit[0] == "m" else 12))
            year, month = divmod(index, 12)
            day = min(now.day, monthrange(year, month + 1)[1])
            return now.replace(year=year, month=month + 1, day=day)
        step = _STEPS["min" if unit[0] == "m" else "h" if unit[0] == "h" else unit.rstrip("s")]
        return now + step * number
    except (OverflowError, ValueError):
        return None
