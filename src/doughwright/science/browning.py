"""Crust that browns: two published rates, each in its range, and the colour and the word they come to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from doughwright.science._ranges import within
from doughwright.science.oven_parameters import OvenParameters, oven_parameter_table
from doughwright.science.setting import GAS_CONSTANT
from doughwright.science.steam import ZERO_CELSIUS, saturation_pressure_iapws_1992
from doughwright.science.yeast import Array, Real

# Zanoni, Peri & Bruno 1995: 1/s, J/mol, and the colour change of burnt bread.
_ZANONI = (42000.0, 64151.0)
BURNT_CHANGE = 52.0
# Purlis & Salvadori 2009: rate 1/min and temperature K, each a number and a share of 1/a_w.
_PURLIS_RATE = (7.9233e6, 2.7397e6)
_PURLIS_TEMPERATURE = (8701.5, 49.4738)

ColourWord = Literal["pale", "golden", "brown", "dark", "burnt"]
COLOUR_WORDS: tuple[tuple[ColourWord, float, float], ...] = (
    ("pale", 72.0, 100.0),
    ("golden", 60.0, 72.0),
    ("brown", 50.0, 60.0),
    ("dark", 43.6, 50.0),
    ("burnt", 0.0, 43.6),
)
"""What a lightness L* is called, from and to; ruled, with char at Zanoni's 90 % of burnt."""

CRUST_PATH: tuple[tuple[float, float, float], ...] = (
    (38.0, 11.0, 16.0),
    (43.6, 13.0, 20.0),
    (50.0, 14.5, 25.0),
    (56.0, 13.5, 29.0),
    (62.0, 11.0, 30.0),
    (72.0, 5.0, 26.0),
    (80.0, 1.0, 21.0),
    (85.0, -0.5, 18.0),
)
"""L*, a*, b* of a crust as it browns, assumed from its ends: a* -0.5 to 10 to 15, b* 18 to about 30 and
falling when dark (a bread bake, read in part; the fall from memory)."""


@dataclass(frozen=True, slots=True)
class BrowningFactor:
    """How much faster than a plain lean dough this one browns, and one standard deviation of that [1]."""

    value: Real
    spread: Real


def browning_rate_zanoni_1995(*, temperature: Real, extrapolate: bool = False) -> Array:
    """Rate at which a dried crumb comes nearer to burnt.

    42000 exp(-64151 / (8.314 T))

    Parameters
    ----------
    temperature : float or array
        temperature of the face [degC], any shape, 140 to 250, or 20 to 600 when extrapolated
    extrapolate : bool
        go on past the range that was measured, as a face that warms from raw has to [no unit]

    Returns
    -------
    array
        rate [1/s], shape of temperature

    Raises
    ------
    OutOfRangeError
        outside 140 to 250 degC, the range of the measurements, unless told to go on

    Notes
    -----
    Dried crumb on a hot plate. Below 140 degC the rate is small (halved every 15 K), so little rests on it;
    past 250 degC it is a guess.

    References
    ----------
    1. Zanoni, Peri & Bruno 1995, LWT 28:604 (read).
    """
    low, high = (20.0, 600.0) if extrapolate else (140.0, 250.0)
    try_ = None if extrapolate else "Ask for the extrapolation where a guess will do"
    t = within("a temperature for Zanoni's browning", temperature, low, high, "degC", try_)
    factor, energy = _ZANONI
    return np.asarray(factor * np.exp(-energy / (GAS_CONSTANT * (t + ZERO_CELSIUS))))


