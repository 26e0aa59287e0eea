"""Sheet words: the lines of a film sheet's talk that are no answers: skip, back, done, questions.

Owns these words. What is done at them is add_film.py's.
"""

from __future__ import annotations

import re
from typing import Any

from assistant.conversation.agreeing import agreed
from assistant.conversation.kits import kit_asked
from assistant.conversation.own_lines import is_whole_question
from assistant.hearing.heard import Heard

SKIP = frozenset((
    "skip", "skip it", "skip that", "skip this", "skip this one", "next", "none", "no", "nothing",
    "pass", "not given", "not said", "not there", "not in it", "not in the bulletin", "n/a", "na",
    "don't know", "dont know", "i don't know", "unknown", "leave it", "leave it empty", "empty",
    "blank", "it doesn't say", "it doesnt say", "doesn't say", "-",
))
ENOUGH = frozenset((
    "done", "that's all", "thats all", "that is all", "finish", "finished", "skip the rest",
    "skip all", "that's it", "thats it", "no more", "end", "ready", "save", "save it",
))
BACK = frozenset((
    "back", "go back", "one back", "previous", "the one before", "last one again", "undo",
))
CHANGE = re.compile(
    r"(?:no[, ]+)?(?:change|correct|fix|again|redo|edit|amend)?\s*(?:the )?(?P<what>[a-z -]+?)"
    r"(?: again| is wrong| wrong| please)?"
)

_ASKED = re.compile(r"\w\?\s*$")  # a name may end in a sign, and hardly in a word that asks


def bare(heard: Heard) -> str:
    """A line as it is compared with these words."""
    return " ".join(heard.tidy.split()).strip(" .!")


def is_question(heard: Heard) -> bool:
    """Whether a line may be a question; an answer may look like one."""
    return bool(heard.wishes) or heard.yes_no or heard.text.rstrip().endswith("?")


def is_no_answer(talk: Any, heard: Heard, words_asked: bool) -> bool:
    """Whether the very words of a line show that it answers nothing that a sheet asks.

    words_asked  a name or a family is asked for, which no asking word ends
    """
    line = bare(heard)
    if line in SKIP or line in ENOUGH or agreed(heard.text) is not None:
        return False
    return (
        any(map(str.isalnum, line)) and talk.act_of(heard) is not None
        or is_whole_question(heard.text)
        or words_asked and _ASKED.search(heard.text) is not None
        or kit_asked(heard.tidy, talk.knowledge, heard.things) is not None
    )
