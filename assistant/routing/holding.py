"""Holding: which intents hold which feature, and what of it.

Owns the look-up by feature, from plain data and only as far as lines ask for it. What a feature is
and how strongly it is held is facets.py's.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from assistant.routing.facets import Profile, strength


class Holding:
    """Feature -> the intents that hold it. Build with `of`."""

    def __init__(self, postings: dict[str, list[int]], total: int) -> None:
        """postings  feature -> place of an intent, what it holds (see facets.DECLARED), place ...
        total     how many intents there are
        """
        self.postings = postings
        self.total = total
        self._read: dict[str, list[tuple[int, float, int]]] = {}

    @classmethod
    def of(cls, profiles: Sequence[Profile]) -> Holding:
        postings: dict[str, list[int]] = {}
        for place, profile in enumerate(profiles):
            for feature, held in profile.features.items():
                postings.setdefault(feature, []).extend((place, held))
        return cls(postings, len(profiles))

    def __getitem__(self, feature: str) -> list[tuple[int, float, int]]:
        """(place of the intent, strength 0..1, what it holds), for each that holds the feature."""
        found = self._read.get(feature)
        if found is None:
            flat = self.postings.get(feature)
            if flat is None:
                return []       # words without end are typed: nothing is kept of those
            found = self._read[feature] = [
                (place, strength(held), held)
                for place, held in zip(flat[::2], flat[1::2], strict=True)
            ]
        return found

    def count(self, feature: str) -> float:
        """How many intents hold the feature, each by its strength."""
        return sum(strong for _, strong, _ in self[feature])

    def among(
        self, features: Iterable[str], places: Collection[int]
    ) -> dict[int, dict[str, int]]:
        """What each of some intents holds of these features."""
        held: dict[int, dict[str, int]] = {place: {} for place in places}
        for feature in features:
            for place, _, holds in self[feature]:
                if place in held:
                    held[place][feature] = holds
        return held
