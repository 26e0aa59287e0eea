"""The topic: which part of a short line replaces which part of the last question."""

from assistant.hearing.hear import hear
from assistant.hearing.lexicon import Lexicon
from assistant.routing.topic import Topic, inherited, stands_alone

LEXICON = Lexicon.build({
    "things": {"overlap": {"words": ["overlap"]}, "recess": {"words": ["recess"]}},
    "doings": {"post-heat": {"words": ["post-heat"]}, "wash": {"words": ["wash"]}},
    "wishes": {"how-hot": {"words": ["how hot"]}, "how-long": {"words": ["how long"]},
               "may-i": {"words": ["can i"]}},
    "films": {"chrome": {"words": ["chrome"]}},
    "conditions": {"repainted": {"words": ["repainted"]}},
})


def heard(text):
    return hear(text, LEXICON)


RECESS = Topic.of(heard("how hot do I post-heat a recess"), "post-heat-stretched")


def test_a_new_thing_takes_the_old_ones_place_and_keeps_doing_and_wish():
    topic = Topic.after(heard("and for an overlap?"), RECESS)
    assert (topic.things, topic.doings, topic.wishes) == ({"overlap"}, {"post-heat"}, {"how-hot"})


def test_a_new_wish_takes_the_old_ones_place():
    topic = Topic.after(heard("and how long?"), RECESS)
    assert (topic.things, topic.wishes) == ({"recess"}, {"how-long"})


def test_a_film_or_a_condition_is_added():
    assert Topic.after(heard("what about chrome"), RECESS).films == {"chrome"}
    topic = Topic.after(heard("what if it's repainted"), RECESS)
    assert topic.conditions == {"repainted"}
    assert topic.things == {"recess"}


def test_a_question_of_its_own_starts_anew():
    line = heard("can i wash it with chrome on")
    assert stands_alone(line)
    topic = Topic.after(line, RECESS)
    assert not topic.things
    assert inherited(line, RECESS) is None


def test_what_the_line_names_itself_is_not_taken_over():
    kept = inherited(heard("and for an overlap?"), RECESS)
    assert not kept.things
    assert kept.doings == {"post-heat"}
    assert inherited(heard("and for an overlap?"), RECESS, beside=True).things == {"recess"}


def test_with_nothing_before_it_nothing_is_taken_over():
    assert inherited(heard("and?"), Topic()) is None
    assert Topic.after(heard("overlap"), None).things == {"overlap"}
