"""House rule: a shipped figure decided otherwise for this shop, proposed and agreed in a talk.

Owns the proposal and its yes or no. Which figure a line means is deciding.py's, the list and the
forgetting house_list.py's, the file rules/decisions.py's, the writing keeping.py's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from assistant.conversation.agreeing import NEEDS, agreed, ground_of
from assistant.conversation.deciding import Option, Refused, against_limit, options_of
from assistant.conversation.keeping import Keeper
from assistant.conversation.picking import Choice, picked
from assistant.conversation.wording import basis_words
from assistant.hearing.hear import hear
from assistant.hearing.heard import Heard
from assistant.quantity.write import System
from assistant.reply import ASKS, DONE, Reply
from assistant.rules.afresh import after_decision
from assistant.rules.decisions import (
    FILE,
    Decision,
    change_of,
    forbidden,
    write_decision,
)
from assistant.rules.layers import HOUSE, loosened
from assistant.store.written import Written

INTENT = "house-rule"
EXAMPLE = "house rule: post-heat overlaps at 230"
LOOSER = " This is looser than the shipped rule."


def no(words: str, **more: Any) -> Reply:
    """Nothing is written, and why."""
    return Reply(ASKS, words, intent=INTENT, heading="House rule", **more)


class Decide:
    """A decision on the way: which figure, then yes or no."""

    waits = False  # another line drops it

    def __init__(self, talk: Any, keeper: Keeper, text: str) -> None:
        self._talk = talk
        self._keeper = keeper
        rule_text, self._ground = ground_of(text)
        self._heard = hear(rule_text, talk.lexicon)
        self._options: Sequence[Option] = ()
        self._decision: Decision | None = None
        self.dropped = "the house rule was not written"

    def begin(self) -> tuple[Reply, bool]:
        """The first reply, and whether it waits for an answer."""
        talk = self._talk
        verdict = talk.router.route(self._heard)
        options = options_of(
            talk.knowledge, self._heard, verdict.kind, talk.router.ranked(self._heard),
            talk.spoken_system, talk.system is not None,
        )
        if isinstance(options, Refused):
            return no(options.words, heard=self._heard.said()), False
        self._options = options
        return self._settle()

    def take(self, heard: Heard) -> tuple[Reply, bool] | None:
        """The reply to a line, and whether it still waits; None when the line is about something
        else."""
        if self._decision is None:
            choices = self._choices()
            choice = picked(choices, heard)
            if choice is None:
                return None
            self._options = (self._options[choices.index(choice)],)
            return self._settle()
        text, ground = ground_of(heard.text, answering=True)
        consent = agreed(text)
        if consent is None and (text or not ground):
            return None
        if ground:
            self._ground = self._ground.with_more(ground)
            self._decision = replace(
                self._decision, who=self._ground.who, because=self._ground.because
            )
        if consent is None:
            return self.show(self._talk.spoken_system), True
        if not consent:
            return Reply(DONE, "Left as it was; nothing is written.", intent=INTENT), False
        return self._write()

    def show(self, system: System) -> Reply:
        """What stands asked."""
        if self._decision is None:
            return no(
                "Which one is it to be?", needs=("which figure",), heard=self._heard.said(),
                choices=tuple(choice.label for choice in self._choices()),
            )
        option, decision = self._options[0], self._decision
        now = self._talk.knowledge.resolve(option.rule_id).figures[option.key]
        lines = [f"{option.figure.name}: {now.shown(system)} ({now.layer}) -> "
                 f"{option.shown(system)} (house)"]
        lines.append(
            f"by {decision.who or 'nobody named (say `yes, by ...`)'}, {decision.when}"
            + (f", because {decision.because}" if decision.because else "")
        )
        lines.append("for every film; a film sheet still speaks over it" + self._variants())
        if option.far:
            lines.append("far from the figure that holds: is it meant?")
        too_much = now.too_much
        if too_much is not None and option.quantities[1].si > too_much.si:
            lines.append("past where the rule says that it does harm")
        shipped = self._talk.knowledge.rules[option.rule_id].figures[option.key]
        looser = LOOSER if loosened(shipped, decision.change) is not None else ""
        return Reply(
            ASKS,
            f"House rule for \"{option.title}\": {option.shown(system)} in place of the "
            f"{now.layer} {now.shown(system)}.{looser} Write it? yes / no",
            intent=INTENT, heading="House rule", heard=self._heard.said(), needs=NEEDS,
            rules=(option.rule_id,), working=tuple(lines), assumed=option.assumed,
        )

    # -- the steps -------------------------------------------------------------------------------

    def _choices(self) -> list[Choice]:
        several = len({option.rule_id for option in self._options}) > 1
        return [
            Choice(f"{option.title}: {option.figure.name}" if several else option.figure.name,
                   str(number))
            for number, option in enumerate(self._options)
        ]

    def _settle(self) -> tuple[Reply, bool]:
        """The choice among several, the refusal, or the proposal."""
        system = self._talk.spoken_system
        if len(self._options) > 1:
            return self.show(system), True
        option = self._options[0]
        wrong = self._refusal(option)
        if wrong is not None:
            return no(wrong, heard=self._heard.said(), rules=(option.rule_id,)), False
        change = change_of(option.figure.role, option.low, option.high, option.unit)
        if isinstance(change, str):
            return no(change, heard=self._heard.said(), rules=(option.rule_id,)), False
        decision = Decision(
            option.rule_id, option.key, change, self._ground.who,
            self._talk.now().date().isoformat(), self._ground.because,
        )
        fault = forbidden(self._talk.knowledge, decision)
        if fault is not None:
            return no(
                f"Not written: it {fault.wrong.rstrip('.')}. {fault.remedy}",
                heard=self._heard.said(), rules=(option.rule_id,), assumed=option.assumed,
            ), False
        now = self._talk.knowledge.resolve(option.rule_id).figures[option.key]
        if all(abs(one.si - other.si) < 1e-9 * max(1.0, abs(other.si))
               for one, other in zip(option.quantities, now.quantities(), strict=True)):
            return Reply(
                DONE, f"That holds already: {now.shown(system)}, {now.layer}. Nothing to write.",
                intent=INTENT, heading="House rule", rules=(option.rule_id,),
            ), False
        self._decision = decision
        return self.show(system), True

    def _refusal(self, option: Option) -> str | None:
        """What stands against deciding this figure here."""
        rule = self._talk.knowledge.rules[option.rule_id]
        if rule.layer == HOUSE:
            return f"\"{option.title}\" is a rule of your own: change it where it stands, in " \
                   f"{rule.file}."
        held = self._talk.knowledge.house.get(option.rule_id)
        if held is not None and not held.file.endswith(FILE):
            return f"\"{option.title}\" is decided in {held.file} already: change it there."
        turned = against_limit(option)
        if turned is not None:
            return f"Not written: {turned} ({option.figure.name}). Say which number you mean."
        return None

    def _variants(self) -> str:
        option = self._options[0]
        rule = self._talk.knowledge.rules[option.rule_id]
        own = [
            " and ".join((*variant.when.film, *variant.when.condition))
            for variant in rule.variants if option.key in variant.figures
        ]
        return f"; for {', '.join(own)} the rule has a figure of its own" if own else ""

    def _write(self) -> tuple[Reply, bool]:
        decision, keeper, talk = self._decision, self._keeper, self._talk
        assert decision is not None
        option, system = self._options[0], talk.spoken_system
        aside: list[str] = []

        def write() -> Written:
            written, moved = write_decision(keeper.home, decision)
            if moved is not None:
                aside.append(f"the old {FILE} was damaged and is kept as {moved.name}")
            return written

        wrong = keeper.put(
            f"the house rule for \"{option.title}\"", write,
            lambda ready: after_decision(ready, keeper.home),
        )
        if wrong is not None:
            return wrong.but(intent=INTENT, heading="House rule"), True
        rule = talk.knowledge.resolve(option.rule_id)
        return Reply(
            DONE, f"Written: {option.shown(system)} for {option.figure.name}"
            f"{by_words(decision.who, decision.when)}. `undo` takes it back.",
            intent=INTENT, heading="House rule", rules=(option.rule_id,), assumed=tuple(aside),
            layer=rule.layer, overrode=rule.overrode_in(system), basis=rule.basis,
            basis_words=basis_words(talk.knowledge, rule.basis, rule.source, rule.note),
        ), False


def by_words(who: str, when: str) -> str:
    """`, by the trainer, 2025-01-15`; what was not said is left out."""
    return "".join(f", {part}" for part in (who and f"by {who}", when) if part)
