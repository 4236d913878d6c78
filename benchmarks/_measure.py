"""What every benchmark shares: medians of alternating runs, what is printed, what is kept.

A peer is timed in the same run, turn by turn with ours, so that a busy machine slows both.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from importlib import metadata
from pathlib import Path
from statistics import median, quantiles

ROOT = Path(__file__).resolve().parent.parent
RESULTS = ROOT / "benchmarks" / "results"
LIBRARIES = ("doughwright", "tomlkit", "pydantic", "click", "numpy")


@dataclass(frozen=True)
class Timing:
    """Seconds that one thing took: the median of its runs, with the quarter points beside it."""

    what: str
    median: float
    low: float
    high: float
    runs: int


@dataclass(frozen=True)
class Claim:
    """A measured figure beside the limit it is held to; ``ok`` is never tested, only printed and kept."""

    what: str
    value: float
    unit: str
    limit: float

    @property
    def ok(self) -> bool:
        """Whether the figure is within its limit."""
        return self.value <= self.limit


def arguments(description: str) -> argparse.Namespace:
    """``--runs`` and ``--keep`` as every benchmark takes them."""
    parser = argparse.ArgumentParser(description=description)
    parser.add_argument("--runs", type=int, default=15, help="how often each thing is timed")
    parser.add_argument("--keep", type=Path, default=RESULTS, help="the folder that results are added to")
    return parser.parse_args()


def timed(
    things: Mapping[str, Callable[[], object]], runs: int, clock: Callable[[], float] = time.perf_counter
) -> dict[str, Timing]:
    """Each thing once unmeasured, then all of them in turn, ``runs`` times; by the wall, or another clock."""
    for thing in things.values():
        thing()
    seconds: dict[str, list[float]] = {name: [] for name in things}
    for _ in range(runs):
        for name, thing in things.items():
            start = clock()
            thing()
            seconds[name].append(clock() - start)
    return {name: _timing(name, taken) for name, taken in seconds.items()}


def _timing(name: str, seconds: list[float]) -> Timing:
    quarters = quantiles(seconds, n=4) if len(seconds) > 1 else [seconds[0]] * 3
    return Timing(name, median(seconds), quarters[0], quarters[2], len(seconds))


def command(*words: str) -> Callable[[], object]:
    """A whole process, its output thrown away; it has to end well. Its modules are compiled once, as ever."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}

    def run() -> object:
        return subprocess.run(words, check=True, stdout=subprocess.DEVNULL, env=environment)

    return run


def told(benchmark: str, timings: Mapping[str, Timing], claims: list[Claim], keep: Path) -> None:
    """Print a benchmark's medians and claims, and add them to its results as one line of JSON."""
    width = max(len(name) for name in [*timings, *(claim.what for claim in claims)])
    for one in timings.values():
        print(
            f"{one.what:{width}}  {one.median * 1000:8.1f} ms   ({one.low * 1000:.1f} to "
            f"{one.high * 1000:.1f}, median and quarters of {one.runs})"
        )
    for claim in claims:
        word = "within" if claim.ok else "ABOVE"
        print(f"{claim.what:{width}}  {claim.value:8.2f} {claim.unit}   {word} {claim.limit:g}")
    keep.mkdir(parents=True, exist_ok=True)
    line = {
        "benchmark": benchmark,
        **machine(),
        "timings": [asdict(one) for one in timings.values()],
        "claims": [asdict(claim) | {"ok": claim.ok} for claim in claims],
    }
    with (keep / f"{benchmark}.jsonl").open("a", encoding="utf-8") as results:
        results.write(json.dumps(line, ensure_ascii=False) + "\n")


def machine() -> dict[str, object]:
    """When, at which commit, on what machine and with which versions this was measured."""
    return {
        "when": datetime.now(UTC).isoformat(timespec="seconds"),
        "commit": commit(),
        "processor": _processor(),
        "cores": os.cpu_count(),
        "load": round(os.getloadavg()[0], 2) if hasattr(os, "getloadavg") else None,
        "system": platform.system(),
        "python": platform.python_version(),
        "versions": {name: _version(name) for name in LIBRARIES},
    }


def commit() -> str | None:
    """The commit of the checkout, with a plus where files have changed since."""
    try:
        ran = subprocess.run(
            ["git", "describe", "--always", "--dirty=+", "--exclude=*"],
            cwd=ROOT, check=True, capture_output=True, text=True,
        )  # fmt: skip
    except (OSError, subprocess.CalledProcessError):
        return None
    return ran.stdout.strip()


def _processor() -> str:
    try:
        lines = Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
    except OSError:
        return platform.machine()
    names = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
    return names[0] if names else platform.machine()


def _version(name: str) -> str | None:
    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return None


def doughwright() -> str:
    """The command ``doughwright`` of this environment."""
    return str(Path(sys.executable).parent / "doughwright")
