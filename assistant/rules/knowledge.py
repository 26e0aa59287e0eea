"""Knowledge: everything that was loaded, and the questions it answers.

Owns the look-ups. Reading the files is load.py's, the order of the layers layers.py's and
resolved.py's.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from assistant.hearing.lexicon import Lexicon
from assistant.quantity.write import System
from assistant.routing.intent import Intent
from assistant.rules.intents import (
    intent_of_act,
    intent_of_calculation,
    intent_of_rule,
)
from assistant.rules.problem import Problem
from assistant.rules.resolved import SHEET_SOURCE, ResolvedRule, resolved

if TYPE_CHECKING:
    from assistant.rules.entries import ActEntry, CalculationEntry
    from assistant.rules.films import FilmFamily, FilmSheet, HouseOverride
    from assistant.rules.glossary_entry import Term
    from assistant.rules.kits import Kit
    from assistant.rules.models import Asked, Caution, Rule, Source
    from assistant.rules.vehicles import Vehicle


@dataclass(slots=True)
class Knowledge:
    """The knowledge base.

    rules      shipped rules and the shop's own, by id
    house      what the shop decided about shipped rules, by the id of the rule
    films      film sheets by id (`ninefathom-satin`), families by id (`satin`)
    words      the glossary: terms of the trade by id
    vehicles   body classes with their usual panels, by id
    kits       what must lie ready before a part of the job, by id
    names      "words", "vehicles" and "kits": plain name (naming.py) -> the ids that have it
    lexicon    plain data for hearing/: {"things": {id: {"words": [...], "broader": id}}, ...}
    problems   what was wrong in the files, all at once; each was left out
    left_out   ids of entries that were left out: what leads to them needs no second telling
    """

    rules: dict[str, Rule] = field(default_factory=dict)
    house: dict[str, HouseOverride] = field(default_factory=dict)
    calculations: dict[str, CalculationEntry] = field(default_factory=dict)
    acts: dict[str, ActEntry] = field(default_factory=dict)
    films: dict[str, FilmSheet] = field(default_factory=dict)
    families: dict[str, FilmFamily] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    cautions: dict[str, Caution] = field(default_factory=dict)
    words: dict[str, Term] = field(default_factory=dict)
    vehicles: dict[str, Vehicle] = field(default_factory=dict)
    kits: dict[str, Kit] = field(default_factory=dict)
    names: dict[str, dict[str, list[str]]] = field(default_factory=dict)
    lexicon: dict[str, dict[str, Any]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    left_out: set[str] = field(default_factory=set)

    # -- for hearing and routing ---------------------------------------------------------------

    def entries(self) -> Iterator[Asked]:
        """All that can be asked for: rules, calculations, acts."""
        yield from self.rules.values()
        yield from self.calculations.values()
        yield from self.acts.values()

    def intents(self) -> tuple[Intent, ...]:
        """All that can be asked for, as routing sees it."""
        return (
            *map(intent_of_rule, self.rules.values()),
            *map(intent_of_calculation, self.calculations.values()),
            *map(intent_of_act, self.acts.values()),
        )

    def hearing_lexicon(self) -> Lexicon:
        """The words of the trade, with the words of all phrases and rules and the names of all
        films."""
        return Lexicon.build(self.lexicon, (
            text
            for intent in self.intents()
            for text in (*intent.phrases, intent.title, intent.text)
        ))

    # -- rules -----------------------------------------------------------------------------------

    def resolve(
        self, rule_id: str, film_sheet: str | None = None, family: str | None = None,
        conditions: Iterable[str] = (),
    ) -> ResolvedRule:
        """A rule as it holds now: shipped, under house, under the film sheet.

        film_sheet  id of the sheet of the film in hand; its family counts when none is given
        family      id of the family that is spoken of
        conditions  concepts that hold: repainted, alone, cold ...
        Raises KeyError for an id that is no rule or no film sheet.
        """
        sheet = None if film_sheet is None else self.films[film_sheet]
        if sheet is not None and family is None:
            family = sheet.film.family
        return resolved(
            self.rules[rule_id], self.house.get(rule_id), sheet, self.with_broader(family),
            conditions, lambda name, system: self._figure_words(name, system, sheet),
        )

    def _figure_words(self, name: str, system: System, sheet: FilmSheet | None) -> str | None:
        rule_id, _, figure = name.partition(".")
        if rule_id not in self.rules:
            return None
        other = self.resolve(rule_id, None if sheet is None else sheet.id)
        return other.figures[figure].shown(system) if figure in other.figures else None

    def by_stage(self, stage: str) -> tuple[Rule, ...]:
        """The rules of a stage of the job, in the order of the files."""
        return tuple(rule for rule in self.rules.values() if rule.stage == stage)

    def by_subject(self) -> dict[str, tuple[Rule, ...]]:
        """The rules by the file that holds them."""
        found: dict[str, list[Rule]] = {}
        for rule in self.rules.values():
            found.setdefault(rule.subject, []).append(rule)
        return {subject: tuple(rules) for subject, rules in found.items()}

    def text_of(self, rule_id: str, system: System = System.US) -> str:
        """What a rule says, why, and its steps, figures filled in, as one text."""
        rule = self.resolve(rule_id)
        return " ".join(
            part for part in (rule.says(system), rule.why(system), *rule.steps(system)) if part
        )

    # -- films -----------------------------------------------------------------------------------

    def sheet_named(self, films: Iterable[str]) -> str | None:
        """The film sheet among concepts of films; None when none is."""
        return next((name for name in sorted(films) if name in self.films), None)

    def family_named(self, films: Iterable[str]) -> str | None:
        """The family among concepts of films, or that of the film sheet among them."""
        named = sorted(films)
        family = next((name for name in named if name in self.families), None)
        sheet = self.sheet_named(named)
        return family if family is not None or sheet is None else self.films[sheet].film.family

    def with_broader(self, family: str | None) -> frozenset[str]:
        """A family and what it is a case of: carbon is a textured film."""
        found: set[str] = set()
        films: Mapping[str, Any] = self.lexicon.get("films", {})
        while family is not None and family not in found:
            found.add(family)
            family = films.get(family, {}).get("broader")
        return frozenset(found)

    # -- what it rests on ------------------------------------------------------------------------

    def source_title(self, source: str | None) -> str | None:
        """A source in words; a film sheet's is the bulletin that was typed into it."""
        if source is None:
            return None
        if source.startswith(SHEET_SOURCE):
            sheet = self.films.get(source.removeprefix(SHEET_SOURCE))
            name = sheet.film.name if sheet is not None else source.removeprefix(SHEET_SOURCE)
            return f"bulletin of {name}, as typed into its film sheet"
        found = self.sources.get(source)
        return found.title if found is not None else None

    def concepts(self, kind: str) -> frozenset[str]:
        """The ids of the concepts of a kind: thing | doing | wish | film | condition."""
        from assistant.rules.lexicon_file import CONCEPTS

        section = dict(zip(("thing", "doing", "wish", "film", "condition"), CONCEPTS,
                           strict=True))[kind]
        return frozenset(self.lexicon.get(section, {}))
