"""House: the shop's own rules, its decisions about shipped ones, and its film sheets.

Owns what of a shop's files is taken, and that the rest is told and left out. Which layer then
speaks is resolved.py's; what may not be loosened, layers.py's.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from assistant.rules.films import FigureChange, FilmHead, FilmSheet, HouseOverride
from assistant.rules.folder import Document
from assistant.rules.knowledge import Knowledge
from assistant.rules.layers import HOUSE, figure_fault, words_faults
from assistant.rules.links import Ids, rule_with_links
from assistant.rules.models import Rule
from assistant.rules.problem import Problem, listed, near, quoted
from assistant.rules.validate import built

_TABLES = ("rules", "overrides", "film")


def take_house(
    knowledge: Knowledge, documents: Iterable[Document], problems: list[Problem]
) -> None:
    """Take the shop's files into the knowledge. Whatever is wrong is told and left out."""
    shipped_films = set(knowledge.films)
    fresh: list[Rule] = []
    for document in documents:
        data = document.data
        for name in data:
            if name not in _TABLES:
                problems.append(Problem(
                    document.shown, "", name, "is no table of a house file",
                    near(name, _TABLES, "A house file holds [rules.<id>] and [overrides.<id>], a "
                         "film sheet [film] and [overrides.<id>]."),
                ))
        if "film" in data:
            _take_sheet(knowledge, document, shipped_films, problems)
            continue
        fresh += _own_rules(knowledge, document, problems)
        take_decisions(knowledge, document, problems)
    ids = Ids(knowledge.rules, knowledge.calculations, knowledge.cautions, knowledge.sources,
              knowledge.left_out)
    for rule in fresh:
        knowledge.rules[rule.id] = rule_with_links(rule, ids, problems)
    sheets = [_checked_sheet(knowledge, sheet, problems) for sheet in knowledge.films.values()]
    knowledge.films = {sheet.id: sheet for sheet in sheets if sheet is not None}


def take_decisions(
    knowledge: Knowledge, document: Document, problems: list[Problem]
) -> None:
    """Take what one house file decides about shipped rules; its own rules are there already."""
    for name, table in _named(document, "overrides", problems):
        _take_override(knowledge, document, name, table, problems)


def checked_film_sheet(
    knowledge: Knowledge, document: Document, problems: list[Problem]
) -> FilmSheet | None:
    """The film sheet of a file without what it may not say; None when it is none."""
    sheet = film_sheet(document, problems)
    return None if sheet is None else _checked_sheet(knowledge, sheet, problems)


def _named(document: Document, section: str, problems: list[Problem]) -> list[tuple[str, Any]]:
    whole = document.data.get(section, {})
    if isinstance(whole, dict):
        return list(whole.items())
    problems.append(Problem(document.shown, "", section, f"is {quoted(whole)}",
                            f"Write tables: [{section}.<id>]."))
    return []


def _own_rules(
    knowledge: Knowledge, document: Document, problems: list[Problem]
) -> Iterable[Rule]:
    """Rules that the shop adds; they may not take the id of one that is there."""
    for name, table in _named(document, "rules", problems):
        where = f"rules.{name}"
        there = (knowledge.rules.get(name) or knowledge.calculations.get(name)
                 or knowledge.acts.get(name))
        if there is not None:
            remedy = "Name this one otherwise."
            if isinstance(there, Rule) and there.layer != HOUSE:
                remedy = f"To change the shipped rule write [overrides.{name}]; for a rule of " \
                         "your own take another id."
            problems.append(Problem(document.shown, where, "", f"is an id that {there.file} has",
                                    remedy))
            continue
        # A shop's rule is its practice unless it says otherwise.
        if isinstance(table, dict):
            table = {"stage": "any", "basis": "practice", **table}
        rule = built(Rule, table, document.shown, where, problems, id=name,
                     subject=HOUSE, layer=HOUSE)
        if rule is None:
            knowledge.left_out.add(name)
        else:
            knowledge.rules[name] = rule
            yield rule


