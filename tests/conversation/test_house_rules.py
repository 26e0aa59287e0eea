"""House rules made in a talk: proposed beside what they replace, agreed, written, taken back.

The figures are common practice of the trade, without a source, unless said otherwise.
"""

import errno
import os
import stat
import tomllib

import pytest

from assistant.conversation.talk import Conversation
from assistant.reply import lay_out
from assistant.rules.load import load
from assistant.rules.ready import make_ready
from assistant.store import written

OVERLAP = "house rule: post-heat overlaps at 230"


def say(talk, *lines):
    for line in lines:
        reply = talk.turn(line)
    return reply


def figures(reply):
    return [(figure.low, figure.high, figure.unit) for figure in reply.figures]


@pytest.fixture
def file(home):
    return home / "house" / "decisions.toml"


# -- the proposal ----------------------------------------------------------------------------


@pytest.mark.parametrize("line, rule, new, old", [
    (OVERLAP, "post-heat-overlap", "230 °F (110 °C)", "225 °F (107 °C)"),
    ("from now on we post-heat overlaps at 230", "post-heat-overlap", "230 °F (110 °C)",
     "225 °F (107 °C)"),
    ("house rule: post-heat overlaps at 110 C", "post-heat-overlap", "110 °C", "225 °F"),
    ("house rule: first wash after 10 days", "first-wash", "10 days", "7 days"),
    ("house rule: do not wash before 10 days", "first-wash", "10 days", "7 days"),
    ("house rule: bleed 4 inches", "bleed", "4 in (102 mm)", "3 in (76 mm)"),
    ("house rule: wrap behind half an inch", "wrap-behind", "1/2 in", "1/4-1/2 in"),
    ("house rule: cure 48 hours", "cure", "48 h", "24 h"),
    ("house rule: bay between 65 and 75", "bay-temperature", "65-75 °F (18-24 °C)",
     "60-75 °F (16-24 °C)"),
])
def test_a_house_rule_is_shown_beside_what_it_replaces_in_both_systems(talk, line, rule, new, old):
    reply = talk.turn(line)
    text = lay_out(reply)[0]
    assert reply.outcome == "asks" and reply.needs == ("yes or no",), text
    assert reply.rules == (rule,)
    assert new in text and old in text and "shipped" in text
    assert not reply.figures


def test_nothing_is_written_before_the_yes(talk, home, file):
    talk.turn(OVERLAP)
    assert not file.exists()
    assert talk.turn("no").outcome == "done"
    assert not file.exists()
    assert figures(talk.turn("how hot for an overlap")) == [(225, 225, "degF")]


def test_a_question_in_between_lets_the_proposal_fall_and_says_so(talk, file):
    reply = say(talk, OVERLAP, "how much bleed")
    assert reply.rules == ("bleed",) and "the house rule was not written" in reply.assumed
    talk.turn("yes")
    assert not file.exists()


def test_the_other_system_is_asked_for_without_losing_the_proposal(talk, file):
    assert "110 °C (230 °F)" in say(talk, OVERLAP, "in celsius?").answer
    assert talk.turn("yes").outcome == "done" and file.exists()


@pytest.mark.parametrize("line", ["why", "help", "topics", "topics heat", "house rules", "", "undo",
                                  "what did you hear", "hello", "how much bleed"])
def test_a_yes_writes_only_right_after_the_question_that_it_answers(talk, file, line):
    say(talk, OVERLAP, line)
    again = talk.turn("yes, by the trainer")
    assert not file.exists()
    # The proposal has fallen, or it is shown again and then may be agreed to.
    if again.needs == ("yes or no",):
        assert "230 °F" in again.answer
        assert talk.turn("yes").outcome == "done" and file.exists()


def test_a_yes_forgets_only_right_after_the_question_that_it_answers(talk, file):
    say(talk, OVERLAP, "yes", "forget that house rule", "help")
    assert "Forget this house rule?" in talk.turn("yes").answer and file.exists()
    assert talk.turn("yes").outcome == "done" and not file.exists()


def test_a_proposal_said_again_may_be_agreed_to(talk, file):
    assert say(talk, OVERLAP, "repeat").needs == ("yes or no",)
    assert talk.turn("yes").outcome == "done" and file.exists()


