"""A line in pieces: every piece keeps its place in the text as typed."""

from __future__ import annotations

from assistant.quantity.tokens import Line


def said(text):
    return [token.text for token in Line(text).tokens]


def test_numbers_words_and_marks_part_where_they_touch():
    assert said("92x31in, 60%") == ["92", "x", "31", "in", ",", "60", "%"]
    assert said("2.3m 1,200 5½") == ["2.3", "m", "1,200", "5", "½"]


def test_the_many_quotes_dashes_and_bars_are_one_of_each():
    assert said("6’2” 6′2″ 6'2''") == ["6", "'", "2", '"'] * 3
    assert said("185–195 −3 1⁄8") == ["185", "-", "195", "-", "3", "1", "/", "8"]


def test_accents_and_capitals_are_folded_and_places_are_not():
    line = Line("78 CENTÍMETROS, 24 DÍAS")
    assert [token.text for token in line.tokens] == ["78", "centimetros", ",", "24", "dias"]
    assert all(line.text[t.start:t.end].lower()[0] == t.text[0] for t in line.tokens)
    # The same word with its accent as a letter of its own, as some keyboards send it.
    assert said("di\u0301as") == ["dias"]


def test_the_sign_of_the_ordinal_stands_for_a_degree():
    assert said("17ºC") == ["17", "°", "c"]


def test_a_colour_change_of_a_terminal_is_no_length():
    assert said("\x1b[31mred\x1b[0m 5 in") == ["red", "5", "in"]


def test_looking_beyond_either_end_finds_nothing():
    line = Line("92 in")
    assert line.said(-1) == line.said(2) == "" and not line.glued(0)
    assert line.ends_at(2) and not line.ends_at(1)
