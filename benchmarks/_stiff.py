"""One kitchen's 72 h by SciPy's LSODA with a banded Jacobian, on the same shells, no less exact."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from _kitchens import LEGS, MANY, NODES, TABLES, kitchens
from scipy.integrate import solve_ivp

from doughwright.science.kernels import waits
from doughwright.science.kernels.layout import INPUTS
from doughwright.science.yeast import Array
from tests.science.kernels import test_stiff
from tests.science.kernels.test_stiff import Written

ROWS = 7
SHARES = np.array([0.25, 0.5, 0.75, 1.0])
TOLERANCES = (3e-2, 1e-2, 3e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 3e-6, 1e-6)


@dataclass(frozen=True)
class Stiff:
    """A kitchen's three waits: the equations and the kernel's inputs of each, and the dough at the start."""

    legs: tuple[tuple[Written, Array], ...]
    state: Array

    def solved(self, method: str, tolerance: float) -> Array:
        """The rises at four times of each wait; the state is shell by shell: so its Jacobian is banded."""
        by_shell = np.arange(ROWS * NODES).reshape(ROWS, NODES).T.ravel()
        back = np.argsort(by_shell)
        # A shell's seven, and the temperature of the next one.
        bands = {"lband": ROWS, "uband": ROWS} if method == "LSODA" else {}
        y, rises = self.state[[0, 1, 2, 3, 4, 7, 8], :, 0].ravel()[by_shell], []
        for written, inputs in self.legs:
            hours = float(inputs[INPUTS.index("hours"), 0])
            found = solve_ivp(
                lambda t, y, written=written: written(t, y[back])[by_shell], (0.0, hours), y, method,
                hours * SHARES, rtol=tolerance, atol=0.1 * tolerance, **bands,
            )  # fmt: skip
            y = found.y[:, -1]
            for one in found.y.T:
                state = one[back].reshape(ROWS, NODES)
                rises.append(written.shares @ written.rises(state[4], state[0]))
        return np.array(rises)

    def kernel(self) -> Array:
        """The same rises by the kernel, as the bench calls it for one kitchen."""
        state, tightness, rises = self.state, np.ones(1), []
        for _, inputs in self.legs:
            after = waits.wait(
                inputs=inputs, state=state, tightness=tightness, curves=TABLES, shape="ball", stepping=MANY,
                samples=SHARES,
            )  # fmt: skip
            state, tightness = after.state, after.tightness
            rises.append(after.rows[:, 4, 0])
        return np.concatenate(rises)


def stiff(swing: float = 0.0) -> Stiff:
    """The kitchen; its yeast is past its growth lag, and no ceiling is in reach; its fridge may cycle."""
    test_stiff.NODES = NODES
    inputs, state = kitchens(1)
    legs = []
    for hours, low, high in LEGS:
        leg = inputs.copy()
        row = {name: leg[i] for i, name in enumerate(INPUTS)}
        row["hours"][:], row["mean"][:], row["ceiling"][:] = hours, 0.5 * (low + high), 60.0
        row["growth_lag"][:], row["swing"][:] = 0.0, swing if high < 15.0 else 0.0
        legs.append((Written({name: float(values[0]) for name, values in row.items()}, "ball"), leg))
    return Stiff(tuple(legs), state)


def matched(one: Stiff, tight: float) -> tuple[float, float, float, Callable[[], Array]]:
    """The kernel's error in the rise, that of the loosest LSODA that is no worse, its tolerance, and it."""
    true = one.solved("Radau", tight)
    ours = float(np.abs(one.kernel() / true - 1.0).max())
    for tolerance in TOLERANCES:
        theirs = float(np.abs(one.solved("LSODA", tolerance) / true - 1.0).max())
        if theirs <= ours:
            break
    return ours, theirs, tolerance, lambda: one.solved("LSODA", tolerance)
