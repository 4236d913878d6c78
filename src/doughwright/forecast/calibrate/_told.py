"""What a posterior teaches: alone, only together with something else, or hardly at all."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from math import exp, sqrt

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast.calibrate._sample import Sampled
from doughwright.forecast.calibrate.results import Conditional, LearntAlone, LearntTogether, NotLearnt
from doughwright.kitchen.learning import learnt_of
from doughwright.kitchen.learnt import NINETY, QUANTITIES, Learnt, is_factor
from doughwright.science.yeast import Array

NARROWER = 0.85
"""A quantity is learnt where its spread falls below this share of what it was; assumed."""

TIED, HALF_TIED, WELL_KNOWN = 0.8, 0.5, 0.6
"""Two are told only together where they hang together this closely, or half so with one of them known to no
better than this share of what it was; assumed."""

FRIDGE_KNOWN = 1.0
"""A fridge known to less than this [K], one standard deviation, is known well enough; assumed."""

LEAST_SPREAD = 1e-6

WOULD_TELL = {
    "yeast": "a jar in the room, read every hour, and the yeast on a finer scale",
    "cold": "a jar in the fridge overnight with a thermometer beside it",
    "growth": "a jar with little yeast, read until it has doubled",
    "lag": "a jar read every quarter of an hour for the first hour",
    "film": "a thermometer in the dough as it cools",
    "fridge": "a thermometer where the dough stands",
    "room": "a thermometer in the room",
    "thermometer": "the thermometer in ice and water, which are at 0 °C",
}
UNITS = {"factor": "ratio", "temperature": "degC", "difference": "degC"}


@dataclass(frozen=True)
class Told:
    """The quantities by name, their means and covariance after the readings, and their spread before.

    ``ties`` name the others that a quantity is told only together with, ``alone`` those told by themselves.
    """

    names: tuple[str, ...]
    middle: Array
    covariance: Array
    before: Array
    prior: Mapping[str, Array]
    ties: Mapping[str, tuple[str, ...]]
    alone: tuple[str, ...]

    def at(self, name: str) -> int:
        """The place of a quantity."""
        return self.names.index(name)

    @property
    def spread(self) -> Array:
        """Standard deviations after the readings."""
        return np.asarray(np.sqrt(np.diag(self.covariance)))

    @property
    def correlation(self) -> Array:
        """How the quantities hang together after the readings."""
        return np.asarray(self.covariance / np.outer(self.spread, self.spread))


def told(sample: Sampled) -> Told:
    """Means, covariance and groups of what was sampled; what the kitchen knows exactly is left out."""
    names = tuple(
        one
        for one in sample.posterior
        if sample.prior[one].std() > 1e-6 and sample.posterior[one].std() > 1e-6
    )
    after = np.array([sample.posterior[one] for one in names])
    before = np.array([sample.prior[one].std() for one in names])
    covariance = np.atleast_2d(np.cov(after))
    spread = np.sqrt(np.diag(covariance))
    ties = _ties(names, covariance / np.outer(spread, spread), spread / before)
    read = {row.of for row in sample.likelihood.thermometers.rows}
    ties = _untold(ties, dict(zip(names, zip(spread, before, strict=True), strict=True)), read)
    alone = tuple(
        one for number, one in enumerate(names)
        if one not in ties and spread[number] < NARROWER * before[number]
    )  # fmt: skip
    return Told(names, after.mean(axis=1), covariance, before, sample.prior, ties, alone)


def _ties(names: Sequence[str], correlation: Array, share: Array) -> dict[str, tuple[str, ...]]:
    """Which others each quantity is tied to, the closest first; those that are tied to none are left out."""
    found: dict[str, tuple[str, ...]] = {}
    for i, name in enumerate(names):
        together = np.abs(correlation[i])
        tied = [
            j for j in np.argsort(-together).tolist()
            if j != i and _tied(name, names[j], together[j], max(share[i], share[j]))
        ]  # fmt: skip
        if tied:
            found[name] = tuple(names[j] for j in tied)
    return found


def _untold(
    ties: dict[str, tuple[str, ...]], spreads: Mapping[str, tuple[float, float]], read: Collection[str]
) -> dict[str, tuple[str, ...]]:
    """The ties, with the fridge and the yeast's work in it where only a jar tells of either.

    Its rise is the doing of both, however loosely they hang together; a fridge that is known, or was read
    with a thermometer, sets the other free.
    """
    pair = ("fridge", "cold")
    if "fridge" in read or any(one not in spreads for one in pair) or spreads["fridge"][1] < FRIDGE_KNOWN:
        return ties
    if all(spreads[one][0] >= NARROWER * spreads[one][1] for one in pair):
        return ties
    others = {one: tuple(name for name in ties.get(one, ()) if name not in pair) for one in pair}
    return {**ties, "fridge": ("cold", *others["fridge"]), "cold": ("fridge", *others["cold"])}


def _tied(first: str, second: str, together: float, share: float) -> bool:
    # A thermometer's own error moves all that it reads; that is no doubt of what is what.
    if "thermometer" in (first, second):
        return False
    return together >= TIED or (together >= HALF_TIED and share > WELL_KNOWN)


def learnt_alone(found: Told) -> tuple[LearntAlone, ...]:
    """Each quantity that is told by itself."""
    return tuple(
        LearntAlone(
            one, QUANTITIES[one][0],
            _figure(one, found.middle[found.at(one)], found.spread[found.at(one)]),
            _figure(one, float(found.prior[one].mean()), found.before[found.at(one)]),
        )
        for one in found.alone
    )  # fmt: skip


def learnt_together(found: Told) -> tuple[LearntTogether, ...]:
    """Each quantity that is told only together with others, beside the one that it is tied to most."""
    pairs = {tuple(sorted((one, tied[0]), key=FIRST.index)) for one, tied in found.ties.items()}
    return tuple(_together(found, *pair) for pair in sorted(pairs, key=lambda pair: FIRST.index(pair[0])))


def _together(found: Told, first: str, second: str) -> LearntTogether:
    ways = tuple(_way(found, first, second, far) for far in (-1.0, 1.0))
    says = (
        f"the readings cannot tell {SHORT[first]} from {SHORT[second]}: "
        f"if {SHORT[first]} {_is(first, ways[0].if_)}, {SHORT[second]} {_is(second, ways[0].then)}; "
        f"if it {_is(first, ways[1].if_)}, {SHORT[second]} {_is(second, ways[1].then)}"
    )
    return LearntTogether((first, second), ways, says, WOULD_TELL[first])


SHORT = {
    "yeast": "the strength of the yeast", "cold": "the yeast's work in the cold",
    "growth": "how fast it multiplies", "lag": "how long it takes to wake",
    "film": "how fast the dough takes the air's warmth", "fridge": "the fridge",
    "room": "the room", "thermometer": "the thermometer",
}  # fmt: skip
# Of two, the one that is easier to measure comes first.
FIRST = ("fridge", "room", "film", "lag", "growth", "cold", "yeast")


def _way(found: Told, first: str, second: str, far: float) -> Conditional:
    i, j = found.at(first), found.at(second)
    given = found.middle[i] + far * found.spread[i]
    slope = found.covariance[i, j] / found.covariance[i, i]
    left = found.spread[j] * sqrt(max(1.0 - found.correlation[i, j] ** 2, 1e-6))
    then = found.middle[j] + slope * (given - found.middle[i])
    return Conditional(_point(first, given), _figure(second, then, left))


def _point(name: str, middle: float) -> Figure:
    return Figure(exp(middle) if is_factor(name) else float(middle), UNITS[QUANTITIES[name][1]])


def _figure(name: str, middle: float, spread: float) -> Figure:
    ends = (middle, middle - NINETY * spread, middle + NINETY * spread)
    value, low, high = (exp(one) if is_factor(name) else float(one) for one in ends)
    return Figure(value, UNITS[QUANTITIES[name][1]], low, high)


def _is(name: str, figure: Figure) -> str:
    value = figure.value or 0.0
    if not is_factor(name):
        return f"is at {value:.1f} °C"
    if figure.low is None or figure.high is None:
        return f"is {value:.2g} times the usual"
    return f"is {value:.2g} times the usual ({figure.low:.2g} to {figure.high:.2g})"


def not_learnt(found: Told) -> tuple[NotLearnt, ...]:
    """Each quantity of which the readings say little."""
    told_of = {*found.alone, *found.ties}
    open_ = [one for one, prior in found.prior.items() if prior.std() > LEAST_SPREAD and one not in told_of]
    return tuple(NotLearnt(one, QUANTITIES[one][0], WOULD_TELL[one]) for one in open_)


def update_of(found: Told, readings: Sequence[str], kept: Sequence[str]) -> Learnt:
    """What is to be kept: all that was told, and the quantities ``kept`` that were learnt before."""
    told_of = {*found.alone, *kept, *found.ties}
    names = [one for one in found.names if one in told_of]
    places = [found.at(one) for one in names]
    covariance = found.covariance[np.ix_(places, places)]
    return learnt_of(
        names, found.middle[places].tolist(), covariance.tolist(), readings=readings, mixed_with=found.ties
    )
