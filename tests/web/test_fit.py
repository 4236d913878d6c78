"""A recipe fitted to another kitchen of the bench: compared, taken over as unsaved work, put back."""

from __future__ import annotations

import re
from html import unescape

import pytest

from doughwright.store import Bench
from doughwright.web import _samples
from doughwright.web._fits import fits_of
from tests.web.conftest import PIE
from tests.web.window import HOST, TestClient, Window, read_aloud

FIT = f"{PIE}/fit?kitchen=warm-flat.toml"


def fitted(client: TestClient, window: str = "", more: str = "") -> str:
    return str(client.get(f"{FIT}&window={window}{more}").text)


def test_a_fit_is_compared_side_by_side(client: TestClient) -> None:
    """What changes, both doughs beside what is wanted, what each lever does."""
    said = read_aloud(fitted(client))
    assert "Leek and rye flat pie in the Warm flat" in said
    assert "then it is the same dough in the Warm flat" in said
    assert re.search(r"rise 1\.\d\d ± 0\.\d\d \d\.\d\d not the same \d\.\d\d the same", said)
    assert "The best single change" in said
    assert "Yeast, 10 % more:" in said


def test_it_is_taken_over_as_unsaved_work_and_put_back(client: TestClient, bench: Bench) -> None:
    """The text is the document's own, with those values changed and the kitchen named."""
    sheet = Window(client, PIE)
    page = fitted(client, sheet.state("window"))
    text = re.search(r"<textarea name=\"text\" hidden>\n(.*?)</textarea>", page, re.S)
    assert text is not None
    new = unescape(text[1])
    fields = {name: sheet.state(name) for name in ("window", "digest", "base")}
    data = fields | {"token": client.cookies["bench"], "view": "form", "text": new.replace("\n", "\r\n")}
    after = client.post(PIE, data=data)
    assert "What moved" in after.text
    assert "Warm flat" in read_aloud(after.text)
    assert 'kitchen = "warm-flat.toml"' in new
    old = bench.head("recipe", "leek-and-rye-flat-pie.toml").text
    changed = [line for line in new.splitlines() if line not in old.splitlines()]
    assert 1 < len(changed) < 10
    sheet.look()
    assert "What moved" not in sheet.fill(do="put-back")


def test_a_fit_to_the_own_kitchen_changes_nothing(client: TestClient) -> None:
    """There is then nothing to take over."""
    page = client.get(f"{PIE}/fit?kitchen=boathouse.toml").text
    assert "As written it is the same dough in the Boathouse: nothing has to change." in read_aloud(page)
    assert "Take it over" not in page


def test_where_there_is_no_fit_it_says_so_and_shows_the_nearest(client: TestClient) -> None:
    """With what is in the way; the nearest can be taken over all the same."""
    page = fitted(client, more="&keep=yeast&keep=dough+temperature&longest=30+min")
    said = read_aloud(page)
    assert "No change within the limits gives the same dough" in said
    assert "Side by side" in said


def test_a_limit_that_cannot_be_read_is_said(client: TestClient) -> None:
    """And the form still holds what was typed."""
    answer = client.get(f"{FIT}&longest=soon")
    assert answer.status_code == 200
    assert 'class="notice"' in answer.text
    assert 'value="soon"' in answer.text


@pytest.mark.parametrize("kitchen", ["nowhere.toml", ""])
def test_a_kitchen_that_is_not_there_is_not_found(client: TestClient, kitchen: str) -> None:
    """As any page that is not on this bench."""
    assert client.get(f"{HOST}{PIE}/fit?kitchen={kitchen}").status_code == 404


def test_the_sheet_lists_every_kitchen_with_its_fit(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As written, what the fit changes, and then; each leads to the comparison."""
    monkeypatch.setattr(_samples, "fits_of", fits_of)
    page = client.get(f"{PIE}?sampled=1").text
    said = read_aloud(page)
    for kitchen in ("Warm flat", "Mountain cabin", "Student kitchen"):
        assert kitchen in said
    assert re.search(r"Warm flat 8 °C, 24 °C 2\.\d\d past .{10,120} 1\.\d\d ripe Compare", said)
    assert "fit?window=" in page


def test_before_the_fits_are_there_every_kitchen_has_its_link(client: TestClient) -> None:
    """Also with scripts off."""
    page = client.get(PIE).text
    said = read_aloud(page)
    assert "Fit it to Mountain cabin , Student kitchen , Warm flat ." in said
    assert page.count("/fit?window=") == 3
