"""What ``check`` says of a document: read back, what reads oddly, what is assumed, and what moved."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from doughwright.errors import Fault, NoAnswerError, UnknownNameError
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import KitchenDocument
from doughwright.kitchen.types import Known
from doughwright.publish.band import run_clock
from doughwright.publish.cautions import Caution, cautions
from doughwright.publish.explain import explained
from doughwright.publish.moved import Outcome, what_moved
from doughwright.publish.render import length, mass, number, share, temperature
from doughwright.recipe.formula import Formula, formula
from doughwright.recipe.model import Recipe
from doughwright.recipe.moved import Moved
from doughwright.recipe.read import RecipeDocument
from doughwright.recipe.resolve import ingredient_of
from doughwright.recipe.validate import at, in_order


@dataclass(frozen=True, slots=True)
class Checked:
    """A document that could be read: ``says`` reads it back, ``warnings`` are odd but not wrong.

    ``out_of_scope`` is what the models leave out, ``assumed`` what the kitchen does not say, ``moved`` what
    is not as it was in the version before, the days included.
    """

    kind: Literal["recipe", "kitchen"]
    title: str
    kitchen: str
    says: tuple[str, ...]
    warnings: tuple[Fault, ...]
    out_of_scope: tuple[str, ...]
    assumed: tuple[str, ...]
    cautions: tuple[Caution, ...]
    moved: tuple[Moved, ...]


def checked_recipe(
    document: RecipeDocument, kitchen: Surroundings, before: RecipeDocument | None = None
) -> Checked:
    """A recipe, checked in a kitchen; ``before`` is the version to compare with."""
    recipe = document.recipe
    now = formula(recipe, kitchen)
    moved = what_moved(_outcome(before.recipe, kitchen), _outcome(recipe, kitchen)).moved if before else ()
    return Checked(
        kind="recipe",
        title=recipe.title,
        kitchen=kitchen.name,
        says=explained(recipe, now),
        warnings=tuple(in_order([*document.notes, *_places(document, kitchen), *_pieces(now)])),
        out_of_scope=_out_of_scope(document),
        assumed=kitchen.assumed,
        cautions=cautions(recipe, kitchen),
        moved=moved,
    )


def _places(document: RecipeDocument, kitchen: Surroundings) -> Iterator[Fault]:
    """A place that a step names and this kitchen has not: the days cannot tell how warm it is."""
    for place, step in enumerate(document.recipe.steps):
        if step.at is None or step.at.degrees is not None or step.in_oven:
            continue
        try:
            kitchen.place(step.at.text)
        except UnknownNameError as error:
            yield at(document.document, ("step", place, "at"), error.fault)


def _pieces(now: Formula) -> Iterator[Fault]:
    """What the formula notes of the pieces and of the mixes that go in."""
    for dough in now.doughs:
        yield from (Fault(f'"{dough.name}": {note}') for note in dough.notes)


def checked_kitchen(document: KitchenDocument) -> Checked:
    """A kitchen, checked."""
    used = surroundings(document.kitchen)
    return Checked("kitchen", used.name, used.name, tuple(_kitchen_says(used)), (), (), used.assumed, (), ())


def _outcome(recipe: Recipe, kitchen: Surroundings) -> Outcome:
    """All that a recipe comes to in a kitchen; what has no answer is left out."""
    from doughwright.forecast.days import days

    try:
        run = days(recipe, kitchen).runs[0]
    except NoAnswerError:
        return Outcome(recipe, formula(recipe, kitchen))
    return Outcome(recipe, formula(recipe, kitchen), run, run_clock(run, recipe))


def _out_of_scope(document: RecipeDocument) -> tuple[str, ...]:
    recipe = document.recipe
    said = [
        f"{line.item}: {why}"
        for mix in recipe.mixes
        for line in mix.ingredients
        if line.item and (why := ingredient_of(recipe, line).out_of_scope)
    ]
    frozen = any(step.do in ("freeze", "thaw") for step in recipe.steps)
    return tuple(dict.fromkeys(said + (["freezing and thawing"] if frozen else [])))


def _kitchen_says(used: Surroundings) -> list[str]:
    rows = [
        ("fridge", used.fridge),
        ("room", used.room),
        ("tap", used.tap),
        ("flour", used.flour_temperature),
    ]
    says = [f"{name} {temperature(one.value, decimals=1)}, {_how(one)}." for name, one in rows]
    says.append(
        f"friction {temperature(used.friction.value, decimals=1)} on the trade's sum, {used.friction.how}."
    )
    says.append(f"altitude {length(used.altitude.value)}, {used.altitude.how}; scale of {mass(used.scale)}.")
    if used.flour_protein is not None:
        says.append(f"flour of {share(used.flour_protein.value)} protein.")
    says += [
        f"{name}: {temperature(one.value, decimals=1)}, {_how(one)}." for name, one in used.places.items()
    ]
    return says


def _how(one: Known) -> str:
    return one.how if one.spread is None else f"{one.how}, give or take {number(one.spread, 1)}"
