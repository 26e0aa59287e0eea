"""Afresh: the knowledge after the shop has written a file, without setting all of it up again.

Owns what such a file changes and what it leaves alone. A decision about a figure changes no phrase
and no word, so hearing and routing stay; a film sheet adds the name of its film to the words. The
file is read back and checked like any other: what is not good in it is a problem, here as at the
next start. Setting everything up from the files is ready.py's.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from assistant.hearing.heard import FILM
from assistant.hearing.lexicon import WORD, Lexicon
from assistant.hearing.spelling import folded
from assistant.rules.decisions import decisions_file
from assistant.rules.films import FilmSheet
from assistant.rules.folder import Document, read
from assistant.rules.house import checked_film_sheet, take_decisions
from assistant.rules.knowledge import Knowledge
from assistant.rules.load import shown
from assistant.rules.problem import Problem
from assistant.rules.ready import Ready, index_key
from assistant.store.kept import Shelf, amend, kept_folder
from assistant.store.paths import shipped_folder

_ENTRIES = '{"entries":'  # how the kept index begins


def after_decision(ready: Ready, home: Path) -> Ready:
    """The same with the decisions as they stand in their file now."""
    path = decisions_file(home)
    name = _shown(path)
    knowledge = _copied(ready.knowledge, name)
    for rule_id in [rule_id for rule_id, each in knowledge.house.items() if each.file == name]:
        del knowledge.house[rule_id]
    document = _read(path, name, knowledge)
    if document is not None:
        take_decisions(knowledge, document, knowledge.problems)
    return replace(ready, knowledge=knowledge)


def after_sheet(ready: Ready, path: Path) -> Ready:
    """The same with a film sheet as it stands in its file now: come, changed or gone."""
    name = _shown(path)
    knowledge = _copied(ready.knowledge, name)
    document = _read(path, name, knowledge)
    sheet = None if document is None else checked_film_sheet(
        knowledge, document, knowledge.problems
    )
    film_id = path.stem.removeprefix("sheet-")
    knowledge.films.pop(film_id, None)
    films = dict(knowledge.lexicon.get("films", {}))
    films.pop(film_id, None)
    lexicon = without_film(ready.lexicon, film_id)
    if sheet is not None:
        knowledge.films[film_id] = sheet
        words = names_of(sheet)
        films[film_id] = {"words": list(words), "broader": sheet.film.family}
        lexicon = with_film(lexicon, film_id, words, sheet.film.family)
    knowledge.lexicon = {**knowledge.lexicon, "films": films}
    # The name of a sheet is taken out of a line before it is routed: routing knows no single film.
    return replace(ready, knowledge=knowledge, lexicon=lexicon)


def names_of(sheet: FilmSheet) -> tuple[str, ...]:
    """What a film is called, in lower case: its name first."""
    return tuple(word.lower() for word in (sheet.film.name, *sheet.film.words))


def with_film(
    lexicon: Lexicon, film_id: str, names: tuple[str, ...], broader: str | None
) -> Lexicon:
    """The lexicon with one more film, known by these names."""
    data = lexicon.to_data()
    bases = dict(data["bases"])
    groups: list[list[str]] = []
    for name in (*names, film_id.replace("-", " ")):
        words = [folded(found) for found in WORD.findall(name)]
        bases.update((word, lexicon.base(word)) for word in words if lexicon.base(word) != word)
        group = [bases.get(word, word) for word in words]
        if group and group not in groups:
            groups.append(group)
    # What is called so already stays called so: both are meant then.
    meant = {tuple(words): pairs for words, pairs in data["entries"] if list(words) in groups}
    return Lexicon.from_data({
        **data,
        "entries": [
            *(entry for entry in data["entries"] if list(entry[0]) not in groups),
            *([group, [*meant.get(tuple(group), ()), [FILM, film_id]]] for group in groups),
        ],
        "bases": bases,
        "broader": {**data["broader"], **({f"{FILM}:{film_id}": broader} if broader else {})},
    })


def without_film(lexicon: Lexicon, film_id: str) -> Lexicon:
    """The lexicon without a film; itself when it has none of that id."""
    data = lexicon.to_data()
    pair = [FILM, film_id]
    if not any(pair in [list(each) for each in pairs] for _, pairs in data["entries"]):
        return lexicon
    entries = [
        [words, [each for each in pairs if list(each) != pair]] for words, pairs in data["entries"]
    ]
    return Lexicon.from_data({
        **data,
        "entries": [[words, pairs] for words, pairs in entries if pairs],
        "broader": {
            name: of for name, of in data["broader"].items() if name != f"{FILM}:{film_id}"
        },
    })


def index_marks(home: Path) -> str:
    """What tells later whether the kept index was in date before a file was written."""
    return index_key(shipped_folder(), home)


def keep_decisions(home: Path, marks: str, before: Knowledge, knowledge: Knowledge) -> None:
    """Put the decisions into the kept index, so that the next start need not make it anew.

    marks   index_marks() from before the file was written: an index that was out of date stays so
    before  the knowledge before; where other problems were told, the index is left to be made anew
    Failing to keep it does no harm.
    """
    if knowledge.problems != before.problems:
        return

    def put(text: str, shelf: Shelf) -> str:
        if not text.startswith(_ENTRIES):
            raise ValueError("another form")
        entries, end = json.JSONDecoder().raw_decode(text, len(_ENTRIES))
        for rule_id in [each for each in entries["house"] if each not in knowledge.house]:
            del entries["house"][rule_id]
        for rule_id, each in knowledge.house.items():
            # One of another file may come out of the index: it is there as it was.
            if hasattr(each, "model_dump"):
                dumped = each.model_dump(mode="json", exclude_defaults=True)
                entries["house"][rule_id] = shelf.put(dumped)
        written = json.dumps(entries, ensure_ascii=False, separators=(",", ":"))
        return _ENTRIES + written + text[end:]

    with suppress(OSError):
        amend(kept_folder() / "index.json", marks, index_marks(home), put)


def _copied(knowledge: Knowledge, file: str) -> Knowledge:
    """The knowledge with its own tables of what the shop writes, without the file's problems."""
    return replace(
        knowledge,
        house={name: knowledge.house[name] for name in knowledge.house},
        films={name: knowledge.films[name] for name in knowledge.films},
        problems=[problem for problem in knowledge.problems if problem.file != file],
    )


def _shown(path: Path) -> str:
    """The file as the loader names it."""
    from assistant.hearing.plain import plain

    return plain(f"{shown(path.parent)}/{path.name}")


def _read(path: Path, name: str, knowledge: Knowledge) -> Document | None:
    if not os.path.lexists(path):
        return None
    document = read(path, name, clean=True)
    if isinstance(document, Problem):
        knowledge.problems.append(document)
        return None
    return document
