"""From the prior to the posterior by degrees: where chains can begin."""

from __future__ import annotations

import numpy as np

from doughwright.errors import Fault, NoAnswerError
from doughwright.science.inference.metropolis import BACK, LogDensity
from doughwright.science.yeast import Array

MOST_STAGES = 40
MOVES = 2


def tempered_del_moral_2006(
    *,
    log_likelihood: LogDensity,
    points: Array,
    generator: np.random.Generator,
    share: float = 0.5,
    informed: int | None = None,
) -> Array:
    """Points of a standard normal prior brought to the posterior by letting the readings count by degrees.

    w = L^(b' - b), with b' so that (sum w)^2 / sum w^2 = share x points; drawn again by w, then moved

    Parameters
    ----------
    log_likelihood : callable
        log likelihood of points (parameters, points) [-], need not be normalised
    points : array
        draws of the prior, each parameter standard normal [1], shape (parameters, points)
    generator : Generator
        where chance comes from [-]
    share : float
        effective points a stage leaves [-], scalar
    informed : int or None
        how many coordinates, the first, the readings say something of [-]; None: all of them

    Returns
    -------
    array
        points spread about as the posterior is, shape of points

    Raises
    ------
    NoAnswerError
        no point at which the readings are possible

    Notes
    -----
    Two steps of a random walk after each stage: enough for a start, not for an answer.

    References
    ----------
    1. Del Moral, Doucet & Jasra 2006, J. R. Statist. Soc. B 68:411.
    """
    likelihood = _value(log_likelihood, points)
    if not np.any(np.isfinite(likelihood)):
        raise NoAnswerError(Fault("the readings fit no kitchen and no yeast that are known"))
    reached = 0.0
    for _ in range(MOST_STAGES):
        step = _step(likelihood, 1.0 - reached, share)
        reached += step
        weights = _weights(likelihood, step)
        chosen = _systematic(weights, generator)
        points, likelihood = points[:, chosen], likelihood[chosen]
        for _ in range(MOVES):
            points, likelihood = _moved(log_likelihood, points, likelihood, reached, generator, informed)
        if reached >= 1.0 - 1e-12:
            break
    return points[:, generator.permutation(points.shape[1])]


def _value(log_likelihood: LogDensity, points: Array) -> Array:
    value = np.asarray(log_likelihood(points), dtype=np.float64)
    return np.where(np.isnan(value), -np.inf, value)


def _weights(likelihood: Array, step: float) -> Array:
    weights = np.exp(step * (likelihood - likelihood.max()))
    return np.asarray(weights / weights.sum())


def _step(likelihood: Array, most: float, share: float) -> float:
    """The longest step that leaves this share of the points effective."""
    wanted = share * len(likelihood)
    if _effective(_weights(likelihood, most)) >= wanted:
        return most
    low, high = 0.0, most
    for _ in range(50):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _effective(_weights(likelihood, middle)) >= wanted else (low, middle)
    return max(low, 1e-6 * most)


def _effective(weights: Array) -> float:
    return float(1.0 / (weights * weights).sum())


def _systematic(weights: Array, generator: np.random.Generator) -> Array:
    count = len(weights)
    places = (np.arange(count) + generator.random()) / count
    return np.asarray(np.minimum(np.searchsorted(np.cumsum(weights), places), count - 1))


def _moved(
    log_likelihood: LogDensity,
    points: Array,
    likelihood: Array,
    reached: float,
    generator: np.random.Generator,
    informed: int | None,
) -> tuple[Array, Array]:
    count, first = points.shape[1], len(points) if informed is None else max(1, min(informed, len(points)))
    spread = np.atleast_2d(np.cov(points[:first])) + 1e-9 * np.eye(first)
    noise = generator.standard_normal(points.shape)
    own = points[:first] + 1.8 / np.sqrt(first) * (np.linalg.cholesky(spread) @ noise[:first])
    new = np.concatenate([own, np.sqrt(1.0 - BACK * BACK) * points[first:] + BACK * noise[first:]])
    value = _value(log_likelihood, new)
    prior = 0.5 * (np.square(points[:first]) - np.square(new[:first])).sum(axis=0)
    yes = np.log(generator.random(count)) < reached * (value - likelihood) + prior
    return np.where(yes, new, points), np.where(yes, value, likelihood)
