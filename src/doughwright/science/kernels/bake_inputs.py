"""The inputs of the oven's kernel from a parameter set and what surrounds a piece, a row for each name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.kernels.bake_layout import INPUTS, RULES
from doughwright.science.kernels.layout import fit_lanes
from doughwright.science.oven import film_at_pressure
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import boiling_point
from doughwright.science.yeast import Array, Real

Form = Literal["flat", "bun", "loaf"]

_SAME = (
    "sorption_moisture", "boiling_rise", "dough_heat", "crust_conductivity", "vapour_share",
    "crust_diffusivity", "sauce_heat", "sauce_conductivity", "cheese_heat", "cheese_conductivity",
    "topping_dry_conductivity", "topping_dry_moisture", "skin_dough", "skin_sauce", "contact_wet",
    "contact_dry", "contact_depth", "browning", "yeast_decimal", "yeast_z",
)  # fmt: skip


def lane_inputs(*, values: Mapping[str, Real], lanes: int) -> Array:
    """The rows in order; raises ``KeyError`` for a name that is missing or not one of them.

    a single number is that of every lane

    Parameters
    ----------
    values : mapping
        one for each of INPUTS [its unit], scalar or (lanes,)
    lanes : int
        how many kitchens [1], scalar

    Returns
    -------
    array
        shape (48, lanes)
    """
    if strange := sorted(values.keys() - set(INPUTS)):
        raise KeyError(strange[0])
    return np.stack([fit_lanes(value=values[name], lanes=lanes) for name in INPUTS])


def rules_of(*, parameters: OvenParameters) -> Array:
    """The rows that all lanes share; raises ``OutOfRangeError`` where one differs by lane.

    as in the table

    Parameters
    ----------
    parameters : OvenParameters
        the parameter set [see its table]; those named in RULES are single numbers

    Returns
    -------
    array
        shape (15,)
    """
    for name in (*RULES, "sorption_power"):
        wanted = "2.5" if name == "sorption_power" else "one number for every kitchen"
        value = np.asarray(getattr(parameters, name))
        if value.ndim or (name == "sorption_power" and value != 2.5):
            raise OutOfRangeError(
                Fault(
                    f'the parameter "{name}" is built into the steps of the oven',
                    wanted=wanted,
                    found="one for each" if value.ndim else f"{float(value):g}",
                    try_="Vary another parameter",
                )
            )
    return np.array([getattr(parameters, name) for name in RULES], dtype=float)


def food_inputs(
    *, parameters: OvenParameters, form: Form, pressure: Real, fresh_cheese: bool = False
) -> dict[str, Real]:
    """The rows that belong to the food and the height, not to a phase.

    from the table; boiling point from the pressure

    Parameters
    ----------
    parameters : OvenParameters
        the parameter set [see its table], scalars or (lanes,)
    form : str
        what the piece is [no unit]: flat, bun or loaf
    pressure : float or array
        of the air [Pa], scalar or (lanes,)
    fresh_cheese : bool
        whether the cheese is fresh and weeps, rather than low in moisture [no unit]

    Returns
    -------
    dict
        by name
    """
    rows: dict[str, Real] = {name: getattr(parameters, name) for name in _SAME}
    return rows | {
        "pressure": pressure,
        "boiling": boiling_point(pressure=pressure),
        "dough_conductivity": getattr(parameters, f"dough_conductivity_{form}"),
        "skin_cheese": parameters.skin_fresh if fresh_cheese else parameters.skin_part_skim,
    }


def oven_inputs(
    *,
    parameters: OvenParameters,
    setting: Real,
    fan: bool,
    pressure: Real,
    broil: Real = 0.0,
    opened: bool = False,
) -> dict[str, Real]:
    """The rows of what a domestic oven surrounds a column with.

    air, walls and below short of the setting; h (p/p0)^0.6; a door opened as the phase begins

    Parameters
    ----------
    parameters : OvenParameters
        the parameter set [see its table], scalars or (lanes,)
    setting : float or array
        true temperature that the thermostat holds [degC], scalar or (lanes,)
    fan : bool
        whether the fan runs [no unit]
    pressure : float or array
        of the air [Pa], scalar or (lanes,)
    broil : float or array
        heat of the broiler that arrives [W/m2], scalar or (lanes,)
    opened : bool
        whether the door was just opened [no unit]

    Returns
    -------
    dict
        by name
    """
    p, dial = parameters, np.asarray(setting, dtype=float)
    over = dial - p.shortfall_from
    air, walls = dial - p.air_shortfall * over, dial - p.wall_shortfall * over
    below = dial - p.floor_shortfall * over
    still = film_at_pressure(film=p.film_static, pressure=pressure, parameters=p)
    film = film_at_pressure(film=p.film_fan if fan else p.film_static, pressure=pressure, parameters=p)
    return {
        "air": air, "walls": walls, "film": film, "emissivity": p.emissivity,
        "vapour": p.vapour_fan if fan else p.vapour_static, "broil": broil,
        "over_air": air, "over_walls": walls, "over_film": film,
        "under_air": below, "under_walls": below, "under_film": film if fan else still,
        "door_air": p.door_air if opened else 0.0, "door_walls": p.door_walls if opened else 0.0,
        "door_recovery": p.door_recovery, "begins": dial, "ramp": 0.0,
    }  # fmt: skip
