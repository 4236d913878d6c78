"""Cautions: what can hurt somebody in a recipe and a kitchen, and what is usually done about it.

They are computed by the rules of ``_table``; a rule that finds nothing says nothing.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from doughwright.forecast.results import Days, Run
from doughwright.ingredients import Class, Ingredient
from doughwright.kitchen.assumed import Surroundings
from doughwright.publish.cautions._facts import ANIMAL, COLD, Facts, facts_of
from doughwright.publish.cautions._table import RULES
from doughwright.recipe.model import BAKES, Mix, Recipe
from doughwright.recipe.weigh import weigh

WARM_LIMIT, HOT_LIMIT = 2.0, 1.0
# Oil that makes up at least this share of a mix covers what lies in it.
COVERS = 0.4
STONES = ("cordierite", "firebrick", "soapstone")
GLASS = re.compile(r"\b(?:glass|glassware)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: ``what`` can happen and why here, what to ``do``, the ``source`` and the rule's name.

    ``gravity`` is 1 to 3, 1 first; ``lines`` are the ingredients it is about, ``steps`` the steps from 1.
    """

    rule: str
    what: str
    do: str
    source: str
    gravity: int
    lines: tuple[str, ...] = ()
    steps: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """What a rule has found: the words of its row, and what it is about."""

    words: dict[str, str]
    lines: tuple[str, ...] = ()
    steps: tuple[int, ...] = ()


def cautions(
    recipe: Recipe, surroundings: Surroundings, run: Days | Run | None = None
) -> tuple[Caution, ...]:
    """Every caution of a recipe in a kitchen, the gravest first; its days, if given, say how warm it is."""
    facts = facts_of(recipe, surroundings, run)
    made = [
        Caution(
            rule.id, rule.what.format(**one.words), rule.do.format(**one.words), rule.source, rule.gravity,
            one.lines, one.steps,
        )
        for rule in RULES
        for one in FINDERS[rule.id](facts)
    ]  # fmt: skip
    return tuple(sorted(made, key=lambda one: one.gravity))


def _warm_animal_food(facts: Facts) -> Iterator[Found]:
    for mix in facts.recipe.mixes:
        items = [line.item or "" for line, one in facts.lines(mix) if one.class_ in ANIMAL]
        if not items:
            continue
        for way in facts.ways(mix):
            warm, hot = facts.warm_hours(way)
            if warm > WARM_LIMIT or hot > HOT_LIMIT:
                words = {"mix": mix.name, "items": _list(items), "hours": _hours(warm)}
                steps = [
                    stand.step + 1 for one in way for stand in facts.stands(one.name) if stand.degrees > COLD
                ]
                yield Found(words, tuple(items), tuple(steps))
                break


def _food_waiting(facts: Facts) -> Iterator[Found]:
    steps = facts.recipe.steps
    for mix in facts.recipe.mixes:
        own = {number for number, step in enumerate(steps) if (step.of or step.mix) == mix.name}
        done = "cook" if mix not in facts.recipe.doughs else "dress"
        ready = [
            number
            for number, step in enumerate(steps)
            if step.do == done and (done == "dress" or number in own)
        ]
        if not ready:
            continue
        stands = [one for one in facts.stands(mix.name) if one.step > ready[0] and one.degrees > COLD]
        hours = sum(one.hours for one in stands)
        if hours > WARM_LIMIT:
            said = f"The {mix.name} is cooked and then stands" if done == "cook" else "Dressed, it stands"
            yield Found({"said": said, "hours": _hours(hours)}, (), tuple(one.step + 1 for one in stands))


def _garlic_in_oil(facts: Facts) -> Iterator[Found]:
    for mix in facts.recipe.mixes:
        lines = list(facts.lines(mix))
        items = [line.item or "" for line, one in lines if _low_acid(one)]
        if mix.kind in ("dough", "preferment") or not items:
            continue
        oil = [line for line, one in lines if _is_oil(one)]
        if oil and _oil_share(facts, mix) >= COVERS:
            items += [line.item or "" for line in oil]
            yield Found({"mix": mix.name, "items": _list(items[: len(items) - len(oil)])}, tuple(items))


def _low_acid(one: Ingredient) -> bool:
    """Garlic as it is, and fresh herbs; dried ones hold too little water."""
    dry = one.water is not None and one.water < 30.0
    return not dry and (one.name == "garlic" or one.class_ is Class.SEASONING)


def _is_oil(one: Ingredient) -> bool:
    return one.class_ is Class.FAT and "oil" in one.name.split()


def _oil_share(facts: Facts, mix: Mix) -> float:
    weighed = weigh(facts.recipe)[mix.name]
    oil = sum(
        one.mass or 0.0 for one in weighed.lines if one.ingredient is not None and _is_oil(one.ingredient)
    )
    return oil / weighed.mass if weighed.mass > 0.0 else 1.0


# What the middle of raw food is usually heated to [degC], by what it is; the highest that applies is said.
POULTRY, MINCE, WHOLE = (
    "74 °C for poultry",
    "68 °C for 17 s for mince",
    "63 °C for 15 s for whole meat, fish and egg",
)


def _raw_animal_food(facts: Facts) -> Iterator[Found]:
    items: list[str] = []
    least: set[str] = set()
    for line, one in facts.every_line():
        text = f"{one.name} {one.description}".casefold()
        if one.class_ in (Class.MEAT, Class.FISH, Class.EGG) and "raw" in text:
            items.append(line.item or "")
            bird = any(word in text for word in ("chicken", "turkey", "poultry", "duck"))
            minced = any(word in text for word in ("mince", "ground", "sausage"))
            least.add(POULTRY if bird else MINCE if minced else WHOLE)
    if items:
        said = _list([one for one in (POULTRY, MINCE, WHOLE) if one in least])
        yield Found({"items": _list(items), "least": said}, tuple(items))


