"""What the swelling band shows: a dough's course on the sheet's clock, where it stood, and what was done."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from doughwright.publish.clock import Clock


@dataclass(frozen=True, slots=True)
class Course:
    """A dough through time: ``time`` [h of the run], ``core`` and ``edge`` [degC], ``rise`` [volumes].

    Two points at one time are the dough before and after an action.
    """

    time: tuple[float, ...]
    core: tuple[float, ...]
    edge: tuple[float, ...]
    rise: tuple[float, ...]

    def pieces(self) -> Iterator[Course]:
        """The course cut where something jumps, so that each part is smooth."""
        start = 0
        for at, (one, other) in enumerate(pairwise(range(len(self.time)))):
            if self.time[other] - self.time[one] < 1e-9 and self._jumps(one, other):
                yield self._part(start, at + 1)
                start = other
        yield self._part(start, len(self.time))

    def between(self, start: float, end: float) -> Course | None:
        """The part within two times, its ends worked out; ``None`` where there is none."""
        low, high = max(start, self.time[0]), min(end, self.time[-1])
        if high - low < 1e-6:
            return None
        inside = [at for at, time in enumerate(self.time) if low < time < high]
        at_low, at_high = self.at(low), self.at(high, before=True)
        rows = [(low, *at_low), *((self.time[i], self.core[i], self.edge[i], self.rise[i]) for i in inside)]
        columns = list(zip(*rows, (high, *at_high), strict=True))
        return Course(columns[0], columns[1], columns[2], columns[3])

    def at(self, time: float, *, before: bool = False) -> tuple[float, float, float]:
        """Core, edge and rise at a time; of two points at that time the later, or the one ``before``."""
        times = self.time
        after = bisect_left(times, time) if before else bisect_right(times, time)
        after = min(max(after, 1), len(times) - 1)
        last = after - 1
        span = times[after] - times[last]
        share = min(max((time - times[last]) / span, 0.0), 1.0) if span > 0 else 1.0
        core, edge, rise = self.core[last], self.edge[last], self.rise[last]
        return (
            core + (self.core[after] - core) * share,
            edge + (self.edge[after] - edge) * share,
            rise + (self.rise[after] - rise) * share,
        )

    def along(self, hours: Sequence[float]) -> Iterator[tuple[float, float, float]]:
        """Core, edge and rise at rising times, as ``at`` gives them one by one."""
        times, last = self.time, len(self.time) - 1
        after = 1
        for hour in hours:
            while after < last and times[after] <= hour:
                after += 1
            before = after - 1
            span = times[after] - times[before]
            share = min(max((hour - times[before]) / span, 0.0), 1.0) if span > 0 else 1.0
            core, edge, rise = self.core[before], self.edge[before], self.rise[before]
            yield (
                core + (self.core[after] - core) * share,
                edge + (self.edge[after] - edge) * share,
                rise + (self.rise[after] - rise) * share,
            )

    def scaled(self, factor: float) -> Course:
        """The same with every volume times a factor."""
        return replace(self, rise=tuple(value * factor for value in self.rise))

    def _part(self, start: int, end: int) -> Course:
        cut = slice(start, end)
        return Course(self.time[cut], self.core[cut], self.edge[cut], self.rise[cut])

    def _jumps(self, one: int, other: int) -> bool:
        return (
            abs(self.rise[one] - self.rise[other]) > 0.02
            or abs(self.core[one] - self.core[other]) > 1.0
            or abs(self.edge[one] - self.edge[other]) > 1.0
        )


@dataclass(frozen=True, slots=True)
class Part:
    """A preferment: its course, in volumes of the dough after mixing, and its name."""

    name: str
    course: Course


@dataclass(frozen=True, slots=True)
class Stay:
    """Where the dough stood from when to when [h]; ``temperature`` [degC] where it is known."""

    place: str
    start: float
    end: float
    temperature: float | None = None

    @property
    def ground(self) -> str:
        """The ground behind the band: fridge (anything colder than 12 degC), oven or paper."""
        if self.place == "oven":
            return "oven"
        cold = self.place == "fridge" if self.temperature is None else self.temperature < 12.0
        return "fridge" if cold else "paper"


@dataclass(frozen=True, slots=True)
class Mark:
    """Something done at an hour, in a word or two."""

    at: float
    words: str


@dataclass(frozen=True)
class Band:
    """All that the picture needs; times in hours of the run, 0 at the end of the dough's last mix step.

    ``course`` goes on past ``judged_at`` as if nobody came. ``ripe_from`` and ``ripe_to`` are the ripe window
    (``None``: not reached; still ripe at the end). ``whisker`` is the 90 % interval at ``judged_at``.
    """

    clock: Clock
    course: Course
    stays: tuple[Stay, ...]
    marks: tuple[Mark, ...]
    judged_at: float
    target: tuple[float, float]
    state: str
    meal_at: float
    first_at: float
    ripe_from: float | None = None
    ripe_to: float | None = None
    preferments: tuple[Part, ...] = ()
    divided_at: float | None = None
    pieces: int = 1
    piece_word: str = "piece"
    judged_word: str = "when shaping begins"
    judged_rise: float | None = None
    whisker: tuple[float, float] | None = None
    before: Course | None = None
    before_words: str = "before"
    system: str = "metric"

    @property
    def rise_when_judged(self) -> float:
        """The volume the dough is judged by; the course where it is not given."""
        if self.judged_rise is not None:
            return self.judged_rise
        return self.course.at(self.judged_at, before=True)[2]

    @property
    def judged_from(self) -> float:
        """From when on the dough is what is judged: since it last lost volume to work, else since mixed."""
        times, rises = self.course.time, self.course.rise
        falls = [
            times[at]
            for at in range(1, len(times))
            if times[at] < self.judged_at - 1e-6 and rises[at - 1] - rises[at] > 0.02
        ]
        return falls[-1] if falls else times[0]

    @property
    def start(self) -> float:
        """Where the axis starts: an hour before the first thing is done."""
        return self.first_at - 1.0

    @property
    def end(self) -> float:
        """Where the axis ends: the midnight after the meal."""
        return self.clock.midnight_after(max(self.meal_at, self.judged_at))

    @property
    def strands(self) -> int:
        """How many strands are drawn after dividing: as many as pieces, two where there are over four."""
        return self.pieces if self.pieces <= 4 else 2

    def opened_from(self) -> float | None:
        """Where the deciding hours begin, or ``None`` where the whole is short enough to read as it is."""
        if self.end - self.start <= 20.0:
            return None
        cold = [
            stay.end for stay in self.stays if stay.ground == "fridge" and stay.end <= self.judged_at + 1e-6
        ]
        opened = max(cold) - 1.0 if cold else self.judged_at - 8.0
        return opened if self.end - opened <= 0.6 * (self.end - self.start) else None
