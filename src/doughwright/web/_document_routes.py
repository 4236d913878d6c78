"""The routes of a document, recipe or kitchen: look at it, change it, compare two texts, go back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from doughwright.store import Bench, ConflictError, Kind
from doughwright.web._compare import conflict_page, version_page
from doughwright.web._desk import Desk, answer, desk_of, posted, see, text_of
from doughwright.web._editing import NOTICES, after_wish, applied, view_of, work_of
from doughwright.web._kitchen import KitchenPage, kitchen_page
from doughwright.web._results import Occasion
from doughwright.web._samples import Asking
from doughwright.web._sheet import SheetPage, sheet_page
from doughwright.web._windows import Work

LONGEST_MEAL = 60
# How long [s] a page waits for what is sampled: one that asks again, and one that is read without scripts.
ASKING, READING = 1.0, 90.0
Page = SheetPage | KitchenPage


@dataclass(frozen=True, slots=True)
class Pages:
    """How documents of a kind are shown: how the page is built, its template, and that of a live change."""

    build: Callable[[Bench, Work, str, Occasion, Asking], Page]
    template: str
    live: str


PAGES: dict[Kind, Pages] = {
    "recipe": Pages(sheet_page, "sheet.html", "live/sheet.html"),
    "kitchen": Pages(kitchen_page, "kitchen.html", "live/kitchen.html"),
}


def show(request: Request) -> Response:
    """The document as the window has it."""
    desk, kind = desk_of(request), kind_of(request)
    work = desk.work(request, kind)
    view = view_of(request.query_params.get("view"))
    asking = Asking(desk.sampler)
    if "sampled" in request.query_params:
        asking = Asking(desk.sampler, READING, all=True)
    notice = request.query_params.get("notice", "")
    page = _built(desk, work, view, occasion_of(request, desk), notice, asking)
    return answer(request, PAGES[kind].template, page=page)


def sampled(request: Request) -> Response:
    """What is sampled of a window's document, as far as it is there; nothing where the page is older."""
    desk, kind = desk_of(request), kind_of(request)
    work = desk.work(request, kind)
    asked = request.query_params
    if "hx-request" not in request.headers:
        there = "others" if kind == "recipe" else "next"
        return see(f"/{kind}/{quote(work.name)}?window={work.window}&sampled=1#{there}")
    if asked.get("digest") != work.digest:
        return Response(status_code=204)
    have = tuple(asked.get("have", "").split(","))
    occasion = occasion_of(request, desk)
    page = _built(desk, work, view_of(None), occasion, asking=Asking(desk.sampler, ASKING, have))
    if isinstance(page, KitchenPage):
        return answer(request, "live/next.html", page=page)
    found = page.sampled
    if found is None:
        return Response(status_code=204)
    # The plan may have moved on meanwhile: then the days are others too.
    whole = asked.get("mark") != found.mark
    fresh = [one for one in found.there if one not in have]
    return answer(request, "live/sampled.html", page=page, whole=whole, fresh=fresh)


async def change(request: Request) -> Response:
    """Make the changes of a posted form, then what its button asks for."""
    given = await posted(request)
    return await run_in_threadpool(_change, request, given)


def compare(request: Request) -> Response:
    """This window's work beside what another window has saved meanwhile."""
    desk, kind = desk_of(request), kind_of(request)
    work = desk.work(request, kind)
    if not (work.overtaken and work.unsaved):
        return see(f"/{kind}/{quote(work.name)}?window={work.window}")
    occasion = occasion_of(request, desk)
    page = conflict_page(work, _built(desk, work, "form", occasion).doc.title, occasion)
    return answer(request, "conflict.html", 409, page=page)


def version(request: Request) -> Response:
    """One saved version, beside what the window has."""
    desk, kind = desk_of(request), kind_of(request)
    work = desk.work(request, kind)
    found = desk.bench.version(kind, work.name, request.path_params["number"])
    occasion = occasion_of(request, desk)
    page = version_page(work, found, _built(desk, work, "form", occasion).doc.title, occasion)
    return answer(request, "version.html", page=page)


def kind_of(request: Request) -> Kind:
    """The kind of document that the address names."""
    return "kitchen" if request.url.path.startswith("/kitchen/") else "recipe"


def occasion_of(request: Request, desk: Desk, given: FormData | None = None) -> Occasion:
    """When the request is, and the meal that it asks for."""
    asked = text_of(given, "eat") if given is not None else request.query_params.get("eat")
    wide_said = text_of(given, "wide") if given is not None else request.query_params.get("wide")
    wide = bool(wide_said) and "hx-request" in request.headers
    return Occasion(desk.clock(), desk.zone, " ".join((asked or "").split())[:LONGEST_MEAL], wide)


def _change(request: Request, given: FormData) -> Response:
    desk, kind = desk_of(request), kind_of(request)
    name = request.path_params["name"]
    work, notice = applied(desk, work_of(desk, kind, name, given), given)
    wish = text_of(given, "do")
    try:
        work = after_wish(desk, work, None if notice else wish, given)
    except ConflictError:
        return _elsewhere(request, f"/{kind}/{quote(work.name)}/compare?window={work.window}")
    whole = bool(notice) or wish is not None or text_of(given, "go") is not None
    view = view_of(text_of(given, "go") or text_of(given, "view"))
    page = _built(desk, work, view, occasion_of(request, desk, given), notice)
    if "hx-request" not in request.headers:
        return see(f"{page.doc.address}{f'&notice={notice}' if notice else ''}")
    response = answer(request, PAGES[kind].live, page=page, whole=whole or view == "form")
    response.headers["HX-Replace-Url"] = page.doc.address
    return response


def _elsewhere(request: Request, address: str) -> Response:
    """Go to another page, also where only parts of this one were asked for."""
    if "hx-request" in request.headers:
        return Response(headers={"HX-Redirect": address})
    return see(address)


def _built(
    desk: Desk, work: Work, view: str, occasion: Occasion, notice: str = "", asking: Asking | None = None
) -> Page:
    page = PAGES[work.kind].build(desk.bench, work, view, occasion, asking or Asking(desk.sampler))
    if not page.doc.faults:
        desk.windows.mark_good(work)
    if notice not in NOTICES:
        return page
    return replace(page, doc=replace(page.doc, notices=(NOTICES[notice], *page.doc.notices)))
