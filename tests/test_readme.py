"""What the README promises can be run as it stands."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from assistant import cli

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def section(title: str) -> str:
    found = re.search(rf"^## {title}\n(.*?)(?=^## |\Z)", README, re.S | re.M)
    assert found, f"README.md has no section {title!r}"
    return found[1]


def blocks(text: str) -> list[str]:
    return re.findall(r"^```sh\n(.*?)^```$", text, re.S | re.M)


def test_start_has_two_lines_to_paste_one_to_open_and_one_to_test():
    opened, tested = blocks(section("Start"))
    for line in (opened, tested):
        assert line.count("\n") == 1
        assert not re.search("[\"'`]", line)
    assert opened.rstrip().endswith("/bayhand") and tested.rstrip().endswith("-m pytest")


def test_the_lines_to_paste_use_only_python_pip_and_the_project():
    for line in blocks(section("Start")):
        for command in line.strip().split(" && "):
            program, *rest = command.split()
            assert program in ("python3", ".venv/bin/python", ".venv/bin/bayhand")
            if rest and rest[0] == "-m":
                assert rest[1] in ("venv", "pip", "pytest")
            if "pip" in rest:
                assert "-q" in rest


def test_no_other_block_of_start_could_be_taken_for_a_line_to_paste():
    assert section("Start").count("```") == 4


def test_every_command_of_the_table_exists(capsys):
    named = re.findall(r"^\| `bayhand ?([a-z]*)", section("Ways in"), re.M)
    assert set(named) == {"", "ask", "converse", "replay", "calculations", "check"}
    for command in filter(None, named):
        with pytest.raises(SystemExit) as left:
            cli.main([command, "--help"])
        assert left.value.code == 0
