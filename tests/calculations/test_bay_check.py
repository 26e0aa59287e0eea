"""Bay check: the verdict and what to change, against psychrolib and hand working."""

from __future__ import annotations

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.calculations.base import Impossible
from assistant.calculations.bay_check import Inputs, calculate
from assistant.quantity.kinds import Ratio, Temperature
from assistant.quantity.write import System
from tests.calculations.conftest import setting_for


def bay(air: float, percent: float, panel: float, unit: str = "degC") -> Inputs:
    return Inputs(
        air=Temperature.of(air, unit), humidity=Ratio.of(percent, "percent"),
        panel=Temperature.of(panel, unit),
    )


def test_a_mild_bay_with_a_panel_well_above_the_dew_point_is_ready(metric, figures):
    # psychrolib: dew point 8.835 °C, so the margin is 7.165 °C; 16 °C is 60.8 °F, inside 60-75.
    result = calculate(bay(18, 55, 16), metric)
    assert result.verdict == "go"
    assert result.answer.startswith("Yes")
    found = figures(result)
    assert found["margin above the dew point"].to("dC") == pytest.approx(7.165, abs=0.05)
    assert found["dew point"].to("degC") == pytest.approx(8.835, abs=0.05)
    assert [figure.name for figure in result.figures][0] == "margin above the dew point"


def test_a_damp_bay_wants_the_panel_warmer_or_the_air_drier(metric, figures):
    # psychrolib: 20 °C, 80 %: dew point 16.447; panel 16 is below it; 19.45 is wanted.
    # Driest: 3 °C below 16 is 13: e(13) / e(20) = 1497.5 / 2338.8 Pa = 64.0 % (psychrolib).
    psychrolib.SetUnitSystem(psychrolib.SI)
    allowed = 100 * psychrolib.GetSatVapPres(13) / psychrolib.GetSatVapPres(20)
    result = calculate(bay(20, 80, 16), metric)
    found = figures(result)
    assert result.verdict == "wait"
    assert found["warm the panel by"].to("dC") == pytest.approx(3.447, abs=0.05)
    assert found["or dry the air to"].to("percent") == pytest.approx(allowed, abs=0.3)
    assert allowed == pytest.approx(64.0, abs=0.1)


def test_following_the_advice_makes_the_bay_ready(metric, figures):
    found = figures(calculate(bay(20, 80, 16), metric))
    warmed = 16 + found["warm the panel by"].to("dC") + 1e-6
    assert calculate(bay(20, 80, warmed), metric).verdict == "go"
    dried = found["or dry the air to"].to("percent") - 1e-6
    assert calculate(bay(20, dried, 16), metric).verdict == "go"


def test_a_cold_panel_with_margin_enough_still_waits_for_the_window(us, figures):
    # 65 °F, 30 %: dew point about 33 °F; the panel at 50 °F has margin, but 60 °F is the window.
    result = calculate(bay(65, 30, 50, "degF"), us)
    assert result.verdict == "wait"
    assert figures(result)["warm the panel by"].to("dF") == pytest.approx(10)
    assert "or dry the air to" not in figures(result)


def test_a_hot_bay_is_refused_with_the_upper_limit(us):
    result = calculate(bay(85, 40, 80, "degF"), us)
    assert result.verdict == "wait"
    assert "over" in result.answer
    assert any("cool" in step.lower() for step in result.steps)


def test_the_margin_is_compared_unrounded(metric):
    # Dew point of 20 °C, 60 % by the Magnus form: 11.9950 °C; 3 °C more is 14.9950.
    # The panel window begins at 60 °F, so only the margin's own part of the answer is looked at.
    assert "above the dew point" in calculate(bay(20, 60, 14.99), metric).answer
    assert "above the dew point" not in calculate(bay(20, 60, 15.00), metric).answer


@pytest.mark.parametrize(("air", "percent", "panel", "slot"), [
    (18, 140, 16, "humidity"), (18, 0.2, 16, "humidity"), (70, 50, 16, "air"),
    (18, 50, 120, "panel"), (18, 50, -60, "panel"),
])
def test_readings_that_cannot_be_are_questioned_by_name(us, air, percent, panel, slot):
    with pytest.raises(Impossible) as refused:
        calculate(bay(air, percent, panel), us)
    assert refused.value.slot == slot


@given(st.floats(0, 40), st.floats(5, 99), st.floats(0, 40))
def test_the_verdict_is_the_same_in_both_systems(air, percent, panel):
    us = calculate(bay(air, percent, panel), setting_for(System.US))
    metric = calculate(bay(air, percent, panel), setting_for(System.METRIC))
    assert us.verdict == metric.verdict
    assert [f.low.si for f in us.figures] == [f.low.si for f in metric.figures]
