"""The oven's kernel: one bake, beside SciPy's BDF on the same equations, and ten thousand kitchens.

One bake and the node-steps are timed by the processor's clock, the many kitchens by the wall.
"""

from __future__ import annotations

import ctypes
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
from _measure import RESULTS, ROOT, Claim, Timing, arguments, timed, told
from scipy.integrate import solve_ivp

sys.path.insert(0, str(ROOT))

from doughwright.science.kernels.bake import bake
from doughwright.science.kernels.bake_layout import BakeStepping
from doughwright.science.yeast import Array
from tests.science.kernels._bake_draws import Step, run
from tests.science.kernels._bake_odes import Bake
from tests.science.kernels._bakes import CORDIERITE, ROOM_AROUND, STEEL, P, Scene, pie, wedge

KERNEL = ROOT / "src/doughwright/science/kernels"
OPTIONS = [
    "-std=c11",
    "-O3",
    "-ffp-contract=off",
    "-fno-math-errno",
    "-fno-trapping-math",
    "-fPIC",
    "-shared",
]
LANES, CELLS, SECONDS, BARE_STEPS = 8, 26, 300.0, 20_000
BLOCKS = 20
PIE, PAR, BUN, LOAF = (
    "one dressed pie, 6 min", "par-bake, pause, finish, 5 + 1 + 4 min", "one bun, 15 min", "one loaf, 35 min",
)  # fmt: skip
OURS = "a bare pie on steel, 5 min: the kernel"
DENSE, BANDED = (f"the same: solve_ivp BDF, {how}" for how in ("whole Jacobian", "banded Jacobian"))
MANY, TWIN = "many kitchens, a dressed pie each", "a five-hundredth of them: the twin in NumPy"
WHOLE, PLAIN = "a million node-steps: of a dressed pie", "a million node-steps: bare diffusion"
TOPPINGS = Step(360.0, sauce=1.2, cheese=1.2)


