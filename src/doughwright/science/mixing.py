"""Temperature of a dough just mixed: the trade's sum, the heat balance, ice, and a mixer's friction.

No arrays here, so that a command may use it without loading them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.errors import NoAnswerError
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Real

_ICE_HEAT_CAPACITY = 2.05
"""Heat capacity of ice between -20 and 0 degC, kJ/(kg K); physical tables."""


@dataclass(frozen=True, slots=True)
class Part:
    """What goes into the mixer: ``mass`` [kg], ``heat`` capacity [kJ/(kg K)], ``temperature`` [degC]."""

    mass: Real
    heat: Real
    temperature: Real

    @property
    def capacity(self) -> Real:
        """Heat that warms it by a degree [kJ/K]."""
        return self.mass * self.heat


def water_temperature_sum(*, desired: float, known: Sequence[float], friction: float) -> float:
    """Water temperature by the trade's sum, all temperatures in one unit.

    T_water = n T_desired - (sum of the known) - friction, n one more than the known

    Parameters
    ----------
    desired : float
        desired dough temperature [degC or degF], scalar
    known : sequence of float
        room, flour and, where there is one, preferment [the same unit]
    friction : float
        friction on that sum [the same unit], scalar

    Returns
    -------
    float
        water temperature [the same unit]

    Notes
    -----
    Gives flour, water and room equal weight; friction stands for mixing, hydration and the bowl together.
    """
    return (len(known) + 1) * desired - sum(known) - friction


def friction_learnt(*, measured: float, used: Sequence[float]) -> float:
    """A mixer's friction on the trade's sum, from one dough just mixed.

    friction = n T_measured - (sum of the temperatures used), n of them

    Parameters
    ----------
    measured : float
        temperature of the dough just mixed [degC or degF], scalar
    used : sequence of float
        room, flour, preferment if any, and water [the same unit]

    Returns
    -------
    float
        friction on the sum [the same unit]; the dough's own rise is this over n
    """
    return len(used) * measured - sum(used)


def mixing_rise(
    *,
    parts: Sequence[Part],
    flour: float,
    energy: float,
    parameters: Parameters,
    hydration: float | None = None,
) -> float:
    """How much a dough warms from a mixer's work and from wetting the flour.

    (E + 15 m_flour) / sum of m c

    Parameters
    ----------
    parts : sequence of Part
        all that goes in [kg, kJ/(kg K), degC]
    flour : float
        flour among it [kg], scalar
    energy : float
        mechanical energy that reaches the dough [kJ], scalar
    parameters : Parameters
        the parameter set [see its table]
    hydration : float
        heat of wetting [kJ per kg flour]; the set's own when left out

    Returns
    -------
    float
        rise [K]

    Notes
    -----
    Not to be used beside a friction factor, which holds the heat of wetting already. One textbook states the
    heat per kg of dough, a trade magazine per kg of flour; the second is used.
    """
    wetting = parameters.hydration_heat if hydration is None else hydration
    return float((energy + wetting * flour) / sum(part.capacity for part in parts))


def dough_temperature(
    *,
    parts: Sequence[Part],
    rise: Real,
    parameters: Parameters,
    ice: float = 0.0,
    ice_temperature: float = 0.0,
) -> Real:
    """Temperature of a dough just mixed, by heat balance.

    T = (sum of m c T - m_ice (333.6 - 2.05 T_ice)) / (sum of m c + m_ice c_water) + rise

    Parameters
    ----------
    parts : sequence of Part
        all that goes in but the ice [kg, kJ/(kg K), degC]
    rise : float
        warming by the mixer [K], scalar or (lanes,): friction over n, or mixing_rise
    parameters : Parameters
        the parameter set [see its table]
    ice : float
        ice [kg], scalar
    ice_temperature : float
        temperature of the ice [degC], scalar, not above 0

    Returns
    -------
    float
        temperature of the dough [degC]
    """
    heat = sum(part.capacity * part.temperature for part in parts) - ice * _melting(
        ice_temperature, parameters
    )
    return heat / (sum(part.capacity for part in parts) + ice * parameters.water_heat) + rise


def _melting(ice_temperature: float, parameters: Parameters) -> float:
    return parameters.ice_heat - _ICE_HEAT_CAPACITY * min(ice_temperature, 0.0)


def water_temperature_balance(
    *, desired: float, others: Sequence[Part], water: float, rise: float, parameters: Parameters
) -> float:
    """Water temperature that gives the desired dough, by heat balance.

    T_water = ((T_desired - rise) (sum of m c) - sum over the others of m c T) / (m_water c_water)

    Parameters
    ----------
    desired : float
        desired dough temperature [degC], scalar
    others : sequence of Part
        all that goes in but the water [kg, kJ/(kg K), degC]
    water : float
        water that is poured [kg], scalar, above 0
    rise : float
        warming by the mixer [K], scalar: friction over n, or mixing_rise
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    float
        water temperature [degC]; below 0 means that ice is needed

    Raises
    ------
    NoAnswerError
        where no water is poured

    Notes
    -----
    At 62 % water the flour weighs .44 and the water .56 in the mean, not a third each.
    """
    if water <= 0.0:
        raise NoAnswerError("no water is poured in this dough, so its temperature cannot steer the dough's")
    own = water * parameters.water_heat
    whole = own + sum(part.capacity for part in others)
    return float(((desired - rise) * whole - sum(part.capacity * part.temperature for part in others)) / own)


def ice_mass(
    *, water: float, tap: float, wanted: float, parameters: Parameters, ice_temperature: float = 0.0
) -> float:
    """Ice that takes the place of some of the water, so that the rest from the tap does as cold water would.

    ice = W (T_tap - T_wanted) / (T_tap + 79.7); 79.7 = 333.6 / 4.186

    Parameters
    ----------
    water : float
        all water, the ice included [any unit of mass], scalar
    tap : float
        tap water [degC], scalar
    wanted : float
        water temperature wanted [degC], scalar; below 0 where ice has to melt in the dough
    parameters : Parameters
        the parameter set [see its table]
    ice_temperature : float
        temperature of the ice [degC], scalar, not above 0

    Returns
    -------
    float
        ice [the unit of water]; 0 where the tap is cold enough

    Raises
    ------
    NoAnswerError
        where more ice would be needed than there is water
    """
    if wanted >= tap:
        return 0.0
    ice = water * (tap - wanted) / (tap + _melting(ice_temperature, parameters) / parameters.water_heat)
    if ice > water:
        raise NoAnswerError(
            "more ice would be needed than there is water: cool the flour or the room, or mix less"
        )
    return ice


def ice_added(
    *, water: float, start: float, wanted: float, parameters: Parameters, ice_temperature: float = 0.0
) -> float:
    """Ice put on top of water that is already there, to cool it.

    ice = W (T_start - T_wanted) / (T_wanted + 79.7 [+ cold of the ice])

    Parameters
    ----------
    water : float
        water there [any unit of mass], scalar
    start, wanted : float
        its temperature before and after [degC], scalars, wanted not below 0
    parameters : Parameters
        the parameter set [see its table]
    ice_temperature : float
        temperature of the ice [degC], scalar, not above 0

    Returns
    -------
    float
        ice [the unit of water]; 0 where the water is cold enough
    """
    melt = _melting(ice_temperature, parameters) / parameters.water_heat
    return max(0.0, water * (start - wanted) / (wanted + melt))
