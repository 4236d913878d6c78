"""What a search has found, as results: changes, measures, effects, and the new document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, NoAnswerError
from doughwright.figures import Figure
from doughwright.forecast._edits import (
    hours_edit,
    kitchen_edit,
    temperature_edit,
    with_changes,
    yeast_edit,
    yeast_lines,
)
from doughwright.forecast.fit._case import Case
from doughwright.forecast.fit._choose import Found, Search
from doughwright.forecast.fit._levers import Designs, Lever
from doughwright.forecast.fit._measure import EXACT, NAMES, TO_THE_POINT, UNITS, Wanted, measured_run
from doughwright.forecast.fit.results import (
    Changed,
    Does,
    Effect,
    Fit,
    Measure,
    NoFitError,
    Single,
    ToWeigh,
)
from doughwright.forecast.results import Run
from doughwright.forecast.water import water
from doughwright.recipe.edit import Change
from doughwright.recipe.formula import formula
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.units import format_time

Array = NDArray[np.float64]

STEP_YEAST = 0.1
STEP_LONG, STEP_SHORT, LONG = 1.0, 0.25, 6.0
STEP_WARMTH = 1.0
"""Steps of a lever that a cook can take: a tenth of the yeast, an hour or a quarter, a degree."""
SHOWS = 0.05
"""An effect is told from that share of what still is the same."""
TOO_LONG = "work outside the hours awake, or too long a time"
TRIFLE = 0.25
"""What is off by less than this share of the worst measure is not named beside it."""
NEAR_ENOUGH = 1.05
"""The days in full may be that much further off than the run of many."""


@dataclass(frozen=True, slots=True)
class Proved:
    """A recipe found, written down, read back and run in full; ``returns`` whether its way back was found."""

    case: Case
    search: Search
    found: Found
    document: RecipeDocument
    run: Run
    off: Array
    singles: tuple[Found, ...]
    returns: bool = True

    @property
    def same(self) -> bool:
        """Whether its days are the same dough."""
        return self.run.judged.state == "ripe" and float(np.max(np.abs(self.off))) <= NEAR_ENOUGH


def proved(case: Case, search: Search, found: Found, singles: Sequence[Found]) -> Proved | None:
    """A recipe written down and run in full; ``None`` where water cannot bring its dough temperature."""
    text = with_changes(case.placed.document, [*_edits(case, found.design), *_kitchen(case)])
    document = read_recipe(text, case.document.document.file)
    if _warmed(search, found.design):
        try:
            water(document.recipe, case.here, case.dough)
        except NoAnswerError:
            return None
    run = case.days(document.recipe)
    off = case.shown.off(measured_run(run, case.parameters))
    return Proved(case, search, found, document, run, off, tuple(singles))


def _edits(case: Case, design: Designs) -> Iterator[Change]:
    recipe, dough = case.placed.recipe, case.dough
    yield from yeast_edit(recipe, dough, float(design.yeast[0]))
    yield from hours_edit(recipe, _hours(design))
    if abs(float(design.degrees[0]) - case.run_here.dough_temperature.value) > 1e-6:
        yield from temperature_edit(recipe, dough, float(design.degrees[0]))


def _kitchen(case: Case) -> list[Change]:
    return [] if case.name is None else list(kitchen_edit(case.placed.recipe, case.name))


def _hours(design: Designs) -> dict[int, float]:
    return dict(zip(design.numbers, (float(one) for one in design.hours[0]), strict=True))


def _warmed(search: Search, design: Designs) -> bool:
    return bool(np.any(design.degrees != search.bench.levers.warmth))


def told_fit(one: Proved) -> Fit:
    """The results of a recipe found."""
    case, levers = one.case, one.search.bench.levers.every
    kept = _really(one.search, one.found)
    return Fit(
        dough=case.dough,
        kitchen=case.here.name,
        own=case.own.name,
        changes=tuple(_changes(case, one.found.design)),
        levers=tuple(levers[index].name for index in kept),
        reached=one.same,
        before=case.run_here.judged.printed(),
        after=one.run.judged.printed(),
        wanted=case.run_own.judged.printed(),
        measures=_measures(
            case.shown, measured_run(case.run_here, case.parameters), measured_run(one.run, case.parameters)
        ),
        does=tuple(_does(one.search, one.found, kept)),
        single=_single(one) if len(kept) != 1 else None,
        weighing=tuple(_weighing(one)),
        said=tuple(_said(one)),
        warnings=one.run.warnings,
        tried=sum(one.search.bench.tried),
        document=one.document.text,
        fitted=one.document,
        runs=(case.run_own, case.run_here, one.run),
    )


def _really(search: Search, found: Found) -> tuple[int, ...]:
    """The levers of which something is left when it is told."""
    bench, design = search.bench, found.design
    written = bench.levers.designs(np.zeros((1, len(bench.levers.every))))
    moved = {
        number
        for number, now, then in zip(design.numbers, design.hours[0], written.hours[0], strict=True)
        if now != then
    }
    kinds = {"yeast": bool(design.yeast[0] != 1.0), "temperature": _warmed(search, design)}
    return tuple(
        index
        for index in found.levers
        if kinds.get(
            bench.levers.every[index].kind, any(w.number in moved for w in bench.levers.every[index].waits)
        )
    )


def _changes(case: Case, design: Designs) -> Iterator[Changed]:
    recipe, was = case.placed.recipe, case.document.recipe
    for number, (old, new) in enumerate(zip(was.steps, recipe.steps, strict=True)):
        if old.at != new.at and old.at is not None and new.at is not None:
            yield Changed(f"{new.do} at", old.at.text, new.at.text, number + 1)
    if abs(float(design.yeast[0]) - 1.0) > 1e-6:
        for _, line in yeast_lines(recipe, case.dough):
            grams = 1000.0 * (line.mass or 0.0)
            item = line.line.item or "yeast"
            yield Changed(item, Figure(grams, "g"), Figure(grams * float(design.yeast[0]), "g"))
    warmth = case.run_here.dough_temperature.value
    if abs(float(design.degrees[0]) - warmth) > 1e-6:
        yield Changed("dough temperature", Figure(warmth, "degC"), Figure(float(design.degrees[0]), "degC"))
    for change in hours_edit(recipe, _hours(design)):
        number = int(change.where[1])
        now, then = (recipe.steps[number].lasts or 0.0) / 3600.0, _hours(design)[number]
        yield Changed(recipe.steps[number].do, Figure(now, "h"), Figure(then, "h"), number + 1)


def _measures(aim: Wanted, before: Array, after: Array) -> tuple[Measure, ...]:
    off_before, off_after = aim.off(before), aim.off(after)
    return tuple(
        Measure(
            what=name,
            wanted=Figure(float(aim.values[index]), UNITS[index]),
            tolerance=Figure(float(aim.near[index]), UNITS[index]),
            before=Figure(float(before[index]), UNITS[index]),
            after=Figure(float(after[index]), UNITS[index]),
            same_before=bool(abs(off_before[index]) <= NEAR_ENOUGH),
            same=bool(abs(off_after[index]) <= NEAR_ENOUGH),
        )
        for index, name in enumerate(NAMES)
        if aim.counts[index]
    )


def _does(search: Search, found: Found, kept: Sequence[int]) -> Iterator[Does]:
    """What a step of each lever does near what was found; those that were moved come first."""
    levers = search.bench.levers.every
    steps = [_step(lever, found.design) for lever in levers]
    lanes = [
        found.design,
        *(_stepped(found.design, lever, step) for lever, step in zip(levers, steps, strict=True)),
    ]
    every = Designs(
        np.concatenate([one.yeast for one in lanes]),
        np.concatenate([one.hours for one in lanes]),
        np.concatenate([one.degrees for one in lanes]),
        found.design.numbers,
    )
    values = search.bench.run(every).values
    for index in sorted(range(len(levers)), key=lambda one: one not in kept):
        change = values[index + 1] - values[0]
        weight = np.where(search.bench.wanted.counts, np.abs(change) / search.bench.wanted.near, 0.0)
        effects = tuple(
            Effect(NAMES[at], Figure(float(change[at]), UNITS[at]))
            for at in np.argsort(-weight, kind="stable")
            if weight[at] >= SHOWS
        )
        yield Does(levers[index].name, steps[index], index in kept, effects)


def _step(lever: Lever, design: Designs) -> Figure:
    if lever.kind == "yeast":
        return Figure(100.0 * STEP_YEAST, "percent")
    if lever.kind == "temperature":
        return Figure(STEP_WARMTH, "degC")
    total = sum(design.hours[0][design.numbers.index(one.number)] for one in lever.waits)
    return Figure(STEP_LONG if total > LONG else STEP_SHORT, "h")


def _stepped(design: Designs, lever: Lever, step: Figure) -> Designs:
    by = step.value or 0.0
    if lever.kind == "yeast":
        return replace(design, yeast=design.yeast * (1.0 + by / 100.0))
    if lever.kind == "temperature":
        return replace(design, degrees=design.degrees + by)
    at = [design.numbers.index(one.number) for one in lever.waits]
    hours = design.hours.copy()
    hours[:, at] *= 1.0 + by / hours[:, at].sum()
    return replace(design, hours=hours)


def _single(one: Proved) -> Single | None:
    """The best that one lever does alone, and what that leaves wrong: rise or hours not met to the point."""
    moved = [found for found in one.singles if _really(one.search, found)]
    if not moved:
        return None
    best = min(moved, key=lambda found: (found.over > 0.0, float(np.max(np.abs(found.aimed)))))
    case, bench = one.case, one.search.bench
    missed = _missed(best.aimed)
    measures = tuple(
        replace(measure, same=measure.what not in missed)
        for measure in _measures(case.aim, one.search.written().values, best.values)
    )
    wrong = [measure.what for measure in measures if not measure.same]
    wrong += [TOO_LONG] if best.over > 0.0 else []
    return Single(
        lever=bench.levers.every[_really(one.search, best)[0]].name,
        changes=tuple(_changes(case, best.design)),
        measures=measures,
        wrong=tuple(wrong),
    )


def _missed(aimed: Array) -> list[str]:
    """The measures that are not met to the point (of sugar and tightness: near enough), but for trifles."""
    size = np.abs(aimed)
    met = np.array([EXACT if at in TO_THE_POINT else 1.0 for at in range(len(NAMES))])
    return [NAMES[at] for at in np.flatnonzero((size > met) & (size >= TRIFLE * size.max()))]


def _weighing(one: Proved) -> Iterator[ToWeigh]:
    """The yeast on this kitchen's scale, changed or not."""
    for dough in formula(one.document.recipe, one.case.here).doughs:
        for entry in dough.ingredients:
            if entry.class_ == "yeast" and entry.mix == one.case.dough == dough.name:
                yield ToWeigh(entry.item, entry.weighed, entry.weighable, entry.why, entry.instead)


