"""Contraction: what a temperature swing does to film and to the panel under it.

Owns the lengths and why an edge pulls back in the cold. How the tension is relaxed before an edge
is sealed is knowledge/rules/edges.toml's.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.base import Missing, NamedFigure, Result, Setting, require
from assistant.quantity.kinds import Length, Temperature, TemperatureDifference

ZERO = Length.of(0, "in")
LONGEST = Length.of(30, "m")
# Room-temperature coefficients; a vehicle sees no more, and PVC softens beyond.
COLDEST = Temperature.of(-40, "degC")
HOTTEST = Temperature.of(80, "degC")
NONE = TemperatureDifference.of(0, "dC")


@dataclass(frozen=True, slots=True)
class Expansion:
    """Linear coefficient of a material in 1/K, from low to high, and what it is called."""

    low: float
    high: float
    said: str


# Callister, Fundamentals of Materials Science and Engineering, 3rd ed., table B.6, near room
# temperature: steel 1020, aluminium 6061, polypropylene, poly(vinyl chloride).
FILM = Expansion(90e-6, 180e-6, "PVC film")
PANELS = {
    "steel": Expansion(11.7e-6, 11.7e-6, "steel"),
    "aluminium": Expansion(23.6e-6, 23.6e-6, "aluminium"),
    "plastic": Expansion(146e-6, 180e-6, "polypropylene"),
}


class Inputs(BaseInputs):
    """length of the run of film, material of the panel, and the two temperatures."""

    length: Length
    material: str
    start: Temperature
    end: Temperature


def change(length: Length, coefficient: float, swing: TemperatureDifference) -> Length:
    """Change of a free length: dL = alpha L dT; negative when it gets colder.

    length  > 0; coefficient  1/K, constant over the swing; swing  end less start.
    Source: linear thermal expansion. By hand: 1 m of steel, 50 K: 11.7e-6 x 50 = 0.585 mm.
    """
    return length * (coefficient * swing.to("dC"))


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """How much film and panel would move if they were free, and the difference the adhesive holds.

    The film's coefficient is a range, so its change is one. Raises Impossible beyond -40 to
    80 degC.
    """
    panel = PANELS.get(inputs.material)
    if panel is None:
        raise Missing("material", "Is the panel steel, aluminium or plastic?")
    require(setting, "length", inputs.length, above=ZERO, at_most=LONGEST, name="the run of film")
    for slot, value in (("start", inputs.start), ("end", inputs.end)):
        require(
            setting, slot, value, at_least=COLDEST, at_most=HOTTEST, name="temperature",
            because=f"The coefficients serve from {setting.own(COLDEST)} to "
            f"{setting.own(HOTTEST)}.",
        )
    swing = inputs.end - inputs.start
    verb = "shorter" if swing < NONE else "longer"
    film = _ends(inputs.length, FILM, swing)
    metal = _ends(inputs.length, panel, swing)
    # The least and the most that the film moves beyond the panel.
    least = max(film[0] - metal[1], ZERO)
    most = film[1] - metal[0]
    tape = setting.unit("in", "mm")

    def span(low: Length, high: Length) -> str:
        ends = setting.own(low, "in", "mm"), setting.own(high, "in", "mm")
        return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"

    size = TemperatureDifference.of(abs(swing.to("dC")), "dC")
    if swing == NONE:
        answer = "No swing, no change."
    else:
        beyond = (
            f"That is {span(least, most)} more than the {panel.said} under it, and the adhesive "
            "has to hold it."
            if least > ZERO else
            f"The {panel.said} under it moves {span(*metal)}, about as much."
        )
        answer = (
            f"Over {setting.both(size)} the film would be {span(*film)} {verb} if it were free. "
            f"{beyond}"
        )
    pulls = swing < NONE and least > ZERO
    return Result(
        answer=answer,
        figures=(
            NamedFigure(f"film {verb} by", film[0], film[1], unit=tape),
            NamedFigure(f"{panel.said} {verb} by", metal[0], metal[1], unit=tape),
            NamedFigure("difference that the adhesive holds", least, most, unit=tape),
        ),
        working=(
            f"{setting.own(inputs.start)} to {setting.own(inputs.end)}: {setting.own(size)}, "
            f"{size.to('dC'):.1f} K",
            f"film: {setting.own(inputs.length, 'in', 'mm')} x {FILM.low * 1e6:.0f} to "
            f"{FILM.high * 1e6:.0f} millionths per K x {size.to('dC'):.1f} K = {span(*film)}",
            f"{panel.said}: {setting.own(inputs.length, 'in', 'mm')} x {panel.low * 1e6:g}"
            + (f" to {panel.high * 1e6:g}" if panel.high > panel.low else "")
            + f" millionths per K x {size.to('dC'):.1f} K = {span(*metal)}",
        ),
        steps=(
            "Relax the film with heat before an edge is sealed, so that it has nothing to give.",
            "Wrap behind or seal the edges that face the pull.",
        ) if pulls else (),
        assumed=("film and panel free to move; laid and warm at the first temperature",),
        rules=("edge-relax",) if pulls else (),
        cautions=("heat-gun", "hot-film") if pulls else (),
        verdict="the edge is pulled back" if pulls else "little pull",
    )


def _ends(
    length: Length, material: Expansion, swing: TemperatureDifference
) -> tuple[Length, Length]:
    """Least and most that a length changes, as sizes."""
    sizes = [abs(change(length, alpha, swing)) for alpha in (material.low, material.high)]
    return min(sizes), max(sizes)
