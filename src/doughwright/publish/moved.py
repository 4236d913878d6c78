"""What moved between two results, in words: what, how, now, before; what did not; and one line of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from doughwright.figures import Figure
from doughwright.forecast.results import Reading, Run
from doughwright.publish.band import ripe_span
from doughwright.publish.clock import Clock
from doughwright.publish.edits import edits
from doughwright.publish.render import HELD, capital, duration, figure, listed, number, rise, temperature
from doughwright.recipe.formula import Formula
from doughwright.recipe.model import Recipe
from doughwright.recipe.moved import Moved, moved_figure, moved_formula

# What is less than these is what a figure on the page would not show.
LEAST_RISE, LEAST_HOURS = 0.005, 1.0 / 60.0


@dataclass(frozen=True)
class Outcome:
    """All that a version of a recipe comes to; what was not worked out is ``None``."""

    recipe: Recipe
    formula: Formula
    run: Run | None = None
    clock: Clock | None = None
    water: Figure | None = None
    hands_on: Figure | None = None


@dataclass(frozen=True, slots=True)
class WhatMoved:
    """The rows of "What moved", what stayed as it was, and the strip's one sentence."""

    moved: tuple[Moved, ...]
    still: tuple[str, ...]
    strip: str

    @property
    def still_sentence(self) -> str:
        """What did not move: "The formula and the plan stay as they were."; empty where all moved."""
        one = len(self.still) == 1 and self.still != ("the days",)
        verb = "stays as it was" if one else "stay as they were"
        return f"{capital(listed(self.still))} {verb}." if self.still else ""


def what_moved(before: Outcome, now: Outcome) -> WhatMoved:
    """The difference of two outcomes; where nothing moved there are no rows, and the strip says so."""
    days = tuple(_days(before, now))
    water = _one(moved_figure("dough water", before.water, now.water) if before.water and now.water else None)
    formula = tuple(one for one in moved_formula(before.formula, now.formula) if _shows(one))
    plan = _one(_hands_on(before, now))
    parts = (("the days", days), ("the dough water", water), ("the formula", formula), ("the plan", plan))
    known = {
        "the days": bool(before.run and now.run),
        "the dough water": bool(before.water and now.water),
        "the formula": True,
        "the plan": bool(before.hands_on and now.hands_on),
    }
    rows = (*days, *water, *formula, *plan)
    still = tuple(name for name, moved in parts if not moved and known[name])
    return WhatMoved(rows, still if rows else (), _strip(before, now, rows))


def _shows(one: Moved) -> bool:
    """Whether the difference shows in the figures as they are written."""
    if not isinstance(one.now, Figure) or not isinstance(one.before, Figure):
        return True
    return figure(one.now) != figure(one.before)


def _one(moved: Moved | None) -> tuple[Moved, ...]:
    return (moved,) if moved else ()


def _days(before: Outcome, now: Outcome) -> Iterator[Moved]:
    if before.run is not None and now.run is not None:
        yield from _runs(before.run, now.run, before.clock, now.clock)
    elif (before.run is None) != (now.run is None):
        words = ("not known", "known")
        known = now.run is not None
        yield Moved("the days", "now known" if known else "no longer known", words[known], words[not known])


def _runs(before: Run, now: Run, old_clock: Clock | None, clock: Clock | None) -> Iterator[Moved]:
    ripe = _ripe(before, now, old_clock, clock)
    readings = [
        ("at shaping", before.at_shaping, now.at_shaping),
        ("at the bake", before.at_bake, now.at_bake),
    ]
    if now.judged != now.at_shaping and now.judged != now.at_bake:
        readings.append(("when judged", before.judged, now.judged))
    found = [ripe, *(_reading(name, old, new) for name, old, new in readings)]
    if clock is not None and old_clock is not None and clock.dated == old_clock.dated:
        found.append(_start(old_clock, clock))
    found.append(
        _degrees("dough out of the mixer", before.dough_temperature.value, now.dough_temperature.value)
    )
    yield from (one for one in found if one is not None)


