"""The days as text: what the dough is at each step, and when it is ripe."""

from __future__ import annotations

from collections.abc import Mapping

from doughwright.forecast.results import Between, Days, Doubt, Event, Reading, Run
from doughwright.kitchen.assumed import Surroundings
from doughwright.publish.band import all_events, band_of, band_text, run_clock
from doughwright.publish.clock import Clock
from doughwright.publish.render import duration, interval, number, rise, temperature
from doughwright.publish.terminal.columns import columns, indented, wrapped
from doughwright.recipe.model import WAITS, Recipe

# Hours to one side of a moment at which the dough changes.
A_MOMENT = 1e-6


def days_text(days: Days, recipe: Recipe, kitchen: Surroundings) -> str:
    """Each dough's course, with a small picture, its readings and what was assumed."""
    return "\n\n".join("\n".join(_run(run, recipe, kitchen)) for run in days.runs)


def _run(run: Run, recipe: Recipe, kitchen: Surroundings) -> list[str]:
    start, clock = run.dough_temperature, run_clock(run, recipe)
    mixed = f"{temperature(start.value, decimals=1)} ({start.how})"
    lines = [f"{run.dough} in the kitchen {run.kitchen}: mixed to {mixed}", ""]
    lines += [*band_text(band_of(run, recipe, kitchen, clock)).splitlines(), ""]
    lines += [*indented(_events(run, recipe, clock)), ""]
    lines += [line for sentence in _sentences(run, clock) for line in wrapped(sentence)]
    lines += [line for text in run.warnings for line in wrapped(f"Careful: {text}.".replace("..", "."))]
    assumed = [*([clock.said] if clock.said else []), *run.said]
    return lines + (["", *wrapped("Assumed: " + "; ".join(assumed) + ".")] if assumed else [])


def _events(run: Run, recipe: Recipe, clock: Clock) -> list[str]:
    rows = [["when", "hour", "do", "for", "where", "volumes", "core", "edge"]]
    for event in all_events(run, recipe):
        own = event.mix == run.dough
        length = event.end - event.start
        rows.append(
            [
                clock.day_time(event.start),
                number(event.start, 1),
                event.verb if own else f"{event.verb} {event.mix}",
                duration(length) if length > 0 else "",
                event.place,
                *(_dough(run, event) if own and 0.0 <= event.start <= run.judged_at else ["", "", ""]),
            ]
        )
    return columns(rows, right=[False, True, False, True, False, True, True, True])


def _dough(run: Run, event: Event) -> list[str]:
    """The dough when a wait begins, and just before work changes it."""
    now = run.series.at(event.start + (A_MOMENT if event.verb in WAITS else -A_MOMENT))
    return [rise(now["rise"]), temperature(now["core"], decimals=1), temperature(now["edge"], decimals=1)]


def _sentences(run: Run, clock: Clock) -> list[str]:
    target = interval(run.target.low, run.target.high)
    asked = "assumed for this shape" if run.target.assumed else "asked for"
    out = [f"Judged {run.target.judged}; {target} volumes are {asked}."]
    doubt = run.doubt
    shaping, bake = (doubt.at_shaping, doubt.at_bake) if doubt is not None else (None, None)
    out += _reading("At shaping", run.at_shaping, run.at_shaping_why, clock, shaping)
    out += _reading("At the first bake", run.at_bake, run.at_bake_why, clock, bake)
    if run.judged not in (run.at_shaping, run.at_bake):
        judged = doubt.judged if doubt is not None else None
        out += _reading("After its last wait", run.judged, None, clock, judged)
    out += _sure(doubt) if doubt is not None else []
    window = run.ripe_window
    if window.from_ is not None and window.to is not None:
        out.append(
            f"Ripe {clock.span(window.from_, window.to)} if the last wait were lengthened where it is."
        )
    elif window.from_ is not None:
        out.append(f"Ripe from {clock.day_time(window.from_)}; {window.why}.")
    else:
        out.append(f"Never ripe: {window.why}.")
    return [sentence.replace("..", ".") for sentence in out]


def _reading(
    name: str, reading: Reading | None, why: str | None, clock: Clock, between: Mapping[str, Between] | None
) -> list[str]:
    if reading is None:
        return [f"{name}: not known, {why}."] if why else []
    rises = _within(rise(reading.rise), "rise", between, 2)
    core = _within(temperature(reading.core, decimals=1), "core", between, 1)
    sugar = _within(number(reading.sugar, 1), "sugar", between, 1)
    words = f"{name}, {clock.day_time(reading.time)}: {rises} volumes, {reading.state}"
    return [f"{words} ({reading.state_why}); core {core}, sugar left {sugar} % of flour."]


def _within(value: str, name: str, between: Mapping[str, Between] | None, decimals: int) -> str:
    """A value with its 90 % interval where there is one: "1.72 (1.50 to 1.93)"."""
    ends = between.get(name) if between is not None else None
    if ends is None:
        return value
    low, high = (number(end, decimals) for end in ends)
    return f"{value} ({low} to {high})" if low != high else value


def _sure(doubt: Doubt) -> list[str]:
    young, ripe, past = (number(one, 0) for one in doubt.share)
    return [
        "In brackets: 9 in 10 kitchens like this one, with all that is not known of it and its yeast.",
        f"Of them {ripe} % have it ripe when it is judged, {young} % young, {past} % past.",
    ]
