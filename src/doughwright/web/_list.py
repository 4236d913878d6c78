"""The bench's first page: its recipes and its kitchens."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, tzinfo
from urllib.parse import quote

from doughwright.errors import InputError
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.explain import makes_words
from doughwright.publish.render import capital, counted, listed
from doughwright.recipe.read import read_recipe
from doughwright.store import Bench, Draft, Kind, Version
from doughwright.web._words import when_words


@dataclass(frozen=True, slots=True)
class Line:
    """A document of the list: title, address, what it makes, when it was saved; ``draft`` is unsaved work."""

    title: str
    address: str
    makes: str
    saved: str
    draft: str
    faulty: bool


@dataclass(frozen=True, slots=True)
class ListPage:
    """The recipes and the kitchens of the bench in a folder."""

    name: str
    lead: str
    place: str
    recipes: tuple[Line, ...]
    kitchens: tuple[Line, ...]


def list_page(bench: Bench, now: datetime, zone: tzinfo) -> ListPage:
    """All documents of the bench."""
    recipes = tuple(_lines(bench, "recipe", now, zone))
    kitchens = tuple(_lines(bench, "kitchen", now, zone))
    held = listed([counted(len(recipes), "recipe"), counted(len(kitchens), "kitchen")])
    return ListPage(
        name=bench_name(bench),
        lead=f"{capital(held)} on this bench. Every saved version is kept.",
        place=f"Kept in {bench.path}, on this machine only.",
        recipes=recipes,
        kitchens=kitchens,
    )


def bench_name(bench: Bench) -> str:
    """What the bench is called: its folder's name, as words."""
    words = bench.path.parent.name.replace("-", " ").replace("_", " ").split()
    return " ".join(capital(word) for word in words) or "The bench"


def _lines(bench: Bench, kind: Kind, now: datetime, zone: tzinfo) -> Iterator[Line]:
    for head in bench.heads(kind):
        title, makes, faulty = _read(head)
        drafts = bench.drafts(kind, head.name)
        yield Line(
            title=title,
            address=f"/{kind}/{quote(head.name)}",
            makes=makes,
            saved=f"version {head.number}, {when_words(head.when, now, zone)}",
            draft=_draft(drafts, now, zone),
            faulty=faulty,
        )


def _draft(drafts: tuple[Draft, ...], now: datetime, zone: tzinfo) -> str:
    if not drafts:
        return ""
    windows = counted(len(drafts), "window")
    return f"{windows} with unsaved work, {when_words(drafts[0].when, now, zone)}"


def _read(head: Version) -> tuple[str, str, bool]:
    """The title, what it makes, and whether it has faults."""
    try:
        if head.kind == "kitchen":
            return read_kitchen(head.text, head.name).kitchen.kitchen, "", False
        recipe = read_recipe(head.text, head.name).recipe
        return recipe.title, makes_words(recipe), False
    except InputError:
        return head.name, "has faults", True
