"""Number: what the number of a figure means: a value, a range, or a limit one way.

Owns the reading of value, low and high, at_least, at_most and over as quantities; the same for a
figure fresh from a file (models.py) and for one taken up from the kept index (record.py).
"""

from __future__ import annotations

from assistant.quantity.kinds import Quantity, of

ROLES = ("value", "range", "at_least", "at_most", "over")
_OF_A_DIFFERENCE = {"degF": "dF", "degC": "dC"}


class Numbered:
    """Mixed into whatever has value, low, high, at_least, at_most, over, unit, tolerance, too_much:
    numbers in `unit`, or None; exactly one way of giving the number.
    """

    value: float | None
    low: float | None
    high: float | None
    at_least: float | None
    at_most: float | None
    over: float | None
    unit: str
    tolerance: float | None
    too_much: float | None

    @property
    def role(self) -> str:
        """value | range | at_least | at_most | over."""
        if self.low is not None:
            return "range"
        return next(role for role in ROLES if getattr(self, role, None) is not None)

    def quantities(self) -> tuple[Quantity, Quantity]:
        """(low, high), unrounded; the same twice unless it is a range."""
        if self.low is not None and self.high is not None:
            return of(self.low, self.unit), of(self.high, self.unit)
        number = next(
            each for each in (self.value, self.at_least, self.at_most, self.over)
            if each is not None
        )
        return (of(number, self.unit),) * 2

    def tolerance_quantity(self) -> Quantity | None:
        """How far a reading may lie off; a difference where the figure is a temperature."""
        if self.tolerance is None:
            return None
        return of(self.tolerance, _OF_A_DIFFERENCE.get(self.unit, self.unit))

    def too_much_quantity(self) -> Quantity | None:
        """From where it does harm."""
        return None if self.too_much is None else of(self.too_much, self.unit)
