"""The routes of the bench's first page, and of new documents."""

from __future__ import annotations

import unicodedata
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import Response

from doughwright.errors import Fault, InputError
from doughwright.kitchen.start import starting_kitchen
from doughwright.recipe.start import SHAPES, starting_document
from doughwright.store import Bench, Kind
from doughwright.store.names import name_from_title
from doughwright.web._desk import answer, desk_of, posted, see, text_of
from doughwright.web._list import list_page


def front(request: Request) -> Response:
    """The list of recipes and kitchens."""
    desk = desk_of(request)
    page = list_page(desk.bench, desk.clock(), desk.zone)
    return answer(request, "list.html", page=page, shapes=SHAPES)


async def new(request: Request) -> Response:
    """A new recipe or kitchen from a starting document, then its page."""
    given = await posted(request)
    return await run_in_threadpool(_new, request, given)


def _new(request: Request, given: FormData) -> Response:
    title = " ".join(_without_controls(text_of(given, "title") or "").split())
    if not title:
        raise InputError(Fault("a new document needs a title", try_='Write for example "Leek pie"'))
    bench = desk_of(request).bench
    kind: Kind = "kitchen" if text_of(given, "kind") == "kitchen" else "recipe"
    wanted = text_of(given, "shape")
    shape = next((one for one in SHAPES if one == wanted), SHAPES[0])
    text = starting_kitchen(title) if kind == "kitchen" else starting_document(shape, title)
    made = bench.save(kind, _free_name(bench, kind, title), text, expected=None, note="begun")
    return see(f"/{kind}/{quote(made.name)}")


def _without_controls(text: str) -> str:
    """The text without characters that no page, card or calendar can hold."""
    return "".join(one for one in text if unicodedata.category(one) != "Cc" or one.isspace())


def _free_name(bench: Bench, kind: Kind, title: str) -> str:
    """A name from the title that no document of the kind has, or has had."""
    first = name_from_title(title)
    taken = {one.casefold() for one in (*bench.names(kind), *bench.names(kind, removed=True))}
    stem, number, name = first.removesuffix(".toml"), 1, first
    while name.casefold() in taken:
        number += 1
        name = f"{stem}-{number}.toml"
    return name
