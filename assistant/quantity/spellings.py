"""Spellings: the words and marks people write for units and numbers.

Owns the tables that read.py reads by; a general unit library would take 225 F for farads, 70 C for
coulombs, 3 mil for an angle and 16 oz for a weight.
"""

from __future__ import annotations

DEGREES = "degrees"  # a temperature whose scale was not said

_UNITS = {
    "in": 'in ins inch inches inche " \'\' pulgada pulgadas',
    "ft": "ft feet foot ' pie pies",
    "yd": "yd yds yard yards yarda yardas",
    "mil": "mil mils thou thous",
    "mm": "mm mms millimetre millimetres millimeter millimeters mill mills milimetro milimetros",
    "cm": "cm cms centimetre centimetres centimeter centimeters centimetro centimetros",
    "m": "m mtr mtrs metre metres meter meters metro metros",
    "um": "um µm μm micron microns micrometre micrometres micrometer micrometers micra micras",
    "degF": "f fahrenheit degf",
    "degC": "c celsius centigrade degc celcius",
    DEGREES: "° º degree degrees deg degs grado grados",
    "percent": "% percent pct rh",
    "s": "sec secs second seconds segundo segundos",
    "min": "min mins minute minutes minuto minutos",
    "h": "h hr hrs hour hours hora horas",
    "day": "day days dia dias",
    "week": "wk wks week weeks semana semanas",
    "month": "month months mes meses",
    "year": "yr yrs year years año años ano anos",
    "ppm": "ppm",
    "mg/m3": "mg/m3 mg/m³",
    "g/m3": "g/m3 g/m³",
    "m2": "m2 m² sqm",
    "ft2": "ft2 ft² sqft",
    "yd2": "yd2 yd²",
    "in2": "in2 in²",
    "m3": "m3 m³ cbm",
    "ft3": "ft3 ft³ cuft",
    "mL": "ml mls millilitre millilitres milliliter milliliters cc mililitro mililitros",
    "L": "l litre litres liter liters ltr ltrs litro litros",
    "floz": "oz ozs ounce ounces floz",
    "gal": "gal gals gallon gallons",
    "qt": "qt qts quart quarts",
    "pt": "pint pints",
    "psi": "psi",
    "bar": "bar bars",
    "kPa": "kpa",
    "g": "g gram grams gramme grammes",
    "kg": "kg kgs kilo kilos kilogram kilograms",
    "lb": "lb lbs pound pounds",
    "g/m2": "g/m2 g/m² gsm",
    "m3/h": "m3/h m³/h",
    "cfm": "cfm",
    "per_h": "ach",
    "money": "dollar dollars euro euros usd eur gbp bucks quid",
}
UNIT_WORDS = {word: unit for unit, words in _UNITS.items() for word in words.split()}

# Several words for one unit, longest first.
UNIT_PHRASES: tuple[tuple[tuple[str, ...], str], ...] = tuple(sorted((
    (tuple(words.split()), unit)
    for unit, phrases in {
        "m2": ("square metres", "square metre", "square meters", "square meter", "sq m",
               "metros cuadrados"),
        "ft2": ("square feet", "square foot", "sq ft", "sq feet", "pies cuadrados"),
        "yd2": ("square yards", "square yard", "sq yd", "sq yds"),
        "in2": ("square inches", "square inch", "sq in"),
        "m3": ("cubic metres", "cubic metre", "cubic meters", "cubic meter", "cu m"),
        "ft3": ("cubic feet", "cubic foot", "cu ft"),
        "floz": ("fl oz", "fluid ounces", "fluid ounce", "us fl oz"),
        "impfloz": ("imperial fl oz", "imperial fluid ounces", "imperial ounces", "imp fl oz"),
        "percent": ("per cent", "por ciento", "% rh", "percent rh"),
        "degC": ("° c", "º c", "degrees c", "degree c", "deg c", "degrees celsius", "deg celsius",
                 "degrees centigrade", "° celsius", "grados c", "grados celsius",
                 "degree celsius", "degrees celcius"),
        "degF": ("° f", "º f", "degrees f", "degree f", "deg f", "degrees fahrenheit",
                 "deg fahrenheit", "° fahrenheit", "grados f", "grados fahrenheit",
                 "degree fahrenheit"),
        "per_h": ("air changes per hour", "air changes an hour", "air changes a hour",
                  "changes per hour", "changes an hour", "air change per hour", "per hour",
                  "air changes", "times an hour", "times per hour"),
        "m3/h": ("m3 per hour", "cubic metres per hour", "cubic meters per hour",
                 "cubic metres an hour", "m3 / h", "m³ / h", "m3 an hour"),
        "mg/m3": ("mg / m3", "mg / m³", "mg per m3", "mg per cubic metre", "mg per cubic meter"),
        "g/m3": ("g / m3", "g per m3"),
        "g/m2": ("g / m2", "g / m²", "g per m2", "grams per square metre",
                 "grams per square meter", "g per square metre", "g per square meter"),
        "ppm": ("parts per million",),
    }.items()
    for words in phrases
), key=lambda item: -len(item[0])))

# Units that only mean it right after digits; beside words they are letters or other words.
TIGHT = frozenset("f c m l g h s ' \" '' bar second seconds sec secs rh pie foot".split())

ONES = {
    "zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13,
    "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18,
    "nineteen": 19,
}
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60,
    "seventy": 70, "eighty": 80, "ninety": 90,
}
BIG = {"hundred": 100, "thousand": 1000}
PARTS = {
    "half": 1 / 2, "quarter": 1 / 4, "quarters": 1 / 4, "third": 1 / 3, "thirds": 1 / 3,
    "eighth": 1 / 8, "eighths": 1 / 8, "sixteenth": 1 / 16, "sixteenths": 1 / 16, "halves": 1 / 2,
    "tenth": 1 / 10, "tenths": 1 / 10,
}
GLYPHS = {
    "½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 1 / 8, "⅜": 3 / 8,
    "⅝": 5 / 8, "⅞": 7 / 8, "⅕": 1 / 5, "⅖": 2 / 5, "⅗": 3 / 5, "⅘": 4 / 5, "⅙": 1 / 6, "⅚": 5 / 6,
}
MONEY_MARKS = frozenset("$£€")

# `5 in the bay`: after these words "in" was no inch.
NOT_AFTER_INCH = frozenset(
    "the a an my our your his her this that these those there here all total celsius fahrenheit "
    "metric inches centimetres centimeters millimetres mm cm c f degrees one two row case front "
    "winter summer shade sun between it them bay sunlight".split()
)
# Words after a temperature that make it a difference, and words before it.
DIFFERENCE_AFTER = frozenset(
    "above warmer hotter colder cooler higher lower short apart difference margin over below under "
    "too more less off out".split()
)
DIFFERENCE_BEFORE = frozenset(
    "margin difference by gap rise drop swing spread lift short delta".split()
)
ZERO_WORDS = frozenset("zero freezing nought".split())
ARTICLE_UNITS = frozenset(
    "hour day week month year inch foot yard metre meter litre liter gallon quart".split()
)
CLOCK_WORDS = frozenset("am pm a.m p.m o'clock oclock".split())
SIDE_WORDS = frozenset(("by", "x", "×", "*", "por"))
SIDE_CUES = frozenset("wide long high tall across deep wide, long, high,".split())
