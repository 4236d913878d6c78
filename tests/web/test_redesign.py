"""What is free in a recipe is searched for the most ripe kitchens: worked out apart, compared, taken over."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from doughwright.errors import Fault, InputError, NoAnswerError
from doughwright.figures import Figure
from doughwright.forecast.elsewhere.results import Shares
from doughwright.forecast.redesign.results import Changed, Limits, Outcome, Redesign
from doughwright.web import _redesign
from doughwright.web._redesign import limits_of
from tests.web.conftest import PIE
from tests.web.window import TestClient, Window, read_aloud

PAGE = f"{PIE}/redesign"


def outcome(young: float, ripe: float, hours: float) -> Outcome:
    shares = Shares(*(Figure(one, "percent") for one in (young, ripe, 100.0 - young - ripe)))
    return Outcome(
        shares, Figure(1.8, "ratio"), Figure(2.0, "percent"), Figure(hours, "h"), Figure(20.0, "h")
    )


def searched(recipe: Any, *, document: Any, limits: Limits, **_: Any) -> Redesign:
    """More yeast for fewer hours, invented at once."""
    return Redesign(
        dough="dough",
        changes=(Changed("instant yeast", Figure(0.45, "g"), Figure(0.6, "g")),),
        before=outcome(30.0, 40.0, 34.0), after=outcome(20.0, 55.0, 28.0),
        gain=Figure(15.0, "percent", 13.0, 17.0), tried=768, kitchens=128, fresh=4096,
        free=("yeast", "hours in the fridge"), said=("mixing by hand",),
        document=document.text.replace('"0.45 g"', '"0.6 g"'), why=None,
    )  # fmt: skip


@pytest.fixture(autouse=True)
def invented(monkeypatch: pytest.MonkeyPatch) -> None:
    """No search: other tests search."""
    monkeypatch.setattr(_redesign, "redesign", searched)


def found(client: TestClient, query: str = "") -> str:
    """The page once the search is done."""
    return str(client.get(f"{PAGE}?patient=1{query}").text)


def test_the_page_comes_first_and_asks_for_the_search(client: TestClient) -> None:
    """With scripts it asks again until it is there; without there is a link that waits."""
    page = client.get(PAGE).text
    assert "Trying designs" in page
    asked = re.search(r'hx-get="([^"]+)"', page)
    assert asked is not None
    answer = client.get(unescape(asked[1]), headers={"HX-Request": "true"}).text
    assert "hx-get" not in answer
    assert "patient=1" in page


def test_what_it_brings_and_what_it_costs(client: TestClient) -> None:
    """How many more are ripe, what changes, hours and sugar before and after."""
    said = read_aloud(found(client))
    assert "ripe in 55 of 100 kitchens, not 40: 15 (13 to 17) more of 100." in said
    assert "Instant yeast 0.45 g 0.6 g" in said
    assert "hours in all 34 h 28 h" in said
    assert "768 designs, each in 128 kitchens; judged in 4,096 others." in said


def test_it_is_taken_over_as_unsaved_work(client: TestClient) -> None:
    """Like a fit."""
    sheet = Window(client, PIE)
    page = found(client, f"&window={sheet.state('window')}")
    text = re.search(r"<textarea name=\"text\" hidden>\n(.*?)</textarea>", page, re.S)
    assert text is not None
    fields = {name: sheet.state(name) for name in ("window", "digest", "base")}
    data = fields | {"token": client.cookies["bench"], "view": "form", "text": unescape(text[1])}
    said = read_aloud(client.post(PIE, data=data).text)
    assert "Instant yeast 0.45 g to 0.6 g" in said


@pytest.mark.parametrize(
    ("hours", "expected"),
    [("", Limits()), ("24 h to 48 h", Limits(total=(24.0, 48.0))), ("36 h", Limits(total=(0.0, 36.0)))],
)
def test_hours_in_all_may_be_asked_for(hours: str, expected: Limits) -> None:
    """From and to, or at most."""
    assert limits_of(hours) == expected


def test_hours_that_are_none_are_said(client: TestClient) -> None:
    """The field still holds what was typed."""
    with pytest.raises(InputError):
        limits_of("soon")
    page = client.get(f"{PAGE}?hours=soon").text
    assert 'class="notice"' in page
    assert 'value="soon"' in page


def test_where_nothing_is_free_that_is_said(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """With what to write."""

    def nothing(*_: Any, **__: Any) -> None:
        raise NoAnswerError(Fault("nothing is left free", try_="Widen a limit"))

    monkeypatch.setattr(_redesign, "redesign", nothing)
    assert "Nothing is left free. Widen a limit." in read_aloud(found(client))
