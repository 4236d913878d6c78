"""A recipe with the kitchens it is to be made in: points of the population, and what comes of each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._amounts import Changes, Weighing
from doughwright.forecast._contents import ASSUMED_PROTEIN, lines_within, need_yeast
from doughwright.forecast._judge import target_of
from doughwright.forecast._order import dough_named, steps_of
from doughwright.forecast.many import many
from doughwright.forecast.results import Target
from doughwright.ingredients import Class
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.population import Drawn, Readers, draw, headings, population_inputs
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import WeighedLine, weigh

Array = NDArray[np.float64]

TRAIT_UNITS = {
    "the fridge": "degC",
    "the room": "degC",
    "the dough when mixed": "degC",
    "the yeast weighed": "percent",
    "the yeast’s strength": "percent",
    "its strength in the cold": "percent",
}
"""What is told of a kitchen that fails; per cent are over or under what is usual."""


@dataclass(frozen=True, slots=True)
class Ran:
    """A block of kitchens after the days; ``time`` and ``course`` (rise) have shape (points, kitchens)."""

    time: Array
    course: Array
    judged_at: Array
    rise: Array
    sugar: Array
    state: NDArray[np.int8]
    dough_temperature: Array
    traits: Mapping[str, Array]

    def judged_only(self) -> Ran:
        """Without the way there."""
        nothing = np.zeros((0, len(self.rise)))
        return replace(self, time=nothing, course=nothing)


@dataclass(frozen=True, slots=True)
class Kitchens:
    """A dough of a recipe, how it is made, and whose kitchens.

    ``readers`` says who they are. ``yeasts`` are those weighed into the dough itself: the mix and the line by
    number, and grams; ``wanted`` [degC] is its temperature in the recipe, which readers who aim aim for;
    ``protein`` is the share in its main flour. ``places`` are those a recipe may name beside room and fridge,
    alike in all kitchens. ``every`` [min] a point of the course is kept; ``changes`` are made to the recipe.
    """

    recipe: Recipe
    dough: str
    target: Target
    readers: Readers
    yeasts: tuple[tuple[int, int, float], ...]
    wanted: float | None
    protein: float | None
    places: Surroundings
    changes: Changes = field(default_factory=Changes)
    every: float | None = 15.0

    @property
    def yeast(self) -> float:
        """All yeast weighed into the dough itself [g]."""
        return sum(grams for _, _, grams in self.yeasts)

    @property
    def inputs(self) -> int:
        """How many coordinates a point has."""
        return len(population_inputs(self.readers))

    @property
    def headings(self) -> Mapping[str, tuple[int, ...]]:
        """The coordinates under each heading."""
        return headings(population_inputs(self.readers))

    def run(self, points: Array) -> Ran:
        """The days in the kitchens of these points."""
        drawn = draw(self.places, points, population_inputs(self.readers), protein=self.protein)
        ran = many(
            self.recipe,
            drawn.surroundings,
            drawn.parameters,
            count=len(points),
            changes=replace(self.changes, miss=drawn.miss),
            weighing=Weighing(**drawn.weighing),
            dough=self.dough,
            every=self.every,
            computed=not self.readers.aim,
        )
        return Ran(
            time=ran.time,
            course=ran.rise,
            judged_at=ran.judged.time,
            rise=ran.judged.rise,
            sugar=ran.judged.sugar,
            state=ran.judged.state,
            dough_temperature=ran.entered,
            traits=_traits(drawn, ran.entered, self.yeast),
        )


def _traits(drawn: Drawn, entered: Array, yeast: float) -> dict[str, Array]:
    columns = drawn.columns
    strength = columns["yeast"] * columns["gassing"]
    values = (
        np.asarray(drawn.surroundings.place("fridge").value),
        columns["room"],
        entered,
        100.0 * columns["yeast weighed"] / yeast if yeast > 0.0 else np.zeros(len(entered)),
        100.0 * (strength - 1.0),
        100.0 * (columns["cold"] - 1.0),
    )
    return dict(zip(TRAIT_UNITS, values, strict=True))


def kitchens_of(
    recipe: Recipe, *, readers: Readers, dough: str | None, own: Surroundings | None = None
) -> Kitchens:
    """The kitchens of a recipe's dough, the first where none is named; its ``own`` gives them its places.

    Raises ``NoAnswerError`` where it has no yeasted dough, or readers who aim have nothing to aim for.
    """
    name = dough_named(recipe, dough)
    lines = lines_within(weigh(recipe), name)
    need_yeast(name, lines)
    wanted = _wanted(recipe, name)
    if readers.aim and wanted is None:
        try_ = 'Write for example dough_temperature = "24 °C" below [target]'
        raise NoAnswerError(Fault("there is no dough temperature to aim for", try_=try_))
    return Kitchens(
        recipe=recipe,
        dough=name,
        target=target_of(recipe),
        readers=readers,
        yeasts=_yeasts(recipe, name),
        wanted=wanted,
        protein=_protein(lines),
        places=_with_places(own),
    )


def _with_places(own: Surroundings | None) -> Surroundings:
    """The middle of the population, with the named places (a proofing box) of the recipe's own kitchen."""
    middle = surroundings(None)
    return middle if own is None else replace(middle, places=own.places, place_swings=own.place_swings)


def _wanted(recipe: Recipe, dough: str) -> float | None:
    """The dough temperature that the recipe was measured at, else the one it asks for."""
    measured = [step.dough_at for _, step in steps_of(recipe, dough) if step.dough_at is not None]
    return measured[-1] if measured else recipe.target.dough_temperature


def _protein(lines: list[WeighedLine]) -> float | None:
    """The share of protein in the flour there is most of."""
    flours = [(line.mass or 0.0, line.ingredient) for line in lines if line.ingredient is not None]
    flours = [one for one in flours if one[1].class_ is Class.FLOUR]
    if not flours:
        return None
    main = max(flours, key=lambda one: one[0])[1]
    return (main.protein if main.protein is not None else ASSUMED_PROTEIN) / 100.0


def _yeasts(recipe: Recipe, dough: str) -> tuple[tuple[int, int, float], ...]:
    mix = next(number for number, one in enumerate(recipe.mixes) if one.name == dough)
    return tuple(
        (mix, number, 1000.0 * line.mass)
        for number, line in enumerate(weigh(recipe)[dough].lines)
        if line.mass and line.ingredient is not None and line.ingredient.class_ is Class.YEAST
    )
