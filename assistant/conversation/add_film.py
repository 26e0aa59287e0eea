"""Add a film: a film maker's bulletin typed in, one question at a time, shown back, then saved.

Owns the order of the talk: skip, back, change, done, yes or no. What is asked and what is nonsense
is sheet_questions.py's, the answers so far sheet_answers.py's, the file rules/sheets.py's, the
writing keeping.py's.
"""

from __future__ import annotations

import os
import re
from typing import Any

from assistant.conversation.agreeing import NEEDS, agreed
from assistant.conversation.keeping import Keeper
from assistant.conversation.sheet_answers import Answers, short
from assistant.conversation.sheet_questions import (
    BY_KEY,
    QUESTIONS,
    Nonsense,
    Question,
    name_of,
)
from assistant.hearing.heard import Heard
from assistant.quantity.write import System
from assistant.reply import ASKS, DONE, Reply
from assistant.rules.afresh import after_sheet
from assistant.rules.sheets import film_id_for, sheet_data, sheet_file, write_sheet
from assistant.store.written import Written

INTENT = "add-film"
HEADING = "New film sheet"
SKIPPING = "`skip` what is not in the bulletin: it stays empty and the shipped rule speaks."
_CONFIRM, _REPLACE = "confirm", "replace"
_KEYS = [question.key for question in QUESTIONS]

_SKIP = frozenset((
    "skip", "skip it", "skip that", "skip this", "skip this one", "next", "none", "no", "nothing",
    "pass", "not given", "not said", "not there", "not in it", "not in the bulletin", "n/a", "na",
    "don't know", "dont know", "i don't know", "unknown", "leave it", "leave it empty", "empty",
    "blank", "it doesn't say", "it doesnt say", "doesn't say", "-",
))
_DONE = frozenset((
    "done", "that's all", "thats all", "that is all", "finish", "finished", "skip the rest",
    "skip all", "that's it", "thats it", "no more", "end", "ready", "save", "save it",
))
_BACK = frozenset((
    "back", "go back", "one back", "previous", "the one before", "last one again", "undo",
))
_CHANGE = re.compile(
    r"(?:no[, ]+)?(?:change|correct|fix|again|redo|edit|amend)?\s*(?:the )?(?P<what>[a-z -]+?)"
    r"(?: again| is wrong| wrong| please)?"
)


