"""The routes of a kitchen's readings: the page to write them down, and what they say."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import Response

from doughwright.errors import InputError
from doughwright.kitchen.read import read_kitchen
from doughwright.web._desk import Desk, answer, desk_of, posted, text_of
from doughwright.web._editing import work_of
from doughwright.web._readings import Given, readings_page
from doughwright.web._windows import Work

MOST_FILES = 4


def show(request: Request) -> Response:
    """The page to write readings down."""
    desk = desk_of(request)
    return _answer(request, desk, desk.work(request, "kitchen"), None)


async def learn(request: Request) -> Response:
    """What readings say of the kitchen."""
    given = await posted(request, files=MOST_FILES)
    files = {
        one.filename: await one.read()
        for one in given.getlist("files")
        if isinstance(one, UploadFile) and one.filename
    }
    await given.close()
    return await run_in_threadpool(_learn, request, given, files)


def _learn(request: Request, given: FormData, files: Mapping[str, bytes]) -> Response:
    desk = desk_of(request)
    work = work_of(desk, "kitchen", request.path_params["name"], given)
    text = text_of(given, "text") or ""
    kept = next((name for name in files if name.casefold().endswith(".toml")), None)
    if kept is not None:
        text = files[kept].decode(errors="replace")
    logs = {name: raw for name, raw in files.items() if name != kept}
    asked = Given(text_of(given, "recipe") or "", text, text_of(given, "log") or "", logs)
    return _answer(request, desk, work, asked)


def _answer(request: Request, desk: Desk, work: Work, given: Given | None) -> Response:
    try:
        title = read_kitchen(work.text, work.name).kitchen.kitchen
    except InputError:
        title = work.name
    now = desk.clock().astimezone(desk.zone)
    page = readings_page(desk.bench, work, title, given, f"{now.day} {now:%B}")
    return answer(request, "readings.html", page=page)
