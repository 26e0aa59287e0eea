"""The board shows the main figure large, with its unit and its name in words."""

import pytest

from assistant.reply import RESULT, Figure, Reply
from assistant.screen.board import board_rows, main_figure
from assistant.screen.glyphs import Size, large
from tests.screen.scenes import BUMPER, READY, UNKNOWN, WHICH, play, rows, typed

LIMIT = "average over an eight-hour shift, at most"


def of(shown: str, name: str = "what it is") -> Reply:
    return Reply(RESULT, "So.", figures=(Figure(name, 1, 1, "in", shown),))


@pytest.mark.parametrize(
    ("shown", "drawn"),
    [
        ("225 °F (107 °C)", "225 °F"),
        ("185-195 °F (85-91 °C)", "185-195 °F"),
        ("98 in (2.49 m)", "98 in"),
        ("1/4-1/2 in (6.5-13 mm)", "1/4-1/2 in"),
        ("2.49 m (98 in)", "2.49 m"),
        ("400 ppm", "400 ppm"),
        ("7 days", "7 days"),
        ("40-60%", "40-60%"),
        ("25.2 ft² (2.34 m²)", "25.2 ft²"),
        ("2-4 mil (51-102 µm)", "2-4 mil"),
        ("51-102 µm (2-4 mil)", "51-102 µm"),
        ("12 fl oz (355 mL)", "12 fl oz"),
        ("1,234.56", "1,234.56"),
        ("0.95", "0.95"),
    ],
)
def test_a_figure_is_drawn_with_its_unit_in_the_widest_form_that_fits(shown, drawn):
    board = board_rows(of(shown), 78, 24)
    wide = [row.rstrip() for row in large(drawn, Size.WIDE)]
    assert [row[: len(want)] for row, want in zip(board, wide, strict=False)] == wide
    assert any(shown in row for row in board)
    narrow = board_rows(of(shown), 38, 20)
    tall = [row.rstrip() for row in large(drawn, Size.TALL)]
    wide_fits = len(large(drawn, Size.WIDE)[0]) <= 38
    assert narrow[:5] == (wide if wide_fits else tall)


@pytest.mark.parametrize("width", [18, 24, 30, 38, 60, 78, 118])
@pytest.mark.parametrize("height", [12, 20, 24, 40])
def test_the_unit_and_the_name_stand_by_the_digits_on_every_screen(width, height):
    board = board_rows(of("400 ppm", LIMIT), width, height)
    assert board and max(len(row) for row in board) <= width
    words = " ".join(" ".join(board).replace("█", "").split())
    assert "400 ppm" in words and "average over" in words


def test_a_figure_too_long_for_the_screen_keeps_its_number_large_and_its_unit_in_words():
    board = board_rows(of("1/4-1/2 in (6.5-13 mm)", "wrap-behind"), 30, 20)
    assert board[:5] == [row.rstrip() for row in large("1/4-1/2", Size.TALL)]
    assert board[5] == "1/4-1/2 in (6.5-13 mm)"


def test_a_low_screen_gets_low_digits_and_a_very_low_one_none():
    assert board_rows(of("225 °F"), 78, 17)[:3][0].startswith(large("225 °F", Size.LOW)[0].rstrip())
    assert board_rows(of("225 °F"), 78, 10) == []


def test_a_moment_is_shown_where_there_is_no_figure():
    assert main_figure(READY) == ("3:00 pm", "ready")
    assert main_figure(BUMPER) == ("98 in (2.49 m)", "length off the roll")


def test_a_reply_without_a_figure_has_no_board():
    for reply in (WHICH, UNKNOWN, None):
        assert board_rows(reply, 78, 24) == []


def test_control_characters_in_a_name_are_shown_and_never_sent():
    board = board_rows(of("98 in", "cut\x1b[31m length"), 78, 24)
    assert "\x1b" not in "".join(board) and "␛[31m" in " ".join(board)


@pytest.mark.parametrize("line", ["which", "giraffe"])
def test_a_question_back_and_an_unknown_line_clear_the_board(line):
    async def scene(app, pilot):
        await typed(app, pilot, "overlap")
        shown = app.board.display
        await typed(app, pilot, line)
        return shown, app.board.display, any("█" in row for row in rows(app))

    assert play(scene) == (True, False, False)


def test_a_thank_you_leaves_the_figure_on_the_board():
    async def scene(app, pilot):
        await typed(app, pilot, "overlap", "thanks")
        return any("225 °F (107 °C)" in row for row in rows(app)[:5])

    assert play(scene)


def test_f2_folds_the_board_and_opens_it_again():
    async def scene(app, pilot):
        await typed(app, pilot, "overlap")
        seen = [app.board.display]
        for _ in range(2):
            await pilot.press("f2")
            await pilot.pause()
            seen.append(app.board.display)
        await pilot.press("f2")
        await typed(app, pilot, "bumper")
        return [*seen, app.board.display]

    assert play(scene) == [True, False, True, False]
