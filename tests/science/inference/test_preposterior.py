"""What a measurement would buy: the linear Gaussian case has a known answer."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.inference.preposterior import expected_narrowing_raiffa_1961
from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.sampling.sobol import sobol

DRAWS = normal_quantile(probability=sobol(count=4096, dimensions=3, seed=2)).T


@pytest.mark.parametrize(
    ("noise", "expected"),
    [(0.5, 1.0 - np.sqrt(1.0 - 0.64 / 1.25)), (0.2, 1.0 - np.sqrt(1.0 - 0.64 / 1.04)),
     (10.0, 1.0 - np.sqrt(1.0 - 0.64 / 101.0))],
)  # fmt: skip
def test_a_linear_gaussian_measurement_narrows_as_known(noise, expected):
    """q = 0.8 m + 0.6 e: the width falls by 1 - sqrt(1 - r^2), r^2 = 0.64 / (1 + noise^2)."""
    quantity = 0.8 * DRAWS[0] + 0.6 * DRAWS[1]
    found = expected_narrowing_raiffa_1961(
        quantity=quantity, measured=DRAWS[0], noise=np.array(noise), generator=np.random.default_rng(1)
    )
    assert found.before == pytest.approx(2 * 1.6448536, rel=0.02)
    assert found.reduction == pytest.approx(expected, abs=max(0.015, 3.0 * found.error))


def test_two_values_at_once_tell_more_than_one():
    """Both parts measured within 0.3: r^2 = (0.64 + 0.36) / 1.09."""
    quantity = 0.8 * DRAWS[0] + 0.6 * DRAWS[1]
    found = expected_narrowing_raiffa_1961(
        quantity=quantity, measured=DRAWS[:2], noise=np.array([0.3, 0.3]), generator=np.random.default_rng(1)
    )
    assert found.reduction == pytest.approx(1.0 - np.sqrt(1.0 - 1.0 / 1.09), abs=0.03)


def test_what_has_nothing_to_do_with_it_narrows_nothing():
    """An independent parameter measured well."""
    found = expected_narrowing_raiffa_1961(
        quantity=DRAWS[0], measured=DRAWS[2], noise=np.array(0.3), generator=np.random.default_rng(1)
    )
    assert found.reduction == pytest.approx(0.0, abs=0.02)


def test_an_error_too_small_for_the_draws_is_refused():
    """A handful of draws near a reading are no interval."""
    with pytest.raises(OutOfRangeError, match="more draws"):
        expected_narrowing_raiffa_1961(
            quantity=DRAWS[0], measured=DRAWS[1], noise=np.array(1e-4), generator=np.random.default_rng(1)
        )
    with pytest.raises(OutOfRangeError, match="an error above 0"):
        expected_narrowing_raiffa_1961(
            quantity=DRAWS[0], measured=DRAWS[1], noise=np.array(0.0), generator=np.random.default_rng(1)
        )
