"""The command line: one line answered, a conversation through pipes, transcripts, the check.

Owns arguments and exit statuses; streams.py reads and writes, what is said comes from
conversation/, the full screen is screen/'s. Exit statuses: 0 answered or done, 3 asked back or
outside, 2 bad use, 1 error, 130 after Ctrl-C.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.reply import ASKS, ERROR, OUTSIDE, Reply, lay_out
from assistant.store.paths import HOME_VARIABLE
from assistant.streams import argument, complain, hush, is_wide, speak, typed_lines

if TYPE_CHECKING:
    from assistant.conversation.talk import Conversation
    from assistant.rules.ready import Ready

OK, FAILED, BAD_USE, NOT_ANSWERED, INTERRUPTED = 0, 1, 2, 3, 130

EXAMPLES = """\
lines to paste:
  bayhand                                        the assistant, full screen
  bayhand ask "how hot for an overlap"           one answer
  bayhand ask "film for a bumper 92 by 31, 3 inch bleed" --json
  printf 'bay is 18C, 60 percent\\npanel 12C\\n' | bayhand converse
  bayhand replay transcripts_demo/*.txt          type the demo again, show what differs
  bayhand check                                  prove the knowledge, the shop's own included

Plain text without a screen, for a screen reader or a Braille line: bayhand converse.

exit status of ask: 0 answered or done, 3 asked back or does not know, 2 bad use, 1 error.
The shop's own rules and film sheets lie in the folder that BAYHAND_HOME names
(by default the user's data folder)."""


def begin(
    clock: Callable[[], datetime] = datetime.now, ready: Ready | None = None
) -> Conversation:
    """A new conversation over the shipped knowledge and the shop's own.

    ready  the knowledge, when it has been set up already
    """
    from assistant.conversation.talk import Conversation
    from assistant.rules.ready import make_ready

    return Conversation(make_ready() if ready is None else ready, now=clock)


def answer(conversation: Conversation, line: str) -> Reply:
    """The reply to a line; a fault in the program becomes an `error` reply, not a traceback.

    Whoever waits for one reply a line gets it, in order. Python's development mode (`-X dev`)
    lets the fault through.
    """
    try:
        return conversation.turn(line)
    except Exception as error:
        if sys.flags.dev_mode:
            raise
        return Reply(
            ERROR, f"That line met a fault in the program ({fault(error)}). Say it in other words."
        )


def fault(error: BaseException) -> str:
    """An exception in half a sentence: its kind and the first row of its message."""
    message = str(error).strip().partition("\n")[0]
    if len(message) > 120:
        message = message[:117] + "..."
    return f"{type(error).__name__}: {message}" if message else type(error).__name__


def warn_of_problems(conversation: Conversation) -> None:
    """Say on standard error what of the shop's own files was left out, and why."""
    for problem in conversation.knowledge.problems:
        complain(f"left out: {problem}")


def show(reply: Reply, as_json: bool) -> None:
    if as_json:
        speak(json.dumps(reply.as_json(), ensure_ascii=not is_wide(sys.stdout)))
    else:
        speak(lay_out(reply)[0])
    if reply.outcome == ERROR:
        complain(f"bayhand: {reply.answer}")


def ask(text: str, as_json: bool) -> int:
    """Answer one line; the words of the command line are the line."""
    conversation = begin()
    warn_of_problems(conversation)
    reply = answer(conversation, text)
    show(reply, as_json)
    return {ASKS: NOT_ANSWERED, OUTSIDE: NOT_ANSWERED, ERROR: FAILED}.get(reply.outcome, OK)


def converse(as_json: bool) -> int:
    """One line a turn from standard input, one reply a turn; `---` forgets the context."""
    if sys.stdin is None:
        complain("bayhand: standard input is closed; there is nothing to answer.")
        return BAD_USE
    conversation = begin()
    warn_of_problems(conversation)
    if sys.stdin.isatty():
        complain("Type a line and press enter; Ctrl-D leaves.")
    failed = False
    for line in typed_lines(sys.stdin):
        if line.strip() == "---":
            conversation.forget()
            continue
        reply = answer(conversation, line)
        failed |= reply.outcome == ERROR
        show(reply, as_json)
        if not as_json:
            speak("")
    return FAILED if failed else OK


@contextmanager
def empty_home() -> Iterator[None]:
    """A shop's folder of its own for a while: a transcript in which a house rule is written must
    not write it into the real one, nor be answered by it."""
    import tempfile

    before = os.environ.get(HOME_VARIABLE)
    with tempfile.TemporaryDirectory(prefix="bayhand-") as folder:
        os.environ[HOME_VARIABLE] = folder
        try:
            yield
        finally:
            if before is None:
                del os.environ[HOME_VARIABLE]
            else:
                os.environ[HOME_VARIABLE] = before


def replay(files: Sequence[str], rewrite: bool) -> int:
    """Type transcripts again; show where the program now says something else."""
    with empty_home():
        return _replay(files, rewrite)


def _replay(files: Sequence[str], rewrite: bool) -> int:
    from assistant.conversation.transcript import (
        BadTranscript,
        differences,
        read_steps,
        retyped,
        written,
    )
    from assistant.rules.ready import make_ready

    ready = make_ready()
    worst = OK
    for name in files:
        path = Path(name)
        try:
            steps = read_steps(path.read_text(encoding="utf-8-sig"))
            pairs = list(retyped(steps, lambda clock: begin(clock, ready)))
            if rewrite:
                path.write_text(written(pairs), encoding="utf-8")
        except UnicodeDecodeError:
            complain(f"{name}: is not UTF-8 text; save it as UTF-8.")
            worst = FAILED
            continue
        except OSError as error:
            complain(f"{name}: {error.strerror or error}.")
            worst = FAILED
            continue
        except BadTranscript as error:
            complain(f"{name}, {error}")
            worst = FAILED
            continue
        turns = sum(step.kind == "typed" for step in steps)
        if rewrite:
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
        complain(f"bayhand check: {folder} is no folder; name one of house rules and film sheets.")
        return BAD_USE
    report = check_all(None if folder is None else Path(folder))
    for problem in report.problems:
        speak(str(problem))
    speak(report.summary)
    return FAILED if report.problems else OK


def calculations() -> int:
    """List the sums, each with a line that works as it stands."""
    from assistant.conversation.acts import sums_listed
    from assistant.rules.ready import make_ready

    for row in sums_listed(make_ready().knowledge):
        speak(row)
    return OK


def can_draw() -> bool:
    """Whether a full screen can be drawn: a terminal at both ends that knows more than rows."""
    return (
        sys.__stdin__ is not None
        and sys.__stdin__.isatty()
        and sys.__stderr__ is not None  # where the screen is drawn; standard output stays free
        and sys.__stderr__.isatty()
        and os.environ.get("TERM", "") != "dumb"
        and is_wide(sys.__stderr__)
    )


def open_screen(mouse: bool) -> int:
    """The full screen, or where none can be drawn the conversation line by line."""
    if not can_draw():
        return converse(as_json=False)
    from assistant.screen.app import open_bay

    return open_bay(begin, answer, mouse=mouse)


def arguments() -> argparse.ArgumentParser:
    """Every command and option, with its help."""
    from assistant import __version__

    parser = argparse.ArgumentParser(
        prog="bayhand",
        description="The hand in the bay: ask in your own words; get the rule, the number worked "
        "out, the caution, and where it comes from.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"bayhand {__version__}")
    parser.add_argument(
        "--no-mouse", action="store_true",
        help="leave the mouse to the terminal (default: the screen takes it)",
    )
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")

    one = commands.add_parser(
        "ask", help="answer one line", description="Answer one line.", allow_abbrev=False
    )
    one.add_argument("text", nargs="+", metavar="TEXT", help="the line, in your own words")
    one.add_argument("--json", action="store_true", help="one JSON object (default: plain text)")

    many = commands.add_parser(
        "converse", help="a conversation through standard input", allow_abbrev=False,
        description="Read one line a turn from standard input and write one reply a turn, in the "
        "same order. A line --- forgets the context and gets no reply.",
    )
    many.add_argument("--json", action="store_true", help="one JSON object a line (default: text)")

    again = commands.add_parser(
        "replay", help="type transcripts again and show what differs", allow_abbrev=False,
        description="Type the lines of transcripts again and show where the replies differ.",
    )
    again.add_argument("files", nargs="+", metavar="FILE", help="a transcript")
    again.add_argument(
        "--rewrite", action="store_true",
        help="write the replies of today into the files (default: only compare)",
    )

    commands.add_parser(
        "calculations", help="list the sums, one example sentence each", allow_abbrev=False,
        description="List the sums, each with an example sentence that works as it stands.",
    )

    prove = commands.add_parser(
        "check", help="prove the knowledge", allow_abbrev=False,
        description="Validate the shipped knowledge and the shop's own, and run every question "
        "that a rule lists. Exit status 1 if anything is found.",
    )
    prove.add_argument(
        "folder", nargs="?", metavar="DIR",
        help="a folder of house rules and film sheets (default: the shop's own)",
    )
    return parser


def words_last(argv: Sequence[str]) -> list[str]:
    """The arguments of `ask` with its options first, so that a line may begin with a hyphen.

    An option is `-h` or begins with `--` and a letter; after `--` everything is the line.
    """
    given = list(argv)
    if given[:1] != ["ask"]:
        return given
    options, words = [], []
    for place, each in enumerate(given[1:], 2):
        if each == "--":
            words += given[place:]
            break
        named = each.startswith("--") and each[2:3].isalpha() and " " not in each
        (options if named or each == "-h" else words).append(each)
    return ["ask", *options, *(["--", *words] if words else [])]


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command line and return the exit status; help and bad use raise SystemExit."""
    given = arguments().parse_args(words_last(sys.argv[1:] if argv is None else argv))
    if given.command == "ask":
        return ask(argument(" ".join(given.text)), given.json)
    if given.command == "converse":
        return converse(given.json)
    if given.command == "replay":
        return replay(given.files, given.rewrite)
    if given.command == "check":
        return check(given.folder)
    if given.command == "calculations":
        return calculations()
    return open_screen(mouse=not given.no_mouse)


def run() -> int:
    """The installed command: `main` with the manners of a program in a pipe."""
    try:
        try:
            status = main()
        except SystemExit as left:  # help, version, bad use
            status = left.code if isinstance(left.code, int) else OK
        if sys.stdout is not None:
            sys.stdout.flush()
        return status
    except KeyboardInterrupt:
        hush(sys.stdout)
        return INTERRUPTED
    except BrokenPipeError:  # whoever read us has gone (`bayhand ... | head -1`)
        hush(sys.stdout)
        return OK
    except Exception as error:
        if sys.flags.dev_mode:
            raise
        hush(sys.stdout)
        told = error.strerror if isinstance(error, OSError) and error.strerror else None
        complain(f"bayhand: {told or f'stopped by a fault in the program ({fault(error)})'}.")
        return FAILED


if __name__ == "__main__":
    sys.exit(run())
