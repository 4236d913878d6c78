"""A folder with the design's two documents in it, and the command run in it."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from doughwright.cli import main

DATA = Path(__file__).parents[1] / "recipe" / "data"


@dataclass(frozen=True)
class Ran:
    """What a command did: its exit code and what it said on both channels."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """Standard output as JSON."""
        return json.loads(self.out)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Ran]:
    """Run ``doughwright`` with words in a folder of its own."""
    for path in DATA.glob("*.toml"):
        shutil.copy(path, tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("DOUGHWRIGHT_BENCH", raising=False)

    def go(*words: str, stdin: str | bytes | None = None) -> Ran:
        result = CliRunner().invoke(main, list(words), input=stdin)
        return Ran(result.exit_code, result.stdout, result.stderr)

    return go
