"""Colour: between sRGB, CIE XYZ and CIE L*a*b*, and how far two colours stand apart."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import sqrt

Triple = tuple[float, float, float]

# IEC 61966-2-1, linear sRGB to XYZ of the D65 white.
RGB_TO_XYZ: tuple[Triple, Triple, Triple] = (
    (0.4124, 0.3576, 0.1805),
    (0.2126, 0.7152, 0.0722),
    (0.0193, 0.1192, 0.9505),
)
# Its white, the sum of each row.
WHITE: Triple = (0.9505, 1.0, 1.0890)
# CIE 15:2004: where the cube root gives way to a straight line, and that line's slope times 116.
EPSILON = (6.0 / 29.0) ** 3
KAPPA = (29.0 / 3.0) ** 3


def linear_iec_61966(*, srgb: Triple) -> Triple:
    """Take the gamma off an sRGB colour.

    c / 12.92 up to 0.04045, else ((c + 0.055) / 1.055)^2.4

    Parameters
    ----------
    srgb : triple
        red, green, blue as they are coded, 0 to 1 [-]

    Returns
    -------
    triple
        linear red, green, blue [-]

    References
    ----------
    1. IEC 61966-2-1:1999, sRGB.
    """
    return _each(srgb, lambda c: c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4)


def coded_iec_61966(*, linear: Triple) -> Triple:
    """Put the gamma on a linear colour, and hold it within what a screen can show.

    12.92 c up to 0.0031308, else 1.055 c^(1/2.4) - 0.055

    Parameters
    ----------
    linear : triple
        linear red, green, blue [-]

    Returns
    -------
    triple
        red, green, blue as they are coded, 0 to 1 [-]

    References
    ----------
    1. IEC 61966-2-1:1999, sRGB.
    """
    held = _each(linear, lambda c: min(max(c, 0.0), 1.0))
    return _each(held, lambda c: 12.92 * c if c <= 0.0031308 else 1.055 * c ** (1.0 / 2.4) - 0.055)


def lab_cie_1976(*, srgb: Triple) -> Triple:
    """L*a*b* of an sRGB colour under D65.

    L* = 116 f(Y/Yn) - 16, a* = 500 (f(X/Xn) - f(Y/Yn)), b* = 200 (f(Y/Yn) - f(Z/Zn)); f is the cube root,
    or (kappa t + 16) / 116 where t is at most (6/29)^3

    Parameters
    ----------
    srgb : triple
        red, green, blue as they are coded, 0 to 1 [-]

    Returns
    -------
    triple
        L* (0 to 100), a*, b* [-]

    References
    ----------
    1. CIE 15:2004, Colorimetry, section 8.2.1.
    2. IEC 61966-2-1:1999, sRGB.
    """
    xyz = _times(RGB_TO_XYZ, linear_iec_61966(srgb=srgb))
    x, y, z = (_root(value / white) for value, white in zip(xyz, WHITE, strict=True))
    return 116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)


def srgb_of_lab(*, lab: Triple) -> Triple:
    """The sRGB colour of an L*a*b*, held within what a screen can show.

    The inverse of ``lab_cie_1976``.

    Parameters
    ----------
    lab : triple
        L* (0 to 100), a*, b* [-]

    Returns
    -------
    triple
        red, green, blue as they are coded, 0 to 1 [-]

    References
    ----------
    1. CIE 15:2004, Colorimetry, annex D.
    2. IEC 61966-2-1:1999, sRGB.
    """
    y = (lab[0] + 16.0) / 116.0
    f = (y + lab[1] / 500.0, y, y - lab[2] / 200.0)
    xyz = [
        white * (t**3 if t**3 > EPSILON else (116.0 * t - 16.0) / KAPPA)
        for t, white in zip(f, WHITE, strict=True)
    ]
    return coded_iec_61966(linear=_solve(RGB_TO_XYZ, (xyz[0], xyz[1], xyz[2])))


def difference_cie_1976(*, one: Triple, other: Triple) -> float:
    """How far two colours stand apart: the distance in L*a*b*.

    sqrt(dL*^2 + da*^2 + db*^2)

    Parameters
    ----------
    one : triple
        L*, a*, b* of a colour [-]
    other : triple
        L*, a*, b* of the other [-]

    Returns
    -------
    float
        the difference [-]

    References
    ----------
    1. CIE 15:2004, Colorimetry, section 8.2.1.
    """
    return sqrt(sum((a - b) ** 2 for a, b in zip(one, other, strict=True)))


def contrast_wcag(*, one: Triple, other: Triple) -> float:
    """Contrast of two sRGB colours, 1 to 21.

    (Y1 + 0.05) / (Y2 + 0.05), the lighter first

    Parameters
    ----------
    one : triple
        red, green, blue as they are coded, 0 to 1 [-]
    other : triple
        the other colour, likewise [-]

    Returns
    -------
    float
        the contrast [-]

    References
    ----------
    1. W3C, Web Content Accessibility Guidelines 2.2, "contrast ratio" and "relative luminance".
    """
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(srgb: Triple) -> float:
    return sum(weight * c for weight, c in zip(RGB_TO_XYZ[1], linear_iec_61966(srgb=srgb), strict=True))


def _root(t: float) -> float:
    return t ** (1.0 / 3.0) if t > EPSILON else (KAPPA * t + 16.0) / 116.0


def _each(triple: Triple, change: Callable[[float], float]) -> Triple:
    return change(triple[0]), change(triple[1]), change(triple[2])


def _times(matrix: tuple[Triple, Triple, Triple], triple: Triple) -> Triple:
    rows = [sum(a * b for a, b in zip(row, triple, strict=True)) for row in matrix]
    return rows[0], rows[1], rows[2]


def _solve(matrix: tuple[Triple, Triple, Triple], right: Triple) -> Triple:
    """What the matrix makes ``right`` of, by Cramer's rule."""
    whole = _determinant(matrix)
    found = []
    for column in range(3):
        rows = [list(row) for row in matrix]
        for row, value in zip(rows, right, strict=True):
            row[column] = value
        found.append(_determinant(rows) / whole)
    return found[0], found[1], found[2]


def _determinant(m: Sequence[Sequence[float]]) -> float:
    return (
        m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
    )
