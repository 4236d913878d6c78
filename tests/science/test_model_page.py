"""The page of the model shows the parameters as they are."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.tree
def test_the_parameter_table_of_the_page_is_current() -> None:
    """``python scripts/model.py`` would change nothing."""
    command = [sys.executable, str(ROOT / "scripts" / "model.py"), "--check"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=60)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
