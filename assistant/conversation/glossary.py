"""Glossary: what a word of the trade means, as a reply.

Owns the wording of one meaning, and of two side by side with what tells them apart. Whether a line
asks for that is asking_words.py's; how the thing is done belongs to the rule that is named.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from assistant.conversation.asking_words import Asked
from assistant.conversation.wording import (
    basis_words,
    caution_texts,
    figure_of,
    see_also_titles,
)
from assistant.quantity.write import System
from assistant.reply import ANSWER, Figure, Reply
from assistant.routing.intent import Intent
from assistant.rules.naming import plain_name
from assistant.rules.template import fill, names

# A reply rests on the weakest of what it says.
_STRENGTH = ("memory", "practice", "published")
_START = 3  # letters of a name by which a title is worth a closer look
_LAYERS = ("film sheet", "house", "shipped")


class _Figures:
    """The figures that texts name, filled in; kept in the order in which they were told."""

    def __init__(self, knowledge: Any, system: System) -> None:
        self._knowledge = knowledge
        self._system = system
        self._told: dict[str, tuple[Figure, Any]] = {}

    def filled(self, text: str) -> str:
        for name in names(text):
            rule_id, _, key = name.partition(".")
            figure = self._knowledge.resolve(rule_id).figures[key]
            self._told[name] = (
                figure_of(figure.name, *figure.quantities(), figure.unit, self._system), figure
            )
        return fill(text, lambda name: self._told[name][0].shown)

    @property
    def figures(self) -> tuple[Figure, ...]:
        return tuple(figure for figure, _ in self._told.values())

    @property
    def rules(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name.partition(".")[0] for name in self._told))

    @property
    def bases(self) -> set[str]:
        return {figure.basis for _, figure in self._told.values()}

    @property
    def layer(self) -> str:
        spoken = {figure.layer for _, figure in self._told.values()}
        return next((layer for layer in _LAYERS if layer in spoken), "shipped")


def tell_words(
    knowledge: Any, intents: Iterable[Intent], asked: Asked, system: System
) -> Reply:
    """The reply to a question about one word or two.

    intents  all that can be asked for: a rule whose title names both words tells them apart
    """
    terms = [knowledge.words[name] for name in dict.fromkeys(asked.terms)]
    figures = _Figures(knowledge, system)
    comparing: tuple[str, ...] = ()
    if len(terms) > 1:
        comparing = tuple(_comparing(intents, terms)[:1])
        answer = _side_by_side(knowledge, terms, asked, figures, comparing, system)
    elif len(asked.terms) > 1:
        answer = _one_thing(terms[0], asked, figures)
    else:
        answer = _one_meaning(terms[0], asked.called[0], figures)
    own = tuple(term.rule for term in terms if term.rule is not None)
    rules = tuple(dict.fromkeys((*comparing, *own, *figures.rules)))
    basis = min((*(term.basis for term in terms), *figures.bases), key=_STRENGTH.index)
    source = terms[0].source if len(terms) == 1 and basis == "published" else None
    return Reply(
        ANSWER,
        answer,
        intent="word:" + "+".join(term.id for term in terms),
        heading=" and ".join(_capital(term.term) for term in terms),
        heard=f"{' and '.join(term.term for term in terms)}: what is meant",
        rules=rules,
        figures=figures.figures,
        sketch=tuple(knowledge.resolve(own[0]).sketch) if len(terms) == 1 and own else (),
        cautions=caution_texts(knowledge, (name for term in terms for name in term.cautions)),
        basis=basis,
        basis_words=basis_words(knowledge, basis, source, None),
        layer=figures.layer,
        source=knowledge.source_title(source),
        see_also=see_also_titles(knowledge, rules),
    )


def _one_meaning(term: Any, called: str, figures: _Figures) -> str:
    means = figures.filled(term.means)
    if not _alike(called, term.term):
        means = f"{_capital(_as_written(term, called))}, another word for {term.term}. {means}"
    return _with_difference(means, term, figures)


def _with_difference(means: str, term: Any, figures: _Figures) -> str:
    apart = figures.filled(term.not_to_confuse)
    return f"{means} {apart}" if apart else means


def _one_thing(term: Any, asked: Asked, figures: _Figures) -> str:
    """Two names of one thing."""
    called = list(dict.fromkeys(_as_written(term, name) for name in asked.called))
    words = f"{' and '.join(called)} are two names for the same thing." if len(called) > 1 else (
        f"{called[0]} is one word, with one meaning."
    )
    words = f"Yes, {words}" if asked.same else _capital(words)
    return f"{words} {figures.filled(term.means)}"


def _side_by_side(
    knowledge: Any, terms: list[Any], asked: Asked, figures: _Figures,
    comparing: tuple[str, ...], system: System,
) -> str:
    lines = ["No, they are two things."] if asked.same else []
    lines += [f"{_capital(term.term)}: {figures.filled(term.means)}" for term in terms]
    apart = [
        term.not_to_confuse
        for term, other in (terms, reversed(terms)) if _speaks_of(term.not_to_confuse, other)
    ]
    # A rule that compares them says it best; its figures, if it has any, would answer another
    # question.
    told = [
        knowledge.resolve(rule).says(system)
        for rule in comparing if not names(knowledge.resolve(rule).rule.says)
    ]
    lines += told or ([figures.filled(max(apart, key=len))] if apart else [])
    return "\n".join(lines)


def _comparing(intents: Iterable[Intent], terms: list[Any]) -> list[str]:
    """The rules whose title names both words."""
    # Most titles share no letters with the words: those are not looked at closely.
    starts = [
        {plain_name(name)[:_START] for name in (term.term, *term.also)} for term in terms
    ]
    return [
        intent.id for intent in intents
        if intent.kind == "rule"
        and all(any(start in intent.title.lower() for start in some) for some in starts)
        and all(_speaks_of(intent.title, term) for term in terms)
    ]


def _speaks_of(text: str, term: Any) -> bool:
    told = f" {plain_name(text)} "
    return any(f" {plain_name(name)} " in told for name in (term.term, *term.also))


def _alike(called: str, term: str) -> bool:
    """Whether a name differs from the term only in form: "post heating", "post-heat"."""
    one, other = (set(plain_name(each).split()) for each in (called, term))
    stems = {word[:4] for word in other}
    return any(word[:4] in stems for word in one)


def _as_written(term: Any, called: str) -> str:
    return next((name for name in (term.term, *term.also) if plain_name(name) == called), called)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
