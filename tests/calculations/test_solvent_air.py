"""Solvent in the air: NIOSH and OSHA values, mass balance integrated by scipy."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from assistant.calculations.base import Impossible, Missing
from assistant.calculations.solvent_air import (
    Inputs,
    air_changes_for,
    calculate,
    mean_share,
    peak_ppm,
)
from assistant.calculations.solvents import MOLAR_VOLUME, SOLVENTS
from assistant.quantity.kinds import Length, Rate, Ratio, Volume

IPA = SOLVENTS["isopropyl-alcohol"]


def spill(solvent: str = "isopropyl-alcohol", ml: float = 50, m3: float = 30, **more) -> Inputs:
    return Inputs(solvent=solvent, amount=Volume.of(ml, "mL"), bay=Volume.of(m3, "m3"), **more)


def changes(value: float) -> Rate:
    return Rate.of(value, "per_h")


# Mass balance with 24.465 L/mol (exact at 25 °C, 1 atm); the trade's 24.45 is within 0.1 %.
@pytest.mark.parametrize(("solvent", "ml", "ppm"), [
    ("isopropyl-alcohol", 10, 106.5), ("isopropyl-alcohol", 50, 532.3), ("acetone", 50, 549.9),
    ("heptane", 50, 276.5), ("ethyl-acetate", 50, 413.5),
])
def test_the_peak_in_a_closed_bay_of_30_m3_is_the_mass_balances(solvent, ml, ppm):
    assert peak_ppm(SOLVENTS[solvent], ml, 30) == pytest.approx(ppm, rel=0.005)


# NIOSH Pocket Guide prints these pairs of ppm and mg/m3 (rounded by NIOSH).
@pytest.mark.parametrize(("solvent", "ppm", "mg"), [
    ("isopropyl-alcohol", 400, 980), ("isopropyl-alcohol", 500, 1225), ("acetone", 250, 590),
    ("toluene", 100, 375), ("xylene", 100, 435), ("heptane", 85, 350),
])
def test_molar_mass_and_molar_volume_give_the_printed_milligrams(solvent, ppm, mg):
    assert ppm * SOLVENTS[solvent].molar / MOLAR_VOLUME == pytest.approx(mg, rel=0.01)


# NIOSH Pocket Guide and IDLH documentation (1994): limit, 15 min, LEL %, IDLH.
@pytest.mark.parametrize(("solvent", "twa", "short", "lel", "idlh"), [
    ("isopropyl-alcohol", 400, 500, 2.0, 2000), ("acetone", 250, None, 2.5, 2500),
    ("toluene", 100, 150, 1.1, 500), ("xylene", 100, 150, 0.9, 900),
    ("heptane", 85, 440, 1.05, 750), ("ethyl-acetate", 400, None, 2.0, 2000),
])
def test_the_limits_are_the_published_ones(solvent, twa, short, lel, idlh):
    data = SOLVENTS[solvent]
    assert (data.twa, data.short, data.lel, data.idlh) == (twa, short, lel, idlh)


def test_toluenes_osha_limits_are_named_from_table_z_2():
    assert "Z-2" in SOLVENTS["toluene"].said


@pytest.mark.parametrize(("n", "hours"), [(0.5, 0.25), (4, 0.25), (6, 8), (20, 0.25)])
def test_the_mean_equals_the_integrated_decay(n, hours):
    run = solve_ivp(
        lambda t, y: [-n * y[0], y[0]], (0, hours), [1.0, 0.0], rtol=1e-10, atol=1e-12
    )
    assert mean_share(n, hours) == pytest.approx(run.y[1, -1] / hours, rel=1e-6)


def test_a_closed_bay_keeps_its_peak():
    assert mean_share(0, 8) == 1.0


def test_fifty_millilitres_in_a_closed_bay_is_over_both_limits(metric, figures):
    # 532 ppm against 500 (15 min) and 400 (8 h); 400 / 532.0 x 50 = 37.6 mL stays under.
    result = calculate(spill(), metric)
    found = figures(result)
    assert result.verdict == "over"
    assert found["peak, all of it evaporated at once"].to("ppm") == pytest.approx(532, abs=1)
    assert found["most liquid that stays under"].to("mL") == pytest.approx(37.6, abs=0.1)
    assert "ipa-exposure" in result.rules


def test_following_the_advice_stays_under(metric, figures):
    found = figures(calculate(spill(), metric))
    less = found["most liquid that stays under"].to("mL") * 0.9999
    more_air = found["or air changes that stay under"].to("per_h") * 1.0001
    assert calculate(spill(ml=less), metric).verdict == "under"
    assert calculate(spill(air_changes=changes(more_air)), metric).verdict == "under"


def test_seventy_percent_alcohol_counts_as_its_alcohol(metric, figures):
    name = "peak, all of it evaporated at once"
    mixed = figures(calculate(spill(ml=100, strength=Ratio.of(70, "percent")), metric))
    neat = figures(calculate(spill(ml=70), metric))
    assert mixed[name].si == pytest.approx(neat[name].si)


def test_a_tenth_of_the_explosive_limit_is_reported_whatever_the_ventilation(metric):
    # 250 mL of isopropyl alcohol in 30 m3: 2660 ppm, over 2000 ppm = 10 % of 2.0 %.
    result = calculate(spill(ml=250, air_changes=changes(120)), metric)
    assert result.verdict == "over"
    assert "explosive" in result.answer


def test_a_bay_given_by_its_sides_is_their_product(us):
    # 20 x 12 x 10 ft = 2400 ft3.
    feet = {"length": Length.of(20, "ft"), "width": Length.of(12, "ft"),
            "height": Length.of(10, "ft")}
    by_sides = calculate(
        Inputs(solvent="acetone", amount=Volume.of(4, "floz"), **feet), us
    )
    by_volume = calculate(
        Inputs(solvent="acetone", amount=Volume.of(4, "floz"), bay=Volume.of(2400, "ft3")), us
    )
    for one, other in zip(by_sides.figures, by_volume.figures, strict=True):
        assert one.low.si == pytest.approx(other.low.si)


def test_the_answer_says_that_it_is_an_estimate_and_no_measurement(metric):
    for inputs in (spill(), spill(ml=5)):
        answer = calculate(inputs, metric).answer
        assert "well-mixed" in answer and "no substitute for a measurement" in answer
        assert "safety data sheet" in answer and "local limit" in answer


def test_without_the_size_of_the_bay_it_is_asked_for(metric):
    with pytest.raises(Missing) as wanted:
        calculate(Inputs(solvent="acetone", amount=Volume.of(50, "mL")), metric)
    assert wanted.value.slot == "bay"


@pytest.mark.parametrize(("inputs", "slot"), [
    (spill(ml=0), "amount"), (spill(ml=80_000), "amount"), (spill(m3=0), "bay"),
    (spill(m3=0.1), "bay"), (spill(air_changes=changes(-1)), "air_changes"),
    (spill(air_changes=changes(500)), "air_changes"),
    (spill(strength=Ratio.of(140, "percent")), "strength"),
])
def test_spills_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        calculate(inputs, us)
    assert refused.value.slot == slot


@given(st.floats(0.01, 0.999), st.sampled_from([0.25, 8.0]))
def test_the_ventilation_found_brings_the_mean_down_to_the_limit(share, hours):
    assert mean_share(air_changes_for(share, hours), hours) == pytest.approx(share, rel=1e-6)


@given(st.floats(1, 500), st.floats(1, 500), st.floats(5, 500))
def test_more_liquid_or_a_smaller_bay_is_never_less_vapour(one, other, m3):
    less, more = sorted((one, other))
    assert peak_ppm(IPA, less, m3) <= peak_ppm(IPA, more, m3)
    assert peak_ppm(IPA, less, m3) >= peak_ppm(IPA, less, m3 * 1.5)


def test_without_an_amount_the_most_that_stays_under_is_told(metric, figures):
    # 50 mL in 30 m3 is 532 ppm: 10.64 ppm for each mL; closed, the 8 h limit of 400 ppm: 37.6 mL.
    result = calculate(Inputs(solvent="isopropyl-alcohol", bay=Volume.of(30, "m3")), metric)
    most = figures(result)["most liquid that stays under"]
    assert most.to("mL") == pytest.approx(37.6, abs=0.1)
    assert "8 h limit" in result.answer and result.verdict == "at most"
