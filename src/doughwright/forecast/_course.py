"""The course of one mix through the document's steps: mixed, worked, waiting; its preferments first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._contents import Lines, kitchen_protein, lines_within
from doughwright.forecast._dough import Dough, Frame, Joining, mix, worked
from doughwright.forecast._order import lines_by_step, steps_of
from doughwright.forecast._shapes import in_tin, work_of
from doughwright.forecast._wait import ON_SCREEN, Row, Stepping, row, wait
from doughwright.forecast._whereabouts import CONTAINERS, Whereabouts, air_faults, whereabouts
from doughwright.forecast.results import DoughTemperature, Event
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import BAKES, Recipe, Step
from doughwright.recipe.weigh import WeighedLine, WeighedMix
from doughwright.science.mixing import Part, dough_temperature
from doughwright.science.parameters import Parameters


@dataclass(frozen=True, slots=True)
class Setting:
    """What every course of a recipe shares: the documents, the weighed mixes, and how the model is cut.

    ``courses`` keeps those that are run, so that a mix that goes in twice is run once.
    """

    recipe: Recipe
    kitchen: Surroundings
    weighed: dict[str, WeighedMix]
    parameters: Parameters = field(default_factory=Parameters)
    stepping: Stepping = ON_SCREEN
    nodes: int = 16
    courses: dict[str, Course] = field(default_factory=dict, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Mark:
    """A course just before a step: the time [h], the dough there, where it stands, and the rows so far."""

    number: int | None
    step: Step | None
    time: float
    dough: Dough | None
    where: Whereabouts
    rows: int


@dataclass(frozen=True, slots=True)
class Course:
    """What came of a mix; times [h] from the end of its last mix step; the last mark is the end or bake.

    ``lines`` is all that is in a mix without flour, which makes no ``dough``.
    """

    name: str
    dough: Dough | None
    lines: tuple[WeighedLine, ...]
    rows: tuple[Row, ...]
    marks: tuple[Mark, ...]
    events: tuple[Event, ...]
    temperature: DoughTemperature | None
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
        self.lines = lines_by_step(setting.weighed[name], self.mixing)
        self.flours = kitchen_protein(setting.kitchen, lines_within(setting.weighed, name))
        self.now, self.zero, self.taken = 0.0, 0.0, 0
        self.dough: Dough | None = None
        self.pending: tuple[WeighedLine, ...] = ()
        self.where, self.worked = self._place(None, "open"), True
        self.rows: list[Row] = []
        self.events: list[Event] = []
        self.marks: list[Mark] = []
        self.preferments: list[Course] = []
        self.temperature: DoughTemperature | None = None
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
        start, self.now = self.now, self.now + _hours(step)
        place = "oven" if step.in_oven else step.at.text if step.at else "room"
        self._event(number, step, start, place, None)

    def _mix(self, step: Step, number: int | None) -> None:
        """Whatever is in already stands for the time of mixing; then this step's lines go in."""
        start = self.now
        if number is not None:
            self._mark(number, step)
        self._stand(_hours(step), self._place(step, "open"))
        lines, joining = self._joining(self.pending + self.lines[self.taken])
        self.taken += 1
        last = self.taken == len(self.mixing)
        added = self._lines(lines).contents()
        flour = added.flour + sum(one.dough.contents.flour * one.share for one in joining)
        if flour <= 0.0:
            self.pending = tuple(lines)
        else:
            self.pending = ()
            degrees = self._temperature(step, lines, joining, last)
            yeast = self._lines(lines).yeast()
            self.dough = mix(joining, added, yeast, degrees, self._frame(), self.setting.parameters)
            self.rows.append(row(self.now, self.dough, self.where.air))
        self.worked, self.zero = True, self.now
        if number is not None:
            self._event(number, step, start, self.where.place, None)

    def _joining(self, lines: Sequence[WeighedLine]) -> tuple[list[WeighedLine], list[Joining]]:
        """The lines that go in, those of mixes without flour too, and the doughs, this one first."""
        joining = [Joining(self.dough, 1.0, True)] if self.dough is not None else []
        single: list[WeighedLine] = []
        for line in lines:
            if line.line.mix is None or not line.mass:
                single.append(line)
                continue
            course = course_of(self.setting, line.line.mix)
            share = line.mass / self.setting.weighed[line.line.mix].mass
            if course.dough is None:
                single += [replace(one, mass=one.mass * share) for one in course.lines if one.mass]
            else:
                joining.append(Joining(course.dough, share, False))
                self.preferments += [] if any(one is course for one in self.preferments) else [course]
            self.said += course.said
            self.warnings += course.warnings
        return single, joining

    def _temperature(
        self, step: Step, lines: Sequence[WeighedLine], joining: Sequence[Joining], last: bool
    ) -> float:
        """Measured, else the target (at the first and the last mixing), else by this kitchen's balance."""
        target = self.setting.recipe.target.dough_temperature if self.main else None
        first = not (joining and joining[0].itself)
        if step.dough_at is not None:
            self.temperature = DoughTemperature(step.dough_at, "measured")
        elif target is not None and (first or last):
            self.temperature = DoughTemperature(target, "target")
        else:
            self.temperature = DoughTemperature(self._balance(step, lines, joining), "computed")
            if first and self.main:
                self.said.append("what goes in beside flour and water is as warm as the room")
        return self.temperature.value

    def _balance(self, step: Step, lines: Sequence[WeighedLine], joining: Sequence[Joining]) -> float:
        kitchen, p = self.setting.kitchen, self.setting.parameters
        parts = self._lines(lines).parts(kitchen.flour_temperature.value, kitchen.tap.value)
        parts += [
            Part(
                one.dough.contents.mass * one.share / 1000.0, one.dough.solids.heat / 1000.0, _mean(one.dough)
            )
            for one in joining
        ]
        whole = sum(_hours(one) for one in self.mixing)
        share = _hours(step) / whole if whole > 0.0 else 1.0 / len(self.mixing)
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
        self._stand(_hours(step), where)
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
        self._stand(_hours(step), where)
        self.worked = True
        self._event(number, step, start, where.place, None)

    def _stand(self, hours: float, where: Whereabouts) -> None:
        if hours > 0.0 or self.dough is not None:
            self.where = where
        if hours > 0.0 and self.dough is not None:
            if CONTAINERS[where.container].shapes and self.dough.body.shape == "ball":
                body = in_tin(self.setting.recipe, self.dough.body, self.setting.parameters)
                self.dough = replace(self.dough, body=body)
            self.dough = wait(
                self.dough,
                start=self.now,
                hours=hours,
                air=where.air,
                stepping=self.setting.stepping,
                track=self.rows,
            )
        self.now += hours

    def _note(self, one: Row) -> None:
        if not self.rows or self.rows[-1] != one:
            self.rows.append(one)

    def _mark(self, number: int | None, step: Step | None) -> None:
        self.marks.append(Mark(number, step, self.now, self.dough, self.where, len(self.rows)))

    def _event(self, number: int, step: Step, start: float, place: str, container: str | None) -> None:
        self.events.append(Event(step.do, start, self.now, place, self.name, number, container))

    def _place(self, step: Step | None, container: str) -> Whereabouts:
        at = step.at if step is not None else None
        return whereabouts(self.setting.kitchen, at, container, self.setting.parameters)

    def _lines(self, lines: Sequence[WeighedLine]) -> Lines:
        return Lines(tuple(lines), self.flours, self.setting.kitchen.room.value, self.setting.parameters)

    def _frame(self) -> Frame:
        kept = 1.0 - self.setting.recipe.makes.loss if self.main else 1.0
        return Frame(self.setting.kitchen.altitude.value, kept, self.setting.nodes)

    def _course(self) -> Course:
        zero = self.zero
        return Course(
            name=self.name,
            dough=self.dough,
            lines=self.pending,
            rows=tuple(one._replace(time=one.time - zero) for one in self.rows),
            marks=tuple(_shifted(one, zero) for one in self.marks),
            events=tuple(replace(one, start=one.start - zero, end=one.end - zero) for one in self.events),
            temperature=self.temperature,
            preferments=tuple(self.preferments),
            said=tuple(dict.fromkeys(self.said)),
            warnings=tuple(dict.fromkeys(self.warnings)),
        )


def _shifted(mark: Mark, zero: float) -> Mark:
    where = replace(mark.where, air=replace(mark.where.air, offset=zero))
    return replace(mark, time=mark.time - zero, where=where)


def _hours(step: Step) -> float:
    return step.for_.middle / 3600.0 if step.for_ is not None else 0.0


def _mean(dough: Dough) -> float:
    return dough.mean(dough.temperature)
