"""Film left on a roll, from its diameter, its core and the thickness of film with liner.

Owns the roll as a wound strip. The same by weight is roll_left_by_weight.py's; which panels are cut
from it, cutplan/'s.
"""

from __future__ import annotations

from math import pi

from assistant.calculations.base import Impossible, Missing, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.piece import lay_piece
from assistant.quantity.kinds import Area, Length

ZERO = Length.of(0, "in")
WIDEST = Length.of(1, "m")
# Film with liner lies well inside these; outside them a unit has slipped.
THINNEST = Length.of(50, "um")
THICKEST = Length.of(1, "mm")
# What a tape across a roll can be off by, and what it costs is told.
TAPE_ERROR = Length.of(1, "mm")
THICKNESS_ERROR = Length.of(5, "um")


class Inputs(BaseInputs):
    """diameter over the film; core outside; thickness of film with its liner.

    full_diameter, full_length  a new roll of the same film: the thickness follows from the two
    wanted  length that the panels still need
    panels  pairs of sides of the panels wanted, over the curve, instead of that length; with
            bleed and roll_width, each cut across the roll after the other
    """

    diameter: Length
    core: Length
    thickness: Length | None = None
    full_diameter: Length | None = None
    full_length: Length | None = None
    wanted: Length | None = None
    panels: tuple[tuple[Length, Length], ...] = ()
    bleed: Length | None = None
    roll_width: Length | None = None


def _ring(diameter: Length, core: Length) -> Area:
    """Area of the wound film seen from the end: pi (D^2 - d^2) / 4."""
    return (diameter + core) * (diameter - core) * (pi / 4)


def length_left(diameter: Length, core: Length, thickness: Length) -> Length:
    """Length wound on a roll: L = pi (D^2 - d^2) / (4 t), the end area over the thickness.

    diameter   over the film, > core
    core       outside diameter of the core, > 0
    thickness  film with adhesive and liner, as wound, > 0
    It equals the exact spiral to under a millimetre; what limits it is the measuring.
    Source: geometry; the Math Forum (2003) gives the same form.
    By hand: D 12 cm, d 8 cm, t 0.25 mm: 62.83 cm2 / 0.025 cm = 2513 cm.
    """
    return Length.of(_ring(diameter, core).si / thickness.si, "m")


