"""The command line: one line answered, a conversation through pipes, transcripts, the check.

Owns arguments, streams and exit statuses; what is said comes from conversation/. The full screen
is screen/'s. Exit statuses: 0 answered or done, 3 asked back or outside, 2 bad use, 1 error.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from assistant.reply import ASKS, ERROR, OUTSIDE, Reply, lay_out

if TYPE_CHECKING:
    from assistant.conversation.talk import Conversation

OK, FAILED, BAD_USE, NOT_ANSWERED, INTERRUPTED = 0, 1, 2, 3, 130

EXAMPLES = """\
lines to paste:
  bayhand                                        the assistant, full screen
  bayhand ask "how hot for an overlap"           one answer
  bayhand ask "film for a bumper 92 by 31, 3 inch bleed" --json
  printf 'bay is 18C, 60 percent\\npanel 12C\\n' | bayhand converse
  bayhand replay transcripts_demo/*.txt          type the demo again, show what differs
  bayhand check                                  prove the knowledge, the shop's own included

exit status of ask: 0 answered or done, 3 asked back or does not know, 2 bad use, 1 error.
The shop's own rules and film sheets lie in the folder that BAYHAND_HOME names
(by default the user's data folder)."""

# What a narrow encoding cannot print, in letters that it can.
_LETTERS = str.maketrans({
    "°": " deg ", "µ": "u", "μ": "u", "×": "x", "²": "2", "³": "3", "½": "1/2", "¼": "1/4",
    "¾": "3/4", "–": "-", "—": "-", "−": "-", "≥": ">=", "≤": "<=", "→": "->", "…": "...",
    "’": "'", "‘": "'", "“": '"', "”": '"', "′": "'", "″": '"', "π": "pi",
})


def printable(text: str, encoding: str | None) -> str:
    """The text in letters that the encoding knows: `225 °F` becomes `225 deg F` in ASCII."""
    encoding = encoding or "ascii"
    try:
        text.encode(encoding)
        return text
    except (UnicodeEncodeError, LookupError):
        plainer = text.translate(_LETTERS).replace("  deg ", " deg ").replace(" deg )", " deg)")
        return plainer.encode("ascii", "replace").decode("ascii")


def speak(text: str, stream: TextIO | None = None) -> None:
    """Write a line and hand it on at once, in whatever encoding the stream has."""
    stream = stream or sys.stdout
    stream.write(printable(text, getattr(stream, "encoding", None)) + "\n")
    stream.flush()


def as_json_line(reply: Reply, encoding: str | None) -> str:
    wide = "utf" in (encoding or "").lower()
    return json.dumps(reply.as_json(), ensure_ascii=not wide)


def begin(clock: Callable[[], datetime] = datetime.now) -> Conversation:
    """A new conversation over the shipped knowledge and the shop's own."""
    from assistant.conversation.talk import Conversation
    from assistant.rules.ready import make_ready

    return Conversation(make_ready(), now=clock)


def warn_of_problems(conversation: Conversation) -> None:
    """Say on standard error what of the shop's own files was left out, and why."""
    for problem in conversation.knowledge.problems:
        speak(f"left out: {problem}", sys.stderr)


def ask(text: str, as_json: bool) -> int:
    """Answer one line; the words of the command line are the line."""
    conversation = begin()
    warn_of_problems(conversation)
    reply = conversation.turn(text)
    show(reply, as_json)
    return {ASKS: NOT_ANSWERED, OUTSIDE: NOT_ANSWERED, ERROR: FAILED}.get(reply.outcome, OK)


def show(reply: Reply, as_json: bool) -> None:
    speak(as_json_line(reply, sys.stdout.encoding) if as_json else lay_out(reply)[0])


def typed_lines() -> Sequence[str] | object:
    """The lines of standard input, one at a time, whatever bytes they hold."""
    raw = getattr(sys.stdin, "buffer", None)
    if raw is None:
        yield from (line.rstrip("\r\n") for line in sys.stdin)
        return
    # readline and not iteration: a program on the other end waits for its reply line by line.
    while line := raw.readline():
        yield line.decode("utf-8", "replace").rstrip("\r\n")


def converse(as_json: bool) -> int:
    """One line a turn from standard input, one reply a turn; `---` forgets the context."""
    if sys.stdin is None:
        speak("bayhand: standard input is closed; there is nothing to answer.", sys.stderr)
        return BAD_USE
    conversation = begin()
    warn_of_problems(conversation)
    failed = False
    for line in typed_lines():
        if line.strip() == "---":
            conversation.forget()
            continue
        reply = conversation.turn(line)
        failed |= reply.outcome == ERROR
        show(reply, as_json)
        if not as_json:
            speak("")
    return FAILED if failed else OK


def replay(files: Sequence[str], rewrite: bool) -> int:
    """Type transcripts again; show where the program now says something else."""
    from assistant.conversation.transcript import (
        BadTranscript,
        differences,
        read_steps,
        retyped,
        written,
    )

    worst = OK
    for name in files:
        path = Path(name)
        try:
            steps = read_steps(path.read_text(encoding="utf-8"))
            pairs = list(retyped(steps, begin))
        except (OSError, UnicodeDecodeError) as error:
            speak(f"{name}: cannot be read ({error}); give a UTF-8 text file.", sys.stderr)
            worst = FAILED
            continue
        except BadTranscript as error:
            speak(f"{name}, {error}", sys.stderr)
            worst = FAILED
            continue
        turns = sum(step.kind == "typed" for step in steps)
        if rewrite:
            path.write_text(written(pairs), encoding="utf-8")
            speak(f"{name}: {turns} turns written as they are said now")
            continue
        rows = differences(name, pairs)
        for row in rows:
            speak(row)
        speak(f"{name}: {turns} turns, " + ("as in the file" if not rows else "DIFFERS"))
        worst = FAILED if rows else worst
    return worst


def check(folder: str | None) -> int:
    """Validate the knowledge and prove that every rule is found by the questions it lists."""
    from assistant.rules.check import check_all

    if folder is not None and not Path(folder).is_dir():
        speak(f"bayhand check: {folder} is no folder; name the one that holds rules/.", sys.stderr)
        return BAD_USE
    report = check_all(None if folder is None else Path(folder))
    for problem in report.problems:
        speak(str(problem))
    speak(report.summary)
    return FAILED if report.problems else OK


def can_draw() -> bool:
    """Whether a full screen can be drawn: a terminal at both ends that knows more than rows."""
    return (
        sys.__stdin__ is not None
        and sys.__stdin__.isatty()
        and sys.__stderr__ is not None
        and sys.__stderr__.isatty()
        and os.environ.get("TERM", "") != "dumb"
        and "utf" in (sys.__stderr__.encoding or "").lower()
    )


def open_screen(mouse: bool) -> int:
    if not can_draw():
        return converse(as_json=False)
    from assistant.screen.app import open_bay

    return open_bay(begin, mouse=mouse)


def arguments() -> argparse.ArgumentParser:
    from assistant import __version__

    parser = argparse.ArgumentParser(
        prog="bayhand",
        description="The hand in the bay: ask in your own words; get the rule, the number worked "
        "out, the caution, and where it comes from.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"bayhand {__version__}")
    parser.add_argument(
        "--no-mouse", action="store_true",
        help="leave the mouse to the terminal (default: the screen takes it)",
    )
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")

    one = commands.add_parser("ask", help="answer one line", description="Answer one line.")
    one.add_argument("text", nargs="+", metavar="TEXT", help="the line, in your own words")
    one.add_argument("--json", action="store_true", help="one JSON object (default: plain text)")

    many = commands.add_parser(
        "converse", help="a conversation through standard input",
        description="Read one line a turn from standard input and write one reply a turn, in the "
        "same order. A line --- forgets the context and gets no reply.",
    )
    many.add_argument("--json", action="store_true", help="one JSON object a line (default: text)")

    again = commands.add_parser(
        "replay", help="type transcripts again and show what differs",
        description="Type the lines of transcripts again and show where the replies differ.",
    )
    again.add_argument("files", nargs="+", metavar="FILE", help="a transcript")
    again.add_argument(
        "--rewrite", action="store_true",
        help="write the replies of today into the files (default: only compare)",
    )

    prove = commands.add_parser(
        "check", help="prove the knowledge",
        description="Validate the shipped knowledge and the shop's own, and run every question "
        "that a rule lists. Exit status 1 if anything is found.",
    )
    prove.add_argument(
        "folder", nargs="?", metavar="DIR",
        help="a folder of house rules and film sheets (default: the shop's own)",
    )
    return parser


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line; the exit status is returned, never raised, except for bad use."""
    given = arguments().parse_args(argv)
    if given.command == "ask":
        return ask(" ".join(given.text), given.json)
    if given.command == "converse":
        return converse(given.json)
    if given.command == "replay":
        return replay(given.files, given.rewrite)
    if given.command == "check":
        return check(given.folder)
    return open_screen(mouse=not given.no_mouse)


def run() -> int:
    """The installed command: `main` with the manners of a program in a pipe."""
    try:
        status = main()
        sys.stdout.flush()
        return status
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # Whoever read us has gone (`bayhand ... | head -1`). Hand the rest to nobody, so that the
        # interpreter does not complain while it closes the stream.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return OK


if __name__ == "__main__":
    sys.exit(run())
