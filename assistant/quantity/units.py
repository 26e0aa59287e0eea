"""Units: the words, letters and signs that people write after a number.

Owns the spellings and what each means at the bench, where a general unit library goes astray:
225 F would be farads, 70 C coulombs, 3 mil an angle and 16 oz a weight. Whether "in" is the inch
or a little word is inches.py's, the factors are kinds.py's.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.quantity.digits import GLYPHS, Number
from assistant.quantity.inches import is_inch, quotation_marks
from assistant.quantity.spoken import BIG, PARTS
from assistant.quantity.tokens import Line

DEGREES = "degrees"  # a temperature, an angle or a difference: its scale was not said
MILL = "mill"        # said for the mil and for the millimetre, thirty-nine times apart

# Unit code -> spellings, parted by commas. A number in front multiplies.
_SPELLINGS = {
    "in": "in, ins, inch, inches, inchs, inche, pulgada, pulgadas, pulg",
    "ft": "ft, feet, foot, pie, pies",
    "yd": "yd, yds, yard, yards, yarda, yardas",
    "mil": "mil, mils, thou, thous, thousandths, thousandth",
    MILL: "mill, mills",
    "mm": "mm, mms, millimetre, millimetres, millimeter, millimeters, milimetro, milimetros",
    "cm": "cm, cms, centimetre, centimetres, centimeter, centimeters, centimetro, centimetros",
    "m": "m, mtr, mtrs, metre, metres, meter, meters, metro, metros",
    "um": "um, µm, µ, mic, mics, micron, microns, micrometre, micrometres, micrometer, "
          "micrometers, micra, micras, micrometro, micrometros",
    "km": "km, kms, kilometre, kilometres, kilometer, kilometers",
    "mi": "mi, mile, miles",
    "degF": "f, fahrenheit, farenheit, fahrenheight, farenheight, fahrenhiet, degf, ℉",
    "degC": "c, celsius, celcius, centigrade, centigrados, degc, ℃",
    DEGREES: "°, degree, degrees, deg, degs, grado, grados",
    "percent": "%, percent, pct, per cent, por ciento, porciento, percentage points, "
               "percent points, points of humidity",
    "s": "s, sec, secs, second, seconds, segundo, segundos",
    "min": "min, mins, minute, minutes, minuto, minutos",
    "h": "h, hr, hrs, hour, hours, hora, horas",
    "day": "d, day, days, dia, dias",
    "week": "wk, wks, week, weeks, semana, semanas",
    "month": "month, months, mes, meses",
    "year": "y, yr, yrs, year, years, año, años, ano, anos",
    "ppm": "ppm, parts per million",
    "m2": "sqm",
    "ft2": "sqft",
    "mL": "ml, mls, millilitre, millilitres, milliliter, milliliters, cc, mililitro, mililitros",
    "L": "l, ltr, ltrs, litre, litres, liter, liters, litro, litros",
    "floz": "oz, ozs, ounce, ounces, floz, fl oz, fluid oz, fluid ounce, fluid ounces, us oz, "
            "us fl oz, us ounces, us fluid ounce, us fluid ounces, onza, onzas",
    "impfloz": "imperial oz, imperial fl oz, imperial ounce, imperial ounces, "
               "imperial fluid ounce, imperial fluid ounces, imp oz, imp fl oz, uk oz, uk fl oz, "
               "uk fluid ounces, british fluid ounces",
    "160 impfloz": "imperial gallon, imperial gallons, imp gallon, imp gallons, imp gal, "
                   "uk gallon, uk gallons",
    "20 impfloz": "imperial pint, imperial pints, imp pint, imp pints, uk pint, uk pints",
    "gal": "gal, gals, gallon, gallons, us gallon, us gallons, us gal, galon, galones",
    "qt": "qt, qts, quart, quarts",
    "pt": "pt, pts, pint, pints",
    "psi": "psi, psig",
    "bar": "bar, bars",
    "kPa": "kpa",
    "Pa": "pa, pascal, pascals",
    "mmHg": "mmhg",
    "mg": "mg, milligram, milligrams",
    "g": "g, gr, gram, grams, gramme, grammes, gramo, gramos",
    "kg": "kg, kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes",
    "lb": "lb, lbs, pound, pounds, libra, libras",
    "oz": "oz by weight, ounces by weight, oz weight, ounces weight, oz avoirdupois",
    "g/m2": "gsm",
    "cfm": "cfm",
    "per_h": "ach, air changes, air change, air changes per hour, air change per hour, "
             "air changes an hour, air change an hour, air changes every hour, changes per hour, "
             "changes an hour, changes of air per hour, changes of air an hour, per hour, "
             "times an hour, times per hour",
    "money": "dollar, dollars, usd, bucks, buck, euro, euros, eur, quid, gbp, $, €, £",
}
_POWERS = {
    "m": ("m2", "m3"), "ft": ("ft2", "ft3"), "yd": ("yd2", None), "in": ("in2", None),
    "cm": ("cm2", "mL"), "mm": ("mm2", None),
}
_SQUARE = frozenset("square sq sqr squared cuadrado cuadrados cuadradas".split())
_CUBIC = frozenset("cubic cu cubed cubico cubicos".split())
_RATES: dict[tuple[str, str], tuple[str, float]] = {
    ("mg", "m3"): ("mg/m3", 1), ("g", "m3"): ("g/m3", 1), ("g", "m2"): ("g/m2", 1),
    ("kg", "m2"): ("kg/m2", 1), ("m3", "h"): ("m3/h", 1), ("m3", "min"): ("m3/h", 60),
    ("m3", "s"): ("m3/h", 3600), ("L", "s"): ("m3/h", 3.6), ("ft3", "min"): ("cfm", 1),
    ("ft3", "h"): ("cfm", 1 / 60), ("lb", "in2"): ("psi", 1), ("per_h", "h"): ("per_h", 1),
}
_CELSIUS = frozenset(_SPELLINGS["degC"].split(", "))
_FAHRENHEIT = frozenset(_SPELLINGS["degF"].split(", "))

SPELLED: dict[str, tuple[str, float]] = {}
for _code, _words in _SPELLINGS.items():
    _times, _, _unit = _code.rpartition(" ")
    for _word in _words.split(", "):
        SPELLED[_word] = (_unit, float(_times or 1))
_OPENERS = frozenset(phrase.split()[0] for phrase in SPELLED if " " in phrase)
_MOST_WORDS = 5

# Letters that a word-number does not carry ("two m"), and those that only count when glued to it.
_AFTER_DIGITS = frozenset("m l g h s µ ' \" pa gr mic pie in".split())
_WHEN_GLUED = frozenset("d y".split())
# "an hour" is one hour; "a second coat", "a mil spec", "a bar" are no quantities.
_WITH_ARTICLE = frozenset(
    "inch foot yard mil thou millimetre millimeter centimetre centimeter metre meter micron degree "
    "minute hour day week month year litre liter gallon quart pint square cubic".split()
)
_FILLERS = frozenset(
    "full whole more extra additional entire solid good straight clear linear lineal running lin "
    "working business calendar consecutive other further".split()
)

# What may stand after "a" for it to count as one, or to begin a number.
AFTER_ARTICLE = _WITH_ARTICLE | _FILLERS | frozenset(PARTS) | frozenset(BIG) | frozenset(
    ("couple", "dozen")
)
_JOINS = frozenset("x × by to - and".split())
_STRETCHES = frozenset("x × by wide long high tall deep across".split())
_LENGTHS = frozenset(("in", "ft", "yd", "mil", "mm", "cm", "m", "um"))


@dataclass(slots=True)
class Unit:
    """A unit in the line: its code, how many of it one is worth, and the place after it."""

    code: str
    times: float
    after: int
    problem: str | None = None


def unit_at(line: Line, place: int, number: Number) -> Unit | None:
    """The unit of a number, beginning at a place; None when there is none."""
    start = place
    if line.said(place) == "-" and line.glued(place) and line.glued(place + 1):
        place += 1  # a 3-inch bleed
    elif number.part and line.said(place) == "of":
        place += 1
    if number.part and line.said(place) in ("a", "an", "one"):
        place += 1
    if line.said(place) in _FILLERS and line.is_word(place + 1) and len(line.said(place + 1)) > 2:
        place += 1
    if number.spelled and line.said(number.first) in ("a", "an") and number.after == (
        number.first + 1
    ) and line.said(place) not in _WITH_ARTICLE:
        return None
    said = line.said(place)
    if said in _AFTER_DIGITS and number.spelled or said in _WHEN_GLUED and not line.glued(place):
        return None
    if said == "in" and not is_inch(line, place, start):
        return None
    if said in ("'", '"'):
        if place in quotation_marks(line):
            return None
        return Unit("ft" if said == "'" else "in", 1.0, place + 1)
    base = _plain(line, place)
    if base is None:
        return None
    base = _rate(line, base)
    if line.said(base.after) == "." and line.glued(base.after) and (
        line.is_number(base.after + 1) or line.said(base.after + 1) in _JOINS
    ):
        base.after += 1  # 6 ft. 2 in. x 3 ft.
    return base


def _plain(line: Line, place: int) -> Unit | None:
    """A unit without a rate: the longest spelling that begins here, its power included."""
    said = line.said(place)
    if said in _SQUARE or said in _CUBIC:
        step = place + 2 if line.said(place + 1) == "." and line.glued(place + 1) else place + 1
        return _power(line, step, 0 if said in _SQUARE else 1)
    if said in _OPENERS:
        phrase = _phrase(line, place)
        if phrase is not None:
            return phrase
    found = SPELLED.get(said)
    if found is None:
        return None
    code, times = found
    if code == DEGREES:
        scale = line.said(place + 1)
        if line.said(place + 1) == "." and line.glued(place + 1) and line.glued(place + 2):
            scale = ""
        if scale in _CELSIUS or scale in _FAHRENHEIT:
            return Unit("degC" if scale in _CELSIUS else "degF", 1.0, place + 2)
        return Unit(DEGREES, 1.0, place + 1)
    if said == "thousandths" or said == "thousandth":
        return _thousandths(line, place)
    return _raised(line, Unit(code, times, place + 1))


def _thousandths(line: Line, place: int) -> Unit:
    step = place + 1
    for words in (("of", "an", "inch"), ("of", "an", "in"), ("inch",)):
        if all(line.said(step + turn) == word for turn, word in enumerate(words)):
            return Unit("mil", 1.0, step + len(words))
    return Unit("mil", 1.0, step)


def _phrase(line: Line, place: int) -> Unit | None:
    """The longest spelling of several words; the points of abbreviations are passed over."""
    words, ends, step = [], [], place
    while len(words) < _MOST_WORDS and line.is_word(step):
        words.append(line.said(step))
        ends.append(step + 1)
        step += 1
        if line.said(step) == "." and line.glued(step) and line.is_word(step + 1):
            step += 1
    for count in range(len(words), 1, -1):
        found = SPELLED.get(" ".join(words[:count]))
        if found is not None:
            return Unit(*found, ends[count - 1])
    return None


def _raised(line: Line, unit: Unit) -> Unit:
    """The unit with a power after it: m2, ft², cm^2, metres squared."""
    powers = _POWERS.get(unit.code)
    if powers is None:
        return unit
    place = unit.after
    said, step = line.said(place), place + 1
    if said in _SQUARE or said in _CUBIC:
        if said not in ("squared", "cubed") and not said.startswith(("cuadrad", "cubico")):
            return unit
        power = 0 if said in _SQUARE else 1
    else:
        if said == "^":
            said, step = line.said(place + 1), place + 2
        if not line.glued(place) or said not in ("2", "3", "²", "³"):
            return unit
        if line.glued(step) and (line.said(step) in ("'", '"', "/", *GLYPHS) or (
            line.is_word(step) and SPELLED.get(line.said(step), ("",))[0] in _LENGTHS
        )) and said in ("2", "3") and not _is_rate(line, step):
            return unit  # 6ft2" and 6ft2in are feet with inches
        if unit.code == "ft" and said == "2" and line.said(step) in _STRETCHES:
            return unit  # 6ft2 wide
        power = 0 if said in ("2", "²") else 1
    code = powers[power]
    return unit if code is None else Unit(code, unit.times, step)


def _power(line: Line, place: int, power: int) -> Unit | None:
    found = SPELLED.get(line.said(place))
    powers = _POWERS.get(found[0]) if found else None
    code = powers[power] if powers else None
    return None if code is None else Unit(code, 1.0, place + 1)


def _is_rate(line: Line, place: int) -> bool:
    return line.said(place) == "/" and line.is_word(place + 1)


def _rate(line: Line, unit: Unit) -> Unit:
    """The unit with what it is counted by: mg/m3, m³ per hour, grams per square metre."""
    slash = line.said(unit.after) == "/" and line.glued(unit.after)
    if not slash and line.said(unit.after) not in ("per", "a", "an", "/"):
        return unit
    below = _plain(line, unit.after + 1)
    if below is None:
        return unit
    rate = _RATES.get((unit.code, below.code))
    if rate is not None:
        return Unit(rate[0], rate[1] * unit.times, below.after)
    if slash and line.is_word(unit.after + 1) and unit.code in _LENGTHS | {"mg", "g", "L", "mL"}:
        return Unit(
            unit.code, 1.0, below.after,
            problem=f"{line.slice(unit.after - 1, below.after)} is no unit that is known here",
        )
    return unit
