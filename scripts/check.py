"""Everything that has to hold before a change lands; ``make check`` and the build server run exactly this.

Each part runs even where an earlier one failed. What could not run is named, and counts as failed.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
import venv
import zipfile
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PYTHON = sys.executable
# The wheel's own run leaves out what takes long and what reads the source tree.
AGAINST_THE_WHEEL = "not (browser or property or slow or tree)"
OF_THE_TREE = ["--ignore=tests/docs", "--ignore=tests/architecture"]
COMPILED = ROOT / "src/doughwright/science/kernels/_core.abi3.so"
WORKERS = ["-n", "2", "--dist", "worksteal"]


@dataclass(frozen=True)
class Outcome:
    """How one part of the check ended."""

    part: str
    ok: bool
    seconds: float
    note: str = ""


def run(*command: str, cwd: Path = ROOT) -> bool:
    """Run a command with its output on ours; true when it ended well."""
    print("$ " + " ".join(command), flush=True)
    return subprocess.run(command, cwd=cwd, check=False, env=environment()).returncode == 0


def environment() -> dict[str, str]:
    """Our environment, without what would change how a test behaves."""
    drop = {"PYTHONPATH", "PYTEST_ADDOPTS", "DOUGHWRIGHT_HYPOTHESIS"}
    return {name: value for name, value in os.environ.items() if name not in drop} | {
        "PYTHONUTF8": "1",
        "PYTHONHASHSEED": "0",
    }


def lint() -> bool:
    """The plain mistakes, and one way of laying out code."""
    tidy = run(PYTHON, "-m", "ruff", "check", ".")
    return run(PYTHON, "-m", "ruff", "format", "--check", "--quiet", ".") and tidy


def types() -> bool:
    """Strict types in the source."""
    return run(PYTHON, "-m", "mypy")


def sanitize() -> bool:
    """The kernel under AddressSanitizer and UBSan."""
    return run("sh", "scripts/sanitize.sh")


def wasm() -> bool:
    """The kernel as WebAssembly gives the native digits."""
    if not COMPILED.is_file():
        print("wasm: not run: no C compiler here, so there are no native digits")
        return True
    return run("sh", "scripts/setup.sh", "wasm") and run(PYTHON, "scripts/wasm.py")


def wheel() -> bool:
    """Build the wheel, install it in a fresh environment, and run the tests there, away from the source."""
    # What an earlier build left lying would go into this one.
    shutil.rmtree(ROOT / "build", ignore_errors=True)
    with tempfile.TemporaryDirectory(prefix="doughwright-wheel-") as folder:
        work = Path(folder)
        if not run(
            PYTHON, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(work / "dist"), str(ROOT)
        ):
            return False
        built = next((work / "dist").glob("*.whl"))
        if left_out := left_out_of(built):
            print(f"not in the wheel: {', '.join(left_out)}")
            return False
        venv.create(work / "env", with_pip=True, symlinks=True)
        python = str(work / "env/bin/python")
        pip = [python, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
        if not run(*pip, "--require-hashes", "-r", str(ROOT / "requirements/test.txt")):
            return False
        if not run(*pip, "--no-deps", "--no-index", str(built)) or not run(python, "-m", "pip", "check"):
            return False
        shutil.copytree(ROOT / "tests", work / "tests", ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copy(ROOT / "pyproject.toml", work)
        tests = [python, "-m", "pytest", "-q", "-m", AGAINST_THE_WHEEL, *OF_THE_TREE, *WORKERS]
        return run(str(work / "env/bin/doughwright"), "--version", cwd=work) and run(*tests, cwd=work)


def left_out_of(built: Path) -> list[str]:
    """Files of the source (tables, templates, migrations...) that the wheel does not hold."""
    source = ROOT / "src"
    files = {
        path.relative_to(source).as_posix()
        for path in (source / "doughwright").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    return sorted(files - set(zipfile.ZipFile(built).namelist()))


def tests() -> bool:
    """Every test in the source tree: architecture, unit, outside, property and browser."""
    choice = [] if has_chromium() else ["-m", "not browser"]
    return run(PYTHON, "-m", "pytest", "-q", "--durations", "8", *WORKERS, *choice)


def has_chromium() -> bool:
    """Whether the browser that the browser tests drive is here."""
    return shutil.which("chromium") is not None


PARTS = {
    "lint": lint, "types": types, "sanitize": sanitize, "wasm": wasm, "wheel": wheel, "tests": tests,
}  # fmt: skip


def main(names: list[str]) -> int:
    """Run the named parts, or all of them, and say how each ended."""
    unknown = [name for name in names if name not in PARTS]
    if unknown:
        print(f"check: no part {unknown[0]!r}; there are: {', '.join(PARTS)}", file=sys.stderr)
        return 2
    outcomes = []
    for name in names or PARTS:
        print(f"\n== {name}: {PARTS[name].__doc__}", flush=True)
        start = time.monotonic()
        ok = PARTS[name]()
        outcomes.append(Outcome(name, ok, time.monotonic() - start))
    if "tests" in (names or PARTS) and not has_chromium():
        note = "the Debian package chromium is missing; as root: apt-get install chromium"
        outcomes.append(Outcome("browser tests", False, 0.0, note))
    print()
    for one in outcomes:
        print(f"{one.part:14} {'ok' if one.ok else 'FAILED':7} {one.seconds:5.0f} s  {one.note}".rstrip())
    return 0 if all(one.ok for one in outcomes) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
