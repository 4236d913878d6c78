"""Whether chains have settled: do they agree, and how many independent draws are they worth."""

from __future__ import annotations

import numpy as np

from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.yeast import Array


def rhat_vehtari_2021(*, draws: Array) -> float:
    """How far chains are from agreeing: 1 where they cannot be told from one another.

    sqrt(((n - 1)/n W + B/n) / W) of rank-normalised half-chains; the greater of bulk and tails

    Parameters
    ----------
    draws : array
        draws of one quantity [any], shape (draws, chains)

    Returns
    -------
    float
        the potential scale reduction [1]; NaN where nothing moved

    Notes
    -----
    The tails' own is that of the draws' distance from their median.

    References
    ----------
    1. Vehtari, Gelman, Simpson, Carpenter & Buerkner 2021, Bayesian Analysis 16:667.
    """
    halves = _halves(draws)
    folded = np.abs(halves - np.median(halves))
    return max(_rhat(_ranked(halves)), _rhat(_ranked(folded)))


def effective_size_vehtari_2021(*, draws: Array) -> float:
    """How many independent draws a quantity's draws are worth.

    N / (-1 + 2 sum of the positive, falling pairs of autocorrelations), of rank-normalised half-chains

    Parameters
    ----------
    draws : array
        draws of one quantity [any], shape (draws, chains)

    Returns
    -------
    float
        the effective sample size [1]; NaN where nothing moved

    References
    ----------
    1. Vehtari, Gelman, Simpson, Carpenter & Buerkner 2021, Bayesian Analysis 16:667.
    2. Geyer 1992, Statist. Sci. 7:473 (initial monotone sequence).
    """
    return _effective(_ranked(_halves(draws)))


def _halves(draws: Array) -> Array:
    half = len(draws) // 2
    return np.concatenate([draws[:half], draws[len(draws) - half :]], axis=1)


def _ranked(draws: Array) -> Array:
    """Normal scores of the ranks of all draws together; ties share their mean rank."""
    _, place, counts = np.unique(draws.ravel(), return_inverse=True, return_counts=True)
    ends = np.cumsum(counts)
    ranks = ends - 0.5 * (counts - 1.0)
    scores = normal_quantile(probability=(ranks - 0.375) / (draws.size + 0.25))
    return np.asarray(scores[place].reshape(draws.shape))


def _within_between(draws: Array) -> tuple[float, float]:
    """The mean variance within chains, and n times the variance of their means."""
    n = len(draws)
    return float(draws.var(axis=0, ddof=1).mean()), float(n * draws.mean(axis=0).var(ddof=1))


def _rhat(draws: Array) -> float:
    n = len(draws)
    within, between = _within_between(draws)
    if within <= 0.0:
        return float("nan")
    return float(np.sqrt((n - 1.0) / n + between / (n * within)))


def _effective(draws: Array) -> float:
    n, chains = draws.shape
    within, between = _within_between(draws)
    if within <= 0.0:
        return float("nan")
    over = (n - 1.0) / n * within + between / n
    covariance = _autocovariance(draws).mean(axis=1)
    correlation = 1.0 - (within - covariance * n / (n - 1.0)) / over
    correlation[0] = 1.0
    pairs = correlation[: n - n % 2].reshape(-1, 2).sum(axis=1)
    positive = len(pairs) if np.all(pairs > 0.0) else int(np.argmax(pairs <= 0.0))
    falling = np.minimum.accumulate(pairs[: max(positive, 1)])
    time = max(-1.0 + 2.0 * float(falling.sum()), 1.0 / np.log10(n * chains))
    return float(n * chains / time)


def _autocovariance(draws: Array) -> Array:
    """Autocovariance of each chain at every lag, shape (draws, chains), by its spectrum."""
    n = len(draws)
    centred = draws - draws.mean(axis=0)
    spectrum = np.fft.rfft(centred, 2 * n, axis=0)
    return np.asarray(np.fft.irfft(np.abs(spectrum) ** 2, axis=0)[:n] / n)
