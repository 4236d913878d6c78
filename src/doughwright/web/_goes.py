"""What goes in: the sentence of what is made, a table for each dough, the other mixes, the figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from doughwright.figures import Figure, grams
from doughwright.publish.render import (
    baker_percent,
    capital,
    counted,
    doubt,
    figure,
    interval,
    listed,
    mass,
    temperature,
)
from doughwright.recipe.formula import Dough, Entry, OtherMix
from doughwright.recipe.model import Mix, Recipe
from doughwright.recipe.notes import CUSTOMARY_RISE
from doughwright.web._adding import Blank, blank_row
from doughwright.web._fields import Field
from doughwright.web._form import Form
from doughwright.web._results import Results

NOTHING = "–"
PIECES = {
    "round": ("round", "rounds"),
    "rectangle": ("rectangle", "rectangles"),
    "tin": ("tin loaf", "tin loaves"),
    "ball": ("ball", "balls"),
}
SIZES = {
    "round": ("diameter",),
    "rectangle": ("length", "width"),
    "tin": ("length", "width", "height"),
    "ball": (),
}

Words = tuple[str | Field, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One ingredient: its amount in each mix, all of it, its baker's percentage and what to know of it."""

    item: str
    cells: tuple[Field | None, ...]
    all: str
    percent: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A dough with the mixes in it, a column each; or another mix with one column."""

    name: str
    heading: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    total: str
    totals: tuple[str, ...]
    total_all: str
    total_percent: str
    facts: tuple[Fact, ...]
    notes: tuple[str, ...]
    blank: Blank


@dataclass(frozen=True, slots=True)
class Fact:
    """A figure by its name, with a word beside it."""

    name: str
    value: str
    beside: str = ""


@dataclass(frozen=True, slots=True)
class GoesPart:
    """The part "What goes in"."""

    margin: tuple[str, ...]
    makes: tuple[Words, ...]
    doughs: tuple[Table, ...]
    others: tuple[Table, ...]
    open: bool


def goes_part(results: Results, form: Form, kitchens: tuple[tuple[str, str], ...]) -> GoesPart:
    """What goes in, as fields over the document."""
    recipe, made = results.recipe, results.formula
    several = len(made.doughs) > 1
    return GoesPart(
        margin=tuple(_margin(results)),
        makes=(_makes(recipe, form), _wanted(recipe, form), _kitchen(form, kitchens)),
        doughs=tuple(_dough(results, dough, form, several) for dough in made.doughs),
        others=tuple(_other(recipe, mix, form) for mix in made.others),
        open=form.open,
    )


def _margin(results: Results) -> Iterator[str]:
    doughs = results.formula.doughs
    if doughs:
        flours = [entry for entry in doughs[0].ingredients if entry.class_ == "flour"]
        names = list(dict.fromkeys(entry.item for entry in flours))
        known = doughs[0].hydration
        wet = f" at a hydration of {figure(known, 0)}" if known.value is not None else ""
        yield f"A dough of {listed(names) or 'no flour'}{wet}."
    if any(entry.weighable is False for entry in _entries(results)):
        yield "A dotted line marks a weight this kitchen’s scale cannot give."


def _entries(results: Results) -> list[Entry]:
    made = results.formula
    mixes: tuple[Dough | OtherMix, ...] = (*made.doughs, *made.others)
    return [entry for mix in mixes for entry in mix.ingredients]


def _makes(recipe: Recipe, form: Form) -> Words:
    shape, makes = recipe.shape, recipe.makes
    words: list[str | Field] = ["Makes", form.field(("makes", "pieces"), "pieces", hint="1", size=3)]
    words.append(PIECES[shape][makes.pieces != 1])
    for number, key in enumerate(SIZES[shape]):
        words.append("of" if number == 0 else "by")
        words.append(form.field(("makes", key), key, hint="size", size=6))
    words += [
        "for",
        form.field(("makes", "portions"), "portions", hint="any", size=3),
        "people, on the table",
    ]
    words += [form.field(("makes", "eat"), "when to eat", hint="Saturday 19:00", size=13), "."]
    return tuple(words)


def _wanted(recipe: Recipe, form: Form) -> Words:
    judged = "shaped" if recipe.shape in ("round", "rectangle") else "baked"
    rise = form.field(
        ("target", "rise"), "rise wanted, times its volume", hint=CUSTOMARY_RISE[recipe.shape], size=9
    )
    colours = ("pale", "golden", "brown", "dark")
    return (
        "Wanted: dough at",
        form.field(("target", "dough_temperature"), "dough temperature wanted", hint="24 °C", size=6),
        f", {judged} at", rise, "times its volume, the base",
        form.field(("target", "base"), "colour of the base wanted", size=8, options=colours), ".",
    )  # fmt: skip


def _kitchen(form: Form, kitchens: tuple[tuple[str, str], ...]) -> Words:
    files, names = tuple(file for file, _ in kitchens), tuple(name for _, name in kitchens)
    hint = "the middle of all kitchens"
    return (
        "In the kitchen",
        form.field(("kitchen",), "kitchen", hint=hint, options=files, labels=names),
        ".",
    )


def _dough(results: Results, dough: Dough, form: Form, several: bool) -> Table:
    recipe = results.recipe
    mixes = _mixes_in(recipe, recipe.mix(dough.name))
    numbers = {mix.name: number for number, mix in enumerate(recipe.mixes)}
    rows = tuple(_rows(recipe, mixes, numbers, dough, form, mass(dough_step(results))))
    pieces = counted(dough.pieces, *PIECES[recipe.shape])
    each = f" of {figure(_middle(dough.piece_mass))}" if dough.piece_mass.value is not None else ""
    weighed = {one.name: one.mass for one in dough.preferments}
    totals = tuple(figure(_middle(weighed.get(mix.name, grams(_own_mass(mix, dough))))) for mix in mixes)
    total = sum(entry.percent.value or 0.0 for entry in dough.ingredients)
    return Table(
        name=dough.name,
        heading=dough.name if several else "",
        columns=tuple(mix.name for mix in mixes),
        rows=rows,
        total=f"{pieces}{each}",
        totals=totals,
        total_all=figure(_middle(dough.mass)),
        total_percent=baker_percent(total),
        facts=tuple(_facts(results, dough)),
        notes=tuple(capital(note) for note in dough.notes),
        blank=blank_row(numbers[dough.name], tuple((numbers[mix.name], mix.name) for mix in mixes)),
    )


def dough_step(results: Results) -> float:
    """The step of the kitchen's scale [kg]."""
    return results.kitchen.scale


