"""What to measure next in a kitchen: by the first recipe that is made in it, worked out apart."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import quote

from doughwright.errors import InputError
from doughwright.forecast.narrow import DOUGH, FRIDGE, PROTEIN, ROOM, YEAST
from doughwright.publish.render import capital
from doughwright.recipe.text import Where
from doughwright.store import Bench
from doughwright.web._measuring import MeasuringPart, buys_of, measuring_part
from doughwright.web._results import Occasion, Results, read_of, results_in
from doughwright.web._samples import Asking, measuring_of
from doughwright.web._windows import Work

# The measurement that each value of a kitchen is narrowed by.
BOUGHT_BY: Mapping[Where, str] = {
    ("fridge", "temperature"): FRIDGE.name,
    ("room", "temperature"): ROOM.name,
    ("flour", "protein"): PROTEIN.name,
    ("mixer", "friction"): DOUGH.name,
    ("scale", "step"): YEAST.name,
}


@dataclass(frozen=True)
class NextPart:
    """What to measure next: for which recipe, what it buys by value, and how to ask until it is there."""

    recipe: str
    address: str
    page: str
    why: str
    part: MeasuringPart | None
    buys: tuple[tuple[str, str], ...]


def next_part(asking: Asking, bench: Bench, work: Work, text: str, occasion: Occasion) -> NextPart | None:
    """The ranking in the kitchen of this text; ``None`` where no recipe made in it has days."""
    results = _first(bench, work, text, occasion)
    if results is None:
        return None
    state = measuring_of(asking, work, results)
    found = state.result
    path = f"/kitchen/{quote(work.name)}"
    return NextPart(
        recipe=results.recipe.title,
        address="" if state.settled else f"{path}/sampled?window={work.window}&digest={work.digest}",
        page=f"{path}?window={work.window}&sampled=1#next",
        why=capital(state.why.fault.sentence) if state.why is not None else "",
        part=measuring_part(found, wide_only=occasion.wide_only) if found is not None else None,
        buys=tuple(_buys(buys_of(found))) if found is not None else (),
    )


def mark_of_value(where: Where) -> str:
    """The id of the cell that says what measuring a value buys."""
    return "buys-" + "-".join(str(part) for part in where)


def _buys(found: Mapping[str, str]) -> list[tuple[str, str]]:
    return [(mark_of_value(where), found[name]) for where, name in BOUGHT_BY.items() if name in found]


def _first(bench: Bench, work: Work, text: str, occasion: Occasion) -> Results | None:
    """The first recipe that names this kitchen and has days."""
    for head in bench.heads("recipe"):
        read = read_of(head.text, head.name)
        if read is None or (read.recipe.kitchen or "").casefold() != work.name.casefold():
            continue
        try:
            found = results_in(head.text, head.name, work.name, text, occasion)
        except InputError:
            continue
        if found.run is not None:
            return found
    return None
