"""Reminding: lines that set, list and stop timers.

Owns what such a line looks like and the reply to it. The list of timers is timers.py's; when a cure
ends is found by the cure clock.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime, timedelta
from functools import lru_cache

from assistant.conversation.timers import Timer, Timers
from assistant.conversation.wording import clock_words, moment_of
from assistant.hearing.heard import Heard
from assistant.quantity.kinds import Duration
from assistant.quantity.write import System, show
from assistant.reply import ASKS, DONE, Moment, Reply

INTENT = "timer"
DURATION, WHICH, CURE = "duration", "timer", "cure"
CURE_END = "the end of the cure"
_WAITS = (
    "flash-off", "flash off", "flashoff", "cool-down", "cool down", "cooldown", "cooling",
    "drying", "dry time", "drying time", "soak", "dwell", "break", "rest", "warm-up", "warm up",
)
_SAME = {
    "flash off": "flash-off", "flashoff": "flash-off", "cool down": "cool-down",
    "cooldown": "cool-down", "cooling": "cool-down", "dry time": "drying", "drying time": "drying",
    "warm up": "warm-up",
}


@lru_cache(maxsize=1)
def _patterns() -> dict[str, re.Pattern[str]]:
    """Compiled when a line first looks like one about timers."""
    polite = r"(?:(?:please|can you|could you|ok|and|now|hey|just)[ ,]+)*"
    waits = "|".join(sorted(map(re.escape, _WAITS), key=len, reverse=True))
    return {name: re.compile(pattern) for name, pattern in {
        "list": rf"{polite}(?:what|which|any|show|list|are there|how many|see|the|my)?\s*"
                r"(?:me\s+)?(?:the\s+|my\s+|all\s+)*(?:running |open |active |current )?"
                r"(?:timers?|reminders?)(?: (?:are|is))?(?: (?:running|going|set|on|active|open|"
                r"there|still running|do i have|have i set|have i got))*[?.! ]*"
                r"|how (?:long|much time|many minutes) (?:is |are )?(?:still )?(?:left|to go)"
                r"(?: is)? (?:on|in|of) (?:the |my )?(?:.* )?timers?[?.! ]*",
        "stop": rf"{polite}(?:stop|cancel|clear|delete|kill|end|remove|switch off|turn off|forget|"
                r"drop)\s+(?P<all>all\s+)?(?:of\s+)?(?:the\s+|my\s+|that\s+|those\s+)*"
                r"(?P<name>.*?)\s*(?:timers?|reminders?|countdowns?|alarms?)"
                r"(?:\s+(?:number\s+|no\.?\s*|#)?(?P<number>\d+)|\s+(?:for|on) (?P<of>.*?))?"
                r"[?.! ]*",
        "set": r"\b(?:remind me|timer|countdown|count down|set an alarm|alarm (?:in|at|for)|"
               r"wake me|(?:beep|ping|ring|alert|buzz) me|(?:tell|call|warn) me in|reminder)\b",
        "wait": rf"{polite}(?:(?:start|set)\s+)?(?:the\s+|a\s+)?"
                rf"(?:(?P<one>{waits})(?: time| for|:|,)?\s+(?P<long>.+?)|"
                rf"(?P<span>.+?)\s+(?:of\s+|for\s+)?(?P<other>{waits}))[?.! ]*",
        "cure": r"\b(?:cure|cured|curing|release|hand-?over)\b",
        "purpose": r"\b(?:to|about|that|for the|for|of the|when)\s+(?P<what>[a-z].*)$",
    }.items()}


def about_timers(
    heard: Heard, timers: Timers, cure_end: datetime | None, system: System, now: datetime,
    asked: str | None = None,
) -> Reply | None:
    """The reply to a line about timers; None when it is about anything else.

    cure_end  when the cure that was worked out last ends; None where none was
    asked     DURATION or WHICH, where the last reply asked for that
    """
    line = heard.tidy.strip()
    if asked == DURATION and not heard.concepts and not heard.wishes and not _may_be(line):
        told = _set(heard, line, timers, cure_end, system, now)
        return None if told is None or told.outcome == ASKS else told
    if asked == WHICH and timers.named(_bare(line)):
        return _told_stopped(timers, timers.named(_bare(line)), now)
    if not _may_be(line):
        return None
    patterns = _patterns()
    if patterns["list"].fullmatch(line):
        return _listed(timers, system, now)
    stop = patterns["stop"].fullmatch(line)
    if stop is not None:
        return _stopped(stop, timers, system, now)
    if patterns["set"].search(line):
        return _set(heard, line, timers, cure_end, system, now)
    wait = patterns["wait"].fullmatch(line)
    if wait is not None:
        span = _span(heard)
        told = (wait["long"] or wait["span"] or "").strip()
        # "cool-down 10 minutes" is a timer, "cool-down of the panel in 10 minutes" is not.
        if span is not None and len(told.split()) <= 4 and not heard.wishes and not heard.yes_no:
            name = wait["one"] or wait["other"]
            return _started(timers, _SAME.get(name, name), now + span, heard, system, now)
    return None


_MARKS = (
    "timer", "remind", "countdown", "count down", "alarm", "wake me", "beep me", "ping me",
    "ring me", "alert me", "buzz me", "tell me", "call me", "warn me", *_WAITS,
)


def _bare(line: str) -> str:
    return re.sub(r"^(?:the|number|timer|stop(?: timer)?)\s+|\s+(?:one|timer)$|[?.!:]", "", line)


def _may_be(line: str) -> bool:
    return any(mark in line for mark in _MARKS)


def _span(heard: Heard) -> timedelta | None:
    """The length of time that a line names; all of its parts added up."""
    spans = [found for found in heard.quantities if found.kind == "duration" and not found.problem]
    if not spans:
        return None
    return timedelta(seconds=sum(found.quantity().si for found in spans))


def _set(
    heard: Heard, line: str, timers: Timers, cure_end: datetime | None, system: System,
    now: datetime,
) -> Reply | None:
    span = _span(heard)
    if span is not None:
        return _started(timers, _purpose(line, heard), now + span, heard, system, now)
    from assistant.quantity.moment import FUTURE, read_moments

    moments = read_moments(heard.text, now, system)
    if moments:
        return _started(
            timers, _purpose(line, heard), moments[0].at(now, FUTURE), heard, system, now
        )
    if _patterns()["cure"].search(line) and not re.match(r"how|what|why|should", line):
        if cure_end is None:
            return _asks(
                "I know of no cure that is running. Say when the last post-heat was and how warm "
                "the bay is; I set the timer for its end.", heard, (CURE,),
            )
        if cure_end <= now:
            return Reply(DONE, f"The cure is over since {clock_words(cure_end, system)}.",
                         intent=INTENT, heading="Timer", heard=heard.said())
        return _started(timers, CURE_END, cure_end, heard, system, now)
    if heard.wishes or heard.yes_no:
        return None  # "how long do I set the timer for" asks for a rule
    return _asks("In how long, or at what time? For example: 20 minutes, or 5 pm.", heard,
                 (DURATION,))


def _purpose(line: str, heard: Heard) -> str:
    """What a timer is for, in the person's own words: a known wait, or what stands after `to`."""
    for wait in sorted(_WAITS, key=len, reverse=True):
        if wait in line:
            return _SAME.get(wait, wait)
    bare = _without_times(line, heard)
    match = _patterns()["purpose"].search(bare)
    what = match["what"] if match is not None else ""
    words = re.findall(r"[\w'-]+", what)
    return " ".join(words[:8])


