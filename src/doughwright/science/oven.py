"""An oven around food: air and walls short of the dial, door, radiation, film; surfaces that warm in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from doughwright.science._ranges import above, within
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import SEA_LEVEL, ZERO_CELSIUS
from doughwright.science.yeast import Array, Real

STEFAN_BOLTZMANN = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m2 K4)] (CODATA 2018)."""

Rate: TypeAlias = Callable[[float, Array], Array]

_HOTTEST = 600.0
# Steps of the lumped surface to one time constant: fourth order, so 20 leave under 1e-6.
_STEPS = 20
_LONGEST = 6.0 * 3600.0


@dataclass(frozen=True, slots=True)
class OvenAir:
    """What an oven surrounds food with [degC]: ``air``, ``walls`` and what is ``below`` the surface."""

    air: Array
    walls: Array
    below: Array


@dataclass(frozen=True, slots=True)
class Exchange:
    """Air, walls and broiler as one surrounding: ``coefficient`` [W/(m2 K)] and ``temperature`` [degC]."""

    coefficient: Array
    temperature: Array


def oven_air(*, setting: Real, since_door: Real, parameters: OvenParameters) -> OvenAir:
    """Air and walls of a domestic oven at a setting, a while after its door was opened.

    T = S - a (S - 25) - d exp(-t/90): a 0.04 air, 0.11 walls, 0.02 below; d 50 air, 12 walls

    Parameters
    ----------
    setting : float or array
        true temperature that the thermostat holds [degC], any shape, 20 to 500
    since_door : float or array
        time since the door was opened [s], same shape, from 0; infinite for never
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    OvenAir
        temperatures [degC], that shape

    Raises
    ------
    OutOfRangeError
        for a setting outside 20 to 500 degC or a time below 0

    Notes
    -----
    A form of our own: the door's glass and a load keep an oven under its dial. The thermostat's swing is
    left out: over a bake it averages.
    """
    dial = within("an oven's setting", setting, 20.0, 500.0, "degC")
    fallen = np.exp(-within("a time since the door", since_door, 0.0, np.inf, "s") / parameters.door_recovery)
    over = dial - parameters.shortfall_from
    return OvenAir(
        air=np.asarray(dial - parameters.air_shortfall * over - parameters.door_air * fallen),
        walls=np.asarray(dial - parameters.wall_shortfall * over - parameters.door_walls * fallen),
        below=np.asarray(dial - parameters.floor_shortfall * over + 0.0 * fallen),
    )


def radiation_coefficient(*, emissivity: Real, face: Real, walls: Real) -> Array:
    """Heat transfer by radiation between a face and the walls around it.

    eps sigma (T_f^2 + T_w^2) (T_f + T_w)

    Parameters
    ----------
    emissivity : float or array
        effective emissivity, see ``effective_emissivity`` [1], any shape, 0 to 1
    face, walls : float or array
        temperatures [degC], same shape, -50 to 600

    Returns
    -------
    array
        coefficient [W/(m2 K)], that shape

    Raises
    ------
    OutOfRangeError
        for a value outside its range

    References
    ----------
    1. Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, eq. 1.9.
    """
    eps = within("an emissivity", emissivity, 0.0, 1.0, "(1)")
    one = within("a temperature of a face", face, -50.0, _HOTTEST, "degC") + ZERO_CELSIUS
    other = within("a temperature of walls", walls, -50.0, _HOTTEST, "degC") + ZERO_CELSIUS
    return np.asarray(eps * STEFAN_BOLTZMANN * (one * one + other * other) * (one + other))


def effective_emissivity(*, food: Real, walls: Real, area_ratio: Real) -> Array:
    """Emissivity that counts between a small body and the grey walls around it.

    1 / (1/eps_f + (A_f/A_w) (1/eps_w - 1))

    Parameters
    ----------
    food, walls : float or array
        emissivities of the two [1], any shape, above 0 to 1
    area_ratio : float or array
        area of the food over that of the walls [1], same shape, 0 to 1

    Returns
    -------
    array
        effective emissivity [1], that shape

    Raises
    ------
    OutOfRangeError
        for a value outside its range

    References
    ----------
    1. Incropera & DeWitt, eq. 13.20 (a small convex body in a grey enclosure).
    """
    small = within("an emissivity", food, 1e-3, 1.0, "(1)")
    large = within("an emissivity", walls, 1e-3, 1.0, "(1)")
    ratio = within("a ratio of areas", area_ratio, 0.0, 1.0, "(1)")
    return np.asarray(1.0 / (1.0 / small + ratio * (1.0 / large - 1.0)))


