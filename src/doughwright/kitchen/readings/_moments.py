"""The time stamps of a log, taken together, to moments: order of dates, zones, clocks put back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import pairwise
from statistics import median
from typing import Literal

from doughwright.kitchen.readings import _stamps
from doughwright.kitchen.readings._columns import Columns
from doughwright.kitchen.readings._stamps import Stamp, wall_of
from doughwright.kitchen.readings._table import Table
from doughwright.kitchen.readings._types import utc

DAY = 86_400.0
HOUR = 3600.0
NEAR = 4 * DAY
"""How far from the time of mixing a log's rows may be for its dates to be told by it."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What the document says of a log's times; as in ``Hints``."""

    zone: str | None
    order: str | None
    starts: float | None
    near: float | None


@dataclass(frozen=True, slots=True)
class Moments:
    """Times [s] of the rows that were kept, in the order of the file."""

    times: list[float]
    clock: Literal["utc", "wall", "elapsed"]
    notes: tuple[str, ...] = ()


def moments(
    table: Table, columns: Columns, stamps: Sequence[Stamp], kept: Sequence[int], asked: Asked
) -> Moments:
    """The moments that a log's stamps mean; raises where they can mean several."""
    log = _Log(table, columns, kept, asked)
    kind = Counter(one.kind for one in stamps).most_common(1)[0][0]
    other = next((index for index, one in enumerate(stamps) if one.kind != kind), None)
    if other is not None:
        raise log.refuse(other, "times of one kind in the whole column", "Take the other rows out")
    if kind == "utc":
        return Moments([one.utc or 0.0 for one in stamps], "utc")
    if kind == "elapsed":
        return log.placed([one.elapsed or 0.0 for one in stamps])
    if kind == "clock":
        return log.of_day([one.clock or 0.0 for one in stamps])
    walls, notes = log.walls(stamps)
    return log.zoned(walls, notes)


