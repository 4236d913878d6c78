"""The days as text: what the dough is at each step, and when it is ripe."""

from __future__ import annotations

from doughwright.forecast.results import Days, Reading, Run
from doughwright.publish.clock import Clock
from doughwright.publish.render import capital, duration, interval, number, rise, temperature
from doughwright.publish.terminal.columns import columns, indented, wrapped


def days_text(days: Days, clocks: list[Clock], pictures: list[str]) -> str:
    """Each dough's course, with a small picture, its readings and what was assumed."""
    parts = [
        _run(run, clock, picture) for run, clock, picture in zip(days.runs, clocks, pictures, strict=True)
    ]
    return "\n\n".join("\n".join(part) for part in parts)


def _run(run: Run, clock: Clock, picture: str) -> list[str]:
    start = run.dough_temperature
    head = f"{run.dough} in the kitchen {run.kitchen}: mixed to {temperature(start.value, decimals=1)} ({start.how})"
    lines = [head, "", *picture.splitlines(), "", *indented(_events(run, clock)), ""]
    lines += [line for sentence in _sentences(run, clock) for line in wrapped(sentence)]
    lines += [line for text in run.warnings for line in wrapped(f"Careful: {text}.".replace("..", "."))]
    if run.said or clock.said:
        assumed = [*([clock.said] if clock.said else []), *run.said]
        lines += ["", *wrapped("Assumed: " + "; ".join(assumed) + ".")]
    return lines


def _events(run: Run, clock: Clock) -> list[str]:
    rows = [["when", "hour", "do", "for", "where", "volumes", "core", "edge"]]
    for preferment in run.preferments:
        rows += [["", "", f"({preferment.name} on its own clock)", "", "", "", "", ""]]
    for event in run.events:
        now = run.series.at(event.start)
        known = event.start >= run.series.time[0] and event.start >= 0.0
        length = event.end - event.start
        rows.append(
            [
                clock.day_time(event.start),
                number(event.start, 1),
                event.verb,
                duration(length) if length > 0 else "",
                event.place,
                rise(now["rise"]) if known else "",
                temperature(now["core"], decimals=1) if known else "",
                temperature(now["edge"], decimals=1) if known else "",
            ]
        )
    return columns(rows, right=[False, True, False, True, False, True, True, True])


def _sentences(run: Run, clock: Clock) -> list[str]:
    target = interval(run.target.low, run.target.high)
    asked = "assumed for this shape" if run.target.assumed else "asked for"
    out = [f"Judged {run.target.judged}; {target} volumes are {asked}."]
    out += _reading("At shaping", run.at_shaping, run.at_shaping_why, clock)
    out += _reading("At the first bake", run.at_bake, run.at_bake_why, clock)
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


def _reading(name: str, reading: Reading | None, why: str | None, clock: Clock) -> list[str]:
    if reading is None:
        return [f"{name}: not known, {why}."] if why else []
    words = f"{name}, {clock.day_time(reading.time)}: {rise(reading.rise)} volumes, {reading.state}"
    core = temperature(reading.core, decimals=1)
    return [f"{words} ({reading.state_why}); core {core}, sugar left {number(reading.sugar, 1)} % of flour."]


def state_line(run: Run, clock: Clock) -> str:
    """One sentence: how the dough is when it is judged."""
    reading = run.judged
    return capital(
        f"{run.dough}: {rise(reading.rise)} volumes on {clock.day_time(reading.time)}, {reading.state}."
    )
