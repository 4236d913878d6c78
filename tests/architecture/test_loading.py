"""What a command may load: a verb that needs no arrays does not pay for them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

RECIPE = """\
schema = 1
title = "Plain flat pie"

[makes]
pieces = 2
shape = "round"
diameter = "30 cm"

[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "bread flour", amount = "500 g" },
  { item = "water", amount = "310 g" },
  { item = "salt, fine", amount = "10 g" },
  { item = "instant yeast", amount = "1 g" },
]

[[step]]
do = "mix"
mix = "dough"
for = "10 min"

[[step]]
do = "bulk"
for = "8 h"
at = "room"

[[step]]
do = "shape"
"""
VERB = """\
import json, sys
from doughwright.cli import main
sys.argv = ["doughwright", *sys.argv[1:]]
try:
    main()
except SystemExit as end:
    code = end.code
print(json.dumps([code, sorted({name.partition(".")[0] for name in sys.modules})]), file=sys.stderr)
"""


def loaded_by(code: str, *arguments: str) -> tuple[int, set[str]]:
    """The exit code, and the top-level modules that a fresh interpreter ends up with."""
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=False, timeout=60
    )
    exit_code, names = json.loads(done.stderr.splitlines()[-1])
    return exit_code or 0, set(names)


def loaded_by_verb(folder: Path, *arguments: str) -> set[str]:
    path = folder / "pie.toml"
    path.write_text(RECIPE, encoding="utf-8")
    exit_code, names = loaded_by(VERB, arguments[0], str(path), *arguments[1:])
    assert exit_code == 0
    return names


def test_importing_the_package_loads_nothing_else() -> None:
    """``import doughwright`` costs next to nothing: no module but the standard library's."""
    code = (
        "import json, sys; before = set(sys.modules); import doughwright; "
        "after = {n.partition('.')[0] for n in set(sys.modules) - before}; "
        "print(json.dumps([0, sorted(after)]), file=sys.stderr)"
    )
    _, names = loaded_by(code)
    assert {name for name in names if name not in sys.stdlib_module_names} == {"doughwright"}


def test_formula_loads_neither_numpy_nor_scipy(tmp_path: Path) -> None:
    """A formula is arithmetic, and answers at once; it needs no web and no store either."""
    names = loaded_by_verb(tmp_path, "formula", "--json")
    assert names & {"numpy", "scipy", "starlette", "uvicorn", "sqlalchemy", "alembic", "typst"} == set()


def test_days_loads_no_scipy(tmp_path: Path) -> None:
    """The days are clear NumPy; SciPy takes half a second to load."""
    names = loaded_by_verb(tmp_path, "days", "--json")
    assert names & {"scipy", "starlette", "uvicorn", "typst"} == set()
