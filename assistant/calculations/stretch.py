"""Stretch: how far film is pulled into a recess, over a dome, a step or a hem.

Owns the geometry, the thinning, and the verdict against the rules' limits. The limits themselves
are knowledge/rules/stretch.toml's; how a relief cut or an inlay is made, laying and seams'.
"""

from __future__ import annotations

from math import hypot, sqrt

from assistant.calculations.arc import arc_length
from assistant.calculations.base import Impossible, Missing, NamedFigure, Result, Setting, require
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Length, Ratio

ZERO = Length.of(0, "in")
SQUARE, V, ROUND, DOME, STEP, HEM = "square", "v", "round", "dome", "step", "hem"
# Ten times as deep as wide is a slip of a unit or of the order, not a recess.
DEEPEST = 10.0


class Inputs(BaseInputs):
    """The shape and its sizes.

    shape      square | v | round (recess), dome, step, hem
    width      across the recess or the dome at its mouth; for a step the run over which the film
               may stretch; for a hem the radius of the edge that it is folded over
    depth      depth of the recess, rise of the dome or the step, width of the hem
    thickness  of the film, if its thinning is wanted
    """

    shape: str
    width: Length
    depth: Length
    thickness: Length | None = None


def square_recess(width: Length, depth: Length) -> float:
    """Stretch into a square channel: e = 2 d / w; floor and both walls from the film of the mouth.

    width > 0, depth >= 0; a fraction. The film is held at both lips and fed from nowhere.
    By hand: 4 in wide, 1/2 in deep: 1 / 4 = 25 %.
    """
    return 2 * (depth / width)


def v_recess(width: Length, depth: Length) -> float:
    """Stretch into a V: e = sqrt(1 + (2 d / w)^2) - 1.

    By hand: 8 wide, 3 deep: each flank sqrt(16 + 9) = 5, so 10 / 8 - 1 = 25 %.
    """
    return hypot(1.0, 2 * (depth / width)) - 1


def round_recess(width: Length, depth: Length) -> float:
    """Stretch into a rounded channel: arc over chord, less one.

    By hand: a half round (d = w / 2): pi / 2 - 1 = 57.1 %. Source: arc.arc_length.
    """
    return arc_length(width, depth) / width - 1 if depth > ZERO else 0.0


def dome_area_growth(width: Length, rise: Length) -> float:
    """Growth in area of film drawn over a spherical cap: h^2 / a^2, a = width / 2.

    Cap pi (a^2 + h^2) over its flat base pi a^2, less one. A fraction. width > 0, rise >= 0.
    Source: spherical cap, any handbook of mensuration. By hand: a half ball (h = a): 100 %.
    """
    return (2 * (rise / width)) ** 2


def dome(width: Length, rise: Length) -> float:
    """Stretch over a dome, equal in both directions: e = sqrt(1 + h^2 / a^2) - 1.

    The film of the mouth, spread evenly. By hand: a half ball: sqrt(2) - 1 = 41.4 %.
    """
    return sqrt(1 + dome_area_growth(width, rise)) - 1


def step(run: Length, rise: Length) -> float:
    """Stretch over a step of a given rise, taken over a run of film: e = sqrt(1 + (h / r)^2) - 1.

    run > 0: the film that shares the pull, from where it is tacked to where it is laid down.
    By hand: rise 3, run 4: 5 / 4 - 1 = 25 %.
    """
    return hypot(1.0, rise / run) - 1


def hem(radius: Length, hem_width: Length) -> float:
    """Stretch of the outer edge of a hem turned over an inward-curved edge: e = b / R.

    The edge lies at radius R, the hem's own edge at R + b; it must grow by the ratio of the two.
    On an edge that curves outward (a door corner) the hem is crowded instead and wants small darts.
    By hand: a wheel arch of 15 in radius, hem 1/2 in: 3.3 %.
    """
    return hem_width / radius


_SHAPES = {
    SQUARE: square_recess, V: v_recess, ROUND: round_recess, DOME: dome, STEP: step, HEM: hem,
}
_SAID = {
    SQUARE: "a square recess", V: "a V-shaped recess", ROUND: "a rounded recess",
    DOME: "a dome", STEP: "a step", HEM: "a hem on an inward curve",
}


