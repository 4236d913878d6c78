"""The bench as an ASGI app: its routes, its guard, and how errors are answered."""

from __future__ import annotations

import os
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from doughwright.errors import DoughwrightError, Fault, InputError, NoAnswerError, UnknownNameError
from doughwright.plan.meal import zone_named
from doughwright.publish.svg import picture_css
from doughwright.store import Kind, open_bench
from doughwright.web import _bench_routes, _document_routes, _fit_routes, _paper_routes, _readings_routes
from doughwright.web._desk import HERE, Desk, RefusedError, answer, environment
from doughwright.web._guard import LARGEST_BODY, Guard, TooMuchError, hosts_at
from doughwright.web._sampling import Sampler
from doughwright.web._windows import Windows


def app(
    place: str | os.PathLike[str],
    *,
    port: int,
    who: str | None = None,
    clock: Callable[[], datetime] | None = None,
    zone: ZoneInfo | None = None,
) -> Starlette:
    """The bench in a folder or file, answering to this machine's own names at a port.

    ``clock`` gives the time as an aware datetime and ``zone`` the clocks on the wall; the machine's own
    where they are left out.
    """
    now = clock or _now
    bench = open_bench(place, who=who, clock=now)
    made = Starlette(
        routes=[
            Route("/", _bench_routes.front),
            Route("/new", _bench_routes.new, methods=["POST"]),
            *_documents("recipe"),
            *_documents("kitchen"),
            Route("/kitchen/{name}/readings", _readings_routes.show),
            Route("/kitchen/{name}/readings", _readings_routes.learn, methods=["POST"]),
            Route("/recipe/{name}/fit", _fit_routes.fit),
            Route("/recipe/{name}/redesign", _fit_routes.redesign),
            Route("/recipe/{name}/card.pdf", _paper_routes.card),
            Route("/recipe/{name}/plan.ics", _paper_routes.plan_calendar),
            Route("/pictures.css", _pictures),
            Mount("/static", StaticFiles(directory=HERE / "static")),
        ],
        lifespan=_lifespan,
        middleware=[Middleware(Guard, hosts=hosts_at(port))],
        exception_handlers={
            HTTPException: _http_error,
            DoughwrightError: _error,
            RefusedError: _refused,
            TooMuchError: _too_much,
            Exception: _our_fault,
        },
    )
    made.state.desk = Desk(
        bench, Windows(bench), now, zone or zone_named(None), environment(), Sampler()
    )  # fmt: skip
    return made


@asynccontextmanager
async def _lifespan(app: Starlette) -> AsyncIterator[None]:
    """What is worked out apart stops with the bench."""
    yield
    app.state.desk.sampler.close()


def _documents(kind: Kind) -> list[Route]:
    """The routes that documents of every kind have."""
    return [
        Route(f"/{kind}/{{name}}", _document_routes.show),
        Route(f"/{kind}/{{name}}", _document_routes.change, methods=["POST"]),
        Route(f"/{kind}/{{name}}/sampled", _document_routes.sampled),
        Route(f"/{kind}/{{name}}/compare", _document_routes.compare),
        Route(f"/{kind}/{{name}}/version/{{number:int}}", _document_routes.version),
    ]


def _now() -> datetime:
    return datetime.now(UTC)


async def _pictures(request: Request) -> Response:
    return Response(picture_css(), media_type="text/css")


STATUS: tuple[tuple[type[DoughwrightError], int, str], ...] = (
    (UnknownNameError, 404, "Not on this bench"),
    (NoAnswerError, 409, "There is no answer"),
    (InputError, 422, "That cannot be kept"),
)


WORDS = {404: "There is no such page", 405: "This page takes no such request"}


async def _error(request: Request, error: Exception) -> Response:
    """Any error of ours as a page, by the faults it carries."""
    faults = error.faults if isinstance(error, DoughwrightError) else (Fault("something went wrong"),)
    status, title = next(
        ((number, words) for kind, number, words in STATUS if isinstance(error, kind)), (500, "We are wrong")
    )
    return answer(request, "error.html", status, title=title, faults=faults)


async def _http_error(request: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 500
    words = {404: "There is no such page", 405: "This page takes no such request"}.get(
        status, "Not understood"
    )
    fault = Fault(words[:1].lower() + words[1:], try_="Go back to the bench")
    return answer(request, "error.html", status, title=words, faults=(fault,))


async def _refused(request: Request, error: Exception) -> Response:
    fault = Fault(
        "the request carries no token of this bench’s pages, so nothing was changed",
        try_="Open the page again from the bench, then do it once more",
    )
    return answer(request, "error.html", 403, title="Refused", faults=(fault,))


async def _too_much(request: Request, error: Exception) -> Response:
    return PlainTextResponse(f"Refused: more than {LARGEST_BODY:,} bytes were sent.\n", 413)


async def _our_fault(request: Request, error: Exception) -> Response:
    fault = Fault(
        "something went wrong on our side; what was saved is kept", try_="Go back and try once more"
    )
    return answer(request, "error.html", 500, title="We are wrong", faults=(fault,))
