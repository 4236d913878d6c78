"""From a run to what its band shows: courses on one clock, places, and things done in a word or two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from doughwright.errors import UnknownNameError
from doughwright.forecast.results import Event, Preferment, Run, Series
from doughwright.kitchen.assumed import Surroundings
from doughwright.publish.band._model import Band, Course, Mark, Part, Stay
from doughwright.publish.clock import Clock, clock_to_meal
from doughwright.recipe.model import BAKES, OVEN, WAITS, Recipe
from doughwright.recipe.weigh import WeighedMix, weigh

PIECE_WORDS = {"round": "round", "rectangle": "sheet", "tin": "loaf", "ball": "ball"}
# Work that follows within this many hours of other work shares its label.
CHAIN = 0.25


def band_of(
    run: Run,
    recipe: Recipe,
    kitchen: Surroundings,
    clock: Clock | None = None,
    *,
    meal_at: float | None = None,
    before: Run | None = None,
    before_words: str = "before",
    whisker: tuple[float, float] | None = None,
) -> Band:
    """The band of a run; the clock is the recipe's own where none is given, ``meal_at`` the last step's end.

    ``before`` is the run as it was before the last change, drawn as a ghost; ``whisker`` the 90 %
    interval of the rise when judged.
    """
    events = all_events(run, recipe)
    meal = _last_end(events) if meal_at is None else meal_at
    clock = clock or run_clock(run, recipe)
    ripe = ripe_span(run)
    return Band(
        clock=clock,
        course=_course(run.series),
        stays=_stays(run.events, events, kitchen),
        marks=_marks(events, run.dough, meal),
        judged_at=run.judged_at,
        judged_word=_judged_word(run),
        judged_rise=run.judged.rise,
        target=(run.target.low, run.target.high),
        state=run.judged.state,
        meal_at=meal,
        first_at=min((event.start for event in events), default=0.0),
        ripe_from=ripe[0],
        ripe_to=ripe[1],
        preferments=_parts(run, recipe),
        divided_at=_divided_at(run),
        pieces=recipe.makes.pieces,
        piece_word=PIECE_WORDS[recipe.shape],
        before=_course(before.series) if before else None,
        before_words=before_words,
        whisker=whisker,
    )


def ripe_span(run: Run) -> tuple[float | None, float | None]:
    """From when to when the dough is ripe [h]; ``None``: it does not come to it; it still is at the end.

    The run's window begins with the last wait at the earliest; a dough that was ripe before that, and has
    not been worked since, was ripe from when it rose into the range.
    """
    times, rises = run.series.time, run.series.rise
    window = run.ripe_window
    if window.from_ is not None:
        at = max(index for index, time in enumerate(times) if time <= window.from_ + 1e-6)
        while at > 0 and rises[at] >= run.target.low and rises[at - 1] >= run.target.low:
            at -= 1
        return (min(times[at], window.from_) if rises[at] >= run.target.low else window.from_), window.to
    if run.judged.state != "past":
        return None, None
    at = max(index for index, time in enumerate(times) if time <= run.judged_at + 1e-6)
    over = under = None
    while at >= 0 and rises[at] >= run.target.low:
        under = times[at]
        over = times[at] if rises[at] > run.target.high else over
        at -= 1
    return under, over if over is not None else under


def run_clock(run: Run, recipe: Recipe) -> Clock:
    """The clock by which the recipe's last step ends at its meal; a meal that is not given is assumed."""
    meal = _last_end(all_events(run, recipe))
    return clock_to_meal(recipe.makes.eat, meal)


def _last_end(events: Sequence[Event]) -> float:
    """When the last thing is done; hour 0 where nothing is."""
    return max((event.end for event in events), default=0.0)


def _judged_word(run: Run) -> str:
    """When the dough is judged, in words: a recipe that ends early is judged where it ends."""
    done = {event.verb for event in run.events if abs(event.start - run.judged_at) < 1e-6}
    return run.target.judged if done & {"shape", *BAKES} else "when its last wait ends"


def all_events(run: Run, recipe: Recipe) -> list[Event]:
    """Every event on the run's clock, those of the preferments moved to where they go in."""
    moved = [event for one in run.preferments for event in _moved(one, _shift(one, run, recipe))]
    return sorted([*run.events, *moved], key=lambda event: (event.start, event.step))


def _moved(one: Preferment, shift: float) -> list[Event]:
    return [replace(event, start=event.start + shift, end=event.end + shift) for event in one.events]


