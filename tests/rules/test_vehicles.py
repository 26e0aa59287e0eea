"""Body classes: what a file may say of its panels, and what the shipped ones hold.

The sizes are typical ones from memory; the limits below only catch a slip of the pen.
"""

from __future__ import annotations

import pytest

from assistant.quantity.kinds import Length
from assistant.rules.names_check import names_unsound
from assistant.rules.ready import make_ready

VAN = """
[vehicle]
name = "short van"
also = ["van"]
basis = "memory"
[[panels]]
name = "hood"
length = { value = 150, unit = "cm" }
height = { value = 90, unit = "cm" }
run = "length"
difficulty = 3
meets = ["fender"]
[[panels]]
name = "fender"
length = { value = 85, unit = "cm" }
height = { value = 80, unit = "cm" }
run = "length"
difficulty = 3
seam = true
meets = ["hood"]
mirrored = true
"""
FILE = "vehicles/short-van.toml"
CLASSES = {
    "small-hatchback", "saloon", "estate", "coupe", "suv", "pickup-single-cab",
    "pickup-double-cab", "short-van", "long-van", "box-truck", "motorcycle", "trailer",
}


def test_a_body_class_brings_its_panels(loaded, told):
    assert told({FILE: VAN}) == []
    knowledge = loaded({FILE: VAN})
    hood, fender = knowledge.vehicles["short-van"].panels
    assert hood.length.quantity() == Length.of(1.5, "m")
    assert (hood.mirrored, hood.seam, hood.meets) == (False, False, ("fender",))
    assert (fender.mirrored, fender.seam, fender.difficulty) == (True, True, 3)
    assert knowledge.names["vehicles"] == {"short van": ["short-van"], "van": ["short-van"]}


@pytest.mark.parametrize("old, new, said", [
    ('meets = ["fender"]', 'meets = ["fendor"]',
     'vehicle.panels has hood meet "fendor", which is no panel. Did you mean "fender"?'),
    ('meets = ["hood"]', "meets = []",
     "vehicle.panels has hood meet fender, but not the other way round."),
    ('name = "fender"', 'name = "hood"', "vehicle.panels names a panel twice."),
    ("value = 150, unit = \"cm\"", "value = 150, unit = \"kg\"",
     'panels[1].length.unit is "kg", which is no length.'),
    ("value = 150", "value = 0", "panels[1].length.value is 0. A side is over zero."),
    ('run = "length"', 'run = "across"', 'panels[1].run is "across". One of "length" or "height".'),
    ("difficulty = 3", "difficulty = 6", "panels[1].difficulty is 6"),
    ('name = "short van"\n', "", "vehicle.name is missing"),
], ids=["meets nobody", "meets one way", "twice", "a mass", "nothing", "run", "too hard",
        "no name"])
def test_a_mistake_in_a_body_class_is_told_where_it_stands(told, old, new, said):
    assert old in VAN
    found = told({FILE: VAN.replace(old, new, 1)})
    assert any(f"{'knowledge/' + FILE}: {said}" in each for each in found), found


def test_a_file_without_a_class_or_without_panels_is_told(told):
    assert "vehicle is missing" in told({FILE: '[[panels]]\nname = "hood"\n'})[0]
    assert "panels" in told({FILE: '[vehicle]\nname = "van"\nbasis = "memory"\n'})[0]


def test_the_check_sends_back_a_name_written_twice(loaded):
    knowledge = loaded({FILE: VAN.replace('["van"]', '["van", "Vans"]')})
    assert [str(each) for each in names_unsound(knowledge)] == [
        'knowledge/vehicles/short-van.toml: vehicle.also has "Vans" a second time. Case, hyphens '
        "and plurals do not count: once is enough.",
    ]


# -- the shipped classes -------------------------------------------------------------------------


def test_every_usual_body_class_is_there_from_memory(knowledge):
    assert set(knowledge.vehicles) >= CLASSES
    assert {vehicle.basis for vehicle in knowledge.vehicles.values()} == {"memory"}


def test_every_panel_meets_another_somewhere(knowledge):
    for vehicle in knowledge.vehicles.values():
        alone = {panel.name for panel in vehicle.panels if not panel.meets}
        assert alone <= {"front mudguard", "mudguard"}, vehicle.id


def test_no_size_is_a_slip_of_the_pen(knowledge):
    for vehicle in knowledge.vehicles.values():
        for panel in vehicle.panels:
            sides = panel.length.quantity(), panel.height.quantity()
            assert Length.of(8, "cm") <= min(sides) and max(sides) <= Length.of(8, "m"), (
                vehicle.id, panel.name)


def test_a_panel_that_no_usual_roll_covers_may_have_a_seam(knowledge):
    """A panel is covered in one piece only if its narrower side and the bleed fit the roll."""
    width = knowledge.rules["roll-sizes"].figures["width"].quantities()[0]
    bleed = knowledge.rules["bleed"].figures["each_edge"].quantities()[0]
    for vehicle in knowledge.vehicles.values():
        for panel in vehicle.panels:
            narrow = min(panel.length.quantity(), panel.height.quantity())
            assert panel.seam or narrow + 2 * bleed <= width, (vehicle.id, panel.name)


def test_the_side_that_runs_along_the_roll_leaves_the_other_to_fit_across_it(knowledge):
    width = knowledge.rules["roll-sizes"].figures["width"].quantities()[0]
    bleed = knowledge.rules["bleed"].figures["each_edge"].quantities()[0]
    for vehicle in knowledge.vehicles.values():
        for panel in vehicle.panels:
            across = panel.height if panel.run == "length" else panel.length
            fits = across.quantity() + 2 * bleed <= width
            assert fits or panel.seam, (vehicle.id, panel.name)


def test_the_kept_index_gives_the_same_panels(tmp_path):
    fresh, kept = (make_ready(tmp_path, tmp_path / "kept").knowledge for _ in range(2))
    for name, vehicle in fresh.vehicles.items():
        twin = kept.vehicles[name]
        assert (twin.name, twin.also, twin.note, twin.basis) == (
            vehicle.name, vehicle.also, vehicle.note, vehicle.basis)
        for one, other in zip(vehicle.panels, twin.panels, strict=True):
            assert other.length.quantity() == one.length.quantity()
            assert other.height.quantity() == one.height.quantity()
            for key in ("name", "run", "difficulty", "seam", "meets", "mirrored"):
                assert getattr(other, key) == getattr(one, key), (name, one.name, key)
