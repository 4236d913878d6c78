"""The routes of a recipe's sheet: look at it, change it, save it."""

from __future__ import annotations

from dataclasses import replace

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from doughwright.errors import DocumentError
from doughwright.store import ConflictError
from doughwright.web._desk import Desk, answer, desk_of, posted, see, text_of
from doughwright.web._fields import PREFIX, edited
from doughwright.web._sheet import SheetPage, sheet_page
from doughwright.web._windows import Work, new_window

VIEWS = ("form", "text")
OLD_PAGE = "This page was older than the window’s text, so its last change was not made. Here is the text as it stands."
OWN_WINDOW = (
    "The same window was open twice. What was typed here is kept as a window of its own; "
    "the other still has its text."
)


def sheet(request: Request) -> Response:
    """The sheet as the window has it."""
    desk = desk_of(request)
    work = desk.work(request, "recipe")
    return answer(request, "sheet.html", page=_page(desk, work, _view(request.query_params.get("view"))))


async def change(request: Request) -> Response:
    """Make the changes of a posted form, then what its button asks for."""
    given = await posted(request)
    return await run_in_threadpool(_change, request, given)


def _change(request: Request, given: FormData) -> Response:
    desk = desk_of(request)
    window, base = text_of(given, "window"), text_of(given, "base") or ""
    work = desk.work(request, "recipe", window, int(base) if base.isdecimal() and len(base) < 10 else None)
    if text_of(given, "digest") != work.digest:
        return _old_page(request, desk, work, given)
    work = desk.windows.write(work, _new_text(work, given))
    wish = text_of(given, "do")
    if wish == "save":
        return _save(request, desk, work, given)
    if wish == "put-back":
        work = desk.windows.put_back(work)
    elif wish == "drop":
        desk.windows.forget(work)
        work = desk.windows.work("recipe", work.name, work.window)
    whole = wish is not None or text_of(given, "go") is not None
    return _shown(request, desk, work, given, whole=whole)


def _new_text(work: Work, given: FormData) -> str:
    """The window's text with what was typed; fields change nothing in a text that is no TOML."""
    text = text_of(given, "text")
    if text is not None:
        return _with_its_line_ends(work.text, text)
    fields = {
        name: value for name, value in given.items() if name.startswith(PREFIX) and isinstance(value, str)
    }
    try:
        return edited(work.text, fields) if fields else work.text
    except DocumentError:
        return work.text


def _with_its_line_ends(old: str, new: str) -> str:
    """A text area knows one line end only: where the old text has the other throughout, so has the new."""
    return new.replace("\n", "\r\n") if "\r\n" in old else new


def _old_page(request: Request, desk: Desk, work: Work, given: FormData) -> Response:
    """A page of an older text changes nothing; what was typed as text is kept in a window of its own."""
    text = text_of(given, "text")
    if text is None or text == work.text:
        return _shown(request, desk, work, given, whole=True, notice=OLD_PAGE)
    own = replace(work, window=new_window())
    own = desk.windows.write(own, text)
    return _shown(request, desk, own, given, whole=True, notice=OWN_WINDOW)


def _save(request: Request, desk: Desk, work: Work, given: FormData) -> Response:
    note = " ".join((text_of(given, "note") or "").split())
    over = text_of(given, "over") or ""
    expected = int(over) if over.isdecimal() and len(over) < 10 else work.base.number
    try:
        desk.bench.save(work.kind, work.name, work.text, expected=expected, note=note)
    except ConflictError:
        return _conflict(request, work)
    desk.windows.forget(work)
    return _shown(request, desk, desk.windows.work(work.kind, work.name, work.window), given, whole=True)


def _conflict(request: Request, work: Work) -> Response:
    page = sheet_address(work, "conflict")
    if "hx-request" in request.headers:
        return Response(status_code=200, headers={"HX-Redirect": page})
    return see(page)


def sheet_address(work: Work, part: str) -> str:
    """A page beside the sheet, of the same window."""
    return f"/{work.kind}/{work.name}/{part}?window={work.window}"


def _shown(
    request: Request, desk: Desk, work: Work, given: FormData, *, whole: bool, notice: str = ""
) -> Response:
    """The changed sheet: in place where the page can, else as a page of its own."""
    view = _view(text_of(given, "go") or text_of(given, "view"))
    page = _page(desk, work, view, notice)
    if "hx-request" not in request.headers:
        return see(f"{page.address}{'&notice=1' if notice else ''}#goes-name")
    response = answer(request, "live.html", page=page, whole=whole or view == "form")
    response.headers["HX-Replace-Url"] = page.address
    return response


def _page(desk: Desk, work: Work, view: str, notice: str = "") -> SheetPage:
    page = sheet_page(desk.bench, work, view)
    if not page.faults:
        desk.windows.mark_good(work)
    return replace(page, notices=(*page.notices, notice)) if notice else page


def _view(asked: str | None) -> str:
    return asked if asked in VIEWS else VIEWS[0]
