"""What the fan shows: the rise of a dough in many kitchens over time, and where they land."""

from __future__ import annotations

import math
from dataclasses import dataclass

from doughwright.publish.band import Stay
from doughwright.publish.clock import Clock

LEVELS = (5, 25, 50, 75, 95)
"""The quantiles of the fan, in per cent."""
STATES = ("young", "ripe", "past")


@dataclass(frozen=True, slots=True)
class Landing:
    """A kitchen by its name, the rise [ratio] that the dough has there when judged, and its state."""

    name: str
    rise: float
    state: str


@dataclass(frozen=True)
class Fan:
    """All that the pictures need; times in hours of the run, as in the band of the same sheet.

    ``start`` to ``end`` is the band's axis; ``quantiles`` holds a row for each of ``LEVELS``, as long as
    ``time``; ``percentiles`` are a hundred rises when judged, rising, and ``states`` theirs (by the target
    where left out); ``shares`` are per cent young, ripe and past.
    """

    clock: Clock
    start: float
    end: float
    kitchens: int
    time: tuple[float, ...]
    quantiles: tuple[tuple[float, ...], ...]
    percentiles: tuple[float, ...]
    shares: tuple[float, float, float]
    judged_at: float
    target: tuple[float, float]
    judged_word: str = "when shaping begins"
    states: tuple[str, ...] = ()
    named: tuple[Landing, ...] = ()
    stays: tuple[Stay, ...] = ()

    @property
    def at_judging(self) -> tuple[float, float, float]:
        """The rise when judged that 1 in 20 stay below, that of the middle kitchen, 1 in 20 above."""
        low, middle, high = (self.quantiles[LEVELS.index(level)][-1] for level in (5, 50, 95))
        return low, middle, high

    @property
    def mark_states(self) -> tuple[str, ...]:
        """The state of each of the hundred marks."""
        return self.states or tuple(self.state_of(rise) for rise in self.percentiles)

    def state_of(self, rise: float) -> str:
        """The state by volume alone."""
        low, high = self.target
        return "young" if rise < low else "past" if rise > high else "ripe"


def counts(fan: Fan) -> tuple[int, int, int]:
    """Young, ripe and past as whole numbers of a hundred, which add up to it."""
    return hundredths(fan.shares)


def hundredths(shares: tuple[float, float, float]) -> tuple[int, int, int]:
    """Three shares [%] as whole numbers that add up to a hundred: the largest remainders go up."""
    whole = [math.floor(share) for share in shares]
    order = sorted(range(3), key=lambda at: whole[at] - shares[at])
    for at in order[: max(100 - sum(whole), 0)]:
        whole[at] += 1
    return whole[0], whole[1], whole[2]
