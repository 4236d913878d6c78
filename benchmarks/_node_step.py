"""node_step.c compiled and called: a step of the kernel, its heat alone, and a bare diffusion step."""

from __future__ import annotations

import ctypes
import os
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
from _kitchens import MANY, NODES, TABLES, kitchens, legs
from _measure import ROOT

from doughwright.science.yeast import Array

KERNEL = ROOT / "src/doughwright/science/kernels"
# As setup.py has the kernel compiled.
OPTIONS = [
    "-std=c11",
    "-O3",
    "-ffp-contract=off",
    "-fno-math-errno",
    "-fno-trapping-math",
    "-fPIC",
    "-shared",
]
SIZES = {
    name: int(size)
    for name, size in re.findall(r"DW_(\w+) = (\d+)", (KERNEL / "core.h").read_text(encoding="utf-8"))
}
LANES = SIZES["LANES"]
STEPS = 2500


class Plan(ctypes.Structure):
    """dw_plan of core.h."""

    _fields_ = [
        *((name, ctypes.c_int) for name in ("nodes", "shape", "stop", "samples", "curve_rows")),
        *((name, ctypes.c_void_p) for name in ("curves", "fractions")),
        *((name, ctypes.c_double) for name in (
            "growth_minimum", "growth_maximum", "first", "growth", "longest", "settling", "slowest", "share",
        )),
    ]  # fmt: skip


class Block(ctypes.Structure):
    """dw_block of core.h."""

    _fields_ = [
        *((name, ctypes.c_void_p) for name in (
            "inputs", "state", "tightness", "state_after", "tightness_after", "took", "rows", "snapshots",
        )),
        ("stride", ctypes.c_ssize_t), ("count", ctypes.c_int),
    ]  # fmt: skip


def aligned(count: int) -> Array:
    """Doubles that begin at a multiple of 64 bytes."""
    room = np.zeros(count + 8)
    start = (-room.ctypes.data // 8) % 8
    return room[start : start + count]


def at(values: Array) -> ctypes.c_void_p:
    """Where an array lies."""
    return ctypes.c_void_p(values.ctypes.data)


class Parts:
    """One block of kitchens; each part, called with nothing, says how many node-steps it went through."""

    def __init__(self, folder: Path) -> None:
        self.library = ctypes.CDLL(str(compiled(folder)))
        inputs, state = kitchens(LANES)
        self.table, self.work = (
            aligned(SIZES["TABLE"] * len(TABLES.rows)),
            aligned(SIZES["WORK"] * NODES * LANES),
        )
        self.end = np.array([1.0])
        step = MANY
        self.plan = Plan(
            NODES, 0, 0, 1, len(TABLES.rows), TABLES.rows.ctypes.data, self.end.ctypes.data,
            TABLES.growth_minimum, TABLES.growth_maximum,
            step.first, step.growth, step.longest, step.settling, step.longest, step.share,
        )  # fmt: skip
        self.library.dw_tabulate(ctypes.byref(self.plan), at(self.table))
        self.kept: list[Array] = []
        self.blocks = []
        tightness = np.ones(LANES)
        for leg in legs(inputs):
            after = [
                np.empty_like(state),
                np.empty(LANES),
                np.empty(LANES),
                np.empty((1, SIZES["ROW"], LANES)),
            ]
            self.kept += [leg, state, tightness, *after]
            places = [one.ctypes.data for one in (leg, state, tightness, *after)]
            self.blocks.append(Block(*places, None, LANES, LANES))
            self.whole_of(self.blocks[-1])
            state, tightness = after[0], after[1]
        self.bare_arrays = self.bare_case()

    def whole_of(self, block: Block) -> int:
        places = (ctypes.byref(self.plan), ctypes.byref(block), at(self.table), at(self.work))
        return int(self.library.whole_steps(*places))

    def whole(self) -> int:
        """The schedule's waits, as the kernel runs them."""
        return sum(self.whole_of(block) for block in self.blocks) * NODES * LANES

    def heat(self) -> int:
        """Heat alone, in the fridge."""
        places = (ctypes.byref(self.plan), ctypes.byref(self.blocks[1]), at(self.table), at(self.work))
        self.library.heat_steps(*places, STEPS, ctypes.c_double(299.0))
        return STEPS * NODES * LANES

    def bare(self) -> int:
        """Crank-Nicolson alone."""
        self.library.bare_steps(NODES, STEPS, *(at(one) for one in self.bare_arrays))
        return STEPS * NODES * LANES

    def bare_case(self) -> list[Array]:
        depths = np.arange(NODES + 1) / NODES
        temperature, work = aligned(NODES * LANES), aligned(2 * NODES * LANES)
        temperature[:] = 20.0
        lanes = [aligned(LANES) for _ in range(4)]
        for row, value in zip(lanes, (2.0, 10.0, 0.5, 5.0), strict=True):
            row[:] = value
        return [temperature, np.diff(depths**3), depths[1:] ** 2, *lanes, work]


def compiled(folder: Path) -> Path:
    """The library, made by the compiler that the set-up takes."""
    library = folder / "node_step.so"
    source = ROOT / "benchmarks" / "node_step.c"
    words = [os.environ.get("CC", "cc"), *OPTIONS, "-I", str(KERNEL), str(source), "-o", str(library)]
    subprocess.run(words, check=True)
    return library


def per_million(part: Callable[[], int]) -> Callable[[], int]:
    """Run a part until it has gone through a million node-steps, near enough."""
    size = part()
    turns = max(1, round(1e6 / size))
    return lambda: sum(part() for _ in range(turns))
