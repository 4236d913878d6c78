"""The days: the swelling band for wide pages and for phones, its table, and the steps with their fields."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from doughwright.forecast.results import Event, Run
from doughwright.plan.hands import minutes_of
from doughwright.publish.band import (
    HEADINGS,
    all_events,
    band_of,
    band_svg,
    band_table,
    finding,
    ripe_sentence,
)
from doughwright.publish.clock import WEEKDAYS
from doughwright.publish.explain import step_words
from doughwright.publish.render import capital, number, rise, temperature
from doughwright.recipe.model import Step
from doughwright.web._fields import Field
from doughwright.web._form import Form
from doughwright.web._results import Results
from doughwright.web._sure import SurePart, sure_part, whisker_of

NOTHING = "–"
WIDE, NARROW = 932, 350

APART = "The picture leaves out the minutes that your hands take; the steps and the plan count them."


@dataclass(frozen=True, slots=True)
class Picture:
    """One dough's days: the picture twice, the finding in words, the table, what was assumed.

    ``narrow`` is empty where the window that asks is known to be wide.
    """

    dough: str
    wide: str
    narrow: str
    finding: str
    apart: str
    table: tuple[tuple[str, ...], ...]
    said: tuple[str, ...]
    warnings: tuple[str, ...]
    sure: SurePart | None


@dataclass(frozen=True, slots=True)
class StepRow:
    """A step: when it starts, what is done, its fields, and how the dough then is."""

    day: str
    time: str
    what: str
    until: Field | None
    length: Field | None
    place: Field | None
    volume: str
    core: str
    hands: str
    assumed: bool


@dataclass(frozen=True, slots=True)
class DaysPart:
    """The part "The days"; ``why`` where they are not modelled."""

    margin: tuple[str, ...]
    pictures: tuple[Picture, ...]
    headings: tuple[str, ...]
    steps: tuple[StepRow, ...]
    why: str


def days_part(
    results: Results,
    form: Form,
    before: Results | None,
    *,
    sure: tuple[Run, ...] = (),
    wide_only: bool = False,
) -> DaysPart:
    """The days of every dough, and the steps; ``sure`` are the runs with their intervals, once there."""
    old = {run.dough: run for run in before.runs} if before is not None else {}
    pictures = tuple(
        _picture(results, number, old.get(run.dough), sure, wide_only)
        for number, run in enumerate(results.runs)
    )
    missing = results.missing.get("days")
    return DaysPart(
        margin=tuple(_margin(results)),
        pictures=pictures,
        headings=HEADINGS,
        steps=tuple(_steps(results, form)),
        why=capital(missing.fault.sentence) if missing is not None else "",
    )


def _margin(results: Results) -> Iterator[str]:
    for run in results.runs:
        band = band_of(run, results.shown, results.kitchen, results.clock(run))
        named = f"{capital(run.dough)}: " if len(results.runs) > 1 else ""
        yield named + ripe_sentence(band)


def _picture(
    results: Results, which: int, old: Run | None, sure: tuple[Run, ...], wide_only: bool
) -> Picture:
    run, several = results.runs[which], len(results.runs) > 1
    moved = old is not None and _moved(run, old)
    doubted = sure[which] if sure else run
    band = band_of(
        run, results.shown, results.kitchen, results.clock(run),
        before=old if moved else None, before_words="as saved", whisker=whisker_of(doubted),
    )  # fmt: skip
    return Picture(
        dough=run.dough if several else "",
        wide=band_svg(band, width=WIDE, prefix=f"band{which}"),
        narrow="" if wide_only else band_svg(band, width=NARROW, prefix=f"narrow{which}"),
        finding=finding(band),
        apart=APART if results.plan is not None else "",
        table=tuple(row.cells for row in band_table(band)),
        said=tuple(capital(one) for one in run.said),
        warnings=tuple(capital(one) for one in run.warnings),
        sure=sure_part(doubted, results.clock(run), band.judged_word, named=several),
    )


def _moved(run: Run, old: Run) -> bool:
    """Whether the course is another, so that its ghost is worth drawing."""
    return old.series != run.series


def _steps(results: Results, form: Form) -> Iterator[StepRow]:
    recipe, planned = results.recipe, results.plan
    events = {
        event.step: (run, event)
        for run in reversed(results.runs)
        for event in reversed(all_events(run, results.shown))
    }
    starts = {step: results.clock(run).at(event.start) for step, (run, event) in events.items()}
    if planned is not None:
        starts |= {one.step - 1: one.starts for one in reversed(planned.entries) if one.step is not None}
    last, mixed = "", set[str | None]()
    for index, step in enumerate(recipe.steps):
        row = _step(step, index, form, recipe.makes.pieces, first=step.mix not in mixed)
        mixed |= {step.mix}
        if index in starts:
            day = WEEKDAYS[starts[index].weekday()][:3]
            row = replace(row, day=day if day != last else "", time=f"{starts[index]:%H:%M}")
            last = day
        run, event = events.get(index, (None, None))
        if event is not None and run is not None and event.mix == run.dough and event.start >= 0.0:
            row = _with_dough(row, run, event)
        yield row


def _with_dough(row: StepRow, run: Run, event: Event) -> StepRow:
    """The row with the dough as it is when the step begins."""
    true = run.after if run.after is not None and event.start > run.judged_at else run.series
    if event.start > true.time[-1] + 1e-6 or (event.start > run.judged_at + 1e-6 and run.after is None):
        return row
    now = true.at(event.start)
    return replace(row, volume=rise(now["rise"]), core=temperature(now["core"]))


def _step(step: Step, index: int, form: Form, pieces: int, *, first: bool) -> StepRow:
    where = ("step", index)
    what = step_words(replace(step, for_=None, until=None, at=None, in_=None))
    timed = step.for_ is not None or step.waits or step.in_oven
    placed = step.at is not None or step.waits or step.in_oven
    hands, assumed = (
        minutes_of(step, pieces, first=first) if not step.waits and step.do != "note" else (0, False)
    )
    inside = f", in a {step.in_}" if step.in_ and step.in_ != "open" else ""
    label = f"{what}, step {index + 1}"
    return StepRow(
        day="",
        time="",
        what=capital(what + inside),
        until=form.field((*where, "until"), f"end of {label}", hint="rise 1.5", size=10)
        if step.until
        else None,
        length=form.field((*where, "for"), f"time for {label}", hint="how long", size=9) if timed else None,
        place=form.field((*where, "at"), f"place of {label}", hint="where", size=8) if placed else None,
        volume=NOTHING,
        core=NOTHING,
        hands=number(hands) if hands else NOTHING,
        assumed=assumed,
    )
