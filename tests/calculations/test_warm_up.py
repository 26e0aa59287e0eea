"""Warm-up of rolls and panels: the textbook table, Bessel functions and roots of scipy."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.special import j0, j1, y0, y1

from assistant.calculations import panel_warm_up, roll_warm_up
from assistant.calculations.base import Impossible, Missing
from assistant.calculations.conduction import bessel, fourier_for, modes, remaining, settled
from assistant.calculations.panel_warm_up import MATERIALS, time_to
from assistant.calculations.roll_warm_up import LIKELY, Stuff, time_to_core
from assistant.quantity.kinds import Length, Temperature


@pytest.mark.parametrize("x", [0.01, 0.5, 1, 3, 7, 11.9, 12.1, 25, 80, 200])
def test_bessel_functions_agree_with_scipy(x):
    assert bessel(x) == pytest.approx((j0(x), j1(x), y0(x), y1(x)), rel=1e-9, abs=1e-9)


# Cengel, Heat and Mass Transfer, table 4-2 (cylinder): Bi, lambda_1, A_1.
@pytest.mark.parametrize(("biot", "root", "weight"), [
    (0.01, 0.1412, 1.0025), (0.1, 0.4417, 1.0246), (0.2, 0.6170, 1.0483), (0.5, 0.9408, 1.1143),
    (1, 1.2558, 1.2071), (2, 1.5995, 1.3384), (5, 1.9898, 1.5029), (10, 2.1795, 1.5677),
])
def test_the_first_term_is_the_textbooks(biot, root, weight):
    first = modes(biot)[0]
    assert first.root == pytest.approx(root, abs=1e-4)
    assert first.bore == pytest.approx(weight, abs=1e-4)


@pytest.mark.parametrize("biot", [0.1, 1, 3.5])
def test_every_root_of_the_solid_cylinder_is_a_root_of_scipys(biot):
    for mode in modes(biot):
        near = brentq(
            lambda x: x * j1(x) - biot * j0(x), mode.root - 1e-3, mode.root + 1e-3, xtol=1e-12
        )
        assert mode.root == pytest.approx(near, abs=1e-8)


# The whole series of 60 terms computed with scipy: Bi, Fo, centre, mean, surface.
@pytest.mark.parametrize(("biot", "fourier", "centre", "mean", "surface"), [
    (0.1, 0.05, 0.99988, 0.99018, 0.97248), (0.5, 0.1, 0.98754, 0.91197, 0.81962),
    (1, 0.05, 0.99890, 0.91569, 0.76964), (2, 0.2, 0.78999, 0.57270, 0.37014),
    (5, 0.1, 0.92649, 0.59740, 0.25575), (10, 0.5, 0.14580, 0.07477, 0.01776),
])
def test_the_solid_cylinder_follows_the_series(biot, fourier, centre, mean, surface):
    series = modes(biot)
    assert remaining(series, fourier) == pytest.approx(centre, abs=1e-4)
    assert remaining(series, fourier, "mean") == pytest.approx(mean, abs=1e-4)
    assert remaining(series, fourier, "surface") == pytest.approx(surface, abs=2e-4)


# Hollow cylinder, insulated bore: series of 40 terms, checked by a finite-volume run to 5 digits.
@pytest.mark.parametrize(("bore", "biot", "root", "thetas"), [
    (0.38, 1, 1.39418, {0.05: 0.98355, 0.1: 0.91533, 0.2: 0.75931, 0.5: 0.42400}),
    (0.38, 5, 2.34803, {0.05: 0.94240, 0.1: 0.75257, 0.5: 0.08384}),
    (0.50, 2, 1.99283, {0.02: 0.99604, 0.05: 0.93338, 0.2: 0.52457}),
    (0.76, 1, 2.09305, {0.02: 0.95303, 0.1: 0.67225, 0.5: 0.11655}),
    (0.76, 5, 4.07616, {0.02: 0.82473, 0.1: 0.21907}),
])
def test_the_hollow_cylinder_follows_the_series(bore, biot, root, thetas):
    series = modes(biot, bore)
    assert series[0].root == pytest.approx(root, abs=1e-5)
    for fourier, theta in thetas.items():
        assert remaining(series, fourier) == pytest.approx(theta, abs=1e-4)


def test_the_first_term_alone_would_be_nonsense_in_the_first_hour():
    # A 150 mm roll is at Fo under 0.09 in its first hour; one term gives a theta over 1.
    series = modes(3.5)
    assert remaining(series[:1], 0.11) < 1.1
    assert series[0].bore > 1.3
    assert remaining(series, 0.02) == pytest.approx(1, abs=1e-3)


# Computed with scipy's roots for a solid roll, k 0.17, rho 1390, c 900: hours to 0.25 and 0.10.
@pytest.mark.parametrize(("diameter", "h", "left", "hours"), [
    (0.10, 5, 0.25, 3.98), (0.10, 8, 0.25, 3.09), (0.15, 8, 0.25, 5.85), (0.15, 8, 0.10, 8.90),
    (0.20, 8, 0.25, 9.43),
])
def test_a_solid_roll_takes_the_published_hours(diameter, h, left, hours):
    stuff = Stuff(0.17, 1390, 900, h)
    series = modes(h * diameter / 2 / stuff.k)
    alpha = stuff.k / (stuff.density * stuff.heat)
    taken = fourier_for(series, left) * (diameter / 2) ** 2 / alpha / 3600
    assert taken == pytest.approx(hours, rel=0.005)


def roll(start: float, room: float, diameter: float = 150, core: float = 76):
    return roll_warm_up.Inputs(
        diameter=Length.of(diameter, "mm"), core=Length.of(core, "mm"),
        start=Temperature.of(start, "degC"), room=Temperature.of(room, "degC"),
    )


def test_a_hollow_core_warms_sooner_than_a_solid_roll(metric, figures):
    # Solid, D 0.15, h 8: 5.85 h to 0.25; the real roll has no film in the middle.
    hours = time_to_core(Length.of(150, "mm"), Length.of(76, "mm"), 0.25, LIKELY).to("h")
    assert 2 < hours < 5.85
    found = figures(roll_warm_up.calculate(roll(2, 20), metric))
    assert (
        found["at the quickest"] < found["time until the core is inside"]
        < found["at the slowest"]
    )


def test_a_roll_already_warm_is_ready(metric):
    assert roll_warm_up.calculate(roll(18, 20), metric).verdict == "ready"


def test_a_bay_below_the_window_never_warms_the_core(metric):
    with pytest.raises(Impossible) as refused:
        roll_warm_up.calculate(roll(2, 14), metric)
    assert refused.value.slot == "room"


def test_a_hot_roll_cools_to_the_top_of_the_window(metric, figures):
    found = figures(roll_warm_up.calculate(roll(45, 20), metric))
    assert found["time until the core is inside"].to("h") > 1


@pytest.mark.parametrize(("inputs", "slot"), [
    (roll(2, 20, core=160), "core"), (roll(2, 20, core=0), "core"),
    (roll(2, 20, diameter=0), "diameter"), (roll(-100, 20), "start"), (roll(2, 120), "room"),
])
def test_rolls_that_cannot_be_are_questioned_by_name(us, inputs, slot):
    with pytest.raises(Impossible) as refused:
        roll_warm_up.calculate(inputs, us)
    assert refused.value.slot == slot


@given(st.floats(90, 250), st.floats(90, 250))
def test_a_fatter_roll_never_warms_sooner(one, other):
    less, more = sorted((one, other))
    core = Length.of(76, "mm")
    taken = [
        time_to_core(Length.of(size, "mm"), core, 0.3, LIKELY).si for size in (less, more)
    ]
    assert taken[0] <= taken[1] + 1e-6


@given(st.floats(0.3, 10), st.floats(0, 0.9), st.floats(0.05, 0.95))
def test_a_few_terms_do_once_the_last_has_died_away(biot, bore, left):
    few = modes(biot, bore, terms=4)
    fourier = fourier_for(few, left)
    if settled(few, fourier):
        assert fourier == pytest.approx(fourier_for(modes(biot, bore, terms=16), left), rel=1e-7)


def panel(material: str, thickness: float, start: float = 2, room: float = 20, **more):
    return panel_warm_up.Inputs(
        material=material, thickness=Length.of(thickness, "mm"),
        start=Temperature.of(start, "degC"), room=Temperature.of(room, "degC"), **more,
    )


def test_thin_steel_halves_its_difference_in_two_minutes():
    # By hand: 7850 x 486 x 0.0008 / (2 x 8) = 190.8 s, x ln 2 = 132.2 s.
    taken = time_to(MATERIALS["steel"], Length.of(0.8, "mm"), 0.5, 8, 2)
    assert taken.to("s") == pytest.approx(132.2, abs=0.1)


def test_one_face_in_the_air_takes_twice_as_long(metric, figures):
    both = figures(panel_warm_up.calculate(panel("steel", 0.8), metric))
    one = figures(panel_warm_up.calculate(panel("steel", 0.8, faces=panel_warm_up.ONE), metric))
    name = "time until the panel is inside"
    assert one[name] / both[name] == pytest.approx(2)


def test_a_thick_block_of_plastic_is_beyond_the_lumped_form(metric):
    with pytest.raises(Impossible) as refused:
        panel_warm_up.calculate(panel("plastic", 30), metric)
    assert refused.value.slot == "thickness"


def test_an_unknown_material_is_asked_for(metric):
    with pytest.raises(Missing):
        panel_warm_up.calculate(panel("oak", 3), metric)
