"""How a value is spread: quantiles of the distributions that kitchens and parameters are drawn from."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from doughwright.science.sampling.normal import normal_cdf, normal_quantile
from doughwright.science.yeast import Array

Quantile = Callable[[Array], Array]


def normal(mean: float, sd: float, low: float = -np.inf, high: float = np.inf) -> Quantile:
    """A normal distribution, cut off below ``low`` and above ``high``."""
    if not np.isfinite(low) and not np.isfinite(high):
        return lambda u: mean + sd * normal_quantile(probability=u)
    bottom = float(normal_cdf(value=(low - mean) / sd)) if np.isfinite(low) else 0.0
    top = float(normal_cdf(value=(high - mean) / sd)) if np.isfinite(high) else 1.0

    def quantile(u: Array) -> Array:
        inside = np.clip(bottom + u * (top - bottom), 1e-300, 1.0 - 1e-16)
        return np.clip(mean + sd * normal_quantile(probability=inside), low, high)

    return quantile


def factor(sd: float, median: float = 1.0) -> Quantile:
    """A lognormal distribution; ``sd`` is that of the logarithm."""
    return lambda u: median * np.exp(sd * normal_quantile(probability=u))


def uniform(low: float, high: float) -> Quantile:
    """Every value between two is as likely."""
    return lambda u: low + (high - low) * u


def half_normal(sd: float) -> Quantile:
    """Only the upper half of a normal distribution about 0."""
    return lambda u: sd * normal_quantile(probability=0.5 + 0.5 * u)


def shared(parts: tuple[tuple[float, Quantile], ...]) -> Quantile:
    """Several kinds, each with its share of all; the first lies at the lowest probabilities."""

    def quantile(u: Array) -> Array:
        out, begun = np.empty_like(u), 0.0
        for share, part in parts:
            mine = (u >= begun) & (u < begun + share)
            within = np.clip((u[mine] - begun) / share, 1e-15, 1.0 - 1e-15)
            out[mine] = part(within)
            begun += share
        return out

    return quantile


def same(value: float) -> Quantile:
    """One value for all."""
    return lambda u: np.full_like(u, value)
