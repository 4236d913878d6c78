"""What the model says that the readings would have been: a jar as a small dough of the recipe's own."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np

from doughwright.forecast._course import Course, Setting, course_of
from doughwright.forecast._moments import clock_of
from doughwright.forecast._order import steps_of
from doughwright.forecast.calibrate._unknowns import Batch
from doughwright.kitchen.readings.taken import TakenJar
from doughwright.recipe.model import BAKES, Container, Recipe, Step
from doughwright.recipe.types import At, Interval
from doughwright.recipe.weigh import WeighedMix, weigh
from doughwright.science.kernels.layout import Stepping
from doughwright.science.yeast import Array

JAR: Container = "bowl"
"""What a jar is to its dough's warmth: still air round it; assumed."""

PUSHED_OUT = 0.9
"""Share of the free gas that goes when dough is pushed into a jar after it has stood; as in balling."""

SMALL = Stepping(first=60.0, growth=1.7, longest=900.0, settling=5400.0, slowest=1800.0)
"""How time is cut for a sample of a hand's weight, which follows its air within the hour."""

LARGE = Stepping(first=30.0, growth=1.6, longest=600.0, settling=5400.0, slowest=1800.0)

RISE, CORE = 4, 1


@dataclass(frozen=True, slots=True)
class Stay:
    """A dough at a place for a time [s]."""

    at: At
    seconds: float


@dataclass(frozen=True)
class Runner:
    """A recipe cut down to what a reading needs, run for many kitchens at once."""

    recipe: Recipe
    dough: str
    nodes: int
    stepping: Stepping
    weighed: dict[str, WeighedMix] = field(repr=False)

    def run(self, batch: Batch, lanes: int) -> Course:
        """The course of the dough in each kitchen."""
        setting = Setting(
            recipe=self.recipe, kitchen=batch.kitchen, weighed=self.weighed, parameters=batch.parameters,
            stepping=self.stepping, nodes=self.nodes, lanes=lanes, changes=batch.changes,
            weighing=batch.weighing, every=20.0, clock=clock_of(self.recipe),
        )  # fmt: skip
        return course_of(setting, self.dough)


@dataclass(frozen=True)
class JarModel:
    """A jar's own run, and when it is read [h after mixing]."""

    runner: Runner
    filled: float
    times: Array

    def at(self, times: Array) -> JarModel:
        """The same jar read at other times [h]."""
        return replace(self, times=times)

    def rise(self, course: Course) -> Array:
        """The rise at each reading over that when the jar was filled, shape (readings, lanes)."""
        at_filling = _at(course, RISE, np.array([self.filled]))
        return _at(course, RISE, self.times) / at_filling


@dataclass(frozen=True)
class DoughModel:
    """The dough's own run, and when a thermometer was put into it [h after mixing]."""

    runner: Runner
    times: Array

    def core(self, course: Course) -> Array:
        """The core [degC] at each reading, shape (readings, lanes)."""
        return _at(course, CORE, self.times)


def jar_model(recipe: Recipe, dough: str, jar: TakenJar) -> JarModel:
    """The model of a jar: the recipe up to its last mix step, then the jar's own places."""
    end = max(jar.times)
    kept = _until_mixed(recipe, dough)
    with_dough = _stays(recipe, dough)
    before = _cut(with_dough, 0.0, jar.filled)
    after = (
        [Stay(jar.place, max(end - jar.filled, 60.0))]
        if jar.place is not None
        else _cut(with_dough, jar.filled, max(end, jar.filled + 60.0))
    )
    steps = [
        *kept,
        *(_rest(dough, stay) for stay in before),
        Step(do="divide", of=dough, each=jar.mass, degas=PUSHED_OUT if jar.filled > 0.0 else 0.0),
        *(_rest(dough, stay, JAR) for stay in after),
    ]
    small = jar.mass <= 0.1 and jar.filled <= 0.0
    cut = replace(recipe, steps=tuple(steps))
    runner = Runner(cut, dough, 4 if small else 8, SMALL if small else LARGE, weigh(cut))
    return JarModel(runner, jar.filled / 3600.0, np.array(jar.times) / 3600.0)


def dough_model(recipe: Recipe, dough: str, times: Array) -> DoughModel:
    """The model of the dough itself up to its last reading ``times`` [h]."""
    return DoughModel(Runner(recipe, dough, 8, LARGE, weigh(recipe)), times)


def _at(course: Course, column: int, times: Array) -> Array:
    """A column of the rows at times [h], on the line between two rows; shape (times, lanes)."""
    time, value = course.rows[:, 0], course.rows[:, column]
    lanes = np.arange(time.shape[1])
    after = (time[np.newaxis] <= times[:, np.newaxis, np.newaxis] + 1e-9).sum(axis=1)
    first = np.clip(after - 1, 0, len(time) - 1)
    second = np.clip(after, 0, len(time) - 1)
    span = time[second, lanes] - time[first, lanes]
    gone = times[:, np.newaxis] - time[first, lanes]
    weight = np.where(span > 0.0, gone / np.where(span > 0.0, span, 1.0), 0.0)
    low, high = value[first, lanes], value[second, lanes]
    return np.asarray(low + np.clip(weight, 0.0, 1.0) * (high - low))


def _until_mixed(recipe: Recipe, dough: str) -> list[Step]:
    """The steps up to the dough's last mix step, those of its preferments among them."""
    own = [number for number, step in steps_of(recipe, dough) if step.do == "mix"]
    return list(recipe.steps[: own[-1] + 1]) if own else []


def _stays(recipe: Recipe, dough: str) -> list[Stay]:
    """Where the dough stands after it is mixed, and how long, up to the oven; the last place goes on."""
    own = steps_of(recipe, dough)
    mixing = [place for place, (_, step) in enumerate(own) if step.do == "mix"]
    stays, at, worked = [], At("room"), True
    for _, step in own[mixing[-1] + 1 if mixing else 0 :]:
        if step.do in BAKES:
            break
        if step.at is not None:
            at = step.at
        elif worked or not step.waits:
            at = At("room")
        worked = not step.waits
        stays += [Stay(at, step.lasts)] if step.lasts else []
    return [*stays, Stay(at, 1e9)]


def _cut(stays: list[Stay], start: float, end: float) -> list[Stay]:
    """The part of the stays between two times [s after mixing]."""
    found, now = [], 0.0
    for stay in stays:
        low, high = max(now, start), min(now + stay.seconds, end)
        if high > low:
            found.append(Stay(stay.at, high - low))
        now += stay.seconds
    return found


def _rest(dough: str, stay: Stay, container: Container | None = None) -> Step:
    seconds = Interval(stay.seconds, stay.seconds)
    return Step(do="rest", of=dough, for_=seconds, at=stay.at, in_=container)
