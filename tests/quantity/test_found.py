"""From a number in a line to a quantity, or to words that say why not."""

from __future__ import annotations

import pytest

from assistant.quantity.kinds import BadQuantity, Length, Mass, Temperature, TemperatureDifference
from assistant.quantity.read import UnclearQuantity, read


def first(text):
    return read(text)[0]


def test_a_number_with_a_unit_is_a_quantity():
    assert first("92 in").quantity() == Length.of(92, "in")
    assert first("92 in").kind == "length" and not first("92 in").bare
    assert first("185-195 F").quantities() == (
        Temperature.fahrenheit(185), Temperature.fahrenheit(195),
    )


def test_a_bare_number_takes_the_unit_it_is_given():
    assert first("92").quantity("in") == Length.of(92, "in")
    assert first("92").bare and first("92").kind is None
    with pytest.raises(UnclearQuantity, match='"92" has no unit'):
        first("92").quantity()


def test_a_unit_that_was_said_is_kept():
    assert first("78 cm").quantity("in") == Length.of(78, "cm")
    with pytest.raises(UnclearQuantity, match='"78 cm" is a length, not a temperature'):
        first("78 cm").quantity("degF")


def test_three_degrees_become_a_margin_where_a_margin_is_asked_for():
    assert first("3 C").quantity("dC") == TemperatureDifference.celsius(3)
    assert first("3 C").quantity("dF") == TemperatureDifference.celsius(3)
    assert first("3 C above it").quantity("degF") == Temperature.celsius(3)


def test_bare_degrees_ask_for_their_scale():
    assert first("17 degrees").quantity("degC") == Temperature.celsius(17)
    with pytest.raises(UnclearQuantity, match="°F or °C"):
        first("17 degrees").quantity()
    with pytest.raises(UnclearQuantity, match="in degrees, not a length"):
        first("17 degrees").quantity("in")


def test_ounces_are_fluid_until_something_is_weighed():
    assert first("16 oz").kind == "volume"
    assert first("16 oz").quantity("g") == Mass.of(16, "oz")
    assert first("16 oz").quantity("oz") == Mass.of(16, "oz")


@pytest.mark.parametrize(("text", "unit", "said"), [
    ("5/0 in", None, '"5/0 in" is not clear: nothing can be divided by zero'),
    ("-500 F", None, '"-500 F" is not clear: that is below absolute zero'),
    ("-500", "degF", '"-500" cannot be: that is below absolute zero'),
])
def test_what_cannot_be_is_named_by_its_text(text, unit, said):
    with pytest.raises(UnclearQuantity) as unclear:
        first(text).quantity(unit)
    assert str(unclear.value).startswith(said)


def test_a_unit_that_does_not_exist_is_the_callers_mistake():
    with pytest.raises(BadQuantity, match="furlong"):
        first("3").quantity("furlong")


@pytest.mark.parametrize("text", [
    "about 3 in", "roughly 3 in", "~3 in", "3 in or so", "3-ish in", "3ish in", "around 3 in",
    "a couple of inches", "an inch or two",
])
def test_a_rough_number_is_marked(text):
    assert first(text).approx
    assert not first("3 in").approx
