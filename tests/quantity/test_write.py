"""Quantities in words: own system first, rounded to what the instrument reads.

The conversions behind the rows are those of test_kinds.py; the rounding is done by hand.
"""

from __future__ import annotations

import pytest

from assistant.quantity.kinds import BadQuantity, Length, Money, TemperatureDifference, of
from assistant.quantity.write import System, figure_value, show, show_range, unit_in

US, METRIC = System.US, System.METRIC


@pytest.mark.parametrize(("value", "unit", "us", "metric"), [
    # 225 F = 107.22 C; 195 F = 90.56 C; 17 C = 62.6 F
    (225, "degF", "225 °F (107 °C)", "107 °C (225 °F)"),
    (17, "degC", "63 °F (17 °C)", "17 °C (63 °F)"),
    (-3, "degC", "27 °F (-3 °C)", "-3 °C (27 °F)"),
    # 3 C of difference = 5.4 F of difference
    (3, "dC", "5 °F (3 °C)", "3 °C (5 °F)"),
    (5, "dF", "5 °F (3 °C)", "3 °C (5 °F)"),
    # 3 in = 76.2 mm; 98 in = 2.4892 m; 78 cm = 30.709 in; 2.3 m = 90.551 in
    (3, "in", "3 in (76 mm)", "76 mm (3 in)"),
    (98, "in", "98 in (2.49 m)", "2.49 m (98 in)"),
    (60, "in", "60 in (1.52 m)", "1.52 m (60 in)"),
    (0.125, "in", "1/8 in (3 mm)", "3 mm (1/8 in)"),
    (5.125, "in", "5 1/8 in (130 mm)", "130 mm (5 1/8 in)"),
    (78, "cm", "30 11/16 in (780 mm)", "780 mm (30 11/16 in)"),
    (2.3, "m", "90 9/16 in (2.30 m)", "2.30 m (90 9/16 in)"),
    (150.3, "in", "150 1/4 in (3.82 m)", "3.82 m (150 1/4 in)"),
    (25, "yd", "75 ft (22.86 m)", "22.86 m (75 ft)"),
    # 3 mil = 76.2 um; 80 um = 3.15 mil
    (3, "mil", "3 mil (76 µm)", "76 µm (3 mil)"),
    (80, "um", "3.1 mil (80 µm)", "80 µm (3.1 mil)"),
    # 375 ft2 = 34.839 m2
    (375, "ft2", "375 ft² (34.84 m²)", "34.84 m² (375 ft²)"),
    (16, "floz", "16 fl oz (473 mL)", "473 mL (16 fl oz)"),
    (1.5, "gal", "1.5 gal (5.68 L)", "5.68 L (1.5 gal)"),
    (30, "m3", "1059 ft³ (30 m³)", "30 m³ (1059 ft³)"),
    (40, "psi", "40 psi (2.8 bar)", "2.8 bar (40 psi)"),
    (12, "lb", "12 lb (5.44 kg)", "5.44 kg (12 lb)"),
    (300, "g", "0.66 lb (300 g)", "300 g (0.66 lb)"),
    (300, "m3/h", "177 cfm (300 m³/h)", "300 m³/h (177 cfm)"),
    # Both systems read these alike.
    (24, "h", "24 h", "24 h"), (7, "day", "7 days", "7 days"), (90, "s", "90 s", "90 s"),
    (10, "percent", "10%", "10%"), (400, "ppm", "400 ppm", "400 ppm"),
    (983, "mg/m3", "983 mg/m³", "983 mg/m³"), (110, "g/m2", "110 g/m²", "110 g/m²"),
    (5, "per_h", "5 air changes per hour", "5 air changes per hour"),
    (1, "per_h", "1 air change per hour", "1 air change per hour"),
    (3, "count", "3", "3"), (0, "in", "0 in (0 mm)", "0 mm (0 in)"),
])
def test_a_quantity_is_told_in_the_persons_system_and_the_other(value, unit, us, metric):
    assert show(of(value, unit), US) == us
    assert show(of(value, unit), METRIC) == metric
    assert show(of(value, unit), US, second=False) == us.split(" (")[0]


