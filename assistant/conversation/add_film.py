"""Add a film: a film maker's bulletin typed in, one question at a time, shown back, then saved.

Owns the order of the talk: skip, back, change, done, yes or no. What is asked and what is nonsense
is sheet_questions.py's, the answers so far sheet_answers.py's, the file rules/sheets.py's, the
writing keeping.py's.
"""

from __future__ import annotations

import os
from typing import Any

from assistant.conversation.agreeing import NEEDS, Ground, agreed, ground_of
from assistant.conversation.keeping import Keeper
from assistant.conversation.picking import picked
from assistant.conversation.sheet_answers import Answers, short
from assistant.conversation.sheet_figures import Unclear, keys_chosen, keys_of, name_and_rest
from assistant.conversation.sheet_questions import (
    BY_KEY,
    QUESTIONS,
    Nonsense,
    Question,
    name_of,
)
from assistant.conversation.sheet_words import (
    BACK,
    CHANGE,
    ENOUGH,
    SKIP,
    bare,
    is_no_answer,
    is_question,
)
from assistant.hearing.hear import hear
from assistant.hearing.heard import Heard
from assistant.quantity.write import System
from assistant.reply import ASKS, DONE, Reply
from assistant.rules.afresh import after_sheet
from assistant.rules.sheets import film_id_for, sheet_data, sheet_file, write_sheet
from assistant.store.written import Written

INTENT = "add-film"
HEADING = "New film sheet"
SKIPPING = "`skip` what is not in the bulletin: it stays empty and the shipped rule speaks."
_CONFIRM, _REPLACE, _WHICH = "confirm", "replace", "which"
_KEYS = [question.key for question in QUESTIONS]


