"""A value in a line leads to the rule with a figure of its kind.

The limits are the trade's common practice: 10 % of stretch is free, over 10 % is post-heated, over
30 % is never done. Exposure limits in ppm are those of the NIOSH Pocket Guide.
"""

import pytest

from assistant.hearing.hear import hear
from assistant.routing.given import Given, nearness, tightest, values_of

FREE = Given.read("ratio at_most 0.1 0.1")
POST_HEAT = Given.read("ratio over 0.1 0.1")
NEVER = Given.read("ratio over 0.3 0.3")
WINDOW = Given.read("temperature range 288.71 297.04")     # 60-75 F
EVEN = {"ratio": 1.0, "temperature": 1.0}


def test_a_value_inside_a_window_is_as_near_as_can_be():
    assert WINDOW.near(290.0) == 1.0
    assert WINDOW.near(280.0) < WINDOW.near(287.0) < 1.0


def test_a_figure_of_another_kind_is_not_near_at_all():
    assert nearness([FREE], [("temperature", 290.0)], EVEN) == 0.0
    assert nearness([FREE], [("ratio", 5.0)], EVEN) > 0.0


@pytest.mark.parametrize(("percent", "limit"), [(12, 0.1), (25, 0.1), (31, 0.3), (35, 0.3)])
def test_the_limit_just_passed_is_the_tightest(percent, limit):
    figures = [POST_HEAT, NEVER]
    assert tightest(figures, [("ratio", percent / 100)]) == limit


def test_a_stretch_of_five_percent_passes_no_limit():
    assert tightest([POST_HEAT, NEVER], [("ratio", 0.05)]) is None
    assert tightest([FREE], [("ratio", 0.5)]) is None


def test_a_limit_that_is_not_reached_says_less_than_one_that_is_passed():
    assert NEVER.near(0.25) < POST_HEAT.near(0.25)


def test_a_kind_that_many_rules_have_tells_less():
    rare = nearness([FREE], [("ratio", 0.1)], {"ratio": 0.9})
    common = nearness([FREE], [("ratio", 0.1)], {"ratio": 0.1})
    assert common < rare


def test_a_bare_number_is_no_value_unless_it_was_read_off_a_panel(lexicon):
    assert values_of(hear("panel is 58, can i start", lexicon)) == [
        ("temperature", pytest.approx((58 - 32) / 1.8 + 273.15))
    ]
    assert values_of(hear("58 rolls of film", lexicon)) == []


@pytest.mark.parametrize(("text", "rule"), [
    ("can i stretch it 35 percent", "stretch-never"),
    ("25 % stretch ok?", "stretch-post-heat"),
    ("is 450 ppm of ipa ok", "ipa-exposure"),
    ("bonnet reads 12c can i lay", "panel-temperature"),
    ("door 350 microns", "paint-thickness"),
])
def test_a_number_leads_to_the_rule_with_such_a_figure(router, lexicon, text, rule):
    assert router.route(hear(text, lexicon)).candidates[0].intent_id == rule
