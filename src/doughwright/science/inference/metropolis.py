"""An adaptive Metropolis sampler of many chains side by side: one call evaluates all of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import lgamma, log, pi

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.yeast import Array

LogDensity = Callable[[Array], Array]
"""A log density: points of shape (parameters, chains) to one value a chain; -inf where it is impossible."""

TAIL = 6.0
"""Degrees of freedom of the independent proposals: heavier tails than a posterior's usually are."""

STEP = 2.38
"""Random-walk steps of 2.38 / sqrt(parameters) standard deviations (Roberts, Gelman & Gilks 1997)."""

LEAST_ACCEPTED = 0.1
"""Independent proposals that are accepted less often than this are not worth their evaluation."""


@dataclass(frozen=True, slots=True)
class Chains:
    """What was drawn: ``draws`` (parameters, draws, chains), their ``density`` (draws, chains).

    ``accepted`` is the share of proposals taken after the warm-up, ``evaluations`` how many points were
    evaluated in all.
    """

    draws: Array
    density: Array
    accepted: float
    evaluations: int

    @property
    def points(self) -> Array:
        """All draws of all chains, shape (parameters, draws x chains)."""
        return self.draws.reshape(len(self.draws), -1)


def adaptive_metropolis(
    *,
    log_posterior: LogDensity,
    start: Array,
    chains: int,
    warmup: int,
    draws: int,
    generator: np.random.Generator,
    independent: int = 15,
) -> Chains:
    """Draws from a posterior by chains that share what they have learnt of its shape.

    x' = x + 2.38 / sqrt(d) L xi or x' ~ t_6(m, L L'); taken with the Metropolis-Hastings probability

    Parameters
    ----------
    log_posterior : callable
        log density of points (parameters, chains) [-], need not be normalised
    start : array
        points to begin from [as the parameters], shape (parameters, at least chains); all of them give the
        first guess of the shape
    chains : int
        how many chains run side by side [-]
    warmup, draws : int
        steps of each chain that are left out, during which the shape is learnt, and that are kept [-]
    generator : Generator
        where chance comes from [-]; the same generator gives the same draws
    independent : int
        independent proposals after each step of a random walk [-]; they are evaluated in one call

    Returns
    -------
    Chains
        the draws

    Raises
    ------
    OutOfRangeError
        fewer starts than chains, or a start at which the density is not finite

    Notes
    -----
    An independent proposal does not depend on where its chain is, so a block of them is evaluated at once
    and then taken one after another. The shape is learnt in the warm-up only: after it the chains are
    plain Metropolis-Hastings, and exact.

    References
    ----------
    1. Haario, Saksman & Tamminen 2001, Bernoulli 7:223 (adaptive Metropolis).
    2. Tierney 1994, Ann. Statist. 22:1701 (mixing random walks and independent proposals).
    """
    if start.ndim != 2 or start.shape[1] < chains or chains < 2:
        wanted = "at least two chains, and a start for each"
        raise OutOfRangeError(Fault("the starts of chains", wanted=wanted, found=str(start.shape)))
    run = _Run(log_posterior, generator, _shape_of(start))
    state = run.state(start[:, :chains])
    if not np.all(np.isfinite(state.density)):
        raise OutOfRangeError(Fault("the starts of chains", wanted="a density above zero", found="zero"))
    state = _warmed(run, state, warmup, independent)
    worth = run.taken_independent() > LEAST_ACCEPTED
    run.taken[:] = 0.0
    return _drawn(run, state, draws, independent if worth else 1)


@dataclass(frozen=True, slots=True)
class _Shape:
    """A mean (d,), and the lower triangle (d, d) of a covariance."""

    mean: Array
    lower: Array

    def log_t(self, points: Array) -> Array:
        """Log density of the independent proposals at points (d, n)."""
        d = len(self.mean)
        scaled = np.linalg.solve(self.lower, points - self.mean[:, np.newaxis])
        norm = lgamma(0.5 * (TAIL + d)) - lgamma(0.5 * TAIL) - 0.5 * d * log(TAIL * pi)
        norm -= float(np.log(np.diag(self.lower)).sum())
        return np.asarray(norm - 0.5 * (TAIL + d) * np.log1p((scaled * scaled).sum(axis=0) / TAIL))