@pytest.mark.parametrize("line, looser", [
    ("house rule: never stretch over 40%", True),
    ("house rule: never stretch over 20%", False),
    ("house rule: bay between 50 and 90 F", True),
    ("house rule: bay between 65 and 75", False),
    ("house rule: post-heat overlaps at 200", True),
    (OVERLAP, False),  # within the tolerance of 10
    ("house rule: first wash after 3 days", True),
    ("house rule: first wash after 10 days", False),
])
def test_a_house_rule_looser_than_the_shipped_one_says_so(talk, line, looser):
    reply = talk.turn(line)
    assert reply.needs == ("yes or no",), reply.answer
    assert ("This is looser than the shipped rule." in reply.answer) is looser


@pytest.mark.parametrize("line", [
    "house ruel: post-heat overlaps at 230", "hosue rule: post-heat overlaps at 230",
    "our house rul: post-heat overlaps at 230", "house ruule, post-heat overlaps at 230",
])
def test_one_letter_wrong_is_still_a_house_rule(talk, line):
    assert talk.turn(line).rules == ("post-heat-overlap",) and talk.turn("yes").outcome == "done"


# -- the decision ----------------------------------------------------------------------------


def test_the_next_answer_speaks_with_the_house_and_names_what_it_overrode(talk):
    reply = say(talk, OVERLAP, "yes", "how hot for an overlap")
    assert figures(reply) == [(230, 230, "degF")]
    assert reply.layer == "house"
    assert reply.overrode == ("shipped 225 °F (107 °C)",)
    # 225 is within the tolerance of 10; 215 is no longer within that of 230.
    assert talk.turn("is 215 ok for an overlap?").answer.startswith("No")


@pytest.mark.parametrize("lines", [
    ("house rule: post-heat overlaps at 230, by the trainer because our laps lifted at 225", "yes"),
    (OVERLAP, "yes, by the trainer because our laps lifted at 225"),
    (OVERLAP, "by the trainer", "because our laps lifted at 225", "yes"),
])
def test_who_and_why_are_written_beside_it_with_the_date(talk, file, lines):
    assert say(talk, *lines).outcome == "done"
    override = tomllib.loads(file.read_text())["overrides"]["post-heat-overlap"]
    assert override == {
        "who": "the trainer", "when": "2025-01-15", "because": "our laps lifted at 225",
        "figures": {"target": {"value": 230.0, "unit": "degF"}},
    }


def test_the_unit_typed_is_the_unit_kept(talk, file):
    say(talk, "house rule: post-heat overlaps at 110 C", "yes")
    figure = tomllib.loads(file.read_text())["overrides"]["post-heat-overlap"]["figures"]["target"]
    assert figure == {"value": 110.0, "unit": "degC"}


@pytest.mark.parametrize("line", ["Yes please.", "ok, do it", "y", "go ahead", "write it"])
def test_consent_has_many_words(talk, file, line):
    assert say(talk, OVERLAP, line).outcome == "done" and file.exists()


@pytest.mark.parametrize("line", ["no thanks", "don't write it", "nope", "cancel", "rather not"])
def test_so_has_its_refusal(talk, file, line):
    assert say(talk, OVERLAP, line).outcome == "done" and not file.exists()


def test_a_question_about_a_house_rule_decides_nothing(talk, file):
    reply = say(talk, "is our house rule 230 for an overlap?")
    assert reply.intent != "house-rule" and not file.exists()


def test_a_lap_by_a_quarter_inch_names_nobody(talk, file):
    say(talk, "house rule: lap panels by a quarter inch", "yes")
    assert "who" not in tomllib.loads(file.read_text())["overrides"]["overlap-width"]


def test_the_program_started_anew_speaks_alike(talk, home):
    say(talk, OVERLAP, "yes, by the trainer")
    rule = load(house=home).resolve("post-heat-overlap")
    mine = talk.knowledge.resolve("post-heat-overlap")
    assert load(house=home).problems == []
    for one in (rule, mine):
        assert (one.layer, one.says(), one.overrode, one.decided) == (
            "house", mine.says(), ("shipped 225 °F (107 °C)",), "by the trainer 2025-01-15")


@pytest.mark.skipif(os.name != "posix", reason="mode bits")
def test_the_file_is_for_the_shops_eyes_only(talk, file):
    say(talk, OVERLAP, "yes")
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_two_decisions_stand_beside_each_other_and_the_later_replaces_its_own(talk, home):
    say(talk, OVERLAP, "yes", "house rule: bleed 4 inches", "yes")
    say(talk, "house rule: post-heat overlaps at 235", "yes")
    knowledge = load(house=home)
    assert "235 °F" in knowledge.resolve("post-heat-overlap").says()
    assert "4 in" in knowledge.resolve("bleed").says()


