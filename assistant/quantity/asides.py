"""Asides: numbers that measure nothing.

Owns clock times, dates, model years, standards, lot numbers, ordinals and numbers that are part of
a name ("m8"). What does measure something is read.py's.
"""

from __future__ import annotations

from assistant.quantity.spoken import NO_QUARTER_OF
from assistant.quantity.tokens import EDGE, WORD, Line

_MONTHS = frozenset(
    "jan january feb february mar march apr april may jun june jul july aug august sep sept "
    "september oct october nov november dec december enero febrero marzo abril mayo junio julio "
    "agosto septiembre octubre noviembre diciembre".split()
)
# Words of their own as well; as months they begin with a capital.
_ALSO_WORDS = frozenset(("may", "march", "mar", "dec", "sep"))
_STANDARDS = frozenset("iso astm cfr osha niosh din en bs nist sp iec ansi fmvss ece".split())
_LABELS = frozenset("lot batch serial vin reg job page chapter bulletin sds".split())
_ORDINALS = frozenset("st nd rd th ths".split())
_YEAR_AFTER = frozenset("a an the my our his her your their this from of".split())
_YEAR_SURE = frozenset("since year model reg vintage circa".split())
_GLUED_FINE = frozenset("x by to and at is of about for".split())
_DAY_PARTS = frozenset("morning afternoon evening".split())
_MIXING = frozenset(
    "dilution dilute diluted mix mixed mixture ratio solution parts water".split()
)
# Units of things that this trade does not measure: no number of ours stands before them.
_FOREIGN = frozenset(
    "mph kph kmh rpm volt volts v watt watts w kw amp amps lumen lumens lux hz khz grit db hp bhp "
    "kelvin ghz mb gb tb px pixels dpi calories".split()
)
_LONGEST_NAME = 3  # "4wd" is a name; "92wide" lacks a space


def aside_at(line: Line, place: int) -> int | None:
    """The place after a number that measures nothing, if one begins here; else None."""
    if not line.is_number(place):
        return _spoken_clock(line, place) if line.kind(place) == WORD else None
    text = line.said(place)
    if _in_a_name(line, place) or line.said(place - 1) == "#":
        return _chain(line, place)
    if line.glued(place + 1):
        following = line.said(place + 1)
        if following in _ORDINALS:
            return _after_date(line, place + 2)
        if following == "s" and (
            line.said(place - 1) in ("the", "his", "her", "their", "mid", "late", "early")
            or len(text) == 4 and text[:2] in ("19", "20")
        ):
            return place + 2
        if following == "'" and line.said(place + 2) == "s" and line.glued(place + 2):
            return place + 3
        if following == ":":
            return _clock(line, place)
    if text.count(".") == 2 and _dotted_date(text):
        return place + 1
    after = _slash_or_dash_date(line, place)
    if after is not None:
        return after
    if text == "24" and line.said(place + 1) == "/" and line.said(place + 2) == "7":
        return place + 3
    if line.said(place - 1) in _STANDARDS or line.said(place + 1) == "cfr":
        return _chain(line, place)
    if text.isdecimal() and len(text) <= 2:
        after = _beside_month(line, place)
        if after is not None:
            return after
    if len(text) == 4 and text.isdecimal() and line.said(place - 1) == "at" and (
        line.said(place + 1) in ("hours", "hrs") and text < "2400"
    ):
        return place + 2
    return None


def bare_aside(line: Line, place: int, after: int) -> bool:
    """Whether a number without a unit is no quantity: a label, a model year, part of a name."""
    before, following = line.said(place - 1), line.said(after)
    if before == "." and line.said(place - 2) == "no":
        return True
    if line.slice(place, after) == "1/4" and (before == "rear" or following in NO_QUARTER_OF):
        return True
    if before in _LABELS or before in ("number", "no") and line.said(place - 2) in _LABELS:
        return True
    text = line.said(place)
    if after == place + 1 and len(text) == 4 and text.isdecimal() and "1950" <= text <= "2049":
        if before in _YEAR_SURE or _is_month(line, place - 1):
            return True
        if before in ("in", "from") and line.ends_at(after):
            return True
        if before in _YEAR_AFTER and line.kind(after) == WORD and following not in _GLUED_FINE:
            return True
    if following in _FOREIGN:
        return True
    if line.glued(after) and line.kind(after) == WORD:
        return len(following) <= _LONGEST_NAME and following not in _GLUED_FINE
    # 3-piece, two-part; "-ish" and "three-to-four" are still numbers.
    return (
        following == "-" and line.glued(after) and line.glued(after + 1)
        and line.kind(after + 1) == WORD and line.said(after + 1) not in _GLUED_FINE
        and line.said(after + 1) != "ish"
    )