def main() -> None:
    """Time everything, and keep the result; a trial run takes few kitchens."""
    given = arguments(__doc__ or "")
    kept = given.keep == RESULTS
    many = 10_000 if kept else 500
    if kept:
        print(accuracy())
    blocks = pie(np.linspace(250.0, 275.0, BLOCKS * LANES), CORDIERITE, dressed=False, lanes=BLOCKS * LANES)
    with tempfile.TemporaryDirectory() as folder:
        plain = bare_steps(Path(folder))
        things: dict[str, Callable[[], object]] = {
            PIE: partial(run, bake, pie(275.0, CORDIERITE, dressed=False), [TOPPINGS], samples=60),
            PAR: partial(run, bake, pie(250.0, STEEL, dressed=False), par_bake(), samples=60),
            BUN: partial(run, bake, wedge("bun", 200.0, fan=True), [Step(900.0)], samples=60),
            LOAF: partial(run, bake, wedge("loaf", 210.0, longest=4.0, cells=24), [Step(2100.0)], samples=60),
            OURS: partial(run, bake, bare(), [Step(SECONDS)], samples=1),
            DENSE: partial(solved, False),
            BANDED: partial(solved, True),
            WHOLE: partial(run, partial(bake, threads=1), blocks, [TOPPINGS], samples=1),
            PLAIN: plain,
        }
        times = timed(things, given.runs, time.process_time)
    for name, count in (
        (WHOLE, taken(blocks.stepping, 360.0) * CELLS * LANES * BLOCKS),
        (PLAIN, BARE_STEPS * CELLS * LANES),
    ):
        times[name] = scaled(times[name], 1e6 / count)
    lots = pie(np.linspace(240.0, 280.0, many), CORDIERITE, dressed=False, lanes=many)
    few = pie(np.linspace(240.0, 280.0, many // 500), CORDIERITE, dressed=False, lanes=many // 500)
    times |= timed(
        {
            MANY: partial(run, bake, lots, [TOPPINGS], samples=1),
            TWIN: partial(run, twin, few, [TOPPINGS], samples=1),
        },
        min(given.runs, 5),
    )
    told("bake", times, claims(times), given.keep)


def claims(times: dict[str, Timing]) -> list[Claim]:
    """What is promised of the kernel, with what was found."""
    peer = min(times[DENSE].median, times[BANDED].median)
    return [
        *(Claim(name, 1e3 * times[name].median, "ms", 3.0) for name in (PIE, PAR, BUN, LOAF)),
        Claim("one bake, of the time of the faster BDF", 100.0 * times[OURS].median / peer, "%", 2.0),
        Claim(MANY, times[MANY].median, "s", 10.0),
        Claim("a whole node-step, over a bare one", times[WHOLE].median / times[PLAIN].median, "times", 20.0),
    ]


def par_bake() -> list[Step]:
    """Bare, lifted, left for a minute, dressed, finished."""
    return [Step(300.0), Step(60.0, lifted=True, changes=ROOM_AROUND), replace(TOPPINGS, seconds=240.0)]


def bare(longest: float = 2.0) -> Scene:
    """What both can do: nothing evaporates below boiling, and steam takes up no heat on its way out."""
    scene = pie(250.0, STEEL, dressed=False, parameters=replace(P, steam_heat=0.0))
    return replace(scene, values=scene.values | {"skin_dough": 1e-30}, stepping=BakeStepping(longest=longest))


def solved(banded: bool, rate: float = 20.0, tolerance: float = 1e-3, longest: float = np.inf) -> Array:
    """Loss, base cell and base colour by SciPy; water boils onto its curve at so much a second."""
    scene = bare()
    odes = Bake(scene.column, scene.values, rate)
    more = {"jac_sparsity": pattern(odes)} if banded else {}
    found = solve_ivp(odes, (0.0, SECONDS), odes.start, method="BDF", rtol=tolerance, atol=0.1 * tolerance,
                      max_step=longest, vectorized=True, **more)  # fmt: skip
    temperature, water, _, colour = odes.split(found.y[:, -1])
    return np.array([odes.split(odes.start)[1].sum() - water.sum(), temperature[odes.n], colour[0]])


def pattern(odes: Bake) -> Array:
    """Which rates feel which values: neighbours, and at the base how far it has dried."""
    cells, n = len(odes.s), odes.n
    dough, size = cells - n, len(odes.start)
    felt = np.zeros((size, size))
    for i in range(cells):
        for k in range(max(i - 1, 0), min(i + 2, cells)):
            felt[i, k] = 1.0
            if k >= n:
                felt[i, cells + k - n] = 1.0
    for i in range(dough):
        for row in (cells + i, cells + dough + i):
            felt[row, [n + i, row]] = 1.0
    base = [n - 1, *range(n, n + 6), *range(cells, cells + 6)]
    felt[np.ix_([n - 1, n, size - 2], base)] = 1.0
    felt[size - 1, [cells - 1, cells + dough - 1, size - 1]] = felt[size - 2, size - 2] = 1.0
    return felt


def accuracy() -> str:
    """How far both are from the equations' answer at a tight tolerance, boiling infinitely fast."""
    slow, fast = (solved(False, rate, 1e-6, 5.0) for rate in (20.0, 60.0))
    exact = fast + 0.5 * (fast - slow)
    column = run(bake, bare(), [Step(SECONDS)], samples=1)[0].column
    ours = np.array(
        [column.read("lost")[0], column.state[0, column.surface, 0], column.read("base_browning")[0]]
    )
    ours, dense, banded = (100.0 * np.abs(one / exact - 1.0) for one in (ours, solved(False), solved(True)))
    return "\n".join(
        f"off in loss, base, colour of the base: {', '.join(f'{one:.2f} %' for one in off)} ({name})"
        for name, off in ((OURS, ours), (DENSE, dense), (BANDED, banded))
    )


def twin(**given: object) -> object:
    """The kernel's twin, whatever is compiled."""
    from doughwright.science.kernels.bake_twin import bake as plain

    return plain(**given)


def taken(stepping: BakeStepping, seconds: float) -> int:
    """How many steps a phase takes."""
    steps, done, last = 0, 0.0, np.array([stepping.first / stepping.growth])
    while done < seconds:
        last = stepping.next(last=last, left=np.array([seconds - done]))
        steps, done = steps + 1, done + float(last[0])
    return steps


def scaled(one: Timing, by: float) -> Timing:
    """The same for so many times as much."""
    return replace(one, median=by * one.median, low=by * one.low, high=by * one.high)


def bare_steps(folder: Path) -> Callable[[], object]:
    """The bare step, compiled as the kernel is; called, it takes its steps."""
    library = folder / "bake_step.so"
    source = ROOT / "benchmarks" / "bake_step.c"
    words = [os.environ.get("CC", "cc"), *OPTIONS, "-I", str(KERNEL), str(source), "-o", str(library)]
    subprocess.run(words, check=True)
    steps = ctypes.CDLL(str(library)).bare_steps
    arrays = [np.full(CELLS * LANES, value) for value in (22.0, 60.0, 500.0)]
    arrays += [np.full(LANES, value) for value in (20.0, 250.0)] + [np.zeros(2 * CELLS * LANES)]
    places = [ctypes.c_void_p(one.ctypes.data) for one in arrays]

    def called() -> object:
        steps(CELLS, BARE_STEPS, *places)
        return arrays

    return called


if __name__ == "__main__":
    main()
