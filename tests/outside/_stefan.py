"""A front that boils or freezes its way into a body (Stefan's problem, one phase): the exact answer."""

from __future__ import annotations

from math import erf, exp, pi, sqrt


def front_constant(stefan: float) -> float:
    """lambda of the front x = 2 lambda sqrt(alpha t): sqrt(pi) l exp(l^2) erf(l) = Ste."""
    low, high = 0.0, 5.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        if sqrt(pi) * middle * exp(middle * middle) * erf(middle) > stefan:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


def front_depth(
    *,
    face: float,
    front: float,
    conductivity: float,
    density: float,
    heat: float,
    turned: float,
    seconds: float,
) -> float:
    """Depth of the front [m]; ``turned`` is what a cubic metre of it takes or gives up [J/m3]."""
    stefan = density * heat * abs(face - front) / turned
    diffusivity = conductivity / (density * heat)
    return 2.0 * front_constant(stefan) * sqrt(diffusivity * seconds)
