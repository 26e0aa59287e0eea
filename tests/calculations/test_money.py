"""Cost, hours and price. Every expected number is worked by hand beside its check."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations import film_cost, job_price, labour
from assistant.calculations.base import Impossible, Missing
from assistant.calculations.film_cost import cost, rolls_needed, waste
from assistant.calculations.job_price import price_before_tax
from assistant.quantity.kinds import Area, Count, Duration, Length, Money, Ratio

WIDE = Length.of(60, "in")
ROLL = Length.of(25, "yd")


def money(value: str) -> Money:
    return Money.of(value)


def percent(value: float) -> Ratio:
    return Ratio.of(value, "percent")


def hours(value: float) -> Duration:
    return Duration.of(value, "h")


def amounts(result) -> dict[str, Decimal]:
    return {f.name: f.low.amount for f in result.figures if isinstance(f.low, Money)}


# 75 ft = 25 yd = 22.86 m at 60 in wide: 375 ft2 = 34.83864 m2; one roll.
@pytest.mark.parametrize(("price", "per", "expected"), [
    ("2.50", "per-square-foot", "937.50"), ("27", "per-square-metre", "940.64"),
    ("12", "per-yard", "300.00"),
    ("13.10", "per-metre", "299.47"), ("4", "per-foot", "300.00"), ("650", "per-roll", "650.00"),
])
def test_the_same_film_costs_by_any_of_the_usual_prices(price, per, expected):
    spent = cost(Length.of(75, "ft"), WIDE, money(price), per, ROLL)
    assert spent.amount == Decimal(expected)


def test_waste_is_a_part_of_the_film_pulled():
    # 250 of 375 ft2: a third is waste.
    assert waste(Area.of(250, "ft2"), Area.of(375, "ft2")).si == pytest.approx(1 / 3)


@pytest.mark.parametrize(("yards", "rolls"), [(25, 1), (25.01, 2), (50, 2), (3, 1), (75.5, 4)])
def test_rolls_are_ordered_whole(yards, rolls):
    assert rolls_needed(Length.of(yards, "yd"), ROLL) == rolls


def pulled(yards: float, **more) -> film_cost.Inputs:
    return film_cost.Inputs(
        pulled=Length.of(yards, "yd"), roll_width=WIDE, roll_length=ROLL, **more
    )


def test_the_order_is_costed_in_whole_rolls_and_the_film_as_pulled(us, figures):
    # 31 yd at 26 a yard: 806.00; 2 rolls of 25 yd: 1300.00; 19 yd left.
    result = film_cost.calculate(pulled(31, price=money("26"), per="per-yard"), us)
    assert amounts(result)["cost of the film pulled"] == Decimal("806.00")
    assert amounts(result)["cost of the order"] == Decimal("1300.00")
    assert figures(result)["rolls to order"].si == 2
    assert figures(result)["left on the last roll"].to("yd") == pytest.approx(19)
    assert "one-lot" in result.rules


def test_a_price_without_what_it_is_per_is_asked_back(us):
    with pytest.raises(Missing) as wanted:
        film_cost.calculate(pulled(31, price=money("26")), us)
    assert wanted.value.slot == "per"


@pytest.mark.parametrize(("inputs", "slot"), [
    (pulled(0), "pulled"), (pulled(10, used=Area.of(500, "ft2")), "used"),
    (pulled(10, used=Area.of(0, "ft2")), "used"),
    (pulled(10, price=money("-3"), per="per-yard"), "price"),
])
def test_film_that_cannot_be_is_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        film_cost.calculate(inputs, us)
    assert refused.value.slot == slot


def work(easy=0, medium=0, hard=0, prepare=25, finish=15, crew=1) -> labour.Inputs:
    return labour.Inputs(
        easy=Count.of(easy, "count"), medium=Count.of(medium, "count"),
        hard=Count.of(hard, "count"), easy_hours=hours(1), medium_hours=hours(2),
        hard_hours=hours(4), prepare=percent(prepare), finish=percent(finish),
        crew=Count.of(crew, "count"),
    )


def test_four_easy_six_medium_and_two_hard_panels_are_24_hours_of_laying(us, figures):
    # 4 + 12 + 8 = 24 h; + 25 % = 6 h, + 15 % = 3.6 h: 33.6 h; two people: 16.8 h.
    found = figures(labour.calculate(work(4, 6, 2, crew=2), us))
    assert found["laying"].to("h") == pytest.approx(24)
    assert found["person-hours in all"].to("h") == pytest.approx(33.6)
    assert found["clock hours for two people"].to("h") == pytest.approx(16.8)


def test_panels_in_all_must_be_the_sum_of_the_hard_and_the_easy_ones(us):
    ten = work(easy=6, hard=4).model_copy(update={"panels": Count.of(10, "count")})
    assert labour.calculate(ten, us).figures
    nine = ten.model_copy(update={"panels": Count.of(9, "count")})
    with pytest.raises(Impossible) as refused:
        labour.calculate(nine, us)
    assert refused.value.slot == "panels"


@pytest.mark.parametrize(("inputs", "slot"), [
    (work(), "easy"), (work(easy=2.5), "easy"), (work(hard=-1), "hard"), (work(easy=1, crew=3),
    "crew"), (work(easy=1, prepare=-5), "prepare"), (work(easy=900), "easy"),
])
def test_work_that_cannot_be_is_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        labour.calculate(inputs, us)
    assert refused.value.slot == slot


def job(**more) -> job_price.Inputs:
    given_ = {"film": money("600"), "hours": hours(30.5), "rate": money("45"),
              "consumables": money("80")}
    return job_price.Inputs(**(given_ | more))


def test_every_line_of_the_price_is_worked_to_the_cent(us):
    # Labour 30.5 x 45 = 1372.50; cost 2052.50; / 0.8 = 2565.625 -> 2565.63; 8.25 % of it is
    # 211.664 -> 211.66; 2777.29.
    result = job_price.calculate(job(margin=percent(20), tax=percent(8.25)), us)
    assert amounts(result) == {
        "price with tax": Decimal("2777.29"), "price before tax": Decimal("2565.63"),
        "tax": Decimal("211.66"), "cost": Decimal("2052.50"), "film": Decimal("600.00"),
        "consumables": Decimal("80.00"), "labour": Decimal("1372.50"),
        "left over the cost": Decimal("513.13"),
    }
    assert "8.25% tax" in result.answer


def test_a_margin_is_of_the_price_and_a_markup_of_the_cost():
    # 800 / 0.8 = 1000; 800 x 1.2 = 960.
    assert price_before_tax(money("800"), percent(20), None).amount == Decimal("1000.00")
    assert price_before_tax(money("800"), None, percent(20)).amount == Decimal("960.00")


@pytest.mark.parametrize(("inputs", "slot"), [
    (job(film=money("-1")), "film"), (job(hours=hours(-2)), "hours"),
    (job(margin=percent(100)), "margin"), (job(margin=percent(20), markup=percent(20)), "margin"),
    (job(markup=percent(-1)), "markup"), (job(tax=percent(140)), "tax"),
])
def test_prices_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        job_price.calculate(inputs, us)
    assert refused.value.slot == slot


@given(
    st.decimals(0, 5000, places=2), st.decimals(0, 500, places=2), st.floats(0, 90),
    st.floats(0, 30), st.integers(0, 200),
)
def test_the_lines_of_a_price_add_up_to_the_cent(film, extras, margin, tax, quarters):
    from assistant.calculations.base import Setting

    result = job_price.calculate(
        job(film=Money(film), consumables=Money(extras), hours=hours(quarters / 4),
            margin=percent(margin), tax=percent(tax)), Setting(),
    )
    line = amounts(result)
    assert line["price with tax"] == line["price before tax"] + line["tax"]
    assert line["cost"] == line["film"] + line["consumables"] + line["labour"]
    assert line["left over the cost"] == line["price before tax"] - line["cost"] >= 0
