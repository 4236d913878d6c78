"""Kitchens like one, for the oven: what is not known of it and of the model, lane 0 being the middle."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import log
from typing import Any

import numpy as np

from doughwright.kitchen.assumed import Surroundings
from doughwright.science.kernels.bake_inputs import Form
from doughwright.science.oven_parameters import OvenParameters, oven_parameter_table
from doughwright.science.parameter_rows import ParameterRow, varied
from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.yeast import Array

# One standard deviation of what the kitchen does not say; all assumed.
ERROR_MEASURED, ERROR_ASSUMED = 4.0, 14.0
LOADING, HYDRATION, STARTING, STONE = 0.05, 0.04, 10.0, 0.25

OWN = ("error", "loading", "hydration", "start", "stone")
"""What differs beside the rows of the model's parameters."""

_HIGHEST = dict.fromkeys(("emissivity", "lifted_emissivity", "preheat_emissivity"), 0.98) | dict.fromkeys(
    ("vapour_share", "skin_part_skim", "skin_fresh"), 1.0
)
_SCALED = ("browning", "browning_extra")
_FORMS = ("flat", "bun", "loaf")


@dataclass(frozen=True, slots=True)
class Lanes:
    """Kitchens side by side, the first the middle of what is known: ``error`` [K] of the dial, factors of
    ``loading``, ``hydration``, conductivity of ``stone`` and ``browning`` (of the dough, of milk and malt),
    ``start`` [K] of a surface that no step preheats; the oven's ``parameters``, arrays of shape (lanes,)."""

    count: int
    parameters: OvenParameters
    error: Array
    loading: Array
    hydration: Array
    start: Array
    stone: Array
    browning: Array
    browning_extra: Array


def names_of(form: Form) -> tuple[str, ...]:
    """Everything that is drawn for a form, one dimension each."""
    return (*OWN, *(one.name for one in _rows(form)))


def lanes_of(kitchen: Surroundings, form: Form, points: Array | None) -> Lanes:
    """The lanes at points of shape (draws, names) inside the unit cube; ``None`` for the middle alone."""
    names = names_of(form)
    z = np.zeros((1, len(names)))
    if points is not None:
        z = np.concatenate([z, normal_quantile(probability=points)])
    at: Mapping[str, Array] = {name: z[:, n] for n, name in enumerate(names)}
    rows = {one.name: _value(one, at[one.name]) for one in _rows(form) if one.name not in _SCALED}
    scaled = {name: np.exp(_spread(name) * at[name]) for name in _SCALED}
    return Lanes(
        count=len(z),
        parameters=varied(OvenParameters(), **rows),
        error=kitchen.oven_error.value + _error(kitchen) * at["error"],
        loading=np.exp(LOADING * at["loading"]),
        hydration=np.exp(HYDRATION * at["hydration"]),
        start=STARTING * at["start"],
        stone=np.exp(STONE * at["stone"]),
        **scaled,
    )


def _error(kitchen: Surroundings) -> float:
    """How far the true temperature may be from what the kitchen says of its dial [K]."""
    known = kitchen.oven_error
    if known.spread is not None:
        return known.spread
    return {"known": 0.0, "measured": ERROR_MEASURED}.get(known.how, ERROR_ASSUMED)


def _rows(form: Form) -> Iterator[ParameterRow]:
    """The parameters that are not known exactly, without those of other forms."""
    other = tuple(f"_{one}" for one in _FORMS if one != form)
    return (one for one in oven_parameter_table().rows if one.spread and not one.name.endswith(other))


def _spread(name: str) -> float:
    return oven_parameter_table()[name].spread or 0.0


def _value(row: ParameterRow, z: Array) -> Any:
    spread = row.spread or 0.0
    if row.spread_kind == "absolute":
        return row.value + spread * z
    by = log(spread) if row.spread_kind == "factor" else spread
    return np.minimum(row.value * np.exp(by * z), _HIGHEST.get(row.name, np.inf))