def thinning(thickness: Length, stretch: float, both_ways: bool) -> Length:
    """Thickness after stretching at constant volume: t / (1 + e), held in width, or t / (1 + e)^2.

    stretch >= 0, a fraction. By hand: 100 um at 25 %: 80 um held in width, 64 um both ways.
    """
    return thickness / ((1 + stretch) ** 2 if both_ways else 1 + stretch)


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Stretch, thinning, and the verdict by the rules: free, post-heat, relief cut or inlay.

    The stretch is the mean over the shape with no film fed in from around; verdicts compare it
    unrounded. Raises Impossible for sizes of zero or below and shapes ten times as deep as wide.
    """
    shape, width, depth = inputs.shape, inputs.width, inputs.depth
    if shape not in _SHAPES:
        raise Missing("shape", "Which shape: " + ", ".join(_SHAPES) + "?")
    mouth, deep = {
        STEP: ("the run", "the rise"), HEM: ("the radius", "the hem"),
        DOME: ("the dome", "the rise"),
    }.get(shape, ("the width", "the depth"))
    require(setting, "width", width, above=ZERO, name=mouth)
    require(setting, "depth", depth, above=ZERO, name=deep)
    if depth / width > DEEPEST:
        raise Impossible(
            "depth",
            f"{deep.capitalize()} {setting.own(depth)} on {setting.own(width)}? That is over "
            f"{DEEPEST:.0f} times as deep as wide. Are the two swapped, or in different units?",
        )
    thickness = inputs.thickness
    film = setting.film
    if thickness is None and film is not None:
        thickness = film.thickness
    if thickness is not None:
        require(setting, "thickness", thickness, above=ZERO, name="film thickness")
    stretch = _SHAPES[shape](width, depth)
    amount = _percent(stretch)
    both_ways = shape == DOME

    free = setting.limit("stretch-free", "limit")
    never = setting.limit("stretch-never", "limit")
    on = f" on {film.name}{' film' if film.name == film.family else ''}" if film is not None else ""
    if amount <= free:
        verdict, rule = "free", "stretch-free"
        judged = f"free{on}: no post-heat for it, up to {setting.own(free)}"
    elif amount <= never:
        verdict, rule = "post-heat", "stretch-post-heat"
        judged = f"post-heat it{on}: it is over {setting.own(free)}"
    else:
        verdict, rule = "relief cut or inlay", "stretch-never"
        judged = f"too far{on}: over {setting.own(never)}, so a relief cut, an inlay or a seam"

    called = "stretch, equal both ways" if both_ways else "stretch"
    figures = [NamedFigure(called, amount, fine=True)]
    working = list(_working(setting, shape, width, depth, stretch))
    if both_ways:
        growth = _percent(dome_area_growth(width, depth))
        figures.append(NamedFigure("growth in area", growth, fine=True))
    if thickness is not None:
        thin = thinning(thickness, stretch, both_ways)
        figures.append(
            NamedFigure(
                "film thickness after stretching", thin, unit=setting.unit("mil", "um"), fine=True
            )
        )
        square = "^2" if both_ways else ""
        working.append(
            f"{setting.own(thickness, 'mil', 'um')} / (1 + {stretch:.3f}){square} = "
            f"{setting.own(thin, 'mil', 'um')}"
        )
    loss = _percent(1 - 1 / ((1 + stretch) ** (2 if both_ways else 1)))
    figures.append(NamedFigure("thinner by", loss, fine=True))
    steps = {
        "free": (),
        "post-heat": (
            "Feed film in from the sides first: what comes in need not be stretched.",
            "Mark the spot, and post-heat it when the panel is down.",
        ),
        "relief cut or inlay": (
            "Spread the pull over a longer run, or feed film in, and work it out again.",
            "If it still asks that much: an inlay first, then the main piece over it.",
        ),
    }[verdict]
    cautions = () if verdict == "free" else ("heat-gun", "hot-film")
    return Result(
        answer=f"{setting.own(amount, fine=True)} stretch over {_SAID[shape]}; {judged}.",
        figures=tuple(figures),
        working=tuple(working),
        steps=steps,
        assumed=("spread evenly, no film fed in from around",),
        rules=(rule,),
        cautions=cautions + (("blade",) if verdict == "relief cut or inlay" else ()),
        verdict=verdict,
    )


def _percent(fraction: float) -> Ratio:
    return Ratio.of(100 * fraction, "percent")


def _working(
    setting: Setting, shape: str, width: Length, depth: Length, stretch: float
) -> tuple[str, ...]:
    w, d = setting.own(width), setting.own(depth)
    percent = f"{100 * stretch:.1f}%"
    if shape == SQUARE:
        return (f"2 x {d} / {w} = {percent}",)
    if shape == V:
        return (f"sqrt(1 + (2 x {d} / {w})^2) - 1 = {percent}",)
    if shape == ROUND:
        over = arc_length(width, depth)
        return (f"over the curve {setting.own(over)}", f"{setting.own(over)} / {w} - 1 = {percent}")
    if shape == DOME:
        growth = dome_area_growth(width, depth)
        return (
            f"area: ({d} / half of {w})^2 = {100 * growth:.1f}% more than the flat base",
            f"each way: sqrt(1 + {growth:.4f}) - 1 = {percent}",
        )
    if shape == STEP:
        return (f"sqrt(1 + ({d} / {w})^2) - 1 = {percent}",)
    return (f"{d} / {w} radius = {percent}",)
