"""Sampling what the readings leave open: which unknowns matter, where to begin, and until it has settled."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast.calibrate._likelihood import Likelihood
from doughwright.forecast.calibrate._unknowns import held, quantities_of
from doughwright.kitchen.population import Input
from doughwright.science.inference.diagnostics import effective_size_vehtari_2021, rhat_vehtari_2021
from doughwright.science.inference.metropolis import Chains, LogDensity
from doughwright.science.inference.surrogate import Quadratic, quadratic_box_1951
from doughwright.science.inference.surrogate_chains import surrogate_metropolis_liu_2001
from doughwright.science.inference.tempering import tempered_del_moral_2006
from doughwright.science.sampling.normal import normal_cdf, normal_quantile
from doughwright.science.sampling.sobol import sobol
from doughwright.science.yeast import Array

DESIGN = 768
"""Kitchens of the prior that the first stand-in is fitted to."""

REFITS, FADES, CROSSED = (384, 384, 512, 512), 0.15, 14
"""Kitchens more that it is fitted to where it leads, the older counting this much; products of so many."""

PARTICLES = 1536
CHAINS, INNER = 4, 60
ROUNDS = (1400, 2000, 4000)
"""Draws of each chain; where one has not settled, again with a stand-in fitted to all that it tried."""

ALL = 16
GRID = np.linspace(-5.0, 5.0, 401)
"""Standard normals at which an error's value is worked out once."""

MOST_RHAT, LEAST_EFFECTIVE = 1.01, 400.0
LOOKED_AT = 12
LEAST_TOLD = 0.1
"""A direction of which the readings say less than this, where the prior says 1, is left to the prior."""

LEAST_MOVED = 0.05
"""An unknown that moves no reading by this share of its error, from -2 to 2, is held in its middle."""


@dataclass(frozen=True)
class Sampled:
    """The posterior: ``likelihood`` with only what matters free, its ``chains``, and how well they settled.

    ``prior`` and ``posterior`` are the quantities on their scales, each an array of draws.
    """

    likelihood: Likelihood
    chains: Chains
    prior: Mapping[str, Array]
    posterior: Mapping[str, Array]
    rhat: float
    effective: float


def sampled(likelihood: Likelihood, seed: int) -> Sampled:
    """The posterior of the readings.

    Raises ``NoAnswerError`` where the chains do not settle, or no kitchen makes such readings.
    """
    moved = _moved(likelihood)
    screened = replace(likelihood, unknowns=held(likelihood.unknowns, moved, LEAST_MOVED))
    generator = np.random.default_rng(seed)
    free = len(screened.unknowns.free)
    prior = normal_quantile(probability=sobol(count=DESIGN, dimensions=free, seed=seed)).T
    turned, informed = _informed(screened, prior[:, :LOOKED_AT])
    screened = replace(screened, turned=turned)
    fitted = _Fitted(screened, moved, prior, informed, generator)
    rhat = effective = float("nan")
    for draws in ROUNDS:
        chains = surrogate_metropolis_liu_2001(
            log_posterior=partial(_posterior, fitted.exact),
            log_surrogate=partial(_posterior, fitted.stand_in),
            start=fitted.spread, chains=CHAINS, draws=draws, inner=INNER, generator=generator,
            informed=informed,
        )  # fmt: skip
        after = quantities_of(screened.unknowns.drawn(screened.turned_back(chains.points)))
        rhat, effective = _settled(chains, after)
        if rhat < MOST_RHAT and effective >= LEAST_EFFECTIVE:
            return Sampled(screened, chains, _prior(likelihood, seed), after, rhat, effective)
        fitted.refit(ALL)
    raise NoAnswerError(_unsettled(rhat, effective))


@dataclass(frozen=True)
class StandIn:
    """A likelihood whose readings come from quadratics of the unknowns, not from the model.

    ``order`` puts the unknowns that move the readings most first; ``errors`` are errors of
    weighing, by number with their values over GRID: they are far from normal.
    """

    likelihood: Likelihood
    order: NDArray[np.int64]
    errors: tuple[tuple[int, Array], ...]
    surface: Quadratic | None = None

    def __call__(self, points: Array) -> Array:
        """Log likelihood of points in the likelihood's own directions."""
        if self.surface is None:
            return np.zeros(points.shape[1])
        return self.likelihood.of(self.likelihood.split(self.surface(self.seen(points))))

    def seen(self, points: Array) -> Array:
        """The unknowns as the quadratics take them."""
        z = np.clip(self.likelihood.turned_back(points), -5.0, 5.0)
        for row, values in self.errors:
            z[row] = np.interp(z[row], GRID, values)
        return np.asarray(z[self.order])


