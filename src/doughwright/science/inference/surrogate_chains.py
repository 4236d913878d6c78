"""A Metropolis sampler that lets a quick stand-in propose, and asks the slow model about many at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.inference.metropolis import Chains, LogDensity, Walk
from doughwright.science.yeast import Array

STREAMS = 256
SETTLING = 120
"""Steps of the stand-in's own chains that are left out."""

AT_ONCE = 1024


def surrogate_metropolis_liu_2001(
    *,
    log_posterior: LogDensity,
    log_surrogate: LogDensity,
    start: Array,
    chains: int,
    draws: int,
    inner: int,
    generator: np.random.Generator,
    informed: int | None = None,
) -> Chains:
    """Draws from a posterior that is slow to evaluate, proposed by a stand-in's own.

    x' ~ p*; taken with min(1, p(x') p*(x) / (p(x) p*(x')))

    Parameters
    ----------
    log_posterior : callable
        log density of points (parameters, points) [-], need not be normalised
    log_surrogate : callable
        log density of the stand-in [-], the same arguments
    start : array
        points to begin from [as the parameters], shape (parameters, at least 256), spread about as the
        stand-in is: they give its steps their shape
    chains, draws : int
        how many chains run side by side, and what each draws [-]
    inner : int
        steps on the stand-in between two proposals that one of its chains makes [-]
    generator : Generator
        where chance comes from [-]; the same generator gives the same draws
    informed : int or None
        as for ``adaptive_metropolis`` [-]

    Returns
    -------
    Chains
        the draws; ``accepted`` is the share of the proposals taken

    Raises
    ------
    OutOfRangeError
        too few starts, or no proposal at which the density is above zero

    Notes
    -----
    Proposals do not depend on where a chain is, so the slow model runs at a thousand of them a call. The
    stand-in's chains propose in turn, shuffled, so that two proposals that follow one another come from
    different chains as a rule; that they are independent is an approximation that grows with ``inner``.

    References
    ----------
    1. Liu 2001, Monte Carlo Strategies in Scientific Computing, 9.4 (surrogate transition).
    2. Tierney 1994, Ann. Statist. 22:1701 (independent proposals).
    """
    if start.shape[1] < STREAMS or chains < 2:
        wanted = f"at least two chains and {STREAMS} starts"
        raise OutOfRangeError(Fault("the starts of chains", wanted=wanted, found=str(start.shape)))
    needed = chains * (draws + 1)
    points, rough = _proposals(log_surrogate, start, needed, inner, generator, informed)
    parts = [points[:, at : at + AT_ONCE] for at in range(0, needed, AT_ONCE)]
    exact = np.concatenate([_density(log_posterior, one) for one in parts])
    weight = (exact - rough).reshape(draws + 1, chains)
    if not np.any(np.isfinite(weight)):
        raise OutOfRangeError(Fault("the proposals of chains", wanted="a density above zero", found="zero"))
    kept, taken = _taken(weight, generator)
    steps = points.reshape(len(points), draws + 1, chains)
    own = np.arange(chains)
    return Chains(
        draws=steps[:, kept, own], density=exact.reshape(draws + 1, chains)[kept, own],
        accepted=taken, evaluations=needed,
    )  # fmt: skip


def _proposals(
    log_surrogate: LogDensity,
    start: Array,
    needed: int,
    inner: int,
    generator: np.random.Generator,
    informed: int | None,
) -> tuple[Array, Array]:
    """Points of the stand-in, shuffled, and its log density there."""
    walk = Walk(log_surrogate, generator, start, informed)
    state = walk.state(start[:, :STREAMS])
    points: list[Array] = []
    densities: list[Array] = []
    for _ in range(SETTLING):
        state = walk.step(state)
    while len(points) * STREAMS < needed:
        for _ in range(inner):
            state = walk.step(state)
        points.append(state.points)
        densities.append(state.density)
    order = generator.permutation(len(points) * STREAMS)[:needed]
    return np.concatenate(points, axis=1)[:, order], np.concatenate(densities)[order]


def _taken(weight: Array, generator: np.random.Generator) -> tuple[NDArray[np.int64], float]:
    """Which proposal each chain holds at each draw, shape (draws, chains), and the share taken."""
    rows, chains = weight.shape
    at = np.zeros(chains, dtype=np.int64)
    own = weight[0]
    kept = np.empty((rows - 1, chains), dtype=np.int64)
    taken = 0.0
    for row in range(1, rows):
        with np.errstate(invalid="ignore"):
            yes = ~(np.log(generator.random(chains)) >= weight[row] - own)
        yes &= np.isfinite(weight[row])
        at, own = np.where(yes, row, at), np.where(yes, weight[row], own)
        kept[row - 1] = at
        taken += float(yes.mean())
    return kept, taken / (rows - 1)


def _density(log_density: LogDensity, points: Array) -> Array:
    value = np.asarray(log_density(points), dtype=np.float64)
    return np.where(np.isnan(value), -np.inf, value)
