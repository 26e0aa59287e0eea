"""Sums in the talk: follow-ups, contradictions, several panels, logs, the film in hand.

Numbers are worked by hand in the comments. Lines go straight to the sum where only the numbers are
in question; which sum a line means is tests/routing's.
"""

from __future__ import annotations

from datetime import datetime

import pytest

from assistant.conversation.reckoning import Reckoner
from assistant.conversation.telling import Film
from assistant.hearing.hear import hear
from assistant.quantity.write import System

NOW = datetime(2025, 1, 15, 14, 30)  # a Wednesday


@pytest.fixture
def work(ready):
    """Lines worked out one after another by one sum; the reply to the last."""
    reckoner = Reckoner(ready.knowledge)

    def worked(calculation, *lines, film=None, system=System.US):
        habits = {}
        sum_ = reply = None
        for line in lines:
            heard = hear(line, ready.lexicon)
            if sum_ is None:
                reply, sum_ = reckoner.begin(calculation, heard, habits, system, NOW, film)
            else:
                reply, sum_ = reckoner.go_on(sum_, heard, habits, system, NOW)
        return reply

    return worked


def figure(reply, name):
    return next(each for each in reply.figures if each.name.startswith(name))


# -- panels ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("line", "inches", "panels"), [
    # A side along the roll plus 6 in of bleed: doors 51 in, hood 66 in, mirrors 18 in.
    ("two doors 45 by 40 in and a hood 60 x 50 in", 168, 3),
    ("hood 60 x 50 in, doors 45 x 40 in, two of them", 168, 3),
    ("a pair of mirrors 12 x 9 in and hood 60 x 50 in", 102, 3),
    ("both doors 45 x 40 in", 102, 2),
    ("4 doors 45 x 40 in", 204, 4),
    ("2 x 45 x 40 in and hood 60 x 50 in", 168, 3),
])
def test_as_many_of_a_panel_as_are_said_are_counted(work, line, inches, panels):
    reply = work("panel-film", line)
    assert reply.figures[0].low == inches
    assert f"{panels} panels" in reply.answer


def test_a_four_door_car_has_one_hood(work):
    assert work("panel-film", "hood of a four door sedan 60 x 50 in").figures[0].low == 66


def test_a_side_measured_straight_across_a_bow_is_taken_over_the_curve(work):
    # R = 88^2/64 + 4 = 125 in; 2 x 125 x asin(88/250) = 89.92; plus 6 in of bleed.
    reply = work("panel-film", "bumper 88 in straight across, bows 8 in, 30 in high")
    assert figure(reply, "cut length").low == pytest.approx(95.92, abs=0.07)


def test_a_side_measured_straight_is_warned_of(work):
    reply = work("panel-film", "bumper 88 x 30 in measured straight across")
    assert any("short" in text for text in reply.assumed)


def test_a_side_over_the_curve_has_no_bow_besides(work):
    reply = work("panel-film", "bumper 88 x 30 in over the curve, bows 8 in")
    assert (reply.outcome, reply.needs) == ("asks", ("rise",))


def test_directional_film_is_never_turned(work):
    # Cut 56 x 46 in: either side fits across 60 in, the shorter one along the roll saves film.
    turned = "lid 50 x 40 in, roll 60 in, bleed 3 in, turned if it saves film"
    assert figure(work("panel-film", turned), "length off").low == 46
    for film in (Film(family="metallic"), Film(sheet="ninefathom-metallic")):
        assert figure(work("panel-film", turned, film=film), "length off").low == 56


# -- does it still fit ----------------------------------------------------------------------------


def test_panels_are_held_against_what_is_left_on_the_roll(work):
    # pi (5^2 - 3^2) / (4 x 0.01) = 1256.6 in = 34.9 yd; the hood takes 66 in.
    reply = work("roll-left", "roll 5 in across, core 3 in, 10 mil; does a hood 60 x 50 in still "
                 "fit")
    assert reply.answer.startswith("Yes")
    assert figure(reply, "to spare").low == pytest.approx((1256.6 - 66) / 36, abs=0.1)


def test_panels_take_the_place_of_a_length_that_was_wanted(work):
    lines = ("roll 3.1 in across, core 3 in, 10 mil, need 1 ft", "does a hood 60 x 50 in fit")
    # pi (9.61 - 9) / 0.04 = 47.9 in: a foot fits, the hood's 66 in do not.
    assert work("roll-left", lines[0]).answer.startswith("Yes")
    assert work("roll-left", *lines).answer.startswith("No")