def _said(one: Proved) -> Iterator[str]:
    case = one.case
    if not case.aim.counts.all():
        yield (
            f"in its own kitchen the recipe is {case.run_own.judged.state}: the middle of its target is "
            "wanted, and its sugar does not count"
        )
    others = [mix.name for mix in case.document.recipe.doughs if mix.name != case.dough]
    if others:
        yield f'only "{case.dough}" is fitted: {", ".join(others)} stays as written until it is named'
    if case.document.recipe.kitchen is None and case.own.name != case.here.name:
        yield f"the recipe names no kitchen of its own: the {case.own.name} is meant"
    for number, old in enumerate(case.document.recipe.steps):
        new = case.placed.recipe.steps[number]
        if old.at != new.at and old.at is not None and new.at is not None:
            yield f'this kitchen has no "{old.at.text}": step {number + 1} ({old.do}) is in the {new.at.text}'
    hours = _hours(one.found.design)
    for wait in one.search.bench.levers.waits:
        if wait.low < wait.high and not wait.low - 1e-6 <= hours[wait.number] <= wait.high + 1e-6:
            yield f"step {wait.number + 1} ({wait.verb}) leaves the range that the recipe gives it"
    if case.document.recipe.makes.eat is None and case.limits.meal is None:
        yield "no meal is named, so nobody looks at the hours awake"
    if not one.returns:
        yield "a fit back to its own kitchen may take other levers: keep the recipe as it is written there"
    if one.search.schedule.night > 0.0:
        yield "as written, some work falls outside the hours awake: no more is added"
    yield from (f"assumed: {each}" for each in one.run.said)


