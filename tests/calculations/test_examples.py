"""Every example sentence of a sum, said to the assistant, gives that sum's result."""

from __future__ import annotations

import json
import tomllib
from datetime import datetime
from pathlib import Path

import pytest

from assistant.conversation.talk import Conversation

ENTRIES = sorted((Path(__file__).parents[2] / "knowledge" / "calculations").glob("*.toml"))
EXAMPLES = {
    file.stem: tomllib.loads(file.read_text("utf-8"))["calculation"]["example"] for file in ENTRIES
}
MORNING = datetime(2025, 1, 15, 7, 30)


@pytest.fixture
def talk(ready):
    return Conversation(ready, now=lambda: MORNING)


@pytest.mark.parametrize("calculation", EXAMPLES)
def test_the_example_sentence_gives_its_result_on_one_screen(talk, calculation):
    reply = talk.turn(EXAMPLES[calculation])
    assert (reply.outcome, reply.intent) == ("result", calculation)
    told = reply.as_json()
    assert told["figures"] or told["times"]
    assert told["working"]
    assert told["basis"] in ("published", "practice", "memory")
    rows = told["text"].split("\n")
    assert len(rows) <= 24 and max(map(len, rows)) <= 80
    assert json.loads(json.dumps(told)) == told


def test_the_bumper_of_the_first_issue(talk):
    # By hand: 92 + 6, 31 + 6, 60 - 37.
    told = talk.turn("how much film for a rear bumper 92 by 31, 3 inch bleed").as_json()
    assert [(f["name"], f["low"], f["unit"]) for f in told["figures"]][:4] == [
        ("length off the roll", 98, "in"), ("cut length", 98, "in"), ("cut width", 37, "in"),
        ("left beside it", 23, "in"),
    ]
    assert "98 in (2.49 m) off a 60 in roll" in " ".join(told["text"].split())


def test_two_panels_in_one_sentence_add_up(talk):
    # 60 + 6 = 66 and 45 + 6 = 51 along the roll: 117 in together.
    reply = talk.turn("how much film for a hood 60 by 50 in and a door 45 by 40 in")
    assert reply.figures[0].low == 117
    assert "2 panels" in reply.answer


def test_two_panels_without_a_unit_wait_for_it(talk):
    assert talk.turn("how much film for a hood 60 by 50 and a door 45 by 40").outcome == "asks"
    assert talk.turn("inches").figures[0].low == 117


def test_a_range_is_converted_at_both_ends(talk):
    # (185 - 32) / 1.8 = 85; (195 - 32) / 1.8 = 90.56.
    figure = talk.turn("what is 185-195 F in C").figures[0]
    assert (figure.low, figure.high) == (85, pytest.approx(90.6, abs=0.5))


def test_one_number_is_changed_afterwards(talk):
    talk.turn("dew point at 20 C and 50 %")
    # psychrolib: 20 °C, 45 %: 7.72 °C.
    reply = talk.turn("what if it were 45 percent?")
    assert reply.figures[0].low == pytest.approx(7.7, abs=0.1)
    assert reply.figures[0].unit == "degC"


def test_what_is_missing_is_asked_for_one_at_a_time(talk):
    first = talk.turn("bay check")
    assert (first.outcome, first.needs) == ("asks", ("air",))
    second = talk.turn("65 F")
    assert second.needs == ("humidity",)
    third = talk.turn("50 percent")
    assert third.needs == ("panel",)
    # psychrolib IP: 65 °F, 50 %: dew point 45.9 °F; 62 - 45.9 = 16.1 °F of margin.
    done = talk.turn("62")
    assert done.outcome == "result"
    assert done.figures[0].low == pytest.approx(16.1, abs=0.2)
    assert done.figures[0].unit == "dF"


@pytest.mark.parametrize("line", [
    "dew point at 20 C and 140 percent",
    "how much film is left, roll 70 mm, core 76 mm, 250 micron",
    "how much film for a door 0 in by 40 in", "dew point at -400 C and 50 percent",
    "how many strips for a side 118 in wide, film 60 in, overlap 60 in",
])
def test_nonsense_is_questioned_and_nothing_is_computed(talk, line):
    reply = talk.turn(line)
    assert reply.outcome == "asks"
    assert not reply.figures and not reply.working


def test_a_clock_time_starts_the_cure_clock(talk):
    # Finished at 16:00 yesterday, 15.5 h by 7:30; 24 h are full at 16:00.
    reply = talk.turn("finished at 4 pm, bay at 65 F, when is it cured")
    assert reply.times[0].at == "2025-01-15T16:00"
    assert [f.low for f in reply.figures] == [15.5, 8.5]


@pytest.mark.parametrize(("line", "value", "unit"), [
    ("what is 225 F in C", 107.2, "degC"), ("3 inches in mm", 76.2, "mm"),
    ("convert 78 cm to inches", 30.71, "in"), ("80 micron in mil", 3.15, "mil"),
    ("how many mm is 5 1/8 in", 130.2, "mm"), ("25 yards in metres", 22.86, "m"),
])
def test_conversions_as_people_type_them(talk, line, value, unit):
    # NIST SP 811, Appendix B.8.
    figure = talk.turn(line).figures[0]
    assert (figure.low, figure.unit) == (value, unit)
