"""Soundness: what makes an entry a good one, beyond being readable.

Owns the questions that a careful colleague would ask of each rule, sum and act. Whether the
router finds them is proof.py's; whether a file can be read at all, load.py's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from assistant.rules.entries import CalculationEntry
from assistant.rules.knowledge import Knowledge
from assistant.rules.lexicon_file import CONCEPTS
from assistant.rules.models import Asked, FigureSpec, Rule
from assistant.rules.names_check import names_unsound
from assistant.rules.problem import Problem, quoted
from assistant.rules.resolved import SHEET_SOURCE
from assistant.rules.template import names

LONGEST_PHRASE = 25   # words
MOST_STEPS = 7
FEWEST_REACHES = 2

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_FIGURE_ID = re.compile(r"[a-z0-9]+(?:[_-][a-z0-9]+)*")
_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*")
# Words that speak of what can hurt. "Lift" alone is mostly what an edge does and fuel mostly what
# drips on a film, so both are known by their company.
_HAZARDS = re.compile(
    r"\b(?:blades?|knife|knives|scalpel|razor|heat[- ]guns?|torch|flame|solvents?|"
    r"isopropyl|alcohol|ipa|(?:with|in|using) (?:petrol|gasoline|fuel|thinners?)|"
    r"ladders?|step ?ladders?|airbags?|"
    r"high[- ]voltage|(?:on|under|off|from) (?:a|the) lift|(?:car|vehicle|two-post|post) lift|"
    r"post-heat|burns?|vapou?rs?)\b",
    re.IGNORECASE,
)
_DIRECTIONS = {
    "at_least": ("at least", "least", "minimum", "lowest"),
    "at_most": ("at most", "most", "maximum", "highest", "limit", "up to"),
    "over": ("over", "above", "beyond", "more than"),
}
_ABOUT = {"thing": "things", "doing": "doings", "film": "films", "condition": "conditions"}

Tell = Callable[[str, str, str], None]


def unsound(knowledge: Knowledge) -> Iterator[Problem]:
    """All that a careful colleague would send back, in the order of the files."""
    used = _Used(knowledge)
    for rule in knowledge.rules.values():
        yield from _of_rule(rule, knowledge, used)
    for entry in knowledge.calculations.values():
        yield from _of_asked(entry, "calculation", knowledge)
        yield from _of_calculation(entry)
    for act in knowledge.acts.values():
        yield from _of_asked(act, f"acts.{act.id}", knowledge)
    yield from _shared_phrases(knowledge)
    yield from used.never()
    yield from _words(knowledge)
    yield from names_unsound(knowledge)


def table_of(entry: Asked) -> str:
    """The TOML table that holds an entry."""
    if isinstance(entry, Rule):
        return f"rules.{entry.id}"
    return "calculation" if isinstance(entry, CalculationEntry) else f"acts.{entry.id}"


def same_words(text: str) -> str:
    """A line as its words alone, for telling two lines apart."""
    return " ".join(_WORD.findall(text.lower().replace("’", "'")))


def _of_asked(entry: Asked, table: str, knowledge: Knowledge) -> Iterator[Problem]:
    def problem(key: str, wrong: str, remedy: str) -> Problem:
        return Problem(entry.file, table, key, wrong, remedy)

    if not _ID.fullmatch(entry.id):
        yield problem("", "is no good id", "Lower case, digits and hyphens: like-this-one.")
    if not entry.phrases:
        yield problem("phrases", "is missing", "Write how people ask for it, four lines or more.")
    if len(entry.reaches) < FEWEST_REACHES:
        yield problem("reaches", f"has {len(entry.reaches) or 'no'} question"
                      + ("s" if len(entry.reaches) != 1 else ""),
                      "Write two or more that must end here, worded unlike the phrases.")
    if not entry.must_not_reach:
        yield problem("must_not_reach", "is missing",
                      "Write a near miss that belongs to another.")
    phrases = {same_words(phrase) for phrase in entry.phrases}
    for key in ("phrases", "reaches", "must_not_reach"):
        for number, line in enumerate(getattr(entry, key), 1):
            count = len(line.split())
            if key == "phrases" and count > LONGEST_PHRASE:
                yield problem(f"{key}[{number}]", f"has {count} words",
                              f"A phrase has at most {LONGEST_PHRASE}.")
            if key == "reaches" and same_words(line) in phrases:
                yield problem(f"{key}[{number}]", f"is the phrase {quoted(line)} again",
                              "A test is worded unlike the phrases.")
    for key, section in _ABOUT.items():
        for concept in getattr(entry.about, key):
            if concept not in knowledge.lexicon.get(section, {}):
                yield problem(f"about.{key}", f"names {quoted(concept)}, which is in no lexicon",
                              f"Write [{section}.{concept}] with its words, or name another.")


def _of_rule(rule: Rule, knowledge: Knowledge, used: _Used) -> Iterator[Problem]:
    table = f"rules.{rule.id}"
    yield from _of_asked(rule, table, knowledge)

    def problem(key: str, wrong: str, remedy: str) -> Problem:
        return Problem(rule.file, table, key, wrong, remedy)

    if not rule.why:
        yield problem("why", "is missing", "Write the reason in one line.")
    if len(rule.steps) > MOST_STEPS:
        yield problem("steps", f"has {len(rule.steps)} steps",
                      f"At most {MOST_STEPS}: join some, or split the rule.")
    if rule.about.thing == () and rule.about.doing == ():
        yield problem("about", "names no thing and no doing", "Name what a question must name.")
    if rule.source is not None and rule.basis != "published":
        yield problem("source", f'stands beside the basis "{rule.basis}"',
                      'Write basis = "published", or take the source out.')
    cautions = {*rule.cautions, *(name for each in rule.variants for name in each.cautions)}
    if not cautions:
        found = _HAZARDS.search(" ".join((rule.says, *rule.steps)))
        if found is not None:
            yield problem("cautions", f'is empty, and the rule speaks of "{found[0]}"',
                          "Name the caution that goes with it.")
    every = [(f"figures.{name}", name, figure) for name, figure in rule.figures.items()] + [
        (f"variants[{number}].figures.{name}", name, figure)
        for number, variant in enumerate(rule.variants, 1)
        for name, figure in variant.figures.items()
    ]
    for place, name, figure in every:
        yield from (
            problem(place, wrong, remedy) for wrong, remedy in _of_figure(name, figure)
        )
        if name not in used.figures_of(rule.id):
            yield problem(place, "is named in no text",
                          f"Put {{{name}}} where the rule says it, or take the figure out.")
    for number, variant in enumerate(rule.variants, 1):
        for key, section in (("film", "films"), ("condition", "conditions")):
            for concept in getattr(variant.when, key):
                if concept not in knowledge.lexicon.get(section, {}):
                    yield problem(f"variants[{number}].when.{key}",
                                  f"names {quoted(concept)}, which is in no lexicon",
                                  f"Write [{section}.{concept}] with its words, or name another.")


def _of_figure(name: str, figure: FigureSpec) -> Iterator[tuple[str, str]]:
    if not _FIGURE_ID.fullmatch(name):
        yield "is no good name", "Lower case, digits, hyphens or underscores."
    words = _DIRECTIONS.get(figure.role)
    if words is not None and not any(word in figure.name.lower() for word in words):
        yield (f"gives {figure.role}, and its name {quoted(figure.name)} does not say so",
               f'Put "{words[0]}" into the name.')
    if figure.basis == "practice" and figure.source is not None:
        yield "has a source beside a basis that is not published", "Take one of the two out."


def _of_calculation(entry: CalculationEntry) -> Iterator[Problem]:
    def problem(key: str, wrong: str, remedy: str) -> Problem:
        return Problem(entry.file, "calculation", key, wrong, remedy)

    if len(entry.example.split()) > LONGEST_PHRASE:
        yield problem("example", "is too long to be shown", "One line that works as it stands.")
    for name, slot in entry.slots.items():
        if slot.required and not slot.example:
            yield Problem(entry.file, f"slots.{name}", "example", "is missing",
                          "A required slot is asked for with an example: write one.")
        if slot.required and slot.default is not None:
            yield Problem(entry.file, f"slots.{name}", "default", "stands beside required = true",
                          "Take one of the two out.")


def _shared_phrases(knowledge: Knowledge) -> Iterator[Problem]:
    first: dict[str, Asked] = {}
    for entry in knowledge.entries():
        for number, phrase in enumerate(entry.phrases, 1):
            holder = first.setdefault(same_words(phrase), entry)
            if holder.id != entry.id and same_words(phrase):
                yield Problem(
                    entry.file, table_of(entry), f"phrases[{number}]",
                    f"is {quoted(phrase)}, which {holder.id} has too",
                    "Leave it with the one that answers it.",
                )


def _words(knowledge: Knowledge) -> Iterator[Problem]:
    for section in CONCEPTS:
        for name, concept in knowledge.lexicon.get(section, {}).items():
            broader = concept.get("broader")
            if broader is not None and broader not in knowledge.lexicon[section]:
                yield Problem("knowledge/lexicon", f"{section}.{name}", "broader",
                              f"is {quoted(broader)}, which is in no lexicon",
                              f"Write [{section}.{broader}], or name another.")


class _Used:
    """What is named somewhere: the figures of each rule, the sources, the cautions."""

    def __init__(self, knowledge: Knowledge) -> None:
        self._knowledge = knowledge
        self._figures: dict[str, set[str]] = {}
        self._sources: set[str] = set()
        self._cautions: set[str] = set()
        for rule in knowledge.rules.values():
            own = self._figures.setdefault(rule.id, set())
            texts = [rule.says, rule.why, rule.check, *rule.steps]
            for variant in rule.variants:
                texts += [variant.says or "", variant.why or "", variant.check or "",
                          *(variant.steps or ())]
                self._cautions.update(variant.cautions)
                self._note(variant.source, *variant.figures.values())
            for name in (name for text in texts for name in names(text)):
                other, _, figure = name.rpartition(".")
                (self._figures.setdefault(other, set()) if other else own).add(figure)
            self._cautions.update(rule.cautions)
            self._note(rule.source, *rule.figures.values())
        for entry in knowledge.calculations.values():
            self._cautions.update(entry.cautions)
            self._note(entry.source)
            for slot in entry.slots.values():
                if slot.default is not None and slot.default.rule and slot.default.figure:
                    self._figures.setdefault(slot.default.rule, set()).add(slot.default.figure)

    def _note(self, source: str | None, *figures: FigureSpec) -> None:
        self._sources.update(
            each for each in (source, *(figure.source for figure in figures)) if each
        )

    def figures_of(self, rule_id: str) -> set[str]:
        return self._figures.get(rule_id, set())

    def never(self) -> Iterator[Problem]:
        for source in self._knowledge.sources.values():
            if source.id not in self._sources and not source.id.startswith(SHEET_SOURCE):
                yield Problem(source.file, f"sources.{source.id}", "", "is a source of nothing",
                              "Name it where a figure rests on it, or take it out.")
        for caution in self._knowledge.cautions.values():
            if caution.id not in self._cautions:
                yield Problem(caution.file, f"cautions.{caution.id}", "",
                              "is a caution of nothing",
                              "Name it where it warns, or take it out.")


