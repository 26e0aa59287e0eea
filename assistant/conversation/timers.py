"""Timers: reminders that run beside the talk, and which of them are due.

Owns the list of them as plain values: the time of day is an argument. Which line sets or stops one
is reminding.py's; ringing the bell is the screen's.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta

LONGEST = timedelta(days=400)
MOST = 20  # running at once; more is a slip of the keys


@dataclass(frozen=True, slots=True)
class Timer:
    """A reminder: what it is for, when it was set and when it rings."""

    name: str
    set_at: datetime
    due: datetime

    def left(self, now: datetime) -> timedelta:
        """Time to go; nothing once it is due."""
        return max(self.due - now, timedelta())


@dataclass
class Timers:
    """The timers of one talk, each told once when it is due."""

    running: list[Timer] = field(default_factory=list)

    def start(self, name: str, due: datetime, now: datetime) -> Timer:
        """A new timer. Raises ValueError for a moment that is over or too far off, and for one too
        many."""
        if due <= now:
            raise ValueError("that moment is over")
        if due - now > LONGEST:
            raise ValueError("that is more than a year off")
        if len(self.running) >= MOST:
            raise ValueError(f"{MOST} timers are running already")
        timer = Timer(name, now, due)
        self.running.append(timer)
        self.running.sort(key=lambda each: each.due)
        return timer

    def stop(self, timers: tuple[Timer, ...]) -> None:
        """Take timers off the list."""
        self.running = [timer for timer in self.running if timer not in timers]

    def named(self, words: str) -> tuple[Timer, ...]:
        """The running timers that a name stands for, or a number, counted as they are listed."""
        wanted = words.strip().casefold()
        if wanted.isdecimal():
            place = int(wanted)
            return tuple(self.running[place - 1:place]) if place else ()
        return tuple(
            timer for timer in self.running
            if wanted and (wanted in timer.name.casefold() or timer.name.casefold() in wanted)
        )

    def take_due(self, now: datetime) -> tuple[Timer, ...]:
        """The timers that are due, taken off the list: each is told once."""
        due = tuple(timer for timer in self.running if timer.due <= now)
        if due:
            self.stop(due)
        return due