def test_one_end_of_a_window_moves_and_the_other_stays(talk):
    say(talk, "house rule: the air of the bay at least 65 F", "yes")
    assert figures(talk.turn("how warm should the bay be")) == [(65, 75, "degF")]


def test_the_kept_index_needs_no_new_setting_up_after_a_decision(home, monkeypatch):
    talk = Conversation(make_ready())
    say(talk, OVERLAP, "yes")

    def refuse(*args, **kwargs):
        raise AssertionError("set up anew")

    monkeypatch.setattr("assistant.rules.load.load", refuse)
    again = Conversation(make_ready())
    assert figures(again.turn("how hot for an overlap")) == [(230, 230, "degF")]
    assert figures(again.turn("how much bleed")) == [(3, 3, "in")]
    say(talk, "undo")
    assert figures(Conversation(make_ready()).turn("how hot for an overlap")) == [
        (225, 225, "degF")]


# -- what is refused, and what is asked ------------------------------------------------------


@pytest.mark.parametrize("line", [
    "house rule: skin burns over 150 F",
    "house rule: IPA exposure 450 ppm, average over an eight-hour shift",
    "house rule: rinse the eye for 10 minutes",
])
def test_a_safety_rule_is_never_loosened(talk, file, line):
    reply = talk.turn(line)
    assert reply.outcome == "asks" and "loosen a safety rule" in reply.answer, reply.answer
    talk.turn("yes")
    assert not file.exists()


def test_a_safety_rule_may_be_tightened(talk):
    reply = say(talk, "house rule: IPA exposure 300 ppm, average over an eight-hour shift", "yes")
    assert reply.outcome == "done", reply.answer


def test_of_several_figures_it_is_asked_which(talk, home):
    reply = talk.turn("house rule: roll length 60 yards")
    assert reply.outcome == "asks" and len(reply.choices) == 2
    assert say(talk, "the long one").needs == ("yes or no",)
    assert talk.turn("yes").outcome == "done"
    assert load(house=home).resolve("roll-sizes").figures["length_long"].low.to("yd") == (
        pytest.approx(60))


@pytest.mark.parametrize("line, word", [
    ("house rule: bleed at 230 degrees", "fits no figure"),
    ("house rule: tyres at 32 psi", "no figure"),
    ("house rule: bleed more", "none in that"),
    ("house rule: giraffes at 230", "no rule about that"),
    ("house rule: post-heat overlaps at 2300 F", "no film is worked there"),
    ("house rule: post-heat overlaps at -600 F", "below absolute zero"),
    ("house rule: first wash within 10 days", "the least it may be"),
])
def test_what_no_figure_of_the_rule_can_be_is_said_and_not_written(talk, file, line, word):
    reply = talk.turn(line)
    assert reply.outcome == "asks" and word in reply.answer, reply.answer
    talk.turn("yes")
    assert not file.exists()


def test_what_holds_already_is_not_written_again(talk, file):
    assert "holds already" in talk.turn("house rule: post-heat overlaps at 225 F").answer
    assert not file.exists()


def test_a_rule_that_a_file_of_the_shops_own_decides_is_changed_there(talk, home):
    (home / "house").mkdir()
    (home / "house" / "ours.toml").write_text(
        "# our own words\n[overrides.bleed.figures.each_edge]\nvalue = 5\nunit = \"in\"\n"
    )
    talk = Conversation(make_ready())
    assert "ours.toml" in talk.turn("house rule: bleed 4 inches").answer
    assert "ours.toml" in talk.turn("forget the house rule on bleed").answer
    assert (home / "house" / "ours.toml").read_text().startswith("# our own words")


# -- the list, the forgetting, the way back --------------------------------------------------


def test_the_list_tells_who_and_when(talk):
    assert "No house rules" in talk.turn("house rules").answer
    say(talk, OVERLAP, "yes, by the trainer")
    text = lay_out(talk.turn("what are our house rules?"))[0]
    for part in ("230 °F (110 °C)", "225 °F (107 °C)", "by the trainer", "2025-01-15"):
        assert part in " ".join(text.split())


@pytest.mark.parametrize("line", [
    "forget that house rule", "forget the house rule on overlaps", "forget the overlap rule",
    "forget the rule on overlaps", "forget what we said about overlaps",
])
def test_a_forgotten_house_rule_lets_the_shipped_one_speak_again(talk, file, line):
    say(talk, OVERLAP, "yes")
    assert talk.turn(line).needs == ("yes or no",)
    assert file.exists()
    assert talk.turn("yes").outcome == "done"
    reply = talk.turn("how hot for an overlap")
    assert (figures(reply), reply.layer) == ([(225, 225, "degF")], "shipped")


