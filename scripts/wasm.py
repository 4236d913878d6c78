"""Compile the kernel's own source to WebAssembly, run it there, and find the native digits: ``make wasm``.

    python scripts/wasm.py [--keep FILE]

The waits are real ones: every wait of the demo's recipes in their kitchens, and a row of kitchens at random.
"""

from __future__ import annotations

import argparse
import re
import struct
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unittest import mock

import numpy as np
import wasmtime

from doughwright.forecast import _wait
from doughwright.forecast.days import days
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import load_kitchen
from doughwright.recipe.read import load_recipe
from doughwright.science.kernels import waits
from doughwright.science.kernels.layout import Waited

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src/doughwright/science/kernels/core.c"
OPTIONS = [
    "-target", "wasm32-wasi", "-mexec-model=reactor", "-msimd128", "-std=c11", "-O3", "-ffp-contract=off",
    "-fno-math-errno", "-Wl,--export=dw_wait", "-Wl,--export=dw_tabulate", "-Wl,--export=__heap_base",
]  # fmt: skip
SHAPES, STOPS = ("ball", "slab", "tin"), (None, "core", "rise")
SIZES = dict(re.findall(r"DW_(\w+) = (\d+)", SOURCE.with_name("core.h").read_text(encoding="utf-8")))
LANES, WORK, TABLE = (int(SIZES[name]) for name in ("LANES", "WORK", "TABLE"))
PAGE = 65536
WITHIN = 1e-12
"""How far a number may be off, as a share of it (of a thousandth of its unit where it is small)."""


class Module:
    """The kernel in a WebAssembly runtime; its memory is laid out from here, as a page's script would."""

    def __init__(self, path: Path) -> None:
        engine = wasmtime.Engine()
        module = wasmtime.Module.from_file(engine, str(path))
        if module.imports:
            raise SystemExit(f"wasm: the kernel wants {[one.name for one in module.imports]} of its host")
        self.store = wasmtime.Store(engine)
        # What it brings: memory, the two functions, where free memory begins.
        self.given: Any = wasmtime.Instance(self.store, module, []).exports(self.store)
        self.free = 0

    def take(self, size: int) -> int:
        """An address of so many bytes, a multiple of 64."""
        address = -(-self.free // 64) * 64
        self.free = address + size
        missing = self.free - self.given["memory"].data_len(self.store)
        if missing > 0:
            self.given["memory"].grow(self.store, -(-missing // PAGE))
        return address

    def put(self, values: np.ndarray | bytes) -> int:
        """Where a copy of something lies."""
        data = values if isinstance(values, bytes) else values.tobytes()
        address = self.take(len(data))
        self.given["memory"].write(self.store, data, address)
        return address

    def get(self, address: int, shape: tuple[int, ...]) -> np.ndarray:
        """Doubles at an address."""
        size = 8 * int(np.prod(shape))
        data = self.given["memory"].read(self.store, address, address + size)
        return np.frombuffer(bytes(data)).reshape(shape)

    def wait(self, arguments: dict[str, Any]) -> Waited:
        """One wait, block by block: dw_plan and dw_block of core.h, with addresses of four bytes."""
        self.free = self.given["__heap_base"].value(self.store)
        state, samples, curves = (arguments[name] for name in ("state", "samples", "curves"))
        (_, nodes, lanes), count, step = state.shape, len(samples), arguments["stepping"]
        kinds = SHAPES.index(arguments["shape"]), STOPS.index(arguments["stop"])
        plan = self.put(
            struct.pack(
                "<5iII4x8d", nodes, *kinds, count, len(curves.rows), self.put(curves.rows), self.put(samples),
                curves.growth_minimum, curves.growth_maximum, step.first, step.growth, step.longest,
                step.settling, step.slowest, step.share,
            )
        )  # fmt: skip
        given = [self.put(arguments[name]) for name in ("inputs", "state", "tightness")]
        shapes = [state.shape, (lanes,), (lanes,), (count, 11, lanes), (count, *state.shape)]
        made = [self.take(8 * int(np.prod(shape))) for shape in shapes]
        table, work = (self.take(8 * size) for size in (TABLE * len(curves.rows), WORK * nodes * LANES))
        self.given["dw_tabulate"](self.store, plan, table)
        for first in range(0, lanes, LANES):
            places = [address + 8 * first for address in given + made]
            block = self.put(struct.pack("<8I2i", *places, lanes, min(LANES, lanes - first)))
            self.given["dw_wait"](self.store, plan, block, table, work)
        return Waited(*(self.get(address, shape) for address, shape in zip(made, shapes, strict=True)))


def compiled(into: Path) -> None:
    """Compile the source as it is."""
    subprocess.run(
        [sys.executable, "-m", "ziglang", "cc", *OPTIONS, "-o", str(into), str(SOURCE)], check=True
    )


def demo_waits() -> Iterator[dict[str, Any]]:
    """The arguments of every wait of the demo's recipes."""
    taken: list[dict[str, Any]] = []

    def listen(**arguments: Any) -> Waited:
        taken.append(arguments)
        return waits.wait(**arguments)

    with mock.patch.object(_wait, "kernel_wait", listen):
        for path in sorted((ROOT / "src/doughwright/cli/demo").glob("*.toml")):
            if "[[mix]]" in path.read_text(encoding="utf-8"):
                recipe = load_recipe(path).recipe
                kitchen = load_kitchen(path.parent / recipe.kitchen).kitchen if recipe.kitchen else None
                days(recipe, surroundings(kitchen))
    return iter(taken)


def random_waits() -> Iterator[dict[str, Any]]:
    """A row of kitchens for each shape and stop."""
    sys.path.insert(0, str(ROOT))
    from tests.science.kernels._doughs import STEPPINGS, draw

    for seed, shape in enumerate(("ball", "slab", "tin")):
        for stop in (None, "core", "rise"):
            case = draw(seed, lanes=40, nodes=10, hours=24.0, shape=shape, stepping=STEPPINGS[1], stop=stop)
            yield case.arguments


def farthest(one: Waited, other: Waited) -> float:
    """The largest difference of any two numbers, as a share of them."""
    names = ("state", "tightness", "took", "rows", "snapshots")
    pairs = [(getattr(one, name), getattr(other, name)) for name in names]
    return max(float((np.abs(a - b) / (np.abs(b) + 1e-3)).max()) for a, b in pairs)


def main() -> int:
    """Compile, run, compare."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--keep", type=Path, help="where to leave the WebAssembly file")
    given = parser.parse_args()
    if waits.engine() != "compiled":
        print(
            "wasm: there is no native kernel here to compare with (no C compiler at set-up)", file=sys.stderr
        )
        return 1
    with tempfile.TemporaryDirectory() as folder:
        path = given.keep or Path(folder) / "core.wasm"
        compiled(path)
        module = Module(path)
        cases = [*demo_waits(), *random_waits()]
        worst, equal = 0.0, 0
        for arguments in cases:
            arguments = {**arguments, "snapshots": True}
            far = farthest(module.wait(arguments), waits.wait(**arguments))
            worst, equal = max(worst, far), equal + (far == 0.0)
        size = path.stat().st_size // 1024
    rest = f", the others within {worst:.1e}" if equal < len(cases) else ""
    print(f"wasm: {size} kB; {len(cases)} waits, {equal} of them to the last digit{rest}")
    return 0 if worst <= WITHIN else 1


if __name__ == "__main__":
    sys.exit(main())
