"""Long work apart from the pages: kept, in order, dropped when nobody waits for it."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from threading import Event

import pytest

from doughwright.errors import DoughwrightError, Fault
from doughwright.web import _sampling
from doughwright.web._sampling import Sampler, Watch

SOON = 5.0


@pytest.fixture
def sampler() -> Iterator[Sampler]:
    made = Sampler()
    yield made
    made.close()


def test_work_is_done_once_and_kept(sampler: Sampler) -> None:
    """Whoever asks for the same key later gets what is kept."""
    done: list[int] = []

    def work(watch: Watch) -> int:
        done.append(1)
        return 42

    first = sampler.ask("a", work, owner="one", wait=SOON)
    again = sampler.ask("a", work, owner="two")
    assert (first.result, again.result, len(done)) == (42, 42, 1)


def test_asking_without_waiting_does_not_block(sampler: Sampler) -> None:
    """It says how far the work is, and how long it will take by how it went."""
    go, half = Event(), Event()

    def work(watch: Watch) -> int:
        watch.says(0.5)
        half.set()
        go.wait(SOON)
        return 1

    assert not sampler.ask("a", work, owner="one").settled
    assert half.wait(SOON)
    now = sampler.ask("a", work, owner="one")
    assert (now.done, now.settled) == (0.5, False)
    assert now.left is not None
    go.set()
    assert sampler.ask("a", work, owner="one", wait=SOON).result == 1


def test_what_nobody_waits_for_any_more_is_stopped(sampler: Sampler) -> None:
    """A window that asks for its new text drops the old one."""
    begun, stopped = Event(), Event()

    def old(watch: Watch) -> int:
        begun.set()
        while not watch.stopped:
            stopped.wait(0.005)
        stopped.set()
        watch.says(0.5)
        return 1

    sampler.ask("old", old, owner="one")
    assert begun.wait(SOON)
    assert sampler.ask("new", lambda watch: 2, owner="one", wait=SOON).result == 2
    assert stopped.is_set()
    assert sampler.ask("old", lambda watch: 3, owner="one", wait=SOON).result == 3


def test_what_another_window_waits_for_goes_on(sampler: Sampler) -> None:
    """Only the last one to leave puts out the light."""
    go, begun = Event(), Event()

    def shared(watch: Watch) -> bool:
        begun.set()
        go.wait(SOON)
        return watch.stopped

    sampler.ask("shared", shared, owner="one")
    sampler.ask("shared", shared, owner="two")
    assert begun.wait(SOON)
    sampler.ask("other", lambda watch: 2, owner="one")
    go.set()
    assert sampler.ask("shared", shared, owner="two", wait=SOON).result is False


def test_long_work_that_is_left_alone_makes_room(sampler: Sampler, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever has left a search does not hold up the sheet; who still asks about it goes on."""
    monkeypatch.setattr(_sampling, "LEFT_ALONE", 0.0)
    begun = Event()

    def search(watch: Watch) -> int:
        begun.set()
        while True:
            watch.says(0.1)

    sampler.ask("search", search, owner="search", rank=4)
    assert begun.wait(SOON)
    assert sampler.ask("sheet", lambda watch: 1, owner="sheet", wait=SOON).result == 1


def test_until_there_is_a_new_result_the_earlier_one_is_given(sampler: Sampler) -> None:
    """So that a page need not go blank at each change; another window's result is not given."""
    go = Event()
    sampler.ask("old", lambda watch: 1, owner="one", wait=SOON)
    new = sampler.ask("new", lambda watch: go.wait(SOON) and 2, owner="one")
    assert (new.result, new.earlier) == (None, 1)
    assert sampler.ask("new", lambda watch: 2, owner="two").earlier is None
    go.set()
    found = sampler.ask("new", lambda watch: 2, owner="one", wait=SOON)
    assert (found.result, found.earlier) == (2, None)


def test_quick_work_goes_before_long_work(sampler: Sampler) -> None:
    """The interval of the cook's own kitchen before ten thousand others."""
    go, begun, order = Event(), Event(), list[str]()

    def first(watch: Watch) -> int:
        begun.set()
        go.wait(SOON)
        return 0

    def named(name: str) -> object:
        return lambda watch: order.append(name) or name

    sampler.ask("first", first, owner="else")
    assert begun.wait(SOON)
    sampler.ask("others", named("others"), owner="one", rank=1)  # type: ignore[arg-type]
    sampler.ask("spread", named("spread"), owner="one", rank=0)  # type: ignore[arg-type]
    go.set()
    sampler.ask("others", named("others"), owner="one", rank=1, wait=SOON)  # type: ignore[arg-type]
    assert order == ["spread", "others"]


def test_work_without_an_answer_says_why(sampler: Sampler) -> None:
    """The reason is kept like a result."""

    def work(watch: Watch) -> int:
        raise DoughwrightError(Fault("no such dough"))

    found = sampler.ask("a", work, owner="one", wait=SOON)
    assert found.settled
    assert found.why is not None
    assert found.why.fault.message == "no such dough"


def test_a_mistake_of_ours_does_not_stop_the_rest(sampler: Sampler, caplog: pytest.LogCaptureFixture) -> None:
    """It is logged, the page says that something went wrong, and other work is done."""

    def work(watch: Watch) -> float:
        return 1.0 / 0.0

    with caplog.at_level(logging.ERROR):
        found = sampler.ask("a", work, owner="one", wait=SOON)
    assert found.why is not None
    assert "ZeroDivisionError" in caplog.text
    assert sampler.ask("b", lambda watch: 1, owner="one", wait=SOON).result == 1


def test_closing_stops_what_runs() -> None:
    """A bench that is closed leaves no thread behind."""
    sampler, begun = Sampler(), Event()

    def work(watch: Watch) -> int:
        begun.set()
        while True:
            watch.says(0.1)

    sampler.ask("a", work, owner="one")
    assert begun.wait(SOON)
    sampler.close()
    assert not sampler.ask("b", lambda watch: 1, owner="one", wait=SOON).settled
