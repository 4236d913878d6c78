"""What the entries of a plan say."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from doughwright.kitchen.types import Hours
from doughwright.recipe.model import Recipe, Step

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip

# What each verb says of its subject; {it} is the mix, {n} the pieces.
SAYS = {
    "mix": "Mix the {it}",
    "fold": "Fold the {it}",
    "divide": "Divide the {it} into {n}",
    "ball": "Ball the {it}",
    "shape": "Shape the {it}",
    "score": "Score the {it}",
    "dress": "Dress",
    "glaze": "Glaze",
    "flip": "Flip",
    "cook": "Cook the {it}",
    "slice": "Slice",
    "rest": "The {it} rests",
    "autolyse": "Autolyse",
    "bulk": "Bulk",
    "bench rest": "Bench rest",
    "retard": "Retard",
    "temper": "Temper",
    "proof": "Proof",
    "cool": "Cool",
    "freeze": "Freeze",
    "thaw": "Thaw",
    "par-bake": "Par-bake",
    "bake": "Bake",
}


def work_says(recipe: Recipe, step: Step, subject: str | None, pieces: int) -> str:
    """What a work step or an oven step says."""
    said = SAYS[step.do].format(it=_it(recipe, subject), n=pieces)
    if step.do == "divide" and pieces == 1:
        said = f"Turn out the {_it(recipe, subject)}"
    if step.with_:
        said += f" with {joined(step.with_)}"
    if step.add:
        said = f"{'Fold in' if step.do == 'fold' else 'Add'}: {_added(recipe, step.add)}"
    said = _of_which(recipe, said, subject)
    if step.in_oven and step.at is not None:
        said += f", dial at {step.at.text}"
    return said


def wait_says(recipe: Recipe, step: Step, subject: str | None, place: str) -> str:
    """What a wait says, with where the dough stands."""
    said = _of_which(recipe, SAYS[step.do].format(it=_it(recipe, subject)), subject)
    where = f"in the {step.in_}" if step.in_ and step.in_ != "open" else ""
    until = step.until.says if step.until is not None else ""
    return ", ".join(part for part in (said, at_place(place), where, until) if part)


def carry_says(recipe: Recipe, subject: str | None, before: str, after: str) -> str:
    """What it says when something is carried from one place to another."""
    it = _it(recipe, subject)
    if before == "fridge":
        return f"Take the {it} out of the fridge"
    return f"Put the {it} {'in the fridge' if after == 'fridge' else f'to stand {at_place(after)}'}"


def at_place(place: str) -> str:
    """A place in words: "in the fridge", "at room temperature", "at 28 °C"."""
    fixed = {"fridge": "in the fridge", "room": "at room temperature"}
    if place in fixed:
        return fixed[place]
    return f"at {place}" if place[:1].isdigit() or place[:1] in "-−+" else f"in the {place}"


def joined(words: Sequence[str]) -> str:
    """Words as a list in a sentence."""
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


def length_says(minutes: int) -> str:
    """A length of time in words: "50 min", "3 h 55 min"."""
    hours, left = divmod(minutes, 60)
    parts = [f"{hours} h" if hours else "", f"{left} min" if left or not hours else ""]
    return " ".join(part for part in parts if part)


def _of_which(recipe: Recipe, said: str, subject: str | None) -> str:
    """The same with the name of its dough, where there are several and it is not said yet."""
    several = len(recipe.doughs) > 1 and any(mix.name == subject for mix in recipe.doughs)
    return f"{said} ({subject})" if several and str(subject) not in said else said


def _it(recipe: Recipe, subject: str | None) -> str:
    return subject or (recipe.doughs[0].name if recipe.doughs else "dough")


def _added(recipe: Recipe, label: str) -> str:
    lines = [line for mix in recipe.mixes for line in mix.ingredients if line.add == label]
    names = [line.item or f"the {line.mix}" for line in lines]
    return joined(names) if names else label


def moment_says(moment: datetime) -> str:
    """A moment with its day: "Saturday 28 November 2026 19:00"."""
    return f"{DAYS[moment.weekday()]} {moment.day} {MONTHS[moment.month - 1]} {moment.year} {moment:%H:%M}"


def clock_says(moment: datetime) -> str:
    """A moment within a plan: "Friday 02:45"."""
    return f"{DAYS[moment.weekday()]} {moment:%H:%M}"


def awake_says(hours: Hours) -> str:
    """The hours awake: "between 07:00 and 23:00"."""
    start, end = (f"{int(s // 3600):02d}:{int(s % 3600 // 60):02d}" for s in (hours.start, hours.end))
    return f"between {start} and {end}"