@dataclass(frozen=True, slots=True)
class _Log:
    table: Table
    columns: Columns
    kept: Sequence[int]
    asked: Asked

    def refuse(self, row: int, wanted: str, try_: str, found: str | None = None) -> Exception:
        index, column = self.kept[row], self.columns.times[0]
        cell = self.table.cells(index, self.columns.times)
        return self.table.refuse(index, column, wanted, found or cell, try_)

    def placed(self, elapsed: Sequence[float]) -> Moments:
        """Times since the log began, after the date that the document gives for that."""
        if self.asked.starts is None:
            return Moments(list(elapsed), "elapsed")
        return self.zoned([self.asked.starts + one - elapsed[0] for one in elapsed], [])

    def of_day(self, clocks: Sequence[float]) -> Moments:
        """Times of day: a jump back over half a day is the next day."""
        if self.asked.starts is None:
            raise self.refuse(0, "the date too", 'Write in the [[log]]: starts = "2026-11-28 18:00"')
        midnight = self.asked.starts - self.asked.starts % DAY
        walls: list[float] = []
        for one in clocks:
            if walls and one < walls[-1] - midnight - DAY / 2.0:
                midnight += DAY
            walls.append(midnight + one)
        return self.zoned(walls, [])

    def walls(self, stamps: Sequence[Stamp]) -> tuple[list[float], list[str]]:
        """What the clock showed at each row; the order of slashed dates told by all of them."""
        slashed = [(index, one.slashed) for index, one in enumerate(stamps) if one.slashed is not None]
        if not slashed:
            return [one.wall or 0.0 for one in stamps], []
        day_first, note = self._order(slashed)
        found: list[float] = []
        for row, one in enumerate(stamps):
            wall = _as(one.slashed, day_first) if one.slashed is not None else one.wall
            if wall is None:
                raise self.refuse(
                    row, f"a date with the {'day' if day_first else 'month'} first", _stamps.FORMS
                )
            found.append(wall)
        return found, [note] if note else []

    def _order(self, slashed: Sequence[tuple[int, tuple[int, int, int, float]]]) -> tuple[bool, str]:
        if self.asked.order is not None:
            return self.asked.order == "day first", ""
        days = next((one for one in slashed if one[1][0] > 12), None)
        months = next((one for one in slashed if one[1][1] > 12), None)
        if days is not None and months is not None:
            raise self.refuse(
                months[0], "dates in one order", 'Write order = "day first" or "month first" in the [[log]]'
            )
        if days is not None or months is not None:
            return days is not None, ""
        return self._order_by_course([one for _, one in slashed])

    def _order_by_course(self, dates: Sequence[tuple[int, int, int, float]]) -> tuple[bool, str]:
        """Every date can be read both ways: the way in which the log hangs together, else the near one."""
        ways = {way: [_as(one, way) or 0.0 for one in dates] for way in (True, False)}
        if ways[True] == ways[False]:
            return True, ""
        longest = {way: _longest(walls) for way, walls in ways.items()}
        for way in (True, False):
            if longest[not way] >= max(DAY, 4.0 * longest[way]):
                return way, f"dates read with the {_first(way)} first: so the log hangs together"
        near = self.asked.near
        if near is not None:
            close = {way: min(abs(one - near) for one in walls) <= NEAR for way, walls in ways.items()}
            if close[True] != close[False]:
                return close[
                    True
                ], f"dates read with the {_first(close[True])} first: so they are near mixing"
        either = " or ".join(_day(ways[way][0]) for way in (True, False))
        raise self.refuse(
            0, f"a date that can be read one way ({either})",
            'Write order = "day first" or order = "month first" in the [[log]]',
        )  # fmt: skip

    def zoned(self, walls: list[float], notes: list[str]) -> Moments:
        """The moments of what a clock showed: by the offset in the heading, the zone, or none."""
        if self.columns.offset is not None:
            return Moments([one - self.columns.offset for one in walls], "utc", tuple(notes))
        order = _by_file(walls)
        if self.asked.zone is None:
            back = _put_back([walls[index] for index in order])
            if back is not None:
                raise self.refuse(
                    order[back], "times that go on (a clock seems to be put back by an hour here)",
                    'Say where the clock stood: zone = "Europe/London"',
                )  # fmt: skip
            return Moments(walls, "wall", tuple(notes))
        return self._by_zone(walls, order, self.asked.zone, notes)

    def _by_zone(self, walls: list[float], order: Sequence[int], zone: str, notes: list[str]) -> Moments:
        first = [utc(one, zone) for one in walls]
        second = [utc(one, zone, fold=1) for one in walls]
        if first == second:
            return Moments(first, "utc", tuple(notes))
        skipped = [index for index in order if second[index] < first[index]]
        twice = [index for index in order if second[index] > first[index]]
        back = _put_back([walls[index] for index in order])
        if not skipped and back is not None:
            later = set(order[back:])
            found = [second[i] if i in later else first[i] for i in range(len(walls))]
            return Moments(found, "utc", (*notes, "the clock was put back while it logged"))
        return self._unchanged(walls, order, first, second, skipped or twice, notes)

    def _unchanged(
        self,
        walls: list[float],
        order: Sequence[int],
        first: Sequence[float],
        second: Sequence[float],
        odd: Sequence[int],
        notes: list[str],
    ) -> Moments:
        """No hour comes twice: the clock of the logger did not change, or the log ends in that hour."""
        start = order[0]
        if first[start] != second[start]:
            raise self.refuse(
                start, "a time that its zone has once: this one came twice or not at all",
                'Export the log in UTC, or write zone = "UTC"',
            )  # fmt: skip
        if second[odd[0]] > first[odd[0]] and odd[-1] == order[-1]:
            return Moments(list(first), "utc", tuple(notes))
        offset = walls[start] - first[start]
        said = "the logger did not change its clock when the zone did"
        return Moments([one - offset for one in walls], "utc", (*notes, said))


def _as(slashed: tuple[int, int, int, float] | None, day_first: bool) -> float | None:
    if slashed is None:
        return None
    first, second, year, seconds = slashed
    day, month = (first, second) if day_first else (second, first)
    return wall_of(day, month, year, seconds)


def _longest(walls: Sequence[float]) -> float:
    """The longest step between rows in order of time."""
    times = sorted(walls)
    return max((after - before for before, after in pairwise(times)), default=0.0)


def _by_file(walls: Sequence[float]) -> list[int]:
    """The rows from old to new as the file has them: turned round where it begins with the newest."""
    steps = [after - before for before, after in pairwise(walls)]
    falling = sum(one < 0.0 for one in steps) > sum(one > 0.0 for one in steps)
    return list(range(len(walls)))[:: -1 if falling else 1]


def _put_back(walls: Sequence[float]) -> int | None:
    """The row at which a clock was put back by an hour: after it the log goes on as before."""
    steps = [after - before for before, after in pairwise(walls)]
    forward = [one for one in steps if one > 0.0]
    if not forward:
        return None
    usual = median(forward)
    for index, step in enumerate(steps):
        # A clock put back an hour moves by a step less an hour; rows out of order come forward again at once.
        if -HOUR <= step < 0.0 and abs(step + HOUR) <= max(1.6 * usual, 120.0):
            later = steps[index + 1 : index + 1 + max(1, int(HOUR / usual))]
            if all(0.0 < one <= max(2.5 * usual, 120.0) for one in later):
                return index + 1
    return None


def _first(day_first: bool) -> str:
    return "day" if day_first else "month"


def _day(wall: float) -> str:
    return f"{datetime.fromtimestamp(wall, UTC):%-d %B %Y}"
