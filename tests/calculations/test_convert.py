"""Conversions against NIST SP 811 (2008), Appendix B.8 (factors as remembered of it) and pint."""

from __future__ import annotations

import pint
import pytest

from assistant.calculations.base import Impossible, Missing
from assistant.calculations.convert import Inputs, calculate, counterpart
from assistant.quantity.kinds import of
from assistant.quantity.write import System

PINT = pint.UnitRegistry()
_PINT_NAMES = {
    "in": "inch", "ft": "foot", "yd": "yard", "um": "micrometer", "mil": "thou", "ft2": "foot**2",
    "m2": "m**2", "yd2": "yard**2", "floz": "fluid_ounce", "gal": "gallon", "lb": "pound",
    "oz": "ounce", "degF": "degF", "degC": "degC", "dF": "delta_degF", "dC": "delta_degC",
}


def name(unit: str) -> str:
    return _PINT_NAMES.get(unit, unit)


# Slot, value, unit, wanted, expected. NIST SP 811 factors; temperatures by (F - 32) / 1.8.
ROWS = [
    ("temperature", 225, "degF", "degC", 107.2222), ("temperature", -40, "degF", "degC", -40),
    ("temperature", 20, "degC", "degF", 68), ("length", 3, "in", "mm", 76.2),
    ("length", 78, "cm", "in", 30.70866), ("length", 80, "um", "mil", 3.149606),
    ("length", 25, "yd", "m", 22.86), ("length", 60, "in", "m", 1.524),
    ("length", 250, "um", "mil", 9.842520), ("area", 375, "ft2", "m2", 34.83864),
    ("pressure", 40, "psi", "bar", 2.757903), ("volume", 16, "floz", "mL", 473.1765),
    ("volume", 1, "gal", "L", 3.785411784), ("mass", 12, "lb", "kg", 5.443108),
    ("difference", 3, "dC", "dF", 5.4),
]


@pytest.mark.parametrize(("slot", "value", "unit", "wanted", "expected"), ROWS)
def test_the_figure_is_the_quantity_in_the_unit_wanted(us, slot, value, unit, wanted, expected):
    result = calculate(Inputs(**{slot: of(value, unit)}, to=wanted), us)
    figure = result.figures[0]
    assert figure.unit == wanted
    assert figure.low.to(wanted) == pytest.approx(expected, rel=1e-6)
    assert PINT.Quantity(value, name(unit)).to(name(wanted)).magnitude == pytest.approx(
        expected, rel=1e-6
    )


def test_a_difference_asked_for_in_degrees_f_is_not_shifted_by_32(metric):
    # 3 °C warmer is 5.4 °F warmer; as a temperature it would be 37.4 °F.
    result = calculate(Inputs(difference=of(3, "dC"), to="degF"), metric)
    assert result.figures[0].unit == "dF"
    assert result.figures[0].low.to("dF") == pytest.approx(5.4)


def test_without_a_unit_wanted_the_other_system_is_told(us, metric):
    assert calculate(Inputs(temperature=of(225, "degF")), us).figures[0].unit == "degC"
    assert calculate(Inputs(temperature=of(107, "degC")), metric).figures[0].unit == "degF"
    assert calculate(Inputs(length=of(80, "um")), metric).figures[0].unit == "mil"


def test_the_answer_is_told_in_the_unit_wanted_whoever_asks(us):
    assert calculate(Inputs(length=of(25, "yd"), to="m"), us).answer == "25 yd is 22.86 m."


@pytest.mark.parametrize(("length", "system", "unit"), [
    (of(80, "um"), System.US, "mil"), (of(3, "in"), System.METRIC, "mm"),
    (of(30, "in"), System.METRIC, "cm"), (of(25, "yd"), System.METRIC, "m"),
    (of(22.86, "m"), System.US, "yd"), (of(2.3, "m"), System.US, "in"),
])
def test_a_length_gets_the_unit_that_fits_its_size(length, system, unit):
    assert counterpart(length, system) == unit


def test_an_area_is_not_told_in_millimetres(us):
    with pytest.raises(Impossible) as refused:
        calculate(Inputs(area=of(375, "ft2"), to="mm"), us)
    assert refused.value.slot == "to"


def test_nothing_to_convert_is_asked_for(us):
    with pytest.raises(Missing):
        calculate(Inputs(to="mm"), us)
