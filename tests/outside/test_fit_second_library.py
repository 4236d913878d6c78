"""The search of fit beside SciPy's: on the same objective a second library finds nothing better."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import least_squares

from doughwright.forecast.fit._bench import Bench
from doughwright.forecast.fit._case import case_of
from doughwright.forecast.fit._solve import STAY, WEIGHT, Choice, choices, solve
from doughwright.forecast.fit.results import Limits
from tests.forecast._fits import document, kitchen


def least(bench: Bench, choice: Choice, start: np.ndarray) -> float:
    """The least cost that SciPy's trust region finds from a start, within the same bounds."""
    free = list(choice.free)

    def off(values: np.ndarray) -> np.ndarray:
        point = np.zeros((1, len(bench.levers.every)))
        point[0, free] = values
        return np.concatenate([WEIGHT * bench.run(bench.levers.designs(point)).off[0], STAY * values])

    bounds = choice.low[free], choice.high[free]
    return 2.0 * least_squares(off, start, bounds=bounds, diff_step=0.02, xtol=1e-6).cost


@pytest.mark.outside(source="SciPy, optimize.least_squares (trust region, bounds)", how="identity")
@pytest.mark.parametrize("size", [1, 2, 3])
def test_a_second_library_finds_no_better_recipe(size: int) -> None:
    """For each number of levers the best choice is as good as SciPy's own, from the start and from ours."""
    here = kitchen("warm", fridge=7, room=23)
    search = case_of(document("round"), kitchen("own"), here, limits=Limits(), dough=None, name=None).search()
    bench = search.bench
    best = min(solve(bench, choices(bench, [size])), key=lambda one: one.cost)
    free = list(best.choice.free)
    ours = best.cost + STAY**2 * float(np.sum(best.point**2))
    theirs = min(least(bench, best.choice, start) for start in (np.zeros(size), best.point[free]))
    assert ours <= theirs + max(0.05 * theirs, 0.05)
