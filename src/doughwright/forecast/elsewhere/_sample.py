"""A recipe in many kitchens, chunk by chunk, and what is kept of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast.elsewhere._kitchens import Kitchens, Ran
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.science.sampling.sobol import sobol

Array = NDArray[np.float64]

CHUNK = 2048
"""Kitchens run at once: a whole net of Sobol points, and some tens of megabytes."""
KEPT = 8 * CHUNK
"""Kitchens of which the whole course is kept; of the rest only how they are judged."""


@dataclass(frozen=True, slots=True)
class Sample:
    """What is kept of a run: of the first ``KEPT`` the points drawn and the rise over time, of all the end.

    ``points`` (kept, inputs), ``time`` [h] (moments,), ``course`` (moments, kept); the rest (kitchens,);
    ``state`` is 0 young, 1 ripe, 2 past; ``traits`` are what a cook could know of each kitchen.
    """

    points: Array
    time: Array
    course: Array
    judged_at: Array
    rise: Array
    sugar: Array
    state: NDArray[np.int8]
    dough_temperature: Array
    traits: Mapping[str, Array]

    @property
    def kept(self) -> int:
        """Of how many kitchens the course is kept."""
        return len(self.points)


def sample(kitchens: Kitchens, *, count: int, seed: int, watch: Watch) -> Sample:
    """Run the first ``count`` points of the document's sequence, or as many as there is time for."""
    points: list[Array] = []
    courses: list[Array] = []
    ends: list[Ran] = []
    time: Array | None = None
    done = 0
    while done < count and not (watch.stopped and done):
        size = min(CHUNK, count - done)
        drawn = sobol(count=size, dimensions=kitchens.inputs, seed=seed, first=done)
        ran = kitchens.run(drawn)
        if time is None:
            time = common_time(ran)
        if done < KEPT:
            points.append(drawn)
            courses.append(on_common_time(ran, time))
        ends.append(ran.judged_only())
        done += size
        watch.add(size)
    return _sample(points, time, courses, ends)


def common_time(ran: Ran) -> Array:
    """Moments [h] that all kitchens share: their own where those agree, else even ones to the last."""
    if np.ptp(ran.time, axis=1).max() < 1e-9:
        return ran.time[:, 0].copy()
    return np.linspace(0.0, float(ran.judged_at.max()), len(ran.time))


def on_common_time(ran: Ran, time: Array) -> Array:
    """The rise of each kitchen at shared moments; past its own judged one it stays as judged."""
    if len(time) == len(ran.time) and np.abs(ran.time - time[:, np.newaxis]).max() < 1e-9:
        return ran.course
    columns = [np.interp(time, ran.time[:, one], ran.course[:, one]) for one in range(ran.course.shape[1])]
    return np.stack(columns, axis=1)


def joined(parts: list[Ran]) -> Ran:
    """Blocks of kitchens as one, without the way there."""
    ends = [one.judged_only() for one in parts]
    together = {
        one.name: np.concatenate([getattr(end, one.name) for end in ends], axis=-1)
        for one in fields(Ran)
        if one.name != "traits"
    }
    traits = {name: np.concatenate([end.traits[name] for end in ends]) for name in ends[0].traits}
    return Ran(**together, traits=traits)


def _sample(points: list[Array], time: Array | None, courses: list[Array], ends: list[Ran]) -> Sample:
    end = joined(ends)
    return Sample(
        points=np.concatenate(points),
        time=time if time is not None else np.zeros(1),
        course=np.concatenate(courses, axis=1),
        judged_at=end.judged_at,
        rise=end.rise,
        sugar=end.sugar,
        state=end.state,
        dough_temperature=end.dough_temperature,
        traits=end.traits,
    )