@dataclass(frozen=True, slots=True)
class _State:
    points: Array
    density: Array


class _Run:
    """The proposals, the tally of those taken, and the shape they are drawn by."""

    def __init__(self, log_density: LogDensity, generator: np.random.Generator, shape: _Shape) -> None:
        self.log_density, self.generator, self.shape = log_density, generator, shape
        self.evaluations = 0
        self.scale = STEP / np.sqrt(len(shape.mean))
        # Proposals taken and made: of the walk, then of the independent ones.
        self.taken = np.zeros(4)

    def state(self, points: Array) -> _State:
        self.evaluations += points.shape[1]
        density = np.asarray(self.log_density(points), dtype=np.float64)
        return _State(points, np.where(np.isnan(density), -np.inf, density))

    def walk(self, state: _State) -> _State:
        noise = self.generator.standard_normal(state.points.shape)
        new = self.state(state.points + self.scale * (self.shape.lower @ noise))
        return self._taken(state, new, new.density - state.density, 0)

    def jumps(self, state: _State, count: int) -> list[_State]:
        """So many independent proposals, evaluated at once and taken one after another."""
        d, chains = state.points.shape
        normal = self.generator.standard_normal((d, count * chains))
        spread = np.sqrt(TAIL / self.generator.chisquare(TAIL, count * chains))
        proposed = self.state(self.shape.mean[:, np.newaxis] + (self.shape.lower @ normal) * spread)
        weight = proposed.density - self.shape.log_t(proposed.points)
        own = state.density - self.shape.log_t(state.points)
        states = []
        for index in range(count):
            part = slice(index * chains, (index + 1) * chains)
            new = _State(proposed.points[:, part], proposed.density[part])
            before = state
            state = self._taken(state, new, weight[part] - own, 2)
            own = np.where(state.density == before.density, own, weight[part])
            states.append(state)
        return states

    def _taken(self, old: _State, new: _State, log_ratio: Array, tally: int) -> _State:
        yes = np.log(self.generator.random(len(log_ratio))) < log_ratio
        self.taken[tally] += yes.sum()
        self.taken[tally + 1] += len(yes)
        return _State(np.where(yes, new.points, old.points), np.where(yes, new.density, old.density))

    def block(self, state: _State, independent: int) -> list[_State]:
        first = self.walk(state)
        return [first, *self.jumps(first, independent)]

    def taken_independent(self) -> float:
        return float(self.taken[2] / max(self.taken[3], 1.0))

    def taken_in_walk(self) -> float:
        return float(self.taken[0] / max(self.taken[1], 1.0))


def _shape_of(points: Array) -> _Shape:
    """Mean and covariance of points (d, n), a little of the diagonal added where they are few."""
    d, n = points.shape
    covariance = np.atleast_2d(np.cov(points)) if n > 1 else np.eye(d)
    spread = np.maximum(np.diag(covariance), 1e-12)
    share = d / (n + d)
    covariance = (1.0 - share) * covariance + share * np.diag(spread) + 1e-9 * np.diag(spread)
    return _Shape(points.mean(axis=1), np.linalg.cholesky(covariance))


def _warmed(run: _Run, state: _State, warmup: int, independent: int) -> _State:
    """The chains after their warm-up, the shape learnt from the later half of it after each block."""
    history: list[Array] = []
    while len(history) < warmup:
        states = run.block(state, independent)
        state = states[-1]
        history += [one.points for one in states]
        recent = np.concatenate(history[len(history) // 2 :], axis=1)
        if recent.shape[1] >= 10 * len(run.shape.mean):
            run.shape = _shape_of(recent)
        rate = run.taken_in_walk()
        run.scale *= float(np.clip(np.exp(rate - 0.28), 0.7, 1.4))
    return state


def _drawn(run: _Run, state: _State, draws: int, independent: int) -> Chains:
    kept: list[_State] = []
    while len(kept) < draws:
        states = run.block(state, independent)
        state = states[-1]
        kept += states
    kept = kept[:draws]
    return Chains(
        draws=np.stack([one.points for one in kept], axis=1),
        density=np.stack([one.density for one in kept]),
        accepted=float((run.taken[0] + run.taken[2]) / max(run.taken[1] + run.taken[3], 1.0)),
        evaluations=run.evaluations,
    )
