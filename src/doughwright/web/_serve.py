"""Start the bench: a socket on this machine's own address, and the server on it."""

from __future__ import annotations

import os
import socket
import sys

from doughwright.errors import Fault, InputError

HOST = "127.0.0.1"
DEFAULT_PORT = 8764


def serve(folder: str | os.PathLike[str], port: int | None = None) -> None:
    """Serve the bench in a folder until it is stopped; print its address first.

    Without a ``port`` the usual one is taken, or any free one where another program has it. Raises
    ``InputError`` where the port that is asked for cannot be had.
    """
    import uvicorn

    from doughwright.web._app import app

    with listening(port) as ears:
        taken = int(ears.getsockname()[1])
        bench = app(folder, port=taken)
        sys.stdout.write(f"The bench is at http://{HOST}:{taken}/ (this machine only). Ctrl+C stops it.\n")
        sys.stdout.flush()
        config = uvicorn.Config(bench, log_level="warning", access_log=False, server_header=False)
        uvicorn.Server(config).run(sockets=[ears])


def listening(port: int | None) -> socket.socket:
    """A socket bound to this machine's own address, at the port asked for, the usual one or a free one."""
    wanted = [port] if port is not None else [DEFAULT_PORT, 0]
    for one in wanted:
        ears = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        ears.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            ears.bind((HOST, one))
            ears.listen(128)
        except (OSError, OverflowError):
            ears.close()
            continue
        return ears
    raise InputError(
        Fault("the port cannot be had", wanted="a free port from 1024 to 65535", found=str(port),
              try_="Leave the port out: a free one is found")
    )  # fmt: skip
