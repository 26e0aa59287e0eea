"""Panels of a body class, asked for in a talk.

The sizes are typical ones, from memory, and every reply says so.
"""

from __future__ import annotations

import pytest

from assistant.reply import COLUMNS, ROWS, lay_out


@pytest.mark.parametrize("line, name", [
    ("panels of a short van", "short-van"),
    ("what panels does a saloon have", "saloon"),
    ("which panels are there on a sedan", "saloon"),
    ("how many panels has a station wagon got", "estate"),
    ("list the panels for a double cab pickup", "pickup-double-cab"),
    ("typical panel sizes of a motorbike", "motorcycle"),
    ("panel sizes, LWB van", "long-van"),
    ("what panels on an suv are hardest", "suv"),
])
def test_the_panels_of_a_class_are_listed_and_counted(talk, knowledge, line, name):
    reply = talk.turn(line)
    assert (reply.outcome, reply.intent) == ("answer", f"panels:{name}"), lay_out(reply)[0]
    panels = knowledge.vehicles[name].panels
    pieces = sum(2 if panel.mirrored else 1 for panel in panels)
    assert [(each.low, each.high, each.unit) for each in reply.figures] == [
        (pieces, pieces, "count")]
    assert len(reply.sketch) == len(panels) + 1
    assert "measure yours" in reply.answer and reply.basis == "memory"


def test_a_saloon_has_six_panels_in_the_middle_and_seven_a_side(knowledge):
    """Counted on a car: fender, two doors, quarter, sill, pillar, mirror on each side; hood, roof,
    trunk lid, two bumpers and the fuel flap once."""
    saloon = knowledge.vehicles["saloon"].panels
    assert sum(panel.mirrored for panel in saloon) == 7
    assert sum(not panel.mirrored for panel in saloon) == 6


def test_every_list_fits_the_first_page_in_both_systems(talk, knowledge):
    for vehicle in knowledge.vehicles.values():
        for line in (f"panels of a {vehicle.name}", "in cm?"):
            first = lay_out(talk.turn(line))[0].split("\n")
            assert len(first) <= ROWS and max(map(len, first)) <= COLUMNS, vehicle.id
            assert any(vehicle.panels[-1].name in row for row in first), vehicle.id


def test_one_panel_is_told_with_its_two_sides_in_the_persons_units(talk):
    reply = talk.turn("how big is the bonnet on a small hatchback")
    assert [(each.low, each.unit) for each in reply.figures] == [(55, "in"), (41, "in")]
    assert "55 x 41 in (140 x 105 cm)" in reply.answer and "measure yours" in reply.answer
    assert [(each.low, each.unit) for each in talk.turn("in cm?").figures] == [
        (140, "cm"), (105, "cm")]


def test_a_name_that_several_classes_share_is_asked_back(talk):
    reply = talk.turn("panels of a van")
    assert reply.outcome == "asks" and set(reply.choices) == {"short van", "long van"}
    assert reply.figures == ()
    assert talk.turn("the long one").intent == "panels:long-van"
    talk.turn("panels of a van")
    assert talk.turn("short van").intent == "panels:short-van"


def test_typical_sizes_never_fill_a_sum_unasked(talk):
    talk.turn("panels of a short van")
    reply = talk.turn("how much film for the hood of a short van")
    assert reply.outcome != "result"
    talk.turn("how big is the front bumper of a short van")
    assert talk.turn("film for a bumper").outcome == "asks"


@pytest.mark.parametrize("line", [
    "panels of a jumbo jet", "how many panels in a quilt", "solar panels for a van roof",
    "which panels of a van do I wrap first", "how much film for the panels of a van",
    "how long is a van", "roof panels of a shed",
])
def test_other_questions_about_panels_and_vehicles_go_elsewhere(talk, line):
    assert not (talk.turn(line).intent or "").startswith("panels:")