def _own_mass(mix: Mix, dough: Dough) -> float:
    """What a mix weighs without the mixes in it [kg]."""
    return sum((entry.weighed.value or 0.0) for entry in dough.ingredients if entry.mix == mix.name) / 1000.0


def _middle(one: Figure) -> Figure:
    """The figure without its interval, where the interval stands elsewhere."""
    return Figure(one.value, one.unit, why=one.why)


def _mixes_in(recipe: Recipe, mix: Mix) -> list[Mix]:
    """The mixes that go into a mix, the deepest first, itself last; each once."""
    inner = [recipe.mix(line.mix) for line in mix.ingredients if line.mix]
    every = [one for part in inner for one in _mixes_in(recipe, part)]
    return list({one.name: one for one in [*every, mix]}.values())


Key = tuple[str, int]


def _rows(
    recipe: Recipe, mixes: list[Mix], numbers: dict[str, int], dough: Dough, form: Form, step: str
) -> Iterator[Row]:
    places = {mix.name: _places(mix) for mix in mixes}
    entries = _entries_by(dough.ingredients)
    keys = list(dict.fromkeys(key for mix in [*mixes[::-1]] for key in places[mix.name]))
    for key in keys:
        cells, found = [], []
        for mix in mixes:
            index = places[mix.name].get(key)
            entry = entries.get((mix.name, key)) if index is not None else None
            found += [entry] if entry is not None else []
            dotted = entry is not None and entry.weighable is False
            where = ("mix", numbers[mix.name], "ingredients", index if index is not None else 0, "amount")
            label = f"{key[0]} in the {mix.name}"
            cells.append(form.field(where, label, size=8, dotted=dotted) if index is not None else None)
        yield _row(key[0], tuple(cells), found, step)


