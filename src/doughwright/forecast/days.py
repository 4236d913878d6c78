"""The days of a recipe in one kitchen: its doughs through their steps, judged where the shape says."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._contents import blanks, lines_within, need_yeast, out_of_scope
from doughwright.forecast._course import Course, Mark, Setting, course_of
from doughwright.forecast._judge import Judge, target_of
from doughwright.forecast._moments import clock_of, dough_of, judged_mark, last_wait
from doughwright.forecast._wait import Row, row, rows_of, wait
from doughwright.forecast._window import LEFT_HOURS, lengthened
from doughwright.forecast.results import (
    Days,
    Preferment,
    Reading,
    Run,
    Series,
    series_of,
)
from doughwright.kitchen.assumed import GRAIN, SCALE, WATER, Surroundings
from doughwright.kitchen.learning import as_learnt
from doughwright.recipe.model import BAKES, Recipe
from doughwright.recipe.weigh import WeighedLine, weigh
from doughwright.science.parameters import Parameters


def days(recipe: Recipe, kitchen: Surroundings, parameters: Parameters | None = None) -> Days:
    """Run every main dough of a recipe in a kitchen.

    Raises ``NoAnswerError`` where there is no yeasted dough, or freezing comes in: neither is modelled.
    """
    own = parameters or as_learnt(Parameters(), kitchen.learnt)
    setting = Setting(recipe, kitchen, weigh(recipe), own, clock=clock_of(recipe))
    if not recipe.doughs:
        raise NoAnswerError(
            Fault("this recipe has no dough, so it has no days", try_='Give a mix kind = "dough"')
        )
    return Days(tuple(run_of(setting, mix.name) for mix in recipe.doughs))


def run_of(setting: Setting, name: str) -> Run:
    """Run one dough and judge it."""
    lines = lines_within(setting.weighed, name)
    warnings = _scope(name, lines)
    course = course_of(setting, name)
    if course.dough is None or course.temperature is None:
        raise NoAnswerError(Fault(f'"{name}" has no flour, so it has no days', try_="Add flour to the mix"))
    judge = Judge(target_of(setting.recipe), setting.parameters)
    at = judged_mark(setting.recipe, course)
    last = last_wait(course, at)
    moment = course.marks[at]
    judged = judge.reading(_row_at(moment))
    rows = rows_of(course.rows)
    longer = lengthened(setting, course, at)
    left = _left(setting, moment, course.marks[last + 1] if last is not None else moment)
    shaping, shaping_why = _at_shaping(course, judge, judged, moment)
    bake, bake_why = _at_bake(course, judge, judged, moment)
    return Run(
        dough=name,
        kitchen=setting.kitchen.name,
        dough_temperature=course.temperature,
        target=judge.target,
        series=_series([*rows[: moment.rows], *left]),
        after=_after(rows[moment.rows :], moment),
        preferments=_preferments(course),
        events=course.events,
        judged_at=judged.time,
        judged=judged,
        at_shaping=shaping,
        at_shaping_why=shaping_why,
        at_bake=bake,
        at_bake_why=bake_why,
        ripe_window=judge.window(left if longer is None else rows_of(longer)),
        said=_said(setting, course, lines),
        warnings=(*warnings, *course.warnings, *_ceiling(_row_at(moment))),
    )


def _ceiling(judged: Row) -> list[str]:
    if judged.leaked <= 0.0:
        return []
    return ["the dough has reached its ceiling and leaks: a real one may collapse, which is not modelled"]


def _scope(name: str, lines: Sequence[WeighedLine]) -> list[str]:
    """Refuse a dough that has no yeast; warn of what else raises it."""
    need_yeast(name, lines)
    return [f"{one} is not modelled: the days are those of the yeast alone" for one in out_of_scope(lines)]


def _row_at(mark: Mark) -> Row:
    return rows_of(row(mark.time, dough_of(mark), mark.where.air)[None])[0]


def _left(setting: Setting, moment: Mark, waited: Mark) -> list[Row]:
    """The dough left from the judged moment on, where it last waited."""
    dough, air = dough_of(moment), waited.where.air
    left = wait(dough, start=moment.time, hours=LEFT_HOURS, air=air, stepping=setting.stepping)
    return rows_of(left.rows)


def _at_shaping(
    course: Course, judge: Judge, judged: Reading, moment: Mark
) -> tuple[Reading | None, str | None]:
    found = [mark for mark in course.marks if mark.step is not None and mark.step.do == "shape"]
    if not found:
        return None, "no step shapes this dough"
    if found[-1] is moment:
        return judged, None
    return judge.reading(_row_at(found[-1]), note=f"; {judge.target.judged} is where it counts"), None


def _at_bake(
    course: Course, judge: Judge, judged: Reading, moment: Mark
) -> tuple[Reading | None, str | None]:
    end = course.marks[-1]
    if end.step is None or end.step.do not in BAKES:
        return None, "no step bakes this dough"
    if end is moment:
        return judged, None
    reading = judge.reading(_row_at(end))
    return replace(reading, state=judged.state, state_why=f"as judged before: {judged.state_why}"), None


def _after(rows: Sequence[Row], moment: Mark) -> Series | None:
    return _series(rows) if rows and rows[-1].time > moment.time else None


def _series(rows: Sequence[Row]) -> Series:
    columns = list(zip(*rows, strict=True))
    per_gram = {5, 6}
    return series_of(
        [
            [value / 100.0 for value in column] if index in per_gram else column
            for index, column in enumerate(columns[:9])
        ]
    )


def _preferments(course: Course, seen: set[str] | None = None) -> tuple[Preferment, ...]:
    """Every preferment once, the ones that go into another first."""
    seen = set() if seen is None else seen
    found: list[Preferment] = []
    for one in course.preferments:
        if one.name not in seen:
            seen.add(one.name)
            found += [*_preferments(one, seen), Preferment(one.name, _series(rows_of(one.rows)), one.events)]
    return tuple(found)


def _said(setting: Setting, course: Course, lines: Sequence[WeighedLine]) -> tuple[str, ...]:
    """What was assumed, of the kitchen only where it bears on the days."""
    unused = {SCALE.said}
    if course.temperature is not None and course.temperature.how != "computed":
        unused |= {WATER.said, GRAIN.said}
    kitchen = [one for one in setting.kitchen.assumed if one not in unused]
    if course.temperature is not None and course.temperature.how != "computed":
        kitchen = [one for one in kitchen if "friction" not in one and "mixing" not in one]
    return tuple(dict.fromkeys([*kitchen, *blanks(lines), *course.said]))
