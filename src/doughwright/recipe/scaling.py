"""Scaling a recipe: the same dough in another amount, as a lossless edit of its document."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from doughwright.errors import Fault, InputError
from doughwright.figures import Figure
from doughwright.recipe.edit import Change, edit
from doughwright.recipe.formula import Formula, Scale, divide_step, formula
from doughwright.recipe.model import Recipe
from doughwright.recipe.moved import Moved, moved_formula
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.recipe.text import Document, Where
from doughwright.recipe.types import MOST_PIECES
from doughwright.units import AmountKind, convert, format_length, format_mass, parse_quantity, rewrite
from doughwright.units import Kind as UnitKind

NOT_SCALED = "Times and temperatures are not scaled."
_LARGER = "A larger or smaller piece cools, warms, rises and bakes in another time: look at the days again."
_MOST_FACTOR = 1000.0
_CLOSE = 1e-3


@dataclass(frozen=True, slots=True)
class Scaled:
    """A scaled recipe: what it was multiplied by, the new text, what moved, and what to know."""

    factor: float
    document: str
    moved: tuple[Moved, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Plan:
    """What scaling does: ``factor`` for amounts, how many pieces and what diameter [m] come out of it.

    ``per_piece`` says whether what is written for one piece is multiplied too; ``piece`` whether a piece
    weighs another amount afterwards.
    """

    factor: float
    per_piece: bool
    pieces: int | None = None
    diameter: float | None = None


@dataclass(frozen=True, slots=True)
class _OneGram:
    """A kitchen of which only the scale matters."""

    name: str = "any kitchen"
    scale: float = 0.001
    scale_known: bool = True


def scale(
    document: RecipeDocument,
    *,
    pieces: int | None = None,
    diameter: float | None = None,
    flour: float | None = None,
    dough: float | None = None,
    piece: float | None = None,
    kitchen: Scale | None = None,
) -> Scaled:
    """Scale a recipe to one target: pieces, a diameter [m] at equal loading, or flour, dough or piece [kg].

    Every amount keeps its unit and its notation. ``kitchen`` says whose scale is meant where ``moved`` speaks
    of weighing. Raises ``InputError`` where the recipe cannot be scaled so.
    """
    asked = {
        "pieces": pieces, "diameter": diameter, "flour": flour, "dough": dough, "piece": piece,
    }  # fmt: skip
    given = {name: value for name, value in asked.items() if value is not None}
    if len(given) != 1:
        raise InputError(_one_of(list(given)))
    name, value = next(iter(given.items()))
    _check(name, value)
    before = formula(document.recipe, kitchen or _OneGram())
    plan = _PLANS[name](document.recipe, before, value)
    if not 1.0 / _MOST_FACTOR <= plan.factor <= _MOST_FACTOR:
        raise InputError(_too_far(name, plan.factor))
    text = _edited(document.document, document.recipe, before, plan)
    scaled = read_recipe(text, document.document.file)
    after = formula(scaled.recipe, kitchen or _OneGram())
    _verify(name, value, before, after, plan.factor)
    notes = (NOT_SCALED, *_notes(name, document.recipe, scaled.recipe, before, after, plan))
    return Scaled(plan.factor, text, moved_formula(before, after), notes)


def _pieces(recipe: Recipe, before: Formula, value: float) -> _Plan:
    now = int(value)
    each = _each(recipe, before)
    if each is not None:
        dough, whole = each
        return _Plan(
            now * whole / (_grams(before.doughs[dough].mass) * (1.0 - recipe.makes.loss)), False, now
        )
    current = before.doughs[0].pieces if before.doughs else recipe.makes.pieces
    return _Plan(now / current, False, now)


def _diameter(recipe: Recipe, before: Formula, value: float) -> _Plan:
    now = recipe.makes.diameter
    if recipe.shape != "round" or now is None:
        raise InputError(
            Fault(f"only a round has a diameter; this recipe makes a {recipe.shape}",
                  try_='Scale it by the mass of a piece, for example --piece "500 g"')
        )  # fmt: skip
    return _Plan((value / now) ** 2, True, diameter=value)


def _flour(recipe: Recipe, before: Formula, value: float) -> _Plan:
    return _amount(recipe, before, value * 1000.0 / _sum(before, "flour"))


def _whole(recipe: Recipe, before: Formula, value: float) -> _Plan:
    return _amount(recipe, before, value * 1000.0 / _sum(before, "mass"))


def _amount(recipe: Recipe, before: Formula, factor: float) -> _Plan:
    """More dough is heavier pieces, or more of them where they are divided by weight."""
    divided = _each(recipe, before)
    if divided is None:
        return _Plan(factor, True)
    dough, whole = divided
    left = _grams(before.doughs[dough].mass) * factor * (1.0 - recipe.makes.loss)
    return _Plan(factor, False, max(math.floor(left / whole + 1e-6), 1))


def _piece(recipe: Recipe, before: Formula, value: float) -> _Plan:
    if len(before.doughs) != 1:
        raise InputError(
            Fault("which dough's piece is meant?", wanted="a recipe with one dough",
                  found=f"{len(before.doughs)} doughs", try_="Scale it by pieces or by all its dough")
        )  # fmt: skip
    now = before.doughs[0].piece_mass
    if now.value is None:
        raise InputError(Fault("the mass of a piece is not known", found=now.why))
    return _Plan(value * 1000.0 / now.value, True)


_PLANS = {"pieces": _pieces, "diameter": _diameter, "flour": _flour, "dough": _whole, "piece": _piece}


def _each(recipe: Recipe, before: Formula) -> tuple[int, float] | None:
    """Which dough is divided by weight, and the weight [g] of a piece; ``None`` where none is."""
    for number, dough in enumerate(before.doughs):
        step = divide_step(recipe, dough.name)
        if step is not None and step.each is not None:
            return number, step.each * 1000.0
    return None


def _grams(figure: Figure) -> float:
    return figure.value or 0.0


def _sum(before: Formula, name: str) -> float:
    found = sum(_grams(getattr(dough, name)) for dough in before.doughs)
    if found <= 0:
        raise InputError(Fault("there is no dough to scale by", wanted="a recipe with a dough and flour"))
    return found


def _check(name: str, value: float) -> None:
    """Refuse what no kitchen makes, and what is no number."""
    if name == "pieces":
        whole = isinstance(value, int) and not isinstance(value, bool)
        if not whole or not 1 <= value <= MOST_PIECES:
            raise InputError(
                Fault("pieces", wanted=f"a whole number from 1 to {MOST_PIECES}", found=f"{value}",
                      try_="Write for example --pieces 4")
            )  # fmt: skip
        return
    low, high, wanted, example = _LIMITS[name]
    if not (math.isfinite(value) and low <= value <= high):
        shown = format_length(value) if name == "diameter" and math.isfinite(value) else f"{value:g}"
        shown = f"{value * 1000:g} g" if name != "diameter" and math.isfinite(value) else shown
        raise InputError(
            Fault(name, wanted=wanted, found=shown, try_=f'Write for example --{name} "{example}"')
        )


_LIMITS = {
    "diameter": (0.005, 3.0, "5 mm to 3 m", "35 cm"),
    "flour": (1e-3, 1e3, "1 g to 1000 kg", "1 kg"),
    "dough": (1e-3, 1e3, "1 g to 1000 kg", "1.6 kg"),
    "piece": (1e-3, 1e2, "1 g to 100 kg", "420 g"),
}


def _one_of(given: list[str]) -> Fault:
    ways = "pieces, diameter, flour, dough or piece"
    found = "none" if not given else " and ".join(given)
    return Fault("scale takes one target", wanted=f"one of {ways}", found=found, try_="Write --pieces 4")


def _too_far(name: str, factor: float) -> Fault:
    return Fault(
        f"that {name} is too far from this recipe", wanted=f"at most {_MOST_FACTOR:g} times more or less",
        found=f"a factor of {factor:.3g}", try_="Check the unit",
    )  # fmt: skip


def _edited(document: Document, recipe: Recipe, before: Formula, plan: _Plan) -> str:
    changes = [*_amounts(document, recipe, plan), *_makes(document, recipe, before, plan)]
    adds = [one for one in changes if one.where[0] == "makes" and "makes" not in document.data]
    text = edit(document, [one for one in changes if one not in adds])
    if not adds:
        return text
    newline = "\r\n" if "\r\n" in text else "\n"
    lines = ["", "[makes]", *(f"{one.where[1]} = {one.value}" for one in adds), ""]
    return text + ("" if text.endswith("\n") else newline) + newline.join(lines)


def _amounts(document: Document, recipe: Recipe, plan: _Plan) -> Iterator[Change]:
    for number, mix in enumerate(recipe.mixes):
        if mix.per == "piece" and not plan.per_piece:
            continue
        for index, line in enumerate(mix.ingredients):
            if line.amount is not None and line.amount.kind is not AmountKind.PERCENT:
                where: Where = ("mix", number, "ingredients", index, "amount")
                yield from _times(document, where, plan.factor, recipe.cups)


def _times(document: Document, where: Where, factor: float, cups: str) -> Iterator[Change]:
    """A text of the document times a factor, where that changes it."""
    text = _at(document, where)
    new = rewrite(text, factor, cups=cups)
    if new != text:
        yield Change(where, new)


def _at(document: Document, where: Where) -> str:
    found: object = document.data
    for part in where:
        found = found[part]  # type: ignore[index]
    return str(found)


def _makes(document: Document, recipe: Recipe, before: Formula, plan: _Plan) -> Iterator[Change]:
    """The changes of ``[makes]`` and of the steps that divide."""
    makes = document.data.get("makes", {})
    if plan.pieces is not None:
        yield from _count(document, recipe, plan, plan.pieces)
    elif "piece_mass" in makes and plan.per_piece:
        yield from _times(document, ("makes", "piece_mass"), plan.factor, recipe.cups)
    if plan.diameter is not None:
        yield Change(("makes", "diameter"), _length(plan.diameter, str(makes["diameter"])))
    if plan.pieces is None and plan.per_piece:
        for number, step in enumerate(recipe.steps):
            if step.each is not None:
                yield from _times(document, ("step", number, "each"), plan.factor, recipe.cups)
    if "portions" in makes and recipe.makes.portions is not None:
        portions = min(max(round(recipe.makes.portions * plan.factor), 1), MOST_PIECES)
        if portions != recipe.makes.portions:
            yield Change(("makes", "portions"), portions)


def _count(document: Document, recipe: Recipe, plan: _Plan, pieces: int) -> Iterator[Change]:
    """The first step that says how many takes the new number; a later one keeps its proportion to it.

    Where there are several doughs each number keeps its proportion, or the recipe cannot be scaled so.
    """
    several = len(recipe.doughs) > 1
    steps = [(number, step.pieces) for number, step in enumerate(recipe.steps) if step.pieces is not None]
    for place, (number, old) in enumerate(steps):
        new = pieces if place == 0 else max(round(old * plan.factor), 1)
        new = _whole_number(old, plan.factor) if several else new
        yield Change(("step", number, "pieces"), new)
    by_weight = any(step.each is not None for step in recipe.steps)
    if "pieces" in document.data.get("makes", {}) or not (steps or by_weight):
        keeps = several and not by_weight
        new = _whole_number(recipe.makes.pieces, plan.factor) if keeps else pieces
        yield Change(("makes", "pieces"), new)


def _whole_number(pieces: int, factor: float) -> int:
    """So many pieces times the factor; refused where that is no whole number."""
    new = round(pieces * factor)
    if new < 1 or abs(new - pieces * factor) > 1e-6 * new:
        raise InputError(
            Fault("the pieces of the doughs do not all come out", wanted="whole numbers of each",
                  found=f"{pieces * factor:.4g} for {pieces}", try_="Scale it by all its dough")
        )  # fmt: skip
    return new


def _length(metres: float, before: str) -> str:
    """A length in the unit of the one before."""
    unit = parse_quantity(before, UnitKind.LENGTH).unit
    return f"{convert(metres, 'm', unit):.6g} {unit}"


def _verify(name: str, value: float, before: Formula, after: Formula, factor: float) -> None:
    """Refuse where the document's own figures kept it from becoming what was asked."""
    wanted = _sum(before, "mass") * factor if before.doughs else 0.0
    found = sum(_grams(dough.mass) for dough in after.doughs)
    if abs(found - wanted) > _CLOSE * wanted:
        raise InputError(
            Fault(f"this recipe cannot be scaled by {name}: its percentages and piece_mass hold it",
                  wanted=format_mass(wanted / 1000.0), found=format_mass(found / 1000.0),
                  try_="Give its flour in grams")
        )  # fmt: skip


def _notes(
    name: str, recipe: Recipe, now: Recipe, before: Formula, after: Formula, plan: _Plan
) -> Iterator[str]:
    if plan.per_piece and not math.isclose(plan.factor, 1.0, rel_tol=1e-6):
        yield _LARGER
    if name in ("flour", "dough", "piece") and plan.per_piece and recipe.shape != "ball":
        yield "The size of a piece stays, so the loading moves with its mass; scale by diameter to keep it."
    if plan.pieces is not None and any(mix.per == "piece" for mix in recipe.mixes):
        yield "What is written for one piece stays as it is."
    if recipe.makes.portions is not None and now.makes.portions is not None:
        exact = recipe.makes.portions * plan.factor
        if abs(exact - now.makes.portions) > 1e-6:
            yield f"Portions are rounded: {exact:.3g} would be {now.makes.portions}."
    for mix in now.mixes:
        for line in mix.ingredients:
            amount = line.amount
            if amount is not None and amount.kind is AmountKind.COUNT and (amount.value or 0.0) % 1 > 1e-6:
                yield f'{line.item}: "{amount.text}" is no whole number; weigh it out of one more.'
