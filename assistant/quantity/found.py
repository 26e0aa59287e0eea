"""Found: one number of a line, as the rest of the program receives it.

Owns the step from the number as said to a quantity, and the words when that cannot be. Finding it
is read.py's.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.quantity.kinds import UNITS, BadQuantity, Quantity, kind_of, of

# A reading that turns out to be a difference, and the other way round, keeps its scale; an ounce
# is a fluid ounce until somebody weighs.
_ALSO = {
    "degF": "dF", "degC": "dC", "dF": "degF", "dC": "degC", "floz": "oz", "impfloz": "oz",
    "oz": "floz",
}


class UnclearQuantity(ValueError):
    """A text that is no quantity of the wanted kind; the message names the text."""


@dataclass(frozen=True, slots=True)
class Found:
    """A number in a line.

    text        as it stands there; start, end: its span
    low, high   equal unless it is a range, in `unit`; 0 where there is a problem
    unit        a unit code; None for a bare number
    group       the sides of one `92 x 31` share a number; every other number has its own
    sides       how many numbers share the group
    degrees     "17 degrees": a temperature (or a difference) whose scale was not said
    difference  degrees that are a difference: "5 degrees above the dew point"
    approx      "about", "a couple of", "or so"
    problem     why it cannot be read, in words; None when it can
    """

    text: str
    start: int
    end: int
    low: float
    high: float
    unit: str | None
    group: int = 0
    sides: int = 1
    degrees: bool = False
    difference: bool = False
    approx: bool = False
    problem: str | None = None

    @property
    def bare(self) -> bool:
        return self.unit is None

    @property
    def kind(self) -> str | None:
        """The kind of its unit; None for a bare number."""
        return None if self.unit is None else kind_of(self.unit)

    def quantity(self, unit: str | None = None) -> Quantity:
        """The (lower) value.

        unit  for a bare number: what it is in. A number with a unit of its own keeps it, save
              that degF serves for dF and the other way round, and ounces for a weight.
        Raises UnclearQuantity naming the text when it has a problem, no unit, a unit of another
        kind, or a value that cannot be.
        """
        return self._in(self.low, unit)

    def quantities(self, unit: str | None = None) -> tuple[Quantity, Quantity]:
        """Both ends of it. Raises UnclearQuantity as `quantity` does."""
        return self._in(self.low, unit), self._in(self.high, unit)

    def _in(self, number: float, unit: str | None) -> Quantity:
        said = f'"{" ".join(self.text.split())}"'
        if self.problem:
            raise UnclearQuantity(f"{said} is not clear: {self.problem}.")
        code = self._code(unit, said)
        try:
            return of(number, code)
        except (BadQuantity, OverflowError) as bad:
            raise UnclearQuantity(f"{said} cannot be: {bad}.") from None

    def _code(self, unit: str | None, said: str) -> str:
        if unit is not None and unit not in UNITS:
            raise BadQuantity(f"{unit!r} is no unit; one of {', '.join(UNITS)}")
        if self.unit is None:
            if unit is None:
                raise UnclearQuantity(
                    f"{said} has no scale: °F or °C?" if self.degrees else f"{said} has no unit."
                )
            if self.degrees and kind_of(unit) not in ("temperature", "temperature_difference"):
                raise UnclearQuantity(f"{said} is in degrees, not {_a(kind_of(unit))}.")
            return unit
        if unit is None or kind_of(unit) == kind_of(self.unit):
            return self.unit
        other = _ALSO.get(self.unit)
        if other is not None and kind_of(other) == kind_of(unit):
            return other
        raise UnclearQuantity(
            f"{said} is {_a(kind_of(self.unit))}, not {_a(kind_of(unit))}."
        )


def _a(kind: str) -> str:
    name = kind.replace("_", " ")
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