def film_at_pressure(*, film: Real, pressure: Real, parameters: OvenParameters) -> Array:
    """Heat transfer by air where the air is thin.

    h (p/p0)^0.6

    Parameters
    ----------
    film : float or array
        heat transfer at sea level [W/(m2 K)], any shape, above 0
    pressure : float or array
        pressure of the air [Pa], same shape, above 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        heat transfer [W/(m2 K)], that shape

    Raises
    ------
    OutOfRangeError
        for a value that is not above 0
    """
    thin = above("a pressure", pressure, "Pa") / SEA_LEVEL
    return np.asarray(above("a heat transfer", film, "W/(m2 K)") * thin**parameters.film_pressure)


def blown_film(*, film: Real, steam: Real, parameters: OvenParameters) -> Array:
    """Heat transfer by air to a face that steam blows from.

    h Phi / (exp(Phi) - 1), Phi = G c_pv / h

    Parameters
    ----------
    film : float or array
        heat transfer without steam [W/(m2 K)], any shape, above 0
    steam : float or array
        steam leaving the face [kg/(m2 s)], same shape, from 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        heat transfer [W/(m2 K)], that shape

    Raises
    ------
    OutOfRangeError
        for a film that is not above 0 or steam below 0

    References
    ----------
    1. Ackermann 1937, VDI-Forschungsheft 382; Bird, Stewart & Lightfoot, Transport Phenomena, sec. 22.8.
    """
    bare = above("a heat transfer", film, "W/(m2 K)")
    flow = within("a flow of steam", steam, 0.0, np.inf, "kg/(m2 s)") * parameters.steam_heat / bare
    # Near 0 the ratio loses its digits: there its series 1 - Phi/2 is exact enough.
    small = flow < 1e-6
    return np.asarray(bare * np.where(small, 1.0 - 0.5 * flow, flow / np.expm1(np.where(small, 1.0, flow))))


def exchange(*, film: Real, radiation: Real, air: Real, walls: Real, broil: Real) -> Exchange:
    """Air, walls and broiler taken together as one surrounding.

    h_t = h + h_r, T_e = (h T_air + h_r T_wall + q) / h_t

    Parameters
    ----------
    film, radiation : float or array
        heat transfer by air and by radiation [W/(m2 K)], any shape, from 0
    air, walls : float or array
        temperatures [degC], same shape
    broil : float or array
        heat of a broiler that arrives [W/m2], same shape, from 0

    Returns
    -------
    Exchange
        coefficient and temperature, that shape

    Raises
    ------
    OutOfRangeError
        where both coefficients are 0
    """
    whole = above("heat transfer in all", np.asarray(film) + np.asarray(radiation), "W/(m2 K)")
    heat = film * np.asarray(air) + radiation * np.asarray(walls) + broil
    return Exchange(whole, np.asarray(heat / whole))


def plate_seconds(
    *,
    start: Real,
    until: Real,
    cold: Real,
    hot: Real,
    ramp: Real,
    film: Real,
    emissivity: Real,
    areal_capacity: Real,
) -> Array:
    """Time in which a thin plate, air and walls at both its faces, reaches a temperature.

    C dT/dt = 2 (h + h_r) (T_o - T), T_o going from ``cold`` to ``hot`` in a straight line over ``ramp``

    Parameters
    ----------
    start, until : float or array
        temperature of the plate at first and to be reached, warmer or colder [degC], any shape
    cold, hot : float or array
        temperature of air and walls at first and after the ramp [degC], same shape
    ramp : float or array
        length of the ramp [s], same shape, from 0
    film : float or array
        heat transfer by air [W/(m2 K)], same shape, above 0
    emissivity : float or array
        effective emissivity [1], same shape, 0 to 1
    areal_capacity : float or array
        heat capacity of the plate by area [J/(m2 K)], same shape, above 0

    Returns
    -------
    array
        time [s], that shape; NaN where it is not reached in 6 h

    Raises
    ------
    OutOfRangeError
        for a value outside its range

    Notes
    -----
    The plate has one temperature throughout: good for metal, a few per cent short for 20 mm of stone.

    References
    ----------
    1. Incropera & DeWitt, sec. 5.3 (lumped bodies with convection and radiation).
    """
    given = np.broadcast_arrays(
        *(np.asarray(one, dtype=float) for one in (start, until, cold, hot, ramp, film, emissivity)),
        above("a heat capacity by area", areal_capacity, "J/(m2 K)"),
    )
    return _reached(*given)


