"""The oven steps of a dough, in order: preheating, then what each piece goes through."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import floor

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast.bake._oven import Heating, heating_of
from doughwright.forecast.bake._surface import On, container_of, surface_of
from doughwright.forecast.bake._toppings import Topping, dressing
from doughwright.ingredients import Class
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import BAKES, Recipe, Step
from doughwright.recipe.subjects import subjects
from doughwright.recipe.weigh import WeighedMix

DRESSING, TAKING = 180.0, 60.0
"""Seconds out of the oven where nothing is said: to dress a piece, to do anything else to it."""
BETWEEN = 180.0
"""Seconds from one piece to the next where nothing is said."""
MOST_PIECES = 6
"""Pieces that are run one after another; any more are as the last of them."""
LONGEST_BAKE, LONGEST_PAUSE = 3.0 * 3600.0, 1800.0


@dataclass(frozen=True, slots=True)
class Action:
    """One thing a piece goes through: a bake on a surface, or a pause in the room with what is put on it."""

    do: str
    number: int
    seconds: float
    heating: Heating | None = None
    toppings: tuple[Topping, ...] = ()


@dataclass(frozen=True, slots=True)
class Steps:
    """The oven's part of a recipe: what the piece lies ``on``; ``preheat`` [s] where a step says it and
    how the oven is ``preheated``, then ``heated`` as a piece goes in; what is put on ``before`` that; its
    ``actions``; the seconds ``between`` pieces."""

    on: On
    preheat: float | None
    preheated: Heating
    heated: Heating
    before: tuple[Topping, ...]
    actions: tuple[Action, ...]
    between: float
    pieces: int


def steps_in_oven(
    recipe: Recipe, dough: str, kitchen: Surroundings, weighed: dict[str, WeighedMix], said: list[str]
) -> Steps:
    """What the document does to each piece of a dough in the oven; raises ``NoAnswerError`` where nothing."""
    owned = list(enumerate(zip(recipe.steps, subjects(recipe), strict=True)))
    first = next((n for n, (step, owner) in owned if owner == dough and step.do in BAKES), None)
    if first is None:
        raise NoAnswerError(
            Fault(f'no step bakes "{dough}", so the oven has nothing to say', try_='Add do = "bake"')
        )
    count, one_by_one = _pieces(recipe, dough)
    before = tuple(
        one
        for n, (step, owner) in owned[:first]
        if owner == dough and step.do == "dress"
        for one in dressing(recipe, step, weighed, kitchen, count)
    )
    own = [(n, step) for n, (step, owner) in owned[first:] if owner == dough]
    heats = [step for _, (step, _) in owned[:first] if step.do == "preheat"]
    actions = _actions(recipe, own, heats, kitchen, weighed, count, said)
    heating = actions[0].heating or heating_of(own[0][1], heats, kitchen, said)
    preheated = heating_of(heats[-1], heats, kitchen, said) if heats and heats[-1].at else heating
    pieces = min(count, MOST_PIECES) if one_by_one else 1
    if one_by_one and count > MOST_PIECES:
        said.append(f"pieces after number {MOST_PIECES} come out as that one")
    between = _between(own, pieces, said)
    on = _on(recipe, own, heats, kitchen, weighed, said)
    return Steps(on, _preheat(heats, on, said), preheated, heating, before, actions, between, pieces)


def _pieces(recipe: Recipe, dough: str) -> tuple[int, bool]:
    """How many pieces, and whether they bake one after another."""
    divides = [
        step
        for step, owner in zip(recipe.steps, subjects(recipe), strict=True)
        if step.do == "divide" and owner == dough
    ]
    count = recipe.makes.pieces
    if divides and divides[-1].pieces:
        count = divides[-1].pieces
    elif divides and divides[-1].each is not None and recipe.makes.piece_mass is not None:
        count = max(1, floor(recipe.makes.piece_mass * count / divides[-1].each + 1e-9))
    said = any(step.between is not None for step in recipe.steps)
    return count, said or recipe.shape in ("round", "rectangle")


def _preheat(heats: list[Step], on: On, said: list[str]) -> float | None:
    lasts = heats[-1].lasts if heats else None
    if lasts is None and on.hot:
        said.append("the surface starts at the oven's temperature throughout: no step preheats it")
    return lasts


def _between(own: list[tuple[int, Step]], pieces: int, said: list[str]) -> float:
    found = [step.between for _, step in own if step.between is not None]
    if not found and pieces > 1:
        said.append(f"{BETWEEN / 60.0:g} min from one piece to the next")
    return found[-1] if found else BETWEEN


def _actions(
    recipe: Recipe,
    own: list[tuple[int, Step]],
    heats: list[Step],
    kitchen: Surroundings,
    weighed: dict[str, WeighedMix],
    pieces: int,
    said: list[str],
) -> tuple[Action, ...]:
    """Bakes, and pauses between two of them: what comes after the last bake is out of the oven for good."""
    last = max(n for n, (_, step) in enumerate(own) if step.do in BAKES)
    before, found = list(heats), list[Action]()
    for number, step in own[: last + 1]:
        if step.do in BAKES:
            heating = heating_of(step, before, kitchen, said)
            found.append(Action(step.do, number, _baked(step, said), heating))
            before.append(step)
        elif step.do in ("freeze", "thaw"):
            raise NoAnswerError(Fault(f"the oven does not model freezing (step {number + 1})"))
        elif step.do not in ("preheat", "note", "cook", "mix"):
            toppings = dressing(recipe, step, weighed, kitchen, pieces) if step.do == "dress" else ()
            found.append(Action(step.do, number, _paused(number, step, said), toppings=toppings))
    return tuple(found)


def _baked(step: Step, said: list[str]) -> float:
    if step.lasts is None or not 0.0 < step.lasts <= LONGEST_BAKE:
        raise NoAnswerError(
            Fault(
                f'the step "{step.do}" has to say how long',
                wanted="a time of at most 3 h",
                try_='Write for = "8 min"',
            )
        )
    for key in ("steam", "lid"):
        if getattr(step, key):
            said.append(f"{key} is not modelled: it keeps a crust damp, later brown and lighter than said")
    if step.turn:
        said.append("turning is not modelled: it evens out what is a mean here")
    return step.lasts


def _paused(number: int, step: Step, said: list[str]) -> float:
    seconds = step.lasts or step.hands
    if seconds is None:
        seconds = DRESSING if step.do == "dress" else TAKING
        said.append(f"{seconds / 60.0:g} min out of the oven to {step.do}")
    if seconds > LONGEST_PAUSE:
        raise NoAnswerError(
            Fault(
                f"step {number + 1} ({step.do}) keeps a par-baked piece for {seconds / 60.0:.0f} min",
                wanted="at most 30 min out of the oven, as far as is modelled",
                try_="Leave it out to see the rest",
            )
        )
    return seconds


def _on(
    recipe: Recipe,
    own: list[tuple[int, Step]],
    heats: list[Step],
    kitchen: Surroundings,
    weighed: dict[str, WeighedMix],
    said: list[str],
) -> On:
    """What all bakes lie on: the first that names one decides, and it is said where others differ."""
    named = [step.on for step in [*(step for _, step in own), *heats] if step.on is not None]
    if len({one.casefold() for one in named}) > 1:
        said.append(f'"{named[0]}" is what every bake lies on: moving to another surface is not modelled')
    wanted = named[0] if named else None
    holders = {step.in_ for step in recipe.steps if step.in_ in ("tin", "tray")}
    if recipe.shape == "tin" or (recipe.makes.material is not None and recipe.shape != "ball"):
        kind = "tin"
    elif wanted is None and (recipe.shape == "ball" or "tray" in holders):
        kind = "tray"
    else:
        on = surface_of(wanted, kitchen, said)
        if recipe.shape != "ball" or on.material.kind != "sheet":
            return on
        said.append(f"the {on.name} goes in cold with what has proofed on it")
        return replace(on, hot=False)
    if wanted is not None:
        said.append(f'a {kind} on the "{wanted}" is run as on a rack: a hot surface under it is not modelled')
    container = container_of(recipe, kind, said)
    return replace(container, oiled=kind == "tin" and _oiled(weighed))


def _oiled(weighed: dict[str, WeighedMix]) -> bool:
    """Whether the tin is greased with oil or another fat."""
    greasing = [mix for mix in weighed.values() if mix.mix.use in ("greasing", "tin")]
    lines = [line for mix in greasing for line in mix.lines]
    return any(line.ingredient is not None and line.ingredient.class_ is Class.FAT for line in lines)
