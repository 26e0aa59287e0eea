"""Record: an entry taken up from the kept index, without checking it a second time.

Owns plain stand-ins for the models of the files (models.py, entries.py and their neighbours): the
same attributes and the same numbers. They were checked when the index was made; building the
models again would cost an answer more than all the rest of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from assistant.quantity.kinds import Quantity, of
from assistant.rules.number import Numbered

# Model -> attribute -> the model held there, and how: one, each (a table of them), all (a list).
SHAPES: dict[str, dict[str, tuple[str, str]]] = {
    "Rule": {"about": ("one", "About"), "figures": ("each", "FigureSpec"),
             "variants": ("all", "Variant")},
    "Variant": {"when": ("one", "When"), "figures": ("each", "FigureSpec")},
    "CalculationEntry": {"about": ("one", "About"), "slots": ("each", "SlotSpec")},
    "SlotSpec": {"default": ("one", "Default"), "units": ("one", "Units"),
                 "above": ("one", "Amount"), "at_least": ("one", "Amount"),
                 "below": ("one", "Amount"), "at_most": ("one", "Amount")},
    "ActEntry": {"about": ("one", "About")},
    "FilmSheet": {"film": ("one", "FilmHead"), "overrides": ("each each", "FigureChange")},
    "FilmHead": {"thickness": ("one", "Amount"), "life": ("all", "Life")},
    "Vehicle": {"panels": ("all", "PanelSpec")},
    "PanelSpec": {"length": ("one", "Amount"), "height": ("one", "Amount")},
    "HouseOverride": {"figures": ("each", "FigureChange")},
}

Defaults = Mapping[str, Mapping[str, Any]]


class Record:
    """The attributes of an entry."""

    def __init__(self, **attributes: Any) -> None:
        self.__dict__.update(attributes)

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.__dict__.get('id', '')!r})"


class FigureRecord(Record, Numbered):
    """A figure, or the change of one."""


class AmountRecord(Record):
    """A number with its unit, or a slot's default."""

    value: float | None
    unit: str | None

    def quantity(self) -> Quantity:
        """The amount. Raises TypeError when it holds none."""
        if self.value is None or self.unit is None:
            raise TypeError("this default is no amount")
        return of(self.value, self.unit)


_CLASSES: dict[str, type[Record]] = {
    "FigureSpec": FigureRecord, "FigureChange": FigureRecord, "Amount": AmountRecord,
    "Life": FigureRecord,
    "Default": AmountRecord,
}


def taken_up(model: str, raw: Mapping[str, Any], defaults: Defaults) -> Any:
    """The record of a dumped model; what the dump leaves out has its default.

    defaults  model name -> attribute -> JSON value, for every model of SHAPES and those they hold
    """
    held = SHAPES.get(model, {})
    attributes: dict[str, Any] = {}
    for name, value in {**defaults[model], **raw}.items():
        if name in held and value is not None:
            how, inner = held[name]
            attributes[name] = _inner(how, inner, value, defaults)
        else:
            attributes[name] = tuple(value) if isinstance(value, list) else value
    return _CLASSES.get(model, Record)(**attributes)


def _inner(how: str, model: str, value: Any, defaults: Defaults) -> Any:
    if how == "one":
        return taken_up(model, value, defaults)
    if how == "all":
        return tuple(taken_up(model, each, defaults) for each in value)
    deeper = how.removeprefix("each").strip()
    return {
        key: _inner(deeper or "one", model, each, defaults) for key, each in value.items()
    }