def _without_times(line: str, heard: Heard) -> str:
    """The line without its lengths and points of time."""
    bare = line
    for found in heard.quantities:
        text = " ".join(found.text.lower().split())
        bare = re.sub(rf"\b(?:in|for|of|at)\s+{re.escape(text)}", " ", bare).replace(text, " ")
    bare = re.sub(r"\b(?:at|on|in|by)?\s*(?:\d{1,2}(?::\d{2})?\s*[ap]\.?m\b|\d{1,2}:\d{2}|noon|"
                  r"midnight|tomorrow|tonight)", " ", bare)
    return " ".join(bare.split())


def _started(
    timers: Timers, name: str, due: datetime, heard: Heard, system: System, now: datetime
) -> Reply:
    span = span_words(due - now)
    try:
        timer = timers.start(name or f"{span} timer", due, now)
    except ValueError as error:
        return _asks(f"No timer was set: {error}.", heard, (DURATION,))
    other = len(timers.running) - 1
    beside = f" {other} more running." if other else ""
    return Reply(
        DONE,
        f"Timer set: {f'{name}, ' if name else ''}{span}, rings at "
        f"{clock_words(timer.due, system)}.{beside}",
        intent=INTENT, heading="Timer", heard=heard.said(), times=(_moment(timer, system),),
    )


