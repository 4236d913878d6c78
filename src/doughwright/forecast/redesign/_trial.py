"""How well designs do: the expected share of ripe kitchens, smoothed, of many designs at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast._waits import Wait, waits_of
from doughwright.forecast.elsewhere._kitchens import Kitchens, Ran
from doughwright.forecast.elsewhere._sample import CHUNK
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.redesign._levers import QUARTER, Lever, changes_of, total_hours
from doughwright.science.sampling.normal import normal_cdf

Array = NDArray[np.float64]

SOFT = 0.06
"""By what share of its rise the ends of the range are softened."""
HALF_DEGREE = 0.5
OVER = 1.0
"""What an hour outside the cook's total costs, in shares; beside it none is worth having."""


@dataclass(frozen=True, slots=True)
class Trial:
    """The designs of one order of steps, tried in the same kitchens: ``points`` of the population."""

    kitchens: Kitchens
    levers: tuple[Lever, ...]
    total: tuple[float, float] | None
    points: Array
    watch: Watch

    @property
    def waits(self) -> tuple[Wait, ...]:
        """The waits of the dough."""
        return waits_of(self.kitchens.recipe, self.kitchens.dough)

    @property
    def start(self) -> Array:
        """The recipe as it is written, or the nearest to it within the limits."""
        return np.array([lever.share(lever.now) for lever in self.levers])

    def value(self, designs: Array) -> Array:
        """The smoothed share that is ripe under each design; less for each hour outside the total."""
        at_once = max(CHUNK // len(self.points), 1)
        parts = [self._values(designs[first : first + at_once]) for first in range(0, len(designs), at_once)]
        return np.concatenate(parts)

    def _values(self, designs: Array) -> Array:
        """Lanes are designs times kitchens, the kitchens of a design side by side."""
        out = self.outside(designs)
        allowed = np.flatnonzero(out <= 0.0)
        values = -1.0 - OVER * out
        if len(allowed) and not self.watch.stopped:
            ran = self.run(designs[allowed])
            self.watch.add(ran.rise.size)
            values[allowed] = np.mean(softly_ripe(ran, self.kitchens).reshape(len(allowed), -1), axis=1)
        return values

    def run(self, designs: Array) -> Ran:
        """Every design in every kitchen."""
        changes = changes_of(self.levers, np.repeat(designs, len(self.points), axis=0))
        lanes = np.tile(self.points, (len(designs), 1))
        return replace(self.kitchens, changes=changes, every=None).run(lanes)

    def values_of(self, design: Array) -> tuple[float, ...]:
        """What a design means, as a recipe would say it, still inside the cook's total."""
        values = [float(lever.value(design[[at]])[0]) for at, lever in enumerate(self.levers)]
        said = [
            _said(one, value, self.kitchens.yeast) for one, value in zip(self.levers, values, strict=True)
        ]
        while far := self._beyond(said):
            room = {at: self._room(at, said[at], -far) for at, one in enumerate(self.levers) if one.waits}
            free = [at for at, one in room.items() if abs(one) > 1e-9]
            if not free:
                break
            at = max(free, key=lambda one: (said[one] - values[one]) * np.sign(far))
            said[at], values[at] = said[at] + room[at], values[at] + room[at]
        return tuple(said)

    def _room(self, at: int, hours: float, wanted: float) -> float:
        """How far a lever's hours can go the way that is wanted: a quarter at most, within its own limits."""
        step = float(np.clip(wanted, -QUARTER, QUARTER))
        return float(np.clip(hours + step, self.levers[at].low, self.levers[at].high)) - hours

    def _beyond(self, values: Sequence[float]) -> float:
        """By how many hours values are over the cook's total; below 0 under it, 0 inside it."""
        if self.total is None:
            return 0.0
        moved = {one.number for lever in self.levers for one in lever.waits}
        hours = sum(one.hours for one in self.waits if one.number not in moved)
        hours += sum(value for lever, value in zip(self.levers, values, strict=True) if lever.waits)
        low, high = self.total
        far = hours - high if hours > high else min(hours - low, 0.0)
        return far if abs(far) > 1e-6 else 0.0

    def design_of(self, values: Sequence[float]) -> Array:
        """The point of the unit cube that means these values."""
        return np.array([lever.share(value) for lever, value in zip(self.levers, values, strict=True)])

    @property
    def hours(self) -> tuple[float, float]:
        """The least and the most hours in all that its levers leave open."""
        ends = np.array([[0.0] * len(self.levers), [1.0] * len(self.levers)])
        low, high = total_hours(self.levers, self.waits, ends).tolist()
        return low, high

    def outside(self, designs: Array) -> Array:
        """Hours that a design is outside the cook's total."""
        if self.total is None:
            return np.zeros(len(designs))
        hours = total_hours(self.levers, self.waits, designs)
        low, high = self.total
        return np.maximum(np.maximum(low - hours, hours - high), 0.0)


def softly_ripe(ran: Ran, kitchens: Kitchens) -> Array:
    """1 well inside the range, 1/2 at its ends; 0 where gas lost or sugar makes the dough past."""
    low, high = np.log(kitchens.target.low), np.log(kitchens.target.high)
    rise = np.log(ran.rise)
    inside = normal_cdf(value=(rise - low) / SOFT) * normal_cdf(value=(high - rise) / SOFT)
    spent = (ran.state == PAST) & (rise <= high)
    return np.where(spent, 0.0, inside)


PAST = 2


def _said(lever: Lever, value: float, yeast: float) -> float:
    """Hours to the quarter, half degrees, yeast that can be weighed; as it is written where that is near."""
    if lever.name == "yeast":
        step = (0.1 if value * yeast >= 1.0 else 0.02) / yeast
    else:
        step = HALF_DEGREE if lever.name == "dough_temperature" else QUARTER
    if abs(value - lever.now) <= step / 2.0 and lever.low <= lever.now <= lever.high:
        return lever.now
    low, high = np.ceil(lever.low / step - 1e-9) * step, np.floor(lever.high / step + 1e-9) * step
    return float(np.clip(round(value / step) * step, low, high)) if low <= high else value
