"""How well wording alone tells intents apart: accuracy, refusal and speed on open data.

    python -m tests.benchmarks.routing --phrases FILE --questions FILE [--out FILE]

Both files hold JSON lines with `text` and `intent`; the intent `outside` marks a question of no
intent. The trade's lexicon takes no part: what is measured is routing/likeness.py.

For every question one JSON line {text, top, answered} goes to --out; one JSON object goes to
standard output. Its rates are fractions of the in-scope questions (in_scope_accuracy, answered,
answered_right) or of the outside ones (outside_refused); a rate without a question is null.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path
from time import perf_counter
from typing import Any

from assistant.routing.intent import Intent
from assistant.routing.likeness import Likeness

OUTSIDE = "outside"


def read(path: Path) -> list[tuple[str, str]]:
    """The (text, intent) pairs of a file of JSON lines. Raises ValueError naming the line."""
    pairs = []
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not line.strip():
            continue
        try:
            entry = json.loads(line)
            pairs.append((str(entry["text"]), str(entry["intent"])))
        except (ValueError, KeyError, TypeError) as wrong:
            raise ValueError(
                f'{path}:{number}: not {{"text": ..., "intent": ...}} ({wrong})'
            ) from wrong
    return pairs


def intents_of(phrases: Iterable[tuple[str, str]]) -> list[Intent]:
    """The intents that the sample phrases make up."""
    gathered: dict[str, list[str]] = {}
    for text, intent in phrases:
        gathered.setdefault(intent, []).append(text)
    return [Intent(id=intent, phrases=tuple(texts)) for intent, texts in gathered.items()]


def measure(
    phrases: Sequence[tuple[str, str]], questions: Sequence[tuple[str, str]]
) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """The summary, and for each question what became of it."""
    began = perf_counter()
    likeness = Likeness.build(intents_of(phrases))
    build = perf_counter() - began
    told, took = [], []
    for text, _ in questions:
        began = perf_counter()
        ranked = likeness.rank(text)
        answered = likeness.sure(ranked)
        took.append(perf_counter() - began)
        told.append({
            "text": text, "top": ranked[0].intent_id if ranked else None, "answered": answered,
        })
    pairs = list(zip(told, (intent for _, intent in questions), strict=True))
    inside = [(one, intent) for one, intent in pairs if intent != OUTSIDE]
    outside = [one for one, intent in pairs if intent == OUTSIDE]
    took.sort()
    return {
        "in_scope_accuracy": _rate([one["top"] == intent for one, intent in inside]),
        "answered": _rate([one["answered"] for one, _ in inside]),
        "answered_right": _rate([
            one["answered"] and one["top"] == intent for one, intent in inside
        ]),
        "outside_refused": _rate([not one["answered"] for one in outside]),
        "p50_ms": _at(took, 0.50),
        "p95_ms": _at(took, 0.95),
        "build_ms": round(build * 1000, 1),
    }, told


def _rate(hits: Sequence[bool]) -> float | None:
    return round(sum(hits) / len(hits), 4) if hits else None


def _at(took: Sequence[float], share: float) -> float | None:
    """The time in ms that this share of the questions stays within."""
    if not took:
        return None
    return round(took[min(len(took) - 1, int(share * len(took)))] * 1000, 3)


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmarks.routing", description=(__doc__ or "").split("\n\n")[0]
    )
    parser.add_argument("--phrases", type=Path, required=True, help="JSON lines: text, intent")
    parser.add_argument("--questions", type=Path, required=True, help="JSON lines: text, intent")
    parser.add_argument("--out", type=Path, help="where each question's outcome goes; default none")
    given = parser.parse_args(arguments)
    try:
        summary, told = measure(read(given.phrases), read(given.questions))
        if given.out is not None:
            given.out.write_text(
                "".join(json.dumps(one, ensure_ascii=False) + "\n" for one in told),
                encoding="utf-8",
            )
    except (OSError, ValueError) as wrong:
        print(wrong, file=sys.stderr)
        return 2
    print(json.dumps(summary))
    return 0


if __name__ == "__main__":
    sys.exit(main())
