"""Strips: how many widths of film cover a surface, lapped seams included.

Owns the count, where the seams fall and what is left over. Where each strip lies on the roll
belongs to cutplan/; how wide an overlap is, and which way it faces, to knowledge/rules/seams.toml.
"""

from __future__ import annotations

from math import ceil

from assistant.calculations.base import (
    SLACK,
    Impossible,
    NamedFigure,
    Result,
    Setting,
    count_words,
    require,
)
from assistant.calculations.base import Inputs as BaseInputs
from assistant.quantity.kinds import Count, Length

ZERO = Length.of(0, "in")
# More strips than any vehicle takes: a slip of the unit, not a job.
MOST = 200
# Positions of more seams than this are told by their spacing alone.
SPELLED_OUT = 8


class Inputs(BaseInputs):
    """surface across the strips; film and overlap of each strip; height along the strips."""

    surface: Length
    film: Length
    overlap: Length
    height: Length | None = None
    run: str | None = None


def strips_to_cover(surface: Length, film: Length, overlap: Length) -> int:
    """Strips of film that cover a surface side by side.

    n = ceil((surface - overlap) / (film - overlap)): each strip after the first gives up one
    overlap.

    surface  across the strips, > 0
    film     usable width of a strip, > overlap
    overlap  lap at each seam, >= 0
    Returns a whole number >= 1. Raises ValueError when film is not wider than the overlap.
    Source: geometry. By hand: 108 in, film 54 in, overlap 1/2 in: 107.5 / 53.5 = 2.009, so 3.
    """
    if not film > overlap:
        raise ValueError("the strip must be wider than its overlap")
    # 107.5 in held as metres can divide to a little over 2; without slack, ceil sells a third.
    return max(1, ceil((surface - overlap) / (film - overlap) - SLACK))


def seams(surface: Length, film: Length, overlap: Length) -> tuple[Length, ...]:
    """Where each strip after the first begins, measured from the edge that was started at.

    Seam i lies from i (film - overlap) to that plus one overlap. Bounds as in strips_to_cover.
    Returns n - 1 lengths, nearest first.
    """
    number = strips_to_cover(surface, film, overlap)
    return tuple((film - overlap) * i for i in range(1, number))


def leftover(surface: Length, film: Length, overlap: Length) -> Length:
    """Film to spare beside the last strip: n (film - overlap) + overlap - surface, or 0."""
    number = strips_to_cover(surface, film, overlap)
    spare = (film - overlap) * number + overlap - surface
    return spare if spare > ZERO else ZERO


def even_width(surface: Length, number: int, overlap: Length) -> Length:
    """Width of a strip when all are cut alike: (surface + (n - 1) overlap) / n."""
    return (surface + overlap * (number - 1)) / number


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Strips for a surface, the seams and the leftover.

    Raises Impossible for a width of zero or below, and for an overlap as wide as the strip.
    """
    surface, film, overlap = inputs.surface, inputs.film, inputs.overlap
    require(setting, "surface", surface, above=ZERO, name="the surface")
    require(setting, "film", film, above=ZERO, name="the film")
    require(setting, "overlap", overlap, at_least=ZERO)
    require(
        setting, "overlap", overlap, below=film,
        because=f"The film is only {setting.own(film)} wide; nothing would be left of a strip.",
    )
    if inputs.height is not None:
        require(setting, "height", inputs.height, above=ZERO, name="the strip's length")
    if (surface - overlap) / (film - overlap) > MOST:
        raise Impossible(
            "surface",
            f"{setting.own(surface)} in strips of {setting.own(film)} would take more than {MOST} "
            "strips. Is one of them in the wrong unit?",
        )

    def own(length: Length) -> str:
        return setting.own(length, "in", "mm")

    def both(length: Length) -> str:
        return setting.both(length, "in", "mm")

    tape = setting.unit("in", "mm")
    number = strips_to_cover(surface, film, overlap)
    starts = seams(surface, film, overlap)
    spare = leftover(surface, film, overlap)
    even = even_width(surface, number, overlap)

    figures = [NamedFigure("strips", Count.of(number, "count"))]
    working = [
        f"({own(surface)} - {own(overlap)}) / ({own(film)} - "
        f"{own(overlap)}) = {(surface - overlap) / (film - overlap):.3f}, "
        f"rounded up: {number}",
    ]
    if number == 1:
        answer = f"One strip covers it, with {both(spare)} to spare: no seam."
        figures.append(NamedFigure("to spare beside the strip", spare, unit=tape))
        working.append(
            f"{own(film)} - {own(surface)} = {own(spare)} to spare"
        )
    else:
        seam = own(film - overlap)
        if number == 2:
            place = f"at {both(starts[0])}"
        elif number - 1 <= SPELLED_OUT:
            place = "at " + ", ".join(own(start) for start in starts)
        else:
            place = f"every {both(film - overlap)}"
        answer = (
            f"{count_words(number, 'strip')} with {count_words(number - 1, 'seam')}: "
            f"a seam starts {place} from the edge you begin at, "
            f"and {both(spare)} of the last strip is left over."
        )
        figures += [
            NamedFigure(f"seam {i} starts at", start, unit=tape)
            for i, start in enumerate(starts[:SPELLED_OUT], 1)
        ]
        figures += [
            NamedFigure("left over beside the last strip", spare, unit=tape),
            NamedFigure("width of each strip, if all are cut alike", even, unit=tape),
        ]
        working += [
            f"each strip after the first reaches {own(film)} - {own(overlap)} = "
            f"{seam} further",
            f"{number} x {seam} + {own(overlap)} - {own(surface)} = "
            f"{own(spare)} left over",
            f"cut alike: ({own(surface)} + {number - 1} x {own(overlap)}) / "
            f"{number} = {own(even)} each",
        ]
    if inputs.height is not None:
        total = inputs.height * number
        figures.insert(1, NamedFigure("length off the roll", total))
        working.append(
            f"{number} x {own(inputs.height)} = {setting.own(total)} off the roll"
        )
        answer += f" It takes {setting.both(total)} off the roll."
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        steps=_steps(number, inputs.run),
        assumed=("the surface is measured with its bleed",),
        rules=("overlap-width", "overlap-direction") if number > 1 else (),
    )


def _steps(number: int, run: str | None) -> tuple[str, ...]:
    """The order of laying, so that the exposed edge faces rearward or down."""
    if number == 1:
        return ()
    if run == "upright":
        order = ("Lay the rearmost strip first, then forward: each exposed edge faces rearward.",)
    elif run == "level":
        order = ("Lay the lowest strip first, then work up: each exposed edge faces down.",)
    else:
        order = (
            "Upright strips: rearmost first, then forward; each exposed edge faces rearward.",
            "Level strips: lowest first, then up; each exposed edge faces down.",
        )
    return (
        *order,
        "Shift the start, or cut all strips alike, to bring the seams onto body lines.",
        "Post-heat every overlap.",
    )
