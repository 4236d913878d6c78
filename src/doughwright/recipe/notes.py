"""What reads oddly to a baker in a recipe that is not wrong, and what was assumed or cannot be modelled."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from doughwright.errors import Fault
from doughwright.recipe.formula import odd_figures
from doughwright.recipe.model import CUSTOMARY, WAITS, Mix, Recipe, Step
from doughwright.recipe.resolve import resolution
from doughwright.recipe.text import Where
from doughwright.units import AmountKind

Noted = Iterator[tuple[Where, Fault]]

WORK = ("mix", "fold", "divide", "ball", "shape")
NOT_MODELLED = (
    "it counts in the formula, the plan and the shopping, but the days and the oven are not modelled"
)


def notes(recipe: Recipe) -> list[tuple[Where, Fault]]:
    """Each thing worth saying, with the place it is about."""
    checks: tuple[Callable[[Recipe], Noted], ...] = (_head, _mixes, _lines, _odd, _steps, _end)
    return [noted for check in checks for noted in check(recipe)]


def _head(recipe: Recipe) -> Noted:
    if recipe.kitchen is None:
        yield (), Fault("no kitchen is named: the middle of the published population is meant")
    if recipe.makes.eat is None and recipe.steps:
        yield ("makes",), Fault('no "eat" in [makes]: Saturday 19:00 is assumed')
    if recipe.target.rise is None and recipe.doughs:
        yield (
            ("target",),
            Fault(f"no rise is asked for: {CUSTOMARY_RISE[recipe.shape]} is assumed for a {recipe.shape}"),
        )
    elif recipe.target.rise is not None and recipe.target.rise.single:
        value = recipe.target.rise.low
        yield (
            ("target", "rise"),
            Fault(f"a single rise of {value:g} is read as {0.9 * value:.3g} to {1.1 * value:.3g}"),
        )


CUSTOMARY_RISE = {shape: f"{low:.1f} to {high:.1f}" for shape, (low, high) in CUSTOMARY.items()}


def _mixes(recipe: Recipe) -> Noted:
    used = {line.mix for mix in recipe.mixes for line in mix.ingredients if line.mix}
    named = {step.mix for step in recipe.steps} | {step.of for step in recipe.steps}
    dressed = {name for step in recipe.steps for name in step.with_}
    for number, mix in enumerate(recipe.mixes):
        at_work = mix.name in named or mix.name in dressed or mix in recipe.doughs or mix.use
        if mix.kind == "preferment" and mix.name not in used:
            yield ("mix", number, "name"), Fault(f'the preferment "{mix.name}" goes into no dough')
        elif recipe.steps and mix.name not in used and not at_work:
            yield ("mix", number, "name"), Fault(f'"{mix.name}" is used in no mix and no step')


def _odd(recipe: Recipe) -> Noted:
    numbers = {mix.name: number for number, mix in enumerate(recipe.mixes)}
    for name, said in odd_figures(recipe):
        yield ("mix", numbers[name]), Fault(f'"{name}": {said}')


def _lines(recipe: Recipe) -> Noted:
    labels = {step.add for step in recipe.steps if step.add}
    for number, mix in enumerate(recipe.mixes):
        for index, line in enumerate(mix.ingredients):
            where = ("mix", number, "ingredients", index)
            if line.add and recipe.steps and line.add not in labels:
                yield (*where, "add"), Fault(f'no mix step says add = "{line.add}": it goes in at the first')
            if line.item is not None:
                for part, note in _item(recipe, mix, index):
                    yield (*where, part), note


def _item(recipe: Recipe, mix: Mix, index: int) -> Iterator[tuple[str, Fault]]:
    line = mix.ingredients[index]
    found = resolution(recipe, line)
    if found.note:
        yield "item", Fault(found.note)
    if found.ingredient.out_of_scope:
        yield "item", Fault(f'"{line.item}": {found.ingredient.out_of_scope}; {NOT_MODELLED}')
    amount = line.amount
    if amount is None or amount.kind is not AmountKind.MASS:
        return
    in_oz = "oz" in amount.text.casefold() and "fl" not in amount.text.casefold()
    if in_oz and found.ingredient.poured:
        yield "amount", Fault(f'"{amount.text}" of {line.item} is read as a mass; write "fl oz" for a volume')


def _steps(recipe: Recipe) -> Noted:
    worked: set[str | None] = set()
    mixed: list[str] = []
    for number, step in enumerate(recipe.steps):
        if step.do in ("freeze", "thaw"):
            yield ("step", number, "do"), Fault(f'"{step.do}": freezing is out of scope; {NOT_MODELLED}')
        subject = step.of or step.mix or _only_dough(recipe)
        unsaid = step.of is None and step.mix is None and step.do in WAITS
        if unsaid and mixed and subject is not None and subject not in mixed:
            yield (
                ("step", number, "do"),
                Fault(f'"{step.do}" comes before "{subject}" is mixed: "{mixed[-1]}" is meant'),
            )
        if step.do == "mix" and subject is not None:
            mixed.append(subject)
        if step.do in WORK:
            worked.add(subject)
        elif step.do in WAITS:
            if step.at is None and subject in worked:
                yield (
                    ("step", number, "do"),
                    Fault(f'"{step.do}" names no place after work: the room is meant'),
                )
            worked.discard(subject)
        for note in _place(step):
            yield ("step", number, "at"), note


def _only_dough(recipe: Recipe) -> str | None:
    return recipe.doughs[0].name if len(recipe.doughs) == 1 else None


def _place(step: Step) -> Iterator[Fault]:
    degrees = step.at.degrees if step.at else None
    if step.do == "retard" and step.at is not None and (step.at.name == "room" or (degrees or 0) > 12):
        yield Fault(f'"retard" is a wait in the cold, but its place is "{step.at.text}"')
    if step.do in WAITS and degrees is not None and degrees > 40:
        yield Fault(f"{degrees:g} °C is hotter than yeast likes: it slows above 40 °C and dies above 50 °C")
    if step.do in WAITS and degrees is not None and degrees < -2:
        yield Fault(f"at {degrees:g} °C the dough freezes: freezing is not modelled")


def _end(recipe: Recipe) -> Noted:
    verbs = {step.do for step in recipe.steps}
    if recipe.doughs and recipe.steps and recipe.makes.pieces > 1 and "divide" not in verbs:
        yield ("makes", "pieces"), Fault(f"{recipe.makes.pieces} pieces, but no step divides the dough")
    if recipe.doughs and recipe.steps and "mix" not in verbs:
        yield ("step",), Fault("no step mixes the dough: its days begin at the first step")
