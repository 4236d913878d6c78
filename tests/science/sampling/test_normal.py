"""The normal distribution and its inverse against a second library."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import ndtr, ndtri

from doughwright.errors import OutOfRangeError
from doughwright.science.sampling.normal import normal_cdf, normal_quantile

TAILS = 10.0 ** -np.arange(1.0, 300.0, 0.5)
MIDDLE = np.linspace(1e-6, 1.0 - 1e-6, 20_001)


@pytest.mark.outside(source="SciPy 1.17, scipy.special.ndtri", how="identity")
def test_the_quantile_is_that_of_a_second_library() -> None:
    """To 1e-9 and better, from the middle down to a probability of 1e-300."""
    probability = np.concatenate([MIDDLE, TAILS])
    expected = ndtri(probability)
    assert np.abs(normal_quantile(probability=probability) - expected).max() < 1e-12


@pytest.mark.outside(source="SciPy 1.17, scipy.special.ndtr", how="identity")
def test_the_probability_is_that_of_a_second_library() -> None:
    """To a part in 10^12, in the lower tail too."""
    value = np.linspace(-37.0, 10.0, 20_001)
    assert np.abs(normal_cdf(value=value) / ndtr(value) - 1.0).max() < 1e-12


@pytest.mark.property
def test_there_and_back() -> None:
    """The probability of a quantile is the probability."""
    assert np.abs(normal_cdf(value=normal_quantile(probability=MIDDLE)) / MIDDLE - 1.0).max() < 1e-12


@pytest.mark.parametrize("probability", [0.0, 1.0, -0.1, float("nan")])
def test_a_probability_at_the_ends_is_refused(probability: float) -> None:
    """The quantile there is infinite."""
    with pytest.raises(OutOfRangeError, match="between 0 and 1"):
        normal_quantile(probability=np.array([0.5, probability]))