def _warm_fridge(facts: Facts) -> Iterator[Found]:
    degrees = facts.kitchen.fridge.value
    if facts.uses_fridge() and degrees > COLD:
        yield Found({"degrees": f"{degrees:.3g}"})


def _unknown_fridge(facts: Facts) -> Iterator[Found]:
    fridge = facts.kitchen.fridge
    if facts.uses_fridge() and fridge.how == "assumed" and fridge.value <= COLD:
        yield Found({})


def _raw_flour(facts: Facts) -> Iterator[Found]:
    items = [line.item or "" for line, one in facts.every_line() if one.class_ is Class.FLOUR]
    if items:
        yield Found({}, tuple(dict.fromkeys(items)))


def _hot_surface(facts: Facts) -> Iterator[Found]:
    for name, steps in _surfaces(facts).items():
        yield Found({"surface": name}, (), steps)


def _stone_shock(facts: Facts) -> Iterator[Found]:
    materials = {one.name.casefold(): one.material for one in facts.kitchen.surfaces}
    for name, steps in _surfaces(facts).items():
        material = materials.get(name.casefold()) or name.casefold()
        if "stone" in material or material in STONES:
            yield Found({"surface": name}, (), steps)


def _surfaces(facts: Facts) -> dict[str, tuple[int, ...]]:
    """The surfaces that something is baked on, with the steps from 1."""
    found: dict[str, tuple[int, ...]] = {}
    for number, step in enumerate(facts.recipe.steps, start=1):
        if step.do in BAKES and step.on:
            found[step.on] = (*found.get(step.on, ()), number)
    return found


def _steam(facts: Facts) -> Iterator[Found]:
    steps = list(enumerate(facts.recipe.steps, start=1))
    steamed = tuple(number for number, step in steps if step.steam)
    lidded = tuple(number for number, step in steps if step.lid)
    said = [
        *(["water is given to a hot oven"] if steamed else []),
        *(["a hot lid is lifted"] if lidded else []),
    ]
    if said:
        text = _list(said)
        yield Found({"said": text[0].upper() + text[1:]}, (), tuple(sorted({*steamed, *lidded})))


def _boiling(facts: Facts) -> Iterator[Found]:
    for number, step in enumerate(facts.recipe.steps, start=1):
        if step.do == "cook":
            yield Found(
                {"mix": step.mix or step.of or (step.with_[0] if step.with_ else "sauce")}, (), (number,)
            )


def _glass_shock(facts: Facts) -> Iterator[Found]:
    recipe = facts.recipe
    if facts.first_bake() == len(recipe.steps):
        return
    named = [("The baking dish is", recipe.makes.material or "")]
    named += [("The recipe names a thing", text) for text in recipe.equipment]
    named += [
        ("A step names a thing", text) for step in recipe.steps for text in (*step.equipment, step.on or "")
    ]
    said = next((said for said, text in named if GLASS.search(text)), None)
    if said is not None:
        yield Found({"said": said})


def _dark_crust(facts: Facts) -> Iterator[Found]:
    target = facts.recipe.target
    parts = [name for name, colour in (("base", target.base), ("rim", target.rim)) if colour == "dark"]
    if parts:
        yield Found({"parts": _list(parts)})


def _allergens(which: str) -> Callable[[Facts], Iterator[Found]]:
    def find(facts: Facts) -> Iterator[Found]:
        of: dict[str, list[str]] = {}
        for line, one in facts.every_line():
            for name in getattr(one, which):
                of.setdefault(name, []).append(line.item or "")
        if of:
            items = dict.fromkeys(item for items in of.values() for item in items)
            yield Found({"names": _list(sorted(of))}, tuple(items))

    return find


def _labels(facts: Facts) -> Iterator[Found]:
    own = {one.name.casefold() for one in facts.recipe.own if not one.allergens and not one.like}
    said: dict[str, str] = {}
    for line, one in facts.every_line():
        item = line.item or ""
        if one.check_label:
            said[item] = f"{item} ({one.check_label})"
        elif item.casefold() in own:
            said[item] = f"{item} (the recipe gives no allergens for it)"
    if said:
        yield Found({"names": _list(list(said.values()))}, tuple(said))


def _list(words: list[str]) -> str:
    """Words as a list in a sentence, each once; what has a comma in it is set apart by semicolons."""
    once = list(dict.fromkeys(words))
    if len(once) > 1 and any("," in word for word in once):
        return "; ".join(once)
    return once[0] if len(once) == 1 else ", ".join(once[:-1]) + " and " + once[-1]


def _hours(hours: float) -> str:
    return f"{hours:.0f} h" if hours >= 10.0 else f"{hours:.2g} h"


FINDERS: dict[str, Callable[[Facts], Iterator[Found]]] = {
    "warm-animal-food": _warm_animal_food,
    "food-waiting": _food_waiting,
    "garlic-in-oil": _garlic_in_oil,
    "raw-animal-food": _raw_animal_food,
    "warm-fridge": _warm_fridge,
    "raw-flour": _raw_flour,
    "hot-surface": _hot_surface,
    "steam": _steam,
    "boiling": _boiling,
    "stone-shock": _stone_shock,
    "glass-shock": _glass_shock,
    "dark-crust": _dark_crust,
    "unknown-fridge": _unknown_fridge,
    "allergens-us": _allergens("allergens_us"),
    "allergens-eu": _allergens("allergens_eu"),
    "allergens-label": _labels,
}
