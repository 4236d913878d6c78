"""The demo's bench, and clients of it that need no socket."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from doughwright.store import Bench, open_bench
from doughwright.web import _readings, _samples, app
from tests.web._sampled import baked, calibrated, doubted, invented, narrowed
from tests.web.window import HOST, TestClient, Window

PIE = "/recipe/leek-and-rye-flat-pie.toml"
NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


def demo_texts() -> dict[str, str]:
    """The demo's documents by name."""
    folder = files("doughwright.cli") / "demo"
    return {
        one.name: one.read_text(encoding="utf-8") for one in folder.iterdir() if one.name.endswith(".toml")
    }


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is sampled is invented, at once: other tests ask the models."""
    monkeypatch.setattr(_samples, "elsewhere", invented)
    monkeypatch.setattr(_samples, "bake", baked)
    monkeypatch.setattr(_samples, "with_doubt", doubted)
    monkeypatch.setattr(_samples, "fits_of", lambda *_: ())
    monkeypatch.setattr(_samples, "narrow", narrowed)
    monkeypatch.setattr(_readings, "calibrate", calibrated)


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's bench, made once; tests change copies of it."""
    place = tmp_path_factory.mktemp("demo") / "saltmarsh-kitchen"
    with open_bench(place, who="Ida", clock=lambda: NOON) as bench:
        for name, text in demo_texts().items():
            bench.save("recipe" if "[[mix]]" in text else "kitchen", name, text, expected=None)
    return place


@pytest.fixture
def folder(demo_folder: Path, tmp_path: Path) -> Path:
    """A folder with the demo's bench in it."""
    return Path(shutil.copytree(demo_folder, tmp_path / "saltmarsh-kitchen"))


@pytest.fixture
def client(folder: Path) -> Iterator[TestClient]:
    """A browser that has been on the first page."""
    made = app(folder, port=8764, who="Ida", clock=lambda: NOON, zone=ZoneInfo("Europe/London"))
    with TestClient(made, base_url=HOST, raise_server_exceptions=False) as one:
        one.get("/")
        yield one


@pytest.fixture
def bench(folder: Path) -> Iterator[Bench]:
    """The same bench from outside the app."""
    with open_bench(folder, who="Bo", clock=lambda: NOON) as one:
        yield one


@pytest.fixture
def pie(client: TestClient) -> Window:
    """A window on the pie's sheet, which changes in place."""
    return Window(client, PIE, live=True)