@pytest.mark.parametrize(("value", "unit", "us", "metric"), [
    (25, "yd", "25 yd (22.86 m)", "22.86 m (25 yd)"),
    (22.86, "m", "75 ft (22.86 m)", "22.86 m (75 ft)"),
    (78, "cm", "30 11/16 in (78 cm)", "78 cm (30 11/16 in)"),
    (2489, "mm", "98 in (2489 mm)", "2489 mm (98 in)"),
    (6, "ft", "6 ft (1.83 m)", "1.83 m (6 ft)"),
    (7, "day", "7 days", "7 days"), (1, "week", "1 week", "1 week"), (24, "h", "24 h", "24 h"),
    (8, "oz", "8 oz by weight (227 g)", "227 g (8 oz by weight)"),
    (90, "min", "90 min", "90 min"), (5, "year", "5 years", "5 years"),
    (0.95, "ratio", "0.95", "0.95"), (1.5, "gal", "1.5 gal (5.68 L)", "5.68 L (1.5 gal)"),
])
def test_the_unit_of_a_figure_is_kept_or_its_counterpart_taken(value, unit, us, metric):
    assert show(of(value, unit), US, unit=unit) == us
    assert show(of(value, unit), METRIC, unit=unit) == metric


@pytest.mark.parametrize(("value", "unit", "shown"), [
    (17.5, "degC", "17.5 °C (64 °F)"), (1.5, "mm", "1.5 mm (1/16 in)"),
    (12.5, "percent", "12.5%"),
])
def test_a_number_given_in_a_unit_keeps_its_own_digits_there(value, unit, shown):
    assert show(of(value, unit), METRIC, unit=unit) == shown


def test_a_thirty_second_of_an_inch_is_not_rounded_away():
    assert show(Length.of(1 / 32, "in"), US, unit="in") == "1/32 in (1 mm)"
    assert show(Length.of(1e-9, "m"), METRIC) == "0.001 µm (0.000039 mil)"


@pytest.mark.parametrize(("value", "shown"), [
    (1 / 32 + 2, "2 1/16 in"), (2 + 1 / 33, "2 in"), (2.999, "3 in"), (0.0313, "1/16 in"),
    (119.97, "120 in"), (-5.125, "-5 1/8 in"), (11 + 15 / 16, "11 15/16 in"),
])
def test_inches_are_read_off_a_tape_in_sixteenths(value, shown):
    assert show(Length.of(value, "in"), US, second=False) == shown


@pytest.mark.parametrize(("low", "high", "unit", "us", "metric"), [
    (185, 195, "degF", "185-195 °F (85-91 °C)", "85-91 °C (185-195 °F)"),
    (60, 75, "degF", "60-75 °F (16-24 °C)", "16-24 °C (60-75 °F)"),
    (-3, 5, "degC", "27-41 °F (-3 to 5 °C)", "-3 to 5 °C (27-41 °F)"),
    (0.25, 0.5, "in", "1/4-1/2 in (6-13 mm)", "6-13 mm (1/4-1/2 in)"),
    (1.25, 2.5, "in", "1 1/4 to 2 1/2 in (32-64 mm)", "32-64 mm (1 1/4 to 2 1/2 in)"),
    (0.8, 1.2, "m", "31 1/2 to 47 1/4 in (0.80-1.20 m)", "0.80-1.20 m (31 1/2 to 47 1/4 in)"),
    (24, 48, "h", "24-48 h", "24-48 h"), (40, 60, "percent", "40-60%", "40-60%"),
    (225, 225, "degF", "225 °F (107 °C)", "107 °C (225 °F)"),
    (3, 7, "year", "3-7 years", "3-7 years"),
])
def test_a_range_is_told_in_both_systems(low, high, unit, us, metric):
    assert show_range(of(low, unit), of(high, unit), US, unit=unit) == us
    assert show_range(of(low, unit), of(high, unit), METRIC, unit=unit) == metric


