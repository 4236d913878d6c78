"""The fan and its marks in sentences and as a table."""

from __future__ import annotations

from doughwright.publish.fan._model import LEVELS, STATES, Fan, counts
from doughwright.publish.render import capital, counted, number, rise

HEADINGS = ("time", "1 in 20 below", "1 in 4 below", "middle", "1 in 4 above", "1 in 20 above")


def fan_finding(fan: Fan) -> str:
    """What the fan shows: how far the kitchens lie apart when the dough is judged."""
    low, middle, high = fan.at_judging
    return (
        f"{capital(fan.judged_word)} the dough stands between {rise(low)} and {rise(high)} times its volume "
        f"in nine kitchens of ten; the middle kitchen reaches {rise(middle)}."
    )


def marks_finding(fan: Fan) -> str:
    """What the marks show: "Of 100 kitchens 15 are young, 45 ripe and 40 past when shaping begins."."""
    young, ripe, past = counts(fan)
    return f"Of 100 kitchens {young} are young, {ripe} ripe and {past} past {fan.judged_word}."


def share_finding(fan: Fan) -> tuple[str, str, str]:
    """The margin's sentence in three parts, the middle one strong."""
    kitchens = f"{fan.kitchens:,}"
    _, ripe, _ = counts(fan)
    head = f"Made as written in {kitchens} kitchens, {fan.judged_word} the dough is ripe in"
    return head, f"{ripe} of 100", "."


def marks_words(fan: Fan) -> str:
    """What a mark is: "One mark is 100 kitchens, placed by its volume ... Ring: young. ..."."""
    one = counted(max(round(fan.kitchens / 100), 1), "kitchen")
    low, high = fan.target
    inside = zip(fan.percentiles, fan.mark_states, strict=True)
    early = any(low <= rise <= high and state == "past" for rise, state in inside)
    spent = " A cross between the lines has lost too much gas, or used up its sugar." if early else ""
    return (
        f"One mark is {one}, placed by the dough’s volume {fan.judged_word}. "
        f"Ring: young. Disc: ripe. Cross: past.{spent}"
    )


def fan_table(fan: Fan, *, most: int = 16) -> tuple[tuple[str, ...], ...]:
    """The quantiles at the full hours of the wall clock, some hours apart, and when judged."""
    last = fan.time[-1]
    step = next((one for one in (1, 2, 3, 4, 6, 12) if (last - fan.time[0]) / one <= most), 24)
    hours = [on for on, hour in fan.clock.whole_hours(fan.time[0], last) if hour % step == 0]
    kept = [fan.time[0], *(on for on in hours if on - fan.time[0] > 0.3 and last - on > 0.3), last]
    return tuple(
        (fan.clock.day_time(on), *(number(at(fan, level, on), 2) for level in LEVELS)) for on in kept
    )


def at(fan: Fan, level: int, hours: float) -> float:
    """The quantile of a level at an hour, on the line between two points."""
    values, times = fan.quantiles[LEVELS.index(level)], fan.time
    after = next((n for n, time in enumerate(times) if time >= hours), len(times) - 1)
    if after == 0:
        return values[0]
    span = times[after] - times[after - 1]
    share = (hours - times[after - 1]) / span if span > 0.0 else 1.0
    return values[after - 1] + (values[after] - values[after - 1]) * min(max(share, 0.0), 1.0)


def state_counts(fan: Fan) -> tuple[tuple[str, int], ...]:
    """The three states with their counts of a hundred."""
    return tuple(zip(STATES, counts(fan), strict=True))
