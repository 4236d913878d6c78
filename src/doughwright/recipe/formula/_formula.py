"""The formula of a recipe: baker's percentages of each dough with its preferments resolved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, Protocol

from doughwright.figures import Figure, grams
from doughwright.recipe.formula import _figures
from doughwright.recipe.formula._dilution import Dilution
from doughwright.recipe.formula._figures import Batch
from doughwright.recipe.formula._loading import customary_loading, loading
from doughwright.recipe.formula._parts import Part, parts_of, shares_of
from doughwright.recipe.formula._pieces import Divided, divided
from doughwright.recipe.formula._weighable import Spoon, weighing
from doughwright.recipe.model import Mix, Recipe
from doughwright.recipe.weigh import WeighedMix, weigh


class Scale(Protocol):
    """What a formula asks of a kitchen: its name, and the step of its scale [kg]."""

    @property
    def name(self) -> str:
        """What the kitchen is called."""

    @property
    def scale(self) -> float:
        """The step of the scale's display [kg]."""

    @property
    def scale_known(self) -> bool:
        """Whether the kitchen's document says so; it is assumed where not."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One ingredient: what of it is in the dough, per cent of all flour, and whether the scale can weigh it.

    ``mix`` is where it is weighed, ``weighed`` how much is weighed there (a preferment may go in in part).
    """

    item: str
    mass: Figure
    percent: Figure
    weighable: bool | Literal["measured"]
    why: str
    instead: str | None
    mix: str
    weighed: Figure
    amount: str
    add: str | None
    name: str
    class_: str
    source: str
    dilution: Dilution | None = None
    spoon: Spoon | None = None
    batches: int | None = None
    scale_needed: Figure | None = None


@dataclass(frozen=True, slots=True)
class Preferment:
    """A preferment by itself; ``share`` is the part of the dough's flour that is in it."""

    name: str
    flour: Figure
    water: Figure
    hydration: Figure
    hydration_poured: Figure
    salt: Figure
    yeast_as_fresh: Figure
    mass: Figure
    used: Figure
    share: Figure