def nearest_fit(made: Proved) -> NoFitError:
    """That there is no fit, and what comes nearest."""
    case, search, found = made.case, made.search, made.found
    near = replace(told_fit(made), reached=False)
    wrong = [
        f"{one.what} {_measured(one.after)}, wanted {_measured(one.wanted)}"
        for one in near.measures
        if not one.same
    ]
    if made.run.judged.state != "ripe":
        wrong.append(f"the dough {made.run.judged.state}: {made.run.judged.state_why}")
    if found.over > 0.0:
        wrong.append(f"{format_time(60.0 * found.over)} outside the limits of time")
    names = ", ".join(lever.name for lever in search.bench.levers.every) or "nothing"
    changed = (
        "; ".join(f"{one.what} {_shown(one.from_)} to {_shown(one.to)}" for one in near.changes)
        or "no change"
    )
    return NoFitError(
        Fault(
            f'no one to three levers of {names} give the same dough in the kitchen "{case.here.name}"; '
            f"nearest comes {changed}, which leaves {'; '.join(wrong) or 'nothing wrong by itself'}",
            try_=_instead(search, found),
        ),
        near,
    )


def _instead(search: Search, found: Found) -> str:
    """What to do where there is no fit: eat at another hour, if that is all that is wrong."""
    hour = search.schedule.better_meal(found.design) if found.over > 0.0 and found.worst <= 1.0 else None
    if hour is not None:
        return f"Eat at {int(hour):02d}:{round(hour % 1.0 * 60.0):02d} instead: then nobody works at night"
    return "Widen a limit, let go of what is kept, or take the nearest one and judge it yourself"


def _shown(one: Figure | str) -> str:
    return one if isinstance(one, str) else _number(one)


def _number(one: Figure) -> str:
    if one.unit == "h":
        return format_time(3600.0 * (one.value or 0.0))
    symbols = {"percent": " %", "degC": " °C", "ratio": "", "g": " g"}
    return f"{one.value:.3g}{symbols.get(one.unit, one.unit)}"


def _measured(one: Figure) -> str:
    """A measure as the comparison shows it."""
    value = one.value or 0.0
    return f"{value:.1f} h" if one.unit == "h" else f"{value:.2f}{' %' if one.unit == 'percent' else ''}"