def test_a_sum_takes_over_what_the_one_before_it_found(ready):
    reckoner = Reckoner(ready.knowledge)

    def say(calculation, line, before=None):
        return reckoner.begin(
            calculation, hear(line, ready.lexicon), {}, System.US, NOW, before=before
        )

    _, hood = say("panel-film", "hood 60 x 50 in")
    roll = "on a roll 3.1 in across, core 3 in, 10 mil"
    fits, _ = say("roll-left", f"does it still fit {roll}", hood)
    assert fits.answer.startswith("No")
    fresh, _ = say("roll-left", f"how much is left {roll}", hood)
    assert not fresh.answer.startswith(("Yes", "No"))


# -- numbers that cannot be -----------------------------------------------------------------------


@pytest.mark.parametrize(("calculation", "line", "slot"), [
    ("dew-point", "humidity 140 %, air 20 C", "humidity"),
    ("bay-check", "air 18 C, 120 percent, panel 16 C", "humidity"),
    ("roll-left", "roll 3 in across, core 5 in, 10 mil", "core"),
    ("strips", "surface 0 in wide, film 60 in, overlap 1/2 in", "surface"),
    ("strips", "surface 118 in, film 60 in, overlap 70 in", "overlap"),
    ("panel-film", "hood -60 x 50 in", "length"),
    ("panel-film", "hood 0 x 50 in", "length"),
    ("panel-film", "hood 60 x 50 in, bleed -3 in", "bleed"),
    ("infrared", "emissivity 1.4, reads 180 F, room 70 F", "emissivity"),
    ("job-price", "film $500, 10 hours at $50, consumables $20, margin 120%, tax 8%", "margin"),
    ("solvent-air", "50 ml of acetone in 30 m3 with -2 air changes", "air_changes"),
    ("mixing", "make 1 litre at 95 percent from 91 percent", "target"),
    ("mixing", "dilute 91% to 95%", "target"),
    ("latest-finish", "ready yesterday 5 pm", "ready"),
    ("film-life-left", "laid on 1 May 2030", "laid"),
    ("cure-clock", "finished at noon, bay at 65 F, cure -5 h", "needed"),
    ("cure-clock", "finished at noon, bay at 65 F, cure 2000 h", "needed"),
    # Two numbers for one thing.
    ("roll-left", "roll 6 in across, core 3 in and core 4 in, 10 mil", "core"),
    ("bay-check", "panel 60 F, panel 65 F, air 70 F, 50 percent", "panel"),
    ("panel-film", "hood 60 by 50 in, 55 in long", "length"),
    ("labour", "3 easy, 2 medium and 1 hard panels, 10 panels in all", "panels"),
])
def test_a_number_that_cannot_be_is_asked_about_by_name(work, calculation, line, slot):
    reply = work(calculation, line)
    assert (reply.outcome, reply.needs) == ("asks", (slot,))
    assert reply.figures == () and reply.times == ()


@pytest.mark.parametrize("line", ["-500 F and 50%", "-300 C and 50 %"])
def test_nothing_is_colder_than_absolute_zero(work, line):
    reply = work("dew-point", line)
    assert reply.outcome == "asks" and "absolute zero" in reply.answer


def test_a_number_that_was_taken_back_is_none(work):
    reply = work("roll-left", "roll 6 in across, core 3 in, no core 4 in, 10 mil")
    # pi (36 - 16) / 0.04 = 1570.8 in.
    assert reply.figures[0].low == pytest.approx(1570.8 / 36, abs=0.1)


def test_the_answer_to_a_contradiction_goes_on_with_the_sum(work):
    reply = work("roll-left", "roll 6 in across, core 3 in and core 4 in, 10 mil", "4 in")
    assert reply.figures[0].low == pytest.approx(1570.8 / 36, abs=0.1)


def test_a_number_that_no_one_needs_is_said_not_to_be_used(work):
    reply = work("dew-point", "68 F and 60 percent, 12 in")
    assert "not used: 12 in" in reply.assumed


# -- mixes told in parts --------------------------------------------------------------------------


@pytest.mark.parametrize("line", [
    "mix 1:4 in a 1 litre bottle", "1 to 4, 1 litre", "one part stock to four parts water, 1 litre",
])
def test_parts_are_of_the_whole(work, line):
    # One of five parts of a litre.
    assert work("mixing", line, system=System.METRIC).figures[0].low == 200


def test_a_strength_takes_the_place_of_parts(work):
    reply = work("mixing", "mix 1:4 in a 1 litre bottle", "and at 70 percent", system=System.METRIC)
    # 1000 x 70 / 99.
    assert reply.figures[0].low == 707


# -- the cure clock from readings -----------------------------------------------------------------

LOG = "started 6 pm at 60 F, dropped to 48 at midnight, back to 62 at 6 am"


def test_hours_are_counted_out_of_a_log(work):
    # Over 55 °F: 6 h x 5/12 = 2.5; 6 h x 7/14 = 3; 6 am to 2:30 pm 8.5: 14 h, 10 h left.
    reply = work("cure-clock", LOG)
    assert [figure(reply, name).low for name in ("hours counted", "hours left")] == [14, 10]
    assert reply.times[0].at == "2025-01-16T00:30"


