"""Kitchens drawn from points of a unit cube: those of the published population, or one with all its doubt."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.kitchen.air import DAILY_SWING
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.inputs import (
    Input,
    Mixed,
    Readers,
    Season,
    headings,
    kitchen_inputs,
    population_inputs,
)
from doughwright.kitchen.learning import with_factors
from doughwright.kitchen.learnt import Learnt, is_factor
from doughwright.kitchen.types import Known
from doughwright.science.parameters import Parameters
from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.yeast import Array

__all__ = [
    "Drawn", "Input", "Mixed", "Readers", "Season", "draw", "headings", "kitchen_inputs", "population_inputs",
]  # fmt: skip

# Inputs whose value takes the place of the parameter of the same name.
PARAMETERS = (
    "growth_cap", "dissolving", "retention", "air", "degas_fold", "degas_divide", "degas_ball", "degas_shape",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Drawn:
    """Kitchens, one a point: fields of ``surroundings`` and ``parameters`` are arrays of shape (lanes,).

    ``weighing`` are errors [g] of yeast, flour and all others, and of spoons in standard deviations;
    ``miss`` [K] is how far the dough is from a temperature that was wanted or measured. ``columns`` are the
    values of every input by name, in its own unit.
    """

    surroundings: Surroundings
    parameters: Parameters
    weighing: Mapping[str, Array]
    miss: Array
    columns: Mapping[str, Array]


def draw(
    kitchen: Surroundings | None,
    points: Array,
    inputs: Sequence[Input],
    *,
    protein: float | None = None,
    parameters: Parameters | None = None,
) -> Drawn:
    """The kitchens at ``points`` of shape (kitchens, inputs), each coordinate inside 0 and 1.

    ``kitchen`` is the one whose doubt the inputs are of; ``None`` is the population. ``protein`` is that of
    the recipe's main flour, a share; without it, and without the kitchen's own, protein is not drawn.
    """
    if points.ndim != 2 or points.shape[1] != len(inputs):
        wanted = f"{len(inputs)} columns, one for each input"
        raise OutOfRangeError(Fault("points to draw kitchens at", wanted=wanted, found=str(points.shape)))
    base, p = kitchen or surroundings(None), parameters or Parameters()
    columns = {one.name: one.quantile(points[:, n]) for n, one in enumerate(inputs)}
    columns |= _taught(base.learnt, points, inputs)
    nothing = np.zeros(len(points))
    miss = columns.get("miss", nothing) + columns.get("thermometer", nothing)
    weighing = {kind: columns.get(f"{kind} weighed", nothing) for kind in ("yeast", "flour", "others")}
    return Drawn(
        surroundings=_kitchens(base, columns, protein),
        parameters=_parameters(p, columns),
        weighing=weighing | {"spoons": columns.get("spoons", nothing)},
        miss=miss,
        columns=columns,
    )


def _taught(learnt: Learnt | None, points: Array, inputs: Sequence[Input]) -> dict[str, Array]:
    """What was learnt, with its correlations: the same points, by the covariance's lower triangle."""
    which = [(n, one.name) for n, one in enumerate(inputs) if one.whose == "learnt"]
    if learnt is None or not which:
        return {}
    order = [learnt.names.index(name) for _, name in which]
    covariance = np.array(learnt.covariance())[np.ix_(order, order)]
    lower = np.linalg.cholesky(covariance)
    middles = np.array([learnt.quantities[n].middle for n in order])
    z = normal_quantile(probability=points[:, [n for n, _ in which]])
    found = middles + z @ lower.T
    return {
        name: np.exp(found[:, n]) if is_factor(name) else found[:, n] for n, (_, name) in enumerate(which)
    }


def _kitchens(base: Surroundings, columns: Mapping[str, Array], protein: float | None) -> Surroundings:
    room: Any = columns.get("room", base.room.value)
    changed: dict[str, Any] = {"room": _as(base.room, room)}
    for name in ("fridge", "altitude", "friction"):
        if name in columns:
            changed[name] = _as(getattr(base, name), columns[name])
    for name, field in (("water", "tap"), ("flour", "flour_temperature")):
        known: Known = getattr(base, field)
        if name in columns:
            beside = known.how == "assumed" and known.value == base.room.value
            changed[field] = _as(known, columns[name] + (room if beside else 0.0))
    own = base.flour_protein.value if base.flour_protein is not None else protein
    if "protein" in columns and own is not None:
        changed["flour_protein"] = _held(np.clip(own + columns["protein"], 0.03, 0.9))
    if "hour" in columns:
        changed["room_warmest"] = _held(3600.0 * columns["hour"])
        changed["room_swing"] = base.room_swing or Known(DAILY_SWING.middle, "assumed", DAILY_SWING.spread)
    if "swing" in columns:
        changed["room_swing"] = _held(columns["swing"])
    places = {
        name: _as(known, columns.get(f"place: {name}", known.value)) for name, known in base.places.items()
    }
    return replace(base, cold=_cold(base, columns), places=places, **changed)


def _cold(base: Surroundings, columns: Mapping[str, Array]) -> Any:
    cold = base.cold
    times = columns.get("openings", 1.0)
    grip = _held(columns["grip"]) if "grip" in columns else cold.grip
    return replace(
        cold,
        offset=_as(cold.offset, columns.get("shelf", cold.offset.value)),
        opened=_as(cold.opened, cold.opened.value * times),
        daily=_as(cold.daily, cold.daily.value * times),
        grip=grip,
    )


def _parameters(parameters: Parameters, columns: Mapping[str, Array]) -> Parameters:
    held: dict[str, Any] = {name: columns[name] for name in PARAMETERS if name in columns}
    changed = replace(parameters, **held)
    factors: dict[str, Any] = dict(columns)
    if "gassing" in columns:
        factors["yeast"] = factors.get("yeast", 1.0) * columns["gassing"]
    if "growth_lag" in columns:
        held_lag: Any = changed.growth_lag * columns["growth_lag"]
        changed = replace(changed, growth_lag=held_lag)
    return with_factors(changed, factors)


def _as(known: Known, value: Any) -> Known:
    """The same, drawn: in a run of many kitchens a value holds one number for each."""
    return Known(value, known.how)


def _held(value: Any) -> Known:
    return Known(value, "assumed")
