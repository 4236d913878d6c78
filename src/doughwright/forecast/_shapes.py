"""What working a dough makes of it: how much gas goes, whether it is tight again, and its new body."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from doughwright.forecast._dough import Dough
from doughwright.recipe.model import Recipe, Step
from doughwright.science.heat import Body, ball, slab, tin
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Real

TIGHTENING = ("ball", "shape")
"""Work after which a dough is as tight as just mixed."""

_DEGAS = {"fold": "degas_fold", "divide": "degas_divide", "ball": "degas_ball", "shape": "degas_shape"}


@dataclass(frozen=True, slots=True)
class Work:
    """What a work step does: ``degas`` share of free gas lost, ``tightens``, and the ``body`` it leaves."""

    degas: Real
    tightens: bool
    body: Body


def work_of(step: Step, recipe: Recipe, dough: Dough) -> Work | None:
    """What this step does to a dough; ``None`` where it does nothing to it."""
    own = getattr(dough.parameters, _DEGAS[step.do]) if step.do in _DEGAS else None
    degas = step.degas if step.degas is not None else own
    if degas is None:
        return None
    return Work(degas, step.do in TIGHTENING, _body(step, recipe, dough))


def _body(step: Step, recipe: Recipe, dough: Dough) -> Body:
    body, parameters = dough.body, dough.parameters
    if step.do == "divide":
        whole = dough.contents.mass / 1000.0 * (1.0 - recipe.makes.loss)
        return as_ball(piece_mass(step, recipe, whole), parameters, body.nodes)
    if step.do == "ball":
        return as_ball(body.mass, parameters, body.nodes)
    if step.do == "shape":
        return shaped(recipe, body, parameters)
    return body


def piece_mass(step: Step, recipe: Recipe, mass: Real) -> Real:
    """Mass [kg] of a piece when this much dough, all of it, is divided."""
    if step.each is not None:
        return np.minimum(step.each, mass)
    return mass / (step.pieces or recipe.makes.pieces)


def as_ball(mass: Real, parameters: Parameters, nodes: int) -> Body:
    """A free-standing piece."""
    return ball(mass=mass, density=1000.0 * parameters.fresh_density, nodes=nodes)


def shaped(recipe: Recipe, body: Body, parameters: Parameters) -> Body:
    """The piece in the shape that the recipe makes; a ball where it does not say how large."""
    makes, density = recipe.makes, 1000.0 * parameters.fresh_density
    if recipe.shape == "round" and makes.diameter:
        area = 0.25 * pi * makes.diameter**2
        return slab(mass=body.mass, density=density, area=area, nodes=body.nodes)
    if makes.length and makes.width and recipe.shape == "rectangle":
        return slab(mass=body.mass, density=density, area=makes.length * makes.width, nodes=body.nodes)
    if makes.length and makes.width and recipe.shape == "tin":
        return in_tin(recipe, body, parameters)
    return as_ball(body.mass, parameters, body.nodes)


def in_tin(recipe: Recipe, body: Body, parameters: Parameters) -> Body:
    """The piece in the tin that the recipe names; as it was where the tin has no size."""
    makes = recipe.makes
    if not (recipe.shape == "tin" and makes.length and makes.width):
        return body
    return tin(
        mass=body.mass,
        density=1000.0 * parameters.fresh_density,
        length=makes.length,
        width=makes.width,
        nodes=body.nodes,
    )
