"""The routes of a recipe's window in other kitchens: fitted to one, redesigned for many."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from doughwright.web._desk import answer, desk_of
from doughwright.web._document_routes import ASKING, READING, occasion_of
from doughwright.web._fit import KEEP, LONGEST, Asked, fit_page
from doughwright.web._redesign import LONGEST as LONGEST_HOURS
from doughwright.web._redesign import redesign_page
from doughwright.web._results import results_of


def fit(request: Request) -> Response:
    """A window's recipe fitted to a kitchen of the bench."""
    desk = desk_of(request)
    work = desk.work(request, "recipe")
    given = request.query_params
    results = results_of(work.text, work.name, desk.bench, occasion_of(request, desk))
    asked = Asked(
        kitchen=given.get("kitchen", ""),
        longest=" ".join(given.get("longest", "").split())[:LONGEST],
        available=" ".join(given.get("available", "").split())[:LONGEST],
        keep=tuple(one for one in KEEP if one in given.getlist("keep")),
    )
    return answer(request, "fit.html", page=fit_page(desk.bench, work, results, asked), keep=KEEP)


def redesign(request: Request) -> Response:
    """What is free in a window's recipe searched for the most ripe kitchens, as far as it is."""
    desk = desk_of(request)
    work = desk.work(request, "recipe")
    given = request.query_params
    results = results_of(work.text, work.name, desk.bench, occasion_of(request, desk))
    hours = " ".join(given.get("hours", "").split())[:LONGEST_HOURS]
    again = "hx-request" in request.headers
    wait = READING if "patient" in given else ASKING if again else 0.0
    page = redesign_page(desk.sampler, work, results, hours, wait)
    return answer(request, "redesign.html", page=page)
