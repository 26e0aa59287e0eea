"""Large letters are told apart from across the bay."""

import pytest

from assistant.screen.glyphs import Size, large

# Where each bar of a seven-bar digit lies in five rows of three dots, and which bars each digit
# lights: the usual lettering of such displays (a top, b and c right, d foot, e and f left, g
# middle). 1 and 7 are drawn in another way here, with a foot and a slanting leg.
BARS = {"a": (0, 1), "b": (1, 2), "c": (3, 2), "d": (4, 1), "e": (3, 0), "f": (1, 0), "g": (2, 1)}
LIT = {
    "0": "abcdef", "2": "abdeg", "3": "abcdg", "4": "bcfg", "5": "acdfg", "6": "acdefg",
    "8": "abcdefg", "9": "abcdfg",
}


@pytest.mark.parametrize("digit", LIT)
def test_a_digit_lights_the_bars_of_a_seven_bar_display(digit):
    rows = large(digit, Size.TALL)
    lit = {bar for bar, (row, column) in BARS.items() if rows[row][column] == "█"}
    assert lit == set(LIT[digit])


def test_no_two_letters_look_alike():
    letters = "0123456789.,:-/°%abcdefghijklmnopqrstuvwyzCFLPKW"
    drawn = {letter: tuple(large(letter, Size.TALL)) for letter in letters}
    assert len(set(drawn.values())) == len(letters)


@pytest.mark.parametrize("size", Size)
def test_every_row_of_a_line_is_of_one_width(size):
    rows = large("185-195 °F 1/4 in 400 ppm 7 days µm 25.2 ft² 3:00 pm", size)
    assert len(rows) == size.height and len({len(row) for row in rows}) == 1


def test_the_sizes_differ_only_in_how_a_dot_is_drawn():
    tall = large("2.49 m", Size.TALL)
    assert large("2.49 m", Size.WIDE) == ["".join(dot * 2 for dot in row) for row in tall]
    halves = {"█": "██", "▀": "█ ", "▄": " █", " ": "  "}
    low = ["".join(halves[dot][half] for dot in row) for row in large("2.49 m", Size.LOW)
           for half in (0, 1)]
    assert low[:5] == tall and low[5].strip() == ""


def test_a_letter_without_a_large_form_is_not_left_out_in_silence():
    assert large("225 ☃", Size.TALL) is None
    assert large("", Size.TALL) is None
