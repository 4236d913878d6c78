"""Two windows on one document never write over each other, and unsaved work survives."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

from doughwright.store import Bench
from doughwright.web import app
from tests.web.conftest import NOON, PIE, demo_texts
from tests.web.window import HOST, TestClient, Window

NAME = "leek-and-rye-flat-pie.toml"
TEXT = demo_texts()[NAME]
YEAST = "f:mix.1.ingredients.3.amount"
WATER = "f:mix.1.ingredients.2.amount"


def test_the_second_to_save_is_shown_both_versions(client: TestClient, bench: Bench) -> None:
    """The page has both texts, what differs, and the three ways on; nothing was written over."""
    first, second = Window(client, PIE), Window(client, PIE)
    first.fill({YEAST: "0.6 g"}, do="save")
    second.fill({WATER: "190 g"}, do="save")
    assert second.answer.status_code == 409
    text = second.text()
    assert "Two versions of Leek and rye flat pie" in text
    assert '− { item = "instant yeast", amount = "0.6 g" }' in text
    assert '+ { item = "instant yeast", amount = "0.45 g" }' in text
    assert '+ { item = "water", amount = "190 g" }' in text
    for way in ("Keep mine, as version 3", "Take theirs", "Back to editing mine"):
        assert way in text
    assert bench.head("recipe", NAME).text == TEXT.replace("0.45 g", "0.6 g")


def test_keeping_mine_is_a_new_version_after_theirs(client: TestClient, bench: Bench) -> None:
    """Theirs stays in the history."""
    first, second = Window(client, PIE), Window(client, PIE)
    first.fill({YEAST: "0.6 g"}, do="save")
    second.fill({WATER: "190 g"}, do="save")
    second.fill(do="save", over=second.state("over"))
    assert [one.text for one in bench.versions("recipe", NAME)] == [
        TEXT,
        TEXT.replace("0.45 g", "0.6 g"),
        TEXT.replace("178 g", "190 g"),
    ]


def test_keeping_mine_is_asked_again_if_they_saved_again(client: TestClient, bench: Bench) -> None:
    """What was not shown is not written over either."""
    first, second = Window(client, PIE), Window(client, PIE)
    first.fill({YEAST: "0.6 g"}, do="save")
    second.fill({WATER: "190 g"}, do="save")
    first.look()
    first.fill({YEAST: "0.7 g"}, do="save")
    second.fill(do="save", over="2")
    assert second.answer.status_code == 409
    assert bench.head("recipe", NAME).text == TEXT.replace("0.45 g", "0.7 g")


def test_taking_theirs_drops_mine(client: TestClient) -> None:
    """The window then shows what was saved."""
    first, second = Window(client, PIE), Window(client, PIE)
    first.fill({YEAST: "0.6 g"}, do="save")
    second.fill({WATER: "190 g"}, do="save")
    second.fill(do="drop")
    assert (second.value(YEAST), second.value(WATER)) == ("0.6 g", "178 g")


def test_a_window_says_that_another_has_saved(client: TestClient) -> None:
    """Before it saves, not only when."""
    first, second = Window(client, PIE), Window(client, PIE)
    first.fill({YEAST: "0.6 g"}, do="save")
    second.fill({WATER: "190 g"})
    assert "Meanwhile Ida saved version 2." in second.text()
    assert second.value(YEAST) == "0.45 g"


def test_a_conflict_in_a_live_page_leads_to_its_page(client: TestClient) -> None:
    """The page goes there as a whole."""
    first, second = Window(client, PIE), Window(client, PIE, live=True)
    first.fill({YEAST: "0.6 g"}, do="save")
    window = second.state("window")
    second.fill({WATER: "190 g"}, do="save")
    assert second.answer.headers["hx-redirect"] == f"{PIE}/compare?window={window}"


def test_unsaved_work_survives_a_reload_and_a_restart(client: TestClient, folder: Path) -> None:
    """A draft a window, kept on the disk."""
    window = Window(client, PIE)
    window.fill({YEAST: "0.6 g"})
    assert YEAST and window.look() and window.value(YEAST) == "0.6 g"
    again = app(folder, port=8764, who="Ida", clock=lambda: NOON, zone=ZoneInfo("Europe/London"))
    with TestClient(again, base_url=HOST) as other:
        other.get("/")
        reopened = Window(other, f"{PIE}")
        assert reopened.value(YEAST) == "0.45 g"
        assert "Another window has unsaved work" in reopened.text()
        page = other.get(f"{PIE}?window={window.state('window')}").text
        assert 'value="0.6 g"' in page and "What moved" in page


def test_a_window_that_is_open_twice_loses_nothing(client: TestClient) -> None:
    """The older page changes nothing; a text typed there becomes a window of its own."""
    one = Window(client, PIE)
    one.fill({YEAST: "0.6 g"})
    twin = Window(client, PIE)
    twin.page = one.look("view=text")
    one.fill({WATER: "190 g"}, view="form")
    twin.fill({"text": TEXT.replace("title = ", "title  = ")})
    assert "The same window was open twice" in twin.text()
    assert twin.state("window") != one.state("window")
    one.look("view=form")
    assert (one.value(YEAST), one.value(WATER)) == ("0.6 g", "190 g")


def test_an_old_page_changes_nothing(client: TestClient) -> None:
    """A page from before the last edit says that it is old, and shows the text as it stands."""
    one = Window(client, PIE)
    one.fill({YEAST: "0.6 g"})
    old = one.page
    one.fill({YEAST: "0.7 g"})
    one.page = old
    one.fill({WATER: "300 g"}, do="save")
    assert "This page was older" in one.text()
    assert (one.value(YEAST), one.value(WATER)) == ("0.7 g", "178 g")
