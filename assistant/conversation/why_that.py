"""Why that: what was heard in the last line, and how it was decided what it is about.

Owns the telling. What is heard is hearing/'s, the scores and the verdict routing/'s; the reason
behind a rule is `why?`, which is talk.py's.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from assistant.hearing.heard import CONDITION, DOING, FILM, THING, WISH, Heard
from assistant.reply import ASKS, DONE, Reply
from assistant.routing.intent import Intent
from assistant.routing.verdict import CHOICE, OUTSIDE, SURE, Candidate, Verdict

INTENT = "why-that"
_KINDS = ((THING, "things"), (DOING, "doings"), (FILM, "films"), (CONDITION, "conditions"),
          (WISH, "wishes"))
_MOST = 8
_ENDINGS = {
    SURE: "so it was answered", CHOICE: "so you were asked which",
    OUTSIDE: "so it was not answered",
}


def tell_why_that(
    heard: Heard | None, verdict: Verdict | None, ranked: tuple[Candidate, ...],
    intents: Mapping[str, Intent],
) -> Reply:
    """What was heard, the two best intents with their scores, and why it ended so.

    verdict  None when the line was taken for an answer to what was asked, or was about the talk
    ranked   the best intents of the line, used where the verdict names fewer than two
    """
    if heard is None:
        return Reply(ASKS, "Nothing has been answered yet. Ask something first.", intent=INTENT)
    lines = _heard_lines(heard)
    if verdict is None:
        return Reply(
            DONE, "I took your last line for what I was waiting for, or for a word about the talk; "
            "it was not looked up among the rules.", intent=INTENT,
            heading="Why that answer", working=tuple(lines), heard=heard.said(),
        )
    best = list(verdict.candidates[:2])
    best += [each for each in ranked if each.intent_id not in {c.intent_id for c in best}]
    lines += [
        f"{place}: {_told(each, intents)}"
        for place, each in zip(("best", "second"), best[:2], strict=False)
    ]
    lines.append(f"verdict: {verdict.kind}, {verdict.reason or 'no reason noted'}, "
                 f"confidence {verdict.confidence:.2f}")
    return Reply(
        DONE, f"{_opening(heard, verdict, intents)} {_first_up(verdict.reason)}, "
        f"{_ENDINGS[verdict.kind]}.", intent=INTENT, heading="Why that answer",
        working=tuple(lines), heard=heard.said(), confidence=verdict.confidence,
    )


def _opening(heard: Heard, verdict: Verdict, intents: Mapping[str, Intent]) -> str:
    said = heard.said()
    what = f"I heard: {said}." if said else "I heard no word of the trade in it."
    top = verdict.top
    if top is None or verdict.kind == OUTSIDE or top.intent_id not in intents:
        return what
    return f"{what} The nearest is \"{intents[top.intent_id].title}\"."


def _first_up(text: str) -> str:
    return text[:1].upper() + text[1:]


def _heard_lines(heard: Heard) -> list[str]:
    lines = []
    for kind, name in _KINDS:
        hits = dict.fromkeys(
            hit.concept if hit.words.replace(" ", "-") == hit.concept
            else f"{hit.concept} (\"{hit.words}\")"
            for hit in heard.concepts if hit.kind == kind
        )
        if hits:
            lines.append(f"{name}: {_listed(hits)}")
    if heard.quantities:
        lines.append("numbers: " + _listed(
            f"{' '.join(found.text.split())}"
            + (" (no unit)" if found.unit is None and not found.degrees else "")
            for found in heard.quantities
        ))
    if heard.mended:
        lines.append("mended: " + _listed(f"{typed} -> {word}" for typed, word in heard.mended))
    if heard.unknown:
        lines.append("unknown words: " + _listed(heard.unknown))
    if heard.foreign:
        lines.append("words of other subjects: " + _listed(heard.foreign))
    notes = [
        words for held, words in (
            (heard.yes_no, "asked for a yes or no"), (heard.follow_up, "goes on from before"),
            (heard.negated, "has a not in it"), (heard.cut, "too long: its middle was not read"),
        ) if held
    ]
    if notes:
        lines.append("the line: " + "; ".join(notes))
    return lines or ["nothing that I know"]


def _told(candidate: Candidate, intents: Mapping[str, Any]) -> str:
    title = intents[candidate.intent_id].title if candidate.intent_id in intents else ""
    told = f"{title} ({candidate.intent_id}), score {candidate.score:.2f}"
    if candidate.matched:
        told += f", has {_listed(candidate.matched)}"
    if candidate.missing:
        told += f", lacks {_listed(candidate.missing)}"
    return told


def _listed(words: Any) -> str:
    every = list(words)
    more = f" and {len(every) - _MOST} more" if len(every) > _MOST else ""
    return ", ".join(every[:_MOST]) + more
