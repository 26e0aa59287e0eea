"""Sheet answers: what has been said of a film so far, and what of it cannot both be.

Owns the answers on the way to a film sheet. Reading one is sheet_questions.py's, asking for the
next add_film.py's, the file rules/sheets.py's.
"""

from __future__ import annotations

from typing import Any

from assistant.conversation.life_table import life_of
from assistant.conversation.sheet_questions import (
    BY_KEY,
    QUESTIONS,
    Nonsense,
    Question,
    family_of,
    number_of,
    told,
)
from assistant.hearing.heard import Heard
from assistant.quantity.kinds import of
from assistant.quantity.write import System
from assistant.rules.sheets import SPEAKS_OVER, Bulletin, LifeSaid, Said, changes_of

_MOST_SHOWN = 60


class Answers:
    """The answers by the key of their question; what was skipped is not in them."""

    def __init__(self, talk: Any) -> None:
        self._talk = talk
        self.name = ""
        self._held: dict[str, Any] = {}

    def has(self, key: str) -> bool:
        return bool(self._held.get(key))

    def leave_out(self, key: str) -> None:
        self._held.pop(key, None)

    def read(self, question: Question, heard: Heard) -> Nonsense | str:
        """Take the answer that a line gives; what was assumed ("" if nothing), or why it is none.

        A line of a life table comes beside those that are there.
        """
        talk = self._talk
        system = talk.spoken_system
        if question.key == "family":
            family = family_of(heard, talk.knowledge.families, talk.knowledge.family_named)
            if family is None:
                return Nonsense(f"\"{short(heard.text)}\" is no family that I know.")
            self._held["family"] = family
            return ""
        if question.key == "life":
            lines = life_of(heard, system)
            if isinstance(lines, Nonsense):
                return lines
            held = {(line.zone, line.surface): line for line in self._held.get("life", ())}
            held.update(((line.zone, line.surface), line) for line in lines)
            self._held["life"] = tuple(held.values())
            return ""
        said = number_of(question, heard, system, self._holds_now(question.key))
        if isinstance(said, Nonsense):
            return said
        wrong = self.against_others(question.key, said[0])
        if wrong is not None:
            return wrong
        self._held[question.key], assumed = said
        return assumed

    def against_others(self, key: str, said: Said | None) -> Nonsense | None:
        """Answers that cannot both be, with each other or with what the layers below say.

        said  None: the question is skipped
        """
        if said is not None and key in SPEAKS_OVER:
            changes = changes_of(self._talk.knowledge, key, said)
            if isinstance(changes, str):
                return Nonsense(f"{BY_KEY[key].name}: {changes}")
        if key not in ("free", "never"):
            return None
        free, never = (
            said if key == each else self._held.get(each) for each in ("free", "never")
        )
        if key == "never":  # the last of the two: what is left empty holds from below
            free = free or self._holds_now("free")
            never = never or self._holds_now("never")
        if free and never and of(free.low, free.unit) >= of(never.low, never.unit):
            system = self._talk.spoken_system
            return Nonsense(
                f"Stretch of {told(free, system)} without post-heat and never over "
                f"{told(never, system)}: those cannot both be."
            )
        return None

    def _holds_now(self, key: str) -> Said | None:
        """What the layers below say."""
        rule_id, figure = SPEAKS_OVER.get(key, (("", ""),))[0]
        rule = self._talk.knowledge.rules.get(rule_id)
        if rule is None or figure not in rule.figures:
            return None
        now = self._talk.knowledge.resolve(rule_id).figures[figure]
        low, high = now.quantities()
        return Said(low.to(now.unit), high.to(now.unit), now.unit)

    def told_life(self, system: System) -> str:
        """The life table so far."""
        return "; ".join(_life_told(line, system) for line in self._held.get("life", ()))

    def told(self, system: System) -> tuple[str, ...]:
        """The whole sheet in lines; what is empty last."""
        lines, empty = [], []
        for question in QUESTIONS[1:]:
            answer = self._held.get(question.key)
            if not answer:
                empty.append(question.name)
            elif question.key == "life":
                lines.append(f"{question.name}: {self.told_life(system)}")
            else:
                shown = told(answer, system) if isinstance(answer, Said) else answer
                lines.append(f"{question.name}: {shown}")
        if empty:
            lines.append(f"left empty, so the rules below speak: {'; '.join(empty)}")
        return tuple(lines)

    def bulletin(self) -> Bulletin:
        held = self._held
        return Bulletin(
            self.name, held.get("family"), held.get("thickness"),
            {key: held[key] for key in SPEAKS_OVER if key in held}, held.get("life", ()),
        )


def short(text: str) -> str:
    """A text of anybody's as a reply repeats it."""
    text = " ".join(text.split())
    return text if len(text) <= _MOST_SHOWN else f"{text[:_MOST_SHOWN - 3].rstrip()}..."


def _life_told(line: LifeSaid, system: System) -> str:
    return f"{short(line.zone)}, {line.surface} {told(line.life, system)}"
