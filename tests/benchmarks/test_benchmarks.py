"""Each benchmark runs and keeps what it measured; how fast it was is nobody's test."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.tree
ROOT = Path(__file__).resolve().parents[2]
# The others there are studies: they write pages of their own, and time nothing against a peer.
SCRIPTS = [
    ROOT / "benchmarks" / f"{name}.py"
    for name in ("bake", "fit", "formula_command", "kernel", "parse_large", "sheet")
]


def test_every_benchmark_is_run_here() -> None:
    """A script that measures as these do is tested as these are."""
    scripts = sorted((ROOT / "benchmarks").glob("[!_]*.py"))
    measuring = [one for one in scripts if "from _measure import" in one.read_text(encoding="utf-8")]
    assert measuring == SCRIPTS


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda one: one.stem)
def test_a_benchmark_runs_and_keeps_its_result(script: Path, tmp_path: Path) -> None:
    """Once each, into a folder of its own: medians, claims with their limits, machine, commit, versions."""
    command = [sys.executable, str(script), "--runs", "2", "--keep", str(tmp_path)]
    ran = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    (line,) = (tmp_path / f"{script.stem}.jsonl").read_text(encoding="utf-8").splitlines()
    kept = json.loads(line)
    assert {"benchmark", "commit", "processor", "cores", "python", "versions", "timings", "claims"} <= set(
        kept
    )
    assert len(kept["timings"]) >= 2
    assert all(one["low"] <= one["median"] <= one["high"] for one in kept["timings"])
    assert all(claim["value"] > 0 for claim in kept["claims"])
    for one in [*kept["timings"], *kept["claims"]]:
        assert one["what"] in ran.stdout


def test_the_large_document_is_as_large_as_it_says() -> None:
    """300 ingredients beside the flour, 221 of them different, and 100 steps; no two runs read the same."""
    code = (
        "from parse_large import document\n"
        "from doughwright.recipe.read import read_recipe\n"
        "recipe = read_recipe(document(7)).recipe\n"
        "lines = [line for mix in recipe.mixes for line in mix.ingredients]\n"
        "assert document(7) != document(8)\n"
        "print(len(lines), len(recipe.steps), len({line.item for line in lines}))\n"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT / "benchmarks", capture_output=True, text=True, check=True
    )
    assert ran.stdout.split() == ["301", "100", "222"]


def test_the_summary_is_made_of_the_latest_of_each(tmp_path: Path) -> None:
    """The page quotes every claim with its limit, and the peers beside it."""
    for script in SCRIPTS[4:5]:
        command = [sys.executable, str(script), "--runs", "1", "--keep", str(tmp_path)]
        subprocess.run(command, capture_output=True, check=True)
    page = tmp_path / "speed.md"
    command = [sys.executable, str(ROOT / "scripts" / "speed.py"), str(tmp_path), str(page)]
    subprocess.run(command, capture_output=True, check=True)
    text = page.read_text(encoding="utf-8")
    assert "| tomlkit.parse |" in text
    assert "times plain tomlkit" in text