def colour_change_zanoni_1995(*, change: Real, rate: Real, seconds: Real) -> Array:
    """Colour change from raw a time later at a constant rate.

    52 - (52 - dE) exp(-k t)

    Parameters
    ----------
    change : float or array
        colour change from raw before, CIE 1976 [dE], any shape, 0 to 52
    rate : float or array
        rate, times the dough's browning factor [1/s], same shape
    seconds : float or array
        time [s], same shape, from 0

    Returns
    -------
    array
        colour change [dE], that shape

    Raises
    ------
    OutOfRangeError
        for a change outside 0 to 52 or a time below 0

    References
    ----------
    1. Zanoni, Peri & Bruno 1995, LWT 28:604 (read).
    """
    before = within("a colour change", change, 0.0, BURNT_CHANGE, "dE")
    t = within("a time", seconds, 0.0, np.inf, "s")
    return np.asarray(BURNT_CHANGE - (BURNT_CHANGE - before) * np.exp(-np.asarray(rate) * t))


def browning_rate_purlis_2009(*, temperature: Real, activity: Real) -> Array:
    """Rate at which a bread's crust loses lightness.

    k = (7.9233e6 + 2.7397e6/a_w) exp(-(8701.5 + 49.4738/a_w)/T), 1/min

    Parameters
    ----------
    temperature : float or array
        temperature of the face [degC], any shape, 150 to 220
    activity : float or array
        its water activity, see ``crust_activity`` [1], same shape, 0.05 to 1

    Returns
    -------
    array
        rate [1/s], that shape

    Raises
    ------
    OutOfRangeError
        outside 150 to 220 degC or below a water activity of 0.05: ovens of 180 to 220 degC were measured,
        and the form runs away in a drier crust

    Notes
    -----
    Its numbers are from memory; that the rate is per minute is confirmed by its agreement with Zanoni's.

    References
    ----------
    1. Purlis & Salvadori 2009, Food Res. Int. 42:865; used again in Purlis 2011, J. Food Eng. 103:92.
    """
    try_ = "Use Zanoni's form for a hotter or cooler face"
    t = within("a temperature for Purlis & Salvadori's browning", temperature, 150.0, 220.0, "degC", try_)
    a = within("a water activity for Purlis & Salvadori's browning", activity, 0.05, 1.0, "(1)", try_)
    rate = _PURLIS_RATE[0] + _PURLIS_RATE[1] / a
    hot = (_PURLIS_TEMPERATURE[0] + _PURLIS_TEMPERATURE[1] / a) / (t + ZERO_CELSIUS)
    return np.asarray(rate * np.exp(-hot) / 60.0)


def lightness_purlis_2009(*, lightness: Real, rate: Real, seconds: Real) -> Array:
    """Lightness of a crust a time later at a constant rate.

    L* exp(-k t)

    Parameters
    ----------
    lightness : float or array
        lightness before [L*], any shape, 0 to 100
    rate : float or array
        rate [1/s], same shape
    seconds : float or array
        time [s], same shape, from 0

    Returns
    -------
    array
        lightness [L*], that shape

    Raises
    ------
    OutOfRangeError
        for a lightness outside 0 to 100 or a time below 0

    References
    ----------
    1. Purlis & Salvadori 2009, Food Res. Int. 42:865.
    """
    before = within("a lightness", lightness, 0.0, 100.0, "L*")
    t = within("a time", seconds, 0.0, np.inf, "s")
    return np.asarray(before * np.exp(-np.asarray(rate) * t))


def crust_activity(*, temperature: Real, pressure: Real) -> Array:
    """Water activity of a crust whose pores are full of steam.

    min(1, p / p_sat(T))

    Parameters
    ----------
    temperature : float or array
        temperature of the crust [degC], any shape, 0 to 373
    pressure : float or array
        pressure of the air [Pa], same shape

    Returns
    -------
    array
        water activity [1], that shape

    Raises
    ------
    OutOfRangeError
        outside 0 to 373 degC
    """
    return np.asarray(np.minimum(1.0, pressure / saturation_pressure_iapws_1992(temperature=temperature)))