class AddFilm:
    """A film sheet on the way."""

    waits = True  # a question about the trade is answered in between; the sheet stays open
    dropped = ""

    def __init__(self, talk: Any, keeper: Keeper, name: str = "") -> None:
        self._talk = talk
        self._keeper = keeper
        self._answers = Answers(talk)
        self._at = _KEYS[0]
        self._returning = False  # one answer is being changed: then back to the confirmation
        self._assumed = ""
        self._given = name

    def begin(self) -> tuple[Reply, bool]:
        """The first question, or the second when the line that began it gave the name."""
        if self._given:
            return self._name(self._given), True
        return self.show(self._talk.spoken_system), True

    def take(self, heard: Heard) -> tuple[Reply, bool] | None:
        """The reply to a line, and whether the sheet stays open; None when it asks something else.
        """
        line = " ".join(heard.tidy.split()).strip(" .!")
        if line in _BACK:
            return self._back(), True
        if self._at == _REPLACE:
            return self._replacing(heard), True
        if self._at == _CONFIRM:
            return self._confirmed(heard, line)
        if self._asks_something_else(heard):
            return None
        if self._at == "name":
            return self._name(heard.text), True
        self._assumed = ""
        if line in _SKIP or line in _DONE:
            return self._skip(to_the_end=line in _DONE), True
        return self._answer(BY_KEY[self._at], heard)

    # -- what stands asked -----------------------------------------------------------------------

    def show(self, system: System) -> Reply:
        """What stands asked."""
        if self._at == _CONFIRM:
            over = " It takes the place of the sheet that is there." if self._film_id()[1] else ""
            return self._ask(
                f"The film sheet of {self._name_told()}.{over} Write it? yes / no, or say what to "
                "change.", needs=NEEDS, working=self._answers.told(system),
            )
        if self._at == _REPLACE:
            own = os.path.lexists(sheet_file(self._keeper.home, self._film_id()[0]))
            kept = "Its old file is kept beside it." if own else "The shipped one then is silent."
            return self._ask(
                f"There is a sheet of that name: {self._name_told()}. Replace it? yes / no, or say "
                f"another name. {kept}", needs=NEEDS,
            )
        question = BY_KEY[self._at]
        if question.key == "life" and self._answers.has("life"):
            return self._ask(
                f"Noted: {self._answers.told_life(system)}. Another zone, or `done`?",
                needs=("life",),
            )
        choices: tuple[str, ...] = ()
        if question.key == "family":
            choices = tuple(each.name for each in self._talk.knowledge.families.values())
        example = "" if choices else f" For example: {question.example}."
        skipping = f" {SKIPPING}" if question.key == "family" else ""
        return self._ask(
            f"{_KEYS.index(question.key) + 1} of {len(_KEYS)}. {question.prompt}{example}"
            f"{skipping}", needs=(question.key,), choices=choices,
        )

    def _ask(self, words: str, **more: Any) -> Reply:
        assumed = (self._assumed,) if self._assumed else ()
        return Reply(ASKS, words, intent=INTENT, heading=HEADING, assumed=assumed, **more)

    def _again(self, nonsense: Nonsense) -> Reply:
        """A nonsense answer is questioned by name, and the question stands."""
        stands = self.show(self._talk.spoken_system)
        words = nonsense.words.rstrip()
        words = words if words[-1:] in ".?!" else f"{words}."
        return stands.but(answer=f"{words} {stands.answer}", assumed=())

    # -- answers ---------------------------------------------------------------------------------

    def _asks_something_else(self, heard: Heard) -> bool:
        """Whether the line is a question to answer in between."""
        if not _is_question(heard):
            return False
        verdict = self._talk.router.route(heard)
        return verdict.kind == "sure" and (
            verdict.candidates[0].intent_id in self._talk.knowledge.rules
        )

    def _name(self, text: str) -> Reply:
        name = name_of(text, self._talk.lexicon)
        if isinstance(name, Nonsense):
            self._at = "name"
            return self._again(name)
        self._answers.name = name
        if self._film_id()[1]:
            self._at = _REPLACE
            return self.show(self._talk.spoken_system)
        return self._next("name")

    def _replacing(self, heard: Heard) -> Reply:
        consent = agreed(heard.text)
        if consent or heard.tidy.startswith("replace"):
            return self._next("name")
        self._at = "name"
        if consent is False:
            return self.show(self._talk.spoken_system)
        return self._name(heard.text)

    def _answer(self, question: Question, heard: Heard) -> tuple[Reply, bool] | None:
        read = self._answers.read(question, heard)
        if isinstance(read, Nonsense):
            return None if _is_question(heard) else (self._again(read), True)
        self._assumed = read
        if question.key == "life":  # zone by zone, until `done`
            return self.show(self._talk.spoken_system), True
        return self._next(), True

    def _skip(self, to_the_end: bool) -> Reply:
        if self._at != "life":
            self._answers.leave_out(self._at)
        wrong = self._answers.against_others(self._at, None)
        if wrong is not None:
            return self._again(wrong)
        return self._to_confirmation() if to_the_end else self._next()

    # -- the order -------------------------------------------------------------------------------

    def _next(self, after: str | None = None) -> Reply:
        place = _KEYS.index(after or self._at) + 1
        if self._returning or place == len(_KEYS):
            return self._to_confirmation()
        self._at = _KEYS[place]
        return self.show(self._talk.spoken_system)

    def _back(self) -> Reply:
        if self._at == _CONFIRM:
            self._at = _KEYS[-1]
        elif self._at == _REPLACE:
            self._at = _KEYS[0]
        else:
            self._at = _KEYS[max(0, _KEYS.index(self._at) - 1)]
        self._returning, self._assumed = False, ""
        return self.show(self._talk.spoken_system)

    def _to_confirmation(self) -> Reply:
        """The whole sheet, unless what was said of stretch cannot be beside what was not."""
        wrong = self._answers.against_others("never", self._answers.bulletin().numbers.get("never"))
        if wrong is not None:
            self._at = "never"
            return self._again(wrong)
        self._at, self._returning = _CONFIRM, False
        return self.show(self._talk.spoken_system)

    # -- the confirmation ------------------------------------------------------------------------

    def _confirmed(self, heard: Heard, line: str) -> tuple[Reply, bool] | None:
        self._assumed = ""
        consent = agreed(heard.text)
        if consent:
            return self._write()
        if consent is False:
            return Reply(DONE, "The film sheet is dropped; nothing is written.", intent=INTENT,
                         heading=HEADING), False
        wanted = _CHANGE.fullmatch(line)
        what = wanted["what"].strip() if wanted is not None else ""
        for question in QUESTIONS:
            if what and what in (*question.names, question.name):
                if question.key == "life":
                    self._answers.leave_out("life")
                self._at, self._returning = question.key, True
                return self.show(self._talk.spoken_system), True
            if question.shape and heard.quantities and any(
                line.startswith(f"{name} ") for name in question.names
            ):
                self._at, self._returning = question.key, True
                return self._answer(question, heard)
        if self._asks_something_else(heard):
            return None
        return self._again(Nonsense("I did not catch that.")), True

    def _write(self) -> tuple[Reply, bool]:
        keeper = self._keeper
        data = sheet_data(self._talk.knowledge, self._answers.bulletin())
        if isinstance(data, str):
            return self._again(Nonsense(data)), True
        film_id, _ = self._film_id()
        today = self._talk.now().date().isoformat()
        aside: list[str] = []

        def write() -> Written:
            written, moved = write_sheet(keeper.home, film_id, data, today)
            if moved is not None:
                aside.append(f"the old sheet was damaged and is kept as {moved.name}")
            return written

        path = sheet_file(keeper.home, film_id)
        wrong = keeper.put(f"the film sheet of {self._name_told()}", write,
                           lambda ready: after_sheet(ready, path))
        if wrong is not None:
            return wrong.but(intent=INTENT, heading=HEADING), True
        return Reply(
            DONE, f"Written: {path.parent.name}/{path.name}. `undo` takes it back. Ask: how hot "
            f"for an overlap on {self._name_told()}?", intent=INTENT, heading=HEADING,
            assumed=tuple(aside), layer="film sheet",
        ), False

    def _film_id(self) -> tuple[str, bool]:
        """The id of the film, and whether a sheet of that name is there already."""
        return film_id_for(self._talk.knowledge, self._keeper.home, self._answers.name)

    def _name_told(self) -> str:
        return short(self._answers.name)


def _is_question(heard: Heard) -> bool:
    return bool(heard.wishes) or heard.yes_no or heard.text.rstrip().endswith("?")
