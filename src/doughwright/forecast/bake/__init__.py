"""The oven of a recipe in a kitchen: colour, loss, set, one piece after another, with intervals."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import numpy as np

from doughwright.errors import Fault, NoAnswerError
from doughwright.figures import Figure
from doughwright.forecast.bake._around import Session
from doughwright.forecast.bake._figures import figure_of
from doughwright.forecast.bake._filling import filling_of
from doughwright.forecast.bake._kitchens import ready
from doughwright.forecast.bake._run import run
from doughwright.forecast.bake._section import section_of
from doughwright.forecast.bake._steps import Steps, steps_in_oven
from doughwright.forecast.bake._tell import events_of, piece_of, series_of, wanted_of
from doughwright.forecast.bake.results import Bake, GoesIn, OvenSet, PieceBaked, Section, Surfaced
from doughwright.kitchen.assumed import OVEN_ERROR, Surroundings
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import WeighedMix, weigh
from doughwright.science.materials import areal_capacity
from doughwright.science.oven import preheat_seconds

__all__ = ["DRAWS", "Bake", "bake"]

DRAWS = 512
"""How many kitchens like this one an interval is taken from."""

COLD_SURFACE = 20.0
"""A surface that goes to work this far below its oven [K] is warned of."""


def bake(
    recipe: Recipe,
    kitchen: Surroundings,
    *,
    seed: int = 0,
    draws: int = DRAWS,
    section: int | None = None,
) -> Bake:
    """Bake every main dough of a recipe in a kitchen; the first is the result, others are in its ``doughs``.

    ``draws`` kitchens like this one give the intervals, none at 0; ``section`` is the piece to cut through.
    Raises ``NoAnswerError`` where no step bakes, the dough has no yeast, or something is not modelled.
    """
    if not recipe.doughs:
        raise NoAnswerError(Fault("this recipe has no dough to bake", try_='Give a mix kind = "dough"'))
    made = [_bake(recipe, kitchen, mix.name, seed, draws, section) for mix in recipe.doughs]
    return replace(made[0], doughs=tuple(made[1:]))


def _bake(
    recipe: Recipe, kitchen: Surroundings, dough: str, seed: int, draws: int, section: int | None
) -> Bake:
    said: list[str] = []
    weighed = weigh(recipe)
    steps = steps_in_oven(recipe, dough, kitchen, weighed, said)
    if section is not None and not 1 <= section <= steps.pieces:
        raise NoAnswerError(Fault("no such piece to cut", wanted=f"1 to {steps.pieces}", found=str(section)))
    piece = ready(recipe, kitchen, dough, weighed, seed=seed, draws=draws, said=said)
    session = Session(piece.raw, steps, piece.lanes, piece.room, piece.pressure)
    found = run(session)
    fill = partial(filling_of, recipe, weighed)
    pieces = tuple(piece_of(one, session, recipe, fill) for one in found)
    oven = _oven(session)
    return Bake(
        dough=dough,
        kitchen=kitchen.name,
        form=piece.raw.shape.form,
        oven=oven,
        surface=Surfaced(
            steps.on.name,
            steps.on.material.name,
            Figure(round(100.0 * steps.on.thickness, 5), "cm"),
            steps.on.hot,
        ),
        goes_in=_goes_in(session),
        wanted=wanted_of(recipe)[0],
        series=series_of(found, session),
        events=events_of(found),
        pieces=pieces,
        section=None if section is None else _section(recipe, kitchen, dough, weighed, steps, section),
        draws=draws,
        said=tuple(dict.fromkeys((*_assumed(kitchen), *said))),
        warnings=tuple(_warnings(oven, pieces, session)),
    )


def _section(
    recipe: Recipe,
    kitchen: Surroundings,
    dough: str,
    weighed: dict[str, WeighedMix],
    steps: Steps,
    number: int,
) -> Section:
    """A piece cut through, run in the middle alone: every cell of every kitchen would fill the memory."""
    piece = ready(recipe, kitchen, dough, weighed, seed=0, draws=0, said=[])
    session = Session(piece.raw, steps, piece.lanes, piece.room, piece.pressure, sections=True)
    return section_of(run(session)[number - 1], session)


def _goes_in(session: Session) -> GoesIn:
    raw = session.raw
    toppings = sum(one.mass for one in session.toppings)
    return GoesIn(
        mass=figure_of(1000.0 * raw.mass, "g"),
        toppings=Figure(round(1000.0 * toppings, 5), "g"),
        loading=figure_of(raw.load / 10.0, "g/cm2"),
        water=figure_of(100.0 * raw.water, "percent"),
        core=figure_of(raw.inner[0], "degC"),
        edge=figure_of(raw.inner[-1], "degC"),
        sugar=figure_of(raw.sugar, "percent"),
        browning=figure_of(raw.browning, "ratio"),
    )


def _oven(session: Session) -> OvenSet:
    """The oven as it is set, and how long it takes to heat what the pieces lie on, as one lump."""
    steps, p = session.steps, session.lanes.parameters
    true, on = session.true(steps.heated), steps.on
    need = Figure(None, "min", why=f"the {on.name} goes in cold with its piece")
    if on.hot:
        held = areal_capacity(
            density=on.material.density, heat_capacity=on.material.heat_capacity, thickness=on.thickness
        )
        film = p.preheat_film_fan if steps.heated.fan else p.film_static
        seconds = preheat_seconds(
            setting=true, start=session.room, film=film, areal_capacity=held, parameters=p
        )
        need = figure_of(np.asarray(seconds) / 60.0, "min", "it does not get there in 6 h")
    given = (
        Figure(None, "min", why="no step preheats")
        if steps.preheat is None
        else Figure(round(steps.preheat / 60.0, 5), "min")
    )
    heated = steps.heated
    return OvenSet(
        Figure(heated.dial, "degC"), figure_of(true, "degC"), heated.fan, heated.broil, need, given
    )


def _assumed(kitchen: Surroundings) -> list[str]:
    return [OVEN_ERROR.said] if kitchen.oven_error.how == "assumed" else []


def _warnings(oven: OvenSet, pieces: tuple[PieceBaked, ...], session: Session) -> list[str]:
    found, first = [], pieces[0].surface_before.value
    on = session.steps.on
    if on.hot and first is not None and oven.true.value is not None:
        short = oven.true.value - first
        if short > COLD_SURFACE:
            found.append(f"the {on.name} is {short:.0f} °C short of its oven when the first piece goes on")
    for one in pieces:
        if one.filling is not None and one.filling.reached is False:
            found.append(
                f"in piece {one.number} {', '.join(one.filling.items)} may stay under what the Food Code "
                f"wants, {one.filling.least.value:.0f} °C: check with a probe"
            )
    return found
