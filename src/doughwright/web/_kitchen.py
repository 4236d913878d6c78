"""A kitchen's page: its values, each drawn as wide as its doubt, and the recipes that are made in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote

from doughwright.errors import Fault, InputError
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import KitchenDocument, read_kitchen
from doughwright.publish.render import counted, listed
from doughwright.store import Bench
from doughwright.web._form import form_of
from doughwright.web._kitchen_values import ValueGroup, value_groups
from doughwright.web._learnt import LearntPart, learnt_part
from doughwright.web._moved import MovedRow, kitchen_moved
from doughwright.web._next import NextPart, next_part
from doughwright.web._page import DocumentView, Edited, document_view
from doughwright.web._results import Occasion, read_of, results_in
from doughwright.web._samples import Asking
from doughwright.web._windows import Work

# What an edit of a kitchen moves is worked out for so many recipes.
MOST_RECIPES = 4


@dataclass(frozen=True, slots=True)
class Made:
    """A recipe that is made in this kitchen: title, address, and what the unsaved work moves in it."""

    title: str
    address: str
    rows: tuple[MovedRow, ...]
    said: str


@dataclass(frozen=True)
class KitchenParts:
    """What a kitchen's page shows of a text that can be read."""

    lead: str
    groups: tuple[ValueGroup, ...]
    assumed: tuple[str, ...]
    open: bool
    learnt: LearntPart | None


@dataclass(frozen=True)
class KitchenPage:
    """A kitchen: the document in its window, its values, the recipes made in it."""

    doc: DocumentView
    parts: KitchenParts | None
    recipes: tuple[Made, ...]
    next: NextPart | None = None

    @property
    def contents(self) -> tuple[tuple[str, str], ...]:
        """The parts of the page, by id and name."""
        first = (("next", "Measure next"),) if self.next is not None else ()
        return *first, ("goes", "The values"), ("recipes", "Made here"), ("history", "History")


def kitchen_page(bench: Bench, work: Work, view: str, occasion: Occasion, asking: Asking) -> KitchenPage:
    """The page of a window's kitchen; where its text cannot be read, of the last one that could be."""
    read, faults = _readable(work)
    recipes = tuple(_recipes(bench, work, occasion, known=read is not None and not faults))
    said = [f"{one.title}: {one.said[:1].lower()}{one.said[1:]}" for one in recipes if one.said]
    doc = document_view(
        bench, work, view, occasion,
        title=read.kitchen.kitchen if read is not None else None, faults=faults,
        edited=Edited(" ".join(said[:2]) or "There is unsaved work in this window."),
    )  # fmt: skip
    if read is None:
        return KitchenPage(doc, None, recipes)
    form = form_of(read.document, work.text, work.base.text, faults)
    used = surroundings(read.kitchen)
    groups = value_groups(used, form)
    parts = KitchenParts(_lead(groups), groups, used.assumed, form.open, learnt_part(used.learnt))
    following = next_part(asking, bench, work, read.document.text, occasion)
    return KitchenPage(doc, parts, recipes, following)


def _readable(work: Work) -> tuple[KitchenDocument | None, tuple[Fault, ...]]:
    faults: tuple[Fault, ...] = ()
    for text in (work.text, work.good, work.before, work.base.text, work.head.text):
        if text is None:
            continue
        try:
            return read_kitchen(text, work.name), faults
        except InputError as error:
            faults = faults or error.faults
    return None, faults


def _lead(groups: tuple[ValueGroup, ...]) -> str:
    rows = [row for group in groups for row in group.rows if row.known != "not said"]
    counts = [(sum(row.known == how for row in rows), how) for how in ("known", "measured", "assumed")]
    said = listed([f"{count} {how}" for count, how in counts if count])
    return f"Of {counted(len(rows), 'value')}, {said}. What is assumed widens what the bench says."


def _recipes(bench: Bench, work: Work, occasion: Occasion, *, known: bool) -> Iterator[Made]:
    """The recipes that name this kitchen; with unsaved work, what it moves in the first few."""
    worked_out = 0
    for head in bench.heads("recipe"):
        read = read_of(head.text, head.name)
        if read is None or (read.recipe.kitchen or "").casefold() != work.name.casefold():
            continue
        address = f"/recipe/{quote(head.name)}"
        rows: tuple[MovedRow, ...] = ()
        said = ""
        if known and work.unsaved and worked_out < MOST_RECIPES:
            worked_out += 1
            before = results_in(head.text, head.name, work.name, work.base.text, occasion)
            now = results_in(head.text, head.name, work.name, work.text, occasion)
            rows, said = kitchen_moved(before, now)
        yield Made(read.recipe.title, address, rows, said)
