"""Recipes tried in this kitchen, side by side: what each comes to, and how far from what is wanted."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast._amounts import Changes
from doughwright.forecast.fit._levers import Designs, Levers
from doughwright.forecast.fit._measure import Wanted, measured
from doughwright.forecast.many import many
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import Recipe
from doughwright.science.parameters import Parameters

Array = NDArray[np.float64]

EVERY = 20.0
"""Minutes between the points by which the hours cold and warm are counted."""
RIPE = 1
"""The code of a ripe dough."""


@dataclass(frozen=True, slots=True)
class Tried:
    """Designs that were run: their measures (lanes, 5), how far off (lanes, 5), and whether each is ripe."""

    values: Array
    off: Array
    ripe: NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Bench:
    """A recipe's dough in this kitchen, and the dough that is wanted; ``tried`` counts the recipes run."""

    recipe: Recipe
    dough: str
    kitchen: Surroundings
    parameters: Parameters
    wanted: Wanted
    levers: Levers
    tried: list[int] = field(default_factory=list)

    def run(self, designs: Designs) -> Tried:
        """Run designs as lanes of one run."""
        warmth = bool(np.any(designs.degrees != self.levers.warmth))
        return self._run(designs.changes(warmth), len(designs))

    def _run(self, changes: Changes, count: int) -> Tried:
        ran = many(
            self.recipe,
            self.kitchen,
            self.parameters,
            count=count,
            changes=changes,
            dough=self.dough,
            every=EVERY,
        )
        self.tried.append(count)
        values = measured(ran, self.parameters)
        return Tried(values, self.wanted.off(values), ran.judged.state == RIPE)