def test_undo_brings_back_what_stood_before_one_write_at_a_time(talk):
    say(talk, OVERLAP, "yes", "house rule: post-heat overlaps at 235", "yes")
    say(talk, "forget that house rule", "yes")
    for expected in (235, 230, 225):
        assert talk.turn("undo").outcome == "done"
        assert figures(talk.turn("how hot for an overlap"))[0][0] == expected
    assert talk.turn("undo").outcome == "asks"


def test_what_the_last_write_replaced_stays_in_a_file_beside_it(talk, file):
    say(talk, OVERLAP, "yes")
    first = file.read_bytes()
    say(talk, "house rule: bleed 4 inches", "yes")
    assert file.with_name("decisions.toml.before").read_bytes() == first


def test_undo_does_not_write_over_what_another_has_decided_since(talk, file):
    say(talk, OVERLAP, "yes")
    theirs = file.read_text() + "\n[overrides.bleed.figures.each_edge]\nvalue = 5\nunit = \"in\"\n"
    file.write_text(theirs)
    reply = talk.turn("undo")
    assert reply.outcome == "error" and "changed since" in reply.answer
    assert file.read_text() == theirs


def test_two_talks_at_once_keep_both_decisions(ready, home):
    one, other = Conversation(ready), Conversation(ready)
    one.turn(OVERLAP)
    other.turn("house rule: bleed 4 inches")
    assert one.turn("yes").outcome == other.turn("yes").outcome == "done"
    assert set(load(house=home).house) == {"post-heat-overlap", "bleed"}


# -- files that are damaged, folders that refuse ---------------------------------------------


@pytest.mark.parametrize("raw", [b"[overrides", b"\xff\xfe\x00", b"overrides = 3\n"],
                         ids=["cut short", "no text", "no tables"])
def test_a_damaged_file_is_set_aside_and_never_written_over(talk, file, raw):
    file.parent.mkdir()
    file.write_bytes(raw)
    reply = say(talk, OVERLAP, "yes")
    aside = file.with_name("decisions.toml.damaged-2025-01-15")
    assert reply.outcome == "done" and aside.name in " ".join(reply.assumed)
    assert aside.read_bytes() == raw
    assert figures(talk.turn("how hot for an overlap")) == [(230, 230, "degF")]


def test_a_second_damaged_file_gets_another_name(file):
    file.parent.mkdir()
    for raw in (b"[one", b"[two"):
        file.write_bytes(raw)
        written.set_aside(file, "2025-01-15")
    kept = {path.read_bytes() for path in file.parent.iterdir()}
    assert kept == {b"[one", b"[two"}


def test_loose_house_files_are_not_hidden_by_a_new_folder(talk, home):
    (home / "ours.toml").write_text(
        "[overrides.bleed.figures.each_edge]\nvalue = 5\nunit = \"in\"\n"
    )
    say(talk, OVERLAP, "yes")
    assert set(load(house=home).house) == {"post-heat-overlap", "bleed"}


@pytest.mark.parametrize("code, remedy", [
    (errno.ENOSPC, "Make room"), (errno.EROFS, "BAYHAND_HOME"), (errno.EACCES, "leave to write"),
])
def test_a_write_that_fails_is_told_with_its_remedy_and_the_talk_goes_on(
    talk, file, monkeypatch, code, remedy
):
    def refuse(path, content):
        raise OSError(code, os.strerror(code), str(path))

    monkeypatch.setattr(written, "replace_with", refuse)
    reply = say(talk, OVERLAP, "yes")
    assert reply.outcome == "error"
    assert "decisions.toml" in reply.answer and remedy in reply.answer
    assert figures(talk.turn("how hot for an overlap")) == [(225, 225, "degF")]
    monkeypatch.undo()
    assert not file.exists()


def test_once_there_is_room_the_same_yes_writes_it(talk, home, file):
    place = home / "house"
    place.write_text("a file where the folder should be")
    assert say(talk, OVERLAP, "yes").outcome == "error"
    place.unlink()
    assert talk.turn("yes").outcome == "done" and file.exists()


def test_nothing_typed_is_read_as_a_template(talk, home):
    say(talk, OVERLAP, "yes, by {target} because [bold]{bleed.each_edge}[/bold] \x1b[31m")
    reply = talk.turn("how hot for an overlap")
    assert "{target}" in reply.basis_words and "{bleed.each_edge}" in reply.basis_words
    assert "\x1b" not in lay_out(talk.turn("house rules"))[0]
