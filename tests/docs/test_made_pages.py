"""The pages that are made from the code are the ones the code would make now."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("script", ["commands", "evidence"])
def test_the_page_is_current(script: str) -> None:
    """``make docs`` would change nothing."""
    command = [sys.executable, str(ROOT / "scripts" / f"{script}.py"), "--check"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=240)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")
