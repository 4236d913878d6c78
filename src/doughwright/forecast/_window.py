"""When a dough is ripe, were its last wait another: that wait made longer, its work done at each point."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from doughwright.forecast._course import Course, Mark, Setting
from doughwright.forecast._dough import Dough, worked
from doughwright.forecast._judge import Judge
from doughwright.forecast._moments import dough_of, last_wait
from doughwright.forecast._shapes import work_of
from doughwright.forecast._wait import evenly, row, wait
from doughwright.science.yeast import Array

LEFT_HOURS = 12.0
"""Hours run past the judged moment, as if the dough were left."""


def lengthened(setting: Setting, course: Course, at: int) -> Array | None:
    """Rows (rows, 11, lanes) of the last wait before mark ``at``, 12 h longer, as each would be judged.

    ``None`` where there is no wait.
    """
    last = last_wait(course, at)
    if last is None:
        return None
    begin, end, works = course.marks[last], course.marks[last + 1], course.marks[last + 1 : at]
    hours = end.time - begin.time + LEFT_HOURS
    every = setting.every
    left = wait(
        dough_of(begin),
        start=begin.time,
        hours=hours,
        air=end.where.air,
        stepping=setting.stepping,
        samples=None if every is None else evenly(float(np.max(hours)), every),
        along=bool(works),
        threads=setting.threads,
    )
    if not works:
        return left.rows
    done = [_worked(setting, dough, works) for dough in left.along()]
    if setting.lanes == 1:
        # Each point of the wait is a lane of one dough here, and a row there.
        return row(left.rows[:, 0, 0], done[0], end.where.air).T[:, :, None]
    times = left.rows[:, 0]
    return np.stack([row(time, one, end.where.air) for time, one in zip(times, done, strict=True)])


def _worked(setting: Setting, dough: Dough, works: Sequence[Mark]) -> Dough:
    for mark in works:
        work = work_of(mark.step, setting.recipe, dough) if mark.step is not None else None
        if work is not None:
            dough = worked(dough, degassed=work.degas, tightened=work.tightens, body=work.body)
    return dough


def windows(judge: Judge, rows: Array) -> tuple[Array, Array]:
    """Begin and end [h] of the first ripe stretch of each lane of ``rows`` (rows, 11, lanes).

    Begin is infinite where it is never ripe nor past; end is infinite where it is not past at the last row.
    """
    time, rise = rows[:, 0], rows[:, 4]
    states = judge.codes(rise, rows[:, 10], rows[:, 7])
    return (
        _first(states >= 1, time, rise, judge.target.low),
        _first(states == 2, time, rise, judge.target.high),
    )


def _first(reached: np.ndarray, time: Array, rise: Array, level: float) -> Array:
    """When each lane is first there: where its rise crosses ``level``, else at the row itself."""
    at, lane = np.argmax(reached, axis=0), np.arange(time.shape[1])
    before = np.maximum(at - 1, 0)
    low, high = rise[before, lane], rise[at, lane]
    crosses = (low - level) * (high - level) < 0.0
    share = np.where(crosses, (level - low) / np.where(crosses, high - low, 1.0), 1.0)
    when = time[before, lane] + share * (time[at, lane] - time[before, lane])
    return np.where(reached.any(axis=0), np.where(at == 0, time[0, lane], when), np.inf)
