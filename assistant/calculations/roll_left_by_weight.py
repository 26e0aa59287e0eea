"""Film left on a roll, by weight: roll, core, and the film's weight per area.

Owns the second way to the length; from the diameter it is roll_left.py's, as is the verdict on
whether a wanted length fits.
"""

from __future__ import annotations

from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.base import NamedFigure, Result, Setting, require
from assistant.calculations.roll_left import for_panels, judge_wanted
from assistant.quantity.kinds import ArealMass, Length, Mass

NOTHING = Mass.of(0, "kg")
ZERO = Length.of(0, "in")
HEAVIEST = Mass.of(200, "kg")
# Film with its liner lies well inside these.
LIGHTEST_FILM = ArealMass.of(50, "g/m2")
HEAVIEST_FILM = ArealMass.of(2000, "g/m2")


class Inputs(BaseInputs):
    """weight of the roll as it is; core alone; film with liner per area; roll width; wanted.

    panels, bleed  the panels wanted, instead of a length: see roll_left.for_panels
    """

    weight: Mass
    core: Mass
    per_area: ArealMass
    roll_width: Length
    wanted: Length | None = None
    panels: tuple[tuple[Length, Length], ...] = ()
    bleed: Length | None = None


def length_by_weight(weight: Mass, core: Mass, per_area: ArealMass, width: Length) -> Length:
    """L = (m_roll - m_core) / (rho_A w).

    weight > core >= 0, per_area (film with liner) > 0, width > 0.
    Source: mass balance. By hand: 9 kg, core 1 kg, 0.25 kg/m2, 1.52 m: 8 / 0.38 = 21.05 m.
    """
    return Length.of((weight.si - core.si) / (per_area.si * width.si), "m")


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Length left by weight, and whether the wanted length fits.

    Raises Impossible for a core heavier than the roll and weights out of all measure.
    """
    weight, core, per_area, width = inputs.weight, inputs.core, inputs.per_area, inputs.roll_width
    require(setting, "weight", weight, above=NOTHING, at_most=HEAVIEST, name="roll weight")
    require(setting, "core", core, at_least=NOTHING, name="core weight")
    require(
        setting, "core", core, at_most=weight, name="core weight",
        because=f"The core cannot weigh more than the roll, {setting.own(weight)}.",
    )
    require(
        setting, "per_area", per_area, at_least=LIGHTEST_FILM, at_most=HEAVIEST_FILM,
        name="film weight",
    )
    require(setting, "roll_width", width, above=ZERO, name="roll width")
    left = length_by_weight(weight, core, per_area, width)
    film = weight - core
    figures = [NamedFigure("film left", left, unit=setting.unit("yd", "m"))]
    working = [
        f"{setting.own(weight)} - {setting.own(core)} core = {setting.own(film)} of film and liner",
        f"{setting.own(film)} / ({setting.own(per_area)} x {setting.own(width)}) = "
        f"{setting.own(left, 'yd', 'm')}",
    ]
    wanted = inputs.wanted
    assumed = ["the weight per area is of film and liner together"]
    if wanted is None and inputs.panels:
        wanted = for_panels(setting, inputs.panels, inputs.bleed, width, working, assumed)
    answer, verdict = judge_wanted(setting, left, wanted, figures, working)
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        assumed=tuple(assumed),
        verdict=verdict,
    )