class AddFilm:
    """A film sheet on the way."""

    waits = True  # a question about the trade is answered in between; the sheet stays open
    def __init__(self, talk: Any, keeper: Keeper, name: str = "") -> None:
        self._talk = talk
        self._keeper = keeper
        self._answers = Answers(talk)
        self._at = _KEYS[0]
        self._returning = False  # one answer is being changed: then back to the confirmation
        self._assumed = ""
        self._given = name
        self._ground = Ground()
        self._unclear: list[Unclear] = []  # figures of which it must be asked what they are
        self._held_at = _KEYS[0]           # where the talk goes on after that
        self._ahead: set[str] = set()      # answered beside the name, before their turn

    @property
    def dropped(self) -> str:
        """What stays asked after a line about something else; what a yes would write is shown
        again first."""
        if self._at in (_CONFIRM, _REPLACE):
            return f"The film sheet of {self._name_told()} is still open: `yes` shows it again."
        return self.show(self._talk.spoken_system).answer

    def begin(self) -> tuple[Reply, bool]:
        """The first question, or the second when the line that began it gave the name."""
        if self._given:
            return self._named_with_figures(self._given), True
        return self.show(self._talk.spoken_system), True

    def take(self, heard: Heard) -> tuple[Reply, bool] | None:
        """The reply to a line, and whether the sheet stays open; None when it asks something else.
        """
        line = bare(heard)
        if line in BACK:
            return self._back(), True
        if is_no_answer(self._talk, heard, self._at in ("name", "family", _REPLACE)):
            return None
        if self._at == _WHICH:
            return self._told_which(heard, line)
        if self._at == _REPLACE:
            return self._replacing(heard), True
        if self._at == _CONFIRM:
            return self._confirmed(heard, line)
        if self._asks_something_else(heard):
            return None
        if self._at == "name":
            return self._named_with_figures(heard.text), True
        self._assumed = ""
        if line in SKIP or line in ENOUGH:
            return self._skip(to_the_end=line in ENOUGH), True
        return self._answer(BY_KEY[self._at], heard)

    # -- what stands asked -----------------------------------------------------------------------

    def show(self, system: System) -> Reply:
        """What stands asked."""
        if self._at == _CONFIRM:
            over = " It takes the place of the sheet that is there." if self._film_id()[1] else ""
            return self._ask(
                f"The film sheet of {self._name_told()}.{over} Write it? yes / no, or say what to "
                "change.", needs=NEEDS, working=(*self._answers.told(system), *self._told_ground()),
            )
        if self._at == _REPLACE:
            own = os.path.lexists(sheet_file(self._keeper.home, self._film_id()[0]))
            kept = "Its old file is kept beside it." if own else "The shipped one then is silent."
            return self._ask(
                f"There is a sheet of that name: {self._name_told()}. Replace it? yes / no, or say "
                f"another name. {kept}", needs=NEEDS,
            )
        if self._at == _WHICH:
            unclear = self._unclear[0]
            return self._ask(unclear.asks, needs=("which figure",),
                             choices=tuple(choice.label for choice in unclear.choices))
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
        if not is_question(heard):
            return False
        verdict = self._talk.router.route(heard)
        return verdict.kind == "sure" and (
            verdict.candidates[0].intent_id in self._talk.knowledge.rules
        )

    # -- figures said out of turn ----------------------------------------------------------------

    def _named_with_figures(self, text: str) -> Reply:
        """The name, and the figures after a comma where they are clear; of the others it is asked
        what they are, or they are said to be left for their turn."""
        name, rest = name_and_rest(text)
        left = []
        for part in rest:
            heard = hear(part, self._talk.lexicon)
            keys = keys_of(heard)
            if isinstance(keys, Unclear):
                self._unclear.append(keys)
                continue
            if keys is None and not heard.quantities:
                keys = ("family",)
            if keys is None or self._take_for(keys, heard):
                left.append(short(part))
            else:
                self._ahead.update(keys)
        self._assumed = f"asked in its turn: {'; '.join(left)}" if left else ""
        return self._name(name)

    def _take_for(self, keys: tuple[str, ...], heard: Heard) -> Nonsense | None:
        """Take a figure as the answer to these questions; why not, when it is none."""
        for key in keys:
            read = self._answers.read(BY_KEY[key], heard)
            if isinstance(read, Nonsense):
                return read
        return None

    def _out_of_turn(self, heard: Heard) -> Reply | None:
        """The reply to a figure whose own words say, or leave open, which question it answers."""
        keys = keys_of(heard)
        if isinstance(keys, Unclear):
            self._unclear.append(keys)
            self._held_at, self._at = self._at, _WHICH
            return self.show(self._talk.spoken_system)
        if keys is None or keys == (self._at,):
            return None
        if self._at != _CONFIRM and not set(keys) & {"free", "never"}:
            return None
        wrong = self._take_for(keys, heard)
        if wrong is not None:
            return self._again(wrong)
        if self._at != _CONFIRM:
            self._ahead.update(keys)
            self._assumed = f"{short(heard.text)} taken as {BY_KEY[keys[0]].name}"
        return self.show(self._talk.spoken_system)

    def _told_which(self, heard: Heard, line: str) -> tuple[Reply, bool]:
        self._assumed = ""
        unclear = self._unclear[0]
        keys: tuple[str, ...] = ()
        if line not in SKIP and line not in ENOUGH:
            choice = picked(unclear.choices, heard)
            if choice is None:
                return self._again(Nonsense("I did not catch which.")), True
            keys = keys_chosen(choice)
        self._unclear.pop(0)
        wrong = self._take_for(keys, unclear.heard)
        self._ahead.update(() if wrong is not None else keys)
        if self._unclear:
            shown = self.show(self._talk.spoken_system)
        elif self._held_at == _CONFIRM:
            shown = self._to_confirmation()
        elif self._held_at in ("name", *keys):
            shown = self._next(self._held_at)
        else:
            self._at = self._held_at
            shown = self.show(self._talk.spoken_system)
        if wrong is not None:
            shown = shown.but(answer=f"Not taken: {wrong.words.rstrip(' .')}. {shown.answer}")
        return shown, True

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
        return self._named_with_figures(heard.text)

    def _answer(self, question: Question, heard: Heard) -> tuple[Reply, bool] | None:
        if question.key in ("free", "never"):
            other = self._out_of_turn(heard)
            if other is not None:
                return other, True
        read = self._answers.read(question, heard)
        if isinstance(read, Nonsense):
            return None if is_question(heard) else (self._again(read), True)
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
        if self._unclear:
            self._held_at, self._at = _KEYS[place - 1], _WHICH
            return self.show(self._talk.spoken_system)
        while _KEYS[place] in self._ahead and self._answers.has(_KEYS[place]):
            place += 1
            if place == len(_KEYS):
                return self._to_confirmation()
        self._at = _KEYS[place]
        return self.show(self._talk.spoken_system)

    def _back(self) -> Reply:
        if self._at == _CONFIRM:
            self._at = _KEYS[-1]
        elif self._at == _REPLACE:
            self._at = _KEYS[0]
        elif self._at == _WHICH:
            self._unclear.clear()
            self._at = self._held_at
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
        said, ground = ground_of(heard.text, answering=True)
        consent = agreed(said)
        if ground and (consent is not None or not said):
            self._ground = self._ground.with_more(ground)
            if consent is None:
                return self.show(self._talk.spoken_system), True
        if consent:
            return self._write()
        if consent is False:
            return Reply(DONE, "The film sheet is dropped; nothing is written.", intent=INTENT,
                         heading=HEADING), False
        wanted = CHANGE.fullmatch(line)
        what = wanted["what"].strip() if wanted is not None else ""
        unclear = keys_of(heard)
        if isinstance(unclear, Unclear) or set(unclear or ()) & {"free", "never"}:
            other = self._out_of_turn(heard)
            if other is not None:
                return other, True
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
        other = self._out_of_turn(heard)
        if other is not None:
            return other, True
        return self._again(Nonsense("I did not catch that.")), True

    def _write(self) -> tuple[Reply, bool]:
        keeper = self._keeper
        data = sheet_data(self._talk.knowledge, self._answers.bulletin())
        if isinstance(data, str):
            return self._again(Nonsense(data)), True
        film_id, _ = self._film_id()
        today = self._talk.now().date().isoformat()
        if self._ground:
            data["film"]["note"] = f"Typed in {'; '.join(self._told_ground())}, {today}"
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
        by = f", by {self._ground.who}" if self._ground.who else ""
        return Reply(
            DONE, f"Written: {path.parent.name}/{path.name}{by}. `undo` takes it back. Ask: "
            f"how hot for an overlap on {self._name_told()}?", intent=INTENT, heading=HEADING,
            assumed=tuple(aside), layer="film sheet",
        ), False

    def _told_ground(self) -> tuple[str, ...]:
        """By whom and why, in a line; none when nobody has said."""
        who, because = self._ground.who, self._ground.because
        parts = (who and f"by {who}", because and f"because {because}")
        told = ", ".join(part for part in parts if part)
        return (told,) if told else ()

    def _film_id(self) -> tuple[str, bool]:
        """The id of the film, and whether a sheet of that name is there already."""
        return film_id_for(self._talk.knowledge, self._keeper.home, self._answers.name)

    def _name_told(self) -> str:
        return short(self._answers.name)
