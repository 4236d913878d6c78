"""``serve`` listens on this machine's own address, at the usual port or a free one, and says where."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
from pathlib import Path

import httpx
import pytest

from doughwright.errors import InputError
from doughwright.web import DEFAULT_PORT
from doughwright.web._serve import HOST, listening

SERVE = "import sys; from doughwright.web import serve; serve(sys.argv[1])"


def test_a_bench_is_served_and_says_where(tmp_path: Path) -> None:
    """A folder that is not there yet becomes an empty bench; the address printed first answers."""
    command = [sys.executable, "-c", SERVE, str(tmp_path / "new")]
    server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert server.stdout is not None
        said = server.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:\d+/", said)
        assert found is not None
        answer = httpx.get(found[0], trust_env=False, timeout=20)
        assert (answer.status_code, "There is no recipe yet" in answer.text) == (200, True)
        assert "server" not in answer.headers
    finally:
        server.terminate()
        server.communicate(timeout=20)


def test_only_this_machines_own_address_is_listened_on() -> None:
    """Not every address of the machine."""
    with listening(0) as ears:
        assert ears.getsockname()[0] == HOST == "127.0.0.1"


def test_a_taken_usual_port_gives_a_free_one() -> None:
    """And one that was asked for is an error that says what to do."""
    with socket.socket() as taken:
        taken.bind((HOST, 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(InputError, match="Leave the port out"):
            listening(port)
    with listening(None) as first, listening(None) as second:
        ports = [one.getsockname()[1] for one in (first, second)]
    assert len(set(ports)) == 2
    assert DEFAULT_PORT == 8764
