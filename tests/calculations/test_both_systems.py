"""Every sum gives the same quantities whether inches or centimetres are spoken.

The example sentence of each entry is worked out twice, told in either system; compared unrounded.
"""

from __future__ import annotations

import tomllib
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest

from assistant.calculations.registry import calculation
from assistant.conversation.talk import Conversation
from assistant.quantity.write import System

FOLDER = Path(__file__).parents[2] / "knowledge" / "calculations"
EXAMPLES = {
    file.stem: tomllib.loads(file.read_text("utf-8"))["calculation"]["example"]
    for file in sorted(FOLDER.glob("*.toml"))
}
MORNING = datetime(2025, 1, 15, 7, 30)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_sum_finds_the_same_in_us_and_metric_units(ready, monkeypatch, name):
    module = calculation(name)
    real, taken = module.calculate, []

    def noted(inputs, setting):
        taken.append((inputs, setting))
        return real(inputs, setting)

    monkeypatch.setattr(module, "calculate", noted)
    Conversation(ready, now=lambda: MORNING).turn(EXAMPLES[name])
    inputs, setting = taken[-1]
    us, metric = (
        real(inputs, replace(setting, system=system)) for system in (System.US, System.METRIC)
    )
    assert [f.name for f in us.figures] == [f.name for f in metric.figures]
    for one, other in zip(us.figures, metric.figures, strict=True):
        assert one.low == other.low and one.high == other.high
    assert [moment.at for moment in us.times] == [moment.at for moment in metric.times]
    assert us.verdict == metric.verdict
