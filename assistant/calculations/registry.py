"""Registry: a calculation's id to its module, loaded when it is first wanted.

Owns the naming: entry `panel-film` is the file panel_film.py. What a module must hold is base.py's.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any, Protocol, cast

from assistant.calculations.base import Inputs, Result, Setting

_ROOM = __name__.rpartition(".")[0]
# Files of this room that are not calculations.
_SHARED = frozenset(("base", "registry"))


class CalculationModule(Protocol):
    """What a calculation's file offers."""

    Inputs: type[Inputs]

    def calculate(self, inputs: Any, setting: Setting) -> Result: ...


def calculation(calculation_id: str) -> CalculationModule:
    """The module of a calculation; only this one file is imported.

    Raises LookupError naming the file that should exist.
    """
    name = calculation_id.replace("-", "_")
    if not name.isidentifier() or name in _SHARED:
        raise LookupError(f"{calculation_id!r} is no id of a calculation")
    try:
        module = import_module(f"{_ROOM}.{name}")
    except ModuleNotFoundError as error:
        if error.name != f"{_ROOM}.{name}":
            raise
        raise LookupError(
            f"{calculation_id!r}: there is no assistant/calculations/{name}.py"
        ) from None
    if not (hasattr(module, "Inputs") and hasattr(module, "calculate")):
        raise LookupError(
            f"{calculation_id!r}: assistant/calculations/{name}.py needs Inputs and calculate()"
        )
    return cast(CalculationModule, module)