@pytest.mark.parametrize(("value", "unit", "us", "metric"), [
    (225, "degF", (225, "degF"), (107, "degC")), (3, "dC", (5, "dF"), (3, "dC")),
    (98, "in", (98, "in"), (2.49, "m")), (0.125, "in", (0.125, "in"), (3, "mm")),
    (25, "yd", (25, "yd"), (22.86, "m")), (24, "h", (24, "h"), (24, "h")),
    (78, "cm", (30.6875, "in"), (78, "cm")), (70, "percent", (70, "percent"), (70, "percent")),
])
def test_a_figure_carries_the_number_that_is_shown(value, unit, us, metric):
    assert figure_value(of(value, unit), US, unit=unit) == us
    assert figure_value(of(value, unit), METRIC, unit=unit) == metric
    assert isinstance(figure_value(of(24, "h"), US)[0], int)


CONTRACT = frozenset(
    "degF degC dF dC mm cm m in ft yd um mil percent ratio min h day week year ppm mg/m3 m2 ft2 m3 "
    "ft3 mL L floz psi bar g kg g/m2 per_h m3/h count money".split()
)


@pytest.mark.parametrize(("value", "unit"), [
    (12, "lb"), (3, "oz"), (1.5, "gal"), (45, "s"), (300, "cfm"), (2, "month"), (90, "kPa"),
    (1, "mi"), (2, "qt"), (5, "in2"), (20, "m3"), (0.3, "g/m3"),
])
@pytest.mark.parametrize("system", System)
def test_a_figure_stays_within_the_units_of_the_json_contract(value, unit, system):
    number, code = figure_value(of(value, unit), system)
    assert code in CONTRACT
    assert of(number, code).si == pytest.approx(of(value, unit).si, rel=0.02)


def test_a_unit_outside_the_contract_is_carried_when_it_was_asked_for():
    assert figure_value(of(5, "kg"), US, unit="lb") == (11.0, "lb")
    assert figure_value(of(45, "s"), US) == (0.75, "min")


def test_a_worked_out_number_is_told_finer():
    assert show(of(17, "degC"), US, fine=True) == "62.6 °F (17 °C)"
    assert show(TemperatureDifference.celsius(3), US, fine=True) == "5.4 °F (3 °C)"
    assert show(Length.of(30.709, "in"), US, fine=True) == "30.71 in (780 mm)"
    assert figure_value(of(12.34, "percent"), US, fine=True) == (12.3, "percent")


def test_money_shows_its_cents_and_no_currency_of_its_own():
    assert show(Money.of("45.5")) == "45.50"
    assert show_range(Money.of(40), Money.of(50)) == "40.00-50.00"
    assert figure_value(Money.of("45.5")) == (45.5, "money")


def test_halves_round_up_as_people_round():
    # Python's round() would say 2, 2 and 62.
    assert show(of(2.5, "mm"), METRIC, second=False) == "3 mm"
    assert show(of(62.5, "degF"), US, second=False) == "63 °F"
    assert show(of(61.5, "degF"), US, second=False) == "62 °F"


def test_a_unit_of_another_kind_is_passed_over():
    assert show(of(3, "in"), US, unit="degF") == "3 in (76 mm)"
    assert show(of(3, "dC"), US, unit="degF") == "5 °F (3 °C)"
    with pytest.raises(BadQuantity):
        show(of(3, "in"), US, unit="furlong")


@pytest.mark.parametrize(("unit", "us", "metric"), [
    ("in", "in", "mm"), ("mm", "in", "mm"), ("cm", "in", "cm"), ("um", "mil", "um"),
    ("degF", "degF", "degC"), ("dC", "dF", "dC"), ("psi", "psi", "bar"), ("h", "h", "h"),
    ("ft2", "ft2", "m2"), ("floz", "floz", "mL"), ("ppm", "ppm", "ppm"),
])
def test_every_unit_has_its_counterpart(unit, us, metric):
    assert unit_in(unit, US) == us
    assert unit_in(unit, METRIC) == metric
