"""One step of a fermenting dough: yeast, sugar, maltose and gas in each shell, all advanced together.

Everything is per 100 g of the flour that is in the dough so far.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from doughwright.science.curves import FORMULAS, Curves
from doughwright.science.gas import GasBasis, most_gas
from doughwright.science.parameters import Parameters
from doughwright.science.sugar import formed_maltose, sugar_left
from doughwright.science.yeast import (
    Array,
    Real,
    brine_molarity,
    grown_yeast,
    mean_wakefulness,
    salt_on_gassing,
    salt_on_growth,
    sugar_on_gassing,
)


@dataclass(frozen=True, slots=True)
class Ferment:
    """State of a dough in each shell, arrays of shape (nodes,) or (nodes, lanes), per 100 g flour.

    ``yeast`` X [g fresh], ``sugar`` S [%], ``maltose`` M formed since wetting [%], ``gas`` G in the dough
    [mL at 25 degC], ``made`` [mL] never reduced, ``leaked`` [mL] lost at the ceiling, ``woken`` q
    [h at 30 degC] behind the gassing lag, ``grown`` L [1] behind the growth lag.
    """

    yeast: Array
    sugar: Array
    maltose: Array
    gas: Array
    made: Array
    leaked: Array
    woken: Array
    grown: Array

    def evened(self, shares: Array, nodes: int | None = None) -> Ferment:
        """The same dough worked through: every shell at the mean by mass."""
        count = nodes or len(shares)
        return Ferment(
            *(throughout(value=shares @ getattr(self, one.name), nodes=count) for one in fields(self))
        )


def throughout(*, value: Real, nodes: int) -> Array:
    """The same value in each shell of a piece.

    one column of nodes for each lane

    Parameters
    ----------
    value : float or array
        what each shell has [any unit], scalar or (lanes,)
    nodes : int
        shells [1], scalar

    Returns
    -------
    array
        shape (nodes,) or (nodes, lanes)
    """
    return np.multiply.outer(np.ones(nodes), value)


@dataclass(frozen=True, slots=True)
class Medium:
    """What a dough is to its yeast: factors that hold until something more goes in.

    ``gassing`` [mL/(g h) at 30 degC], ``growth`` [1], ``lag`` [h at 30 degC], ``at_mixing`` X0
    [g per 100 g flour] and the ``basis`` of its gas.
    """

    gassing: Real
    growth: Real
    lag: Real
    at_mixing: Real
    basis: GasBasis


def medium(
    *,
    salt: Real,
    water: Real,
    sugar: Real,
    lag: Real,
    at_mixing: Real,
    basis: GasBasis,
    parameters: Parameters,
) -> Medium:
    """What a dough of this make-up is to its yeast.

    gassing = r30 fs fS, growth = max(0, 1 - c / 2.2)

    Parameters
    ----------
    salt, water : float
        salt and all added water that are in [g per 100 g flour], scalars
    sugar : float
        sugar added at mixing, lactose too [% of flour], scalar
    lag : float
        time constant of the gassing lag [h at 30 degC], scalar
    at_mixing : float
        yeast at mixing, as fresh [g per 100 g flour], scalar
    basis : GasBasis
        what the dough brings to its gas [mL per 100 g flour, atm]
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    Medium
        the factors
    """
    molarity = brine_molarity(salt=salt, water=water, parameters=parameters)
    slowed = salt_on_gassing(molarity=molarity, parameters=parameters) * sugar_on_gassing(
        sugar=sugar, parameters=parameters
    )
    return Medium(
        gassing=parameters.gassing_30 * slowed,
        growth=salt_on_growth(molarity=molarity, parameters=parameters),
        lag=lag,
        at_mixing=at_mixing,
        basis=basis,
    )


def ferment_step(
    *,
    state: Ferment,
    medium: Medium,
    before: Array,
    after: Array,
    hours: Real,
    parameters: Parameters,
    curves: Curves = FORMULAS,
) -> Ferment:
    """The dough a step later.

    dG/dt = r30 rho(T) fs fS a X S / (S + 0.1); dX/dt = mu(T) (1 - c/2.2) X max(0, 1 - (X - X0)/K) once the
    growth lag is passed; dS/dt = maltose - gas / 255; gas over the ceiling leaks.

    Parameters
    ----------
    state : Ferment
        the dough before [g, %, mL per 100 g flour], arrays of shape (nodes,)
    medium : Medium
        what the dough is to its yeast [mL/(g h), 1, h]
    before, after : array
        temperatures at the two ends of the step [degC], shape (nodes,) or (nodes, lanes)
    hours : float
        length of the step [h], scalar or (lanes,)
    parameters : Parameters
        the parameter set [see its table]
    curves : Curves
        the functions of temperature [1, 1/h, %/h, mL/mL]

    Returns
    -------
    Ferment
        the dough after

    Notes
    -----
    Rates are taken at the mean of the two temperatures; yeast, maltose and the lag are exact within the step,
    sugar is implicit and gas is booked from the sugar used, so that mass balances. Growth acts only for the
    part of the step after its lag. A shell that reaches 52 degC has its yeast dead for good.
    """
    p = parameters
    temperature = 0.5 * (before + after)
    hottest = np.maximum(before, after)
    alive = state.yeast * (hottest < p.death_temperature)
    rate = curves.gassing(temperature, p)
    woken = state.woken + rate * hours
    wakefulness = mean_wakefulness(before=state.woken, after=woken, lag=medium.lag)
    grown, yeast = _grow(state, medium, alive, curves.growth(temperature, p) * (medium.growth * hours), p)
    wanted = medium.gassing * hours / p.gas_yield * rate * wakefulness * 0.5 * (alive + yeast)
    maltose = formed_maltose(
        formed=state.maltose,
        rate=curves.maltose(temperature, p),
        hours=hours,
        parameters=p,
    )
    available = state.sugar + (maltose - state.maltose)
    left = sugar_left(available=available, wanted=wanted, parameters=p)
    used = wanted * left / (left + p.sugar_half)
    made = p.gas_yield * used
    gas = state.gas + made
    most = most_gas(temperature=after, basis=medium.basis, parameters=p, solubility=curves.solubility(after))
    kept = np.minimum(gas, most)
    return Ferment(
        yeast=yeast,
        sugar=np.maximum(available - used, 0.0),
        maltose=maltose,
        gas=kept,
        made=state.made + made,
        leaked=state.leaked + (gas - kept),
        woken=woken,
        grown=grown,
    )


def _grow(state: Ferment, medium: Medium, alive: Array, step: Array, p: Parameters) -> tuple[Array, Array]:
    grown = state.grown + step
    past_lag = np.minimum(np.maximum(grown - p.growth_lag, 0.0), step)
    return grown, grown_yeast(yeast=alive, at_mixing=medium.at_mixing, growth=past_lag, parameters=p)
