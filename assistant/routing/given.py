"""Given: a figure that a rule tells, beside a value that a line names.

Owns how near the two are, as evidence that the line is about the rule. Whether the value is all
right by the figure is judged in conversation/.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import exp, log

from assistant.hearing.heard import THING, Heard
from assistant.quantity.kinds import of

OF_ITS_KIND = 0.3       # a figure of the value's kind, however far from it
CROSSED = 0.5           # how fast a limit that a rule holds from loses its hold on larger values
NOT_CROSSED = 0.2       # what is left of one that the value does not reach
TEMPERATURE_SPAN = 20.0  # kelvins; so far away a temperature is as one e-fold is elsewhere
FAHRENHEIT_FROM = 45    # a bare reading from here on is in °F: no panel is so hot in °C
_TEMPERATURES = frozenset(("temperature", "temperature_difference"))


@dataclass(frozen=True, slots=True)
class Given:
    """A figure of a rule, in SI: see Intent.gives."""

    kind: str
    role: str
    low: float
    high: float

    @classmethod
    def read(cls, text: str) -> Given:
        kind, role, low, high = text.split()
        return cls(kind, role, float(low), float(high))

    def near(self, value: float) -> float:
        """How near the value is, 0..1."""
        bound = min(max(value, self.low), self.high)
        if self.kind in _TEMPERATURES:
            far = abs(value - bound) / TEMPERATURE_SPAN
        elif value > 0 and bound > 0:
            far = abs(log(value / bound))
        else:
            far = 0.0 if value == bound else 3.0
        if self.role == "over":
            near = exp(-far * CROSSED) if value > self.low else exp(-far) * NOT_CROSSED
        else:
            near = exp(-far)
        return OF_ITS_KIND + (1.0 - OF_ITS_KIND) * near


def values_of(heard: Heard) -> list[tuple[str, float]]:
    """The values of a line that have a kind, each as (kind, SI). A bare number that hearing took
    for the reading of a thermometer is near enough a temperature."""
    found = []
    read_off = {(hit.start, hit.end) for hit in heard.concepts if hit.kind == THING}
    for each in heard.quantities:
        if each.bare and (each.start, each.end) in read_off:
            scale = "degF" if each.low >= FAHRENHEIT_FROM else "degC"
            found.append(("temperature", of(each.low, scale).si))
        if each.kind is None or each.problem is not None:
            continue
        try:
            found.append((each.kind, each.quantity().si))
        except (ValueError, AttributeError, TypeError):
            continue        # money and the like have no SI value
    return found


def nearness(
    figures: Iterable[Given], values: Iterable[tuple[str, float]], tells: Mapping[str, float]
) -> float:
    """The best nearness of a figure to a value of its kind; 0 when no kind is shared.

    tells  what a value of the kind tells, 0..1: many rules have temperatures, few have ppm
    """
    return max(
        (figure.near(value) * tells[kind] for figure in figures for kind, value in values
         if figure.kind == kind),
        default=0.0,
    )


def tightest(
    figures: Iterable[Given], values: Iterable[tuple[str, float]]
) -> float | None:
    """The highest limit, in SI, that a rule holds from and a value of its kind passes; None when
    there is none."""
    return max(
        (figure.low for figure in figures if figure.role == "over"
         for kind, value in values if kind == figure.kind and value > figure.low),
        default=None,
    )
