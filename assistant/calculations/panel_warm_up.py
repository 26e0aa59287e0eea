"""Warm-up of a cold panel: minutes until bare steel, aluminium or plastic is inside the window.

Owns the sheet as one lump that warms through its faces. A roll is roll_warm_up.py's; how warm a
panel must be, knowledge/rules/bay.toml's.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log

from assistant.calculations.base import Impossible, Missing, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Duration, Length, Temperature

ZERO = Length.of(0, "in")
COLDEST = Temperature.of(-40, "degC")
HOTTEST = Temperature.of(90, "degC")
# Above this Biot number the inside lags behind the face, and one lump is too simple.
LUMPED_TO = 0.1


@dataclass(frozen=True, slots=True)
class Material:
    """Density kg/m3, specific heat J/(kg K), conductivity W/(m K)."""

    density: float
    heat: float
    k: float
    said: str


# Heat and conductivity: Callister, Materials Science and Engineering, 8th ed., table 19.1 (1025
# steel, aluminium); polypropylene as in DIN EN 12524. Densities of the metals from memory.
MATERIALS = {
    "steel": Material(7850.0, 486.0, 51.9, "steel"),
    "aluminium": Material(2700.0, 900.0, 247.0, "aluminium"),
    "plastic": Material(910.0, 1800.0, 0.22, "polypropylene"),
}
LIKELY_H, QUICK_H, SLOW_H = 8.0, 10.0, 5.0
BOTH, ONE = "both-faces", "one-face"


class Inputs(BaseInputs):
    """material, thickness, temperature of the panel and of the bay.

    faces   BOTH in the air (hood, door skin) or ONE (padded or boxed in behind)
    target  temperature wanted; without it the near end of the panel's window
    """

    material: str
    thickness: Length
    start: Temperature
    room: Temperature
    faces: str = BOTH
    target: Temperature | None = None


def time_to(
    material: Material, thickness: Length, left: float, h: float, faces: int
) -> Duration:
    """Lumped warm-up: t = tau ln(1 / left), tau = rho c s / (n h).

    thickness  s > 0; left  (T - room) / (T_0 - room), between 0 and 1; h  W/(m2 K) on each of
    n faces. Valid while Bi = h (s / n) / k <= 0.1.
    Source: lumped capacity, Cengel, Heat and Mass Transfer, ch. 4.
    By hand: steel 0.8 mm, h 8 both faces: 7850 x 486 x 0.0008 / 16 = 191 s; half left: 132 s.
    """
    tau = material.density * material.heat * thickness.si / (faces * h)
    return Duration.of(tau * log(1 / left), "s")


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Minutes until the bare sheet is inside the window, likely, quickest and slowest.

    Raises Impossible beyond the lumped form (Bi over 0.1) and for a bay that never brings it there.
    """
    material = MATERIALS.get(inputs.material)
    if material is None:
        raise Missing("material", "Is the panel steel, aluminium or plastic?")
    start, room, thickness = inputs.start, inputs.room, inputs.thickness
    require(setting, "thickness", thickness, above=ZERO, name="panel thickness")
    for slot, value, name in (("start", start, "panel temperature"), ("room", room, "bay")):
        require(setting, slot, value, at_least=COLDEST, at_most=HOTTEST, name=name)
    faces = 1 if inputs.faces == ONE else 2
    biot = LIKELY_H * thickness.si / faces / material.k
    if biot > LUMPED_TO:
        thickest = Length.of(LUMPED_TO * material.k * faces / LIKELY_H, "m")
        raise Impossible(
            "thickness",
            f"{setting.own(thickness)} of {material.said} is too thick for this sum: it holds up "
            f"to {setting.own(thickest)}, where the inside still follows the face.",
        )
    low, high = setting.figure("panel-temperature", "panel")
    target = inputs.target or (low if start <= room else high)
    there = start >= target if start <= room else start <= target
    if there:
        return Result(
            answer=f"It is there already: {setting.both(start)}.",
            figures=(NamedFigure("time until the panel is inside", Duration.of(0, "min")),),
            working=(f"{setting.own(start)} against {setting.own(target)}",),
            rules=("panel-temperature",),
            verdict="ready",
        )
    if (room <= target) if start <= room else (room >= target):
        raise Impossible(
            "room",
            f"A bay at {setting.own(room)} never brings the panel to {setting.own(target)}.",
        )
    left = (target - room) / (start - room)
    likely, quick, slow = (
        time_to(material, thickness, left, h, faces) for h in (LIKELY_H, QUICK_H, SLOW_H)
    )
    return Result(
        answer=(
            f"About {setting.own(likely, 'min', 'min')} until the bare {material.said} sheet is at "
            f"{setting.both(target)}; the vehicle behind it takes far longer, so measure."
        ),
        figures=(
            NamedFigure("time until the panel is inside", likely, unit="min"),
            NamedFigure("at the quickest", quick, unit="min"),
            NamedFigure("at the slowest", slow, unit="min"),
        ),
        working=(
            f"left to go: ({setting.own(target)} - {setting.own(room)}) / ({setting.own(start)} - "
            f"{setting.own(room)}) = {left:.3f} of the difference",
            f"tau = {material.density:.0f} x {material.heat:.0f} x {thickness.si:g} m / "
            f"({faces} x {LIKELY_H:g}) = {likely.si / log(1 / left):.0f} s",
            f"tau x ln(1 / {left:.3f}) = {setting.own(likely, 'min', 'min')}",
        ),
        steps=(
            "Open doors, hood and trunk so that the air gets behind the panels.",
            "Read the coldest panel before the film comes out: sills and lower edges lag.",
        ),
        assumed=(
            f"8 W/(m2 K) on {'both faces' if faces == 2 else 'one face'} (5-10)",
            "a bare sheet, nothing cold fixed to it",
        ),
        rules=("panel-temperature", "vehicle-in-early"),
        verdict="wait",
    )
