"""How far long work is, on standard error; Ctrl-C once ends it early and keeps what it has."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from time import monotonic
from types import FrameType

import click

EVERY = 0.3
"""Seconds between two lines on a terminal."""
PATIENCE = 3.0
"""Seconds before anything is said, and between two lines where there is no terminal."""


class Progress:
    """Told after each piece of work; asked whether to stop."""

    def __init__(self) -> None:
        self._begun = self._last = monotonic()
        self._live = sys.stderr.isatty()
        self._said = False
        self.stopped = False

    def says(self, done: int, total: int, left: float) -> None:
        """So many kitchens are done, and about so many seconds are left."""
        now = monotonic()
        wait = EVERY if self._live else PATIENCE
        if now - self._last < wait or (not self._said and now - self._begun + left < PATIENCE):
            return
        self._last, self._said = now, True
        text = f"{done:,} of {total:,} kitchens, {_time(left)} left"
        click.echo(f"\r{text:<60}" if self._live else text, err=True, nl=not self._live)

    def stop(self) -> bool:
        """Whether the cook has asked it to end."""
        return self.stopped

    def end(self) -> None:
        """Take the line away again."""
        if self._live and self._said:
            click.echo(f"\r{'':<60}\r", err=True, nl=False)

    def interrupt(self, number: int, frame: FrameType | None) -> None:
        """The first Ctrl-C asks it to end, a second ends it at once."""
        if self.stopped:
            raise KeyboardInterrupt
        self.stopped = True
        click.echo("\nStopping; what is done is kept.", err=True)


def _time(seconds: float) -> str:
    return f"{seconds:.0f} s" if seconds < 90.0 else f"{seconds / 60.0:.0f} min"


@contextmanager
def progress() -> Iterator[Progress]:
    """Progress on standard error while the work lasts."""
    one = Progress()
    before = signal.signal(signal.SIGINT, one.interrupt)
    try:
        yield one
    finally:
        signal.signal(signal.SIGINT, before)
        one.end()