@dataclass(frozen=True, slots=True)
class Dough:
    """A dough with its preferments resolved: masses of the batch, and per cent of all flour."""

    name: str
    flour: Figure
    water: Figure
    hydration: Figure
    hydration_poured: Figure
    salt: Figure
    sugar: Figure
    fat: Figure
    yeast_as_fresh: Figure
    mass: Figure
    piece_mass: Figure
    loading: Figure
    ingredients: tuple[Entry, ...]
    pieces: int
    rest: Figure
    shape: str
    loading_customary: _figures.Customary | None
    preferments: tuple[Preferment, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OtherMix:
    """A mix that is no part of a dough: a sauce, a topping, dusting."""

    name: str
    kind: str
    use: str | None
    per: str
    mass: Figure
    ingredients: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Formula:
    """The formula of a recipe in a kitchen."""

    doughs: tuple[Dough, ...]
    others: tuple[OtherMix, ...]
    kitchen: str
    scale: Figure
    notes: tuple[str, ...]


def formula(recipe: Recipe, kitchen: Scale) -> Formula:
    """The formula of a recipe, with what this kitchen's scale can weigh.

    Raises ``InputError`` where an amount cannot be a mass.
    """
    weighed = weigh(recipe)
    doughs = tuple(_dough(recipe, mix, weighed, kitchen.scale) for mix in recipe.doughs)
    inside = {name for mix in recipe.doughs for name in shares_of(weighed, mix.name)}
    others = tuple(
        _other(recipe, mix, weighed, kitchen.scale) for mix in recipe.mixes if mix.name not in inside
    )
    notes = [] if doughs else ["there is no dough in this recipe"]
    if not kitchen.scale_known:
        notes.append(f"a scale that shows {kitchen.scale * 1000:g} g is assumed")
    return Formula(doughs, others, kitchen.name, grams(kitchen.scale), tuple(notes))


def _dough(recipe: Recipe, mix: Mix, weighed: Mapping[str, WeighedMix], step: float) -> Dough:
    batch = Batch(tuple(parts_of(weighed, mix.name)))
    pieces = divided(recipe, mix, batch.mass)
    return Dough(
        name=mix.name,
        flour=batch.flour_figure(),
        water=batch.water(),
        hydration=batch.hydration(),
        hydration_poured=batch.hydration_poured(),
        salt=batch.salt(),
        sugar=batch.sugar(),
        fat=batch.fat(),
        yeast_as_fresh=batch.yeast_as_fresh(),
        mass=batch.mass_figure(),
        piece_mass=_piece_mass(pieces, batch),
        loading=loading(recipe, _piece_mass(pieces, batch)),
        ingredients=_entries(recipe, batch, weighed, step),
        pieces=pieces.pieces,
        rest=grams(pieces.rest),
        shape=recipe.shape,
        loading_customary=customary_loading(recipe.shape),
        preferments=_preferments(mix, weighed, batch.flour),
        notes=(*pieces.notes, *batch.notes, *_used_up(weighed, mix)),
    )


def _piece_mass(pieces: Divided, batch: Batch) -> Figure:
    if pieces.mass is None:
        return grams(None, pieces.why)
    return batch.mass_figure(pieces.mass) if pieces.shared else grams(pieces.mass)


def _entries(
    recipe: Recipe, batch: Batch, weighed: Mapping[str, WeighedMix], step: float
) -> tuple[Entry, ...]:
    return tuple(
        _entry(recipe, part, batch, _figures.water_poured(weighed[part.mix]), step) for part in batch.parts
    )


def _entry(recipe: Recipe, part: Part, batch: Batch, water: float | None, step: float) -> Entry:
    judged = weighing(part.line, step=step, water=water, cups=recipe.cups)
    line, amount = part.line.line, part.line.line.amount
    return Entry(
        item=line.item or part.ingredient.name,
        mass=batch.part_mass(part),
        percent=batch.percent_of(part),
        weighable=judged.weighable,
        why=judged.why,
        instead=judged.instead,
        mix=part.mix,
        weighed=_figures.known_mass(part.weighed),
        amount=amount.text if amount is not None else "",
        add=line.add,
        name=part.ingredient.name,
        class_=part.ingredient.class_.value,
        source=part.ingredient.source,
        dilution=judged.dilution,
        spoon=judged.spoon,
        batches=judged.batches,
        scale_needed=judged.scale_needed,
    )


def _preferments(mix: Mix, weighed: Mapping[str, WeighedMix], flour: float) -> tuple[Preferment, ...]:
    shares = shares_of(weighed, mix.name)
    return tuple(
        _preferment(weighed, name, share, flour) for name, share in shares.items() if name != mix.name
    )


def _preferment(weighed: Mapping[str, WeighedMix], name: str, share: float, flour: float) -> Preferment:
    batch = Batch(tuple(parts_of(weighed, name)))
    return Preferment(
        name=name,
        flour=batch.flour_figure(),
        water=batch.water(),
        hydration=batch.hydration(),
        hydration_poured=batch.hydration_poured(),
        salt=batch.salt(),
        yeast_as_fresh=batch.yeast_as_fresh(),
        mass=batch.mass_figure(),
        used=grams(share * batch.mass),
        share=_figures.of_flour(share * batch.flour, flour),
    )


def _used_up(weighed: Mapping[str, WeighedMix], mix: Mix) -> list[str]:
    """What to say where a dough takes more of a preferment than is made, or leaves some."""
    said = []
    for one in weighed[mix.name].lines:
        made = weighed[one.line.mix].mass if one.line.mix is not None else 0.0
        if one.line.mix is not None and one.mass is not None and abs(one.mass - made) > 1e-3 * made:
            verb = "takes more than is made" if one.mass > made else "leaves some"
            said.append(
                f'"{mix.name}" {verb} of "{one.line.mix}": '
                f"{one.mass * 1000:.4g} g go in, {made * 1000:.4g} g are made"
            )
    return said


def _other(recipe: Recipe, mix: Mix, weighed: Mapping[str, WeighedMix], step: float) -> OtherMix:
    batch = Batch(tuple(parts_of(weighed, mix.name)), in_dough=False)
    entries = _entries(recipe, batch, weighed, step)
    return OtherMix(mix.name, mix.kind, mix.use, mix.per, batch.mass_figure(), entries)
