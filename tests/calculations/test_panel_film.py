"""Film for a panel. Expected values are worked by hand beside each check."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import Impossible
from assistant.calculations.panel_film import ALLOWED, Inputs, calculate
from assistant.calculations.piece import lay_piece
from assistant.quantity.kinds import Length
from assistant.quantity.write import System
from tests.calculations.conftest import setting_for

ROLL = Length.of(60, "in")
LAP = Length.of(0.125, "in")


def inches(value: float) -> Length:
    return Length.of(value, "in")


def panel(length: float, height: float, bleed: float = 3, **more) -> Inputs:
    return Inputs(
        length=inches(length), height=inches(height), bleed=inches(bleed),
        roll_width=more.pop("roll_width", ROLL), **more,
    )


def to_inches(found: dict) -> dict:
    return {name: value.to("in") for name, value in found.items() if isinstance(value, Length)}


def test_a_rear_bumper_92_by_31_with_3_inch_bleed_takes_98_inches_off_the_roll(us, figures):
    # By hand: 92 + 6 = 98, 31 + 6 = 37, 60 - 37 = 23.
    result = calculate(panel(92, 31), us)
    assert to_inches(figures(result)) == pytest.approx({
        "length off the roll": 98, "cut length": 98, "cut width": 37, "left beside it": 23,
    })
    assert result.figures[0].name == "length off the roll"


def test_the_answer_reads_like_the_bench_says_it(us):
    answer = calculate(panel(92, 31), us).answer
    assert "98 in (2.49 m) off a 60 in roll" in answer
    assert "98 x 37 in" in answer
    assert "23 in x 98 in is left beside it" in answer


def test_area_and_waste_are_of_the_cut_piece_and_the_film_pulled(us, figures):
    # By hand: 98 x 37 = 3626 in2 = 25.18 ft2; 98 x 60 = 5880 in2; 1 - 3626 / 5880 = 38.33 %.
    found = figures(calculate(panel(92, 31), us))
    assert found["area of the piece"].to("in2") == pytest.approx(3626)
    assert found["waste, of the film pulled"].to("percent") == pytest.approx(38.333, abs=0.001)


def test_a_panel_named_short_side_first_is_turned_when_it_fits_no_other_way(us, figures):
    # 31 + 6 = 37 along would leave 98 across a 60 in roll.
    result = calculate(panel(31, 92), us)
    assert figures(result)["length off the roll"].to("in") == pytest.approx(98)
    assert result.verdict == "fits turned"
    assert any("turned a quarter" in text for text in result.assumed)


def test_a_piece_that_fits_as_named_is_not_turned_but_the_saving_is_told(us, figures):
    # 44 x 34 with bleed is 50 x 40; turned it would take 40 in, since 50 fits across 60.
    result = calculate(panel(44, 34), us)
    assert figures(result)["length off the roll"].to("in") == pytest.approx(50)
    assert any("40 in" in text for text in result.assumed)


def test_with_the_turn_allowed_the_shorter_length_is_pulled(us, figures):
    result = calculate(panel(44, 34, turn=ALLOWED), us)
    assert figures(result)["length off the roll"].to("in") == pytest.approx(40)
    assert figures(result)["left beside it"].to("in") == pytest.approx(10)


def test_directional_film_is_never_turned_to_fit(us, figures):
    # 37 along, 98 across: (98 - 1/8) / (60 - 1/8) = 1.63, so 2 strips of 37 in.
    result = calculate(panel(31, 92, film="directional"), us)
    assert result.verdict == "seam"
    assert figures(result)["strips"].si == 2
    assert figures(result)["length off the roll"].to("in") == pytest.approx(74)
    assert "direction" in result.rules
    assert "every panel of the car" in result.steps[0]


def test_a_roof_wider_than_the_roll_both_ways_is_still_answered_with_a_seam(us, figures):
    # 90 x 70 with bleed: 96 x 76. Strips along 96: (76 - 1/8) / 59.875 = 1.27, 2 of 96 in, 192 in.
    # Strips along 76: (96 - 1/8) / 59.875 = 1.60, 2 of 76 in, 152 in: less film.
    result = calculate(panel(90, 70), us)
    found = to_inches(figures(result))
    assert found["cut length"] == pytest.approx(96)
    assert found["cut width"] == pytest.approx(76)
    assert found["length off the roll"] == pytest.approx(152)
    assert figures(result)["strips"].si == 2
    assert "body line" in " ".join(result.steps)


def test_a_piece_exactly_as_wide_as_the_roll_fits(us, figures):
    result = calculate(panel(70, 54), us)
    assert result.verdict == "fits"
    assert figures(result)["left beside it"].to("in") == pytest.approx(0, abs=1e-9)


def test_a_piece_one_sixteenth_wider_than_the_roll_does_not(us):
    assert calculate(panel(70, 54.0625), us).verdict == "seam"


def test_metric_sides_give_a_metric_answer(metric, figures):
    # 230 + 2 x 7.62 = 245.24 cm; 78 + 15.24 = 93.24 cm; 152.4 - 93.24 = 59.16 cm.
    result = calculate(
        Inputs(length=Length.of(2.3, "m"), height=Length.of(78, "cm"), bleed=inches(3),
               roll_width=ROLL), metric,
    )
    found = figures(result)
    assert found["length off the roll"].to("cm") == pytest.approx(245.24)
    assert found["left beside it"].to("cm") == pytest.approx(59.16)


def test_several_panels_add_up_one_after_another(us, figures):
    # 98 + (40 + 6 = 46) = 144 in.
    result = calculate(panel(92, 31, more=((inches(40), inches(30)),)), us)
    assert figures(result)["length off the roll, together"].to("in") == pytest.approx(144)


@pytest.mark.parametrize(("length", "height", "bleed", "slot"), [
    (0, 31, 3, "length"), (92, 0, 3, "height"), (-5, 31, 3, "length"), (92, 31, -1, "bleed"),
    (9200, 31, 3, "length"),
])
def test_nonsense_sides_are_questioned_by_name(us, length, height, bleed, slot):
    with pytest.raises(Impossible) as refused:
        calculate(panel(length, height, bleed), us)
    assert refused.value.slot == slot


def test_a_roll_of_no_width_is_questioned(us):
    with pytest.raises(Impossible) as refused:
        calculate(panel(92, 31, roll_width=inches(0)), us)
    assert refused.value.slot == "roll_width"


SIDES = st.floats(1, 200)
BLEEDS = st.floats(0, 12)


@pytest.mark.parametrize("how", [{}, {"may_turn": False}, {"shortest": True}])
@given(length=SIDES, height=SIDES, one=BLEEDS, other=BLEEDS)
def test_more_bleed_never_needs_less_film(how, length, height, one, other):
    less, more = (
        lay_piece(inches(length), inches(height), inches(bleed), ROLL, LAP, **how)
        for bleed in sorted((one, other))
    )
    assert more.off_roll.si >= less.off_roll.si - 1e-9
    assert more.area.si >= less.area.si - 1e-12


@given(SIDES, SIDES, BLEEDS)
def test_a_panel_in_inches_takes_what_the_same_panel_takes_in_centimetres(length, height, bleed):
    def figures_of(make, system):
        inputs = Inputs(length=make(length), height=make(height), bleed=make(bleed),
                        roll_width=Length.of(152.4, "cm"))
        return {f.name: f.low.si for f in calculate(inputs, setting_for(system)).figures}

    us = figures_of(lambda value: Length.of(value, "in"), System.US)
    cm = figures_of(lambda value: Length.of(value * 2.54, "cm"), System.METRIC)
    assert us == pytest.approx(cm, rel=1e-9, abs=1e-9)


@given(SIDES, SIDES, BLEEDS)
def test_a_piece_in_one_never_lies_wider_than_the_roll(length, height, bleed):
    piece = lay_piece(inches(length), inches(height), inches(bleed), ROLL, LAP)
    assert piece.strips > 1 or piece.across.si <= ROLL.si * (1 + 1e-9)
    assert piece.area.to("in2") >= length * height * (1 - 1e-9)