def _ripe(before: Run, now: Run, old_clock: Clock | None, clock: Clock | None) -> Moved | None:
    """How the time of ripeness moved, by the clock on the wall where there are two."""
    old, new = ripe_span(before), ripe_span(now)
    shift = _shift(old_clock, clock)
    said, was = _span_words(new, clock), _span_words(old, old_clock)
    if new[0] is None or old[0] is None:
        how = "now comes to it" if new[0] is not None else "no longer comes to it"
        return None if new[0] is None and old[0] is None else Moved("ripe", how, said, was)
    later = new[0] - (old[0] + shift)
    if abs(later) >= LEAST_HOURS:
        return Moved("ripe", f"{_to_the_minute(later)} {'later' if later > 0 else 'earlier'}", said, was)
    if new[1] is None or old[1] is None:
        return None if new[1] is None and old[1] is None else Moved("ripe", _open_end(new[1]), said, was)
    longer = new[1] - (old[1] + shift)
    if abs(longer) < LEAST_HOURS:
        return None
    return Moved("ripe", f"for {_to_the_minute(longer)} {'longer' if longer > 0 else 'less'}", said, was)


def _shift(old: Clock | None, clock: Clock | None) -> float:
    """From the hours of the old run to those of the new; a real date and an assumed week have none."""
    if old is None or clock is None or old.dated != clock.dated:
        return 0.0
    return clock.hours(old.zero)


def _open_end(end: float | None) -> str:
    return "without an end in sight" if end is None else "with an end in sight"


def _span_words(span: tuple[float | None, float | None], clock: Clock | None) -> str:
    start, end = span
    if start is None:
        return "not reached"
    if clock is None:
        to = f" to {number(end, 1)}" if end is not None else ""
        return f"hour {number(start, 1)}{to}"
    return clock.span(start, end) if end is not None else f"from {clock.day_time(start)}"


def _reading(name: str, old: Reading | None, new: Reading | None) -> Moved | None:
    """How a reading moved: its state first, then its rise."""
    if old is None or new is None:
        return None
    change = new.rise - old.rise
    if new.state == old.state and abs(change) < LEAST_RISE:
        return None
    if new.state != old.state:
        how = f"{new.state}, no longer {old.state}"
    else:
        how = f"still {new.state}, {number(abs(change), 2)} {'higher' if change > 0 else 'lower'}"
    return Moved(name, how, f"{rise(new.rise)} times", f"{rise(old.rise)} times")


def _start(old: Clock, new: Clock) -> Moved | None:
    """When the dough is mixed, where that moved on the wall."""
    hours = old.hours(new.zero)
    if abs(hours) < LEAST_HOURS:
        return None
    how = f"{_to_the_minute(hours)} {'later' if hours > 0 else 'earlier'}"
    return Moved("dough mixed", how, new.day_time(0.0), old.day_time(0.0))


def _degrees(what: str, before: float, now: float) -> Moved | None:
    if abs(now - before) < 0.05:
        return None
    words = "warmer" if now > before else "colder"
    how = f"{number(abs(now - before), 1)}{HELD}°C {words}"
    return Moved(what, how, temperature(now, decimals=1), temperature(before, decimals=1))


def _hands_on(before: Outcome, now: Outcome) -> Moved | None:
    if before.hands_on is None or now.hands_on is None:
        return None
    return moved_figure("your time", before.hands_on, now.hands_on, more="more", less="less")


def _strip(before: Outcome, now: Outcome, rows: tuple[Moved, ...]) -> str:
    """One sentence: what was edited, and what that moved first."""
    edited = edits(before.recipe, now.recipe)
    head = capital(
        listed(edited[:2]) if len(edited) <= 2 else f"{edited[0]} and {len(edited) - 1} more edits"
    )
    if not rows:
        return f"{head}: nothing moved." if head else "Nothing moved."
    ripe = next((one for one in rows if one.what == "ripe"), None)
    reading = next((one for one in rows if one.what in ("at shaping", "at the bake", "when judged")), None)
    said = [f"ripe {ripe.how}"] if ripe else []
    said += [f"{reading.how} {reading.what}"] if reading else []
    said = said or [f"{one.what} {one.how}" for one in rows[:2]]
    return f"{head}: {listed(said)}." if head else f"{capital(listed(said))}."


def _to_the_minute(hours: float) -> str:
    """How long, without its sign and without seconds that no cook can use."""
    return duration(max(round(abs(hours) * 60.0), 1) / 60.0)
