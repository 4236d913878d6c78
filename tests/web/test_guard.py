"""The bench answers its own pages on this machine, and nobody else."""

from __future__ import annotations

import re

import pytest

from doughwright.web._guard import LARGEST_BODY
from tests.web.conftest import PIE
from tests.web.window import TestClient, Window

PAGES = [
    "/",
    PIE,
    f"{PIE}?view=text",
    "/kitchen/boathouse.toml",
    f"{PIE}/version/1",
    "/static/bench.css",
    "/static/bench.js",
    "/nowhere",
]


@pytest.mark.parametrize("page", PAGES)
def test_every_answer_carries_the_strict_policy(client: TestClient, page: str) -> None:
    """Nothing inline, nothing from elsewhere, no framing, on every page and file."""
    headers = client.get(page).headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy and "http" not in policy and "*" not in policy
    assert all(f"{one} 'none'" in policy for one in ("base-uri", "frame-ancestors"))
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"


@pytest.mark.parametrize("page", PAGES[:5])
def test_no_page_holds_anything_inline_or_from_elsewhere(client: TestClient, page: str) -> None:
    """No style attribute, no script or style between tags, no handler, no address off the machine."""
    text = client.get(page).text
    assert re.findall(r"<[^>]*\sstyle=", text) == []
    assert re.findall(r"<script(?![^>]*\ssrc=)|<style|\son\w+=|javascript:", text) == []
    addresses = re.findall(r"""(?:src|href|action|hx-\w+)=["'](\w+:)?//[^"']*""", text)
    assert addresses == []


@pytest.mark.parametrize(
    "host", ["example.org", "127.0.0.1", "127.0.0.1:80", "localhost:9999", "[::1]:8764", ""]
)
def test_another_host_is_refused(client: TestClient, host: str) -> None:
    """A name that somebody has pointed at this machine does not open the bench."""
    assert client.get("/", headers={"Host": host}).status_code == 421


@pytest.mark.parametrize("host", ["127.0.0.1:8764", "localhost:8764"])
def test_its_own_names_are_answered(client: TestClient, host: str) -> None:
    """By number or by name."""
    assert client.get("/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://example.org"},
        {"Origin": "null"},
        {"Origin": "http://localhost:8764"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_another_site_cannot_change_anything(client: TestClient, headers: dict[str, str]) -> None:
    """Even with the right token, a request from elsewhere is refused."""
    window = Window(client, PIE)
    data = {"token": client.cookies["bench"], "window": window.state("window"), "do": "save"}
    assert client.post(PIE, data=data, headers=headers).status_code == 403


@pytest.mark.parametrize("token", [None, "", "guessed", "é"])
def test_a_change_needs_the_token(client: TestClient, token: str | None) -> None:
    """Without the page's token nothing is changed, and the answer says what to do."""
    window = Window(client, PIE)
    data = {"window": window.state("window"), "f:makes.pieces": "3"}
    data |= {"token": token} if token is not None else {}
    answer = client.post(PIE, data=data)
    assert answer.status_code == 403
    assert "token" in answer.text
    assert 'value="2"' in window.look()


def test_a_change_needs_the_cookie(client: TestClient) -> None:
    """A token without the cookie it belongs to is no token."""
    token = client.cookies["bench"]
    client.cookies.clear()
    assert client.post("/new", data={"token": token, "title": "Pie"}).status_code == 403


def test_the_cookie_is_for_this_site_and_no_script(client: TestClient) -> None:
    """It is sent with requests of the bench's own pages only, and no script reads it."""
    client.cookies.clear()
    cookie = client.get("/").headers["set-cookie"]
    assert "HttpOnly" in cookie and "SameSite=strict" in cookie


def test_a_large_body_is_refused(client: TestClient) -> None:
    """Said or not said in its header."""
    answer = client.post("/new", content=b"x", headers={"Content-Length": str(LARGEST_BODY + 1)})
    assert answer.status_code == 413

    def body() -> object:
        for _ in range(LARGEST_BODY // 1_000_000 + 2):
            yield b"a=" + b"x" * 1_000_000

    answer = client.post(
        "/new", content=body(), headers={"Content-Type": "application/x-www-form-urlencoded"}
    )
    assert answer.status_code == 413
    assert "Traceback" not in answer.text


@pytest.mark.parametrize(
    "path", ["/nowhere", "/recipe/nobody.toml", "/kitchen/..%2fbench.sqlite", "/static/../_app.py"]
)
def test_what_is_not_there_is_a_plain_page(client: TestClient, path: str) -> None:
    """404, in words, with the way back."""
    answer = client.get(path)
    assert answer.status_code == 404
    assert "Traceback" not in answer.text


def test_an_error_of_ours_is_a_plain_page(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """500 says so without a word of how the program is built."""

    def broken(*_: object) -> None:
        raise RuntimeError("secret of the house")

    monkeypatch.setattr("doughwright.web._bench_routes.list_page", broken)
    answer = client.get("/")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert "wrong on our side" in answer.text
