"""Talk: one line in, one Reply out, with the memory of what went before.

Owns the order in which a line is understood: a word about the talk itself, an answer to what was
asked, a change to the last sum, and only then a new question. What is said then belongs to
telling.py, reckoning.py, glossary.py, bodies.py and acts.py.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from assistant.conversation.acts import ACTS, topics
from assistant.conversation.asking_words import Asked, WordsAsked
from assistant.conversation.authoring import Authoring
from assistant.conversation.bodies import PREFIX, PanelsAsked, panels_asked, tell_panels
from assistant.conversation.film_names import topic_without_names, without_numbers_of_names
from assistant.conversation.glossary import tell_words
from assistant.conversation.kits import PREFIX as KIT_PREFIX
from assistant.conversation.kits import kit_asked, tell_kit
from assistant.conversation.picking import Choice, picked
from assistant.conversation.reckoning import UNIT_WANTED, OpenSum, Reckoner
from assistant.conversation.reminding import (
    CURE,
    about_timers,
    due_lines,
    remind_of_cure,
)
from assistant.conversation.reminding import INTENT as TIMER
from assistant.conversation.slots import system_of
from assistant.conversation.telling import Film, tell, tell_why
from assistant.conversation.timers import Timers
from assistant.hearing.hear import hear, hear_sample
from assistant.hearing.heard import Heard
from assistant.hearing.plain import plain
from assistant.quantity.kinds import kind_of
from assistant.quantity.write import System
from assistant.reply import ASKS, DONE, OUTSIDE, RESULT, Reply, lay_out, paged_parts
from assistant.routing.intent import Intent
from assistant.routing.topic import Topic
from assistant.routing.verdict import Verdict
from assistant.rules.ready import Ready

_UNIT_WORDS = {
    "in": "in", "inch": "in", "inches": "in", "feet": "ft", "foot": "ft", "ft": "ft",
    "yard": "yd", "yards": "yd", "yd": "yd", "cm": "cm", "cms": "cm", "centimetres": "cm",
    "centimeters": "cm", "mm": "mm", "millimetres": "mm", "millimeters": "mm", "m": "m",
    "metres": "m", "meters": "m", "f": "degF", "fahrenheit": "degF", "c": "degC",
    "celsius": "degC", "centigrade": "degC", "hours": "h", "hour": "h", "h": "h",
    "minutes": "min", "min": "min", "days": "day", "day": "day", "ounces": "floz", "oz": "floz",
    "ml": "mL", "millilitres": "mL", "litres": "L", "liters": "L", "l": "L",
    "square feet": "ft2", "square metres": "m2", "fluid ounces": "floz", "pounds": "lb",
    "kilograms": "kg", "kg": "kg", "grams": "g", "g": "g", "lb": "lb",
}
_METRIC_WORDS = (
    r"celsius|centigrade|metric|°c|millimet(?:re|er)s?|centimet(?:re|er)s?|met(?:re|er)s|mm|cm"
)
_US_WORDS = r"fahrenheit|imperial|°f|inch(?:es)?|feet|yards|us units|american units"
_IN_UNITS = re.compile(
    rf"(?:(?:and |so |what is that |whats that |what's that |how much is that )*)"
    rf"(?:in |to )?(?:(?P<metric>{_METRIC_WORDS}|c)|(?P<us>{_US_WORDS}|f))(?: please)?[?.! ]*"
)
# Words that take back or replace what was said last.
_CORRECTION = re.compile(
    r"(?:sorry|oops|no wait|wait|actually|correction|i meant?|my mistake|scratch that|rather)\b"
    r"|(?:make|let it|change) (?:that|it|the)\b"
)
# "why is that a problem", "but why does that matter": the reason of what was just said.
_WHY = re.compile(
    r"(?:and |but |so |ok )*why(?: (?:is|was|would|does|not|so|that|it|this|a|problem|matter|bad|"
    r"wrong|important|needed|necessary|though|be))*"
)
# "source?", "where does that come from", "who says": what the last answer rests on.
_SOURCE = re.compile(
    r"(?:and |so |ok )*(?:(?:what|whats|what's) (?:is )?(?:the |your |its )?source"
    r"(?: of that| for that)?|sources?|who says(?: so| that)?|says who"
    r"|where (?:does|did|do) (?:that|it|this|you get (?:that|it))(?: number| figure)?"
    r"(?: come)?(?: from)?|according to (?:who|whom|what))"
)
# How many numbers must say what they are before a line is taken for a sum, by the verdict.
_WHOLE = {"choice": 2, "outside": 3, "sure": 3}
# "do 8 yards still fit": about what was worked out.
_STILL = re.compile(r"\bstill\b")
_WANTS_METRIC = re.compile(rf"\bin (?:{_METRIC_WORDS})(?!\w)")
_WANTS_US = re.compile(rf"\bin (?:{_US_WORDS})(?!\w)")


@dataclass
class Memory:
    """What the talk remembers between two lines."""

    topic: Topic | None = None
    again: Callable[[System], Reply] | None = None
    rule: str | None = None
    film: Film = field(default_factory=Film)
    pages: list[str] = field(default_factory=list)
    last: Reply | None = None
    sum: OpenSum | None = None
    choices: tuple[Choice, ...] = ()
    choices_heard: Heard | None = None
    heard: Heard | None = None
    verdict: Verdict | None = None


class Conversation:
    """A talk with one person.

    ready  what rules/ready.py gives: the knowledge, its lexicon and its router
    now    the clock; a test or a transcript gives its own
    """

    def __init__(self, ready: Ready, now: Callable[[], datetime] = datetime.now) -> None:
        self.now = now
        self.take_up(ready)
        self.system: System | None = None
        self.spoken: dict[str, System] = {}
        self.memory = Memory()
        self.timers = Timers()
        self.cure_end: datetime | None = None
        self.cure_wanted = False
        self.authoring = Authoring(self)
        self._routed: Verdict | None = None

    def take_up(self, ready: Ready) -> None:
        """Answer from this knowledge from now on; the talk goes on where it stands."""
        self.ready = ready
        self.knowledge = ready.knowledge
        self.lexicon = ready.lexicon
        self.intents = ready.intents
        self.router = ready.router
        self.reckoner = Reckoner(ready.knowledge)
        self.words_asked = WordsAsked(ready.knowledge.names.get("words", {}), ready.lexicon.knows)
        self._act_lines = {
            _bare_words(phrase): act.id
            for act in ready.knowledge.acts.values()
            for phrase in act.phrases
        }

    def forget(self) -> None:
        """Forget the context: the next line is the first."""
        self.memory = Memory()
        self.system = None
        self.spoken = {}
        self.authoring.open = None

    def turn(self, line: str) -> Reply:
        """The reply to one line, whatever is in it; timers that are due are told beside it."""
        reply = self._turn(line)
        if reply.intent == "cure-clock" and reply.times:
            self.cure_end = datetime.fromisoformat(reply.times[0].at)
            if self.cure_wanted:
                self.cure_wanted = False
                reply = reply.but(assumed=(*reply.assumed, *remind_of_cure(
                    self.timers, self.cure_end, self.spoken_system, self.now()
                )))
        return reply.but(due=self.due()) if self.timers.running else reply

    def due(self) -> tuple[str, ...]:
        """What is to be said of the timers whose time is up by now; each is told once."""
        return due_lines(self.timers.take_due(self.now()), self.spoken_system)

    def _turn(self, line: str) -> Reply:
        heard = without_numbers_of_names(hear(plain(line), self.lexicon), self.knowledge.films)
        if not heard.text.strip():
            return self._remember(Reply(
                ASKS, "Nothing was typed. Ask about the wrap in hand, or type `help`."
            ), keep=True)
        self._settle_system(heard)
        authored = self.authoring.turn(heard)
        if authored is not None:
            return self._remember(authored, keep=True)
        said = self._about_the_talk(heard)
        if said is not None:
            return said
        self._routed = None
        reply = (
            self._timer(heard)
            or self._kit(heard)
            or self._word(heard)
            or self._answer_to_choice(heard)
            or self._into_the_sum(heard)
            or self._body(heard)
            or self._new_question(heard)
        )
        self.memory.heard, self.memory.verdict = heard, self._routed
        return self.authoring.let_fall(reply)

    # -- the person's system ------------------------------------------------------------------

    @property
    def spoken_system(self) -> System:
        return self.system or System.US

    def _settle_system(self, heard: Heard) -> None:
        if _WANTS_METRIC.search(heard.tidy):
            self.system = System.METRIC
        elif _WANTS_US.search(heard.tidy):
            self.system = System.US
        else:
            self._note_units([found.unit for found in heard.quantities])

    def _note_units(self, units: Sequence[str | None]) -> None:
        """Remember in which units the person speaks, by kind: many measure in inches and read the
        thermometer in Celsius."""
        self.system = system_of(units) or self.system
        by_kind: dict[str, list[str]] = {}
        for unit in units:
            if unit is not None:
                by_kind.setdefault(kind_of(unit), []).append(unit)
        for kind, given in by_kind.items():
            system = system_of(given)
            if system is not None:
                self.spoken[kind] = system

    # -- words about the talk itself ----------------------------------------------------------

    def act_of(self, heard: Heard) -> str | None:
        """The act whose very words the line is."""
        return self._act_lines.get(_bare_words(heard.tidy))

    def _about_the_talk(self, heard: Heard) -> Reply | None:
        line = _bare_words(heard.tidy)
        act = self.act_of(heard)
        if act == "start-over":
            system = self.system
            self.forget()
            self.system = system
            return Reply(DONE, "Dropped. What is next?", intent=act)
        if act == "more":
            return self._more()
        if act == "why" or _WHY.fullmatch(line):
            return self._why()
        if _SOURCE.fullmatch(line) and self.memory.last is not None and self.memory.last.basis:
            return self._source(self.memory.last)
        if act == "repeat" and self.memory.last is not None:
            return self.memory.last
        if line.startswith("topics ") and len(line.split()) == 2:
            return topics(self.knowledge, line.split()[1])
        switch = _IN_UNITS.fullmatch(heard.tidy.strip())
        waiting_for_unit = self.memory.sum is not None and self.memory.sum.asked == UNIT_WANTED
        if switch and self.memory.again is not None and not waiting_for_unit:
            self.system = System.METRIC if switch["metric"] else System.US
            return self._remember(self.memory.again(self.system), keep=True)
        if act in ACTS:
            return ACTS[act](self.knowledge).but(intent=act, heard=heard.said())
        return None

    @staticmethod
    def _source(last: Reply) -> Reply:
        """What the last answer rests on, in its own words."""
        told = last.basis_words or last.basis or ""
        layer = f" It is the {last.layer}'s." if last.layer and last.layer != "shipped" else ""
        return Reply(
            DONE, f"{told[:1].upper()}{told[1:]}.{layer}", intent=last.intent,
            heading=last.heading, heard="source", rules=last.rules, basis=last.basis,
            source=last.source, layer=last.layer,
        )

    def _more(self) -> Reply:
        if not self.memory.pages:
            return Reply(DONE, "That was all of it.", intent="more")
        page = self.memory.pages.pop(0)
        return Reply(DONE, page, intent="more", heading="more")

    def _why(self) -> Reply:
        if self.memory.rule is not None:
            return self._remember(
                tell_why(self.knowledge, self.memory.rule, self.spoken_system, self.memory.film),
                keep=True,
            )
        last = self.memory.last
        if last is not None and last.working:
            reason = next((
                why for rule in last.rules
                if (why := self.knowledge.resolve(rule).why(self.spoken_system))
            ), "")
            return Reply(
                DONE, reason or "This is how it was worked out.", intent=last.intent,
                heading=last.heading, rules=last.rules, cautions=last.cautions,
                working=last.working, assumed=last.assumed, basis=last.basis,
                basis_words=last.basis_words,
            )
        return Reply(
            ASKS, "Why what? Ask about a rule first, then `why?` gives its reason.",
            intent="why",
        )

    # -- answers to what was asked ------------------------------------------------------------

    def _answer_to_choice(self, heard: Heard) -> Reply | None:
        memory = self.memory
        if not memory.choices:
            return None
        choice = picked(memory.choices, heard)
        if choice is None:
            return None
        first = memory.choices_heard
        memory.choices, memory.choices_heard = (), None
        # A pick by its number brings no number of its own to be judged or reckoned with.
        together = heard if first is None else first if heard.quantities else first.joined(heard)
        return self._run(choice.intent_id, together, 1.0)

    def _into_the_sum(self, heard: Heard) -> Reply | None:
        """A missing number, a unit, or a change to the last sum."""
        sum_ = self.memory.sum
        if sum_ is None:
            return None
        line = _bare_words(heard.tidy)
        if sum_.asked == UNIT_WANTED and not heard.quantities:
            unit = _UNIT_WORDS.get(re.sub(r"^(?:in|its|it's|they are|all) ", "", line))
            if unit is None and line.isdigit() and self.memory.last is not None:
                unit = self._unit_choice(int(line))
            if unit is not None:
                self._note_units([unit])
                return self._reckon(sum_, heard, unit_told=unit)
        if not sum_.fits(heard):
            return None
        corrects = _CORRECTION.match(heard.tidy) is not None
        leaning = heard.follow_up or corrects or (
            _STILL.search(heard.tidy) is not None
            and self._only_adds(sum_, heard)
        )
        if leaning:
            return self._reckon(sum_, heard, corrects=corrects)
        kinds = {hit.kind for hit in heard.concepts}
        if sum_.asked is None:
            # "4 air changes an hour": numbers alone go on with the sum, a question does not.
            if "wish" in kinds or heard.yes_no or "doing" in kinds:
                return None
            return self._reckon(sum_, heard) if self._only_adds(sum_, heard) else None
        verdict = self.router.route(heard)
        new = verdict.kind == "sure" and verdict.candidates[0].intent_id != sum_.entry.id
        if new and ("wish" in kinds or heard.yes_no) and "thing" in kinds:
            return None
        return self._reckon(sum_, heard)

    def _only_adds(self, sum_: OpenSum, heard: Heard) -> bool:
        """Whether every number of the line has a slot of the finished sum, and no line of another
        sum is surer of it."""
        if not heard.quantities or not sum_.takes_all(heard) or self._names_else(sum_, heard):
            return False
        verdict = self.router.route(heard)
        if verdict.kind != "sure":
            return self._whole_sum(verdict, heard) in (None, sum_.entry.id)
        top = verdict.candidates[0].intent_id
        if self.intents[top].kind != "calculation" or top == sum_.entry.id:
            return True
        # Another sum that would have to ask for the rest is less likely than this one changed.
        return self.reckoner.whole((top,), heard, self.now(), 1) is None

    def _names_else(self, sum_: OpenSum, heard: Heard) -> bool:
        """Whether the line names a thing that the sum has nothing to do with."""
        things = self.intents[sum_.entry.id].things
        cues = {cue for spec in sum_.entry.slots.values() for cue in (*spec.cues, spec.name)}
        return any(
            hit.concept not in things and hit.words not in cues
            for hit in heard.concepts if hit.kind == "thing"
        )

    def _unit_choice(self, number: int) -> str | None:
        choices = self.memory.last.choices if self.memory.last is not None else ()
        if 1 <= number <= len(choices):
            return _UNIT_WORDS.get(choices[number - 1].lower())
        return None

    # -- words of the trade, body classes -------------------------------------------------------

    def _word(self, heard: Heard, bare: bool = False) -> Reply | None:
        """What a word means, when that is all that the line asks."""
        asked = self.words_asked.asked(heard.tidy, bare)
        if asked is None or (asked.definite and self._has_a_number(heard)):
            return None
        terms = [self.knowledge.words[name] for name in asked.terms]
        rule = next((term.rule for term in terms if term.rule is not None), None)
        topic = self._topic_of_words(asked, rule)

        def say(system: System) -> Reply:
            return tell_words(self.knowledge, self.intents.values(), asked, system)

        # What waits for an answer goes on waiting: the word may be one that it used.
        memory = self.memory
        self.memory = Memory(
            topic=topic, film=memory.film, again=say, rule=rule,
            sum=memory.sum if memory.sum and memory.sum.asked else None,
            choices=memory.choices, choices_heard=memory.choices_heard,
        )
        return self._remember(say(self.spoken_system))

    def _has_a_number(self, heard: Heard) -> bool:
        """Whether the router is sure of a number: "what is the bleed" may well want it."""
        verdict = self.router.route(heard)
        if verdict.kind != "sure":
            return False
        intent = self.intents[verdict.candidates[0].intent_id]
        return intent.kind == "calculation" or intent.answer_key != intent.id

    def _topic_of_words(self, asked: Asked, rule: str | None) -> Topic:
        named = " ".join(self.knowledge.words[name].term for name in asked.terms)
        topic = replace(
            Topic.of(hear_sample(named, self.lexicon), rule), wishes=frozenset(),
        )
        if rule is None or topic.things or topic.doings:
            return topic
        intent = self.intents[rule]
        return replace(topic, things=intent.things, doings=intent.doings)

    def _timer(self, heard: Heard) -> Reply | None:
        """Timers are set, listed and stopped beside whatever is open."""
        last = self.memory.last
        asked = next(iter(last.needs), None) if last is not None and last.intent == TIMER else None
        reply = about_timers(
            heard, self.timers, self.cure_end, self.spoken_system, self.now(), asked
        )
        if reply is None:
            return None
        self.cure_wanted |= reply.needs == (CURE,)
        return self._remember(reply, keep=True)

    def _kit(self, heard: Heard) -> Reply | None:
        """What must lie ready before a part of the job, when that is all that the line asks."""
        last = self.memory.last
        after_a_kit = heard.follow_up and last is not None and (
            (last.intent or "").startswith(KIT_PREFIX)
        )
        kit = kit_asked(heard.tidy, self.knowledge, heard.things, after_a_kit)
        if kit is None:
            return None
        self.memory = Memory(topic=Topic.of(heard), film=self.memory.film)
        return self._remember(tell_kit(self.knowledge, kit))

    def _body(self, heard: Heard) -> Reply | None:
        """The panels of a body class, when that is all that the line asks."""
        asked = panels_asked(heard.tidy, self.knowledge, heard.things)
        if asked is None:
            return None
        if len(asked.vehicles) == 1:
            return self._panels(asked)
        choices = tuple(
            Choice(self.knowledge.vehicles[name].name, PREFIX + name) for name in asked.vehicles
        )
        self.memory = Memory(
            topic=self.memory.topic, film=self.memory.film, choices=choices, choices_heard=heard,
        )
        return self._remember(Reply(
            ASKS, "Which one?", heard=heard.said(),
            choices=tuple(choice.label for choice in choices),
        ))

    def _panels(self, asked: PanelsAsked) -> Reply:
        def say(system: System) -> Reply:
            return tell_panels(self.knowledge, asked, system)

        self.memory = Memory(topic=self.memory.topic, film=self.memory.film, again=say)
        return self._remember(say(self.spoken_system))

    # -- new questions ------------------------------------------------------------------------

    def _new_question(self, heard: Heard) -> Reply:
        verdict = self.router.route(
            self._for_routing(heard),
            topic_without_names(self.memory.topic, self.knowledge.films),
        )
        self._routed = verdict
        whole = self._whole_sum(verdict, heard)
        if whole is not None:
            return self._run(whole, heard, verdict.confidence, verdict)
        if verdict.kind == "sure":
            return self._run(verdict.candidates[0].intent_id, heard, verdict.confidence, verdict)
        if verdict.kind == "choice":
            return self._offer(verdict, heard)
        return self._word(heard, bare=True) or self._outside(verdict, heard)

    def _whole_sum(self, verdict: Verdict, heard: Heard) -> str | None:
        """The sum that a line gives whole: its numbers say what its words left open, and three of
        them outweigh a rule."""
        if not heard.quantities:
            return None
        sure = verdict.candidates[0].intent_id if verdict.kind == "sure" else None
        if sure is not None and self.intents[sure].kind != "rule" and (
            self.intents[sure].kind == "act"
            or self.reckoner.whole([sure], heard, self.now(), 1, strict=True)
        ):
            return None
        # A word of another trade leaves only the likeliest: "a wall 3 m wide" may be a van's.
        near = verdict.candidates[:1 if heard.foreign else 2 if verdict.kind == "sure" else 4]
        return self.reckoner.whole(
            (candidate.intent_id for candidate in near), heard, self.now(), _WHOLE[verdict.kind],
        )

    def _for_routing(self, heard: Heard) -> Heard:
        """The line without what says nothing of which rule is meant: the name of a film sheet (any
        rule may be asked about any film of the shop's), and the units wanted for the answer."""
        aside = [
            (hit.start, hit.end) for hit in heard.concepts if hit.concept in self.knowledge.films
        ]
        if not heard.quantities:
            aside += [
                match.span() for pattern in (_WANTS_METRIC, _WANTS_US)
                for match in pattern.finditer(heard.text.lower())
            ]
        if not aside:
            return heard

        def kept(span: Any) -> bool:
            return not any(start <= span.start < end for start, end in aside)

        return replace(
            heard,
            concepts=tuple(filter(kept, heard.concepts)),
            tokens=tuple(filter(kept, heard.tokens)),
        )

    def _run(self, intent_id: str, heard: Heard, confidence: float,
             verdict: Verdict | None = None) -> Reply:
        if intent_id.startswith(PREFIX):
            return self._panels(PanelsAsked((intent_id.removeprefix(PREFIX),)))
        intent = self.intents[intent_id]
        if intent.kind == "act":
            return self._act(intent_id, heard)
        topic = self._topic_after(heard, intent)
        film = self._film(topic)
        if intent.kind == "calculation":
            reply, open_sum = self.reckoner.begin(
                intent_id, heard, self.spoken, self.spoken_system, self.now(), film,
                self.memory.sum,
            )
            self.memory = Memory(topic=topic, film=film, sum=open_sum)
            self.memory.again = self._sum_again(open_sum)
            return self._remember(reply.but(confidence=confidence))
        settled = self.system is not None

        def say(system: System) -> Reply:
            return tell(self.knowledge, intent_id, heard, system, settled, film, confidence)

        self.memory = Memory(topic=topic, film=film, again=say, rule=intent_id)
        return self._remember(say(self.spoken_system))

    def _topic_after(self, heard: Heard, intent: Intent) -> Topic:
        """What the talk stands on once `intent` has answered.

        A question that left the doing out ("how hot for an overlap") is taken to have meant the
        one that the rule is about, so that "and for a recess?" asks for the same.
        """
        topic = Topic.after(heard, self.memory.topic, intent.id)
        if intent.kind != "rule":
            return topic
        return replace(
            topic,
            things=topic.things or intent.things,
            doings=topic.doings or intent.doings,
        )

    def _act(self, act: str, heard: Heard) -> Reply:
        if act in ACTS:
            return ACTS[act](self.knowledge).but(intent=act, heard=heard.said())
        return self._about_the_talk(hear(self.knowledge.acts[act].phrases[0], self.lexicon)) or (
            Reply(DONE, self.knowledge.acts[act].title, intent=act)
        )

    def _film(self, topic: Topic) -> Film:
        return Film(
            sheet=self.knowledge.sheet_named(topic.films),
            family=self.knowledge.family_named(topic.films),
            conditions=tuple(sorted(topic.conditions)),
        )

    def _reckon(self, sum_: OpenSum, heard: Heard, unit_told: str | None = None,
                corrects: bool = False) -> Reply:
        memory = self.memory
        film = memory.film
        if heard.films:
            film = self._film(Topic.after(heard, memory.topic))
        reply, open_sum = self.reckoner.go_on(
            sum_, heard, self.spoken, self.spoken_system, self.now(), unit_told, film, corrects
        )
        self.memory = Memory(topic=memory.topic, film=film, sum=open_sum)
        self.memory.again = self._sum_again(open_sum)
        return self._remember(reply)

    def _sum_again(self, sum_: OpenSum) -> Callable[[System], Reply]:
        nothing = hear("", self.lexicon)

        def say(system: System) -> Reply:
            return self.reckoner.go_on(sum_, nothing, self.spoken, system, self.now())[0]

        return say

    def _offer(self, verdict: Verdict, heard: Heard) -> Reply:
        choices = tuple(
            Choice(self.intents[candidate.intent_id].title, candidate.intent_id)
            for candidate in verdict.candidates[:4]
        )
        reply = Reply(
            ASKS,
            "Which one do you mean?" if len(choices) > 1 else "Do you mean this?",
            heard=heard.said(),
            choices=tuple(choice.label for choice in choices),
            confidence=verdict.confidence,
        )
        topic = Topic.after(heard, self.memory.topic)
        self.memory = Memory(
            topic=topic, film=self.memory.film, choices=choices, choices_heard=heard,
        )
        return self._remember(reply)

    def _outside(self, verdict: Verdict, heard: Heard) -> Reply:
        near = [
            self.intents[candidate.intent_id].title
            for candidate in verdict.candidates[:3]
            if self.intents[candidate.intent_id].kind != "act"
        ]
        nearest = f" The nearest that I know: {'; '.join(near)}." if near else ""
        return self._remember(Reply(
            OUTSIDE,
            "I don't know that one. I answer about preparing, measuring, cutting, laying, heat, "
            f"the bay, cure, aftercare and safety.{nearest} `topics` lists it all.",
            heard=heard.said(),
            confidence=verdict.confidence,
        ), keep=True)

    def _remember(self, reply: Reply, keep: bool = False) -> Reply:
        """Keep what `more` and `repeat` need. `keep`: the topic and the open sum stay too."""
        self.memory.last = reply
        self.memory.pages = lay_out(reply)[1:]
        return reply


def _bare_words(text: str) -> str:
    return " ".join(re.findall(r"[\w'°%]+", text.lower()))


__all__ = ["Conversation", "RESULT", "paged_parts"]