def _shift(one: Preferment, run: Run, recipe: Recipe) -> float:
    """What brings a preferment's own clock to the run's: it goes in when what it is part of is mixed."""
    parent = _parent(one.name, recipe)
    ends = one.series.time[-1]
    within = next((other for other in run.preferments if other.name == parent), None)
    if within is not None:
        return _mixed_at(within.events, within.name) + _shift(within, run, recipe) - ends
    return _mixed_at(run.events, run.dough) - ends


def _parent(name: str, recipe: Recipe) -> str | None:
    using = (mix.name for mix in recipe.mixes if any(line.mix == name for line in mix.ingredients))
    return next(using, None)


def _mixed_at(events: Sequence[Event], mix: str) -> float:
    """When a mix's first mix step begins."""
    return next((event.start for event in events if event.verb == "mix" and event.mix == mix), 0.0)


def _course(series: Series, shift: float = 0.0) -> Course:
    time = tuple(value + shift for value in series.time)
    return Course(time, series.core, series.edge, series.rise)


def _parts(run: Run, recipe: Recipe) -> tuple[Part, ...]:
    mixes = weigh(recipe)
    whole = mixes[run.dough].mass
    return tuple(
        Part(
            one.name,
            _course(one.series, _shift(one, run, recipe)).scaled(
                _mass_in(one.name, mixes, run.dough) / whole
            ),
        )
        for one in run.preferments
    )


def _mass_in(name: str, mixes: dict[str, WeighedMix], dough: str) -> float:
    """How much [kg] of a preferment comes to be in the dough, by way of others too."""

    @cache
    def within(mix: str) -> float:
        found = 0.0
        for line in mixes[mix].lines:
            if line.line.mix == name:
                found += line.mass or 0.0
            elif line.line.mix is not None and mixes[line.line.mix].mass > 0.0:
                found += (line.mass or 0.0) / mixes[line.line.mix].mass * within(line.line.mix)
        return found

    return within(dough)


def _divided_at(run: Run) -> float | None:
    done = [
        event.end for event in run.events if event.verb == "divide" and event.start <= run.judged_at + 1e-6
    ]
    return done[0] if done else None


def _stays(own: Sequence[Event], every: Sequence[Event], kitchen: Surroundings) -> tuple[Stay, ...]:
    """Where the dough is, or what becomes it: a stay lasts until the next begins; last the oven."""
    begun = min((event.start for event in own), default=0.0)
    chosen = [event for event in every if event in own or event.start < begun - 1e-6]
    stays: list[Stay] = []
    for event in chosen:
        place = "oven" if event.verb in OVEN and event.verb != "preheat" else event.place
        if event.verb == "preheat":
            continue
        if stays and stays[-1].place == place:
            stays[-1] = replace(stays[-1], end=max(stays[-1].end, event.end))
        else:
            if stays:
                stays[-1] = replace(stays[-1], end=event.start)
            stays.append(Stay(place, event.start, event.end, _temperature(place, kitchen)))
    return tuple(stay for stay in stays if stay.end > stay.start + 1e-6)


def _temperature(place: str, kitchen: Surroundings) -> float | None:
    try:
        return kitchen.place(place).value
    except UnknownNameError:
        return None


def _marks(events: Sequence[Event], dough: str, meal: float) -> tuple[Mark, ...]:
    """Work as it is done, what follows at once under one label; a change of place where no work says so."""
    marks: list[Mark] = []
    last_work, place = -1e9, ""
    for event in events:
        if event.verb not in WAITS:
            words = _work_words(event, dough)
            if marks and event.start - last_work <= CHAIN and marks[-1].words.count(",") < 3:
                if words not in marks[-1].words.split(", "):
                    marks[-1] = replace(marks[-1], words=f"{marks[-1].words}, {words}")
            else:
                marks.append(Mark(event.start, words))
            last_work = event.end
        elif event.place != place and event.start - last_work > CHAIN and place:
            marks.append(Mark(event.start, _moved_words(event.place, place)))
        place = event.place
    return (*marks, Mark(meal, "eat"))


def _work_words(event: Event, dough: str) -> str:
    return f"mix {event.mix}" if event.verb == "mix" else event.verb


def _moved_words(place: str, last: str) -> str:
    if place[:1].isdigit():
        return f"to {place}"
    return "out of the fridge" if last == "fridge" and place == "room" else f"into the {place}"
