"""Warm-up of a cold roll: hours until the film at the core is inside the window.

Owns a roll of film as a hollow cylinder of plastic, and its properties. The series is
conduction.py's; a cold panel is panel_warm_up.py's; the 24 h habit, knowledge/rules/bay.toml's.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.calculations.base import Impossible, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.conduction import fourier_for, modes, settled
from assistant.quantity.kinds import Duration, Length, Temperature

ZERO = Length.of(0, "in")
WIDEST = Length.of(1, "m")
COLDEST = Temperature.of(-40, "degC")
HOTTEST = Temperature.of(70, "degC")


class Inputs(BaseInputs):
    """diameter over the film, core outside, temperature of the roll and of the bay.

    target  temperature that the innermost film must reach; without it the near end of the bay's
            window
    """

    diameter: Length
    core: Length
    start: Temperature
    room: Temperature
    target: Temperature | None = None


@dataclass(frozen=True, slots=True)
class Stuff:
    """k W/(m K), density kg/m3, specific heat J/(kg K), h W/(m2 K) from the roll to the air."""

    k: float
    density: float
    heat: float
    h: float


# Rigid PVC of DIN EN 12524 stands for film, adhesive and liner together; air between the turns and
# the softener lower the conductivity, so it is given a range. h is still air to a gentle draught.
LIKELY = Stuff(k=0.17, density=1390.0, heat=900.0, h=8.0)
QUICK = Stuff(k=0.20, density=1390.0, heat=900.0, h=10.0)
SLOW = Stuff(k=0.12, density=1390.0, heat=900.0, h=5.0)
# Terms that do, unless the time asked for is very short.
_FEW = 4


def time_to_core(diameter: Length, core: Length, left: float, stuff: Stuff) -> Duration:
    """Time until `left` of the temperature difference remains in the film at the core.

    t = Fo r^2 / alpha, alpha = k / (rho c), Fo from the series of a hollow cylinder with an
    insulated bore and convection outside, Bi = h r / k.

    diameter  over the film; core  outside diameter, < diameter; left  (T - room) / (T_0 - room),
    between 0 and 1; a long roll, its ends are not counted.
    Source: conduction.modes. Check (solid, D 0.15 m, h 8): 0.25 left at the centre after 5.85 h.
    """
    r = diameter.si / 2
    biot, bore = stuff.h * r / stuff.k, core / diameter
    series = modes(biot, bore, terms=_FEW)
    fourier = fourier_for(series, left)
    if not settled(series, fourier):
        fourier = fourier_for(modes(biot, bore), left)
    alpha = stuff.k / (stuff.density * stuff.heat)
    return Duration.of(fourier * r * r / alpha, "s")


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Hours until the innermost film is inside the window, likely, quickest and slowest.

    Raises Impossible for a core as wide as the roll, and for a bay that never brings it there.
    """
    diameter, core = inputs.diameter, inputs.core
    require(setting, "diameter", diameter, above=ZERO, at_most=WIDEST, name="roll diameter")
    require(setting, "core", core, above=ZERO)
    require(
        setting, "core", core, below=diameter,
        because=f"The core cannot be as wide as the roll, {setting.own(diameter)}.",
    )
    if core / diameter > 0.95:
        raise Impossible(
            "core", f"Core {setting.own(core)} in a roll of {setting.own(diameter)}? "
            "That is a last turn or two of film: half an hour in the bay does it.",
        )
    start, room = inputs.start, inputs.room
    for slot, value, name in (("start", start, "roll temperature"), ("room", room, "bay")):
        require(setting, slot, value, at_least=COLDEST, at_most=HOTTEST, name=name)
    low, high = setting.figure("bay-temperature", "air")
    target = inputs.target or (low if start <= room else high)
    rules = ("bay-temperature", "acclimatise-rolls")
    there = start >= target if start <= room else start <= target
    if there:
        return Result(
            answer=(
                f"It is there already: the roll is at {setting.both(start)}, "
                f"{setting.both(target)} is wanted."
            ),
            figures=(NamedFigure("time until the core is inside", Duration.of(0, "h")),),
            working=(f"{setting.own(start)} against {setting.own(target)}",),
            rules=rules,
            verdict="ready",
        )
    if (room <= target) if start <= room else (room >= target):
        raise Impossible(
            "room",
            f"A bay at {setting.own(room)} never brings the core to {setting.own(target)}: "
            "warm the bay first." if start <= room else
            f"A bay at {setting.own(room)} never brings the core down to {setting.own(target)}: "
            "cool the bay first.",
        )
    left = (target - room) / (start - room)
    likely, quick, slow = (
        time_to_core(diameter, core, left, stuff) for stuff in (LIKELY, QUICK, SLOW)
    )
    usual = setting.limit("acclimatise-rolls", "time")
    enough = (
        f"the usual {setting.own(usual)} in the bay covers it"
        if slow <= usual else f"the usual {setting.own(usual)} in the bay may not be enough"
    )
    biot = LIKELY.h * diameter.si / 2 / LIKELY.k
    return Result(
        answer=(
            f"About {setting.own(likely)} until the film at the core is at "
            f"{setting.both(target)}; {enough}."
        ),
        figures=(
            NamedFigure("time until the core is inside", likely),
            NamedFigure("at the quickest", quick),
            NamedFigure("at the slowest", slow),
        ),
        working=(
            f"left to go: ({setting.own(target)} - {setting.own(room)}) / ({setting.own(start)} - "
            f"{setting.own(room)}) = {left:.3f} of the difference",
            f"hollow cylinder {setting.own(diameter)} over {setting.own(core)}, Bi = h r / k = "
            f"{biot:.2f}: {setting.own(likely)}",
            f"draughty bay, dense roll: {setting.own(quick)}; "
            f"still air, loose roll: {setting.own(slow)}",
        ),
        steps=(
            "Take the roll out of its box and stand or hang it free, so that air gets all round.",
            "Unwind the first turns and feel the film before you cut: the outside is warm long "
            "before the core.",
        ),
        assumed=(
            "rigid PVC for the roll: 0.17 W/(m K) (0.12-0.20), 1390 kg/m3, 900 J/(kg K)",
            "8 W/(m2 K) to the air (5-10), out of the box",
        ),
        rules=rules,
        verdict="wait",
    )
