"""What the section shows: a piece's cells by height and time, phase by phase, and where water boils."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from doughwright.forecast.bake.results import Bake, BakeEvent, Frame, PieceBaked

SMOOTHED = 1.5
"""The boiling line is a mean over so many minutes."""


@dataclass(frozen=True, slots=True)
class Moment:
    """A moment [min]: the faces of the food's cells above the surface [mm], what lies between them [degC].

    ``surface`` are the cells of what it lies on, from below; ``dough`` is how many of the food's are dough;
    ``from_base`` and ``from_top`` say how far in water has boiled [mm].
    """

    time: float
    surface: tuple[float, ...]
    faces: tuple[float, ...]
    food: tuple[float, ...]
    dough: int
    from_base: float
    from_top: float

    @property
    def top(self) -> float:
        """How high the food stands [mm]."""
        return self.faces[-1]

    @property
    def coldest(self) -> tuple[float, float]:
        """The height of the coldest cell of dough [mm], and its temperature [degC]."""
        at = min(range(self.dough), key=lambda n: self.food[n])
        return 0.5 * (self.faces[at] + self.faces[at + 1]), self.food[at]


@dataclass(frozen=True, slots=True)
class Phase:
    """What is done from ``start`` to ``end`` [min]; ``lifted`` where the piece is off the hot surface."""

    do: str
    start: float
    end: float
    in_oven: bool
    lifted: bool
    moments: tuple[Moment, ...]


@dataclass(frozen=True, slots=True)
class Cut:
    """A piece cut through: its phases, what it lies on, and the piece as it was read."""

    surface: str
    thickness: float
    phases: tuple[Phase, ...]
    piece: PieceBaked
    bake: Bake

    @property
    def end(self) -> float:
        """When it is out for good [min]."""
        return self.phases[-1].end

    @property
    def tallest(self) -> float:
        """How high it ever stands above the surface [mm]."""
        return max(moment.top for phase in self.phases for moment in phase.moments)


def cut_of(bake: Bake) -> Cut | None:
    """The section of a bake as it is drawn; ``None`` where none was asked for."""
    section = bake.section
    if section is None or not section.frames:
        return None
    events = [one for one in bake.events if one.piece == section.piece]
    hot = bake.surface.hot
    return Cut(
        surface=bake.surface.name,
        thickness=10.0 * (bake.surface.thickness.value or 0.0),
        phases=tuple(_phase(frames, events, hot=hot) for frames in _parted(section.frames)),
        piece=bake.pieces[section.piece - 1],
        bake=bake,
    )


def smoothed(moments: Sequence[Moment], heights: Sequence[float]) -> list[float]:
    """The mean of heights over ``SMOOTHED`` minutes."""
    half = SMOOTHED / 2.0 + 1e-6
    found = []
    for one in moments:
        near = [h for other, h in zip(moments, heights, strict=True) if abs(other.time - one.time) <= half]
        found.append(sum(near) / len(near))
    return found


def _parted(frames: Sequence[Frame]) -> Iterator[list[Frame]]:
    """The frames of each phase: one begins where a moment stands twice, or something else is done."""
    now = [frames[0]]
    for last, frame in pairwise(frames):
        if frame.do != last.do or (frame.time.value or 0.0) <= (last.time.value or 0.0) + 1e-9:
            yield now
            now = []
        now.append(frame)
    yield now


def _phase(frames: list[Frame], events: list[BakeEvent], *, hot: bool) -> Phase:
    start, end = frames[0].time.value or 0.0, frames[-1].time.value or 0.0
    zero = (events[0].start.value or 0.0) if events else 0.0
    same = (one for one in events if one.do == frames[0].do and (one.end.value or 0.0) - zero > start + 1e-6)
    inside = next((one.in_oven for one in same), True)
    moments = tuple(_moment(frame) for frame in frames)
    return Phase(frames[0].do, start, end, inside, hot and not inside, moments)


def _moment(frame: Frame) -> Moment:
    depth = [10.0 * (one or 0.0) for one in frame.depth.values]
    degrees = [one if one is not None else 0.0 for one in frame.temperature.values]
    under = sum(1 for one in depth if one < 0.0)
    layers = [10.0 * (one.thickness.value or 0.0) for one in frame.layers if one.name != "surface"]
    faces, dough, foot, left = [0.0], 0, 0.0, depth[under:]
    for nth, thick in enumerate(layers):
        foot += thick
        many = len(left) if nth == len(layers) - 1 else sum(1 for one in left if one <= foot)
        faces += [*(0.5 * (a + b) for a, b in pairwise(left[:many])), foot]
        dough, left = dough or many, left[many:]
    return Moment(
        time=frame.time.value or 0.0,
        surface=tuple(degrees[:under]),
        faces=tuple(faces),
        food=tuple(degrees[under:]),
        dough=dough,
        from_base=10.0 * (frame.from_base.value or 0.0),
        from_top=10.0 * (frame.from_top.value or 0.0),
    )
