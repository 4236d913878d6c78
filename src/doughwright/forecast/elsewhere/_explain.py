"""What explains the spread: shares from the run itself, and indices by a design of their own."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from doughwright.figures import Figure
from doughwright.forecast.elsewhere._figures import RIPE
from doughwright.forecast.elsewhere._kitchens import Kitchens, Ran
from doughwright.forecast.elsewhere._sample import CHUNK
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.elsewhere.results import NORMAL_90, Explained, Full, Indices
from doughwright.science.sampling.explained import BINS, explained_shares
from doughwright.science.sampling.saltelli import exchanged, saltelli_indices_jansen_1999, saltelli_points

Array = NDArray[np.float64]

LEAST_KITCHENS = 4 * BINS
ALIKE = "it is alike in every kitchen"


def explained(points: Array, output: Array, kitchens: Kitchens) -> tuple[Explained, ...]:
    """Each heading's share of the output's variance by itself, the greatest first."""
    if len(output) < LEAST_KITCHENS:
        why = f"fewer than {LEAST_KITCHENS} kitchens were run"
        return tuple(Explained(name, Figure(None, "percent", why=why)) for name in kitchens.headings)
    groups = [list(columns) for columns in kitchens.headings.values()]
    found = explained_shares(points=points, output=output, groups=groups)
    every = zip(kitchens.headings, found.share, found.error, strict=True)
    rows = [Explained(name, _figure(share, error)) for name, share, error in every]
    return tuple(sorted(rows, key=lambda one: -(one.share.value or 0.0)))


def full(kitchens: Kitchens, *, base: int, seed: int, watch: Watch) -> Full | None:
    """First-order and total indices of each heading; ``None`` where the run was stopped before its end."""
    groups = list(kitchens.headings.values())
    ran: list[list[Ran]] = [[] for _ in range(2 + len(groups))]
    for first in range(0, base, CHUNK):
        size = min(CHUNK, base - first)
        a, b = saltelli_points(base=size, dimensions=kitchens.inputs, seed=seed, first=first)
        for at, points in enumerate([a, b, *(exchanged(a=a, b=b, group=group) for group in groups)]):
            if watch.stopped:
                return None
            ran[at].append(kitchens.run(points).judged_only())
            watch.add(size)
    rise = [np.concatenate([one.rise for one in part]) for part in ran]
    ripe = [np.concatenate([one.state == RIPE for one in part]).astype(np.float64) for part in ran]
    names = list(kitchens.headings)
    return Full(base, base * len(ran), _indices(names, rise), _indices(names, ripe))


def full_runs(kitchens: Kitchens, base: int) -> int:
    """How many kitchens the design takes."""
    return base * (2 + len(kitchens.headings))


def _indices(names: Sequence[str], results: Sequence[Array]) -> tuple[Indices, ...]:
    found = saltelli_indices_jansen_1999(a=results[0], b=results[1], ab=np.array(results[2:]))
    rows = [
        Indices(name, _figure(*first), _figure(*total))
        for name, first, total in zip(
            names,
            zip(found.first, found.first_error, strict=True),
            zip(found.total, found.total_error, strict=True),
            strict=True,
        )
    ]
    return tuple(sorted(rows, key=lambda one: -(one.total.value or 0.0)))


def _figure(share: float, error: float) -> Figure:
    """A share as per cent with its 90 % interval; an estimate below nothing is nothing."""
    if not np.isfinite(share):
        return Figure(None, "percent", why=ALIKE)
    middle, far = 100.0 * float(share), 100.0 * NORMAL_90 * float(error)
    return Figure(max(middle, 0.0), "percent", max(middle - far, 0.0), max(middle + far, 0.0))
