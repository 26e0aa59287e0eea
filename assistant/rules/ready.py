"""Ready: the knowledge with its lexicon and its router, set up for questions.

Owns the compiled index on file: reading four hundred rules and hearing every phrase takes seconds,
taking up what was worked out before takes a tenth of one. It is rebuilt when any file it came from
changes, and silently when it is damaged.
"""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from hashlib import blake2b
from pathlib import Path
from typing import Any

from assistant import __version__
from assistant.hearing.lexicon import Lexicon
from assistant.routing.intent import Intent
from assistant.routing.router import Router
from assistant.rules.knowledge import Knowledge
from assistant.rules.problem import Problem
from assistant.rules.record import SHAPES, Defaults, taken_up
from assistant.store.kept import Shelf, keep, kept_folder, recall
from assistant.store.paths import film_sheets, home, house_rules, shipped_folder

# Rooms whose code decides what the index holds: a changed file there makes it out of date.
_ROOMS = ("hearing", "routing", "rules", "quantity")
_MODELS = {
    "rules": "Rule", "house": "HouseOverride", "calculations": "CalculationEntry",
    "acts": "ActEntry", "films": "FilmSheet", "families": "FilmFamily", "sources": "Source",
    "cautions": "Caution", "words": "Term", "vehicles": "Vehicle",
    "kits": "Kit",
}
_SETS = ("things", "doings", "films", "conditions", "wishes", "takes", "gives")


@dataclass(frozen=True, slots=True)
class Ready:
    """All that answering a line needs."""

    knowledge: Knowledge
    intents: dict[str, Intent]
    lexicon: Lexicon
    router: Router

    @classmethod
    def of(cls, knowledge: Knowledge) -> Ready:
        """The index of a knowledge base, worked out anew."""
        intents = knowledge.intents()
        lexicon = knowledge.hearing_lexicon()
        return cls(
            knowledge, {intent.id: intent for intent in intents}, lexicon,
            Router.build(intents, lexicon),
        )


class _OnDemand(dict[str, Any]):
    """Entries by id that are taken up when they are first asked for: one answer needs one rule."""

    def __init__(
        self, model: str, places: Mapping[str, list[int]], shelf: Shelf, defaults: Defaults
    ) -> None:
        super().__init__(places)
        self._model = model
        self._shelf = shelf
        self._defaults = defaults

    def __getitem__(self, key: str) -> Any:
        held = super().__getitem__(key)
        if isinstance(held, list):
            held = taken_up(self._model, self._shelf.get(held), self._defaults)
            super().__setitem__(key, held)
        return held

    def get(self, key: str, default: Any = None) -> Any:
        return self[key] if key in self else default

    def values(self) -> Any:
        return [self[key] for key in self]

    def items(self) -> Any:
        return [(key, self[key]) for key in self]


def make_ready(house: Path | None = None, keep_in: Path | None = None) -> Ready:
    """The knowledge that comes with the program under the shop's own, ready for questions.

    house    as for load(); None: the folder that BAYHAND_HOME names
    keep_in  the folder of kept results; None: that of the shop
    """
    folder = home() if house is None else house
    shipped = shipped_folder()
    path = (kept_folder() if keep_in is None else keep_in) / "index.json"
    key = index_key(shipped, folder)
    # Taking up the index makes a hundred thousand small objects and no rubbish: looking for some
    # after every few hundred of them would take a third of the time.
    collecting = gc.isenabled()
    gc.disable()
    try:
        kept = recall(path, key)
        if kept is not None:
            try:
                return _from_data(*kept)
            except (KeyError, TypeError, ValueError, IndexError, AttributeError):
                pass  # sound JSON of another form: as good as none
    finally:
        if collecting:
            gc.enable()
    # Reading and checking the files takes modules that a kept index has no use for.
    from assistant.rules.load import load

    ready = Ready.of(load(house=folder))
    shelf = Shelf()
    keep(path, key, _to_data(ready, shelf), shelf)
    return ready


