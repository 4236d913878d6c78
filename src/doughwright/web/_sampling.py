"""Long work apart from the pages: done one after another in a thread, kept by its key, dropped when stale."""

from __future__ import annotations

import logging
import os
import sys
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, replace
from threading import Condition, Event, Thread, get_native_id
from time import monotonic
from typing import Generic, TypeVar, cast

from doughwright.errors import DoughwrightError, Fault

T = TypeVar("T")
LOG = logging.getLogger(__name__)
MOST_KEPT = 64
# Work that nobody has asked about for so long [s] is not begun, and is stopped where it can be.
FORGOTTEN = 20.0
NICE = 10
# Work that runs, but was not asked about for so long [s], makes room for work that is.
LEFT_ALONE = 6.0


class StoppedError(Exception):
    """The work was asked to stop: nobody waits for it any more."""


class Watch:
    """What work is given: it says how far it is, and hears whether it should stop."""

    def __init__(self) -> None:
        self._stop = Event()
        self._begun = 0.0
        self.done = 0.0

    @property
    def stopped(self) -> bool:
        """Whether nobody waits for it any more."""
        return self._stop.is_set()

    def stop(self) -> None:
        """Ask it to stop."""
        self._stop.set()

    def begin(self) -> None:
        """The work begins now."""
        self._begun = monotonic()

    def says(self, share: float) -> None:
        """It is done by this share, 0 to 1; raises ``StoppedError`` where it should stop."""
        self.done = min(max(share, 0.0), 1.0)
        if self.stopped:
            raise StoppedError

    @property
    def left(self) -> float | None:
        """How many seconds are left, by how it went so far; ``None`` where that cannot be told yet."""
        if self.done < 0.05 or not self._begun:
            return None
        return (monotonic() - self._begun) * (1.0 - self.done) / self.done


@dataclass(frozen=True, slots=True)
class Sampled(Generic[T]):
    """Work as it stands: its ``result``, or ``why`` there is none, or how far it is.

    ``earlier`` is the last result that its owner was given of this rank, until there is a new one.
    """

    result: T | None = None
    earlier: T | None = None
    why: DoughwrightError | None = None
    done: float = 0.0
    left: float | None = None

    @property
    def settled(self) -> bool:
        """Whether there is nothing to wait for."""
        return self.result is not None or self.why is not None


class _Job:
    """Work in line: who waits for it, its rank, when it was last asked about, whether it is being done."""

    def __init__(self, work: Callable[[Watch], object], rank: int) -> None:
        self.work, self.rank = work, rank
        self.owners: set[str] = set()
        self.asked, self.running = monotonic(), False
        self.watch = Watch()


class Sampler:
    """Does work in one thread; of two pieces that wait, the lower rank goes first, then the later asked."""

    def __init__(self) -> None:
        self._kept: OrderedDict[Hashable, Sampled[object]] = OrderedDict()
        self._given: OrderedDict[tuple[str, int], object] = OrderedDict()
        self._jobs: dict[Hashable, _Job] = {}
        self._changed = Condition()
        self._thread: Thread | None = None
        self._closed = False

    def ask(
        self, key: Hashable, work: Callable[[Watch], T], *, owner: str, rank: int = 0, wait: float = 0.0
    ) -> Sampled[T]:
        """The work of a key as it stands after at most ``wait`` seconds; it is begun where it was not.

        ``owner`` waits for one piece of work of a rank at a time: what it waited for before is dropped.
        """
        until = monotonic() + wait
        with self._changed:
            self._leave(owner, rank, key)
            while True:
                found = self._look(key, work, owner, rank)
                rest = until - monotonic()
                if found.settled or rest <= 0.0 or self._closed:
                    return cast("Sampled[T]", self._giving(found, (owner, rank)))
                self._changed.wait(min(rest, 1.0))

    def kept(self, key: Hashable) -> object:
        """The result that is kept of a key; ``None`` where there is none."""
        with self._changed:
            found = self._kept.get(key)
        return found.result if found is not None else None

    def close(self) -> None:
        """Stop what is done, and begin nothing more."""
        with self._changed:
            self._closed = True
            for job in self._jobs.values():
                job.watch.stop()
            self._changed.notify_all()
        if self._thread is not None:
            self._thread.join(timeout=10.0)

    def _look(self, key: Hashable, work: Callable[[Watch], object], owner: str, rank: int) -> Sampled[object]:
        """What is kept of a key, else how far its work is; the work is put in line where it is not."""
        kept = self._kept.get(key)
        if kept is not None:
            self._kept.move_to_end(key)
            return kept
        job = self._jobs.get(key)
        if job is None or job.watch.stopped:
            self._make_room()
            job = self._jobs[key] = _Job(work, rank)
            self._start()
            self._changed.notify_all()
        job.owners.add(owner)
        job.asked = monotonic()
        return Sampled(done=job.watch.done, left=job.watch.left)

    def _giving(self, found: Sampled[object], whose: tuple[str, int]) -> Sampled[object]:
        """What an owner is given: with what it had before, where there is nothing new yet."""
        if found.settled:
            self._given.pop(whose, None)
            self._given[whose] = found.result
            while len(self._given) > MOST_KEPT:
                self._given.popitem(last=False)
            return found
        return replace(found, earlier=self._given.get(whose))

    def _leave(self, owner: str, rank: int, key: Hashable) -> None:
        """An owner waits for another key of this rank now: what nobody else waits for is stopped."""
        for other, job in list(self._jobs.items()):
            if other != key and job.rank == rank:
                job.owners.discard(owner)
                if not job.owners:
                    job.watch.stop()
                    if not job.running:
                        del self._jobs[other]

    def _make_room(self) -> None:
        """What runs although nobody asks about it any more is stopped."""
        for job in self._jobs.values():
            if job.running and monotonic() - job.asked > LEFT_ALONE:
                job.watch.stop()

    def _start(self) -> None:
        if self._thread is None and not self._closed:
            self._thread = Thread(target=self._run, name="sampling", daemon=True)
            self._thread.start()

    def _run(self) -> None:
        _give_way()
        while True:
            with self._changed:
                while not self._closed and not self._jobs:
                    self._changed.wait()
                if self._closed:
                    return
                key, job = self._next()
                job.running = True
            outcome = _done(job)
            with self._changed:
                if self._jobs.get(key) is job:
                    del self._jobs[key]
                if outcome is not None:
                    self._kept[key] = outcome
                    while len(self._kept) > MOST_KEPT:
                        self._kept.popitem(last=False)
                self._changed.notify_all()

    def _next(self) -> tuple[Hashable, _Job]:
        """The next piece: what is still asked about goes first, then by rank, the latest first."""
        now = monotonic()
        return min(
            self._jobs.items(),
            key=lambda one: (now - one[1].asked > FORGOTTEN, one[1].rank, -one[1].asked),
        )


def _give_way() -> None:
    """Let this thread, and those it starts, go after the pages: where a thread has a priority of its own."""
    if sys.platform == "linux":
        os.setpriority(os.PRIO_PROCESS, get_native_id(), NICE)


def _done(job: _Job) -> Sampled[object] | None:
    """The outcome of a piece of work; ``None`` where it was stopped."""
    job.watch.begin()
    try:
        return Sampled(result=job.work(job.watch), done=1.0)
    except StoppedError:
        return None
    except DoughwrightError as error:
        return Sampled(why=error)
    except Exception:
        # The thread must live on: what goes wrong in one piece of work must not stop all others.
        LOG.exception("work apart from the pages failed")
        return Sampled(why=DoughwrightError(Fault("something went wrong on our side")))
