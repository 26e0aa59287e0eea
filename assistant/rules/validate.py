"""Validate: a table of a file as a model, or its errors as problems.

Owns the wording of what the models refuse. What they refuse is models.py's and its neighbours'.
"""

from __future__ import annotations

from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError

from assistant.rules.problem import Problem, listed, near, quoted

M = TypeVar("M", bound=BaseModel)

# Keys that the loader fills in; a file that writes them has mistaken something.
GIVEN = frozenset(("id", "file", "subject", "layer"))


def built(
    model: type[M], data: Any, file: str, table: str, problems: list[Problem], /, **given: Any
) -> M | None:
    """The model of a table; None, and the reasons among the problems, when it is refused.

    given  what the loader knows and the file does not say (id, subject, ...)
    """
    if "file" in model.model_fields:
        given["file"] = file
    if not isinstance(data, dict):
        problems.append(Problem(file, table, "", f"is {quoted(data)}",
                                f"Write a table: [{table}] and its keys below it."))
        return None
    told = GIVEN & data.keys()
    if told:
        problems += [
            Problem(file, table, key, "is not written in the file",
                    "Take it out; the name of the table and of the file tell it.")
            for key in sorted(told)
        ]
        return None
    try:
        return model.model_validate({**data, **given})
    except ValidationError as refused:
        problems += [_told(error, model, file, table) for error in refused.errors()]
        return None


def _path(loc: tuple[Any, ...]) -> str:
    text = ""
    for part in loc:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            text += f".{part}" if text else str(part)
    return text


def _told(error: Any, model: type[BaseModel], file: str, table: str) -> Problem:
    loc = tuple(error["loc"])
    kind, value = error["type"], error.get("input")
    if kind == "told":
        details = error["ctx"]
        inner = _path(loc)
        return Problem(
            file, ".".join(part for part in (table, inner) if part), details["key"],
            details["wrong"], details["remedy"],
        )
    # The last step is the key; what leads to it belongs to the table.
    head, last = loc[:-1], loc[-1] if loc else ""
    if isinstance(last, int):
        head, last = loc[:-2], _path(loc[-2:])
    where = ".".join(part for part in (table, _path(head)) if part)
    wrong, remedy = _words(kind, value, error, model, loc)
    return Problem(file, where, str(last), wrong, remedy)


def _words(
    kind: str, value: Any, error: Any, model: type[BaseModel], loc: tuple[Any, ...]
) -> tuple[str, str]:
    if kind == "extra_forbidden":
        return "is no key here", _known_keys(model, loc, value)
    if kind == "missing":
        return "is missing", f"Write {loc[-1]} = ..."
    if kind == "literal_error":
        expected = error["ctx"]["expected"].replace("'", '"')
        return f"is {quoted(value)}", f"One of {expected}."
    if kind == "string_too_short":
        return "is empty", "Write it out, or take the key away."
    if kind == "string_type":
        return f"is {quoted(value)}", "Write a text in quotes."
    if kind in ("float_type", "int_type", "int_parsing", "int_from_float"):
        return f"is {quoted(value)}", "Write a number without quotes."
    if kind == "finite_number":
        return f"is {quoted(value)}", "Write a number that can be."
    if kind == "bool_type":
        return f"is {quoted(value)}", "Write true or false."
    if kind in ("tuple_type", "list_type"):
        return f"is {quoted(value)}", 'Write a list: ["...", "..."].'
    if kind in ("model_type", "dict_type", "model_attributes_type"):
        return f"is {quoted(value)}", "Write a table: { key = value }."
    return f"is {quoted(value)}", f"{error['msg'].rstrip('.')}."


def _known_keys(model: type[BaseModel], loc: tuple[Any, ...], value: Any) -> str:
    inner: type[BaseModel] | None = model
    for part in loc[:-1]:
        # Steps that are no field are places in a list or names in a table: the model stays.
        if inner is not None and part in inner.model_fields:
            inner = _model_in(inner.model_fields[str(part)].annotation)
    if inner is None:
        return "Take it out."
    keys = [key for key in inner.model_fields if key not in GIVEN]
    last = str(loc[-1])
    if "figures" in keys and isinstance(value, dict):
        return f"A figure stands under figures: write figures.{last}."
    return near(last, keys, f"Known here: {listed(keys, 'and')}.")


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """The model that an annotation holds, however it is wrapped."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for each in get_args(annotation) if (found := _model_in(each))), None)
