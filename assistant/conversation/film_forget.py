"""Film forgotten: a film sheet of the shop's taken away again, once it is agreed.

Owns which sheets may go and the asking. The sheet's file is rules/sheets.py's, the writing and the
way back keeping.py's.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import Any

from assistant.conversation.agreeing import NEEDS, agreed
from assistant.conversation.keeping import Keeper
from assistant.conversation.sheet_answers import short
from assistant.hearing.hear import hear
from assistant.hearing.heard import Heard
from assistant.quantity.write import System
from assistant.reply import ASKS, DONE, Reply
from assistant.rules.afresh import after_sheet
from assistant.rules.ready import Ready, make_ready
from assistant.rules.sheets import sheet_file
from assistant.store.paths import shipped_folder
from assistant.store.written import Written, standing, write

INTENT = "forget-film"
HEADING = "Film sheet"


def sheet_called(talk: Any, name: str) -> str | None:
    """The id of the film sheet that a name means: its very name first, then as it is heard."""
    films = talk.knowledge.films
    wanted = " ".join(name.split()).casefold()
    for film_id, sheet in films.items():
        if wanted in (" ".join(sheet.film.name.split()).casefold(), film_id):
            return film_id
    meant = [film_id for film_id in hear(name, talk.lexicon).films if film_id in films]
    return meant[0] if len(meant) == 1 else None


@dataclass
class ForgetFilm:
    """A film sheet to be taken away, once it is agreed."""

    talk: Any
    keeper: Keeper
    film_id: str
    waits = False
    dropped = "the film sheet stays"

    def begin(self) -> tuple[Reply, bool]:
        """The first reply, and whether it waits for an answer."""
        if os.path.lexists(sheet_file(self.keeper.home, self.film_id)):
            return self.show(self.talk.spoken_system), True
        sheet = self.talk.knowledge.films[self.film_id]
        if self._is_shipped():
            words = f"The sheet of {self._name()} comes with the program and stays. A sheet of " \
                    "your own of that name takes its place: `new film sheet`."
        else:
            words = f"That one stands in {sheet.file}: take it out there."
        return self._reply(ASKS, words), False

    def take(self, heard: Heard) -> tuple[Reply, bool] | None:
        """The reply to a line; None when the line is about something else."""
        consent = agreed(heard.text)
        if consent is None:
            return None
        if not consent:
            return self._reply(DONE, "It stays."), False
        return self._forget()

    def show(self, system: System) -> Reply:
        """What stands asked."""
        then = "The shipped sheet of that name then speaks again." if self._is_shipped() else \
            "Its film is then answered by the house rules and the shipped rules."
        return self._reply(
            ASKS, f"Drop the film sheet of {self._name()}? yes / no. {then}", needs=NEEDS,
        )

    def _forget(self) -> tuple[Reply, bool]:
        path, name = sheet_file(self.keeper.home, self.film_id), self._name()

        def take_away() -> Written:
            return write(path, None, standing(path))

        def after(ready: Ready) -> Ready:
            # Only a new reading of all the files brings back the sheet that lay under this one.
            return make_ready() if self._is_shipped() else after_sheet(ready, path)

        wrong = self.keeper.put(f"the dropping of the film sheet of {name}", take_away, after)
        if wrong is not None:
            return wrong.but(intent=INTENT, heading=HEADING), True
        return self._reply(
            DONE, f"Dropped: the film sheet of {name}. `undo` brings it back.",
        ), False

    def _is_shipped(self) -> bool:
        return (shipped_folder() / "films" / f"sheet-{self.film_id}.toml").exists()

    def _name(self) -> str:
        return short(self.talk.knowledge.films[self.film_id].film.name)

    @staticmethod
    def _reply(outcome: str, words: str, **more: Any) -> Reply:
        return Reply(outcome, words, intent=INTENT, heading=HEADING, **more)


def no_such_sheet(talk: Any, name: str) -> Reply:
    """There is no sheet of that name."""
    own = "; ".join(short(sheet.film.name) for sheet in talk.knowledge.films.values())
    return Reply(ASKS, f"There is no film sheet of {short(name)}. There are: {own or 'none'}.",
                 intent=INTENT, heading=HEADING)
