"""Text in and out, whatever bytes and encodings stand at either end."""

import io

import pytest

from assistant.streams import argument, complain, printable, speak, typed_lines


class Pipe(io.TextIOWrapper):
    """A stream over bytes, like the process's own."""

    def __init__(self, given: bytes = b"", encoding: str = "utf-8") -> None:
        super().__init__(io.BytesIO(given), encoding=encoding)


@pytest.mark.parametrize(
    ("given", "lines"),
    [
        (b"one\ntwo\n", ["one", "two"]),
        (b"one\r\ntwo", ["one", "two"]),
        (b"\n\n", ["", ""]),
        (b"", []),
        (b"\xef\xbb\xbfhow hot\n\xef\xbb\xbf\n", ["how hot", "\ufeff"]),
        (b"22 \xb0C\n", ["22 \N{REPLACEMENT CHARACTER}C"]),
        ("22 °C\n".encode(), ["22 °C"]),
        (b"a\x00b\x0cc\x1cd\n", ["a\x00b\x0cc\x1cd"]),
    ],
)
def test_a_line_is_what_stands_between_two_line_ends(given, lines):
    assert list(typed_lines(Pipe(given))) == lines


def test_a_narrow_encoding_gets_words_for_what_it_cannot_print():
    assert printable("225 °F (107 °C)", "ascii") == "225 deg F (107 deg C)"
    assert printable("225 °F", "latin-1") == "225 °F"
    assert printable("1 µm ≥ ½ ☃", "ascii") == "1 um >= 1/2 ?"
    assert printable("225 °F", "no-such-encoding") == "225 deg F"


def test_what_is_spoken_can_move_no_cursor():
    pipe = Pipe()
    speak("a\x1b]0;title\x07b\x9b2J\u202ec", pipe)
    assert pipe.buffer.getvalue().decode() == "a␛]0;title␇b\ufffd2J\ufffdc\n"


def test_a_closed_output_is_an_error_and_a_closed_error_stream_is_not(monkeypatch):
    monkeypatch.setattr("sys.stdout", None)
    with pytest.raises(OSError, match="closed"):
        speak("hello")
    monkeypatch.setattr("sys.stderr", None)
    complain("hello")


def test_an_argument_that_the_locale_could_not_read_is_read_as_utf_8():
    # PEP 383: bytes that cannot be decoded come as lone surrogates.
    assert argument("95 °C".encode().decode("ascii", "surrogateescape")) == "95 °C"
    assert argument(b"95 \xb0C".decode("utf-8", "surrogateescape")) == "95 \ufffdC"
    assert argument("95 °C") == "95 °C"
