"""The course of one mix through the document's steps: mixed, worked, waiting; its preferments first."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._amounts import Changes, Weighing, as_weighed
from doughwright.forecast._contents import Lines, is_some, kitchen_protein, lines_within
from doughwright.forecast._dough import Dough, Frame, Joining, mix, worked
from doughwright.forecast._order import lines_by_step, steps_of
from doughwright.forecast._shapes import in_tin, work_of
from doughwright.forecast._wait import ON_SCREEN, evenly, row, wait
from doughwright.forecast._whereabouts import CONTAINERS, Whereabouts, air_faults, whereabouts
from doughwright.forecast.results import DoughTemperature, Event
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import BAKES, Recipe, Step
from doughwright.recipe.until import Until
from doughwright.recipe.weigh import WeighedLine, WeighedMix
from doughwright.science.kernels.layout import ROWS, Stepping
from doughwright.science.mixing import Part, dough_temperature
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array, Real


@dataclass(frozen=True, slots=True)
class Setting:
    """What every course of a recipe shares: the documents, the weighed mixes, and how the model is cut.

    ``lanes`` kitchens are run at once. ``changes`` and ``weighing`` are what differs from the document;
    ``computed`` takes a dough's temperature from the kitchen whatever the document says. ``every`` [min] a
    row is kept, else as often as the screen wants it. ``clock`` is the hour of the day at which the dough's
    time begins. ``courses`` keeps those that are run, so that a mix that goes in twice is run once.
    """

    recipe: Recipe
    kitchen: Surroundings
    weighed: dict[str, WeighedMix]
    parameters: Parameters = field(default_factory=Parameters)
    stepping: Stepping = ON_SCREEN
    nodes: int = 16
    lanes: int = 1
    changes: Changes = field(default_factory=Changes)
    weighing: Weighing = field(default_factory=Weighing)
    computed: bool = False
    every: float | None = None
    clock: float = 0.0
    threads: int | None = None
    courses: dict[str, Course] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Mark:
    """A course just before a step: the time [h], the dough there, where it stands, and rows so far."""

    number: int | None
    step: Step | None
    time: Real
    dough: Dough | None
    where: Whereabouts
    rows: int


@dataclass(frozen=True, slots=True)
class Course:
    """What came of a mix; times [h] from the end of its last mix step; the last mark is the end or bake.

    ``rows`` has shape (rows, 11, lanes), in the order of ROWS, ``leaked`` as the share of the gas made.
    ``lines`` is all that is in a mix without flour, which makes no ``dough``; ``entered`` [degC] is what its
    days began at. Of many kitchens, ``events`` and ``temperature`` are the mean.
    """

    name: str
    dough: Dough | None
    lines: tuple[WeighedLine, ...]
    rows: Array
    marks: tuple[Mark, ...]
    events: tuple[Event, ...]
    temperature: DoughTemperature | None
    entered: Real
    preferments: tuple[Course, ...]
    said: tuple[str, ...]
    warnings: tuple[str, ...]


def course_of(setting: Setting, name: str) -> Course:
    """Run a mix through its steps up to its first bake."""
    if name not in setting.courses:
        setting.courses[name] = _Walk(setting, name).run()
    return setting.courses[name]


class _Walk:
    """One mix on its way: the clock, the dough, where it stands, and what is written down of it."""

    def __init__(self, setting: Setting, name: str) -> None:
        recipe = setting.recipe
        self.setting, self.name = setting, name
        self.main = any(mix.name == name for mix in recipe.doughs)
        self.steps = steps_of(recipe, name)
        mixing = [step for _, step in self.steps if step.do == "mix"]
        self.implied = not mixing
        self.mixing = mixing or [Step(do="mix", mix=name)]
        changes = setting.changes if self.main else Changes()
        own = as_weighed(setting.weighed[name], changes, setting.weighing)
        self.lines = lines_by_step(own, self.mixing)
        self.flours = kitchen_protein(setting.kitchen, lines_within(setting.weighed, name))
        self.now: Real = 0.0
        self.zero: Real = 0.0
        self.taken, self.count = 0, 0
        self.dough: Dough | None = None
        self.pending: tuple[WeighedLine, ...] = ()
        self.where, self.worked = self._place(None, "open"), True
        self.rows: list[Array] = []
        self.events: list[Event] = []
        self.marks: list[Mark] = []
        self.preferments: list[Course] = []
        self.temperature: DoughTemperature | None = None
        self.entered: Real = math.nan
        self.said: list[str] = []
        self.warnings: list[str] = []

    def run(self) -> Course:
        """Walk to the first bake; what comes after it is only timed."""
        if self.implied:
            self.said.append(f'no step mixes "{self.name}": its days begin at its first step')
            self._mix(self.mixing[0], None)
        baked = False
        for number, step in self.steps:
            baked = baked or step.do in BAKES
            if baked:
                self._timed(number, step)
            else:
                self._take(number, step)
        if not baked:
            self._mark(None, None)
        return self._course()

    def _take(self, number: int, step: Step) -> None:
        if step.do in ("freeze", "thaw"):
            raise NoAnswerError(
                Fault(
                    f'step {number + 1} "{step.do}": the days do not model freezing',
                    try_="Leave the step out to see the rest",
                )
            )
        if step.do == "mix":
            self._mix(step, number)
        elif step.waits:
            self._wait(number, step)
        else:
            self._work(number, step)

    def _timed(self, number: int, step: Step) -> None:
        if not any(mark.step is not None and mark.step.do in BAKES for mark in self.marks):
            self._mark(number, step)
        start, self.now = self.now, self.now + self._hours(number, step)
        place = "oven" if step.in_oven else step.at.text if step.at else "room"
        self._event(number, step, start, place, None)

    def _mix(self, step: Step, number: int | None) -> None:
        """Whatever is in already stands for the time of mixing; then this step's lines go in."""
        start = self.now
        if number is not None:
            self._mark(number, step)
        self._stand(self._hours(number, step), self._place(step, "open"))
        lines, joining = self._joining(self.pending + self.lines[self.taken])
        self.taken += 1
        last = self.taken == len(self.mixing)
        added = self._lines(lines).contents()
        flour = added.flour + sum(one.dough.contents.flour * one.share for one in joining)
        if not is_some(flour):
            self.pending = tuple(lines)
        else:
            self.pending = ()
            degrees = self._temperature(step, lines, joining, last)
            yeast = self._lines(lines).yeast(degrees)
            self.dough = mix(joining, added, yeast, degrees, self._frame(), self.setting.parameters)
            self._keep(row(self.now, self.dough, self.where.air)[None])
        self.worked, self.zero = True, self.now
        if number is not None:
            self._event(number, step, start, self.where.place, None)

    def _joining(self, lines: Sequence[WeighedLine]) -> tuple[list[WeighedLine], list[Joining]]:
        """The lines that go in, those of mixes without flour too, and the doughs, this one first."""
        joining = [Joining(self.dough, 1.0, True)] if self.dough is not None else []
        single: list[WeighedLine] = []
        for line in lines:
            if line.line.mix is None or line.mass is None or not is_some(line.mass):
                single.append(line)
                continue
            course = course_of(self.setting, line.line.mix)
            share = line.mass / self.setting.weighed[line.line.mix].mass
            if course.dough is None:
                some = [one for one in course.lines if one.mass is not None]
                single += [replace(one, mass=(one.mass or 0.0) * share) for one in some]
            else:
                joining.append(Joining(course.dough, share, False))
                self.preferments += [] if any(one is course for one in self.preferments) else [course]
            self.said += course.said
            self.warnings += course.warnings
        return single, joining

    def _temperature(
        self, step: Step, lines: Sequence[WeighedLine], joining: Sequence[Joining], last: bool
    ) -> Real:
        """Measured, else the target (at the first and the last mixing), else by this kitchen's balance."""
        wanted, miss = self.setting.changes.dough_temperature, self.setting.changes.miss
        if self.main and wanted is not None and last:
            return self._enters(wanted + miss, "target")
        target = self.setting.recipe.target.dough_temperature if self.main else None
        first = not (joining and joining[0].itself)
        if step.dough_at is not None and not self.setting.computed:
            return self._enters(step.dough_at + miss, "measured")
        if target is not None and (first or last) and not self.setting.computed:
            return self._enters(target + miss, "target")
        if first and self.main:
            self.said.append("what goes in beside flour and water is as warm as the room")
        return self._enters(self._balance(step, lines, joining), "computed")

    def _enters(self, degrees: Real, how: Literal["measured", "target", "computed"]) -> Real:
        self.entered = degrees
        self.temperature = DoughTemperature(_one(degrees), how)
        return degrees

    def _balance(self, step: Step, lines: Sequence[WeighedLine], joining: Sequence[Joining]) -> Real:
        kitchen, p = self.setting.kitchen, self.setting.parameters
        parts = self._lines(lines).parts(kitchen.flour_temperature.value, kitchen.tap.value)
        parts += [
            Part(
                one.dough.contents.mass * one.share / 1000.0, one.dough.solids.heat / 1000.0, _mean(one.dough)
            )
            for one in joining
        ]
        whole = sum(_mixed(one) for one in self.mixing)
        share = _mixed(step) / whole if whole > 0.0 else 1.0 / len(self.mixing)
        # A preferment is only stirred together.
        rise = share * kitchen.friction.value / 3.0 if self.main else 0.0
        return dough_temperature(parts=parts, rise=rise, parameters=p)

    def _wait(self, number: int, step: Step) -> None:
        """Stay where the dough was, unless it was worked since or the step names a place or a container."""
        container = step.in_ or ("open" if self.worked else self.where.container)
        stays = step.at is None and not self.worked
        if stays:
            air = replace(self.where.air, film=self._place(None, container).air.film)
            where = replace(self.where, container=container, air=air)
        else:
            where = self._place(step, container)
        self._mark(number, step)
        self.warnings += air_faults(where, number, step.do)
        if step.for_ is None:
            self.said.append(f"step {number + 1} ({step.do}) says no time: none is taken")
        start = self.now
        self._stand(self._hours(number, step), where, step.until)
        self.worked = False
        self._event(number, step, start, where.place, where.container)

    def _work(self, number: int, step: Step) -> None:
        """Work at once; a time the step gives is then spent in the room."""
        self._mark(number, step)
        start, dough = self.now, self.dough
        work = work_of(step, self.setting.recipe, dough) if dough is not None else None
        if dough is not None and work is not None:
            self._note(row(start, dough, self.where.air))
            self.dough = worked(dough, degassed=work.degas, tightened=work.tightens, body=work.body)
            self._note(row(start, self.dough, self.where.air))
        where = self._place(step, step.in_ or "open")
        self._stand(self._hours(number, step), where)
        self.worked = True
        self._event(number, step, start, where.place, None)

    def _stand(self, hours: Real, where: Whereabouts, until: Until | None = None) -> None:
        if is_some(hours) or self.dough is not None:
            self.where = where
        if is_some(hours) and self.dough is not None:
            if CONTAINERS[where.container].shapes and self.dough.body.shape == "ball":
                body = in_tin(self.setting.recipe, self.dough.body, self.setting.parameters)
                self.dough = replace(self.dough, body=body)
            every = self.setting.every
            left = wait(
                self.dough,
                start=self.now,
                hours=hours,
                air=where.air,
                stepping=self.setting.stepping,
                samples=None if every is None else evenly(float(np.max(hours)), every),
                until=until,
                threads=self.setting.threads,
            )
            self.dough, hours = left.dough, left.took
            self._keep(left.rows)
        self.now = self.now + hours

    def _hours(self, number: int | None, step: Step) -> Real:
        """How long a step takes [h]: as changed, else as the document says."""
        if number is not None and number in self.setting.changes.hours:
            return self.setting.changes.hours[number]
        return step.lasts / 3600.0 if step.lasts is not None else 0.0

    def _keep(self, rows: Array) -> None:
        self.rows.append(rows)
        self.count += len(rows)

    def _note(self, one: Array) -> None:
        if not self.rows or not np.allclose(self.rows[-1][-1], one, rtol=1e-9, atol=1e-9):
            self._keep(one[None])

    def _mark(self, number: int | None, step: Step | None) -> None:
        self.marks.append(Mark(number, step, self.now, self.dough, self.where, self.count))

    def _event(self, number: int, step: Step, start: Real, place: str, container: str | None) -> None:
        self.events.append(Event(step.do, _one(start), _one(self.now), place, self.name, number, container))

    def _place(self, step: Step | None, container: str) -> Whereabouts:
        at = step.at if step is not None else None
        setting = self.setting
        return whereabouts(setting.kitchen, at, container, setting.parameters, setting.clock)

    def _lines(self, lines: Sequence[WeighedLine]) -> Lines:
        return Lines(tuple(lines), self.flours, self.setting.kitchen.room.value, self.setting.parameters)

    def _frame(self) -> Frame:
        kept = 1.0 - self.setting.recipe.makes.loss if self.main else 1.0
        setting = self.setting
        return Frame(setting.kitchen.altitude.value, kept, setting.nodes, setting.lanes)

    def _course(self) -> Course:
        zero = self.zero
        rows = np.concatenate(self.rows) if self.rows else np.zeros((0, len(ROWS), self.setting.lanes))
        rows[:, 0] -= zero
        return Course(
            name=self.name,
            dough=self.dough,
            lines=self.pending,
            rows=rows,
            marks=tuple(_shifted(one, zero) for one in self.marks),
            events=tuple(
                replace(one, start=one.start - _one(zero), end=one.end - _one(zero)) for one in self.events
            ),
            temperature=self.temperature,
            entered=self.entered,
            preferments=tuple(self.preferments),
            said=tuple(dict.fromkeys(self.said)),
            warnings=tuple(dict.fromkeys(self.warnings)),
        )


def _shifted(mark: Mark, zero: Real) -> Mark:
    where = replace(mark.where, air=replace(mark.where.air, offset=zero))
    return replace(mark, time=mark.time - zero, where=where)


def _mean(dough: Dough) -> Real:
    return dough.mean(dough.temperature)


def _one(value: Real) -> float:
    return float(np.mean(value))


def _mixed(step: Step) -> float:
    return step.lasts or 0.0