def browning_factor(
    *, sugar_left: Real, hours: Real, milk_sugar: Real, malt: Real, parameters: OvenParameters
) -> BrowningFactor:
    """How much faster than a plain lean dough a dough browns, by what is left in it.

    1 up to 0.5 % sugar or under 3 h, 1.6 from 1 %, linear between; plus milk and malt, at most 0.4

    Parameters
    ----------
    sugar_left : float or array
        sugar that yeast has left [% of flour], any shape, from 0
    hours : float or array
        age of the dough [h], same shape, from 0
    milk_sugar : float or array
        milk sugar, which yeast does not take [% of flour], same shape, from 0
    malt : float or array
        malt flour or syrup [% of flour], same shape, from 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    BrowningFactor
        the factor and its spread, that shape

    Raises
    ------
    OutOfRangeError
        for a value below 0

    Notes
    -----
    A rule of our own: 1.6 is fitted, the rest assumed. What milk and malt add is known to half of itself.
    """
    sugar = within("sugar left", sugar_left, 0.0, np.inf, "% of flour")
    age = within("the age of a dough", hours, 0.0, np.inf, "h")
    milk = within("milk sugar", milk_sugar, 0.0, np.inf, "% of flour")
    malted = within("malt", malt, 0.0, np.inf, "% of flour")
    none, full = parameters.browning_sugar_none, parameters.browning_sugar_all
    share = np.where(age < parameters.browning_young, 0.0, np.clip((sugar - none) / (full - none), 0.0, 1.0))
    yeasted = share * (parameters.browning - parameters.browning_plain)
    added = parameters.browning_milk * milk + parameters.browning_malt * malted
    extra = np.minimum(added, parameters.browning_extra)
    whole = parameters.browning_plain + yeasted
    rows = oven_parameter_table(parameters)
    of_whole, of_extra = (rows[name].spread or 0.0 for name in ("browning", "browning_extra"))
    return BrowningFactor(np.asarray(whole + extra), np.asarray(np.hypot(of_whole * whole, of_extra * extra)))


def lightness_of_change(*, change: Real, parameters: OvenParameters) -> Array:
    """Lightness of a crust from its colour change since raw.

    85 - 0.9 dE

    Parameters
    ----------
    change : float or array
        colour change from raw [dE], any shape, 0 to 52
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        lightness [L*], shape of change

    Raises
    ------
    OutOfRangeError
        for a change outside 0 to 52

    Notes
    -----
    From memory; it ends at L* 38, so that no crust is ever black.
    """
    so_far = within("a colour change", change, 0.0, BURNT_CHANGE, "dE")
    return np.asarray(parameters.lightness_raw - parameters.lightness_slope * so_far)


def crust_lab(*, lightness: Real) -> tuple[Array, Array, Array]:
    """L*a*b* of a crust along the path that bread takes as it browns.

    a*, b* linear between the rows of CRUST_PATH, level beyond

    Parameters
    ----------
    lightness : float or array
        lightness [L*], any shape, 0 to 100

    Returns
    -------
    tuple of array
        L*, a*, b* [-], shape of lightness

    Raises
    ------
    OutOfRangeError
        for a lightness outside 0 to 100
    """
    light = within("a lightness", lightness, 0.0, 100.0, "L*")
    rows = np.array(CRUST_PATH)
    a, b = (np.interp(light, rows[:, 0], rows[:, column]) for column in (1, 2))
    return light, np.asarray(a), np.asarray(b)


def colour_word(*, lightness: float) -> ColourWord:
    """What a crust of this lightness is called.

    pale above 72, golden to 60, brown to 50, dark to 43.6, burnt below

    Parameters
    ----------
    lightness : float
        lightness [L*], scalar, 0 to 100

    Returns
    -------
    str
        the word

    Raises
    ------
    OutOfRangeError
        for a lightness outside 0 to 100
    """
    light = float(within("a lightness", lightness, 0.0, 100.0, "L*"))
    for word, low, _ in COLOUR_WORDS[1:]:
        if light > COLOUR_WORDS[0][1]:
            break
        if light >= low:
            return word
    return COLOUR_WORDS[0][0]
