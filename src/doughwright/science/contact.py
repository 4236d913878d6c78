"""Two bodies that are put together: dough on a hot stone or steel, with and without resistance between."""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, pi, sqrt

import numpy as np

from doughwright.science._ranges import above, within
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.yeast import Array, Real

# Past this argument the asymptotic series of erfcx is good to 1e-10, and exp(x^2) would soon overflow.
_ASYMPTOTIC = 25.0
_erfc = np.vectorize(erfc, otypes=[float])


@dataclass(frozen=True, slots=True)
class Faces:
    """The two faces that meet, ``hot`` and ``cold`` [degC], and the ``flux`` from one to the other [W/m2]."""

    hot: Array
    cold: Array
    flux: Array


def effusivity(*, conductivity: Real, density: Real, heat_capacity: Real) -> Array:
    """How much heat a body takes up or gives through its face.

    sqrt(k rho c)

    Parameters
    ----------
    conductivity : float or array
        heat conductivity [W/(m K)], any shape, above 0
    density : float or array
        density [kg/m3], same shape, above 0
    heat_capacity : float or array
        heat capacity [J/(kg K)], same shape, above 0

    Returns
    -------
    array
        effusivity [W s^0.5/(m2 K)], that shape

    Raises
    ------
    OutOfRangeError
        for a property that is not above 0

    References
    ----------
    1. Carslaw & Jaeger 1959, Conduction of Heat in Solids, sec. 2.15.
    """
    k = above("a conductivity", conductivity, "W/(m K)")
    rho = above("a density", density, "kg/m3")
    return np.asarray(np.sqrt(k * rho * above("a heat capacity", heat_capacity, "J/(kg K)")))


def contact_temperature(*, hot: Real, cold: Real, hot_effusivity: Real, cold_effusivity: Real) -> Array:
    """Temperature at which two thick bodies meet, from the moment they touch.

    (e_h T_h + e_c T_c) / (e_h + e_c)

    Parameters
    ----------
    hot, cold : float or array
        temperatures of the two before [degC], any shape
    hot_effusivity, cold_effusivity : float or array
        their effusivities [W s^0.5/(m2 K)], same shape, above 0

    Returns
    -------
    array
        temperature of both faces [degC], that shape

    Raises
    ------
    OutOfRangeError
        for an effusivity that is not above 0

    Notes
    -----
    Perfect contact, and only until the heat reaches the back: ``thick_for`` says how long that is.

    References
    ----------
    1. Carslaw & Jaeger 1959, sec. 2.15. 2. Varlamov, Glatz & Grasso 2018, Phys. Educ. 53:065011.
    """
    one = above("an effusivity", hot_effusivity, "W s^0.5/(m2 K)")
    other = above("an effusivity", cold_effusivity, "W s^0.5/(m2 K)")
    return np.asarray((one * np.asarray(hot) + other * np.asarray(cold)) / (one + other))


def contact_flux(*, cold: Real, contact: Real, cold_effusivity: Real, seconds: Real) -> Array:
    """Heat flowing into the colder of two bodies in perfect contact.

    e_c (T_0 - T_c) / sqrt(pi t)

    Parameters
    ----------
    cold, contact : float or array
        temperature of the body before, and of the faces [degC], any shape
    cold_effusivity : float or array
        its effusivity [W s^0.5/(m2 K)], same shape
    seconds : float or array
        time since they touched [s], same shape, above 0

    Returns
    -------
    array
        flux [W/m2], that shape

    Raises
    ------
    OutOfRangeError
        for a time that is not above 0

    References
    ----------
    1. Carslaw & Jaeger 1959, sec. 2.15.
    """
    t = above("a time since contact", seconds, "s")
    return np.asarray(cold_effusivity * (np.asarray(contact) - cold) / np.sqrt(pi * t))


def contact_heat(*, cold: Real, contact: Real, cold_effusivity: Real, seconds: Real) -> Array:
    """Heat that the colder of two bodies in perfect contact has taken up.

    2 e_c (T_0 - T_c) sqrt(t / pi)

    Parameters
    ----------
    cold, contact : float or array
        temperature of the body before, and of the faces [degC], any shape
    cold_effusivity : float or array
        its effusivity [W s^0.5/(m2 K)], same shape
    seconds : float or array
        time since they touched [s], same shape, from 0

    Returns
    -------
    array
        heat [J/m2], that shape

    Raises
    ------
    OutOfRangeError
        for a time below 0

    References
    ----------
    1. Carslaw & Jaeger 1959, sec. 2.15.
    """
    t = within("a time since contact", seconds, 0.0, np.inf, "s")
    return np.asarray(2.0 * cold_effusivity * (np.asarray(contact) - cold) * np.sqrt(t / pi))


