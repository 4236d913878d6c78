"""Times as a cook wrote them, to seconds after mixing."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.errors import Fault, QuantityError
from doughwright.kitchen.readings._types import When, utc

DAY = 86_400.0


@dataclass(frozen=True, slots=True)
class Start:
    """When the dough was mixed, and the zone its clock shows; both may be unknown."""

    mixed: When | None
    zone: str | None

    @property
    def wall(self) -> float | None:
        """The date and time of mixing as the clock showed it [s as if UTC]; ``None`` without a date."""
        return self.mixed.wall if self.mixed is not None else None

    @property
    def moment(self) -> float | None:
        """The moment of mixing [s UTC]; where no zone is given, as the clock showed it."""
        wall = self.wall
        return wall if wall is None or self.zone is None else utc(wall, self.zone)

    def seconds(self, when: When, after: float = 0.0) -> float:
        """Seconds from mixing to a reading; a time of day is the first at or after the reading before it.

        Raises ``QuantityError`` where ``mixed`` does not say enough.
        """
        if when.elapsed is not None:
            return when.elapsed
        if when.wall is not None:
            return self._dated(when)
        return self._of_day(when, after)

    def _dated(self, when: When) -> float:
        if self.moment is None or when.wall is None:
            raise QuantityError(_unknown(when, "the date and the time of mixing", "2026-11-28 18:05"))
        later = when.wall if self.zone is None else utc(when.wall, self.zone)
        return later - self.moment

    def _of_day(self, when: When, after: float) -> float:
        if self.mixed is None or when.clock is None or self.mixed.elapsed is not None:
            raise QuantityError(_unknown(when, "the time of mixing", "18:05"))
        start = self.mixed.clock if self.mixed.clock is not None else (self.mixed.wall or 0.0) % DAY
        days = max(0.0, -((when.clock - start - after) // DAY))
        if self.zone is None or self.mixed.wall is None:
            return when.clock - start + days * DAY
        midnight = self.mixed.wall - start
        found = self._since(midnight + days * DAY + when.clock)
        return found if found >= after - 1.0 else self._since(midnight + (days + 1.0) * DAY + when.clock)

    def _since(self, wall: float) -> float:
        zone, moment = self.zone or "UTC", self.moment or 0.0
        return utc(wall, zone) - moment


def _unknown(when: When, wanted: str, example: str) -> Fault:
    return Fault(
        "it is not known how long after mixing that is", wanted=f"{wanted} in the document",
        found=f'"{when.text}"', try_=f'Write mixed = "{example}" at the top, or the time after mixing: "2 h"',
    )  # fmt: skip
