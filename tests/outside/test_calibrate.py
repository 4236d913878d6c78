"""Calibration against another library's sampler on the model itself, and against simulated truth."""

from __future__ import annotations

import numpy as np
import pytest
from emcee import EnsembleSampler
from emcee.moves import DEMove, DESnookerMove

from doughwright.forecast.calibrate._readings import likelihood_of
from doughwright.forecast.calibrate._sample import Sampled, sampled
from doughwright.forecast.calibrate._unknowns import quantities_of
from doughwright.kitchen.model import Kitchen
from doughwright.kitchen.read import read_kitchen
from doughwright.science.inference.tempering import tempered_del_moral_2006
from tests.forecast.calibrate._cooks import COLD, PROBES, RECIPE, ROOM, cook, jar

WALKERS, STEPS, LEFT_OUT = 80, 1000, 250
KNOWN = """\
schema = 1
kitchen = "Known"
[room]
temperature = { value = "21 °C", how = "measured", spread = "0.5 °C" }
[scale]
step = "0.01 g"
"""


def learnt(seed: int, jars, probes=(), kitchen: Kitchen | None = None) -> tuple[Sampled, dict[str, float]]:
    readings, truth = cook(seed, jars, probes, kitchen)
    return sampled(likelihood_of(RECIPE, "dough", kitchen, readings), seed), truth


@pytest.mark.slow
@pytest.mark.outside(source="emcee 3: differential evolution moves on the kernel", how="second library")
def test_a_second_sampler_learns_the_same() -> None:
    """A jar in a known room: yeast and lag within a fifth of a standard deviation, spreads within a fifth."""
    kitchen = read_kitchen(KNOWN).kitchen
    ours, _ = learnt(3, [jar("room", "room", (1, 2, 3, 4))], kitchen=kitchen)
    free = len(ours.likelihood.unknowns.free)

    def log_posterior(rows: np.ndarray) -> np.ndarray:
        return ours.likelihood(rows.T) - 0.5 * np.square(rows).sum(axis=1)

    # It begins from the prior, by its own way: not where ours ended.
    rng = np.random.default_rng(11)
    start = tempered_del_moral_2006(
        log_likelihood=ours.likelihood, points=rng.standard_normal((free, WALKERS)), generator=rng
    )
    moves = [(DEMove(), 0.8), (DESnookerMove(), 0.2)]
    other = EnsembleSampler(WALKERS, free, log_posterior, vectorize=True, moves=moves)
    other.random_state = np.random.RandomState(12).get_state()
    other.run_mcmc(start.T, STEPS)
    points = other.get_chain(discard=LEFT_OUT, flat=True)[::4].T
    theirs = quantities_of(ours.likelihood.unknowns.drawn(ours.likelihood.turned_back(points)))
    for name in ("yeast", "lag", "room"):
        spread = theirs[name].std()
        assert ours.posterior[name].mean() == pytest.approx(theirs[name].mean(), abs=0.2 * spread), name
        assert ours.posterior[name].std() == pytest.approx(spread, rel=0.2), name
    both = [np.corrcoef(one["yeast"], one["lag"])[0, 1] for one in (ours.posterior, theirs)]
    assert both[0] == pytest.approx(both[1], abs=0.15)


@pytest.mark.slow
@pytest.mark.outside(source="simulated cooks of the same prior", how="identity", note="coverage of 90 %")
def test_the_truth_lies_in_the_intervals_as_often_as_it_should() -> None:
    """Six cooks, half of them with a thermometer: of some 45 quantities, 78 % or more are held.

    At 90 % of 45, chance alone moves the share by 4.5 either way; docs/calibrate.md has a larger study.
    """
    held: list[bool] = []
    for seed in range(2000, 2006):
        found, truth = learnt(seed, [ROOM, COLD], PROBES if seed % 2 else ())
        for name, draws in found.posterior.items():
            if draws.std() > 1e-9:
                low, high = np.quantile(draws, (0.05, 0.95))
                held.append(bool(low <= truth[name] <= high))
    assert len(held) > 40
    assert np.mean(held) >= 0.78
