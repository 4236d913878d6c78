"""Exact answers of transient conduction, to hold the numerical scheme against."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, erf, erfc, exp, pi, sin, sqrt

from doughwright.errors import OutOfRangeError

_TERMS = 60


@dataclass(frozen=True, slots=True)
class SeriesAnswer:
    """What is left of the first difference to the surroundings [1]: centre, surface and mean."""

    centre: float
    surface: float
    mean: float


def eigenvalue(*, shape: str, biot: float, term: int) -> float:
    """The n-th root of the characteristic equation of a slab or a sphere.

    slab: z tan z = Bi; sphere: 1 - z cot z = Bi

    Parameters
    ----------
    shape : str
        "slab" or "sphere" [no unit]
    biot : float
        Biot number on half thickness or radius [1], scalar, above 0
    term : int
        which root, from 1 [1], scalar

    Returns
    -------
    float
        the root [1]

    References
    ----------
    1. Carslaw & Jaeger 1959, Conduction of Heat in Solids; tables in Cengel 4-2 and Incropera 5.1.
    """
    low, high = ((term - 1) * pi, (term - 0.5) * pi) if shape == "slab" else ((term - 1) * pi, term * pi)
    for _ in range(100):
        middle = 0.5 * (low + high)
        if _characteristic(shape, middle, biot) * _sign(shape, term) > 0.0:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


def _characteristic(shape: str, root: float, biot: float) -> float:
    if shape == "slab":
        return root * sin(root) - biot * cos(root)
    return sin(root) - root * cos(root) - biot * sin(root)


def _sign(shape: str, term: int) -> float:
    # The left side, multiplied by sin or cos, changes sign from one root to the next.
    return 1.0 if term % 2 == 1 else -1.0


def first_coefficient(*, shape: str, root: float) -> float:
    """The coefficient that belongs to a root, at the centre.

    slab: 4 sin z / (2 z + sin 2z); sphere: 4 (sin z - z cos z) / (2 z - sin 2z)

    Parameters
    ----------
    shape : str
        "slab" or "sphere" [no unit]
    root : float
        a root of the characteristic equation [1], scalar

    Returns
    -------
    float
        the coefficient [1]

    References
    ----------
    1. Carslaw & Jaeger 1959; tables in Cengel 4-2 and Incropera 5.1.
    """
    if shape == "slab":
        return 4.0 * sin(root) / (2.0 * root + sin(2.0 * root))
    return 4.0 * (sin(root) - root * cos(root)) / (2.0 * root - sin(2.0 * root))


def conduction_series(*, shape: str, biot: float, fourier: float, terms: int = _TERMS) -> SeriesAnswer:
    """A slab or a sphere, at one temperature throughout, put into other surroundings.

    theta = sum of C_n f(z_n) exp(-z_n^2 Fo)

    Parameters
    ----------
    shape : str
        "slab" (both faces) or "sphere" [no unit]
    biot : float
        h L / k, L half thickness or radius [1], scalar, above 0
    fourier : float
        alpha t / L^2 [1], scalar, above 0
    terms : int
        terms of the series [1], scalar

    Returns
    -------
    SeriesAnswer
        dimensionless temperatures [1]

    Raises
    ------
    OutOfRangeError
        for a Biot or Fourier number that is not above 0

    References
    ----------
    1. Carslaw & Jaeger 1959, Conduction of Heat in Solids.
    """
    if biot <= 0.0 or fourier <= 0.0:
        raise OutOfRangeError("the series needs a Biot and a Fourier number above 0")
    centre = surface = mean = 0.0
    for term in range(1, terms + 1):
        root = eigenvalue(shape=shape, biot=biot, term=term)
        part = first_coefficient(shape=shape, root=root) * exp(-root * root * fourier)
        edge = cos(root) if shape == "slab" else sin(root) / root
        share = sin(root) / root if shape == "slab" else 3.0 * (sin(root) - root * cos(root)) / root**3
        centre, surface, mean = centre + part, surface + part * edge, mean + part * share
    return SeriesAnswer(centre=centre, surface=surface, mean=mean)


def semi_infinite_fixed(*, depth: float, diffusivity: float, seconds: float) -> float:
    """What is left, at a depth, of the first difference to a surface held at one temperature.

    theta = erf(x / (2 sqrt(alpha t)))

    Parameters
    ----------
    depth : float
        depth below the surface [m], scalar
    diffusivity : float
        thermal diffusivity [m2/s], scalar
    seconds : float
        time [s], scalar, above 0

    Returns
    -------
    float
        share of the difference left [1]

    References
    ----------
    1. Carslaw & Jaeger 1959.
    """
    return erf(depth / (2.0 * sqrt(diffusivity * seconds)))


def semi_infinite_film(
    *, depth: float, diffusivity: float, conductivity: float, film: float, seconds: float
) -> float:
    """What is left, at a depth, of the first difference to air behind a film.

    theta = 1 - [erfc(a) - exp(h x/k + h^2 alpha t/k^2) erfc(a + h sqrt(alpha t)/k)], a = x/(2 sqrt(alpha t))

    Parameters
    ----------
    depth : float
        depth below the surface [m], scalar
    diffusivity : float
        thermal diffusivity [m2/s], scalar
    conductivity : float
        conductivity [W/(m K)], scalar
    film : float
        heat transfer [W/(m2 K)], scalar
    seconds : float
        time [s], scalar, above 0

    Returns
    -------
    float
        share of the difference left [1]

    Raises
    ------
    OutOfRangeError
        where the exponent is past 600 and the form loses its digits; valid below

    References
    ----------
    1. Carslaw & Jaeger 1959.
    """
    spread = sqrt(diffusivity * seconds)
    ratio = film / conductivity
    exponent = ratio * depth + (ratio * spread) ** 2
    if exponent > 600.0:
        raise OutOfRangeError(
            "the film is too strong or the time too long for this form",
        )
    start = depth / (2.0 * spread)
    return 1.0 - (erfc(start) - exp(exponent) * erfc(start + ratio * spread))
