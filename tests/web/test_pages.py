"""Each page is one dataclass, which JSON can take as it is."""

from __future__ import annotations

import json
from collections.abc import Iterator
from zoneinfo import ZoneInfo

import pytest

from doughwright.figures import jsonable
from doughwright.store import Bench
from doughwright.web._kitchen import kitchen_page
from doughwright.web._list import list_page
from doughwright.web._results import Occasion
from doughwright.web._samples import Asking
from doughwright.web._sampling import Sampler
from doughwright.web._sheet import sheet_page
from doughwright.web._windows import Windows, Work
from tests.web.conftest import NOON

LONDON = ZoneInfo("Europe/London")


def edited(bench: Bench, kind: str, name: str, old: str, new: str) -> Work:
    """A window with unsaved work."""
    windows = Windows(bench)
    work = windows.work("kitchen" if kind == "kitchen" else "recipe", name, "abcdef")
    return windows.write(work, work.text.replace(old, new))


@pytest.fixture
def asking() -> Iterator[Asking]:
    """All of what is sampled."""
    sampler = Sampler()
    yield Asking(sampler, 60.0, all=True)
    sampler.close()


def test_a_sheet_is_json(bench: Bench, asking: Asking) -> None:
    """All of it: what moved, the fields, the pictures, the plan, the history."""
    work = edited(bench, "recipe", "leek-and-rye-flat-pie.toml", "0.45 g", "0.6 g")
    page = sheet_page(bench, work, "form", Occasion(NOON, LONDON), asking)
    found = json.loads(json.dumps(jsonable(page)))
    assert found["doc"]["title"] == "Leek and rye flat pie"
    assert found["parts"]["moved"]["rows"][0]["what"] == "ripe"
    assert found["parts"]["plan"]["rows"][0]["what"] == "Mix the poolish"
    assert found["parts"]["days"]["pictures"][0]["sure"]["rows"][0]["between"]
    assert found["sampled"]["others"]["strong"].endswith("of 100")


def test_a_kitchen_and_the_list_are_json(bench: Bench, asking: Asking) -> None:
    """As every page."""
    work = edited(bench, "kitchen", "boathouse.toml", '"5 °C"', '"7 °C"')
    page = kitchen_page(bench, work, "form", Occasion(NOON, LONDON), asking)
    found = json.loads(json.dumps(jsonable(page)))
    assert [one["title"] for one in found["recipes"]] == ["Boathouse milk loaf", "Leek and rye flat pie"]
    front = json.loads(json.dumps(jsonable(list_page(bench, NOON, LONDON))))
    assert len(front["recipes"]) == 2
