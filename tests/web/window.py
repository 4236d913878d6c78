"""A browser's window without a browser: it looks at a page, fills in its form and presses its buttons."""

from __future__ import annotations

import re
import warnings
from html import unescape

with warnings.catch_warnings():
    # Its import says that another HTTP library will be wanted one day.
    warnings.simplefilter("ignore")
    from starlette.testclient import TestClient

HOST = "http://127.0.0.1:8764"


class Window:
    """One window on one document."""

    def __init__(self, client: TestClient, path: str, *, live: bool = False) -> None:
        self.client = client
        self.path = path
        self.live = live
        self.page = ""
        self.look()

    def look(self, query: str = "") -> str:
        """Get the page, or get it again."""
        window = f"window={self.state('window')}&" if self.page else ""
        self.page = self.client.get(f"{self.path}?{window}{query}").text
        return self.page

    def state(self, name: str) -> str:
        """A hidden field of the page."""
        found = re.search(rf'<input type="hidden" name="{name}" value="([^"]*)"', self.page)
        return unescape(found[1]) if found else ""

    def fill(self, fields: dict[str, str] | None = None, **more: str) -> str:
        """Send the form with these fields filled in otherwise; ``do`` and ``go`` are its buttons."""
        hidden = {name: self.state(name) for name in ("window", "digest", "base", "view")}
        data = hidden | {"token": self.client.cookies["bench"]} | (fields or {}) | more
        headers = {"HX-Request": "true"} if self.live else {}
        self.answer = self.client.post(self.path, data=data, headers=headers)
        self.page = self.answer.text
        return self.page

    def value(self, name: str) -> str:
        """What a field of the form holds."""
        found = re.search(rf'name="{re.escape(name)}" value="([^"]*)"', self.page)
        return unescape(found[1]) if found else ""

    def text(self) -> str:
        """The page as one reads it: without tags, its white space as single spaces."""
        return read_aloud(self.page)

    def part(self, mark: str) -> str:
        """One part of the page, by its id, as one reads it."""
        found = re.search(rf'<(\w+)[^>]*\sid="{mark}"[^>]*>', self.page)
        if found is None:
            return ""
        depth, at = 1, found.end()
        for tag in re.finditer(rf"<(/?){found[1]}\b[^>]*>", self.page[found.end() :]):
            depth += -1 if tag[1] else 1
            if depth == 0:
                at = found.end() + tag.start()
                break
        return read_aloud(self.page[found.end() : at])


def read_aloud(page: str) -> str:
    """Markup as one reads it; no-break spaces as spaces."""
    bare = re.sub(r"<(script|style|svg)\b.*?</\1>", " ", page, flags=re.S)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", bare)).split())