def index_key(shipped: Path, house: Path) -> str:
    """What the index was made from: every file's name, size and time of change."""
    marks = [__version__]
    rooms = Path(__file__).resolve().parents[1]
    places = [
        *(rooms / room for room in _ROOMS), shipped, house_rules(house), film_sheets(house), house,
    ]
    for place in places:
        marks += _marks(place, deep=place != house)
    return blake2b("\n".join(marks).encode("utf-8", "surrogateescape"), digest_size=16).hexdigest()


def _marks(folder: Path, deep: bool) -> Iterator[str]:
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError as error:
        yield f"{folder} {error.errno}"
        return
    for entry in entries:
        try:
            if entry.is_dir():
                if deep and entry.name != "__pycache__":
                    yield from _marks(Path(entry.path), deep)
            elif entry.name.endswith((".toml", ".py")):
                stat = entry.stat()
                yield f"{entry.path} {stat.st_size} {stat.st_mtime_ns} {stat.st_mode}"
        except OSError as error:
            yield f"{entry.path} {error.errno}"


def _to_data(ready: Ready, shelf: Shelf) -> dict[str, Any]:
    knowledge = ready.knowledge
    return {
        "entries": {
            part: {
                name: shelf.put(entry.model_dump(mode="json", exclude_defaults=True))
                for name, entry in getattr(knowledge, part).items()
            }
            for part in _MODELS
        },
        "defaults": _defaults(),
        "names": knowledge.names,
        "broader": {
            name: entry["broader"] for name, entry in knowledge.lexicon.get("films", {}).items()
            if entry.get("broader")
        },
        "problems": [
            [getattr(problem, each.name) for each in fields(Problem)]
            for problem in knowledge.problems
        ],
        "intents": [
            [
                sorted(value) if each.name in _SETS else value
                for each in fields(Intent)
                for value in [getattr(intent, each.name)]
            ]
            for intent in (_without_samples(intent) for intent in ready.intents.values())
        ],
        "lexicon": ready.lexicon.to_data(),
        "router": ready.router.to_data(),
    }


def _defaults() -> Defaults:
    """What every model that may be kept has where its dump says nothing."""
    from assistant.rules import entries, films, glossary_entry, kits, models, vehicles

    found = {}
    names = {*_MODELS.values(), *SHAPES, *(
        inner for held in SHAPES.values() for _, inner in held.values()
    )}
    for name in names:
        model = next(
            getattr(module, name)
            for module in (models, entries, films, glossary_entry, vehicles, kits)
            if hasattr(module, name)
        )
        found[name] = {
            key: field.get_default() for key, field in model.model_fields.items()
            if not field.is_required()
        }
        found[name] = {
            key: value.model_dump(mode="json") if hasattr(value, "model_dump") else value
            for key, value in found[name].items()
        }
    return found


def _without_samples(intent: Intent) -> Intent:
    """An intent as it is needed once the router is built: its phrases and text are in there."""
    return replace(intent, phrases=(), text="")


def _from_data(data: dict[str, Any], shelf: Shelf) -> Ready:
    entries = {
        part: _OnDemand(model, data["entries"][part], shelf, data["defaults"])
        for part, model in _MODELS.items()
    }
    knowledge = Knowledge(
        **entries,
        names=data["names"],
        lexicon={"films": {name: {"broader": of} for name, of in data["broader"].items()}},
        problems=[Problem(*values) for values in data["problems"]],
    )
    names = [each.name for each in fields(Intent)]
    intents = {}
    for values in data["intents"]:
        intent = Intent(**{
            name: frozenset(value) if name in _SETS else
            tuple(value) if isinstance(value, list) else value
            for name, value in zip(names, values, strict=True)
        })
        intents[intent.id] = intent
    lexicon = Lexicon.from_data(data["lexicon"])
    return Ready(
        knowledge, intents, lexicon,
        Router.from_data(data["router"], tuple(intents.values()), lexicon),
    )
