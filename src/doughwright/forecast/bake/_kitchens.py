"""The days that lead to a bake, in the middle of what is known of a kitchen and in kitchens like it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._amounts import Changes, Weighing
from doughwright.forecast._contents import lines_within, main_protein
from doughwright.forecast._course import Course, Mark, Setting, course_of
from doughwright.forecast._moments import clock_of
from doughwright.forecast.bake._draws import Lanes, lanes_of, names_of
from doughwright.forecast.bake._raw import Raw, at_bake, raw_piece, shape_of
from doughwright.forecast.doubt import how_mixed
from doughwright.forecast.many import setting_of_many
from doughwright.ingredients import Class
from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.learning import as_learnt
from doughwright.kitchen.population import draw, kitchen_inputs
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import WeighedLine, WeighedMix
from doughwright.science.kernels.layout import fit_lanes
from doughwright.science.parameters import Parameters
from doughwright.science.sampling.sobol import sobol
from doughwright.science.steam import atmosphere
from doughwright.science.yeast import Array, Real


@dataclass(frozen=True, slots=True)
class Ready:
    """A piece ready for the oven in every lane, the middle first: the ``room`` [degC], ``pressure`` [Pa]."""

    raw: Raw
    lanes: Lanes
    room: Array
    pressure: Array
    course: Course


def ready(
    recipe: Recipe,
    kitchen: Surroundings,
    dough: str,
    weighed: dict[str, WeighedMix],
    *,
    seed: int,
    draws: int,
    said: list[str],
) -> Ready:
    """Run the days of a dough up to its first bake; without ``draws`` in the middle alone."""
    lines = lines_within(weighed, dough)
    _check_yeast(dough, lines)
    own = as_learnt(Parameters(), kitchen.learnt)
    middle = course_of(Setting(recipe, kitchen, weighed, own, clock=clock_of(recipe)), dough)
    if middle.dough is None:
        raise NoAnswerError(Fault(f'"{dough}" has no flour, so there is nothing to bake'))
    marks: tuple[Mark, ...] = (at_bake(middle),)
    shape = shape_of(recipe, marks[0].dough.body.mass if marks[0].dough else 0.0, said)
    rooms: list[Real] = [kitchen.room.value]
    heights: list[Real] = [kitchen.altitude.value]
    points = None
    if draws:
        inputs = kitchen_inputs(kitchen, mixed=how_mixed(recipe, dough))
        cube = sobol(count=draws, dimensions=len(inputs) + len(names_of(shape.form)), seed=seed)
        points = cube[:, len(inputs) :]
        drawn = draw(kitchen, cube[:, : len(inputs)], inputs, protein=main_protein(lines))
        many = setting_of_many(
            recipe,
            drawn.surroundings,
            drawn.parameters,
            count=draws,
            changes=Changes(miss=drawn.miss),
            weighing=Weighing(**drawn.weighing),
            every=None,
        )
        marks = (*marks, at_bake(course_of(many, dough)))
        rooms.append(drawn.surroundings.room.value)
        heights.append(drawn.surroundings.altitude.value)
    lanes = lanes_of(kitchen, shape.form, points)
    return Ready(
        raw=raw_piece(marks, shape, lanes, _malt(lines)),
        lanes=lanes,
        room=_row(rooms, draws),
        pressure=atmosphere(altitude=_row(heights, draws)),
        course=middle,
    )


def _row(values: list[Real], draws: int) -> Array:
    return np.concatenate([fit_lanes(value=one, lanes=n) for one, n in zip(values, (1, draws), strict=False)])


def _check_yeast(dough: str, lines: list[WeighedLine]) -> None:
    raised = [
        line for line in lines if line.ingredient is not None and line.ingredient.to_fresh and line.mass
    ]
    if not raised:
        raise NoAnswerError(
            Fault(
                f'"{dough}" has no yeast, and the oven is that of a yeasted dough',
                try_="Formula, plan and card still count it",
            )
        )


def _malt(lines: list[WeighedLine]) -> float:
    """Malt flour and malt syrup [% of flour]."""
    flour = sum(line.mass * line.ingredient.flour_fraction for line in lines if line.mass and line.ingredient)
    malts = [
        line.mass
        for line in lines
        if line.mass
        and line.ingredient is not None
        and "malt" in line.ingredient.key
        and line.ingredient.class_ in (Class.SUGAR, Class.FLOUR)
    ]
    return 100.0 * sum(malts) / flour if flour > 0.0 else 0.0
