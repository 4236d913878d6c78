"""Write docs/speed.md from the latest result of each benchmark: ``make speed`` does."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
HEAD = """# Speed

Made by `make speed` from the latest run of each script in `benchmarks/`; do not edit. Each figure is a
median, with the quarter points of its runs; a peer is timed in the same run, turn by turn.
"""


def latest(results: Path) -> list[dict[str, Any]]:
    """The last result of each benchmark."""
    files = sorted(results.glob("*.jsonl"))
    return [json.loads(one.read_text(encoding="utf-8").splitlines()[-1]) for one in files]


def section(result: dict[str, Any]) -> list[str]:
    """One benchmark: where it ran, its medians, its claims beside their limits."""
    versions = ", ".join(f"{name} {version}" for name, version in result["versions"].items() if version)
    where = (
        f"`benchmarks/{result['benchmark']}.py`, {result['when'][:10]}, commit {result['commit']}. "
        f"{result['processor']}, {result['cores']} cores, load {result['load']} when it ended, "
        f"Python {result['python']}, {versions}."
    )
    lines = [
        "",
        f"## {result['benchmark'].replace('_', ' ').capitalize()}",
        "",
        where,
        "",
        "| what | median, ms | quarters, ms | runs |",
        "|---|---:|---:|---:|",
    ]
    lines += [
        f"| {one['what']} | {one['median'] * 1000:.1f} | {one['low'] * 1000:.1f} to {one['high'] * 1000:.1f} "
        f"| {one['runs']} |"
        for one in result["timings"]
    ]
    lines += ["", "| claim | measured | limit | |", "|---|---:|---:|---|"]
    lines += [
        f"| {one['what']} | {one['value']:.2f} {one['unit']} | {one['limit']:g} {one['unit']} "
        f"| {'within' if one['ok'] else 'above'} |"
        for one in result["claims"]
    ]
    picture = f"pictures/{result['benchmark']}.svg"
    if (ROOT / "docs" / picture).is_file():
        lines += ["", f"![What {result['benchmark']} measured, as a picture]({picture})"]
    return lines


def main(results: Path, page: Path) -> None:
    """Write the page."""
    lines = [line for result in latest(results) for line in section(result)]
    page.write_text(HEAD + "\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    given = [Path(one) for one in sys.argv[1:3]]
    main(*(given or [ROOT / "benchmarks" / "results", ROOT / "docs" / "speed.md"]))
