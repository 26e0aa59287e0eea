"""Keeping: what a talk writes for the shop, the way back, and what to say when it cannot be.

Owns the steps that `undo` takes back and the wording of a failed write. What stands in the files is
rules/decisions.py's and sheets.py's, how they are put in place store/written.py's.
"""

from __future__ import annotations

import errno
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assistant.reply import ASKS, DONE, ERROR, Reply
from assistant.rules.afresh import after_decision, index_marks, keep_decisions
from assistant.rules.ready import Ready
from assistant.store.paths import home
from assistant.store.written import BEFORE, Moved, Written

_REMEDIES = {
    errno.EACCES: "Give yourself leave to write there, or name another folder in BAYHAND_HOME.",
    errno.ENOSPC: "Make room on the disk, then say it again.",
    errno.ENAMETOOLONG: "Name a folder with a shorter path in BAYHAND_HOME.",
    errno.ENOTDIR: "A file stands where a folder should be: move it, or name another folder in "
                   "BAYHAND_HOME.",
}
_REMEDIES |= dict.fromkeys((errno.EPERM, errno.EROFS), _REMEDIES[errno.EACCES])
_REMEDIES |= dict.fromkeys((errno.EDQUOT, errno.EFBIG), _REMEDIES[errno.ENOSPC])
_REMEDIES[errno.EEXIST] = _REMEDIES[errno.EISDIR] = _REMEDIES[errno.ENOTDIR]
_TRY_AGAIN = "See what is wrong with the folder, then say it again."


@dataclass(frozen=True, slots=True)
class Step:
    """A write that can be taken back.

    what    what was written, in words
    before  the knowledge before it
    """

    what: str
    written: Written
    before: Ready


class Keeper:
    """Writes for one talk. The folder is the one that BAYHAND_HOME names."""

    def __init__(self, talk: Any) -> None:
        self._talk = talk
        self.steps: list[Step] = []

    @property
    def home(self) -> Path:
        return home()

    def put(
        self, what: str, write: Callable[[], Written], after: Callable[[Ready], Ready]
    ) -> Reply | None:
        """Write, then answer from what was written; an `error` reply when it could not be.

        what   in words: "the house rule"
        after  the knowledge with what was written
        """
        before = self._talk.ready
        try:
            marks = index_marks(self.home)
            written = write()
        except Moved:
            return Reply(ERROR, f"{_first_up(what)} was not written: its file was changed by "
                         "another meanwhile. Say it again.")
        except OSError as error:
            return failed(what, error, self.home)
        now = after(before)
        told = [problem for problem in now.knowledge.problems
                if problem not in before.knowledge.problems]
        self.steps.append(Step(what, written, before))
        self._talk.take_up(now)
        if now.lexicon is before.lexicon:
            keep_decisions(self.home, marks, before.knowledge, now.knowledge)
        if told:
            return Reply(ERROR, f"{_first_up(what)} was written and is not all taken: "
                         f"{' '.join(map(str, told[:3]))} `undo` takes it back.")
        return None

    def take_back(self) -> Reply:
        """Undo the last write."""
        if not self.steps:
            return Reply(
                ASKS, "Nothing has been written in this talk. What the last write replaced lies "
                f"beside each file, its name ending in {BEFORE}.", intent="undo",
            )
        step = self.steps[-1]
        try:
            marks = index_marks(self.home)
            step.written.take_back()
        except Moved:
            self.steps.pop()
            return Reply(
                ERROR, f"Not undone: {step.written.path.name} has been changed since. What stood "
                f"before {step.what} is in {step.written.path.name}{BEFORE}.", intent="undo",
            )
        except OSError as error:
            return failed("what stood before", error, self.home).but(intent="undo")
        self.steps.pop()
        before = self._talk.ready
        now = step.before
        if now.lexicon is before.lexicon:
            now = after_decision(before, self.home)
            keep_decisions(self.home, marks, before.knowledge, now.knowledge)
        self._talk.take_up(now)
        return Reply(DONE, f"Undone: {step.what}. What stood before holds again.", intent="undo")


def failed(what: str, error: OSError, home_folder: Path) -> Reply:
    """What was not written, where, why, and what to do."""
    place = error.filename if isinstance(error.filename, str) else str(home_folder)
    why = (error.strerror or "refused").lower()
    remedy = _REMEDIES.get(error.errno or 0, _TRY_AGAIN)
    return Reply(ERROR, f"{_first_up(what)} was not written, in {place}: {why}. {remedy}")


def _first_up(text: str) -> str:
    return text[:1].upper() + text[1:]
