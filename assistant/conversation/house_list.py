"""House list: what the shop has decided, listed, and forgotten again.

Owns the telling of a decision and the way out of one. Making one is house_rule.py's, the file
rules/decisions.py's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from assistant.conversation.agreeing import NEEDS, agreed
from assistant.conversation.house_rule import EXAMPLE, INTENT, by_words, no
from assistant.conversation.keeping import Keeper
from assistant.conversation.picking import Choice, picked
from assistant.hearing.heard import Heard
from assistant.quantity.write import System
from assistant.reply import DONE, Reply
from assistant.rules.afresh import after_decision
from assistant.rules.decisions import FILE, decided, decisions_file, forget_decision
from assistant.rules.layers import HOUSE
from assistant.store.paths import home


@dataclass
class Forget:
    """A house rule to be forgotten, once it is agreed."""

    talk: Any
    keeper: Keeper
    rule_ids: Sequence[str]
    waits = False
    dropped = "the house rule stays"

    def begin(self) -> tuple[Reply, bool]:
        """The first reply, and whether it waits for an answer."""
        if len(self.rule_ids) > 1:
            return self.show(self.talk.spoken_system), True
        override = self.talk.knowledge.house[self.rule_ids[0]]
        if not override.file.endswith(FILE):
            return no(f"That one stands in {override.file}: take it out there.",
                      rules=(self.rule_ids[0],)), False
        return self.show(self.talk.spoken_system), True

    def take(self, heard: Heard) -> tuple[Reply, bool] | None:
        """The reply to a line; None when the line is about something else."""
        if len(self.rule_ids) > 1:
            choices = self._choices()
            choice = picked(choices, heard)
            if choice is None:
                return None
            self.rule_ids = (choice.intent_id,)
            return self.begin()
        consent = agreed(heard.text)
        if consent is None:
            return None
        if not consent:
            return Reply(DONE, "It stays.", intent=INTENT), False
        return self._forget()

    def show(self, system: System) -> Reply:
        """What stands asked."""
        if len(self.rule_ids) > 1:
            return no("Which house rule?", needs=("which house rule",),
                      choices=tuple(choice.label for choice in self._choices()))
        told = told_override(self.talk.knowledge, self.rule_ids[0], system)
        return no(f"Forget this house rule? yes / no\n{told}", needs=NEEDS,
                  rules=(self.rule_ids[0],))

    def _choices(self) -> list[Choice]:
        return [Choice(self.talk.knowledge.rules[rule_id].title, rule_id)
                for rule_id in self.rule_ids]

    def _forget(self) -> tuple[Reply, bool]:
        rule_id, keeper = self.rule_ids[0], self.keeper
        title = self.talk.knowledge.rules[rule_id].title
        today = self.talk.now().date().isoformat()
        try:
            wrong = keeper.put(
                f"the forgetting of the house rule for \"{title}\"",
                lambda: forget_decision(keeper.home, rule_id, today)[0],
                lambda ready: after_decision(ready, keeper.home),
            )
        except KeyError:
            self.talk.take_up(after_decision(self.talk.ready, keeper.home))
            return no("It is not in the file any more."), False
        if wrong is not None:
            return wrong.but(intent=INTENT), True
        rule = self.talk.knowledge.resolve(rule_id)
        holds = "; ".join(figure.shown(self.talk.spoken_system) for figure in
                          rule.figures.values())
        return Reply(
            DONE, f"Forgotten: \"{title}\" is {rule.layer} again ({holds}). `undo` brings the "
            "house rule back.", intent=INTENT, heading="House rule", rules=(rule_id,),
            layer=rule.layer,
        ), False


def told_override(knowledge: Any, rule_id: str, system: System) -> str:
    """A house rule in a line: what holds, in place of what, by whom, since when, why."""
    override, rule = knowledge.house[rule_id], knowledge.resolve(rule_id)
    parts = [
        f"{each.name} {rule.figures[key].shown(system)}, in place of {each.layer} "
        f"{each.figure.shown(system)}"
        for each in rule.replaced
        for key in override.figures if rule.figures[key].name == each.name
    ] or ["other words for it"]
    by = by_words(override.who, override.when) or ", by nobody named"
    why = f", because {override.because}" if override.because else ""
    return f"{rule.title}: {'; '.join(parts)}{by}{why}"


def house_rules(talk: Any) -> Reply:
    """All that the shop has decided, with who and when."""
    knowledge = talk.knowledge
    lines = [
        told_override(knowledge, override.id, talk.spoken_system)
        for override in decided(knowledge)
    ] + [
        f"{rule.title}: a rule of your own, in {rule.file}"
        for rule in knowledge.rules.values() if rule.layer == HOUSE
    ]
    if not lines:
        return Reply(
            DONE, f"No house rules yet: the shipped rules speak. Say one: `{EXAMPLE}`.",
            intent="house-rules", heading="House rules",
        )
    count = "One house rule" if len(lines) == 1 else f"{len(lines)} house rules"
    return Reply(
        DONE, f"{count}, in {decisions_file(home()).parent}:", intent="house-rules",
        heading="House rules", working=tuple(lines), layer=HOUSE,
    )


def no_house_rule(talk: Any, what: str | None) -> Reply:
    """There is nothing to forget."""
    held = [talk.knowledge.rules[override.id].title for override in decided(talk.knowledge)]
    if not held:
        return Reply(DONE, "There are no house rules to forget.", intent=INTENT)
    return no(f"There is no house rule on {what}. There are: {'; '.join(held)}." if what else
              f"Which one? There are: {'; '.join(held)}.")
