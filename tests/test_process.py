"""The started program: its manners in pipes, its exit statuses, and what it does not load."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PROGRAM = [sys.executable, "-m", "assistant.cli"]
OVERLAP = "how hot do I post-heat an overlap"
unix = pytest.mark.skipif(os.name != "posix", reason="shells and signals of POSIX systems")


@pytest.fixture
def surroundings(shop):
    return {**os.environ, "BAYHAND_HOME": str(shop), "PYTHONIOENCODING": "utf-8"}


@pytest.fixture
def start(surroundings):
    """Run the program with arguments; standard input is empty unless given."""

    def run(*arguments: str, given: bytes = b"", **environment: str):
        return subprocess.run(
            [*PROGRAM, *arguments], input=given, capture_output=True, cwd=ROOT, timeout=120,
            env={**surroundings, **environment},
        )

    return run


@pytest.fixture
def shell(surroundings):
    """Run a line of shell in which $B is the program."""

    def run(line: str, **environment: str):
        program = f"'{sys.executable}' -m assistant.cli"
        return subprocess.run(
            ["sh", "-c", line.replace("$B", program)], capture_output=True, cwd=ROOT, timeout=120,
            env={**surroundings, **environment}, stdin=subprocess.DEVNULL, text=True,
        )

    return run


def test_one_answer_loads_neither_the_screen_framework_nor_an_event_loop(surroundings):
    code = (
        "import sys; from assistant.cli import main; main(['ask', 'how hot for an overlap']);"
        "print(sorted({'textual', 'rich', 'asyncio'} & set(sys.modules)))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, env=surroundings,
        check=True, encoding="utf-8",
    )
    assert ran.stdout.rstrip().endswith("[]")


def test_the_conversation_can_be_used_without_the_screen_framework():
    code = "import sys, assistant.conversation.talk; print('textual' in sys.modules)"
    ran = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True
    )
    assert ran.stdout.strip() == "False"


def test_a_waiting_program_gets_each_reply_before_it_writes_the_next_line(surroundings):
    with subprocess.Popen(
        [*PROGRAM, "converse", "--json"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=ROOT,
        env=surroundings,
    ) as process:
        for line, outcome in ((b"hello\n", "done"), (b"\n", "asks"), (b"thanks\n", "done")):
            process.stdin.write(line)
            process.stdin.flush()
            assert json.loads(process.stdout.readline())["outcome"] == outcome
        process.stdin.close()
        assert process.wait(timeout=60) == 0


def test_without_a_terminal_the_bare_command_answers_line_by_line(start):
    ran = start(given=b"thanks\n")
    assert ran.returncode == 0 and ran.stdout.startswith(b"You're welcome")
    assert b"\x1b" not in ran.stdout + ran.stderr


def test_a_narrow_stream_gets_plain_letters_and_json_escapes(start):
    narrow = {"LC_ALL": "C", "PYTHONIOENCODING": "ascii"}
    told = start("ask", OVERLAP, **narrow)
    assert told.returncode == 0 and b"225 deg F (107 deg C)" in told.stdout
    raw = start("ask", OVERLAP, "--json", **narrow).stdout
    assert raw.isascii() and "225 °F (107 °C)" in json.loads(raw)["text"]
    wide = start("ask", OVERLAP, "--json").stdout
    assert json.loads(wide) == json.loads(raw) and "225 °F".encode() in wide


def test_a_question_in_another_locale_s_bytes_is_read(start):
    bare = {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"}
    reply = json.loads(start("ask", "is 95 °C ok for an overlap", "--json", **bare).stdout)
    assert reply["figures"][0]["unit"] == "degC"


@pytest.mark.parametrize("no_color", ["", "1"])
def test_the_plain_reply_has_no_colour_with_or_without_no_color(start, no_color):
    assert b"\x1b" not in start("ask", OVERLAP, NO_COLOR=no_color, TERM="xterm").stdout


@unix
def test_a_reader_that_goes_early_is_no_trouble(shell):
    ran = shell("(for i in 1 2 3 4 5 6 7 8 9; do echo topics; done) | $B converse | head -1")
    assert ran.stdout.count("\n") == 1 and ran.stderr == ""
    assert shell("$B --help | head -1").stderr == ""


@unix
@pytest.mark.parametrize(("line", "status", "told"), [
    (f"$B ask '{OVERLAP}' >&-", 1, "bayhand: standard output is closed.\n"),
    (f"$B ask '{OVERLAP}' <&-", 0, ""),
    (f"$B ask '{OVERLAP}' 2>&-", 0, ""),
    ("$B converse <&-", 2, "bayhand: standard input is closed; there is nothing to answer.\n"),
    ("$B <&-", 2, "bayhand: standard input is closed; there is nothing to answer.\n"),
    ("$B </dev/null", 0, ""),
    ("$B ask", 2, None),
    ("$B ask 'how long is a giraffe'", 3, ""),
])
def test_streams_that_are_closed_are_met_with_a_sentence(shell, line, status, told):
    ran = shell(line)
    assert ran.returncode == status and "Traceback" not in ran.stderr
    assert told is None or ran.stderr == told


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_a_full_disk_is_told_in_one_sentence(shell):
    ran = shell("$B ask hello >/dev/full")
    assert ran.returncode == 1 and ran.stderr.count("\n") == 1 and "bayhand: " in ran.stderr


@unix
def test_ctrl_c_ends_the_talk_with_status_130_and_no_traceback(surroundings):
    with subprocess.Popen(
        [*PROGRAM, "converse"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        stderr=subprocess.PIPE, cwd=ROOT, env=surroundings,
    ) as process:
        process.stdin.write(b"thanks\n")
        process.stdin.flush()
        assert process.stdout.readline().startswith(b"You're welcome")
        process.send_signal(signal.SIGINT)
        process.stdin.close()
        assert process.wait(timeout=60) == 130
        assert process.stderr.read() == b""


def test_the_version_is_that_of_the_package(start):
    from assistant import __version__

    assert start("--version").stdout.decode().strip() == f"bayhand {__version__}"
