"""The plan: what to do when, for one meal, by the hours the cook is up."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from doughwright.errors import DoughwrightError
from doughwright.plan.model import Entry, NoPlanError, Plan
from doughwright.publish.clock import WEEKDAYS
from doughwright.publish.lanes import lanes_sentence, lanes_svg
from doughwright.publish.render import capital, duration, figure
from doughwright.web._days import NARROW, WIDE
from doughwright.web._results import Occasion, Results

NOTHING = "–"
# How a terminal asks for a meal: on the page it is a link.
_OPTION = re.compile(r' \(--eat "[^"]*"\)')


@dataclass(frozen=True, slots=True)
class PlanRow:
    """A line of the plan; ``day`` only where it is another than before, ``night`` outside the hours awake."""

    day: str
    time: str
    what: str
    length: str
    hands: str
    assumed: bool
    wait: bool


@dataclass(frozen=True, slots=True)
class PlanPart:
    """The part "The plan". Where there is none, ``faults`` say why and ``nearest`` is a meal that works."""

    margin: tuple[str, ...]
    wide: str
    narrow: str
    caption: str
    eat: str
    meal: str
    rows: tuple[PlanRow, ...]
    chosen: tuple[str, ...]
    notes: tuple[str, ...]
    faults: tuple[str, ...]
    in_the_way: tuple[PlanRow, ...]
    nearest: str


def plan_part(results: Results, occasion: Occasion) -> PlanPart:
    """The plan for the meal that is asked for, or why there is none."""
    meal = f"{results.meal:%Y-%m-%d %H:%M}" if results.meal is not None else ""
    part = PlanPart((), "", "", "", occasion.eat, meal, (), (), (), (), (), "")
    made, error = results.plan, results.missing.get("plan")
    if made is not None:
        return replace(
            part,
            margin=tuple(_margin(made)),
            wide=lanes_svg(made, results.kitchen.awake, width=WIDE, prefix="lanes"),
            narrow="" if occasion.wide_only else _narrow(made, results),
            caption=lanes_sentence(made),
            rows=tuple(_rows(made.entries)),
            chosen=tuple(_chosen(made)),
            notes=tuple(f"{capital(note).rstrip('.')}." for note in made.notes),
        )
    return _without(part, error)


def _narrow(made: Plan, results: Results) -> str:
    return lanes_svg(made, results.kitchen.awake, width=NARROW, prefix="upright")


def _without(part: PlanPart, error: DoughwrightError | None) -> PlanPart:
    """The part where there is no plan: what is in the way, and the nearest meal that works."""
    if error is None:
        return part
    part = replace(part, margin=("There is no plan for this meal.",))
    faults = tuple(capital(_OPTION.sub("", fault.sentence)) for fault in error.faults)
    if not isinstance(error, NoPlanError):
        return replace(part, faults=faults)
    nearest = error.nearest[:16].replace("T", " ") if error.nearest else ""
    rows = tuple(_rows(error.in_the_way))
    return replace(part, faults=faults, in_the_way=rows, nearest=nearest)


def _margin(made: Plan) -> Iterator[str]:
    eats = made.eats
    day = f"{WEEKDAYS[eats.weekday()]} {eats.day} {eats:%B}"
    yield f"For {day} at {eats:%H:%M}, by the clocks of {made.zone}."
    yield f"{figure(made.hands_on_total)} of {figure(made.length)} are yours, all {made.awake}."


def _rows(entries: tuple[Entry, ...]) -> Iterator[PlanRow]:
    last = ""
    for entry in entries:
        day = f"{WEEKDAYS[entry.starts.weekday()][:3]} {entry.starts.day} {entry.starts:%b}"
        length = (entry.ends - entry.starts).total_seconds() / 3600.0
        yield PlanRow(
            day=day if day != last else "",
            time=f"{entry.starts:%H:%M}",
            what=entry.what,
            length=duration(length),
            hands=NOTHING if entry.wait else figure(entry.hands_on),
            assumed=entry.assumed and not entry.wait,
            wait=entry.wait,
        )
        last = day


def _chosen(made: Plan) -> Iterator[str]:
    for one in made.chosen:
        yield (
            f"Step {one.step}, {one.what}: {figure(one.chosen)}, "
            f"of the {figure(one.low)} to {figure(one.high)} that the recipe allows."
        )