class _Fitted:
    """A stand-in fitted to every point at which the model was run, the later ones counting more.

    ``spread`` are points spread as the stand-in is.
    """

    def __init__(
        self, likelihood: Likelihood, moved: Mapping[int, float], prior: Array, informed: int,
        generator: np.random.Generator,
    ) -> None:  # fmt: skip
        free, inputs = likelihood.unknowns.free, likelihood.unknowns.inputs
        errors = tuple(
            (row, _values(inputs[number])) for row, number in enumerate(free)
            if number < len(inputs) and inputs[number].name.endswith("weighed")
        )  # fmt: skip
        order = np.argsort([-moved[number] for number in free], kind="stable")
        self.likelihood, self.informed, self.generator = likelihood, informed, generator
        self.stand_in = StandIn(likelihood, order, errors)
        self.points, self.weights = np.empty((len(prior), 0)), np.empty(0)
        self.outputs: Array | None = None
        self.spread = prior
        new = prior
        for more in (*REFITS, 0):
            self.exact(new)
            self.refit(CROSSED)
            new = self.spread[:, :more]

    def exact(self, points: Array) -> Array:
        """The log likelihood by the model itself, kept for the next fit."""
        found = self.likelihood.predicted(self.likelihood.turned_back(points))
        rows = self.likelihood.joined(found)
        self.points = np.concatenate([self.points, points], axis=1)
        self.outputs = rows if self.outputs is None else np.concatenate([self.outputs, rows], axis=1)
        self.weights = np.concatenate([self.weights, np.ones(points.shape[1])])
        return self.likelihood.of(found)

    def refit(self, crossed: int) -> None:
        """Fit it anew, with products of so many unknowns, and follow where it leads."""
        if self.outputs is None:
            return
        surface = quadratic_box_1951(
            points=self.stand_in.seen(self.points), outputs=self.outputs, weights=self.weights,
            informed=crossed,
        )  # fmt: skip
        self.weights = self.weights * FADES
        self.stand_in = replace(self.stand_in, surface=surface)
        self.spread = tempered_del_moral_2006(
            log_likelihood=self.stand_in,
            points=self.generator.standard_normal((len(self.points), PARTICLES)),
            generator=self.generator, informed=self.informed,
        )  # fmt: skip


def _values(one: Input) -> Array:
    """An input's values over GRID, in their own standard deviation."""
    values = one.quantile(normal_cdf(value=GRID))
    usual = float(np.std(one.quantile((np.arange(256) + 0.5) / 256)))
    return np.asarray(values / max(usual, 1e-12))


def _posterior(log_likelihood: LogDensity, points: Array) -> Array:
    """Log density of points of a standard normal prior after the readings."""
    return np.asarray(log_likelihood(points) - 0.5 * (points * points).sum(axis=0))


def _moved(likelihood: Likelihood) -> dict[int, float]:
    """By what share of its error each unknown, from -2 to 2 alone, moves the reading that it moves most."""
    count = likelihood.unknowns.count
    points = np.zeros((count, 2 * count))
    points[np.arange(count), np.arange(count)] = 2.0
    points[np.arange(count), count + np.arange(count)] = -2.0
    found = likelihood.predicted(points)
    most = np.zeros(count)
    for one, shown in zip(likelihood.jars, found.jars, strict=True):
        most = np.maximum(most, (np.abs(shown[:, :count] - shown[:, count:]) / one.spread()).max(axis=0))
    for row, shown in zip(likelihood.thermometers.rows, found.degrees, strict=True):
        most = np.maximum(most, np.abs(shown[:count] - shown[count:]) / row.within)
    return dict(enumerate(most.tolist()))


def _informed(likelihood: Likelihood, points: Array) -> tuple[Array, int]:
    """Directions of the free unknowns by how much the readings say of each, and how many say enough.

    From J'J on the mean over points of the prior, J being how readings move by their own errors.
    """
    count, looked = points.shape
    step = 0.25
    lanes = [points]
    for number in range(count):
        nudge = np.zeros((count, 1))
        nudge[number] = step
        lanes += [points + nudge, points - nudge]
    found = likelihood.relative(likelihood.predicted(np.concatenate(lanes, axis=1)))
    parts = found.reshape(len(found), 2 * count + 1, looked)
    slope = (parts[:, 1::2] - parts[:, 2::2]) / (2.0 * step)
    told = np.einsum("rik,rjk->ij", slope, slope) / looked
    values, vectors = np.linalg.eigh(told)
    informed = int((values >= LEAST_TOLD).sum())
    return np.asarray(vectors[:, ::-1]), max(informed, 1)


def _prior(likelihood: Likelihood, seed: int) -> dict[str, Array]:
    count = likelihood.unknowns.count
    points = normal_quantile(probability=sobol(count=1024, dimensions=count, seed=seed)).T
    return quantities_of(likelihood.unknowns.drawn(points))


def _settled(chains: Chains, quantities: Mapping[str, Array]) -> tuple[float, float]:
    """The worst R-hat and the least effective size, of every free unknown and every quantity."""
    shape = chains.draws.shape[1:]
    every = [*chains.draws, *(one.reshape(shape) for one in quantities.values() if one.std() > 1e-9)]
    rhat = max(rhat_vehtari_2021(draws=one) for one in every)
    return rhat, min(effective_size_vehtari_2021(draws=one) for one in every)


def _unsettled(rhat: float, effective: float) -> Fault:
    return Fault(
        "the readings do not settle on an answer",
        wanted=f"R-hat under {MOST_RHAT} and at least {LEAST_EFFECTIVE:.0f} effective samples",
        found=f"R-hat {rhat:.3f} and {effective:.0f}",
        try_="Look for a reading in the wrong unit or at the wrong time, or add readings of another kind",
    )  # fmt: skip
