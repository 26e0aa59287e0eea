"""Load: the files of the knowledge and of the shop, as one Knowledge.

Owns which file may hold which tables. What can be wrong with a file as such is folder.py's, with a
table validate.py's, between tables links.py's, between layers layers.py's.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, TypeVar

from assistant.rules.entries import ActEntry, CalculationEntry
from assistant.rules.films import FilmFamily
from assistant.rules.folder import Document, read, toml_files
from assistant.rules.glossary_entry import Term
from assistant.rules.house import film_sheet, take_house
from assistant.rules.kits import Kit
from assistant.rules.knowledge import Knowledge
from assistant.rules.lexicon_file import CONCEPTS, GROUPS, LexiconFile
from assistant.rules.links import (
    Ids,
    calculation_with_links,
    kit_with_links,
    rule_with_links,
    word_with_links,
)
from assistant.rules.models import Caution, Model, Rule, Source
from assistant.rules.naming import names_of
from assistant.rules.problem import Problem, listed, near, quoted
from assistant.rules.validate import built
from assistant.rules.vehicles import Vehicle
from assistant.store.paths import film_sheets, home, house_rules, shipped_folder

M = TypeVar("M", bound=Model)

SHOWN = "knowledge"


def load(shipped: Path | None = None, house: Path | None = None) -> Knowledge:
    """The knowledge of a folder with the shop's own layers over it.

    shipped  a folder holding rules/, calculations/, intents/, films/, lexicon/, words/, vehicles/,
             kits/, sources.toml and cautions.toml; None: the knowledge that comes with the program
    house    the shop's folder, holding house/ and films/, or any folder of house files; None: the
             one that BAYHAND_HOME names. It need not exist.
    Whatever is wrong in a file is left out and told in `problems`; nothing is raised.
    """
    folder = shipped_folder() if shipped is None else shipped
    problems: list[Problem] = []
    knowledge = Knowledge(problems=problems)
    documents = shipped_documents(folder, SHOWN if shipped is None else shown(folder), problems)
    for part, take in _PARTS.items():
        for document in documents.get(part, ()):
            take(knowledge, document, problems)
    _settle(knowledge, problems)
    take_house(knowledge, house_documents(home() if house is None else house, problems), problems)
    _name_films(knowledge)
    return knowledge


def shown(path: Path) -> str:
    """A path as a person would write it from where they stand."""
    try:
        return path.resolve().relative_to(Path.cwd()).as_posix()
    except (ValueError, OSError):
        return str(path)


def shipped_documents(
    folder: Path, name: str, problems: list[Problem]
) -> dict[str, list[Document]]:
    """The files of a knowledge folder by the part they belong to."""
    found: dict[str, list[Document]] = {}
    for path, told in toml_files(folder, name, problems):
        part = path.relative_to(folder).parts[0]
        if part not in _PARTS:
            continue
        document = read(path, told)
        if isinstance(document, Problem):
            problems.append(document)
        else:
            found.setdefault(part, []).append(document)
    return found


def house_documents(folder: Path, problems: list[Problem]) -> list[Document]:
    """The shop's files: those in house/ and films/, or all in the folder when it has neither."""
    places = [house_rules(folder), film_sheets(folder)]
    if not any(os.path.lexists(place) for place in places):
        places = [folder] if folder.is_dir() else []
    found: list[Document] = []
    for place in places:
        for path, told in toml_files(place, shown(place), problems):
            document = read(path, told, clean=True)
            if isinstance(document, Problem):
                problems.append(document)
            else:
                found.append(document)
    return found


def tables(
    document: Document, wanted: Iterable[str], problems: list[Problem]
) -> Mapping[str, Any]:
    """The tables of a file by section; sections that do not belong there are told."""
    wanted = tuple(wanted)
    for name in document.data:
        if name not in wanted:
            problems.append(Problem(
                document.shown, "", name, "is no table of such a file",
                near(name, wanted, f"Such a file holds {listed(wanted, 'and')}."),
            ))
    return {name: document.data[name] for name in wanted if name in document.data}


