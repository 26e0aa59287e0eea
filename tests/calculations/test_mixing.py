"""Mixing. Expected volumes are worked by hand beside each check."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import Impossible
from assistant.calculations.mixing import Inputs, calculate, parts, stock_volume
from assistant.quantity.kinds import Ratio, Volume


def percent(value: float) -> Ratio:
    return Ratio.of(value, "percent")


def litre(value: float) -> Volume:
    return Volume.of(value, "L")


def test_a_litre_at_70_from_99_takes_707_millilitres_of_stock(metric, figures):
    # 1000 x 70 / 99 = 707.07; 292.93 of water.
    mix = Inputs(target=percent(70), stock=percent(99), total=litre(1))
    found = figures(calculate(mix, metric))
    assert found["stock"].to("mL") == pytest.approx(707.07, abs=0.01)
    assert found["water"].to("mL") == pytest.approx(292.93, abs=0.01)


def test_thirty_two_ounces_at_70_from_neat_are_22_and_a_half_and_9_and_a_half(us, figures):
    # 32 x 0.7 = 22.4; 9.6 of water.
    found = figures(calculate(
        Inputs(target=percent(70), stock=percent(100), total=Volume.of(32, "floz")), us
    ))
    assert found["stock"].to("floz") == pytest.approx(22.4)
    assert found["water"].to("floz") == pytest.approx(9.6)


def test_seventy_from_neat_is_seven_parts_to_three():
    assert parts(percent(70), percent(100)) == (7, 3)
    assert parts(percent(10), percent(100)) == (1, 9)


def test_stock_at_hand_says_how_much_water_to_add(metric, figures):
    # 400 mL at 99 % hold 396 mL; at 70 % that is 565.7 mL in all, so 165.7 mL of water.
    found = figures(calculate(
        Inputs(target=percent(70), stock=percent(99), at_hand=Volume.of(400, "mL")), metric
    ))
    assert found["water"].to("mL") == pytest.approx(165.71, abs=0.01)
    assert found["mix in all"].to("mL") == pytest.approx(565.71, abs=0.01)


def test_a_mix_as_strong_as_its_stock_takes_no_water(metric):
    result = calculate(Inputs(target=percent(70), stock=percent(70), total=litre(1)), metric)
    assert "no water" in result.answer


def test_without_an_amount_the_mix_is_told_in_parts(metric, figures):
    # 70 from neat: 7 parts to 3.
    found = figures(calculate(Inputs(target=percent(70), stock=percent(100)), metric))
    assert (found["parts of stock"].si, found["parts of water"].si) == (7, 3)


def test_seventy_thirty_is_read_as_parts_of_the_can_and_of_water(metric, figures):
    # 500 mL: 350 and 150.
    mix = Inputs(target=percent(70), stock=percent(30), total=Volume.of(500, "mL"))
    result = calculate(mix, metric)
    assert figures(result)["stock"].to("mL") == pytest.approx(350)
    assert any("as it is" in text for text in result.assumed)


@pytest.mark.parametrize(("target", "stock", "total", "slot"), [
    (99.5, 99, 1, "target"), (0, 99, 1, "target"), (140, 99, 1, "target"), (70, 0, 1, "stock"),
    (70, 120, 1, "stock"), (70, 99, 0, "total"),
])
def test_mixes_that_cannot_be_are_questioned_by_name(us, target, stock, total, slot):
    with pytest.raises(Impossible) as refused:
        calculate(
            Inputs(target=percent(target), stock=percent(stock), total=litre(total)), us
        )
    assert refused.value.slot == slot


@given(st.floats(0.1, 100), st.floats(1, 100), st.floats(1, 100))
def test_the_alcohol_in_the_mix_is_the_alcohol_of_the_stock(total, one, other):
    target, stock = sorted((one, other))
    strong = stock_volume(litre(total), percent(target), percent(stock))
    assert strong.si * stock == pytest.approx(total * 1e-3 * target)
    assert strong.si <= total * 1e-3 * (1 + 1e-12)