def _listed(timers: Timers, system: System, now: datetime) -> Reply:
    if not timers.running:
        return Reply(DONE, "No timer is running.", intent=INTENT, heading="Timers", heard="timers")
    number = len(timers.running)
    return Reply(
        DONE,
        f"{number} {'timer is' if number == 1 else 'timers are'} running: "
        + "; ".join(f"{timer.name}, {span_words(timer.left(now))} to go" for timer in
                    timers.running) + ".",
        intent=INTENT, heading="Timers", heard="timers",
        times=tuple(_moment(timer, system) for timer in timers.running),
    )


def _stopped(
    match: re.Match[str], timers: Timers, system: System, now: datetime
) -> Reply:
    named = match["number"] or match["of"] or match["name"] or ""
    named = re.sub(r"^(?:the|my)\s+|\bminutes?\b", "", named).strip()
    running = tuple(timers.running)
    if not running:
        return Reply(DONE, "No timer is running.", intent=INTENT, heading="Timers", heard="stop")
    if match["all"] or named in ("all", "every", "both"):
        chosen = running
    elif named:
        chosen = timers.named(_SAME.get(named, named))
    else:
        chosen = running if len(running) == 1 else ()
    if not chosen:
        return Reply(
            ASKS, "Which timer?" if not named else f"No timer is called {named}. Which one?",
            intent=INTENT, heading="Timers", heard="stop", needs=(WHICH,),
            choices=tuple(
                f"{timer.name}, {clock_words(timer.due, system)}"
                for timer in running
            ),
        )
    return _told_stopped(timers, chosen, now)


def _told_stopped(timers: Timers, chosen: tuple[Timer, ...], now: datetime) -> Reply:
    timers.stop(chosen)
    told = ", ".join(f"{timer.name} ({span_words(timer.left(now))} was to go)" for timer in chosen)
    return Reply(DONE, f"Stopped: {told}.", intent=INTENT, heading="Timers", heard="stop")


def _asks(text: str, heard: Heard, needs: tuple[str, ...]) -> Reply:
    return Reply(ASKS, text, intent=INTENT, heading="Timer", heard=heard.said(), needs=needs)


def _moment(timer: Timer, system: System) -> Moment:
    return moment_of(timer.name, timer.due, system)


def span_words(span: timedelta) -> str:
    """`20 min`, `1 h 30 min`, `2 days`; under a minute in seconds."""
    seconds = round(span.total_seconds())
    if seconds < 60:
        return f"{seconds} s"
    minutes = round(seconds / 60)
    if minutes >= 48 * 60:
        return show(Duration.of(minutes / 60, "h"), unit="day", second=False)
    hours, minutes = divmod(minutes, 60)
    return " ".join(part for part in (hours and f"{hours} h", minutes and f"{minutes} min") if part)


def remind_of_cure(
    timers: Timers, cure_end: datetime, system: System, now: datetime
) -> tuple[str, ...]:
    """Set the timer that waited for the end of the cure to be known; what is said of it."""
    try:
        timers.start(CURE_END, cure_end, now)
    except ValueError:
        return ()
    return (f"timer set for {CURE_END}, {clock_words(cure_end, system)}",)


def due_lines(timers: Iterable[Timer], system: System) -> tuple[str, ...]:
    """What is said of timers that are due."""
    return tuple(
        f"Time is up: {timer.name} ({clock_words(timer.due, system)})." for timer in timers
    )