def _take_override(
    knowledge: Knowledge, document: Document, name: str, table: Any, problems: list[Problem]
) -> None:
    where = f"overrides.{name}"
    rule = _overridden(knowledge, name, document.shown, where, problems)
    if rule is None:
        return
    if name in knowledge.house:
        problems.append(Problem(
            document.shown, where, "", f"is decided in {knowledge.house[name].file} already",
            "Keep one of the two.",
        ))
        return
    made = built(HouseOverride, table, document.shown, where, problems, id=name)
    if made is None:
        return
    changes: dict[str, Any] = {}
    figures = _sound_figures(rule, made.figures, document.shown, f"{where}.figures", problems)
    for fault in words_faults(rule, made, knowledge.cautions):
        problems.append(Problem(document.shown, where, fault.key, fault.wrong, fault.remedy))
        changes[fault.key] = None
    if len(figures) != len(made.figures):
        changes["figures"] = figures
    knowledge.house[name] = made.model_copy(update=changes) if changes else made


def _overridden(
    knowledge: Knowledge, name: str, file: str, where: str, problems: list[Problem]
) -> Rule | None:
    rule = knowledge.rules.get(name)
    if rule is None and name in knowledge.left_out:
        return None
    if rule is None or rule.layer == HOUSE:
        problems.append(Problem(
            file, where, "", "is no shipped rule" if rule is None else "is a rule of the shop",
            near(name, knowledge.rules, "`topics` lists the rules.") if rule is None
            else f"Change it where it stands, in {rule.file}.",
        ))
        return None
    return rule


def _sound_figures(
    rule: Rule, figures: Mapping[str, FigureChange], file: str, where: str,
    problems: list[Problem],
) -> dict[str, FigureChange]:
    kept = {}
    for name, change in figures.items():
        fault = figure_fault(rule, name, change)
        if fault is None:
            kept[name] = change
        else:
            problems.append(Problem(file, f"{where}.{name}", fault.key, fault.wrong,
                                    fault.remedy))
    return kept


def _take_sheet(
    knowledge: Knowledge, document: Document, shipped: set[str], problems: list[Problem]
) -> None:
    sheet = film_sheet(document, problems)
    if sheet is None:
        return
    # The shop's sheet of a film takes the place of a shipped one.
    if sheet.id in knowledge.films and sheet.id not in shipped:
        problems.append(Problem(
            document.shown, "film", "", f"is the film of {knowledge.films[sheet.id].file} already",
            "Keep one of the two.",
        ))
        return
    shipped.discard(sheet.id)
    knowledge.films[sheet.id] = sheet


def film_sheet(document: Document, problems: list[Problem]) -> FilmSheet | None:
    """The film sheet of a file; a number in it that cannot be is left out alone."""
    film = built(FilmHead, document.data.get("film"), document.shown, "film", problems)
    if film is None:
        return None
    overrides: dict[str, dict[str, FigureChange]] = {}
    for name, table in _named(document, "overrides", problems):
        where = f"overrides.{name}"
        if not isinstance(table, dict):
            problems.append(Problem(document.shown, where, "", f"is {quoted(table)}",
                                    f"Write a table for the figure: [{where}.<figure>]."))
            continue
        changes = {
            figure: change for figure, each in table.items()
            if (change := built(FigureChange, each, document.shown, f"{where}.{figure}", problems))
        }
        overrides[name] = changes
    return FilmSheet(id=document.stem.removeprefix("sheet-"), film=film, overrides=overrides,
                     file=document.shown)


def _checked_sheet(
    knowledge: Knowledge, sheet: FilmSheet, problems: list[Problem]
) -> FilmSheet | None:
    """The sheet without what it may not say; None when its film is of no family."""
    if sheet.film.family is not None and sheet.film.family not in knowledge.families:
        problems.append(Problem(
            sheet.file, "film", "family", f"is {quoted(sheet.film.family)}, which is no family",
            near(sheet.film.family, knowledge.families,
                 f"One of {listed(sorted(knowledge.families))}."),
        ))
        return None
    overrides = {}
    for name, changes in sheet.overrides.items():
        where = f"overrides.{name}"
        rule = _overridden(knowledge, name, sheet.file, where, problems)
        if rule is None:
            continue
        kept = _sound_figures(rule, changes, sheet.file, where, problems)
        if kept:
            overrides[name] = kept
    return sheet if overrides == sheet.overrides else sheet.model_copy(
        update={"overrides": overrides}
    )
