"""A bench that is served, Debian's Chromium, and windows that watch what they ask for and complain of."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from importlib.resources import files
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from doughwright.store import Bench, open_bench

HERE = Path(__file__).parent
CHROMIUM = "/usr/bin/chromium"
QUIET = [
    "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
    "--disable-sync", "--no-first-run", "--disable-default-apps",
]  # fmt: skip
_NUMBERS = count(1)


def demo_text(name: str) -> str:
    """A document of the demo."""
    return (files("doughwright.cli") / "demo" / name).read_text(encoding="utf-8")


@dataclass
class Watch:
    """What a window's pages did: every address asked for, and every complaint of the browser."""

    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def over(self, page: Page) -> None:
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("console", lambda message: self._heard(message.type, message.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def _heard(self, kind: str, text: str) -> None:
        # A refused save is answered by 409 on purpose.
        if kind in ("error", "warning") and "409" not in text and "404" not in text:
            self.complaints.append(text)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("browser") / "saltmarsh-kitchen"


@pytest.fixture(scope="session")
def bench(folder: Path) -> Iterator[Bench]:
    """The bench's store, from outside the server."""
    with open_bench(folder, who="Ida") as one:
        for name in ("boathouse.toml", "warm-flat.toml"):
            one.save("kitchen", name, demo_text(name), expected=None)
        for name in ("leek-and-rye-flat-pie.toml", "boathouse-milk-loaf.toml"):
            one.save("recipe", name, demo_text(name), expected=None, note="as filmed")
        yield one


@pytest.fixture(scope="session")
def address(bench: Bench, folder: Path) -> Iterator[str]:
    """Where the bench is served."""
    command = [sys.executable, str(HERE / "run_bench.py"), str(folder)]
    server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        assert server.stdout is not None
        yield server.stdout.readline().strip()
    finally:
        server.terminate()
        server.communicate(timeout=20)


@pytest.fixture
def recipe(bench: Bench) -> str:
    """A copy of the demo's pie for one test: its name on the bench."""
    name = f"pie-{next(_NUMBERS)}.toml"
    bench.save("recipe", name, demo_text("leek-and-rye-flat-pie.toml"), expected=None)
    return name


Open = Callable[..., Page]


@pytest.fixture
def opened(chromium: Browser, address: str) -> Iterator[Open]:
    """Open a page of the bench in a window of its own; at the end, nothing was asked of another machine
    and the browser had nothing to complain of.
    """
    contexts: list[BrowserContext] = []
    watches: list[Watch] = []

    def open_page(path: str, *, width: int = 1280, height: int = 900, **options: Any) -> Page:
        context = chromium.new_context(
            viewport={"width": width, "height": height}, base_url=address, **options
        )
        contexts.append(context)
        watches.append(Watch())
        page = context.new_page()
        page.set_default_timeout(8_000)
        watches[-1].over(page)
        page.goto(path)
        return page

    yield open_page
    for context in contexts:
        context.close()
    elsewhere = [
        one for watch in watches for one in watch.asked if not one.startswith((address, "data:", "blob:"))
    ]
    assert elsewhere == []
    assert [one for watch in watches for one in watch.complaints] == []
