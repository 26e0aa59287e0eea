"""Microseconds per calculation: `python -m tests.benchmarks.calculations`.

Each sum is fed by its own example sentence through the assistant's hearing, then its `calculate` is
timed alone. Prints one JSON line a sum and at the end the slowest against the bound.
"""

from __future__ import annotations

import json
import time
from datetime import datetime

from assistant.calculations import base
from assistant.calculations.registry import calculation
from assistant.conversation.talk import Conversation
from assistant.rules.load import load
from assistant.rules.ready import Ready

BOUND_US = 10_000
RUNS = 30
MORNING = datetime(2025, 1, 15, 7, 30)


def main() -> None:
    ready = Ready.of(load())
    slowest = ("", 0.0)
    for name, entry in sorted(ready.knowledge.calculations.items()):
        inputs, setting = _taken(ready, name, entry.example)
        module = calculation(name)
        module.calculate(inputs, setting)
        timings = []
        for _ in range(RUNS):
            start = time.perf_counter()
            module.calculate(inputs, setting)
            timings.append((time.perf_counter() - start) * 1e6)
        middle = sorted(timings)[RUNS // 2]
        slowest = max(slowest, (name, middle), key=lambda pair: pair[1])
        print(json.dumps({"calculation": name, "us": round(middle, 1)}))
    print(json.dumps({
        "slowest": slowest[0], "us": round(slowest[1], 1), "bound_us": BOUND_US,
        "within": slowest[1] <= BOUND_US,
    }))


def _taken(ready: Ready, name: str, example: str) -> tuple[base.Inputs, base.Setting]:
    """The inputs that the example sentence gives, and the setting it is worked out in."""
    taken: list[tuple[base.Inputs, base.Setting]] = []
    module = calculation(name)
    real = module.calculate

    def note(inputs: base.Inputs, setting: base.Setting) -> base.Result:
        taken.append((inputs, setting))
        return real(inputs, setting)

    module.calculate = note  # type: ignore[method-assign]
    try:
        talk = Conversation(ready, now=lambda: MORNING)
        reply = talk.turn(example)
    finally:
        module.calculate = real  # type: ignore[method-assign]
    if not taken:
        raise SystemExit(f"{name}: the example {example!r} did not reach the sum: {reply.answer}")
    return taken[0]


if __name__ == "__main__":
    main()
