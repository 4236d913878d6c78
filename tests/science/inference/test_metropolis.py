"""The sampler finds posteriors that are known, and says when it has not settled."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import NoAnswerError, OutOfRangeError
from doughwright.science.inference.diagnostics import effective_size_vehtari_2021, rhat_vehtari_2021
from doughwright.science.inference.likelihood import reading_weight_lange_1989, student_t_log_lange_1989
from doughwright.science.inference.metropolis import Chains, adaptive_metropolis
from doughwright.science.inference.tempering import tempered_del_moral_2006
from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.sampling.sobol import sobol

DIMENSIONS = 8
DESIGN = np.array([[1.0, 2.0, 0.0, 0.0, 0.0, 0.5, 0.0, 0.0], [0.0, 1.0, -1.0, 0.0, 0.0, 0.0, 1.0, 0.0],
                   [0.0, 0.0, 0.0, 3.0, 1.0, 0.0, 0.0, 0.0]])  # fmt: skip
SEEN = np.array([1.0, -2.0, 2.5])
SPREAD = 0.2


def likelihood(z: np.ndarray) -> np.ndarray:
    return -0.5 * np.square((DESIGN @ z - SEEN[:, np.newaxis]) / SPREAD).sum(axis=0)


def prior(count: int, dimensions: int = DIMENSIONS) -> np.ndarray:
    return normal_quantile(probability=sobol(count=count, dimensions=dimensions, seed=1)).T


def drawn(log_likelihood=likelihood, dimensions: int = DIMENSIONS, seed: int = 1) -> Chains:
    generator = np.random.default_rng(seed)
    start = tempered_del_moral_2006(
        log_likelihood=log_likelihood, points=prior(512, dimensions), generator=generator
    )
    return adaptive_metropolis(
        log_posterior=lambda z: log_likelihood(z) - 0.5 * (z * z).sum(axis=0),
        start=start, chains=12, warmup=200, draws=1500, generator=generator,
    )  # fmt: skip


def test_a_linear_gaussian_posterior_is_found():
    """Mean and covariance known in closed form; parameters nearly tied to one another."""
    covariance = np.linalg.inv(np.eye(DIMENSIONS) + DESIGN.T @ DESIGN / SPREAD**2)
    mean = covariance @ DESIGN.T @ SEEN / SPREAD**2
    spread = np.sqrt(np.diag(covariance))
    chains = drawn()
    assert np.abs(chains.points.mean(axis=1) - mean).max() < 0.08 * spread.max()
    assert chains.points.std(axis=1) == pytest.approx(spread, rel=0.06)
    assert np.corrcoef(chains.points)[0, 1] == pytest.approx(
        covariance[0, 1] / (spread[0] * spread[1]), abs=0.03
    )
    assert max(rhat_vehtari_2021(draws=one) for one in chains.draws) < 1.01
    assert min(effective_size_vehtari_2021(draws=one) for one in chains.draws) > 400


def test_the_same_seed_gives_the_same_draws():
    """To the last digit; another seed gives others."""
    first, second, other = drawn(seed=3), drawn(seed=3), drawn(seed=4)
    assert np.array_equal(first.draws, second.draws)
    assert not np.array_equal(first.draws, other.draws)


def test_a_bent_posterior_is_found():
    """A banana: the second parameter follows the square of the first; moments by quadrature on a grid."""

    def bent(z: np.ndarray) -> np.ndarray:
        return -0.5 * np.square((z[1] - z[0] ** 2 + 1.0) / 0.3)

    x, y = np.meshgrid(np.linspace(-5, 5, 801), np.linspace(-5, 5, 801))
    density = np.exp(bent(np.array([x, y])) - 0.5 * (x * x + y * y))
    density /= density.sum()
    chains = drawn(bent, 2)
    assert chains.points[1].mean() == pytest.approx((density * y).sum(), abs=0.05)
    assert chains.points[0].std() == pytest.approx(np.sqrt((density * x * x).sum()), abs=0.05)


def test_an_impossible_region_is_never_drawn():
    """A density of zero, or NaN, is refused as a proposal."""

    def half(z: np.ndarray) -> np.ndarray:
        return np.where(z[0] > 0.0, -z[0], np.where(z[0] > -1.0, -np.inf, np.nan))

    assert drawn(half, 2).points[0].min() > 0.0


def test_readings_that_nothing_fits_are_refused():
    """No start without a density."""
    generator = np.random.default_rng(1)
    nowhere = lambda z: np.full(z.shape[1], -np.inf)  # noqa: E731
    with pytest.raises(NoAnswerError, match="fit no kitchen"):
        tempered_del_moral_2006(log_likelihood=nowhere, points=prior(64), generator=generator)
    with pytest.raises(OutOfRangeError, match="a density above zero"):
        adaptive_metropolis(
            log_posterior=nowhere, start=prior(64), chains=4, warmup=1, draws=1, generator=generator
        )
    with pytest.raises(OutOfRangeError, match="a start for each"):
        adaptive_metropolis(
            log_posterior=likelihood, start=prior(4), chains=8, warmup=1, draws=1, generator=generator
        )


def test_chains_that_disagree_are_told():
    """One chain elsewhere, or a slow drift, moves R-hat above 1.01; independent draws do not."""
    rng = np.random.default_rng(5)
    good = rng.standard_normal((1000, 8))
    assert rhat_vehtari_2021(draws=good) < 1.005
    apart = good.copy()
    apart[:, 0] += 2.0
    assert rhat_vehtari_2021(draws=apart) > 1.1
    wide = good.copy()
    wide[:, 0] *= 4.0
    assert rhat_vehtari_2021(draws=wide) > 1.1
    assert rhat_vehtari_2021(draws=good + np.linspace(0, 2, 1000)[:, np.newaxis]) > 1.1
    assert np.isnan(rhat_vehtari_2021(draws=np.ones((100, 4))))


def test_correlated_draws_are_worth_fewer():
    """An autoregression of 0.8 has an autocorrelation time of 9; independent draws are worth themselves."""
    rng = np.random.default_rng(6)
    noise = rng.standard_normal((4000, 8))
    draws = noise.copy()
    for index in range(1, len(draws)):
        draws[index] = 0.8 * draws[index - 1] + 0.6 * noise[index]
    assert effective_size_vehtari_2021(draws=draws) == pytest.approx(32_000 / 9.0, rel=0.1)
    assert effective_size_vehtari_2021(draws=noise) == pytest.approx(32_000, rel=0.05)


def test_a_wild_reading_counts_little():
    """Student's t with 4 degrees: against SciPy's density, and a reading ten deviations off."""
    residual = np.array([0.0, 1.0, -10.0])
    expected = [-0.98082925, -1.53868813, -9.1260706]
    assert student_t_log_lange_1989(residual=residual, spread=np.ones(3)) == pytest.approx(expected)
    weight = reading_weight_lange_1989(residual=residual, spread=np.ones(3))
    assert weight == pytest.approx([1.25, 1.0, 5.0 / 104.0])
