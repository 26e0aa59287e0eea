"""The settings in which the sums run: the shipped rules' own figures, in either system."""

from __future__ import annotations

import tomllib
from datetime import datetime
from pathlib import Path

import pytest

from assistant.calculations.base import Setting
from assistant.quantity.kinds import Quantity, of
from assistant.quantity.write import System

RULES = Path(__file__).parents[2] / "knowledge" / "rules"
NOW = datetime(2025, 1, 15, 7, 30)


def _figures() -> dict[tuple[str, str], tuple[Quantity, Quantity]]:
    found = {}
    for file in RULES.glob("*.toml"):
        for rule_id, rule in tomllib.loads(file.read_text("utf-8"))["rules"].items():
            for name, figure in rule.get("figures", {}).items():
                ends = [
                    figure[key]
                    for key in ("value", "low", "high", "at_least", "at_most", "over")
                    if key in figure
                ]
                found[rule_id, name] = (
                    of(ends[0], figure["unit"]), of(ends[-1], figure["unit"])
                )
    return found


_SHIPPED = _figures()


def setting_for(system: System, now: datetime | None = NOW) -> Setting:
    return Setting(system, lambda rule, figure: _SHIPPED[rule, figure], now)


@pytest.fixture
def us() -> Setting:
    return setting_for(System.US)


@pytest.fixture
def metric() -> Setting:
    return setting_for(System.METRIC)


@pytest.fixture
def figures():
    """The figures of a result by name, as quantities."""
    return lambda result: {figure.name: figure.low for figure in result.figures}
