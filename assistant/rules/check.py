"""Check: everything that is wrong with a knowledge base, told at once.

Owns the order and the count. What is wrong with a file is load.py's, with an entry soundness.py's,
with where questions end proof.py's. `bayhand check [DIR]` prints it.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from assistant.rules.knowledge import Knowledge
from assistant.rules.load import load
from assistant.rules.problem import Problem
from assistant.rules.proof import Routed, Routes, Tally, unproven
from assistant.rules.soundness import unsound


@dataclass(frozen=True, slots=True)
class Report:
    """What was found, and one line that sums it up."""

    problems: tuple[Problem, ...]
    summary: str


def check(
    knowledge: Knowledge, router: Routes | None = None, phrases: bool = False,
    tally: Tally | None = None,
) -> list[Problem]:
    """All findings of a knowledge base: files, entries, questions.

    router   gives `verdict(line)`; None builds the one that the conversation uses
    phrases  also put every phrase to the router
    tally    counts the questions
    """
    found = [*knowledge.problems, *unsound(knowledge)]
    routes = Routed(knowledge) if router is None else router
    found += unproven(knowledge, routes, Tally() if tally is None else tally, phrases)
    return found


def check_all(folder: Path | None = None, phrases: bool = False) -> Report:
    """Check the shipped knowledge with the shop's own over it, or a folder.

    folder  one that holds rules/ and lexicon/ is a whole knowledge and is checked alone; any other
            is the shop's (house/ and films/, or files of either kind) over the shipped knowledge
    """
    knowledge = load_from(folder)
    tally = Tally()
    found = check(knowledge, phrases=phrases, tally=tally)
    return Report(tuple(found), _summary(knowledge, found, tally))


def load_from(folder: Path | None) -> Knowledge:
    """The knowledge that a folder stands for, as `check_all` takes it."""
    if folder is None:
        return load()
    if (folder / "rules").is_dir() and (folder / "lexicon").is_dir():
        return load(shipped=folder, house=folder / ".none")
    return load(house=folder)


def _summary(knowledge: Knowledge, found: list[Problem], tally: Tally) -> str:
    own = sum(rule.layer != "shipped" for rule in knowledge.rules.values())
    shop = f", {own} of them the shop's own" if own else ""
    return (
        f"{_count(len(knowledge.rules), 'rule')}{shop}, "
        f"{_count(len(knowledge.calculations), 'sum')}, "
        f"{_count(len(knowledge.films), 'film sheet')}; {tally.right} of {tally.put} questions "
        f"end where they should; {_count(len(found), 'finding')}."
    )


def _count(number: int, what: str) -> str:
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"


def main(arguments: list[str]) -> int:
    """`python -m assistant.rules.check [--phrases] [DIR]`; 1 if anything was found."""
    folders = [Path(each) for each in arguments if each != "--phrases"]
    report = check_all(folders[0] if folders else None, "--phrases" in arguments)
    for problem in report.problems:
        print(problem)
    print(report.summary)
    return 1 if report.problems else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
