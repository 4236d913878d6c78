"""How far a long run is, how long it has to go, and whether it is to stop."""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter

Progress = Callable[[int, int, float], None]
"""Told after each chunk: kitchens done, kitchens in all, and the seconds left."""
Stop = Callable[[], bool]
"""Asked after each chunk whether to stop."""


class Watch:
    """Counts the kitchens of a run as they are done."""

    def __init__(self, total: int, progress: Progress | None = None, stop: Stop | None = None) -> None:
        self.total, self.done, self.begun = total, 0, perf_counter()
        self._progress, self._stop = progress, stop
        self.stopped = False

    def add(self, kitchens: int) -> None:
        """So many more are done."""
        self.done += kitchens
        if self._progress is not None:
            left = self.seconds * (self.total - self.done) / self.done
            self._progress(self.done, self.total, max(left, 0.0))
        if self._stop is not None and not self.stopped:
            self.stopped = self._stop()

    @property
    def seconds(self) -> float:
        """Since it began."""
        return perf_counter() - self.begun
