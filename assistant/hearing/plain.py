"""Plain text: the door that every typed, pasted or loaded line passes.

Owns which characters are harmless to show. What the words mean belongs to hear.py.
"""

from __future__ import annotations

import re

# C0 and C1 controls, bidirectional marks and overrides, line and paragraph separators, the byte
# order mark and lone surrogates: characters that move a cursor, turn the text around, or crash an
# encoder. Newline and tab stay.
_UNSHOWABLE = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028\u2029\u202a-\u202e"
    "\u2066-\u2069\ufeff\ud800-\udfff]"
)
_CONTROL_PICTURES = 0x2400


def plain(text: str) -> str:
    """The text with every character that could act on a terminal made visible.

    A C0 control becomes its control picture, anything else the replacement character; line ends
    of all systems become a newline. Any text at all is accepted; the result encodes as UTF-8.
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return _UNSHOWABLE.sub(_picture, text)


def _picture(found: re.Match[str]) -> str:
    if found[0] < " ":
        return chr(_CONTROL_PICTURES + ord(found[0]))
    return "\N{REPLACEMENT CHARACTER}"
