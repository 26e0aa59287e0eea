"""Template: the figures that a text of a rule names in braces.

Owns finding and filling them: `{target}` is a figure of the same rule, `{bleed.each_edge}` one of
another. How a figure is worded is quantity/write.py's; which number it is, layers.py's.
"""

from __future__ import annotations

import re
from collections.abc import Callable

_PLACE = re.compile(r"\{([^{}\n]*)\}")
_NAME = re.compile(r"(?:[a-z0-9]+(?:-[a-z0-9]+)*\.)?[a-z0-9]+(?:[_-][a-z0-9]+)*")


def names(text: str) -> tuple[str, ...]:
    """The names in braces, in reading order, each once."""
    return tuple(dict.fromkeys(_PLACE.findall(text)))


def stray(text: str) -> str | None:
    """What of the braces can be no name of a figure; None when all is well."""
    for name in names(text):
        if not _NAME.fullmatch(name):
            return "{" + name + "}"
    left = _PLACE.sub("", text)
    return next((brace for brace in "{}" if brace in left), None)


def fill(text: str, worded: Callable[[str], str | None]) -> str:
    """The text with each name in braces worded; a name that nobody knows stays as it stands.

    Whatever a word brings in is not looked at again: a brace in it is a brace.
    """
    def one(found: re.Match[str]) -> str:
        words = worded(found[1])
        return found[0] if words is None else words

    return _PLACE.sub(one, text)


def bare(text: str) -> str:
    """The text without its figures, for comparing words."""
    return " ".join(_PLACE.sub(" ", text).split())
