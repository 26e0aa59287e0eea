"""The command line as a program sees it: one reply a line, exact JSON, honest exit statuses."""

from __future__ import annotations

import json

import pytest

from assistant import cli
from assistant.reply import ANSWER, ASKS, DONE, ERROR, OUTCOMES, OUTSIDE, RESULT

# The contract's keys, in its order.
KEYS = [
    "outcome", "intent", "heading", "text", "heard", "assumed", "rules", "figures", "times",
    "steps", "working", "cautions", "basis", "layer", "overrode", "source", "choices", "needs",
    "confidence",
]
UNITS = set(
    "degF degC dF dC mm cm m in ft yd um mil percent ratio min h day week year ppm mg/m3 m2 ft2 "
    "m3 ft3 mL L floz psi bar g kg g/m2 per_h m3/h count money".split()
)
LINES = [
    ("how hot do I post-heat an overlap", ANSWER),
    ("how much film for a rear bumper 92 by 31, 3 inch bleed", RESULT),
    ("how much film for a door", ASKS),
    ("how long is a giraffe", OUTSIDE),
    ("hello", DONE),
    ("", ASKS),
]
STATUS = {ANSWER: 0, RESULT: 0, DONE: 0, ASKS: 3, OUTSIDE: 3, ERROR: 1}


@pytest.fixture
def bay(monkeypatch, talk):
    """The command line over a talk that is set up already."""
    monkeypatch.setattr(cli, "begin", lambda *_: talk)
    return talk


@pytest.fixture
def piped(monkeypatch):
    """Give bytes to standard input."""
    import io

    def give(given: bytes) -> None:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(given), encoding="utf-8"))

    return give


def test_json_has_the_keys_of_the_contract_in_its_order(bay, capsys):
    for line, outcome in LINES:
        bay.forget()
        status = cli.main(["ask", line, "--json"])
        out = capsys.readouterr().out
        assert out.count("\n") == 1 and out.endswith("}\n")
        reply = json.loads(out)
        assert list(reply) == KEYS
        assert reply["outcome"] == outcome and status == STATUS[outcome]


def test_json_values_are_of_the_contract_s_kinds(bay, capsys):
    for line, _ in LINES:
        bay.forget()
        cli.main(["ask", line, "--json"])
        reply = json.loads(capsys.readouterr().out)
        assert reply["outcome"] in OUTCOMES
        assert reply["basis"] in ("published", "practice", "memory", None)
        assert reply["layer"] in ("shipped", "house", "film sheet", None)
        assert 0 <= reply["confidence"] <= 1
        for key in ("heading", "text", "heard"):
            assert isinstance(reply[key], str)
        for key in ("assumed", "rules", "steps", "working", "cautions", "overrode", "choices",
                    "needs"):
            assert all(isinstance(each, str) for each in reply[key])
        for figure in reply["figures"]:
            assert list(figure) == ["name", "low", "high", "unit"]
            assert figure["unit"] in UNITS and figure["low"] <= figure["high"]
        if reply["outcome"] in (ASKS, OUTSIDE):
            assert not reply["figures"] and not reply["times"]
        rows = reply["text"].splitlines()
        assert 0 < len(rows) <= 24 and max(map(len, rows)) <= 80


@pytest.mark.parametrize(("line", "outcome"), LINES)
def test_the_exit_status_tells_what_became_of_the_line(bay, capsys, line, outcome):
    assert cli.main(["ask", line]) == STATUS[outcome]


def test_several_words_of_the_command_line_are_one_line(bay, capsys):
    cli.main(["ask", "how", "hot", "for", "an", "overlap"])
    one = capsys.readouterr().out
    bay.forget()
    cli.main(["ask", "how hot for an overlap"])
    assert capsys.readouterr().out == one
    assert one.startswith("Post-heat every overlap to 225 °F (107 °C)")


@pytest.mark.parametrize("words", [["-5C", "panel"], ["-"], ["---"], ["--", "--json"], ["- a - b"]])
def test_a_line_may_begin_with_a_hyphen(bay, capsys, words):
    assert cli.main(["ask", *words]) in (0, 3)
    assert not capsys.readouterr().out.startswith("{")


@pytest.mark.parametrize("argv", [
    ["ask"], ["ask", "--json"], ["ask", "--jsn", "how hot"], ["ask", "--js", "how hot"],
    ["sing"], ["--loud"], ["replay"], ["converse", "now"],
])
def test_bad_use_is_status_2_and_says_what_is_wrong(argv, capsys):
    with pytest.raises(SystemExit) as left:
        cli.main(argv)
    told = capsys.readouterr()
    assert left.value.code == 2 and not told.out and "bayhand" in told.err


@pytest.mark.parametrize("command", ["ask", "converse", "replay", "check"])
def test_every_command_has_help(command, capsys):
    with pytest.raises(SystemExit) as left:
        cli.main([command, "--help"])
    assert left.value.code == 0 and f"usage: bayhand {command}" in capsys.readouterr().out


def test_help_opens_with_the_commands_and_lines_to_paste(capsys):
    with pytest.raises(SystemExit):
        cli.main(["--help"])
    told = capsys.readouterr().out
    assert 'bayhand ask "how hot for an overlap"' in told and "exit status of ask" in told


