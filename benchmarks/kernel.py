"""The days' kernel: one kitchen beside LSODA, ten thousand of them, a node-step beside a bare diffusion step.

One kitchen, the node-steps and the rising lots are timed by the processor's clock, many kitchens by the wall.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from _kitchens import HOURS, LEGS, NODES, schedule
from _measure import RESULTS, ROOT, Claim, Timing, arguments, timed, told
from _node_step import Parts, per_million
from _plot import Line, plot
from _stiff import matched, stiff

PICTURE = ROOT / "docs" / "pictures" / "kernel.svg"
KERNEL, SOLVER = "one kitchen, 72 h, twenty times: the kernel", "one kitchen, 72 h, once: solve_ivp LSODA"
CYCLED, CYCLED_SOLVER = (f"{name}, its fridge cycling" for name in (KERNEL, SOLVER))
TURNS = 20
EVEN, CYCLE = "many kitchens, 72 h", "many kitchens, 72 h, a fridge that cycles every 45 min"
LONGER, PEER = "many kitchens, 66 h more in the fridge", "a fiftieth of them, 72 h: the twin in NumPy"
WHOLE, HEAT, BARE = (f"a million node-steps: {name}" for name in ("whole", "heat alone", "bare diffusion"))
RISING = (10, 30, 100, 300, 1_000, 3_000, 10_000, 30_000, 100_000, 300_000, 1_000_000)
MEMORY = (
    "import resource, _kitchens; _kitchens.schedule({count})(); "
    "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)"
)


def main() -> None:
    """Time everything, and keep the result; a trial run takes few kitchens."""
    given = arguments(__doc__ or "")
    kept = given.keep == RESULTS
    many = 10_000 if kept else 500
    things: dict[str, Callable[[], object]] = {}
    for kernel, peer, swing in ((KERNEL, SOLVER, 0.0), (CYCLED, CYCLED_SOLVER, 1.0)):
        one = stiff(swing)
        ours, theirs, tolerance, things[peer] = matched(one, 1e-8 if kept else 1e-6)
        things[kernel] = partial(repeated, one.kernel)
        print(f"{peer}: rtol {tolerance:g}, error of the rise {theirs:.1e}; the kernel's {ours:.1e}")
    with tempfile.TemporaryDirectory() as folder:
        parts = Parts(Path(folder))
        steps = {WHOLE: parts.whole, HEAT: parts.heat, BARE: parts.bare}
        counts = {name: per_million(part)() for name, part in steps.items()}
        things |= {name: per_million(part) for name, part in steps.items()}
        times = timed(things, given.runs, time.process_time)
    lots = {
        EVEN: schedule(many), CYCLE: schedule(many, swing=1.0), LONGER: schedule(many, longer=2.0),
        PEER: schedule(many // 50, plain=True),
    }  # fmt: skip
    times |= timed(lots, min(given.runs, 7))
    costs = {count: cost(count) for count in (RISING if kept else RISING[:4])}
    if kept:
        draw(costs)
    told("kernel", times, claims(times, counts, costs, memory(many)), given.keep)


def claims(
    times: dict[str, Timing], counts: dict[str, int], costs: dict[int, float], most: float
) -> list[Claim]:
    """What is promised of the kernel, with what was found."""
    step = {name: times[name].median / count for name, count in counts.items()}
    # What a call costs in any case counts in a small lot: compared are the large ones.
    each = [seconds / count for count, seconds in costs.items() if count >= min(3000, max(costs))]
    more = (times[LONGER].median - times[EVEN].median) / times[EVEN].median
    even, cycled = (
        100.0 * times[ours].median / TURNS / times[peer].median
        for ours, peer in ((KERNEL, SOLVER), (CYCLED, CYCLED_SOLVER))
    )
    return [
        Claim("one kitchen, of the time of LSODA with a banded Jacobian", even, "%", 1.0),
        Claim("the same, its fridge cycling", cycled, "%", 1.0),
        Claim(EVEN, times[EVEN].median, "s", 3.0),
        Claim(CYCLE, times[CYCLE].median, "s", 3.0),
        Claim("a whole node-step, over a bare one", step[WHOLE] / step[BARE], "times", 12.0),
        Claim("its heat, over a bare one", step[HEAT] / step[BARE], "times", 12.0),
        Claim("its biology, over a bare one", (step[WHOLE] - step[HEAT]) / step[BARE], "times", 12.0),
        Claim("memory of many kitchens", most, "MB", 400.0),
        Claim("a kitchen of a large lot, dearest over cheapest", max(each) / min(each), "times", 1.5),
        Claim("an hour more, over one of the 72", abs(more) * HOURS / LEGS[1][0], "times", 1.2),
    ]


def repeated(thing: Callable[[], object]) -> None:
    """One kitchen some times, because once is too short to time."""
    for _ in range(TURNS):
        thing()


def cost(count: int) -> float:
    """Processor seconds of so many kitchens, all threads; the best of some runs where they are short."""
    run, best = schedule(count), float("inf")
    for _ in range(max(1, min(7, 20_000 // count))):
        start = time.process_time()
        run()
        best = min(best, time.process_time() - start)
    return best


def memory(count: int) -> float:
    """The most memory [MB] that a process of its own takes for so many kitchens, Python included."""
    ran = subprocess.run(
        [sys.executable, "-c", MEMORY.format(count=count)],
        cwd=ROOT / "benchmarks",
        check=True,
        capture_output=True,
        text=True,
    )
    return int(ran.stdout) / 1024.0


def draw(costs: dict[int, float]) -> None:
    """The cost of many kitchens as a picture, with the line of equal cost a kitchen."""
    most = max(costs)
    even = {count: costs[most] * count / most for count in costs}
    lines = [Line("measured", costs, dots=True), Line("the same for each kitchen", even, dots=False)]
    title = f"Processor seconds for a recipe of 72 h in many kitchens, {NODES} shells"
    PICTURE.write_text(plot(title, "kitchens", "s", lines), encoding="utf-8")


if __name__ == "__main__":
    main()