def thickness_of(diameter: Length, core: Length, length: Length) -> Length:
    """The thickness as wound, from a roll of known length: t = pi (D^2 - d^2) / (4 L)."""
    return Length.of(_ring(diameter, core).si / length.si, "m")


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Length left, how far measuring can be off, and whether the wanted length fits.

    Raises Impossible for a core as wide as the roll and sizes out of all measure; Missing when
    neither the thickness nor a full roll of known length was given.
    """
    diameter, core = inputs.diameter, inputs.core
    require(setting, "diameter", diameter, above=ZERO, at_most=WIDEST, name="roll diameter")
    require(setting, "core", core, above=ZERO)
    require(
        setting, "core", core, at_most=diameter,
        because=f"The core cannot be wider than the roll, {setting.own(diameter)}. "
        "Are the two swapped?",
    )
    working: list[str] = []
    thickness = inputs.thickness
    if thickness is None:
        thickness = _from_full_roll(inputs, setting, core, working)
    require(
        setting, "thickness", thickness, at_least=THINNEST, at_most=THICKEST,
        name="thickness with liner", unit=setting.unit("mil", "um"),
        because=f"Film with its liner lies between {setting.own(THINNEST, 'mil', 'um')} and "
        f"{setting.own(THICKEST, 'mil', 'um')}.",
    )
    left = length_left(diameter, core, thickness)
    out = length_left(diameter + TAPE_ERROR, core, thickness) - left
    off = left - length_left(diameter, core, thickness + THICKNESS_ERROR)
    figures = [NamedFigure("film left", left, unit=setting.unit("yd", "m"))]
    big, small, thin = setting.own(diameter), setting.own(core), setting.own(thickness, "mil", "um")
    working += [
        f"pi x (({big})^2 - ({small})^2) / (4 x {thin}) = {setting.own(left, 'yd', 'm')}",
        f"1 mm more in the diameter is {setting.own(out, 'yd', 'm')} more film; "
        f"5 µm more in the thickness, {setting.own(off, 'yd', 'm')} less",
    ]
    wanted = inputs.wanted
    assumed = ["wound tight; thickness is film and liner together"]
    if wanted is None and inputs.panels:
        roll = inputs.roll_width or setting.limit("roll-sizes", "width")
        wanted = for_panels(setting, inputs.panels, inputs.bleed, roll, working, assumed)
    answer, verdict = judge_wanted(setting, left, wanted, figures, working)
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        assumed=tuple(assumed),
        steps=("Pull a strip for the last panel only after you have measured it off.",)
        if verdict == "tight" else (),
        verdict=verdict,
    )


def for_panels(
    setting: Setting,
    panels: tuple[tuple[Length, Length], ...],
    bleed: Length | None,
    roll: Length,
    working: list[str],
    assumed: list[str],
) -> Length:
    """The length off the roll that panels take, one after another; turned where one does not fit.

    panels  pairs of sides over the curve, each > 0
    bleed   on each edge, >= 0; None takes the rule's
    roll    usable width, over the overlap
    Adds to working and assumed. Raises Impossible for sizes that cannot be.
    """
    bleed = bleed if bleed is not None else setting.limit("bleed", "each_edge")
    require(setting, "bleed", bleed, at_least=ZERO)
    overlap = setting.limit("overlap-width", "width")
    require(setting, "roll_width", roll, above=overlap, name="roll width")
    total = ZERO
    for length, height in panels:
        for side in (length, height):
            require(setting, "panels", side, above=ZERO, name="a side of")
        piece = lay_piece(length, height, bleed, roll, overlap)
        total = total + piece.off_roll
        working.append(
            f"{setting.sides(length, height, second=False)} cut "
            f"{setting.sides(piece.length, piece.height, second=False)}: "
            f"{setting.own(piece.off_roll, 'in', 'mm')} off the roll"
        )
    assumed.append(
        f"bleed {setting.own(bleed, 'in', 'mm')} and a roll {setting.own(roll, 'in', 'mm')} wide; "
        "pieces cut one after another"
    )
    return total


def _from_full_roll(
    inputs: Inputs, setting: Setting, core: Length, working: list[str]
) -> Length:
    if inputs.full_diameter is None or inputs.full_length is None:
        raise Missing(
            "thickness",
            "How thick is the film with its liner? Or give a full roll's diameter and length.",
        )
    full, length = inputs.full_diameter, inputs.full_length
    require(setting, "full_diameter", full, above=core, name="diameter of the full roll")
    require(setting, "full_length", length, above=ZERO, name="length of the full roll")
    if full < inputs.diameter:
        raise Impossible(
            "full_diameter",
            f"The full roll, {setting.own(full)}, is thinner than what is left, "
            f"{setting.own(inputs.diameter)}. Are the two swapped?",
        )
    thickness = thickness_of(full, core, length)
    working.append(
        f"full roll: pi x (({setting.own(full)})^2 - ({setting.own(core)})^2) / (4 x "
        f"{setting.own(length, 'yd', 'm')}) = {setting.own(thickness, 'mil', 'um')} film with liner"
    )
    return thickness


def judge_wanted(
    setting: Setting,
    left: Length,
    wanted: Length | None,
    figures: list[NamedFigure],
    working: list[str],
) -> tuple[str, str | None]:
    """The answer and the verdict on a wanted length; adds the difference to figures and working.

    Less than five in a hundred to spare is `tight`: measuring a roll is no better than that.
    """
    def own(length: Length) -> str:
        return setting.own(length, "yd", "m")

    def both(length: Length) -> str:
        return setting.both(length, "yd", "m")

    told = f"About {both(left)} of film is left on the roll"
    unit = setting.unit("yd", "m")
    if wanted is None:
        return told + ".", None
    require(setting, "wanted", wanted, above=ZERO, name="the length wanted")
    if wanted > left:
        short = wanted - left
        figures.append(NamedFigure("short by", short, unit=unit))
        working.append(f"{own(wanted)} - {own(left)} = {own(short)} short")
        return f"No: {both(left)} is left, {both(short)} short.", "short"
    spare = left - wanted
    figures.append(NamedFigure("to spare", spare, unit=unit))
    working.append(f"{own(left)} - {own(wanted)} = {own(spare)} to spare")
    if spare < left * 0.05:
        return (
            f"Just: {both(left)} is left, {both(spare)} to spare, "
            "which is within what the measuring can be off.", "tight",
        )
    return f"Yes: {both(left)} is left, {both(spare)} to spare.", "enough"