def each_table(
    document: Document, section: str, problems: list[Problem]
) -> Iterable[tuple[str, Any]]:
    """The named tables of a section: [rules.<id>] gives (id, table)."""
    whole = document.data.get(section, {})
    if not isinstance(whole, dict):
        problems.append(Problem(document.shown, "", section, f"is {quoted(whole)}",
                                f"Write tables: [{section}.<id>]."))
        return ()
    return tuple(whole.items())


def add(kept: dict[str, M], made: M | None, table: str, problems: list[Problem]) -> None:
    """Keep an entry, unless its id is taken."""
    if made is None:
        return
    name, file = str(getattr(made, "id", "")), str(getattr(made, "file", ""))
    if name in kept:
        first = getattr(kept[name], "file", "")
        problems.append(Problem(file, table, "", f"is an id that {first} has",
                                "Ids are never used twice: name this one otherwise."))
        return
    kept[name] = made


def _take_rules(knowledge: Knowledge, document: Document, problems: list[Problem]) -> None:
    tables(document, ("rules",), problems)
    for name, table in each_table(document, "rules", problems):
        where = f"rules.{name}"
        made = built(Rule, table, document.shown, where, problems, id=name, subject=document.stem)
        if made is None:
            knowledge.left_out.add(name)
        add(knowledge.rules, made, where, problems)


def _take_calculation(knowledge: Knowledge, document: Document, problems: list[Problem]) -> None:
    parts = tables(document, ("calculation", "slots"), problems)
    head = parts.get("calculation")
    if not isinstance(head, dict):
        problems.append(Problem(document.shown, "calculation", "", "is missing",
                                "Write [calculation] with its id, title, example and phrases."))
        return
    name = head.get("id")
    if name != document.stem:
        problems.append(Problem(
            document.shown, "calculation", "id",
            "is missing" if name is None else f"is {quoted(name)}",
            f'The file is named for it: write id = "{document.stem}".',
        ))
        return
    head = {key: value for key, value in head.items() if key != "id"}
    # Slots have a table of their own in the file; the model holds them with the rest.
    made = built(
        CalculationEntry, head, document.shown, "calculation", found := [], id=name,
        slots=parts.get("slots", {}),
    )
    problems += [_slot_place(problem) for problem in found]
    if made is None:
        knowledge.left_out.add(document.stem)
    add(knowledge.calculations, made, "calculation", problems)


def _slot_place(problem: Problem) -> Problem:
    """Slots stand beside [calculation] in the file, not in it."""
    table, key = problem.table, problem.key
    if table.startswith("calculation.slots"):
        table = table.removeprefix("calculation.")
    elif key.startswith("slots."):
        whole, _, key = key.rpartition(".")
        table = whole
    return Problem(problem.file, table, key, problem.wrong, problem.remedy)


def _take_films(knowledge: Knowledge, document: Document, problems: list[Problem]) -> None:
    if "film" in document.data:
        tables(document, ("film", "overrides"), problems)
        add(knowledge.films, film_sheet(document, problems), "film", problems)
        return
    tables(document, ("families",), problems)
    for name, table in each_table(document, "families", problems):
        where = f"families.{name}"
        add(knowledge.families, built(
            FilmFamily, table, document.shown, where, problems, id=name,
        ), where, problems)


def _take_lexicon(knowledge: Knowledge, document: Document, problems: list[Problem]) -> None:
    data = document.data
    made = built(LexiconFile, data, document.shown, "", found := [])
    while made is None:
        # Only what is broken is left out: its section's entry, or the section itself.
        problems += found
        for problem in found:
            steps = [part for part in (*problem.table.split("."), problem.key) if part][:2]
            section = data.get(steps[0])
            data = {**data, steps[0]: {
                key: value for key, value in section.items() if key != steps[-1]
            }} if len(steps) > 1 and isinstance(section, dict) else {
                key: value for key, value in data.items() if key != steps[0]
            }
        made = built(LexiconFile, data, document.shown, "", found := [])
    for section in CONCEPTS:
        for name, concept in getattr(made, section).items():
            held = knowledge.lexicon.setdefault(section, {}).setdefault(name, {"words": []})
            held["words"] += [word for word in concept.words if word not in held["words"]]
            for key in ("broader", "hazard", "place", "reads"):
                if getattr(concept, key):
                    held[key] = getattr(concept, key)
    for section in GROUPS:
        for name, group in getattr(made, section).items():
            held = knowledge.lexicon.setdefault(section, {}).setdefault(name, {"words": []})
            held["words"] += group.words
    knowledge.lexicon.setdefault("spellings", {}).update(made.spellings)


