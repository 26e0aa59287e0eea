"""Every entry of knowledge/calculations has its file, and the two agree on the slots."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from assistant.calculations.registry import calculation
from assistant.quantity.kinds import KINDS

KNOWLEDGE = Path(__file__).parents[2] / "knowledge"
ENTRIES = sorted((KNOWLEDGE / "calculations").glob("*.toml"))
OTHER_KINDS = {"choice", "panel", "film", "moment", "text", "log"}


def entry_of(file: Path) -> dict:
    return tomllib.loads(file.read_text("utf-8"))


@pytest.mark.parametrize("file", ENTRIES, ids=lambda file: file.stem)
def test_an_entry_and_its_sum_agree_on_the_slots(file):
    entry = entry_of(file)
    assert entry["calculation"]["id"] == file.stem
    fields = calculation(file.stem).Inputs.model_fields
    for name, slot in entry["slots"].items():
        assert name in fields, f"{file.name}: slots.{name} is no input of the sum"
        assert slot["kind"] in OTHER_KINDS or slot["kind"] in KINDS
    needed = {name for name, field in fields.items() if field.is_required()}
    filled = {
        name for name, slot in entry["slots"].items() if slot["required"] or "default" in slot
    }
    assert needed <= filled, f"{file.name}: nobody fills {needed - filled}"


@pytest.mark.parametrize("file", ENTRIES, ids=lambda file: file.stem)
def test_an_entry_says_enough_to_be_found(file):
    told = entry_of(file)["calculation"]
    assert len(told["phrases"]) >= 8
    assert len(told["reaches"]) >= 2
    assert told["must_not_reach"]
    assert told["example"]
    assert not set(told["reaches"]) & set(told["phrases"])


@pytest.mark.parametrize("file", ENTRIES, ids=lambda file: file.stem)
def test_an_entry_leans_only_on_rules_that_exist(file):
    rules = set()
    for rule_file in (KNOWLEDGE / "rules").glob("*.toml"):
        rules |= set(tomllib.loads(rule_file.read_text("utf-8"))["rules"])
    entry = entry_of(file)
    leaned_on = set(entry["calculation"].get("rules", ()))
    leaned_on |= set(entry["calculation"].get("see_also", ()))
    for slot in entry["slots"].values():
        if "rule" in slot.get("default", {}):
            leaned_on.add(slot["default"]["rule"])
    assert leaned_on <= rules


def test_an_unknown_sum_names_the_file_that_is_missing():
    with pytest.raises(LookupError, match=r"assistant/calculations/no_such_sum\.py"):
        calculation("no-such-sum")


def test_base_is_not_a_sum():
    with pytest.raises(LookupError):
        calculation("base")


def test_one_sum_loads_only_what_it_needs():
    seen = subprocess.run(
        [sys.executable, "-c",
         "import sys; from assistant.calculations.registry import calculation; "
         "calculation('strips'); print(' '.join(sys.modules))"],
        capture_output=True, text=True, check=True,
    ).stdout.split()
    assert "assistant.calculations.strips" in seen
    assert "assistant.calculations.infrared" not in seen
    assert not {"textual", "scipy", "numpy", "asyncio"} & set(seen)