def clock_after(line: Line, after: int, value: float) -> int | None:
    """The place after `pm`, `o'clock`, `in the morning` behind a number; else None."""
    if not 0 < value <= 24:
        return None
    said = line.said(after)
    if said in ("am", "pm") and line.said(after + 1) != "i":
        return after + 1
    if said in ("a", "p") and line.said(after + 1) == "." and line.said(after + 2) == "m":
        return after + 4 if line.said(after + 3) == "." else after + 3
    if said == "oclock":
        return after + 1
    if said == "o" and line.said(after + 1) == "'" and line.said(after + 2) == "clock":
        return after + 3
    if said == "in" and line.said(after + 1) == "the" and line.said(after + 2) in _DAY_PARTS:
        return after + 3
    if said == "at" and line.said(after + 1) == "night":
        return after + 2
    return None


def _in_a_name(line: Line, place: int) -> bool:
    """m8, a4, stage_2: digits that follow a letter; but 92x31 and at60 are numbers."""
    if not line.glued(place):
        return False
    before = line.at(place - 1)
    if before.text == "_":
        return True
    if before.text == "-" and line.glued(place - 1):
        # r-134 is a name; pre-2010 at least holds a number.
        stem = line.at(place - 2)
        return stem.kind == WORD and len(stem.text) < _LONGEST_NAME and not (
            line.is_number(place - 3)
        )
    if before.kind != WORD or before.text in _GLUED_FINE - {"x"}:
        return False
    return before.text != "x" or not line.glued(place - 1)


def _chain(line: Line, place: int) -> int:
    """The place after digits, dashes and points that hang together: 8502-4, 1910.1000."""
    after = place + 1
    while line.glued(after) and (
        line.is_number(after) or line.said(after) in ("-", ".", "/") and line.glued(after + 1)
        and line.is_number(after + 1)
    ):
        after += 1
    return after


def _clock(line: Line, place: int) -> int | None:
    minutes = line.said(place + 2)
    if not (line.is_number(place + 2) and line.glued(place + 2) and minutes.isdecimal()):
        return None
    if len(minutes) != 2 or minutes > "59" or line.said(place) > "24" and (
        len(line.said(place)) > 1
    ):
        return None
    after = place + 3
    while line.said(after) == ":" and line.is_number(after + 1) and line.glued(after + 1):
        after += 2
    if line.said(after) in ("h", "hr", "hrs", "hour", "hours"):
        return None  # 1:30 h is a length of time
    if line.said(after) in _MIXING or line.said(place - 1) in _MIXING:
        return None  # so are parts of alcohol and water
    return clock_after(line, after, 1.0) or after


def _dotted_date(text: str) -> bool:
    day, month, year = text.split(".")
    return len(day) <= 2 and len(month) <= 2 and len(year) in (2, 4)


def _slash_or_dash_date(line: Line, place: int) -> int | None:
    mark = line.said(place + 1)
    if mark not in ("/", "-"):
        return None
    parts, after = [line.said(place)], place + 1
    while line.said(after) == mark and line.glued(after) and line.is_number(after + 1) and (
        line.glued(after + 1)
    ):
        parts.append(line.said(after + 1))
        after += 2
    if len(parts) < 3 or not all(part.isdecimal() for part in parts):
        return None
    if mark == "-":
        # A telephone number, a date, a part number; but 3-1/2 never comes here.
        return None if line.said(after) == "/" else after
    lengths = [len(part) for part in parts]
    is_date = len(parts) == 3 and (4 in (lengths[0], lengths[2]) or lengths == [2, 2, 2])
    return after if is_date else None


def _is_month(line: Line, place: int) -> bool:
    said = line.said(place)
    if said not in _MONTHS or line.kind(place) != WORD:
        return False
    return said not in _ALSO_WORDS or line.text[line.at(place).start].isupper()


def _beside_month(line: Line, place: int) -> int | None:
    if _is_month(line, place + 1):
        return _after_date(line, place + 1)
    if _is_month(line, place - 1):
        return _year_after(line, place + 1)
    return None


def _after_date(line: Line, place: int) -> int:
    """Past `of March 2025` behind a day."""
    step = place + 1 if line.said(place) == "of" else place
    return _year_after(line, step + 1) if _is_month(line, step) else place


def _year_after(line: Line, place: int) -> int:
    step = place + 1 if line.said(place) == "," else place
    text = line.said(step)
    return step + 1 if len(text) == 4 and text.isdecimal() and text[:2] in ("19", "20") else place


def _spoken_clock(line: Line, place: int) -> int | None:
    """half past three, quarter to five, ten past two: passed over as a whole."""
    step = place + 1 if line.said(place) in ("a", "at") else place
    if line.said(step) not in ("half", "quarter", "five", "ten", "twenty"):
        return None
    link = line.said(step + 1)
    if not (link == "past" or link in ("to", "till") and line.said(step) == "quarter"):
        return None
    if line.kind(step + 2) == EDGE:
        return None
    hour = line.said(step + 2)
    if hour.isdecimal() and len(hour) <= 2 or hour in _HOURS:
        # "a quarter to one inch" is a range.
        return None if line.said(step + 3) in _MEASURES else step + 3
    return None


_HOURS = frozenset("one two three four five six seven eight nine ten eleven twelve".split())
_MEASURES = frozenset("in inch inches - half quarter and mm cm hour hours eighth eighths".split())