def _take_vehicle(knowledge: Knowledge, document: Document, problems: list[Problem]) -> None:
    parts = tables(document, ("vehicle", "panels"), problems)
    head = parts.get("vehicle")
    if not isinstance(head, dict):
        problems.append(Problem(document.shown, "vehicle", "", "is missing",
                                "Write [vehicle] with its name, and [[panels]] below it."))
        return
    # The panels stand beside [vehicle] in the file; the model holds them.
    data = {**head, "panels": parts.get("panels", [])}
    made = built(Vehicle, data, document.shown, "vehicle", found := [], id=document.stem)
    problems += [
        replace(problem, table=problem.table.replace("vehicle.panels", "panels", 1))
        for problem in found
    ]
    add(knowledge.vehicles, made, "vehicle", problems)


def _take_kit(knowledge: Knowledge, document: Document, problems: list[Problem]) -> None:
    head = tables(document, ("kit",), problems).get("kit")
    if not isinstance(head, dict):
        problems.append(Problem(document.shown, "kit", "", "is missing",
                                "Write [kit] with its name, tools, consumables, hands, place."))
        return
    add(knowledge.kits, built(
        Kit, head, document.shown, "kit", problems, id=document.stem
    ), "kit", problems)


_Take = Callable[[Knowledge, Document, list[Problem]], None]


def _named(section: str, model: type[Model]) -> _Take:
    """Files of nothing but named tables: [cautions.<id>]."""
    def take(knowledge: Knowledge, document: Document, problems: list[Problem]) -> None:
        tables(document, (section,), problems)
        for name, table in each_table(document, section, problems):
            where = f"{section}.{name}"
            add(getattr(knowledge, section), built(
                model, table, document.shown, where, problems, id=name,
            ), where, problems)

    return take


# What a knowledge folder holds, by the first part of the path.
_PARTS: dict[str, _Take] = {
    "cautions.toml": _named("cautions", Caution),
    "sources.toml": _named("sources", Source),
    "lexicon": _take_lexicon,
    "films": _take_films,
    "rules": _take_rules,
    "calculations": _take_calculation,
    "intents": _named("acts", ActEntry),
    "words": _named("words", Term),
    "vehicles": _take_vehicle,
    "kits": _take_kit,
}


def _settle(knowledge: Knowledge, problems: list[Problem]) -> None:
    """Links that lead nowhere are told and dropped, once everything is there."""
    for kind, entries in (("calculation", knowledge.calculations), ("acts", knowledge.acts)):
        for name in [name for name in entries if name in knowledge.rules]:
            entry = entries.pop(name)
            problems.append(Problem(
                entry.file, f"acts.{name}" if kind == "acts" else kind, "",
                f"is an id that {knowledge.rules[name].file} has",
                "Ids are never used twice: name this one otherwise.",
            ))
    ids = Ids(knowledge.rules, knowledge.calculations, knowledge.cautions, knowledge.sources,
              knowledge.left_out)
    for name, rule in knowledge.rules.items():
        knowledge.rules[name] = rule_with_links(rule, ids, problems)
    for name, entry in knowledge.calculations.items():
        knowledge.calculations[name] = calculation_with_links(entry, ids, problems)
    for name, term in knowledge.words.items():
        knowledge.words[name] = word_with_links(term, ids, problems)
    for name, kit in knowledge.kits.items():
        knowledge.kits[name] = kit_with_links(kit, ids, problems)
    for part in ("words", "vehicles", "kits"):
        entries = getattr(knowledge, part)
        knowledge.names[part] = names_of({name: each.names() for name, each in entries.items()})


def _name_films(knowledge: Knowledge) -> None:
    """Each film can be called by its name: a concept of its own, narrower than its family."""
    films = knowledge.lexicon.setdefault("films", {})
    for name, sheet in knowledge.films.items():
        if name not in films:
            films[name] = {
                "words": [word.lower() for word in (sheet.film.name, *sheet.film.words)],
                "broader": sheet.film.family,
            }