def thick_for(*, depth: Real, diffusivity: Real) -> Array:
    """How long a layer counts as thick for a body that touches it.

    d^2 / (pi alpha)

    Parameters
    ----------
    depth : float or array
        thickness of the layer [m], any shape, above 0
    diffusivity : float or array
        its thermal diffusivity [m2/s], same shape, above 0

    Returns
    -------
    array
        time [s], that shape

    Raises
    ------
    OutOfRangeError
        for a thickness or diffusivity that is not above 0
    """
    d = above("a thickness", depth, "m")
    return np.asarray(d * d / (pi * above("a diffusivity", diffusivity, "m2/s")))


def resisted_contact(
    *,
    hot: Real,
    cold: Real,
    hot_effusivity: Real,
    cold_effusivity: Real,
    conductance: Real,
    seconds: Real,
) -> Faces:
    """The faces of two thick bodies with a resistance between them, and the heat that flows.

    b = h_c (1/e_h + 1/e_c), q = h_c (T_h - T_c) exp(b^2 t) erfc(b sqrt t)

    Parameters
    ----------
    hot, cold : float or array
        temperatures of the two before [degC], any shape
    hot_effusivity, cold_effusivity : float or array
        their effusivities [W s^0.5/(m2 K)], same shape, above 0
    conductance : float or array
        conductance between the faces [W/(m2 K)], same shape, above 0
    seconds : float or array
        time since they touched [s], same shape, from 0

    Returns
    -------
    Faces
        temperatures of the faces and flux, that shape

    Raises
    ------
    OutOfRangeError
        for an effusivity or conductance that is not above 0, or a time below 0

    References
    ----------
    1. Carslaw & Jaeger 1959, sec. 2.15 and 2.16.
    """
    one = above("an effusivity", hot_effusivity, "W s^0.5/(m2 K)")
    other = above("an effusivity", cold_effusivity, "W s^0.5/(m2 K)")
    between = above("a conductance", conductance, "W/(m2 K)")
    t = within("a time since contact", seconds, 0.0, np.inf, "s")
    apart = np.asarray(hot) - np.asarray(cold)
    left = erfcx(argument=between * (1.0 / one + 1.0 / other) * np.sqrt(t))
    passed = apart * (1.0 - left) / (one + other)
    return Faces(
        hot=np.asarray(hot - other * passed),
        cold=np.asarray(cold + one * passed),
        flux=np.asarray(between * apart * left),
    )


def erfcx(*, argument: Real) -> Array:
    """The complementary error function with its fall taken out.

    exp(x^2) erfc(x)

    Parameters
    ----------
    argument : float or array
        x [1], any shape, from 0

    Returns
    -------
    array
        the value [1], shape of argument

    Raises
    ------
    OutOfRangeError
        for an argument below 0

    Notes
    -----
    Past 25 its asymptotic series, to 1e-10.

    References
    ----------
    1. NIST Digital Library of Mathematical Functions, 7.12.1.
    """
    x = within("an argument of erfcx", argument, 0.0, np.inf, "")
    near, far = np.minimum(x, _ASYMPTOTIC), np.maximum(x, _ASYMPTOTIC)
    inverse = 0.5 / (far * far)
    series = (1.0 - inverse * (1.0 - 3.0 * inverse * (1.0 - 5.0 * inverse))) / (far * sqrt(pi))
    return np.asarray(np.where(x > _ASYMPTOTIC, series, np.exp(near * near) * _erfc(near)))


def opening_conductance(*, dried: Real, parameters: OvenParameters) -> Array:
    """Conductance between a surface and a base that lifts off as it dries.

    h_dry + (h_wet - h_dry) exp(-d / d_c)

    Parameters
    ----------
    dried : float or array
        thickness of the base that has dried [m], any shape, from 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        conductance [W/(m2 K)], shape of dried

    Raises
    ------
    OutOfRangeError
        for a thickness below 0

    Notes
    -----
    A form of our own, fitted: wet dough lies flat, a stiff base touches in spots with steam between.
    """
    d = within("a dried thickness", dried, 0.0, np.inf, "m")
    closed = parameters.contact_wet - parameters.contact_dry
    return np.asarray(parameters.contact_dry + closed * np.exp(-d / parameters.contact_depth))
