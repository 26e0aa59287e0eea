"""The conversations of the demo, typed again: what is said now is what the files hold.

The files themselves are the snapshots: `bayhand replay --rewrite` and pytest's `--snapshot-update`
write the same.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from assistant.conversation.talk import Conversation
from assistant.conversation.transcript import read_steps, retyped, written
from tests.conftest import TextRows

FOLDER = Path(__file__).resolve().parents[1] / "transcripts_demo"
FILES = sorted(FOLDER.glob("*.txt"))


class Demo(TextRows):
    """A snapshot that is a conversation of the demo; none is ever deleted."""

    @classmethod
    def dirname(cls, *, test_location):
        return str(FOLDER)

    @classmethod
    def get_snapshot_name(cls, *, test_location, index=0):
        return str(index)

    def delete_snapshots(self, *, snapshot_location, snapshot_names):
        return None


@pytest.fixture(params=FILES, ids=lambda path: path.stem)
def transcript(request):
    return request.param


@pytest.fixture
def again(transcript, ready):
    """The steps of the file with what is said to each now."""
    steps = read_steps(transcript.read_text(encoding="utf-8"))
    return list(retyped(steps, lambda clock: Conversation(ready, now=clock)))


def test_there_are_five_conversations():
    assert len(FILES) == 5


def test_a_conversation_goes_as_it_does_in_the_file(transcript, again, snapshot):
    assert written(again) == snapshot(name=transcript.stem, extension_class=Demo)


def test_a_conversation_is_written_as_it_was_read(transcript, again):
    """`replay --rewrite` of a file that holds today's replies changes nothing in it."""
    once = written(again)
    steps = read_steps(once)
    assert [(step.kind, step.text) for step in steps] == [
        (step.kind, step.text) for step, _ in again
    ]
    assert [step.said for step in steps if step.kind == "typed"] == [
        said for step, said in again if step.kind == "typed"
    ]


def test_every_reply_of_a_conversation_fits_the_screen(again):
    for step, said in again:
        rows = said.splitlines()
        assert len(rows) <= 24 and all(len(row) <= 80 for row in rows), step.text
