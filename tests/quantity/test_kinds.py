"""Factors and arithmetic.

The factors are those of NIST SP 811 (2008), Appendix B.8; the values stand here from memory and
agree with pint, which is asked beside them. Those of the inch, the pound and the gallon are exact
by definition.
"""

from __future__ import annotations

import copy
import pickle
from decimal import Decimal

import pint
import pytest

from assistant.quantity.kinds import (
    KINDS,
    UNITS,
    Area,
    ArealMass,
    BadQuantity,
    Count,
    Duration,
    Flow,
    Length,
    Mass,
    Money,
    Quantity,
    Rate,
    Temperature,
    TemperatureDifference,
    Volume,
    kind_of,
    of,
)

PINT = pint.UnitRegistry()
PINT_NAMES = {
    "in": "inch", "ft": "foot", "yd": "yard", "mil": "thou", "um": "micrometer", "mi": "mile",
    "m2": "m**2", "ft2": "foot**2", "yd2": "yard**2", "in2": "inch**2", "cm2": "cm**2",
    "mm2": "mm**2", "floz": "fluid_ounce", "gal": "gallon", "qt": "quart", "pt": "pint",
    "impfloz": "imperial_fluid_ounce", "ft3": "foot**3", "m3": "m**3", "lb": "pound",
    "oz": "ounce", "min": "minute", "h": "hour", "dC": "delta_degC", "dF": "delta_degF",
    "mg/m3": "mg/m**3", "g/m3": "g/m**3", "g/m2": "g/m**2", "kg/m2": "kg/m**2", "per_h": "1/hour",
    "m3/h": "m**3/hour", "cfm": "foot**3/minute", "percent": "percent", "K": "kelvin",
    "ratio": "dimensionless", "ppm": "ppm",
}
# Unit, SI factor as SP 811 prints it, whether exact.
SP_811 = [
    ("in", 2.54e-2, True), ("ft", 3.048e-1, True), ("yd", 9.144e-1, True),
    ("mi", 1.609344e3, True), ("mil", 2.54e-5, True), ("ft2", 9.290304e-2, True),
    ("yd2", 8.361274e-1, False), ("in2", 6.4516e-4, True), ("floz", 2.957353e-5, False),
    ("impfloz", 2.841306e-5, False), ("gal", 3.785412e-3, False), ("qt", 9.463529e-4, False),
    ("pt", 4.731765e-4, False), ("ft3", 2.831685e-2, False), ("lb", 4.535924e-1, False),
    ("oz", 2.834952e-2, False), ("psi", 6.894757e3, False), ("bar", 1e5, True),
    ("mmHg", 1.333224e2, False), ("cfm", 4.719474e-4, False),
]


@pytest.mark.parametrize(("unit", "factor", "exact"), SP_811)
def test_a_unit_is_worth_what_nist_sp_811_prints(unit, factor, exact):
    # The printed form has seven digits.
    assert of(1, unit).si == pytest.approx(factor, rel=1e-15 if exact else 2e-7)


@pytest.mark.parametrize("unit", [
    unit for unit in UNITS if unit not in ("degC", "degF", "money", "count")
])
def test_a_unit_is_worth_what_pint_says(unit):
    theirs = PINT.Quantity(1, PINT_NAMES.get(unit, unit)).to_base_units()
    ours = of(1, unit).si
    scale = 1e3 if theirs.units == PINT.gram else 1
    assert ours * scale == pytest.approx(theirs.magnitude, rel=1e-8)


@pytest.mark.parametrize(("fahrenheit", "celsius"), [
    # (F - 32) / 1.8; the rows that two reference libraries give alike.
    (-459.67, -273.15), (-40, -40), (0, -17.7778), (32, 0), (68, 20), (77, 25), (98.6, 37),
    (160, 71.1111), (212, 100), (225, 107.2222), (250, 121.1111), (400, 204.4444),
])
def test_fahrenheit_and_celsius_agree_on_a_reading(fahrenheit, celsius):
    assert Temperature.fahrenheit(fahrenheit).to("degC") == pytest.approx(celsius, abs=5e-5)
    assert Temperature.celsius(celsius).to("degF") == pytest.approx(fahrenheit, abs=1e-4)
    theirs = PINT.Quantity(fahrenheit, "degF").to("degC").magnitude
    assert Temperature.fahrenheit(fahrenheit).to("degC") == pytest.approx(theirs, abs=1e-9)


def test_three_degrees_celsius_more_is_not_37_fahrenheit():
    assert TemperatureDifference.celsius(3).to("dF") == pytest.approx(5.4)
    assert Temperature.celsius(3).to("degF") == pytest.approx(37.4)


def test_two_readings_differ_by_degrees_and_do_not_add():
    gap = Temperature.celsius(16) - Temperature.celsius(13)
    assert isinstance(gap, TemperatureDifference) and gap.to("dC") == pytest.approx(3)
    assert Temperature.celsius(13) + gap == Temperature.celsius(16)
    assert gap + Temperature.celsius(13) == Temperature.celsius(16)
    for senseless in (
        lambda: Temperature.celsius(20) + Temperature.celsius(3),
        lambda: Temperature.celsius(20) * 2,
        lambda: Temperature.celsius(20) / 2,
        lambda: -Temperature.celsius(20),
    ):
        with pytest.raises(TypeError):
            senseless()


