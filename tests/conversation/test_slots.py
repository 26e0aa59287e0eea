"""Numbers find their slots, in any order a person would say them."""

from datetime import datetime
from types import SimpleNamespace

import pytest

from assistant.conversation.moments_said import moments_claimed
from assistant.conversation.slots import (
    claims,
    options_chosen,
    system_of,
    unit_for,
)
from assistant.quantity.kinds import of
from assistant.quantity.read import read
from assistant.quantity.write import System


def slot(kind, *cues, pair=None, required=True, units=("in", "mm"), options=None, name=None):
    return SimpleNamespace(
        kind=kind, cues=list(cues), pair=pair, required=required, name=name or cues[0],
        units=SimpleNamespace(us=units[0], metric=units[1]), options=options,
    )


PANEL = {
    "length": slot("length", "long", "length", pair="height"),
    "height": slot("length", "high", "height", pair="length"),
    "bleed": slot("length", "bleed", required=False),
    "roll": slot("length", "roll", "film width", required=False),
}
BAY = {
    "air": slot("temperature", "air", "bay", units=("degF", "degC")),
    "humidity": slot("ratio", "humidity", "rh", units=("percent", "percent")),
    "panel": slot("temperature", "panel", "surface", units=("degF", "degC")),
}


def claimed(slots, text, **more):
    return {claim.slot: claim.found.low for claim in claims(slots, text, read(text), **more)}


@pytest.mark.parametrize("text, expected", [
    ("bumper 92 by 31, 3 inch bleed", {"length": 92, "height": 31, "bleed": 3}),
    ("3 in bleed, bumper 92 x 31", {"length": 92, "height": 31, "bleed": 3}),
    ("92 x 31 in off a 60 in roll with bleed of 2", {"length": 92, "height": 31, "roll": 60,
                                                     "bleed": 2}),
    ("31 in high and 92 in long", {"length": 92, "height": 31}),
    ("bleed 3, roll 60, 92 by 31", {"length": 92, "height": 31, "bleed": 3, "roll": 60}),
])
def test_sides_bleed_and_roll_in_any_order(text, expected):
    assert claimed(PANEL, text) == expected


@pytest.mark.parametrize("text", [
    "air 18C, 55 percent, panel 16C",
    "panel 16C in air of 18C at 55%",
    "55% rh, panel is 16C, the bay is at 18C",
])
def test_air_and_panel_are_told_apart_by_the_word_beside_them(text):
    assert claimed(BAY, text) == {"air": 18, "humidity": 55, "panel": 16}


def test_the_slot_that_was_asked_for_takes_the_bare_number():
    assert claimed(BAY, "60", filled={"air": 1}, asked_for="humidity") == {"humidity": 60}


def test_a_bare_number_takes_the_unit_of_its_line():
    numbers = read("92 by 31, 3 inch bleed")
    assert unit_for(PANEL["length"], numbers[0], numbers, None) == "in"


def test_the_thickness_of_the_film_gives_no_unit_to_the_panel():
    numbers = read("80 micron film, 92 by 31")
    assert unit_for(PANEL["length"], numbers[1], numbers, None) is None


def test_without_a_unit_in_the_line_the_talk_decides():
    numbers = read("92 by 31")
    assert unit_for(PANEL["length"], numbers[0], numbers, System.METRIC) == "mm"


def test_the_system_of_a_line_is_that_of_its_units():
    assert system_of(["in", "degF"]) == System.US
    assert system_of(["cm"]) == System.METRIC
    assert system_of(["percent"]) is None
    assert system_of(["in", "mm"]) is None


def test_an_option_is_chosen_by_its_words():
    slots = {"turn": slot("choice", "turn", options={"allowed": ["may be turned"], "not": ["no"]})}
    assert options_chosen(slots, "a door 48 by 37, it may be turned") == {"turn": "allowed"}


def bounded(kind, *cues, at_least=None, at_most=None, **more):
    found = slot(kind, *cues, **more)
    for name, bound in (("at_least", at_least), ("at_most", at_most)):
        if bound is not None:
            setattr(found, name, SimpleNamespace(quantity=lambda bound=bound: of(*bound)))
    return found


SPILL = {
    "amount": bounded("volume", "liquid", at_most=(50, "L"), units=("floz", "mL")),
    "bay": bounded("volume", "bay", at_least=(1, "m3"), units=("ft3", "m3")),
}


@pytest.mark.parametrize("text", ["50 ml in 30 m3", "in 30 m3 we used 50 ml"])
def test_a_spill_is_not_taken_for_the_bay_nor_the_bay_for_a_spill(text):
    assert claimed(SPILL, text) == {"amount": 50, "bay": 30}


def test_a_value_that_no_slot_would_have_stays_to_be_questioned():
    humid = {"humidity": bounded("ratio", "humidity", at_most=(100, "percent"))}
    assert claimed(humid, "humidity 140 percent") == {"humidity": 140}


def test_a_side_of_zero_stays_a_side():
    sides = PANEL | {
        "length": bounded("length", "long", pair="height", at_least=(1, "in")),
    }
    assert claimed(sides, "door 0 in by 40 in")["length"] == 0


def test_from_one_temperature_to_another_fills_before_and_after():
    swing = {
        "start": slot("temperature", "from", pair="end", units=("degF", "degC")),
        "end": slot("temperature", "to", pair="start", units=("degF", "degC")),
    }
    assert claimed(swing, "from 60 F to 120 F") == {"start": 60, "end": 120}
    assert claimed(swing, "from 70 F to 20 F") == {"start": 70, "end": 20}


NOW = datetime(2025, 1, 15, 7, 30)
CURE = {
    "start": slot("moment", "finished", "post-heated"),
    "off": slot("moment", "heating off", "goes off", required=False),
    "back": slot("moment", "on again", required=False),
}


def moments(text):
    return moments_claimed(CURE, text, NOW)[0]


def test_what_was_finished_is_over_and_what_goes_off_is_to_come():
    assert moments("finished at 4 pm, heating goes off at 6 pm, on again at 7 am") == {
        "start": datetime(2025, 1, 14, 16), "off": datetime(2025, 1, 15, 18),
        "back": datetime(2025, 1, 16, 7),
    }


def test_moments_find_their_slots_in_any_order():
    assert moments("heating goes off at 6 pm, we finished yesterday at 4 pm") == {
        "start": datetime(2025, 1, 14, 16), "off": datetime(2025, 1, 15, 18),
    }


def test_what_will_be_finished_today_is_not_yet_over():
    assert moments("I finish at 4 pm") == {"start": datetime(2025, 1, 15, 16)}
