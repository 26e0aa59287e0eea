"""Arc: the length over a curve, from the straight distance across it and its rise.

Owns the circle through three points. What stretch a curve asks of the film is stretch.py's.
"""

from __future__ import annotations

from math import atan, degrees

from assistant.calculations.base import Impossible, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Length

ZERO = Length.of(0, "in")
# A rise below a hundred-thousandth of the chord is flat to any tape.
FLATTEST = 1e-6
# Beyond this the two ends of the curve nearly meet; nobody measures a chord there.
DEEPEST = 10.0


class Inputs(BaseInputs):
    """chord: straight across, end to end; rise: from the middle of the chord to the crown."""

    chord: Length
    rise: Length


def radius(chord: Length, rise: Length) -> Length:
    """Radius of the circle through both ends and the crown: R = c^2 / (8 h) + h / 2.

    chord > 0, rise > 0. Source: Machinery's Handbook, 31st edition (2020), p. 79.
    By hand (the handbook's own example): c 16, h 6: 256 / 48 + 3 = 8 1/3.
    """
    return chord * (chord / rise) / 8 + rise / 2


def angle(chord: Length, rise: Length) -> float:
    """Central angle in radians: 4 atan(2 h / c), equal to 2 asin(c / 2R) up to a half circle."""
    return 4 * atan(2 * (rise / chord))


def arc_length(chord: Length, rise: Length) -> Length:
    """Length over the curve: s = R angle, which is 2 R asin(c / 2R) up to a half circle.

    chord > 0, rise > 0; a circle's arc is assumed.
    Source: Machinery's Handbook, 31st edition (2020), circular segments.
    By hand: c 2, h 1: a half circle of radius 1, pi.
    """
    return radius(chord, rise) * angle(chord, rise)


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The length over the curve, what it is longer than the chord, and the radius.

    Raises Impossible for a chord or a rise of zero or below, and for a rise of over 10 chords.
    """
    chord, rise = inputs.chord, inputs.rise
    require(setting, "chord", chord, above=ZERO, name="straight across")
    require(setting, "rise", rise, above=ZERO)
    if rise / chord < FLATTEST:
        raise Impossible(
            "rise", f"A rise of {setting.own(rise)} over {setting.own(chord)} is flat."
        )
    if rise / chord > DEEPEST:
        raise Impossible(
            "rise",
            f"A rise of {setting.own(rise)} on a chord of {setting.own(chord)}? "
            "The ends of that curve nearly meet. Are the two swapped, or one in another unit?",
        )
    r = radius(chord, rise)
    turn = angle(chord, rise)
    length = arc_length(chord, rise)
    more = length - chord
    tape = setting.unit("in", "mm")
    c, h = setting.own(chord, "in", "mm"), setting.own(rise, "in", "mm")
    r_words = setting.own(r, "in", "mm")
    assumed = ["the curve is part of a circle"]
    if rise * 2 > chord * (1 + FLATTEST):
        assumed.append("more than a half circle: it bulges out past its ends")
    return Result(
        answer=(
            f"{setting.both(length, 'in', 'mm')} over the curve, "
            f"{setting.both(more, 'in', 'mm')} more than straight across."
        ),
        figures=(
            NamedFigure("length over the curve", length, unit=tape),
            NamedFigure("radius", r, unit=tape),
            NamedFigure("more than straight across", more, unit=tape),
        ),
        working=(
            f"R = ({c})^2 / (8 x {h}) + {h} / 2 = {r_words}",
            f"angle = 4 atan(2 x {h} / {c}) = {degrees(turn):.1f} degrees = {turn:.4f} radians",
            f"{r_words} x {turn:.4f} = {setting.own(length, 'in', 'mm')}",
        ),
        assumed=tuple(assumed),
        steps=("Tape the curve itself where you can: hold the end, let the tape follow.",),
        rules=("measure-curve",),
    )
