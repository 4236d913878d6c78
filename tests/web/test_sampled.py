"""What is sampled streams in after the sheet: it blocks no edit, is dropped when stale, and can be read."""

from __future__ import annotations

import re
from html import unescape
from threading import Event
from typing import Any

import pytest

from doughwright.web import _samples
from tests.web._sampled import invented
from tests.web.conftest import PIE
from tests.web.window import TestClient, Window, read_aloud

YEAST = "f:mix.1.ingredients.3.amount"
SOON = 5.0


def asked(page: str) -> str:
    """The address that a page asks for what is sampled."""
    found = re.search(r'hx-get="(/recipe/[^"]*/sampled[^"]*)"', page)
    return unescape(found[1]) if found else ""


def poll(client: TestClient, address: str) -> Any:
    return client.get(address, headers={"HX-Request": "true"})


def settled(client: TestClient, page: str) -> str:
    """All answers, until there is nothing more to ask for."""
    address, answers = asked(page), ""
    for _ in range(40):
        answer = poll(client, address).text
        answers += answer
        address = asked(answer)
        if not address:
            return answers
    raise AssertionError("it does not come to an end")


def test_the_sheet_comes_first_and_asks_for_the_rest(client: TestClient) -> None:
    """The page says what is on its way; the answer puts the fan and the words in its place."""
    page = Window(client, PIE).page
    assert "Working out 10,000 kitchens" in page
    answer = settled(client, page)
    assert 'id="others" hx-swap-oob="innerHTML"' in answer
    assert "The same days in 10,000 kitchens" in answer
    words = read_aloud(answer)
    assert re.search(r"Of 100 kitchens \d+ are young, \d+ ripe and \d+ past when shaping begins", words)
    assert "Most of the difference is explained by the fridge (52 %)" in words
    assert "Measure the fridge" in words
    assert "The next thing worth measuring is the fridge at that shelf : 4 min of your time, and" in words
    assert "The fridge at that shelf a thermometer 4 min ± 0.40 becomes ± 0.20" in words
    assert "The room: it is known already." in words
    assert "In 100 kitchens that are all this one" in words
    for kitchen in ("Boathouse", "Warm flat", "Mountain cabin", "Student kitchen"):
        assert kitchen in answer


def test_without_scripts_a_link_gets_the_page_with_everything_in_it(client: TestClient) -> None:
    """The page waits for it, then is whole; nothing asks again."""
    page = Window(client, PIE).page
    link = re.search(r'<noscript><p><a class="button" href="([^"]+)"', page)
    assert link is not None
    whole = client.get(unescape(link[1]))
    assert "The same days in 10,000 kitchens" in whole.text
    assert asked(whole.text) == ""
    assert client.get(asked(page), follow_redirects=False).headers["location"].endswith("sampled=1#others")


def test_the_same_recipe_is_sampled_once(client: TestClient) -> None:
    """Another window, another day: the page has it at once."""
    settled(client, Window(client, PIE).page)
    again = Window(client, PIE).page
    assert "The same days in 10,000 kitchens" in again
    assert asked(again) == ""


def test_a_stale_page_is_told_nothing(client: TestClient) -> None:
    """What was asked for an older text is not put on the page."""
    window = Window(client, PIE, live=True)
    old = asked(window.page)
    window.fill({YEAST: "0.6 g"})
    assert poll(client, old).status_code == 204


def test_an_edit_does_not_wait_for_the_kitchens(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """The answer to an edit comes while the old kitchens are still worked out; those are then dropped."""
    go, begun, dropped = Event(), Event(), Event()

    def slow(recipe: Any, *, progress: Any, **rest: Any) -> Any:
        begun.set()
        while not go.wait(0.01):
            try:
                progress(1000, 10_000, 9.0)
            except Exception:
                dropped.set()
                raise
        return invented(recipe)

    monkeypatch.setattr(_samples, "elsewhere", slow)
    window = Window(client, PIE, live=True)
    assert begun.wait(SOON)
    page = window.fill({YEAST: "0.6 g"})
    assert "0.6" in page
    assert dropped.wait(SOON)
    address = asked(page)
    said = read_aloud(poll(client, address).text)
    assert "Working out 10,000 kitchens: 10 % done, about" in said
    go.set()
    assert "The same days in 10,000 kitchens" in settled(client, page)


def test_until_the_new_is_there_the_earlier_stays_and_says_so(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No blank at each change."""
    window = Window(client, PIE, live=True)
    settled(client, window.page)
    go = Event()

    def held(recipe: Any, **rest: Any) -> Any:
        go.wait(SOON)
        return invented(recipe)

    monkeypatch.setattr(_samples, "elsewhere", held)
    page = window.fill({YEAST: "0.6 g"})
    go.set()
    assert "What is below is as it was before the last change" in page
    assert "The same days in 10,000 kitchens" in page


def test_what_moved_counts_the_other_kitchens_once_both_are_known(client: TestClient) -> None:
    """Of the saved text and of the window's: how many more of a hundred are ripe."""
    window = Window(client, PIE, live=True)
    settled(client, window.page)
    page = window.fill({YEAST: "0.9 g"})
    assert "other kitchens" not in read_aloud(page)
    answer = settled(client, page)
    assert re.search(
        r"other kitchens \d+ fewer of 100 are ripe \d+ of 100 was \d+ of 100", read_aloud(answer)
    )


def test_where_the_days_are_not_modelled_there_is_no_such_part(client: TestClient) -> None:
    """A recipe without steps has no days, and no other kitchens."""
    window = Window(client, PIE, live=True)
    text = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", window.look("view=text"), re.S)
    assert text is not None
    short = unescape(text[1]).partition("[[step]]")[0]
    page = window.fill(text=short, view="text")
    assert 'id="others"' not in page


def test_what_goes_wrong_is_said_in_its_place(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """The rest of the sheet stands."""

    def broken(recipe: Any, **rest: Any) -> Any:
        raise ZeroDivisionError

    monkeypatch.setattr(_samples, "elsewhere", broken)
    answer = settled(client, Window(client, PIE).page)
    assert "Something went wrong on our side" in answer


def test_a_kitchens_page_says_what_to_measure_next(client: TestClient) -> None:
    """For the first recipe made in it: the ranking, and at each value what measuring it buys."""
    page = Window(client, "/kitchen/boathouse.toml").page
    assert "Working out what each measurement would buy" in page
    found = re.search(r'hx-get="(/kitchen/[^"]*/sampled[^"]*)"', page)
    assert found is not None
    answer = poll(client, unescape(found[1])).text
    words = read_aloud(answer)
    assert "The next thing worth measuring is the fridge at that shelf" in words
    assert 'id="buys-fridge-temperature" hx-swap-oob="innerHTML">±\u00a00.40 becomes ±\u00a00.20' in answer
    whole = read_aloud(client.get("/kitchen/boathouse.toml?sampled=1").text)
    assert "measuring it buys: ± 0.40 becomes ± 0.20" in whole


def test_a_kitchen_in_which_nothing_is_made_has_nothing_to_measure_for(client: TestClient) -> None:
    """It still leads to its readings."""
    page = Window(client, "/kitchen/student-kitchen.toml").page
    assert "Measure next" not in page
    assert "/readings?window=" in page
