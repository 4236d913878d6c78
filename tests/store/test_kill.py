"""The writer is killed at any moment, and nothing that was saved is lost."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

KILLS = 240


def test_no_kill_loses_a_saved_version_or_hurts_the_file(tmp_path: Path) -> None:
    """240 kills at random moments, also while a bench is made: each time the file opens, with all in it.

    A kill ends the process, not the machine: that the disk has what it was told to keep is SQLite's to see to
    (``synchronous = FULL``), and is not shown here.
    """
    script = Path(__file__).with_name("kill_writer.py")
    command = [sys.executable, "-W", "error", str(script), str(tmp_path), str(KILLS), "20261128"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=240, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    result = json.loads(done.stdout)
    assert result["faults"] == []
    assert result["kills"] == KILLS
    # Otherwise the kills fell where nothing was being written.
    assert result["changes"] > KILLS
    assert result["killed_before_open"] < KILLS / 2
