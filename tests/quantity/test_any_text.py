"""Whatever is typed: no crash, spans that fit, and work that grows only with the length."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.quantity.kinds import Quantity
from assistant.quantity.read import LONGEST_READ, UnclearQuantity, read

# The pieces that a line of the trade is made of, and the marks that break a careless reader.
PIECES = (
    "0 1 2 3 5 12 31 60 92 185 195 225 1.5 2,3 1,200 .5 1/8 5/0 ½ ¼ ² ³ two five twenty ninety "
    "hundred thousand half quarter eighth three a an of and point minus to by x × - – / + ± ~ : . "
    ", ; ( ) ' \" ’ ” ° º % $ € in inch mm cm m ft yd mil mill um F C f c degrees h min day week "
    "oz fl L ml psi ppm per hour air changes square cubic pm am jan may o'clock past between from "
    "or couple one the above below zero margin warmer rh iso lot 2019 12:30 10:1 m8 6ft2 1h30"
).split()
lines = st.lists(st.tuples(st.sampled_from(PIECES), st.sampled_from(("", " ", " ", "  ")))).map(
    lambda pieces: "".join(word + space for word, space in pieces)
)


def holds(text: str) -> None:
    last = 0
    for found in read(text):
        assert 0 <= found.start < found.end <= len(text)
        assert found.text == text[found.start:found.end]
        assert found.start >= last
        last = found.start
        assert found.low <= found.high
        assert found.sides >= 1
        try:
            low, high = found.quantities(found.unit or "in")
        except UnclearQuantity as unclear:
            assert " ".join(found.text.split()) in str(unclear)
        else:
            assert found.problem is None
            assert isinstance(low, Quantity) and isinstance(high, Quantity)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=80))
def test_any_text_at_all_is_read_without_a_crash(text):
    holds(text)


@settings(max_examples=600, deadline=None)
@given(lines)
def test_any_jumble_of_numbers_units_and_marks_is_read_without_a_crash(text):
    holds(text)


@settings(max_examples=100, deadline=None)
@given(lines)
def test_a_line_reads_the_same_every_time(text):
    assert read(text) == read(text)


@pytest.mark.parametrize("piece", [
    "9", " ", "1 ", "a ", "an hour ", '"', "1/", "-", "- ", "-1", "'\"", "1x", "one ",
    "two twenty ", "hundred ", "point ", "and a half ", "1,", "½", "6ft2", "between 1 and ", "6'",
    "+/-", "e\u0301", "1 square ", "1:", "is of a 5 F ", "Wait 24 h at 60-75 F, then 3 in. ",
])
def test_a_megabyte_in_one_line_is_read_at_once(piece):
    text = (piece * (1_000_000 // len(piece) + 1))[:1_000_000]
    began = time.process_time()
    found = read(text)
    # About 0.2 s on the slowest of these with a processor of its own; quadratic work takes hours.
    assert time.process_time() - began < 2
    assert all(each.end <= LONGEST_READ for each in found)


def test_a_long_text_is_not_cut_through_a_number():
    text = "x" * (LONGEST_READ - 2) + " 1234 in"
    assert read(text) == ()
    assert [each.text for each in read("x" * (LONGEST_READ - 9) + " 1234 in")] == ["1234 in"]
