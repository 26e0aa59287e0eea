"""Plain text: what is typed can never act on the terminal that shows it."""

from hypothesis import given
from hypothesis import strategies as st

from assistant.hearing.plain import plain


def test_an_escape_sequence_is_shown_and_not_obeyed():
    assert plain("P\x1b[31mRED\x07") == "P␛[31mRED␇"


def test_text_turned_around_by_an_override_is_marked():
    assert plain("a\u202eb") == "a\N{REPLACEMENT CHARACTER}b"


def test_line_ends_of_every_system_become_one():
    assert plain("a\r\nb\rc\nd") == "a\nb\nc\nd"


def test_ordinary_words_of_any_language_and_pictures_pass_as_they_are():
    for text in ("how hot?", "cuánto overlap", "🔥 225 °F", "6'2\" x 4½", "tab\tkept"):
        assert plain(text) == text


@given(st.text(st.characters()))
def test_any_text_at_all_comes_out_fit_for_an_encoder(text):
    shown = plain(text)
    shown.encode("utf-8")
    assert not any(letter < " " and letter not in "\n\t" for letter in shown)