def test_nothing_is_colder_than_absolute_zero():
    assert Temperature.of(-459.67, "degF").si == 0
    for value, unit in ((-459.68, "degF"), (-273.16, "degC"), (-1, "K")):
        with pytest.raises(BadQuantity, match="absolute zero"):
            Temperature.of(value, unit)


def test_sixty_inches_by_25_yards_are_375_square_feet():
    # By hand: 5 ft x 75 ft.
    roll = Length.of(60, "in") * Length.of(25, "yd")
    assert isinstance(roll, Area)
    assert roll.to("ft2") == pytest.approx(375, rel=1e-12)
    assert roll.to("m2") == pytest.approx(34.83864, rel=1e-12)


def test_kinds_make_the_kind_that_follows_from_them():
    # By hand: 2 m2 of a 110 g/m2 film weigh 220 g; 5 changes an hour of 30 m3 are 150 m3/h.
    assert (ArealMass.of(110, "g/m2") * Area.of(2, "m2")).to("g") == pytest.approx(220)
    assert (Mass.of(220, "g") / Area.of(2, "m2")).to("g/m2") == pytest.approx(110)
    flow = Rate.of(5, "per_h") * Volume.of(30, "m3")
    assert isinstance(flow, Flow) and flow.to("m3/h") == pytest.approx(150)
    assert (flow * Duration.of(2, "h")).to("m3") == pytest.approx(300)
    assert (Area.of(6, "m2") / Length.of(2, "m")).to("m") == pytest.approx(3)
    assert (Volume.of(30, "m3") / Length.of(3, "m")).to("m2") == pytest.approx(10)
    assert Length.of(118, "in") / Length.of(59, "in") == pytest.approx(2)


@pytest.mark.parametrize("mixed", [
    lambda: Length.of(1, "m") + Mass.of(1, "kg"), lambda: Length.of(1, "m") < Mass.of(1, "kg"),
    lambda: Length.of(1, "m") * Mass.of(1, "kg"), lambda: Length.of(1, "m") / Mass.of(1, "kg"),
    lambda: Length.of(1, "m") + 1, lambda: 1 / Length.of(1, "m"), lambda: Length.of(1, "m") > 0,
])
def test_lengths_and_weights_do_not_mix(mixed):
    with pytest.raises(TypeError):
        mixed()
    assert Length.of(1, "m") != Mass.of(1, "kg")
    assert Length.of(1, "m") != 1


def test_a_unit_of_another_kind_is_refused_with_those_that_fit():
    with pytest.raises(BadQuantity, match="'degF' is no unit of length; use in, ft"):
        Length.of(3, "degF")
    with pytest.raises(BadQuantity, match="no unit of length"):
        Length.of(3, "in").to("degF")
    for call in (lambda: of(1, "furlong"), lambda: kind_of("furlong")):
        with pytest.raises(BadQuantity, match="'furlong' is no unit"):
            call()


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf")])
def test_what_is_no_number_is_no_quantity(value):
    with pytest.raises(BadQuantity):
        Length.of(value, "in")


def test_a_quantity_never_changes():
    length = Length.of(3, "in")
    with pytest.raises(AttributeError):
        length.si = 1
    with pytest.raises(AttributeError):
        del length.si
    assert copy.deepcopy(length) == pickle.loads(pickle.dumps(length)) == length
    assert len({Length.of(3, "in"), Length.of(3, "in")}) == 1


def test_money_keeps_its_cents():
    # 0.1 + 0.2 is 0.30000000000000004 in binary.
    assert (Money.of("0.10") + Money.of("0.20")).amount == Decimal("0.30")
    assert (Money.of("12.50") * 3).amount == Decimal("37.50")
    assert pickle.loads(pickle.dumps(Money.of("0.10"))).amount == Decimal("0.10")
    with pytest.raises(BadQuantity):
        Money.of("dear")


def test_every_unit_of_the_json_contract_is_known():
    contract = (
        "degF degC dF dC mm cm m in ft yd um mil percent ratio min h day week year ppm mg/m3 m2 "
        "ft2 m3 ft3 mL L floz psi bar g kg g/m2 per_h m3/h count money"
    ).split()
    assert set(contract) <= set(UNITS)


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_every_kind_says_its_value_again_in_each_of_its_units(kind):
    assert issubclass(kind, Quantity)
    for unit in kind.units:
        assert kind.of(7, unit).to(unit) == pytest.approx(7, rel=1e-12)
        assert UNITS[unit] is kind and kind_of(unit) == kind.kind


def test_a_count_of_panels_scales():
    assert (Count.of(3, "count") * 2).to("count") == 6
    assert sorted([Length.of(1, "m"), Length.of(1, "in")])[0] == Length.of(1, "in")