def _places(mix: Mix) -> dict[Key, int]:
    """The lines of a mix by what they are, and which of that name."""
    seen: dict[str, int] = {}
    out: dict[Key, int] = {}
    for index, line in enumerate(mix.ingredients):
        name = line.item or line.mix or ""
        seen[name] = seen.get(name, 0) + 1
        out[name, seen[name]] = index
    return out


def _entries_by(entries: tuple[Entry, ...]) -> dict[tuple[str, Key], Entry]:
    seen: dict[tuple[str, str], int] = {}
    out: dict[tuple[str, Key], Entry] = {}
    for entry in entries:
        mark = (entry.mix, entry.item)
        seen[mark] = seen.get(mark, 0) + 1
        out[entry.mix, (entry.item, seen[mark])] = entry
    return out


def _row(item: str, cells: tuple[Field | None, ...], entries: list[Entry], step: str) -> Row:
    known = [entry for entry in entries if entry.mass.value is not None]
    whole = figure(grams(sum(entry.mass.value or 0.0 for entry in known) / 1000.0)) if known else NOTHING
    shares = [entry.percent.value for entry in known if entry.percent.value is not None]
    return Row(
        item, cells, whole, baker_percent(sum(shares)) if shares else NOTHING, tuple(_notes(entries, step))
    )


def _notes(entries: list[Entry], step: str) -> Iterator[str]:
    for entry in entries:
        inside = f"in the {entry.mix}: " if len(entries) > 1 else ""
        if entry.weighable is False:
            do = f". {capital(entry.instead)}" if entry.instead else ""
            yield f"{capital(inside)}{figure(entry.weighed)} is too little for a scale that shows {step}{do}."
        elif entry.weighable == "measured" and entry.mass.value is not None:
            yield f"{capital(inside + entry.why)}."


def _facts(results: Results, dough: Dough) -> Iterator[Fact]:
    yield Fact("hydration", figure(_middle(dough.hydration)), doubt(dough.hydration))
    yield Fact("as poured", figure(_middle(dough.hydration_poured)))
    yield Fact("salt", figure(_middle(dough.salt)), doubt(dough.salt))
    yield Fact("sugar", figure(_middle(dough.sugar)), doubt(dough.sugar))
    yield Fact("fat", figure(_middle(dough.fat)), doubt(dough.fat))
    yield Fact("yeast, as fresh", figure(_middle(dough.yeast_as_fresh), 2), doubt(dough.yeast_as_fresh, 2))
    usual = dough.loading_customary
    if dough.loading.value is not None:
        beside = ""
        if usual is not None and usual.low.value is not None and usual.high.value is not None:
            beside = f"customary {interval(usual.low.value, usual.high.value, 2)}"
        yield Fact("loading", figure(_middle(dough.loading)), beside)
    for water in results.waters:
        if water.dough == dough.name:
            ice = f", {mass(water.ice)} of it as ice" if water.ice > 0 else ""
            beside = f"for dough at {temperature(water.desired)}{ice}; {water.method}"
            yield Fact("water at", temperature(water.water_temperature), beside)


def _other(recipe: Recipe, mix: OtherMix, form: Form) -> Table:
    number = next(n for n, one in enumerate(recipe.mixes) if one.name == mix.name)
    places = _places(recipe.mixes[number])
    entries = _entries_by(mix.ingredients)
    rows = []
    for key, index in places.items():
        where = ("mix", number, "ingredients", index, "amount")
        cell = form.field(where, f"{key[0]} in the {mix.name}", size=8)
        entry = entries.get((mix.name, key))
        rows.append(_row(key[0], (cell,), [entry] if entry is not None else [], ""))
    heading = mix.name if mix.per == "batch" else f"{mix.name}, for each piece"
    return Table(
        mix.name,
        heading,
        ("",),
        tuple(rows),
        "",
        (),
        "",
        "",
        (),
        (),
        blank_row(number, ((number, mix.name),)),
    )