def _reached(
    start: Array,
    until: Array,
    cold: Array,
    hot: Array,
    ramp: Array,
    film: Array,
    emissivity: Array,
    capacity: Array,
) -> Array:
    def oven(t: float) -> Array:
        return np.asarray(cold + (hot - cold) * np.clip(t / np.maximum(ramp, 1e-9), 0.0, 1.0))

    def rate(t: float, now: Array) -> Array:
        around = oven(t)
        radiation = radiation_coefficient(emissivity=emissivity, face=now, walls=around)
        return np.asarray(2.0 * (film + radiation) * (around - now) / capacity)

    hottest = np.maximum(np.maximum(start, cold), hot)
    most = film + radiation_coefficient(emissivity=emissivity, face=hottest, walls=hottest)
    step = float(np.min(capacity / (2.0 * above("a heat transfer", most, "W/(m2 K)")))) / _STEPS
    taken = np.where(start == until, 0.0, np.nan)
    now, t = start + 0.0, 0.0
    rising = until > start
    while np.isnan(taken).any() and t < _LONGEST:
        after = _runge_kutta(rate, t, now, step)
        there = np.isnan(taken) & np.where(rising, after >= until, after <= until)
        share = (until - now) / np.where(after == now, 1.0, after - now)
        taken = np.where(there, t + step * share, taken)
        now, t = after, t + step
    return np.asarray(taken)


def _runge_kutta(rate: Rate, t: float, now: Array, step: float) -> Array:
    first = rate(t, now)
    second = rate(t + 0.5 * step, now + 0.5 * step * first)
    third = rate(t + 0.5 * step, now + 0.5 * step * second)
    fourth = rate(t + step, now + step * third)
    return np.asarray(now + step / 6.0 * (first + 2.0 * second + 2.0 * third + fourth))


def preheat_seconds(
    *, setting: Real, start: Real, film: Real, areal_capacity: Real, parameters: OvenParameters
) -> Array:
    """Time in which an oven, switched on cold, brings a surface to within 10 K of its setting.

    as ``plate_seconds``, air and walls going from ``start`` to the setting in 15 min

    Parameters
    ----------
    setting : float or array
        true temperature that the thermostat holds [degC], any shape, 50 to 500
    start : float or array
        temperature of oven and surface when switched on [degC], same shape
    film : float or array
        heat transfer by air [W/(m2 K)], same shape, above 0
    areal_capacity : float or array
        heat capacity of the surface by area [J/(m2 K)], same shape, above 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        time [s], that shape; NaN where it is not reached in 6 h

    Raises
    ------
    OutOfRangeError
        for a value outside its range

    Notes
    -----
    Measured preheats are few; ovens differ by a quarter in how fast they heat. Bright steel takes longer.
    """
    dial = within("an oven's setting", setting, 50.0, 500.0, "degC")
    return plate_seconds(
        start=start,
        until=dial - parameters.preheat_within,
        cold=start,
        hot=dial,
        ramp=parameters.preheat_ramp,
        film=film,
        emissivity=parameters.preheat_emissivity,
        areal_capacity=areal_capacity,
    )


def recovery_time_constant(*, areal_capacity: Real, parameters: OvenParameters) -> Array:
    """Time in which a surface makes up 63 % of what a piece of dough took from it.

    C / (2 x 40)

    Parameters
    ----------
    areal_capacity : float or array
        heat capacity of the surface by area [J/(m2 K)], any shape, above 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        time constant [s], shape of areal_capacity; 95 % is made up after three

    Raises
    ------
    OutOfRangeError
        for a capacity that is not above 0

    References
    ----------
    1. Incropera & DeWitt, sec. 5.1 (lumped bodies).
    """
    held = above("a heat capacity by area", areal_capacity, "J/(m2 K)")
    return np.asarray(held / (2.0 * parameters.recovery_film))
