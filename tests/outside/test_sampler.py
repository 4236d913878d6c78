"""The sampler against another library's, on posteriors with curvature, ties and heavy tails."""

from __future__ import annotations

import numpy as np
import pytest
from emcee import EnsembleSampler

from doughwright.science.inference.likelihood import student_t_log_lange_1989
from doughwright.science.inference.metropolis import adaptive_metropolis
from doughwright.science.inference.tempering import tempered_del_moral_2006
from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.sampling.sobol import sobol

TIMES = np.array([0.5, 1.0, 1.5, 2.0, 3.0, 4.0])
SEEN = np.array([1.1, 1.32, 1.9, 2.1, 3.9, 5.6])


def rising(z: np.ndarray) -> np.ndarray:
    """A rise that grows at a rate after a lag, both uncertain, read with errors that have heavy tails."""
    rate, lag = 0.4 * np.exp(0.3 * z[0]), 0.2 * np.exp(0.5 * z[1])
    model = np.exp(rate * np.maximum(TIMES[:, np.newaxis] - lag, 0.0)) + 0.3 * z[2]
    return student_t_log_lange_1989(residual=SEEN[:, np.newaxis] - model, spread=np.array(0.1)).sum(axis=0)


def posterior(z: np.ndarray) -> np.ndarray:
    return rising(z) - 0.5 * (z * z).sum(axis=0)


@pytest.mark.outside(source="emcee 3: affine-invariant ensemble sampler", how="second library")
def test_a_second_sampler_finds_the_same_posterior() -> None:
    """Means within a tenth of a standard deviation, spreads and correlations within a tenth."""
    generator = np.random.default_rng(1)
    points = normal_quantile(probability=sobol(count=512, dimensions=3, seed=1)).T
    start = tempered_del_moral_2006(log_likelihood=rising, points=points, generator=generator)
    ours = adaptive_metropolis(
        log_posterior=posterior, start=start, chains=12, warmup=200, draws=1500, generator=generator
    ).points
    other = EnsembleSampler(64, 3, lambda rows: posterior(rows.T), vectorize=True)
    other.random_state = np.random.RandomState(2).get_state()
    other.run_mcmc(start[:, :64].T, 1500)
    theirs = other.get_chain(discard=300, flat=True).T
    spread = theirs.std(axis=1)
    assert np.abs(ours.mean(axis=1) - theirs.mean(axis=1)).max() < 0.1 * spread.max()
    assert ours.std(axis=1) == pytest.approx(spread, rel=0.1)
    assert np.corrcoef(ours) == pytest.approx(np.corrcoef(theirs), abs=0.1)
