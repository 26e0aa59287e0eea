"""Authoring: the lines by which a shop writes its own rules and films, and asks how it was heard.

Owns which lines these are and what stands open between them. The decisions are house_rule.py's, the
films add_film.py's, the writing keeping.py's, the telling of what was heard why_that.py's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol

from assistant.conversation import own_lines
from assistant.conversation.acts import ACTS, topics
from assistant.hearing.hear import hear
from assistant.hearing.heard import Heard
from assistant.quantity.write import System
from assistant.reply import ASKS, Reply

if TYPE_CHECKING:
    from assistant.conversation.keeping import Keeper

# Words about the talk that are meant as such whatever stands open.
_BESIDE = ("more", "repeat", "help", "why")
# Those that are answered beside a film sheet, which then asks again.
_ANSWERED = ("greeting", "help", "topics", "calculations")

_BEGINNINGS = (
    own_lines.DECIDE, own_lines.FORGET, own_lines.FORGET_SUBJECT, own_lines.ADD_FILM,
    own_lines.FORGET_FILM,
)


class Dialogue(Protocol):
    """Something asked over several lines.

    waits    whether it stays open when a line is about something else
    dropped  what is said of it then: that it fell, or what stays asked
    """

    waits: bool

    @property
    def dropped(self) -> str: ...

    def begin(self) -> tuple[Reply, bool]: ...

    def take(self, heard: Heard) -> tuple[Reply, bool] | None: ...

    def show(self, system: System) -> Reply: ...


class Authoring:
    """The shop's own writing in one talk."""

    def __init__(self, talk: Any) -> None:
        self._talk = talk
        self.open: Dialogue | None = None
        self._asked: Reply | None = None  # the last reply that put the open question
        self._keeper: Keeper | None = None
        self._last_rule: str | None = None

    @property
    def keeper(self) -> Keeper:
        """Made when something is written: an answer need not pay for what it takes."""
        if self._keeper is None:
            from assistant.conversation.keeping import Keeper

            self._keeper = Keeper(self._talk)
        return self._keeper

    def turn(self, heard: Heard) -> Reply | None:
        """The reply to a line that is an answer here or begins something here; else None.

        A yes writes only while the last reply was the question itself.
        """
        act = self._talk.act_of(heard)
        asked, self._asked = self._asked, None
        stands = asked is not None and self._talk.memory.last is asked
        reply = self._turn(heard, act, stands)
        if reply is None and act == "repeat" and stands:
            self._asked = asked  # the very question is said again
        return reply

    def _turn(self, heard: Heard, act: str | None, stands: bool) -> Reply | None:
        if act == "start-over":
            self.open = None
            return None
        if self.open is not None:
            answered = self._act_answered(heard, act) if self.open.waits else None
            if answered is not None:
                return self.let_fall(answered)
            # A line of signs alone calls for help elsewhere; here it is an answer, if a poor one.
            if act in _BESIDE and any(sign.isalnum() for sign in heard.text):
                return None
            beside = self._beside(heard)
            if beside is not None:
                return beside
            if not stands and self._consents(heard):
                return self._settled(self.open.show(self._talk.spoken_system), True)
            taken = self.open.take(heard)
            if taken is not None:
                return self._settled(*taken)
        return self._begun(heard)

    def let_fall(self, reply: Reply) -> Reply:
        """The reply to a line that was about something else: a proposal that stood open falls, for
        a later yes may be meant for another, and the reply says so; a film sheet asks again."""
        dialogue = self.open
        if dialogue is None:
            return reply
        if dialogue.waits:
            return reply.but(answer=f"{reply.answer}\n{dialogue.dropped}")
        self.open = None
        if self._talk.memory.again == self._show:
            self._talk.memory.again = None
        return reply.but(assumed=(*reply.assumed, dialogue.dropped))

    def _act_answered(self, heard: Heard, act: str | None) -> Reply | None:
        """A word about the program, said while a film sheet is open."""
        if not any(sign.isalnum() for sign in heard.text):
            return None
        knowledge, words = self._talk.knowledge, heard.tidy.split()
        if act in _ANSWERED:
            return ACTS[act](knowledge).but(intent=act, heard=heard.said())
        if len(words) == 2 and words[0] == "topics":
            return topics(knowledge, words[1])
        return None

    def _consents(self, heard: Heard) -> bool:
        """Whether a line says yes or no to what would be written."""
        from assistant.conversation.agreeing import NEEDS, agreed, ground_of

        assert self.open is not None
        if self.open.show(self._talk.spoken_system).needs != NEEDS:
            return False
        said, _ = ground_of(heard.text, answering=True)
        return agreed(said) is not None or heard.tidy.startswith("replace")

    def _show(self, system: System) -> Reply:
        """What stands asked, shown once more."""
        assert self.open is not None
        self._asked = self.open.show(system)
        return self._asked

    def _beside(self, heard: Heard) -> Reply | None:
        """Lines of this room that are no answer to what stands open."""
        text = own_lines.mended(heard.text.strip())
        told = self._told(text)
        if told is not None:
            return self.let_fall(told) if self.open is not None and self.open.waits else told
        begins = any(each.fullmatch(text) for each in _BEGINNINGS)
        if self.open is not None and self.open.waits and begins:
            return Reply(
                ASKS, "A film sheet is open: `done` shows it for a yes or no, `cancel` drops it. "
                "One thing after the other.", needs=("done or cancel",),
            )
        return None

    def _told(self, text: str) -> Reply | None:
        """The reply to a line that only wants to be told something."""
        if own_lines.WHY_THAT.fullmatch(text):
            return self._why_that()
        if own_lines.LIST.fullmatch(text):
            from assistant.conversation.house_list import house_rules

            return house_rules(self._talk)
        return None

    def _begun(self, heard: Heard) -> Reply | None:
        text = own_lines.mended(heard.text.strip())
        told = self._told(text)
        if told is not None:
            return told
        if own_lines.UNDO.fullmatch(text):
            return self.keeper.take_back()
        forget = own_lines.FORGET.fullmatch(text)
        if forget is not None:
            return self._forget(forget["what"])
        subject = own_lines.FORGET_SUBJECT.fullmatch(text)
        if subject is not None:
            return self._forget(subject["on"] or subject["of"] or subject["said"])
        gone = own_lines.FORGET_FILM.fullmatch(text)
        if gone is not None:
            dropped = self._forget_film(gone["name"], gone["word"].lower() != "film")
            if dropped is not None:
                return dropped
        film = own_lines.ADD_FILM.fullmatch(text)
        if film is not None:
            from assistant.conversation.add_film import AddFilm

            return self._open(AddFilm(self._talk, self.keeper, film["name"] or ""))
        decide = own_lines.DECIDE.fullmatch(text)
        # "house rule: do not wash before 10 days" asks nothing, whatever it begins with.
        if decide is not None and (decide["told"] or not (
            own_lines.ASKING.match(decide["text"]) or text.endswith("?")
        )):
            from assistant.conversation.house_rule import Decide

            return self._open(Decide(self._talk, self.keeper, decide["text"]))
        return None

    def _open(self, dialogue: Dialogue) -> Reply:
        self.open = dialogue
        return self._settled(*dialogue.begin())

    def _settled(self, reply: Reply, waits: bool) -> Reply:
        memory = self._talk.memory
        if reply.rules:
            self._last_rule = memory.rule = reply.rules[0]
        self._asked = reply if waits else None
        memory.again = self._show if waits and self.open is not None else None
        if not waits:
            self.open = None
        return reply

    def _forget(self, what: str | None) -> Reply:
        from assistant.conversation.house_list import Forget, no_house_rule

        talk = self._talk
        held = [rule_id for rule_id in talk.knowledge.rules if rule_id in talk.knowledge.house]
        if what:
            about = hear(what, talk.lexicon)
            best = [each.intent_id for each in talk.router.ranked(about, 30)]
            chosen = [rule_id for rule_id in best if rule_id in held][:1]
        else:
            last = next(
                (each for each in (self._last_rule, talk.memory.rule) if each in held), None
            )
            chosen = [last] if last is not None else held
        if not chosen:
            return no_house_rule(talk, what)
        return self._open(Forget(talk, self.keeper, chosen))

    def _forget_film(self, name: str, certain: bool) -> Reply | None:
        """certain: the line speaks of a sheet; "remove the film from the hood" does not."""
        from assistant.conversation.film_forget import ForgetFilm, no_such_sheet, sheet_called

        film_id = sheet_called(self._talk, name)
        if film_id is not None:
            return self._open(ForgetFilm(self._talk, self.keeper, film_id))
        return no_such_sheet(self._talk, name) if certain else None

    def _why_that(self) -> Reply:
        from assistant.conversation.why_that import tell_why_that

        memory = self._talk.memory
        ranked = ()
        if memory.heard is not None:
            ranked = self._talk.router.ranked(memory.heard, 2)
        return tell_why_that(memory.heard, memory.verdict, ranked, self._talk.intents)
