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

BACK = 0.4
"""How far a step of the walk draws the other coordinates anew."""

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
    informed: int | None = None,
) -> Chains:
    """Draws from a posterior by chains that share what they have learnt of its shape.

    x' = x + 2.38 / sqrt(d) L xi or x' ~ t_6(m, L L'); taken with the Metropolis-Hastings probability.
    Coordinates that the readings say nothing of: x' = sqrt(1 - b^2) x + b xi or x' ~ N(0, 1)

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
    informed : int or None
        how many coordinates, the first, have a shape to be learnt [-]; the others are standard normal
        beforehand and stay nearly so. None: all of them

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
    3. Cui, Martin, Marzouk, Solonen & Spantini 2014, Inverse Problems 30:114015 (informed coordinates).
    """
    if start.ndim != 2 or start.shape[1] < chains or chains < 2:
        wanted = "at least two chains, and a start for each"
        raise OutOfRangeError(Fault("the starts of chains", wanted=wanted, found=str(start.shape)))
    run = _Run(log_posterior, generator, _shape_of(start, _first(start, informed)))
    state = run.state(start[:, :chains])
    if not np.all(np.isfinite(state.density)):
        raise OutOfRangeError(Fault("the starts of chains", wanted="a density above zero", found="zero"))
    state = _warmed(run, state, warmup, independent)
    worth = run.taken_independent() > LEAST_ACCEPTED
    run.taken[:] = 0.0
    return _drawn(run, state, draws, independent if worth else 1)


@dataclass(frozen=True, slots=True)
class _Shape:
    """A mean (k,), and the lower triangle (k, k) of a covariance, of the first k coordinates."""

    mean: Array
    lower: Array

    def log_t(self, points: Array) -> Array:
        """Log density of the independent proposals at points (d, n)."""
        d = len(self.mean)
        scaled = np.linalg.solve(self.lower, points[:d] - self.mean[:, np.newaxis])
        norm = lgamma(0.5 * (TAIL + d)) - lgamma(0.5 * TAIL) - 0.5 * d * log(TAIL * pi)
        norm -= float(np.log(np.diag(self.lower)).sum())
        rest = 0.5 * np.square(points[d:]).sum(axis=0)
        return np.asarray(norm - rest - 0.5 * (TAIL + d) * np.log1p((scaled * scaled).sum(axis=0) / TAIL))

    def walked(self, points: Array, scale: float, noise: Array) -> Array:
        """Points a step on: the first coordinates by the shape, the others towards a standard normal."""
        d = len(self.mean)
        first = points[:d] + scale * (self.lower @ noise[:d])
        rest = np.sqrt(1.0 - BACK * BACK) * points[d:] + BACK * noise[d:]
        return np.concatenate([first, rest])


@dataclass(frozen=True, slots=True)
class State:
    """Where the chains are: ``points`` (parameters, chains) and their log ``density`` (chains,)."""

    points: Array
    density: Array


class Walk:
    """A random walk of many chains on one density, its steps shaped by points that are spread as it is."""

    def __init__(
        self, log_density: LogDensity, generator: np.random.Generator, spread: Array, informed: int | None
    ) -> None:
        self._run = _Run(log_density, generator, _shape_of(spread, _first(spread, informed)))

    def state(self, points: Array) -> State:
        """The chains at these points."""
        return self._run.state(points)

    def step(self, state: State) -> State:
        """The chains a step on."""
        return self._run.walk(state)


class _Run:
    """The proposals, the tally of those taken, and the shape they are drawn by."""

    def __init__(self, log_density: LogDensity, generator: np.random.Generator, shape: _Shape) -> None:
        self.log_density, self.generator, self.shape = log_density, generator, shape
        self.evaluations = 0
        self.scale = STEP / np.sqrt(len(shape.mean))
        # Proposals taken and made: of the walk, then of the independent ones.
        self.taken = np.zeros(4)

    def state(self, points: Array) -> State:
        self.evaluations += points.shape[1]
        density = np.asarray(self.log_density(points), dtype=np.float64)
        return State(points, np.where(np.isnan(density), -np.inf, density))

    def walk(self, state: State) -> State:
        d, noise = len(self.shape.mean), self.generator.standard_normal(state.points.shape)
        new = self.state(self.shape.walked(state.points, self.scale, noise))
        # The others' steps are reversible by a standard normal, not by a flat density.
        rest = 0.5 * (np.square(new.points[d:]) - np.square(state.points[d:])).sum(axis=0)
        return self._taken(state, new, new.density - state.density + rest, 0)

    def jumps(self, state: State, count: int) -> list[State]:
        """So many independent proposals, evaluated at once and taken one after another."""
        d, chains = state.points.shape
        normal = self.generator.standard_normal((d, count * chains))
        spread = np.sqrt(TAIL / self.generator.chisquare(TAIL, count * chains))
        own_shape = len(self.shape.mean)
        normal[:own_shape] = self.shape.mean[:, np.newaxis] + (self.shape.lower @ normal[:own_shape]) * spread
        proposed = self.state(normal)
        weight = proposed.density - self.shape.log_t(proposed.points)
        own = state.density - self.shape.log_t(state.points)
        states = []
        for index in range(count):
            part = slice(index * chains, (index + 1) * chains)
            new = State(proposed.points[:, part], proposed.density[part])
            before = state
            state = self._taken(state, new, weight[part] - own, 2)
            own = np.where(state.density == before.density, own, weight[part])
            states.append(state)
        return states

    def _taken(self, old: State, new: State, log_ratio: Array, tally: int) -> State:
        yes = np.log(self.generator.random(len(log_ratio))) < log_ratio
        self.taken[tally] += yes.sum()
        self.taken[tally + 1] += len(yes)
        return State(np.where(yes, new.points, old.points), np.where(yes, new.density, old.density))

    def block(self, state: State, independent: int) -> list[State]:
        first = self.walk(state)
        return [first, *self.jumps(first, independent)]

    def taken_independent(self) -> float:
        return float(self.taken[2] / max(self.taken[3], 1.0))

    def taken_in_walk(self) -> float:
        return float(self.taken[0] / max(self.taken[1], 1.0))


def _first(points: Array, informed: int | None) -> int:
    return len(points) if informed is None else max(1, min(informed, len(points)))


def _shape_of(every: Array, first: int) -> _Shape:
    """Mean and covariance of the first coordinates, a little of the diagonal added where points are few."""
    points = every[:first]
    d, n = points.shape
    covariance = np.atleast_2d(np.cov(points)) if n > 1 else np.eye(d)
    spread = np.maximum(np.diag(covariance), 1e-12)
    share = d / (n + d)
    covariance = (1.0 - share) * covariance + share * np.diag(spread) + 1e-9 * np.diag(spread)
    return _Shape(points.mean(axis=1), np.linalg.cholesky(covariance))


def _warmed(run: _Run, state: State, warmup: int, independent: int) -> State:
    """The chains after their warm-up, the shape learnt from the later half of it after each block."""
    history: list[Array] = []
    while len(history) < warmup:
        states = run.block(state, independent)
        state = states[-1]
        history += [one.points for one in states]
        recent = np.concatenate(history[len(history) // 2 :], axis=1)
        if recent.shape[1] >= 10 * len(run.shape.mean):
            run.shape = _shape_of(recent, len(run.shape.mean))
        rate = run.taken_in_walk()
        run.scale *= float(np.clip(np.exp(rate - 0.28), 0.7, 1.4))
    return state


def _drawn(run: _Run, state: State, draws: int, independent: int) -> Chains:
    kept: list[State] = []
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
