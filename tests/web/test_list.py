"""The bench's first page, and what begins there."""

from __future__ import annotations

import pytest

from doughwright.store import Bench
from tests.web.conftest import PIE
from tests.web.window import TestClient, Window


def test_the_list_says_what_each_recipe_makes_and_when_it_was_saved(client: TestClient) -> None:
    """Recipes and kitchens by title, each a link to its page."""
    window = Window(client, "/")
    assert "Leek and rye flat pie 2 rounds of 30 cm, for 4 version 1, 12:00" in window.text()
    assert "2 recipes and 4 kitchens" in window.text()
    assert f'href="{PIE}"' in window.page
    assert 'href="/kitchen/boathouse.toml"' in window.page


@pytest.mark.parametrize("shape", ["round", "tin", "ball"])
def test_a_new_recipe_begins_from_a_document_that_works(client: TestClient, shape: str) -> None:
    """It has its title and its shape, and its sheet shows no fault."""
    window = Window(client, "/")
    data = {"token": client.cookies["bench"], "title": "Herb & onion bread", "shape": shape}
    answer = client.post("/new", data=data, follow_redirects=False)
    assert answer.status_code == 303
    assert answer.headers["location"] == "/recipe/herb-onion-bread.toml"
    window = Window(client, answer.headers["location"])
    assert "<h1>Herb &amp; onion bread</h1>" in window.page
    assert "fault" not in window.part("faults")


def test_a_second_document_of_a_title_gets_a_name_of_its_own(client: TestClient) -> None:
    """Nothing is written over."""
    data = {"token": client.cookies["bench"], "title": "Pie", "shape": "round"}
    places = [client.post("/new", data=data, follow_redirects=False).headers["location"] for _ in range(3)]
    assert places == ["/recipe/pie.toml", "/recipe/pie-2.toml", "/recipe/pie-3.toml"]


def test_a_new_kitchen_begins_too(client: TestClient, bench: Bench) -> None:
    """From the commented starting document."""
    data = {"token": client.cookies["bench"], "title": "Cellar", "kind": "kitchen"}
    assert client.post("/new", data=data).status_code == 200
    assert "cellar.toml" in bench.names("kitchen")


def test_a_new_document_needs_a_title(client: TestClient) -> None:
    """422, with what to write."""
    answer = client.post("/new", data={"token": client.cookies["bench"], "title": "  "})
    assert answer.status_code == 422
    assert "Write for example" in answer.text


def test_the_list_names_documents_with_faults(client: TestClient, bench: Bench) -> None:
    """A text that cannot be read is on the list like any other, and its page opens at the fault."""
    bench.save("recipe", "broken.toml", 'schema = 1\ntitle = "Broken"\n[[mix]\n', expected=None)
    assert "broken.toml has faults" in Window(client, "/").text()
    window = Window(client, "/recipe/broken.toml")
    assert "1 fault in the text line 3" in window.text()