def test_a_log_without_a_unit_waits_for_it(work):
    first = work("cure-clock", "it read 64 at 5 pm and 50 at 2 am")
    assert first.needs == ("unit",)


def test_what_is_to_come_is_no_log(work):
    reply = work("cure-clock", "finished at noon, bay 65 F, heating goes off at 8 pm, drops to 48")
    assert reply.times == ()
    # Noon to 8 pm: 8 h of 24.
    assert "16 h" in reply.answer


def test_the_heating_that_goes_off_tonight_stops_the_clock_and_says_when(work):
    reply = work("cure-clock", "finished at noon, bay 65 F", "what if the heating goes off tonight")
    assert reply.needs == ("off_temperature",)
    lines = ("finished at noon, bay 65 F", "what if the heating goes off tonight", "48 F")
    assert "stops" in work("cure-clock", *lines).answer
    # Noon to 6 pm: 6 h; 18 h more from 6 am on: midnight.
    assert work("cure-clock", *lines, "back on at 6 am").times[0].at == "2025-01-17T00:00"


# -- the film in hand -----------------------------------------------------------------------------

RECESS = "square recess 4 in wide and 0.2 in deep"  # 2 x 0.2 / 4 = 10 %


@pytest.mark.parametrize(("film", "verdict"), [
    (None, "free"), (Film(sheet="ninefathom-gloss"), "free"),
    (Film(sheet="ninefathom-mirror"), "post-heat"), (Film(family="chrome"), "post-heat"),
])
def test_the_verdict_on_a_stretch_is_the_films_own(work, film, verdict):
    assert verdict in work("stretch", RECESS, film=film).answer


def test_the_layer_that_spoke_and_what_it_replaced_are_told(work):
    reply = work("stretch", RECESS, film=Film(sheet="ninefathom-mirror"))
    assert reply.layer == "film sheet"
    assert any("10%" in text for text in reply.overrode)
    assert any("Ninefathom Mirror" in text for text in reply.assumed)
    assert reply.rules == ("stretch-post-heat",)


def test_a_sum_without_a_film_is_the_shipped_rules(work):
    reply = work("stretch", RECESS)
    assert (reply.layer, reply.overrode) == ("shipped", ())


def test_the_thickness_of_the_sheet_thins(work):
    # 4 mil / 1.10.
    reply = work("stretch", RECESS, film=Film(sheet="ninefathom-mirror"))
    assert figure(reply, "film thickness").low == pytest.approx(3.64, abs=0.01)


def test_the_window_of_the_sheet_judges_the_bay(work):
    line = "air 63 F, 50 percent, panel 64 F"
    assert work("bay-check", line).answer.startswith("Yes")
    told = work("bay-check", line, film=Film(sheet="ninefathom-metallic"))
    assert told.answer.startswith("Not yet") and "65 °F" in told.answer


def test_the_life_table_of_the_sheet_is_asked_for_its_zone_and_read(work):
    gloss = Film(sheet="ninefathom-gloss")
    lines = ("laid 31 March 2022 on the hood",)
    asked = work("film-life-left", *lines, film=gloss)
    assert asked.needs == ("zone",) and "temperate" in asked.answer
    # Temperate, flat: 3 to 4 years from 31 March 2022; 2 and 14 full months from 15 January 2025.
    reply = work("film-life-left", *lines, "temperate", film=gloss)
    assert (reply.figures[0].low, reply.figures[0].high) == (2, 14)
    # Desert, flat: 2 years: over since March 2024.
    over = work("film-life-left", *lines, "temperate", "and in the desert zone", film=gloss)
    assert over.answer.startswith("Past it")


def test_a_zone_that_the_sheet_does_not_know_is_questioned(work):
    reply = work("film-life-left", "laid 31 March 2022 on the hood", "arctic",
                 film=Film(sheet="ninefathom-gloss"))
    assert reply.needs == ("zone",) and "arctic" in reply.answer


# -- conversions begin with what was asked --------------------------------------------------------


@pytest.mark.parametrize(("line", "answer"), [
    ("225 F in C", "225 °F is 107.2 °C."), ("3 inches in mm", "3 in is 76.2 mm."),
    ("5 ft 6 in in cm", "66 in is 167.64 cm."), ("3/8 inch in mm", "3/8 in is 9.5 mm."),
    ("80 C in F and 3 in in mm", "80 °C is 176 °F; 3 in is 76.2 mm."),
])
def test_a_conversion_begins_with_the_thing_itself(work, line, answer):
    # NIST SP 811: 1 in = 25.4 mm; t/°C = (t/°F - 32) / 1.8.
    assert work("convert", line).answer == answer
