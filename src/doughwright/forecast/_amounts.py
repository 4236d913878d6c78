"""What is really weighed: amounts with the changes of a search and the errors of a scale, by kitchen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from doughwright.ingredients import Class
from doughwright.recipe.weigh import WeighedLine, WeighedMix
from doughwright.science.yeast import Real

LEAST = 0.1
"""Least share of an amount that an error of weighing leaves."""


@dataclass(frozen=True, slots=True)
class Changes:
    """What a search changes of a recipe's dough; each a number, or one for each kitchen, shape (lanes,).

    ``yeast`` multiplies all yeast weighed into the dough itself; ``hours`` replaces the time of a step, by
    its number from 0; ``dough_temperature`` [degC] stands for the measured, wanted or computed one; ``miss``
    [K] is by how much a measured or wanted one is off.
    """

    yeast: Real = 1.0
    hours: Mapping[int, Real] = field(default_factory=dict)
    dough_temperature: Real | None = None
    miss: Real = 0.0


@dataclass(frozen=True, slots=True)
class Weighing:
    """Errors of weighing [g], each a number or one for each kitchen, shape (lanes,).

    ``flour``, ``yeast`` and ``others`` hold for every amount of theirs put on a scale; ``spoons`` is how many
    standard deviations a household measure is off.
    """

    flour: Real = 0.0
    yeast: Real = 0.0
    others: Real = 0.0
    spoons: Real = 0.0

    def error(self, line: WeighedLine) -> Real:
        """The error of a line [kg]."""
        if line.ingredient is None or line.how not in ("weighed", "percent", "measured"):
            return 0.0
        if line.how == "measured":
            return (line.spread or 0.0) * self.spoons
        by_class = {Class.FLOUR: self.flour, Class.YEAST: self.yeast}
        return by_class.get(line.ingredient.class_, self.others) / 1000.0


def as_weighed(mix: WeighedMix, changes: Changes, weighing: Weighing) -> WeighedMix:
    """A mix as it is weighed; the document's own masses where nothing differs."""
    nothing = (changes.yeast - 1.0, weighing.flour, weighing.yeast, weighing.others, weighing.spoons)
    if not any(np.any(one) for one in nothing):
        return mix
    return replace(mix, lines=tuple(_line(line, changes, weighing) for line in mix.lines))


def _line(line: WeighedLine, changes: Changes, weighing: Weighing) -> WeighedLine:
    if line.mass is None or line.ingredient is None:
        return line
    factor = changes.yeast if line.ingredient.class_ is Class.YEAST else 1.0
    wanted = line.mass * factor
    mass: Any = np.maximum(wanted + weighing.error(line), LEAST * wanted)
    return replace(line, mass=mass)
