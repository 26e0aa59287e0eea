"""Judging: is the value that was named all right by a rule's figure?

Owns the comparison and its wording. Which rule applies is routing's; what the rule says otherwise
is telling.py's. Values are compared unrounded.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from assistant.quantity.kinds import Quantity, Temperature, TemperatureDifference
from assistant.quantity.write import System, show, show_range

FINE, SHORT, OVER, APPLIES, APPLIES_NOT = "fine", "short", "over", "applies", "applies not"

# Held as binary fractions, 200 °F and 225 °F are not exactly 25 °F apart.
_SLACK = 1e-9
# By how much of the figure the other system must be nearer before a bare number is taken in it.
_LEAD = 0.05
_SETTLED_LEAD = 0.4
# Kinds of which more than the usual value does no harm unless the figure says so: a wider bleed
# costs film, a longer wait costs time. A hotter film is another matter.
_MORE_IS_FINE = frozenset(("length", "duration", "area", "count"))
# "Is 300 too hot?" is answered yes where "is 300 ok?" is answered no.
_TOO_MUCH = re.compile(
    r"\btoo (?:hot|warm|much|high|wide|long|far|late|many|thick|strong|big)\b"
)
_TOO_LITTLE = re.compile(
    r"\btoo (?:cold|cool|little|low|narrow|short|soon|early|few|thin|weak|small|close|near)\b"
)


@dataclass(frozen=True)
class Judgement:
    """The verdict on a value.

    verdict  fine | short | over; applies | applies not for `over` limits: they say from where a
             rule holds, and the rule itself says what follows
    fact     what was found, without a yes or a no: `200 °F is 25 °F short of 225 °F`
    figure   the figure that was compared against
    """

    verdict: str
    fact: str
    figure: Any

    def words(self, question: str = "") -> str:
        """The fact as the answer to a question; yes or no as the question is put."""
        if self.verdict in (APPLIES, APPLIES_NOT):
            return f"{self.fact}."
        if _TOO_MUCH.search(question):
            yes = self.verdict == OVER
        elif _TOO_LITTLE.search(question):
            yes = self.verdict == SHORT
        else:
            yes = self.verdict == FINE
        return f"{'Yes' if yes else 'No'}: {self.fact}."


def _difference(one: Quantity, other: Quantity) -> Quantity:
    return one - other if one > other else other - one


def _shown(figure: Any, system: System) -> str:
    low, high = figure.quantities()
    if low == high:
        return show(low, system, unit=figure.unit)
    return show_range(low, high, system, unit=figure.unit)


def judge(figure: Any, value: Quantity, system: System, unit: str | None = None) -> Judgement:
    """The verdict on `value` by one figure of a rule.

    figure  a resolved figure: role value | range | at_least | at_most | over, quantities(), unit,
            tolerance and too_much (quantities or None)
    value   of the same kind as the figure
    unit    the unit in which the value was spoken, for the reply
    """
    low, high = figure.quantities()
    told = show(value, system, unit=unit, second=False)
    limit = _shown(figure, system)

    def gap(limit_value: Quantity) -> str:
        amount = _difference(value, limit_value)
        return show(amount, system, unit=_difference_unit(amount, unit))

    slack = _SLACK * max(1.0, abs(low.si))
    if figure.role == "over":
        if value.si > low.si + slack:
            return Judgement(APPLIES, f"{told} is over {limit}", figure)
        return Judgement(APPLIES_NOT, f"{told} is not over {limit}", figure)
    if figure.role == "at_most":
        if value.si <= high.si + slack:
            return Judgement(FINE, f"{told} is within the limit of {limit}", figure)
        return Judgement(OVER, f"{told} is {gap(high)} over the limit of {limit}", figure)
    if figure.role == "at_least":
        if value.si >= low.si - slack:
            return Judgement(FINE, f"{told} meets the least, {limit}", figure)
        return Judgement(SHORT, f"{told} is {gap(low)} short of the least, {limit}", figure)
    tolerance = figure.tolerance.si if figure.tolerance is not None else 0.0
    if value.si < low.si - tolerance - slack:
        return Judgement(SHORT, f"{told} is {gap(low)} short of {limit}", figure)
    too_much = figure.too_much
    if too_much is not None and value.si > too_much.si + slack:
        return Judgement(
            OVER, f"{told} is {gap(high)} over {limit}; past "
            f"{show(too_much, system, unit=figure.unit)} it does harm", figure,
        )
    if value.si > high.si + tolerance + slack:
        if figure.role == "value" and low.kind in _MORE_IS_FINE:
            return Judgement(FINE, f"{told} is {gap(high)} more than {limit}", figure)
        return Judgement(OVER, f"{told} is {gap(high)} over {limit}", figure)
    if abs(value.si - low.si) <= slack or low.si != high.si:
        return Judgement(FINE, f"{told} is right; the figure is {limit}", figure)
    return Judgement(FINE, f"{told} is near enough to {limit}", figure)


def _difference_unit(amount: Quantity, unit: str | None) -> str | None:
    if isinstance(amount, TemperatureDifference):
        return {"degF": "dF", "degC": "dC"}.get(unit or "", unit)
    return unit


def figure_for(figures: Sequence[Any], value: Quantity, words: str) -> Any | None:
    """The figure to compare a value with: of its kind, its name closest to the words."""
    fitting = [figure for figure in figures if figure.quantities()[0].kind == value.kind]
    if not fitting:
        return None
    heard = set(words.lower().split())
    return max(fitting, key=lambda figure: len(heard & set(figure.name.lower().split())))


def plausible_unit(figure: Any, number: float, system: System, settled: bool) -> str | None:
    """The unit of a bare number that is to be judged by a figure.

    settled  the person has used units of `system`; then it takes more to think otherwise
    The system in which the number comes clearly closer to the figure: "200" beside 225 °F (107 °C)
    is meant in °F whatever was spoken before. The reply says what was assumed.
    """
    pairs = {
        "degF": "degC", "dF": "dC", "in": "mm", "ft": "m", "yd": "m", "mil": "um",
        "floz": "mL", "psi": "bar", "ft2": "m2",
    }
    back = {metric: us for us, metric in pairs.items()}
    own = figure.unit
    us_unit = own if own in pairs else back.get(own, own)
    metric_unit = pairs.get(us_unit, us_unit)
    if us_unit == metric_unit:
        return us_unit
    from assistant.quantity.kinds import of

    low, high = figure.quantities()

    def far(unit: str) -> float:
        try:
            value = of(number, unit)
        except ValueError:
            return float("inf")
        if low.si <= value.si <= high.si:
            return 0.0
        base = 273.15 if isinstance(low, Temperature) else 0.0
        span = max(abs(low.si - base), 1e-9)
        return min(abs(value.si - low.si), abs(value.si - high.si)) / span

    own_unit, other_unit = (
        (us_unit, metric_unit) if system == System.US else (metric_unit, us_unit)
    )
    lead = _SETTLED_LEAD if settled else _LEAD
    return own_unit if far(own_unit) <= far(other_unit) + lead else other_unit
