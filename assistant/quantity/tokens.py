"""Tokens: a line as numbers, words and signs, each with its place in the text.

Owns the cutting and the folding of letters (case, accents, curly quotes, the many dashes). What a
run of tokens is worth is numbers.py's and units.py's.
"""

from __future__ import annotations

import re
from typing import NamedTuple
from unicodedata import combining, normalize

NUMBER, WORD, SIGN, EDGE = "number", "word", "sign", "edge"

# One alternative a token and nothing nested, so that the scan is linear in the text. Vulgar
# fractions, superscripts and the ordinal sign that often stands for a degree count as letters in
# Python's eyes; they are signs here.
_NOT_LETTERS = r"\W\d_ºª½¼¾⅐-⅟↉²³¹⁰-₟"
_TOKEN = re.compile(
    rf"(?P<number>\d+(?:[.,]\d+)*)"
    rf"|(?P<word>[^{_NOT_LETTERS}](?:[^{_NOT_LETTERS}]|[\u0300-\u036f])*)"
    r"|(?P<sign>''|’’|′′|‘‘|[^\w\s]|[_ºª½¼¾⅐-⅟↉²³¹⁰-₟])"
)
# A pasted colour change, `ESC [ 31 m`, is no 31 metres.
_ESCAPE = re.compile(r"(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]")
_SIGNS = str.maketrans({
    "’": "'", "‘": "'", "′": "'", "´": "'", "`": "'", "ʹ": "'",
    "“": '"', "”": '"', "„": '"', "″": '"', "ʺ": '"',
    "‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "―": "-", "−": "-", "﹣": "-", "－": "-",
    "⁄": "/", "∕": "/", "／": "/", "º": "°", "˚": "°", "％": "%", "✕": "×", "✖": "×", "∗": "*",
    "⨯": "×", "∶": ":", "≃": "≈", "∼": "~", "〜": "~",
})


class Token(NamedTuple):
    """A piece of the line.

    kind        number | word | sign | edge (before the first and after the last)
    text        folded: lower case, no accents, straight quotes, one kind of dash
    start, end  its span in the line
    """

    kind: str
    text: str
    start: int
    end: int


_EDGE = Token(EDGE, "", -1, -1)


def _fold(word: str) -> str:
    word = word.lower()
    if word.isascii():
        return word
    bare = "".join(letter for letter in normalize("NFD", word) if not combining(letter))
    return bare.replace("μ", "µ")


def _folded_sign(sign: str) -> str:
    plain = sign.translate(_SIGNS)
    return '"' if plain == "''" else plain


class Line:
    """The tokens of one text; any place outside it is an edge, so that looking on is safe."""

    __slots__ = ("text", "tokens", "size", "quotes")

    def __init__(self, text: str) -> None:
        self.text = text
        made = []
        if "\x1b" in text or "\x9b" in text:
            text = _ESCAPE.sub(lambda match: " " * len(match[0]), text)
        for match in _TOKEN.finditer(text):
            kind = match.lastgroup
            piece = match[0]
            if kind == "word":
                piece = _fold(piece)
            elif kind == "sign" and piece != '"' and piece != "-":
                piece = _folded_sign(piece)
            made.append(Token(kind, piece, match.start(), match.end()))  # type: ignore[arg-type]
        self.tokens = made
        self.size = len(made)
        self.quotes: frozenset[int] | None = None  # units.py's: places of quotation marks

    def at(self, place: int) -> Token:
        return self.tokens[place] if 0 <= place < self.size else _EDGE

    def said(self, place: int) -> str:
        """The folded text at a place; empty beyond the edges."""
        return self.tokens[place].text if 0 <= place < self.size else ""

    def kind(self, place: int) -> str:
        return self.tokens[place].kind if 0 <= place < self.size else EDGE

    def is_number(self, place: int) -> bool:
        return 0 <= place < self.size and self.tokens[place].kind == NUMBER

    def is_word(self, place: int) -> bool:
        return 0 <= place < self.size and self.tokens[place].kind == WORD

    def glued(self, place: int) -> bool:
        """Whether this token follows the one before it without a space."""
        return 0 < place < self.size and self.tokens[place - 1].end == self.tokens[place].start

    def span(self, first: int, after: int) -> tuple[int, int]:
        """Where tokens `first` to `after` (not included) stand in the text."""
        return self.tokens[first].start, self.tokens[after - 1].end

    def slice(self, first: int, after: int) -> str:
        start, end = self.span(first, after)
        return self.text[start:end]

    def ends_at(self, place: int) -> bool:
        """Whether the line, or a clause of it, ends before this token."""
        return self.kind(place) == EDGE or self.said(place) in ENDS


ENDS = frozenset(".,;:?!)(]") | {"…"}
