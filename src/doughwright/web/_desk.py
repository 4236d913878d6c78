"""What every route needs: the bench, its windows, the clock and the templates; and how a page is answered."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from doughwright.store import Bench, Kind
from doughwright.web._list import bench_name
from doughwright.web._sampling import Sampler
from doughwright.web._windows import Windows, Work, checked_window

HERE = Path(__file__).parent
COOKIE = "bench"
TOKEN = "token"
MOST_FIELDS = 20_000


@dataclass(frozen=True)
class Desk:
    """The one object behind all routes."""

    bench: Bench
    windows: Windows
    clock: Callable[[], datetime]
    zone: ZoneInfo
    pages: Environment
    sampler: Sampler

    def work(self, request: Request, kind: Kind, window: str | None = None, base: int | None = None) -> Work:
        """What the window of a request shows of the document that its address names."""
        named = window if window is not None else request.query_params.get("window")
        return self.windows.work(kind, request.path_params["name"], checked_window(named), base)


class RefusedError(Exception):
    """The request carries no token of this bench's own pages."""


def environment() -> Environment:
    """The templates, every value of which is escaped."""
    return Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def desk_of(request: Request) -> Desk:
    """The desk of the app that answers this request."""
    found = request.app.state.desk
    if not isinstance(found, Desk):
        raise TypeError("the app has no desk")
    return found


def answer(request: Request, template: str, status: int = 200, **context: Any) -> Response:
    """A page from a template; a browser that comes for the first time gets its token."""
    desk = desk_of(request)
    token = request.cookies.get(COOKIE) or secrets.token_urlsafe(24)
    page = desk.pages.get_template(template)
    made = page.render(token=token, bench_name=bench_name(desk.bench), **context)
    response = HTMLResponse(made, status)
    if COOKIE not in request.cookies:
        response.set_cookie(COOKIE, token, httponly=True, samesite="strict", path="/")
    return response


async def posted(request: Request, *, files: int = 0) -> FormData:
    """The fields of a request that changes something; raises ``RefusedError`` without this bench's token."""
    given = await request.form(max_files=files, max_fields=MOST_FIELDS, max_part_size=4_000_000)
    token, cookie = given.get(TOKEN), request.cookies.get(COOKIE, "")
    if (
        not isinstance(token, str)
        or not cookie
        or not secrets.compare_digest(token.encode(), cookie.encode())
    ):
        raise RefusedError
    return given


def text_of(given: FormData, name: str) -> str | None:
    """A field as text, its line ends as in a file; ``None`` where it was not sent."""
    value = given.get(name)
    return value.replace("\r\n", "\n") if isinstance(value, str) else None


def see(address: str) -> Response:
    """Go and look there: what follows a change."""
    return RedirectResponse(address, 303)
