"""Phrases: which sample phrases hold which concept or word.

Owns that index. How near a line comes to a phrase is reckoned by ranking.py.
"""

from __future__ import annotations

from dataclasses import dataclass

from assistant.hearing.sample import Sample
from assistant.routing.facets import Scale, features_of, weight_of

DIGITS = 6      # a weight is kept so exactly, in a file as in memory


@dataclass(frozen=True, slots=True)
class PhraseIndex:
    """Which sample phrases hold which feature.

    holding  numbers of phrases, by feature
    of       place of the intent, by number of phrase
    weight   of all that the phrase says, by number of phrase
    """

    holding: dict[str, list[int]]
    of: list[int]
    weight: list[float]

    def add(self, place: int, sample: Sample, scale: Scale) -> None:
        """A phrase of the intent at `place`."""
        number = len(self.of)
        self.of.append(place)
        self.weight.append(round(weight_of(sample, scale), DIGITS))
        for feature in sorted(features_of(sample)):
            self.holding.setdefault(feature, []).append(number)
