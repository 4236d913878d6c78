"""The part "The oven": it streams in after the sheet, follows each edit, and says why where there is none."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from doughwright.errors import Fault, NoAnswerError
from doughwright.web import _samples
from tests.web.conftest import PIE, demo_texts
from tests.web.test_sampled import asked, poll, settled
from tests.web.window import TestClient, Window, read_aloud

TEXT = demo_texts()["leek-and-rye-flat-pie.toml"]


def part(page: str) -> str:
    """The part as it stands last in a page or in answers."""
    start = page.rindex('id="oven-name"')
    return re.split(r"</section>|hx-swap-oob", page[start:], maxsplit=1)[0]


def test_the_sheet_names_it_and_it_streams_in_first(client: TestClient) -> None:
    """The sheet does not wait for it; the first answer that is asked for brings it."""
    page = Window(client, PIE).page
    order = [page.index(f'id="{one}"') for one in ("days", "oven", "others")]
    assert order == sorted(order)
    assert 'href="#oven"' in page
    answer = page + poll(client, asked(page)).text if asked(page) else page
    assert "Piece 1 in the oven, cut through" in answer
    words = read_aloud(part(answer))
    assert re.search(r"Base \w+, rim \w+; of 100 kitchens like this one it comes out", words)
    assert "One piece after another, nine times in ten" in words
    assert "The second piece meets the steel" in words
    assert "1: right" in words
    assert "The section as a table" in words


def test_pictures_come_for_both_widths_and_with_no_style(client: TestClient) -> None:
    """A strict content policy holds."""
    page = Window(client, PIE).page
    found = part(page + settled(client, page))
    assert found.count('role="img"') == 2
    assert 'width="932"' in found
    assert 'width="350"' in found
    assert "style=" not in found


def test_it_is_worked_out_again_after_an_edit(client: TestClient) -> None:
    """Until then what stood there stays, and says that it is the earlier."""
    window = Window(client, PIE, live=True)
    page = window.page
    first = part(page + settled(client, page))
    index = next(n for n, one in enumerate(re.findall(r"\[\[step\]\][^\[]*", TEXT)) if '"par-bake"' in one)
    page = window.fill({f"f:step.{index}.for": "6 min"})
    again = part(page + settled(client, page))
    assert "par-bake, 6\u00a0min" in again
    assert "par-bake, 6\u00a0min" not in first


def test_what_has_no_answer_says_why(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """In a sentence, where the picture would be."""

    def nothing(*_: Any, **__: Any) -> Any:
        raise NoAnswerError(Fault("no step of this recipe bakes"))

    monkeypatch.setattr(_samples, "bake", nothing)
    page = Window(client, PIE).page
    found = part(page + settled(client, page))
    assert "No step of this recipe bakes" in read_aloud(found)
    assert "<svg" not in found


def test_where_the_days_are_not_modelled_the_oven_says_so(pie: Window) -> None:
    """It begins from them."""
    text = re.sub(r'\{ item = "instant yeast"[^}]*\},\n', "", TEXT)
    page = pie.fill({"text": text, "view": "text"})
    words = read_aloud(part(page))
    assert "yeast" in words
    assert "<svg" not in part(page)


def test_with_scripts_off_a_link_gets_all_of_it(client: TestClient) -> None:
    """Where it is not there yet."""
    page = Window(client, PIE).page
    link = re.search(r'href="([^"]+)">Work the oven out and show it', page)
    whole = client.get(unescape(link[1])).text if link else page
    assert "Piece 1 in the oven, cut through" in whole
    assert "Work the oven out" not in whole
