"""The words and marks of units, and the bench's own sense of doubtful ones."""

from __future__ import annotations

import pytest

from assistant.quantity.kinds import UNITS
from assistant.quantity.read import read
from assistant.quantity.units import DEGREES, MILL, SPELLED
from tests.quantity.said import numbers, one


# What a general unit library makes of it stands behind each row.
@pytest.mark.parametrize(("text", "meant"), [
    ("225 F", (225, "degF")),       # farads
    ("225F", (225, "degF")),
    ("225 f", (225, "degF")),
    ("70 C", (70, "degC")),         # coulombs
    ("17c", (17, "degC")),          # the speed of light
    ("3 mil", (3, "mil")),          # an angle
    ("10 thou", (10, "mil")),
    ("16 oz", (16, "floz")),        # a weight
    ("80 mic", (80, "um")),         # a unit without a name
    ("24 h", (24, "h")),            # Planck's constant
    ("60 min", (60, "min")),
    ("2 l", (2, "L")),
    ("5 m", (5, "m")),
    ("30 bar", (30, "bar")),
    ("2 d", None),                  # days only when glued to the number
    ("2d", (2, "day")),
    ("5 ach", (5, "per_h")),
    ("6'", (6, "ft")),              # minutes of arc
    ('92"', (92, "in")),            # seconds of arc
    ("92 in", (92, "in")),
    ("40 pounds", (40, "lb")),      # money
    ("110 gsm", (110, "g/m2")),
    ("10 mils", (10, "mil")),       # millilitres
])
def test_the_bench_reads_a_unit_in_its_own_way(text, meant):
    assert (numbers(text) or [None])[0] == (meant or (2, None))


@pytest.mark.parametrize(("text", "meant"), [
    ("2.3 m", (2.3, "m")), ("92in", (92, "in")), ("92 ins", (92, "in")), ("92 inches", (92, "in")),
    ("24cms", (24, "cm")), ("78 centimetres", (78, "cm")), ("78 centimeters", (78, "cm")),
    ("1200 mm", (1200, "mm")), ("80 micron", (80, "um")), ("80µm", (80, "um")),
    ("80 μm", (80, "um")), ("80um", (80, "um")), ("60 yd", (60, "yd")), ("60 yards", (60, "yd")),
    ("10 linear yards", (10, "yd")), ("a yard", (1, "yd")), ("60-inch", (60, "in")),
    ("17 degrees C", (17, "degC")), ("17 deg c", (17, "degC")), ("17°C", (17, "degC")),
    ("17 ºC", (17, "degC")), ("17℃", (17, "degC")), ("17 celcius", (17, "degC")),
    ("62 °F", (62, "degF")), ("62 fahrenheit", (62, "degF")), ("62 farenheit", (62, "degF")),
    ("62 degrees fahrenheit", (62, "degF")), ("minus 3 C", (-3, "degC")), ("-3C", (-3, "degC")),
    ("12 C below zero", (-12, "degC")),
    ("60 percent", (60, "percent")), ("60%", (60, "percent")), ("60 per cent", (60, "percent")),
    ("60 pct", (60, "percent")), ("60% rh", (60, "percent")), ("55 rh", (55, "percent")),
    ("24h", (24, "h")), ("24 hrs", (24, "h")), ("45 minutes", (45, "min")), ("30 s", (30, "s")),
    ("2 days", (2, "day")), ("24 full hours", (24, "h")), ("3 weeks", (3, "week")),
    ("5 yrs", (5, "year")), ("7 working days", (7, "day")),
    ("400 ppm", (400, "ppm")), ("400 parts per million", (400, "ppm")),
    ("500 ml", (500, "mL")), ("2 litres", (2, "L")), ("16 fl. oz.", (16, "floz")),
    ("16 US fl oz", (16, "floz")), ("16 imperial fl oz", (16, "impfloz")),
    ("1.5 gallons", (1.5, "gal")), ("2 imperial gallons", (320, "impfloz")),
    ("8 oz by weight", (8, "oz")), ("9 kilos", (9, "kg")), ("20 lbs", (20, "lb")),
    ("12 sq ft", (12, "ft2")), ("12 sq. ft.", (12, "ft2")), ("12 square feet", (12, "ft2")),
    ("12 ft²", (12, "ft2")), ("12 ft^2", (12, "ft2")), ("12 m2", (12, "m2")), ("12 m²", (12, "m2")),
    ("12 metres squared", (12, "m2")), ("30 m3", (30, "m3")), ("30 cubic metres", (30, "m3")),
    ("900 cu ft", (900, "ft3")), ("20 mg/m3", (20, "mg/m3")), ("20 mg per m³", (20, "mg/m3")),
    ("110 grams per square metre", (110, "g/m2")), ("30 m3/h", (30, "m3/h")),
    ("300 cubic metres per hour", (300, "m3/h")), ("500 cubic feet per minute", (500, "cfm")),
    ("5 air changes per hour", (5, "per_h")), ("5 air changes an hour", (5, "per_h")),
    ("40 psi", (40, "psi")), ("40 pounds per square inch", (40, "psi")), ("3 bar", (3, "bar")),
    ("$45", (45, "money")), ("£45", (45, "money")), ("45 €", (45, "money")),
    ("45 dollars", (45, "money")), ("45 euros", (45, "money")), ("$1,250.50", (1250.5, "money")),
    ("$12 a yard", (12, "money")), ("10:1", (10, "ratio")),
])
def test_a_unit_however_it_is_written(text, meant):
    assert one(text) == meant


