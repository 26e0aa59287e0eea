"""What several tests need: the shipped knowledge, a talk, text snapshots, a home of its own."""

from __future__ import annotations

import os
from datetime import datetime

import pytest
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

# Before Textual is imported anywhere: pictures of the screen must not depend on an animation.
os.environ.setdefault("TEXTUAL_ANIMATIONS", "none")

MORNING = datetime(2025, 1, 15, 7, 30)


class TextRows(SingleFileSnapshotExtension):
    """A snapshot a person can read: one text file each."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


@pytest.fixture
def snapshot(snapshot):
    return snapshot.use_extension(TextRows)


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    """The shop's own files: an empty folder, never those of whoever runs the tests."""
    folder = tmp_path / "home"
    folder.mkdir()
    monkeypatch.setenv("BAYHAND_HOME", str(folder))
    return folder


@pytest.fixture(scope="session")
def shop(tmp_path_factory):
    """An empty home that all started programs share, so that the rules are set up once."""
    return tmp_path_factory.mktemp("shop")


@pytest.fixture(scope="session")
def knowledge(tmp_path_factory):
    """The shipped knowledge, without any house rule."""
    from assistant.rules.load import load

    return load(house=tmp_path_factory.mktemp("no-house"))


@pytest.fixture(scope="session")
def ready(knowledge):
    """The shipped knowledge with its lexicon and its router."""
    from assistant.rules.ready import Ready

    return Ready.of(knowledge)


@pytest.fixture
def talk(ready):
    """A new talk on the morning of 15 January 2025."""
    from assistant.conversation.talk import Conversation

    return Conversation(ready, now=lambda: MORNING)
