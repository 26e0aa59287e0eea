"""Film for a panel: the piece to cut, the length it takes off the roll, what is left beside it.

Owns what is said of one panel, and of several cut one after another. How a piece lies on the roll
is piece.py's; pieces side by side are cutplan/'s; how much bleed, knowledge/rules/cutting.toml's.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.calculations.arc import arc_length
from assistant.calculations.base import (
    Impossible,
    NamedFigure,
    Result,
    Setting,
    count_words,
    require,
)
from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.piece import FIRST, SECOND, Piece, lay_piece
from assistant.calculations.roll_left import judge_wanted
from assistant.quantity.kinds import Area, Count, Length, Ratio

ZERO = Length.of(0, "in")
_SHORT = (
    "measured straight: over a bow the piece comes out short; measure over the curve, "
    "or tell me how far it bows"
)
# Longer than any trailer: a slip of the unit.
LONGEST = Length.of(30, "m")
WIDEST_ROLL = Length.of(5, "m")

DIRECTIONAL, PLAIN = "directional", "plain"
ALLOWED, NEVER = "turn-allowed", "no-turn"
CURVE, STRAIGHT = "over-the-curve", "straight"


class Inputs(BaseInputs):
    """Sides over the curve, bleed on each edge, the roll, and how the piece may lie on it.

    length, height  the two sides in the order they were said
    film            `directional` (metallic, pearl, brushed...: never turned) or `plain`
    turn            ALLOWED (the shorter length off the roll is taken) or NEVER; without either
                    the piece is turned a quarter only when it does not fit otherwise
    along           FIRST (the default) or SECOND: which side runs along the roll
    measured        CURVE (the default) or STRAIGHT: how the first side was measured
    rise            how far the panel bows out between the ends of a side measured straight
    more            further panels: pairs of sides, all measured over the curve
    left            film that is left on the roll, where it shall be judged whether it is enough
    """

    length: Length
    height: Length
    bleed: Length
    roll_width: Length
    film: str | None = None
    turn: str | None = None
    along: str | None = None
    measured: str | None = None
    rise: Length | None = None
    left: Length | None = None
    more: tuple[tuple[Length, Length], ...] = ()


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """The cut size, the length off the roll, the off-cut beside it, area and waste.

    waste = 1 - cut area / film pulled, the film pulled being length off the roll times roll width.
    Raises Impossible for sides, bleed or roll beyond what they can be.
    """
    over, curve = _over_the_curve(inputs, setting)
    inputs = inputs.model_copy(update={"length": over})
    panels = ((over, inputs.height), *inputs.more)
    for length, height in panels:
        for slot, side in (("length", length), ("height", height)):
            require(setting, slot, side, above=ZERO, at_most=LONGEST, name="a side of",
                    unit=None)
    bleed, roll = inputs.bleed, inputs.roll_width
    require(setting, "bleed", bleed, at_least=ZERO)
    require(setting, "roll_width", roll, above=ZERO, at_most=WIDEST_ROLL, name="roll width")
    overlap = setting.limit("overlap-width", "width")
    require(setting, "roll_width", roll, above=overlap, name="roll width")

    directional = inputs.film == DIRECTIONAL
    if inputs.film is None and setting.film is not None:
        directional = setting.film.directional
        inputs = inputs.model_copy(update={"film": DIRECTIONAL if directional else None})
    may_turn = not directional and inputs.turn != NEVER
    pieces = tuple(
        lay_piece(
            length, height, bleed, roll, overlap,
            may_turn=may_turn, shortest=inputs.turn == ALLOWED, along=inputs.along or FIRST,
        )
        for length, height in panels
    )
    if len(pieces) == 1:
        result = _one(inputs, setting, pieces[0], may_turn, overlap)
    else:
        result = _several(inputs, setting, pieces, panels)
    result = replace(result, working=(*curve, *result.working))
    if inputs.measured == STRAIGHT and inputs.rise is None:
        result = replace(result, assumed=(*result.assumed, _SHORT))
    return result if inputs.left is None else _judged(result, setting, pieces, inputs.left)


def _over_the_curve(inputs: Inputs, setting: Setting) -> tuple[Length, tuple[str, ...]]:
    """The first side over the curve, and how it was found where a rise was given."""
    if inputs.rise is None:
        return inputs.length, ()
    for slot, side in (("length", inputs.length), ("rise", inputs.rise)):
        require(setting, slot, side, above=ZERO, at_most=LONGEST)
    if inputs.measured == CURVE:
        raise Impossible(
            "rise",
            f"Is {setting.own(inputs.length)} measured over the curve, or straight across with a "
            f"bow of {setting.own(inputs.rise)}? It cannot be both.",
        )
    require(
        setting, "rise", inputs.rise, at_most=inputs.length,
        because="It bows out more than it is long. Are the two swapped?",
    )
    over = arc_length(inputs.length, inputs.rise)
    return over, (
        f"{setting.own(inputs.length, 'in', 'mm')} straight, bowed "
        f"{setting.own(inputs.rise, 'in', 'mm')}: {setting.own(over, 'in', 'mm')} over the curve",
    )


def _judged(
    result: Result, setting: Setting, pieces: tuple[Piece, ...], left: Length
) -> Result:
    """The same result with the verdict first: whether what is left on the roll is enough."""
    wanted = ZERO
    for piece in pieces:
        wanted = wanted + piece.off_roll
    figures, working = [], list(result.working)
    told, verdict = judge_wanted(setting, left, wanted, figures, working)
    return replace(
        result,
        answer=f"{told} {result.answer}",
        figures=(*figures, *result.figures),
        working=tuple(working),
        verdict=verdict,
    )


def _cut_lines(setting: Setting, side: Length, bleed: Length, cut: Length) -> str:
    return (
        f"{setting.own(side, 'in', 'mm')} + 2 x {setting.own(bleed, 'in', 'mm')} bleed = "
        f"{setting.own(cut, 'in', 'mm')}"
    )


def _waste(cut: Area, pulled: Area) -> Ratio:
    spare = 1 - cut.si / pulled.si
    return Ratio.of(100 * max(spare, 0.0), "percent")


def _one(
    inputs: Inputs, setting: Setting, piece: Piece, may_turn: bool, overlap: Length
) -> Result:
    roll = inputs.roll_width
    own_roll = setting.own(roll, "in", "mm")
    pulled = piece.off_roll * roll
    cut = setting.sides(piece.length, piece.height)
    working = [
        _cut_lines(setting, inputs.length, inputs.bleed, piece.length),
        _cut_lines(setting, inputs.height, inputs.bleed, piece.height),
    ]
    assumed: list[str] = []
    rules = ["bleed", "roll-sizes"]
    tape = setting.unit("in", "mm")
    figures = [
        NamedFigure("length off the roll", piece.off_roll),
        NamedFigure("cut length", piece.length, unit=tape),
        NamedFigure("cut width", piece.height, unit=tape),
    ]
    steps: tuple[str, ...] = ()
    if piece.strips > 1:
        answer, verdict, steps = _too_wide(inputs, setting, piece, may_turn, overlap)
        figures.append(NamedFigure("strips", Count.of(piece.strips, "count")))
        working += [
            f"{setting.own(piece.across, 'in', 'mm')} across is wider than the {own_roll} roll",
            f"({setting.own(piece.across, 'in', 'mm')} - {setting.own(overlap)}) / ({own_roll} - "
            f"{setting.own(overlap)}) rounded up = {piece.strips} strips",
            f"{piece.strips} x {setting.own(piece.along, 'in', 'mm')} = "
            f"{setting.own(piece.off_roll, 'in', 'mm')} off the roll",
        ]
        rules += ["overlap-width", "overlap-direction"]
    else:
        beside = roll - piece.across if roll > piece.across else ZERO
        left = (
            f"{setting.own(beside, 'in', 'mm')} x {setting.own(piece.off_roll, 'in', 'mm')} "
            "is left beside it"
            if beside > ZERO else "nothing is left beside it"
        )
        answer = (
            f"{setting.both(piece.off_roll)} off a {own_roll} roll: cut the piece {cut}, "
            f"and {left}."
        )
        verdict = "fits turned" if piece.turned else "fits"
        figures.append(NamedFigure("left beside it", beside, unit=tape))
        working.append(
            f"{own_roll} - {setting.own(piece.across, 'in', 'mm')} across = "
            f"{setting.own(beside, 'in', 'mm')} left beside, "
            f"{setting.own(piece.off_roll, 'in', 'mm')} long"
        )
        assumed.append(_how_it_lies(inputs, setting, piece, may_turn, overlap))
    waste = _waste(piece.area, pulled)
    figures += [
        NamedFigure("area of the piece", piece.area),
        NamedFigure("waste, of the film pulled", waste),
    ]
    working += [
        f"{setting.own(piece.area)} cut of {setting.own(pulled)} pulled: "
        f"{setting.own(waste)} waste",
    ]
    if not may_turn and inputs.film == DIRECTIONAL:
        rules.append("direction")
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        steps=steps,
        assumed=tuple(text for text in assumed if text),
        rules=tuple(rules),
        cautions=(),
        verdict=verdict,
    )


def _how_it_lies(
    inputs: Inputs, setting: Setting, piece: Piece, may_turn: bool, overlap: Length
) -> str:
    """What was taken for granted about the way the piece lies on the roll."""
    run = setting.own(piece.along, "in", "mm")
    if inputs.film == DIRECTIONAL:
        return f"{run} along the roll, never turned: this film runs one way"
    if piece.turned:
        why = "the shorter length" if inputs.turn == ALLOWED else "it does not fit the other way"
        return f"turned a quarter, {run} along the roll: {why}"
    if inputs.turn or inputs.along:
        return ""
    text = f"{run} along the roll, not turned"
    other = lay_piece(
        inputs.length, inputs.height, inputs.bleed, inputs.roll_width, overlap, along=SECOND
    )
    if may_turn and other.off_roll < piece.off_roll:
        text += f"; turned a quarter it takes {setting.own(other.off_roll, 'in', 'mm')}"
    return text


def _too_wide(
    inputs: Inputs, setting: Setting, piece: Piece, may_turn: bool, overlap: Length
) -> tuple[str, str, tuple[str, ...]]:
    """The way out for a piece that is wider than the roll: in strips, or turned."""
    roll = setting.own(inputs.roll_width, "in", "mm")
    cut = setting.sides(piece.length, piece.height)
    along = setting.both(piece.along, "in", "mm")
    either = "either way" if may_turn else "this way round"
    answer = (
        f"The piece, cut {cut}, does not fit across a {roll} roll {either}: "
        f"{setting.both(piece.off_roll)} off the roll in {count_words(piece.strips, 'strip')}, "
        f"each {along} long, lapped {setting.own(overlap)}."
    )
    steps = [
        "Put the seam on a body line or a shut line, where the eye does not stop.",
        f"Cut {count_words(piece.strips, 'strip')} {along} long; "
        "lay them so that the exposed edge faces rearward or down.",
        "Post-heat every overlap.",
    ]
    turned = lay_piece(
        inputs.length, inputs.height, inputs.bleed, inputs.roll_width, overlap,
        may_turn=False, along=SECOND if (inputs.along or FIRST) == FIRST else FIRST,
    )
    if not may_turn and turned.strips == 1:
        steps.insert(0, (
            f"Turned a quarter it fits, {setting.own(turned.off_roll, 'in', 'mm')} off the roll: "
            "only if every panel of the car is cut that way round."
        ))
    steps.append("Or take a wider roll, or less bleed along a hidden edge.")
    return answer, "seam", tuple(steps)


def _alike(panels: tuple[tuple[Length, Length], ...]) -> list[tuple[int, int]]:
    """Runs of panels of one size: the places of the first and the last of each."""
    runs: list[tuple[int, int]] = []
    for place, sides in enumerate(panels):
        if runs and panels[runs[-1][0]] == sides:
            runs[-1] = (runs[-1][0], place)
        else:
            runs.append((place, place))
    return runs


def _several(
    inputs: Inputs,
    setting: Setting,
    pieces: tuple[Piece, ...],
    panels: tuple[tuple[Length, Length], ...],
) -> Result:
    """Several panels, each cut across the roll after the other."""
    total = ZERO
    area = pieces[0].area
    working, figures = [], []
    for number, piece in enumerate(pieces):
        total = total + piece.off_roll
        area = area + piece.area if number else area
    for first, last in _alike(panels):
        piece, (length, height) = pieces[first], panels[first]
        number = f"{first + 1}" if first == last else f"{first + 1}-{last + 1}"
        each = "" if first == last else " each"
        figures.append(NamedFigure(
            f"panel{each and 's'} {number}, length off the roll{each}", piece.off_roll
        ))
        in_strips = f" in {piece.strips} strips" if piece.strips > 1 else ""
        turned = ", turned" if piece.turned else ""
        working.append(
            f"{number}: {setting.sides(length, height, second=False)} cut "
            f"{setting.sides(piece.length, piece.height, second=False)}, "
            f"{setting.own(piece.off_roll, 'in', 'mm')} off the roll{each}{in_strips}{turned}"
        )
    waste = _waste(area, total * inputs.roll_width)
    working.append(f"together {setting.own(total, 'in', 'mm')}; {setting.own(waste)} waste")
    figures = [
        NamedFigure("length off the roll, together", total),
        *figures,
        NamedFigure("area of the pieces", area),
        NamedFigure("waste, of the film pulled", waste),
    ]
    return Result(
        answer=(
            f"{setting.both(total)} off a {setting.own(inputs.roll_width, 'in', 'mm')} roll for "
            f"{len(pieces)} panels, cut one after another."
        ),
        figures=tuple(figures),
        working=tuple(working),
        assumed=(
            "pieces cut one after another; side by side they may take less",
            *(("never turned: this film runs one way",) if inputs.film == DIRECTIONAL else ()),
        ),
        rules=("bleed", "roll-sizes"),
        verdict="seam" if any(piece.strips > 1 for piece in pieces) else "fits",
    )
