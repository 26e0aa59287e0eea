"""Authoring: the lines by which a shop writes its own rules and films, and asks how it was heard.

Owns which lines these are and what stands open between them. The decisions are house_rule.py's, the
films add_film.py's, the writing keeping.py's, the telling of what was heard why_that.py's.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, Protocol

from assistant.hearing.hear import hear
from assistant.hearing.heard import Heard
from assistant.quantity.write import System
from assistant.reply import ASKS, Reply

if TYPE_CHECKING:
    from assistant.conversation.keeping import Keeper

# Words about the talk that are meant as such whatever stands open.
_BESIDE = ("more", "repeat", "help")

_DECIDE = re.compile(
    r"\s*(?:(?:a |new |our |my |the )*(?:house|shop) rule(?:\s*(?P<told>[:,-])\s*|\s+)"
    r"|from (?:now|today) on\s*[:,]?\s+(?=.*\d))(?P<text>.*)", re.IGNORECASE | re.DOTALL,
)
_ASKING = re.compile(
    r"(?:what|which|is|are|do|does|can|may|how|why|when|who|where|show|tell|list)\b", re.IGNORECASE
)
_FORGET = re.compile(
    r"(?:please )?(?:forget|drop|remove|delete|undo|take back|cancel|scrap|lift) "
    r"(?:that|this|the|our|my|your|last|a|all|\s)*(?:house|shop) rules?"
    r"(?:\s+(?:on|about|for|of|over|to|concerning)\s+(?P<what>.+?))?[\s.!?]*", re.IGNORECASE,
)
_LIST = re.compile(
    r"(?:(?:show|list|tell|give|what are|which are|what|which|see|read|all|me|us|the|our|my|your"
    r"|do we have|have we(?: got)?|have i got|are there)[\s:]+)*(?:house|shop) rules?"
    r"(?: do we have| have we(?: got)?| are there| please)?[\s?.!]*", re.IGNORECASE,
)
_UNDO = re.compile(r"(?:please )?(?:undo|take it back|undo (?:it|that|the last|last))(?: please)?"
                   r"[\s.!]*", re.IGNORECASE)
_ADD_FILM = re.compile(
    r"(?:please )?(?:(?:i want to |i'd like to |can i |let me |let's )?"
    r"(?:add|enter|type in|put in|create|make|start)(?: me| us)? (?:a |another |the |one )?"
    r"(?:new )?(?:film sheet|film|sheet|bulletin)|(?:a )?new film(?: sheet)?|(?:a )?new sheet)"
    r"(?:\s*(?::|called|named|for)\s*(?P<name>.+?))?[\s.!?]*", re.IGNORECASE | re.DOTALL,
)
_WHY_THAT = re.compile(
    r"(?:and |but |so )?(?:why (?:did|do|would) (?:you|u) (?:answer|say|tell|reply|give)"
    r"(?: me| us)? (?:that|this|it|so)|why (?:that|this) (?:answer|reply)"
    r"|how (?:did|do|have) (?:you|u) (?:understand|understood|read|take|hear|get|heard) "
    r"(?:that|this|it|me)"
    r"|what (?:did|do|have) (?:you|u) (?:hear|understand|heard|understood|make of (?:that|it))"
    r"|how did you (?:come to|arrive at|get to) (?:that|this|it)|what was heard"
    r"|show (?:me )?what you heard)[\s?.!]*", re.IGNORECASE,
)


class Dialogue(Protocol):
    """Something asked over several lines.

    waits    whether it stays open when a line is about something else
    dropped  what is said of it when it does not
    """

    waits: bool
    dropped: str

    def begin(self) -> tuple[Reply, bool]: ...

    def take(self, heard: Heard) -> tuple[Reply, bool] | None: ...

    def show(self, system: System) -> Reply: ...


class Authoring:
    """The shop's own writing in one talk."""

    def __init__(self, talk: Any) -> None:
        self._talk = talk
        self.open: Dialogue | None = None
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
        """The reply to a line that is an answer here or begins something here; else None."""
        act = self._talk.act_of(heard)
        if act == "start-over":
            self.open = None
            return None
        if self.open is not None:
            # A line of signs alone calls for help elsewhere; here it is an answer, if a poor one.
            if act in _BESIDE and any(sign.isalnum() for sign in heard.text):
                return None
            beside = self._beside(heard)
            if beside is not None:
                return beside
            taken = self.open.take(heard)
            if taken is not None:
                return self._settled(*taken)
        return self._begun(heard)

    def let_fall(self, reply: Reply) -> Reply:
        """The reply to a line that was about something else: a proposal that stood open falls, for
        a later yes may be meant for another, and the reply says so."""
        dialogue = self.open
        if dialogue is None or dialogue.waits:
            return reply
        self.open = None
        return reply.but(assumed=(*reply.assumed, dialogue.dropped))

    def _beside(self, heard: Heard) -> Reply | None:
        """Lines of this room that are no answer to what stands open."""
        text = heard.text.strip()
        told = self._told(text)
        if told is not None:
            return told
        begins = any(each.fullmatch(text) for each in (_DECIDE, _FORGET, _ADD_FILM))
        if self.open is not None and self.open.waits and begins:
            return Reply(
                ASKS, "A film sheet is open: `done` shows it for a yes or no, `cancel` drops it. "
                "One thing after the other.", needs=("done or cancel",),
            )
        return None

    def _told(self, text: str) -> Reply | None:
        """The reply to a line that only wants to be told something."""
        if _WHY_THAT.fullmatch(text):
            return self._why_that()
        if _LIST.fullmatch(text):
            from assistant.conversation.house_list import house_rules

            return house_rules(self._talk)
        return None

    def _begun(self, heard: Heard) -> Reply | None:
        text = heard.text.strip()
        told = self._told(text)
        if told is not None:
            return told
        if _UNDO.fullmatch(text):
            return self.keeper.take_back()
        forget = _FORGET.fullmatch(text)
        if forget is not None:
            return self._forget(forget["what"])
        film = _ADD_FILM.fullmatch(text)
        if film is not None:
            from assistant.conversation.add_film import AddFilm

            return self._open(AddFilm(self._talk, self.keeper, film["name"] or ""))
        decide = _DECIDE.fullmatch(text)
        # "house rule: do not wash before 10 days" asks nothing, whatever it begins with.
        if decide is not None and (decide["told"] or not (
            _ASKING.match(decide["text"]) or text.endswith("?")
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
        memory.again = self.open.show if waits and self.open is not None else None
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

    def _why_that(self) -> Reply:
        from assistant.conversation.why_that import tell_why_that

        memory = self._talk.memory
        ranked = ()
        if memory.heard is not None:
            ranked = self._talk.router.ranked(memory.heard, 2)
        return tell_why_that(memory.heard, memory.verdict, ranked, self._talk.intents)


