"""From a text to a kitchen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from doughwright.errors import DocumentError, Fault
from doughwright.kitchen.learnt import learnt_faults
from doughwright.kitchen.model import Kitchen
from doughwright.kitchen.types import Known
from doughwright.recipe.faults import twice
from doughwright.recipe.text import Document, Where, parse, read_file, telling
from doughwright.recipe.types import Reading
from doughwright.recipe.validate import Schema, at, in_order


@dataclass(frozen=True)
class KitchenDocument:
    """A kitchen with the text it was read from."""

    document: Document
    kitchen: Kitchen

    @property
    def text(self) -> str:
        """The text as it was read."""
        return self.document.text


@cache
def kitchen_schema() -> Schema[Kitchen]:
    """The schema of a kitchen document."""
    return Schema(Kitchen)


def read_kitchen(text: str, file: str | None = None) -> KitchenDocument:
    """Read a kitchen from its text; raises ``DocumentError`` with every fault at its place."""
    with telling(text):
        document = parse(text, file)
        if "mix" in document.data and "title" in document.data:
            fault = Fault("this is a recipe", file=file, line=1, column=1, wanted="a kitchen document")
            raise DocumentError(fault)
        kitchen = kitchen_schema().read(document, Reading())
        found = [at(document, where, fault) for where, fault in _faults(kitchen)]
        if found:
            raise DocumentError(*in_order(found))
    return KitchenDocument(document, kitchen)


def load_kitchen(path: Path) -> KitchenDocument:
    """Read a kitchen from a file."""
    return read_kitchen(read_file(path), str(path))


# What a kitchen can be: low and high in the unit used inside, as a cook says it, and an example.
BOUNDS: dict[Where, tuple[float, float, str, str]] = {
    ("altitude",): (-450.0, 6000.0, "-450 m to 6000 m", "5 m"),
    ("fridge", "temperature"): (-5.0, 20.0, "-5 to 20 °C", "5 °C"),
    ("fridge", "swing"): (0.0, 10.0, "0 to 10 °C", "1 °C"),
    ("fridge", "cycle"): (300.0, 21_600.0, "5 min to 6 h", "45 min"),
    ("fridge", "warms"): (0.1, 20.0, "0.1 to 20 °C", "1.5 °C"),
    ("room", "temperature"): (-5.0, 50.0, "-5 to 50 °C", "19 °C"),
    ("room", "swing"): (0.0, 15.0, "0 to 15 °C", "1.5 °C"),
    ("tap", "temperature"): (0.0, 60.0, "0 to 60 °C", "11 °C"),
    ("flour", "temperature"): (-30.0, 50.0, "-30 to 50 °C", "19 °C"),
    ("flour", "protein"): (0.03, 0.9, "3 % to 90 %", "12.4 %"),
    ("oven", "hottest"): (50.0, 600.0, "50 to 600 °C", "250 °C"),
    ("oven", "error"): (-100.0, 100.0, "-100 to 100 °C", "-8 °C"),
    ("mixer", "friction"): (-20.0, 60.0, "-20 to 60 °C", "12 °C"),
    ("scale", "step"): (1e-6, 0.1, "1 mg to 100 g", "1 g"),
}


def _faults(kitchen: Kitchen) -> Iterator[tuple[Where, Fault]]:
    for where, (low, high, wanted, example) in BOUNDS.items():
        value = _value(kitchen, where)
        if value is not None and not low <= value <= high:
            yield (
                where,
                Fault("", wanted=wanted, found=f"{value:g}", try_=f'Write for example "{example}"'),
            )
    for number, place in enumerate(kitchen.places):
        if not -40.0 <= place.temperature.value <= 60.0:
            yield (
                ("place", number, "temperature"),
                Fault("", wanted="-40 to 60 °C where dough stands", try_='Write temperature = "28 °C"'),
            )
        if place.name.casefold() in ("fridge", "room"):
            yield ("place", number, "name"), Fault("", wanted="a name of its own", found=f'"{place.name}"')
    if kitchen.learnt is not None:
        yield from learnt_faults(kitchen.learnt)
    yield from twice("place", [place.name for place in kitchen.places])
    yield from twice("surface", [surface.name for surface in kitchen.surfaces])


def _value(kitchen: Kitchen, where: Where) -> float | None:
    thing: object = kitchen
    for part in where:
        thing = getattr(thing, str(part))
    return thing.value if isinstance(thing, Known) else thing if isinstance(thing, float) else None
