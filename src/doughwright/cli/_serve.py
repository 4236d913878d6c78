"""The verb that starts the bench on screen."""

from __future__ import annotations

import gc

import click


@click.command()
@click.argument("folder", type=click.Path(file_okay=False), default=".")
@click.option("--port", type=click.IntRange(1024, 65535), help="The port; left out: the usual or a free one.")
def serve(folder: str, port: int | None) -> None:
    """Serve the bench in FOLDER on this machine only, until it is stopped."""
    start(folder, port)


def start(folder: str, port: int | None) -> None:
    """Start the bench on screen; the one place of the command line that loads the web."""
    from doughwright.web import serve as serve_folder

    # Unlike the other verbs this one lasts.
    gc.enable()
    serve_folder(folder, port)