@pytest.mark.parametrize(("text", "meant"), [
    ("92 pulgadas", (92, "in")), ("78 centímetros", (78, "cm")), ("2 metros", (2, "m")),
    ("60 por ciento", (60, "percent")), ("24 horas", (24, "h")), ("7 días", (7, "day")),
    ("20 grados C", (20, "degC")), ("20 grados centígrados", (20, "degC")),
    ("12 metros cuadrados", (12, "m2")), ("80 micras", (80, "um")),
])
def test_units_in_spanish(text, meant):
    assert one(text) == meant


@pytest.mark.parametrize("text", ["17 degrees", "17°", "17 deg", "20 grados"])
def test_bare_degrees_have_no_scale_yet(text):
    found, = read(text)
    assert found.degrees and found.bare and found.kind is None


@pytest.mark.parametrize(("text", "said"), [
    ("film of 3 mill", "mil or mm"), ("2 m/min", "m/min is no unit"),
    ("-500 F", "absolute zero"), ("-300 degrees C", "absolute zero"),
])
def test_a_doubtful_or_impossible_unit_is_named(text, said):
    found, = read(text)
    assert said in found.problem


@pytest.mark.parametrize(("text", "value"), [
    ("5 in the bay", None), ("put 2 in a drawer", None), ("2 in total", None),
    ("200 in celsius", None), ("3 in here", None), ("cut 40 in half", None), ("5 in 10 cars", None),
    ("92 in", "in"), ("92 in long", "in"), ("92 in, 31 in", "in"), ("92 in.", "in"),
    ("a 60 in roll", "in"), ("bleed 3 in 60 in roll", "in"), ("3 in wide", "in"),
    ("what is 24 in mm", "in"), ("5in the bay", "in"), ("a 3-in bleed", "in"),
])
def test_in_is_an_inch_unless_it_leads_to_a_place(text, value):
    assert read(text)[0].unit == value


def test_quotation_marks_are_no_inches():
    assert one('he said "use 92" to me') == (92, None)
    assert one('"92"') == (92, None)
    assert one("the hood is 92\" and 'fine'") == (92, "in")
    assert one('the "short" side is 31"') == (31, "in")


def test_every_spelling_leads_to_a_unit_that_exists():
    assert {code for code, _ in SPELLED.values()} <= set(UNITS) | {DEGREES, MILL}
