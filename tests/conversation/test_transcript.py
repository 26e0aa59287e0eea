"""Transcripts are read, typed again and compared."""

import pytest

from assistant.conversation.transcript import BadTranscript, read_clock, read_steps

TEXT = """\
# a remark
today 2025-01-15 09:10

> hello
Hello there.
Second row.

---
> again
Hm.
"""


def test_a_transcript_is_its_steps_in_order():
    steps = read_steps(TEXT)
    assert [step.kind for step in steps] == ["remark", "clock", "typed", "forget", "typed"]
    assert steps[2].text == "hello" and steps[2].said == "Hello there.\nSecond row."
    assert steps[2].row == 4


def test_stray_text_before_the_first_line_is_refused_with_its_place():
    with pytest.raises(BadTranscript, match="line 2 .*remarks"):
        read_steps("# one\nhello\n")


def test_a_clock_without_a_date_is_refused_with_the_remedy():
    with pytest.raises(BadTranscript, match="line 3: 'noon' is no date; write it as"):
        read_clock("noon", 3)
