"""How sure the days are: each reading with the interval that holds it nine times in ten."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from doughwright.forecast.results import Doubt, Run
from doughwright.publish.clock import Clock
from doughwright.publish.render import HELD, capital, number, rise, temperature

NOTHING = "–"


@dataclass(frozen=True, slots=True)
class SureRow:
    """A reading: what, its value, and nine times in ten."""

    what: str
    value: str
    between: str


@dataclass(frozen=True, slots=True)
class SurePart:
    """The readings of a dough when it is judged, and in how many kitchens like this one it is ripe."""

    dough: str
    caption: str
    rows: tuple[SureRow, ...]
    shares: str


def sure_part(run: Run, clock: Clock, judged_word: str, *, named: bool) -> SurePart | None:
    """How sure one dough's days are; ``None`` where they were not sampled."""
    if run.doubt is None:
        return None
    return SurePart(
        dough=run.dough if named else "",
        caption=f"{capital(judged_word)}, nine times in ten",
        rows=tuple(_rows(run, run.doubt, clock)),
        shares=_shares(run.doubt),
    )


def whisker_of(run: Run) -> tuple[float, float] | None:
    """Between what the rise lies when judged, nine times in ten; ``None`` where it was not sampled."""
    return run.doubt.judged.get("rise") if run.doubt is not None else None


def between_words(run: Run) -> str:
    """The same for the lead: ", and between 1.62 and 2.05 nine times in ten"; empty where not sampled."""
    between = whisker_of(run)
    return f", and between {rise(between[0])} and {rise(between[1])} nine times in ten" if between else ""


def _rows(run: Run, doubt: Doubt, clock: Clock) -> Iterator[SureRow]:
    now, ends = run.judged, doubt.judged
    yield _row("volume, times that after mixing", rise(now.rise), ends.get("rise"), rise)
    yield _row("core", _degrees(now.core), ends.get("core"), _degrees)
    yield _row("edge", _degrees(now.edge), ends.get("edge"), _degrees)
    yield _row("sugar left, of flour", _percent(now.sugar), ends.get("sugar"), _percent)
    entered = run.dough_temperature
    if entered.how != "measured":
        yield _row("dough out of the mixer", _degrees(entered.value), doubt.entered, _degrees)
    window = run.ripe_window
    for what, value, between in (
        ("ripe from", window.from_, doubt.ripe_from), ("ripe until", window.to, doubt.ripe_to)
    ):  # fmt: skip
        if value is not None or between is not None:
            said = clock.day_time(value) if value is not None else NOTHING
            yield _row(what, said, between, clock.day_time)


def _row(what: str, value: str, between: tuple[float, float] | None, say: Callable[[float], str]) -> SureRow:
    if between is None:
        return SureRow(what, value, NOTHING)
    return SureRow(what, value, f"{say(between[0])} to {say(between[1])}")


def _degrees(value: float) -> str:
    return temperature(value, decimals=1)


def _percent(value: float) -> str:
    return f"{number(value, 1)}{HELD}%"


def _shares(doubt: Doubt) -> str:
    """In how many of a hundred kitchens that are as this one is known to be."""
    young, ripe, past = (round(share) for share in doubt.share)
    return (
        f"In 100 kitchens that are all this one, as far as it is known, it would be ripe in {ripe}, "
        f"young in {young} and past in {past}."
    )
