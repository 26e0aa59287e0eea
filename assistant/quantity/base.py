"""Base: what every kind of quantity can do: hold, compare, add, scale, convert.

Owns the arithmetic within one kind and the table by which kinds multiply. The kinds themselves and
their factors are kinds.py's.
"""

from __future__ import annotations

from functools import total_ordering
from math import isfinite
from typing import Any, ClassVar, Self


class BadQuantity(ValueError):
    """A number that no quantity of that kind can have; the message says why."""


@total_ordering
class Quantity:
    """A number of one kind, in SI.

    si  the value in the kind's SI unit; finite
    Values of one kind compare, add and subtract, and divide to a plain number. Two kinds multiply
    or divide only where `products` says what comes out; all other mixing raises TypeError.
    Immutable.
    """

    __slots__ = ("si",)
    kind: ClassVar[str] = ""
    units: ClassVar[dict[str, float]] = {}
    # (kind, kind) -> kind of their product; both orders, filled in by kinds.py.
    products: ClassVar[dict[tuple[type, type], type]] = {}
    # (kind, kind) -> kind of their quotient.
    quotients: ClassVar[dict[tuple[type, type], type]] = {}
    si: float

    def __init__(self, si: float) -> None:
        if not isfinite(si):
            raise BadQuantity(f"{si} is no {self.kind.replace('_', ' ')}")
        object.__setattr__(self, "si", si)

    @classmethod
    def of(cls, value: float, unit: str) -> Self:
        """The quantity of `value` in `unit`. Raises BadQuantity for a unit of another kind."""
        if unit not in cls.units:
            known = ", ".join(cls.units)
            raise BadQuantity(f"{unit!r} is no unit of {cls.kind.replace('_', ' ')}; use {known}")
        return cls(float(value) * cls.units[unit])

    def to(self, unit: str) -> float:
        """The value in a unit of this kind."""
        if unit not in self.units:
            raise BadQuantity(f"{unit!r} is no unit of {self.kind.replace('_', ' ')}")
        return self.si / self.units[unit]

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError("a quantity does not change; make another")

    def __delattr__(self, name: str) -> None:
        raise AttributeError("a quantity does not change")

    def __copy__(self) -> Self:
        return self

    def __deepcopy__(self, memo: dict) -> Self:
        return self

    def __reduce__(self) -> tuple:
        return type(self), (self.si,)

    def _same(self, other: object) -> bool:
        return type(other) is type(self)

    def __eq__(self, other: object) -> bool:
        return self.si == other.si if self._same(other) else NotImplemented

    def __lt__(self, other: object) -> bool:
        return self.si < other.si if self._same(other) else NotImplemented

    def __hash__(self) -> int:
        return hash((self.kind, self.si))

    def __add__(self, other: object) -> Self:
        return type(self)(self.si + other.si) if self._same(other) else NotImplemented

    def __sub__(self, other: object) -> Any:
        return type(self)(self.si - other.si) if self._same(other) else NotImplemented

    def __neg__(self) -> Self:
        return type(self)(-self.si)

    def __abs__(self) -> Self:
        return type(self)(abs(self.si))

    def __mul__(self, other: object) -> Any:
        if isinstance(other, Quantity):
            product = self.products.get((type(self), type(other)))
            return NotImplemented if product is None else product(self.si * other.si)
        return type(self)(self.si * other) if isinstance(other, (int, float)) else NotImplemented

    __rmul__ = __mul__

    def __truediv__(self, other: object) -> Any:
        if isinstance(other, Quantity):
            if type(other) is type(self):
                return self.si / other.si
            quotient = self.quotients.get((type(self), type(other)))
            return NotImplemented if quotient is None else quotient(self.si / other.si)
        return type(self)(self.si / other) if isinstance(other, (int, float)) else NotImplemented

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.si!r})"