def test_one_reply_a_line_in_order_a_blank_line_too(bay, piped, capsys):
    piped(b"\xef\xbb\xbfhow hot for an overlap\n\n---\nthanks\r\nhow long is a giraffe")
    assert cli.main(["converse", "--json"]) == 0
    replies = [json.loads(row) for row in capsys.readouterr().out.splitlines()]
    assert [reply["outcome"] for reply in replies] == [ANSWER, ASKS, DONE, OUTSIDE]


def test_three_hyphens_forget_and_are_not_answered(bay, piped, capsys):
    piped(b"how hot for an overlap\nin celsius?\n---\nwhy?\n")
    cli.main(["converse", "--json"])
    first, second, third = map(json.loads, capsys.readouterr().out.splitlines())
    assert first["figures"][0]["unit"] == "degF" and second["figures"][0]["unit"] == "degC"
    assert third["outcome"] == ASKS


def test_replies_in_plain_text_are_parted_by_a_blank_row(bay, piped, capsys):
    piped(b"thanks\nhello\n")
    cli.main(["converse"])
    assert capsys.readouterr().out.count("\n\n") == 2


@pytest.mark.parametrize("given", [
    b"\x00\n", b"\xff\xfe\n", b"\x1b[31mred\x1b]0;t\x07\n", "\u202e\u2028\n".encode(),
    b"how hot for an overlap " * 45_000 + b"\n",
])
def test_no_line_breaks_the_talk(bay, piped, capsys, given):
    piped(given)
    assert cli.main(["converse", "--json"]) == 0
    out = capsys.readouterr().out
    assert len(out.splitlines()) == 1 and json.loads(out)["outcome"] in OUTCOMES


def test_a_fault_in_a_turn_is_an_error_reply_and_the_talk_goes_on(bay, piped, capsys, monkeypatch):
    heard = []

    def turn(line):
        heard.append(line)
        if line == "bad":
            raise KeyError("bleed")
        return known("thanks")

    known = bay.turn
    monkeypatch.setattr(bay, "turn", turn)
    piped(b"thanks\nbad\nthanks\n")
    assert cli.main(["converse", "--json"]) == 1
    told = capsys.readouterr()
    replies = [json.loads(row) for row in told.out.splitlines()]
    assert [reply["outcome"] for reply in replies] == [DONE, ERROR, DONE]
    assert "KeyError: 'bleed'" in told.err and "Traceback" not in told.err
    assert cli.main(["ask", "bad"]) == 1


def test_a_fault_before_the_first_reply_is_one_sentence_and_status_1(monkeypatch, capsys):
    def broken(*_):
        raise ValueError("no\nknowledge")

    monkeypatch.setattr(cli, "begin", broken)
    monkeypatch.setattr("sys.argv", ["bayhand", "ask", "how hot"])
    monkeypatch.setattr(cli, "hush", lambda stream: None)
    assert cli.run() == 1
    assert capsys.readouterr().err == (
        "bayhand: stopped by a fault in the program (ValueError: no).\n"
    )


def test_what_is_left_out_of_the_shop_s_files_is_told_and_the_line_answered(home, capsys):
    (home / "house").mkdir()
    (home / "house" / "own.toml").write_text("[rules\n", encoding="utf-8")
    assert cli.main(["ask", "how hot do I post-heat an overlap"]) == 0
    told = capsys.readouterr()
    assert "left out: " in told.err and "own.toml" in told.err
    assert told.out.startswith("Post-heat every overlap")


def test_replay_shows_what_differs_and_rewrite_mends_it(tmp_path, capsys, ready):
    script = tmp_path / "morning.txt"
    script.write_text("today 2025-01-15\n\n> thanks\nNot at all.\n", encoding="utf-8")
    assert cli.main(["replay", str(script)]) == 1
    told = capsys.readouterr().out
    assert "-Not at all." in told and "+You're welcome." in told and "1 turns, DIFFERS" in told
    assert cli.main(["replay", "--rewrite", str(script)]) == 0
    assert cli.main(["replay", str(script)]) == 0
    assert "as in the file" in capsys.readouterr().out


def test_replay_names_a_file_that_it_cannot_read_and_goes_on(tmp_path, capsys):
    good, odd, torn = (tmp_path / name for name in ("good.txt", "odd.txt", "torn.txt"))
    good.write_text("> thanks\n", encoding="utf-8")
    odd.write_bytes(b"> caf\xe9\n")
    torn.write_text("hello\n", encoding="utf-8")
    files = [tmp_path / "none.txt", odd, torn, tmp_path, good]
    assert cli.main(["replay", *map(str, files)]) == 1
    told = capsys.readouterr()
    assert len(told.err.splitlines()) == 4 and "good.txt: 1 turns" in told.out


def test_check_prints_each_finding_and_a_summary(tmp_path, capsys, monkeypatch):
    from assistant.rules import check
    from assistant.rules.problem import Problem

    finding = Problem("house/own.toml", "rules.own", "says", "is missing", "Write it.")
    reports = {True: check.Report((finding,), "1 finding."), False: check.Report((), "none.")}
    monkeypatch.setattr(check, "check_all", lambda folder: reports[folder is not None])
    assert cli.main(["check", str(tmp_path)]) == 1
    assert capsys.readouterr().out == (
        "house/own.toml: rules.own.says is missing. Write it.\n1 finding.\n"
    )
    assert cli.main(["check"]) == 0
    assert cli.main(["check", str(tmp_path / "none")]) == 2
    assert "is no folder" in capsys.readouterr().err
