"""What one takes away from a sheet: the card as PDF, the plan as a calendar."""

from __future__ import annotations

from pathlib import PurePath
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from doughwright.errors import Fault, NoAnswerError
from doughwright.plan.calendar import calendar
from doughwright.publish.card import recipe_card
from doughwright.publish.render import System
from doughwright.web._desk import desk_of
from doughwright.web._document_routes import occasion_of
from doughwright.web._results import Results, results_of
from doughwright.web._windows import Work

SYSTEMS: dict[str, System] = {"metric": "metric", "US": "US", "both": "both"}


def card(request: Request) -> Response:
    """The card of the window's text, to print; raises ``DocumentError`` where it cannot be read."""
    work, results = _results(request)
    units = SYSTEMS.get(request.query_params.get("units", ""), "metric")
    version = f"version {work.base.number}{', and unsaved work' if work.unsaved else ''}"
    made = recipe_card(
        results.recipe,
        results.kitchen,
        units=units,
        plan=results.plan,
        version=version,
        date=f"{desk_of(request).clock():%Y-%m-%d}",
    )
    return _file(made, "application/pdf", f"{PurePath(work.name).stem}.pdf")


def plan_calendar(request: Request) -> Response:
    """The calendar of the plan; raises why there is no plan where there is none."""
    work, results = _results(request)
    if results.plan is None:
        raise results.missing.get("plan") or NoAnswerError(Fault("there is no plan"))
    made = calendar(results.plan, stamp=desk_of(request).clock())
    return _file(made, "text/calendar", f"{PurePath(work.name).stem}.ics")


def _results(request: Request) -> tuple[Work, Results]:
    desk = desk_of(request)
    work = desk.work(request, "recipe")
    return work, results_of(work.text, work.name, desk.bench, occasion_of(request, desk))


def _file(content: bytes, kind: str, name: str) -> Response:
    quoted = quote(name, safe=" +")
    called = f'filename="{name}"' if quoted == name else f"filename*=UTF-8''{quote(name, safe='')}"
    headers = {"Content-Disposition": f"attachment; {called}"}
    return Response(content, media_type=kind, headers=headers)
