"""When things are done, back from the meal: minutes of work at night, and hours in all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast._order import steps_of
from doughwright.forecast.fit._levers import Designs
from doughwright.forecast.fit.results import Limits
from doughwright.kitchen.types import Hours
from doughwright.recipe.model import Recipe, Step

Array = NDArray[np.float64]

SHARES = (0.0, 0.25, 0.75, 1.0)
"""Where in its range a preferment's wait is tried, besides the middle."""


@dataclass(frozen=True, slots=True)
class Schedule:
    """A dough's steps back from the meal, and the limits they have to keep.

    Every step, a wait's begin too, wants somebody who is up; a step that says neither ``for`` nor ``hands``
    takes no time. ``night`` [min] is what the recipe as written has outside the hours awake.
    """

    recipe: Recipe
    dough: str
    awake: Hours
    limits: Limits
    night: float = 0.0

    def over(self, designs: Designs) -> Array:
        """By how many minutes designs break the limits, shape (lanes,); 0 where they keep them."""
        return np.maximum(self._night(designs) - self.night - 0.5, 0.0) + self.too_long(designs)

    def too_long(self, designs: Designs) -> Array:
        """By how many minutes a wait, or all of it, is too long, shape (lanes,)."""
        over = np.zeros(len(designs))
        if self.limits.available is not None:
            begins = np.max(self._starts(designs) or [over], axis=0)
            over = over + 60.0 * np.maximum(begins - self.limits.available - 1e-6, 0.0)
        if self.limits.longest_wait is not None and designs.hours.size:
            longest = designs.hours.max(axis=1)
            over = over + 60.0 * np.maximum(longest - self.limits.longest_wait - 1e-6, 0.0)
        return over

    def at_night(self, designs: Designs) -> float:
        """Minutes outside the hours awake, of the first design."""
        return float(self._night(designs)[0])

    def better_meal(self, designs: Designs) -> float | None:
        """The hour of the day nearest to the meal's at which the first design could be eaten instead."""
        meal = self._meal()
        for away in np.arange(0.5, 12.1, 0.5):
            for hour in ((meal + away) % 24.0, (meal - away) % 24.0):
                moved = replace(self, limits=replace(self.limits, meal=float(hour)))
                if self.awake_at(hour) and moved.over(designs)[0] <= 0.0:
                    return float(hour)
        return None

    def awake_at(self, hour: float) -> bool:
        """Whether the cook is up at an hour of the day."""
        return float(self._missed(np.array([hour]))[0]) <= 0.0

    def _night(self, designs: Designs) -> Array:
        """Minutes outside the hours awake, shape (lanes,)."""
        hours = dict(zip(designs.numbers, designs.hours.T, strict=True))
        return self._chain_at_night(self.dough, hours, np.zeros(len(designs)))

    def _chain_at_night(self, name: str, hours: Mapping[int, Array], after: Array) -> Array:
        """Of a mix and those that go into it, whose waits with a range are as long as suits the cook best."""
        starts = self._own(name, hours, after)
        begins = starts[-1] if starts else after
        night = sum((self._asleep(one) for one in starts), np.zeros(len(after)))
        for part in self._parts(name):
            options = [
                self._chain_at_night(part, {**hours, **one}, begins) for one in self._options(part, hours)
            ]
            night = night + np.min(options, axis=0)
        return night

    def _options(self, name: str, hours: Mapping[int, Array]) -> Iterator[dict[int, Array]]:
        """Hours that a preferment's waits may have: within the document's range, where they are not moved."""
        yield {}
        for number, step in steps_of(self.recipe, name):
            times = step.for_ if step.waits else None
            if times is None or times.single or number not in hours:
                continue
            written = np.abs(hours[number] - times.middle / 3600.0) < 1e-6
            for share in SHARES:
                here = (times.low + share * (times.high - times.low)) / 3600.0
                yield {number: np.where(written, here, hours[number])}

    def _starts(self, designs: Designs) -> list[Array]:
        """Hours before the meal at which each step begins, shape (lanes,) each."""
        hours = dict(zip(designs.numbers, designs.hours.T, strict=True))
        return self._chain(self.dough, hours, np.zeros(len(designs)))

    def _chain(self, name: str, hours: Mapping[int, Array], after: Array) -> list[Array]:
        """A mix's steps from its end, and the mixes that go into it, which end where its mixing begins."""
        starts = self._own(name, hours, after)
        begins = starts[-1] if starts else after
        return starts + [one for part in self._parts(name) for one in self._chain(part, hours, begins)]

    def _own(self, name: str, hours: Mapping[int, Array], after: Array) -> list[Array]:
        starts: list[Array] = []
        for number, step in reversed(steps_of(self.recipe, name)):
            after = after + hours.get(number, _takes(step))
            starts.append(after)
        return starts

    def _parts(self, name: str) -> list[str]:
        return [line.mix for line in self.recipe.mix(name).ingredients if line.mix is not None]

    def _meal(self) -> float:
        """The hour of the day at which it is eaten."""
        if self.limits.meal is not None:
            return self.limits.meal
        if self.recipe.makes.eat is None:
            return 0.0
        hour, _, minute = self.recipe.makes.eat.time.partition(":")
        return float(hour) + float(minute) / 60.0

    def _asleep(self, before: Array) -> Array:
        """Minutes by which moments, hours before the meal, miss the hours awake; 0 where no meal is named."""
        if self.limits.meal is None and self.recipe.makes.eat is None:
            return np.zeros_like(before)
        return self._missed(self._meal() - before)

    def _missed(self, clock: Array) -> Array:
        """Minutes by which hours of the day miss the hours awake."""
        since = (clock - self.awake.start / 3600.0) % 24.0
        up = ((self.awake.end - self.awake.start) / 3600.0 - 1e-9) % 24.0 + 1e-9
        return np.where(since > up, 60.0 * np.minimum(since - up, 24.0 - since), 0.0)


def _takes(step: Step) -> float:
    return (step.lasts or step.hands or 0.0) / 3600.0
