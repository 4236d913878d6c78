"""A quick stand-in that proposes, and the slow model that decides."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.inference.diagnostics import effective_size_vehtari_2021, rhat_vehtari_2021
from doughwright.science.inference.surrogate import quadratic_box_1951
from doughwright.science.inference.surrogate_chains import surrogate_metropolis_liu_2001
from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.sampling.sobol import sobol

POINTS = normal_quantile(probability=sobol(count=512, dimensions=3, seed=1)).T


def slow(z: np.ndarray) -> np.ndarray:
    """A density that no quadratic is: bent, and zero beyond an edge."""
    bent = -0.5 * np.square((z[1] - 0.3 * z[0] ** 2) / 0.5) - 0.5 * (z * z).sum(axis=0)
    return np.where(z[2] < 1.5, bent, -np.inf)


def quick(z: np.ndarray) -> np.ndarray:
    """A rough stand-in: straight, wider, and without the edge."""
    return -0.5 * np.square((z[1] - 0.3) / 1.5) - 0.5 * (z[0] ** 2 + z[2] ** 2)


def test_the_draws_are_the_slow_model_s_however_rough_the_stand_in():
    """Moments by a grid; nothing is drawn beyond the edge."""
    axis = np.linspace(-5, 5, 401)
    x, y = np.meshgrid(axis, axis)
    density = np.exp(slow(np.stack([x, y, np.zeros_like(x)])))
    density /= density.sum()
    chains = surrogate_metropolis_liu_2001(
        log_posterior=slow, log_surrogate=quick, start=POINTS, chains=4, draws=4000, inner=30,
        generator=np.random.default_rng(1),
    )  # fmt: skip
    assert chains.points[1].mean() == pytest.approx((density * y).sum(), abs=0.03)
    assert chains.points[0].std() == pytest.approx(np.sqrt((density * x * x).sum()), abs=0.03)
    assert chains.points[2].max() < 1.5
    assert max(rhat_vehtari_2021(draws=one) for one in chains.draws) < 1.01
    assert min(effective_size_vehtari_2021(draws=one) for one in chains.draws) > 2000
    assert chains.evaluations == 4 * 4001


def test_a_quadratic_is_fitted_to_the_last_digit():
    """What is a quadratic comes back as it was, products and squares; nothing weighs nothing."""
    outputs = np.stack([1.0 + POINTS[0] - 2.0 * POINTS[0] * POINTS[1] + POINTS[2] ** 2, POINTS[1] ** 2])
    outputs[:, 0] = 1e3
    weights = np.ones(512)
    weights[0] = 0.0
    surface = quadratic_box_1951(points=POINTS, outputs=outputs, weights=weights, informed=2)
    assert surface(POINTS[:, 1:]) == pytest.approx(outputs[:, 1:], abs=1e-3)
    with pytest.raises(OutOfRangeError, match="at least 8 points"):
        quadratic_box_1951(points=POINTS[:, :5], outputs=outputs[:, :5], weights=weights[:5], informed=2)


def test_too_few_starts_are_refused():
    """The stand-in's steps take their shape from them."""
    with pytest.raises(OutOfRangeError, match="256 starts"):
        surrogate_metropolis_liu_2001(
            log_posterior=slow, log_surrogate=quick, start=POINTS[:, :8], chains=4, draws=10, inner=3,
            generator=np.random.default_rng(1),
        )  # fmt: skip
