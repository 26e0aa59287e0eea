"""Figures, fractions and number words; expected values by plain arithmetic."""

from __future__ import annotations

import pytest

from assistant.quantity.numbers import number_at
from assistant.quantity.read import read
from assistant.quantity.tokens import Line


def worth(text: str) -> float:
    line = Line(text)
    number = number_at(line, 0)
    assert number is not None and number.problem is None, text
    assert number.after == line.size, f"{text!r} is read only in part"
    return number.value


@pytest.mark.parametrize(("text", "value"), [
    ("92", 92), ("2.3", 2.3), (".5", 0.5), ("-3", -3), ("+5", 5), ("−3", -3), ("minus 3", -3),
    ("5 1/8", 5.125), ("5-1/8", 5.125), ("1/8", 0.125), ("5½", 5.5), ("5 ½", 5.5), ("¼", 0.25),
    ("⅛", 0.125), ("5 1⁄8", 5.125), ("3 and a half", 3.5), ("2 and 3/4", 2.75),
    ("3 and three quarters", 3.75), ("2 hundred", 200), ("2 point 3", 2.3), ("٣", 3),
])
def test_figures_as_they_are_typed(text, value):
    assert worth(text) == value


@pytest.mark.parametrize(("text", "value"), [
    ("2,3", 2.3), ("12,5", 12.5), ("0,125", 0.125), ("1,200", 1200), ("12,000", 12000),
    ("1,200,000", 1200000), ("1,200.5", 1200.5), ("1.200,5", 1200.5), ("1.520", 1.52),
])
def test_a_comma_before_three_digits_parts_thousands_and_any_other_is_decimal(text, value):
    assert worth(text) == value


@pytest.mark.parametrize(("text", "value"), [
    ("seven", 7), ("nineteen", 19), ("ninety two", 92), ("ninety-two", 92),
    ("two hundred", 200), ("a hundred", 100), ("a hundred and forty", 140),
    ("two hundred and twenty five", 225), ("two hundred twenty five", 225),
    ("two twenty five", 225), ("one eighty five", 185), ("two twelve", 212), ("one oh five", 105),
    ("one eight five", 185), ("twelve hundred", 1200), ("two thousand", 2000),
    ("two thousand five hundred and ten", 2510), ("two hundred thousand", 200000),
    ("two point three", 2.3), ("two point two five", 2.25), ("two point seventy five", 2.75),
    ("zero point oh five", 0.05), ("point five", 0.5), ("minus three", -3),
    ("three and a half", 3.5), ("two-and-a-half", 2.5), ("one and one half", 1.5),
    ("two and three quarters", 2.75), ("five and five eighths", 5.625),
    ("one and one sixteenth", 1.0625), ("ninety two and a half", 92.5), ("five eighths", 0.625),
    ("seven sixteenths", 0.4375), ("an eighth", 0.125), ("a quarter", 0.25), ("half", 0.5),
    ("two thirds", 2 / 3), ("a couple of", 2), ("a dozen", 12), ("half a dozen", 6),
])
def test_numbers_as_they_are_dictated(text, value):
    assert worth(text) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(("text", "said"), [
    ("5/0 in", "divided by zero"), ("1/2/3", "two fraction bars"), ("12..5 in", "points"),
    ("1.2.3 in", "points and commas"), ("195/225 F", "a fraction or two numbers"),
    ("9" * 60, "so many digits"), ("1e400 in 9" + "9" * 400, "so many digits"),
])
def test_what_makes_no_number_is_named_and_not_guessed(text, said):
    problems = [found.problem for found in read(text) if found.problem]
    assert len(problems) == 1 and said in problems[0]


def test_seventy_thirty_is_a_mix_and_not_a_fraction():
    assert [(f.low, f.unit, f.sides) for f in read("wipe with 70/30")] == [
        (70, "percent", 1), (30, "percent", 1),
    ]
    assert [f.low for f in read("70-30 alcohol and water")] == [70, 30]


def test_two_numbers_dictated_one_after_the_other_stay_two():
    assert [f.low for f in read("ninety two by thirty one")] == [92, 31]
    assert [f.low for f in read("between two hundred and two twenty five F")] == [200]
    assert [f.high for f in read("between two hundred and two twenty five F")] == [225]
