"""Serve a bench at a free port with its clock stopped at a Wednesday noon: run by the browser tests."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import uvicorn

from doughwright.web import app
from doughwright.web._serve import HOST, listening

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


def main(folder: str) -> None:
    with listening(0) as ears:
        port = int(ears.getsockname()[1])
        bench = app(folder, port=port, who="Ida", clock=lambda: NOON, zone=ZoneInfo("Europe/London"))
        sys.stdout.write(f"http://{HOST}:{port}\n")
        sys.stdout.flush()
        config = uvicorn.Config(bench, log_level="warning", access_log=False)
        uvicorn.Server(config).run(sockets=[ears])


if __name__ == "__main__":
    main(sys.argv[1])
