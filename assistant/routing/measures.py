"""Measures: how one intent meets a line, part by part, each as a number of about 0..1.

Owns the parts. What each counts is ranking.py's, what follows from the sum router.py's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from assistant.hearing.heard import CONDITION, DOING, FILM, PLAIN, THING, WISH, Heard
from assistant.routing.asking import LOOSE_WISHES
from assistant.routing.facets import A_PHRASE, DECLARED, IN_ITS_TEXT, TOPICAL, Profile, Unit
from assistant.routing.given import Given, nearness, values_of

LEAVE = "may-i"       # the wish for a yes or a no
SURELY_A_SUM = 3      # so many numbers are not named to have one of them judged
_TOPICAL = frozenset(TOPICAL)
_MET, _SILENT, _TOLD, _OTHER, _OPEN, _OPEN_SAID = (
    {kind: f"{kind} {how}" for kind in TOPICAL}
    for how in ("met", "silent", "told", "other", "open", "open, said")
)
# Wishes that any rule can be asked with.
_ANY_RULE = LOOSE_WISHES | {"signs"}


@dataclass(frozen=True, slots=True)
class Line:
    """A line, made ready to be compared with many intents.

    said    feature -> (strength, weight of the unit that says it)
    of_kind  the concepts that it names, by kind, with their strengths
    values  its numbers that have a kind, as (kind, SI)
    """

    heard: Heard
    units: Sequence[Unit]
    wishes: frozenset[str]
    said: Mapping[str, tuple[float, float]]
    of_kind: Mapping[str, Mapping[str, float]]
    values: Sequence[tuple[str, float]]

    @classmethod
    def of(
        cls, heard: Heard, units: Sequence[Unit], wishes: frozenset[str]
    ) -> Line:
        said: dict[str, tuple[float, float]] = {}
        for unit in units:
            for feature, strength in unit.options:
                if feature not in said or strength > said[feature][0]:
                    said[feature] = (strength, unit.weight)
        of_kind: dict[str, dict[str, float]] = {}
        for feature, (strength, weight) in said.items():
            kind, _, concept = feature.partition(":")
            if concept and weight > 0:
                of_kind.setdefault(kind, {})[concept] = strength
        return cls(heard, units, wishes, said, of_kind, values_of(heard))

    @property
    def judged(self) -> bool:
        """Whether its numbers are asked about: is that all right?"""
        return self.heard.yes_no or LEAVE in self.wishes


def shares(line: Line, profile: Profile) -> dict[str, float]:
    """The share of what the line says that the intent declares, that its phrases say and how many
    of them, that its text says; and the share of the line's concepts and words that it has at all.
    """
    features = profile.features
    declared = spoken = written = had = had_plain = total = topical = topical_had = 0.0
    for unit in line.units:
        weight = unit.weight
        total += weight
        best_declared = best_spoken = best_written = best = 0.0
        for feature, strength in unit.options:
            held = features.get(feature)
            if held is None:
                continue
            if strength > best:
                best = strength
            if held & DECLARED and strength > best_declared:
                best_declared = strength
            if held & IN_ITS_TEXT and strength > best_written:
                best_written = strength
            if held >= A_PHRASE:
                often = strength * sqrt(min(1.0, (held // A_PHRASE) / profile.phrases))
                if often > best_spoken:
                    best_spoken = often
        declared += weight * best_declared
        spoken += weight * best_spoken
        written += weight * best_written
        had += weight * best
        if unit.sort == PLAIN:
            had_plain += weight * best
        if unit.kinds & _TOPICAL:
            topical += weight
            topical_had += weight * best
    total = total or 1.0
    return {
        "declared": declared / total, "spoken": spoken / total, "written": written / total,
        "had": had / total, "had of plain words": had_plain / total,
        "about": topical_had / topical if topical else 0.0, "topical": topical_had,
    }


def facets(line: Line, profile: Profile) -> dict[str, float]:
    """For each kind of facet: met; told of in its phrases or text; another spoken of; or left open.
    """
    intent = profile.intent
    found: dict[str, float] = {}
    for kind, concepts in (
        (THING, intent.things), (DOING, intent.doings), (FILM, intent.films),
        (CONDITION, intent.conditions),
    ):
        said = line.of_kind.get(kind)
        if not concepts:
            found[_OPEN_SAID[kind] if said else _OPEN[kind]] = 1.0
        elif not said:
            found[_SILENT[kind]] = 1.0
        else:
            met = max((strength for concept, strength in said.items() if concept in concepts),
                      default=0.0)
            if met:
                found[_MET[kind]] = met
            elif any(f"{kind}:{concept}" in profile.features for concept in said):
                found[_TOLD[kind]] = 1.0
            else:
                found[_OTHER[kind]] = 1.0
    return found


def wish_fit(line: Line, profile: Profile) -> dict[str, float]:
    """How it can answer what is wanted, and how often its phrases ask for that."""
    wishes = (line.wishes - _ANY_RULE) or line.wishes
    if not wishes:
        return {"no wish": 1.0}
    able = often = 0.0
    for wish in wishes:
        held = profile.features.get(f"{WISH}:{wish}", 0)
        if held & DECLARED or wish in _ANY_RULE:
            able = 1.0
        often = max(often, (held // A_PHRASE) / profile.phrases)
    return {"can answer": able, "asked so": sqrt(min(1.0, often))}


def numbers(
    line: Line, profile: Profile, figures: Sequence[Given], tells: Mapping[str, float]
) -> dict[str, float]:
    """What the numbers of the line say for a sum that takes such, or a rule with such a figure."""
    heard, intent = line.heard, profile.intent
    found: dict[str, float] = {}
    count = len(heard.quantities)
    if intent.takes:
        if not count or (line.judged and count < SURELY_A_SUM):
            found["sum without numbers"] = 1.0
        else:
            fitting = sum(
                1.0 if each.kind in intent.takes else 0.5 * each.bare for each in heard.quantities
            )
            found["sum with numbers"] = fitting / count * min(count, SURELY_A_SUM) / SURELY_A_SUM
        return found
    if line.values and figures:
        near = nearness(figures, line.values, tells)
        found["figure near, judged" if line.judged else "figure near"] = near
    return found
