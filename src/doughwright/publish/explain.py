"""A recipe in plain sentences: what it makes, of what, and what is done with it."""

from __future__ import annotations

from doughwright.publish.render import (
    System,
    capital,
    counted,
    duration,
    figure,
    length,
    listed,
    mass,
    temperature,
)
from doughwright.recipe.formula import Formula
from doughwright.recipe.model import OVEN, Recipe, Step
from doughwright.recipe.until import Until


def makes_words(recipe: Recipe) -> str:
    """What it makes: "2 rounds of 30 cm, for 4"."""
    makes = recipe.makes
    name = {"round": "round", "rectangle": "rectangle", "tin": "tin loaf", "ball": "ball"}[recipe.shape]
    many = {"tin loaf": "tin loaves"}.get(name)
    sizes = [size for size in (makes.diameter, makes.length, makes.width, makes.height) if size]
    size = f" of {' by '.join(length(one) for one in sizes)}" if sizes else ""
    portions = f", for {makes.portions}" if makes.portions else ""
    return f"{counted(makes.pieces, name, many)}{size}{portions}"


def explained(recipe: Recipe, formula: Formula) -> tuple[str, ...]:
    """The recipe read back, a sentence each, so that a cook can hear whether it says what was meant."""
    out = [f"{recipe.title} makes {makes_words(recipe)}."]
    for dough in formula.doughs:
        salt, yeast = figure(dough.salt), figure(dough.yeast_as_fresh, 2)
        out.append(
            f'"{dough.name}" weighs {figure(dough.mass)}: hydration {figure(dough.hydration)}, '
            f"salt {salt}, yeast {yeast} as fresh."
        )
    out += [f"{number}. {capital(step_words(step))}." for number, step in enumerate(recipe.steps, 1)]
    return tuple(out)


def step_words(step: Step) -> str:
    """A step as one would say it: "retard for 24 h in the fridge, in a lidded tub"."""
    parts = [_done(step), _until(step), _how_long(step), _where(step), f"in a {step.in_}" if step.in_ else ""]
    if step.in_ == "open":
        parts[-1] = "uncovered"
    parts += [f"on the {step.on.removeprefix('the ')}" if step.on else "", _own(step)]
    return " ".join(part for part in parts if part)


def _done(step: Step) -> str:
    subject = step.mix or step.of
    if step.do == "note":
        return step.text or step.notes or "note"
    if step.do in ("dress", "glaze"):
        return f"{step.do} with {listed(step.with_)}" if step.with_ else step.do
    if step.do == "mix":
        return f"mix {subject or 'the dough'}" if step.add is None else f'mix in what is marked "{step.add}"'
    if step.do == "divide":
        return _divided(step, f"divide {subject}" if subject else "divide")
    return f"{step.do} {subject}" if subject else step.do


def _divided(step: Step, said: str) -> str:
    if step.each:
        return f"{said} into pieces of {mass(step.each)}"
    return f"{said} into {step.pieces}" if step.pieces else said


def _until(step: Step) -> str:
    if step.until is None:
        return ""
    return until_words(step.until) + ("," if step.for_ is not None else "")


def until_words(until: Until, system: System = "metric") -> str:
    """What ends a wait: "until the core is at 16 °C"."""
    if until.kind == "rise":
        return until.says
    decimals = 0 if until.value == round(until.value) else 1
    return f"until the core is at {temperature(until.value, system, decimals)}"


def _how_long(step: Step) -> str:
    times = step.for_
    if times is None:
        return ""
    if step.until is not None:
        return f"for at most {duration(times.high / 3600.0)}"
    if times.single:
        return f"for {duration(times.low / 3600.0)}"
    return f"for {duration(times.low / 3600.0)} to {duration(times.high / 3600.0)}"


def _where(step: Step) -> str:
    if step.at is None:
        return ""
    if step.at.degrees is not None:
        at = temperature(step.at.degrees)
        return f"at {at} {step.heat or 'top and bottom'}" if step.do in OVEN else f"at {at}"
    return "in the room" if step.at.name == "room" else f"in the {step.at.text}"


def _own(step: Step) -> str:
    words = [
        f"on the {step.rack} rack" if step.rack else "",
        "with steam" if step.steam else "",
        "under a lid" if step.lid else "",
    ]
    return ", ".join(word for word in words if word)
