"""What is wrong in a recipe although each value can be read: parts that do not fit one another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from doughwright.errors import Fault, InputError, did_you_mean
from doughwright.recipe.masses import masses
from doughwright.recipe.model import BAKES, OVEN, WAITS, Line, Recipe, Step
from doughwright.recipe.resolve import own_ingredient
from doughwright.recipe.text import Where
from doughwright.units import AmountKind

Found = Iterator[tuple[Where, Fault]]

HOTTEST_WAIT = 60.0
LONGEST_WAIT = 60 * 86_400.0
LONGEST_ALL = 120 * 86_400.0
MOST_MIXES = 400
OVEN_RANGE = (30.0, 600.0)
COLDEST_WAIT = -40.0

# What each verb's own keys are; the keys not named here may stand in any step.
KEYS_OF = {
    "add": ("mix", "cook", "fold"),
    "dough_at": ("mix",),
    "until": WAITS,
    "pieces": ("divide",),
    "each": ("divide",),
    "degas": ("fold", "divide", "ball", "shape"),
    "heat": OVEN,
    "rack": OVEN,
    "between": BAKES,
    "steam": BAKES,
    "turn": BAKES,
}


def faults(recipe: Recipe) -> list[tuple[Where, Fault]]:
    """Every fault of the whole: names, references, circles, shapes, and what no dough can be."""
    circles = list(_circles(recipe))
    checks = (_head, _names, _lines, _own, _makes, _target)
    found = circles + [one for check in checks for one in check(recipe)]
    found += [] if circles else _steps(recipe)
    return found or list(masses(recipe))


def _head(recipe: Recipe) -> Found:
    if not recipe.title.strip():
        yield ("title",), Fault("", wanted="a title", found='""', try_='Write for example "Leek pie"')


def _names(recipe: Recipe) -> Found:
    if len(recipe.mixes) > MOST_MIXES:
        found = f"{len(recipe.mixes)}"
        yield ("mix",), Fault("", wanted=f"at most {MOST_MIXES} mixes", found=found, try_="Write two recipes")
    yield from twice("mix", [mix.name for mix in recipe.mixes])
    yield from twice("ingredient", [own.name for own in recipe.own])


def twice(table: str, names: list[str]) -> Found:
    """A fault for each name that a list of tables gives more than once."""
    counts = Counter(name.casefold() for name in names)
    for number, name in enumerate(names):
        if counts[name.casefold()] > 1:
            fault = Fault(
                "", wanted="a name of its own", found=f'"{name}" twice', try_="Rename one of the two"
            )
            yield (table, number, "name"), fault


def _lines(recipe: Recipe) -> Found:
    for number, mix in enumerate(recipe.mixes):
        if not mix.ingredients:
            yield (
                ("mix", number),
                Fault(
                    f'"{mix.name}" has nothing in it', wanted="at least one ingredient",
                    try_='Write ingredients = [ { item = "bread flour", amount = "400 g" } ]',
                ),
            )  # fmt: skip
        for index, line in enumerate(mix.ingredients):
            for part, fault in _line(line):
                yield ("mix", number, "ingredients", index, *part), fault


def _line(line: Line) -> Found:
    if (line.item is None) == (line.mix is None):
        found = "neither" if line.item is None else "both"
        yield (), Fault("", wanted='either "item" or "mix"', found=found, try_='Write item = "bread flour"')
    elif line.amount is None:
        yield (), Fault('"amount" is missing', wanted="an amount", try_='Write for example amount = "420 g"')
    elif line.amount.kind is AmountKind.ALL and line.mix is None:
        yield (
            ("amount",),
            Fault("", wanted="a measured amount", found='"all"', try_='Write for example "420 g"'),
        )
    elif line.mix is not None and line.amount.kind not in (
        AmountKind.ALL,
        AmountKind.MASS,
        AmountKind.PERCENT,
    ):
        yield (
            ("amount",),
            Fault(
                "",
                wanted='"all" or a mass of the mix',
                found=f'"{line.amount.text}"',
                try_='Write amount = "all"',
            ),
        )


def _circles(recipe: Recipe) -> Found:
    uses = {mix.name: [line.mix for line in mix.ingredients if line.mix] for mix in recipe.mixes}
    for number, mix in enumerate(recipe.mixes):
        circle = _way_back(mix.name, uses)
        if circle:
            index = next(i for i, line in enumerate(mix.ingredients) if line.mix == circle[1])
            yield (
                ("mix", number, "ingredients", index, "mix"),
                Fault(
                    "these mixes use each other", wanted="a mix that is made before it is used",
                    found=" -> ".join(f'"{name}"' for name in circle), try_="Take one of the uses out",
                ),
            )  # fmt: skip


def _way_back(start: str, uses: dict[str, list[str]]) -> list[str]:
    """A way from a mix through what it uses back to itself; empty where there is none."""
    seen: set[str] = set()
    ways = [[start]]
    while ways:
        way = ways.pop()
        for name in uses.get(way[-1], ()):
            if name == start:
                return [*way, name]
            if name not in seen:
                seen.add(name)
                ways.append([*way, name])
    return []


def _own(recipe: Recipe) -> Found:
    for number, own in enumerate(recipe.own):
        try:
            own_ingredient(own)
        except InputError as error:
            yield ("ingredient", number), error.fault


def _makes(recipe: Recipe) -> Found:
    makes = recipe.makes
    wanted = {"round": ("diameter",), "rectangle": ("length", "width"), "tin": ("length", "width", "height")}
    for key in wanted.get(recipe.shape, ()):
        if getattr(makes, key) is None:
            yield (
                ("makes", "shape"),
                Fault(f'a {recipe.shape} needs its "{key}"', try_=f'Write {key} = "30 cm" in [makes]'),
            )
    if not 0.0 <= makes.loss <= 0.5:
        yield (
            ("makes", "loss"),
            Fault("", wanted="0 % to 50 %", found=f"{makes.loss * 100:g} %", try_='Write loss = "1 %"'),
        )
    for key in ("diameter", "length", "width", "height"):
        size = getattr(makes, key)
        if size is not None and not 0.005 <= size <= 3.0:
            yield (
                ("makes", key),
                Fault("", wanted="5 mm to 3 m", found=f"{size * 100:g} cm", try_='Write "30 cm"'),
            )


def _steps(recipe: Recipe) -> Found:
    labels = {line.add for mix in recipe.mixes for line in mix.ingredients if line.add}
    whole = sum(step.for_.high for step in recipe.steps if step.for_ is not None)
    if whole > LONGEST_ALL:
        most, found = "at most 120 days for all steps together", _days(whole)
        yield ("step",), Fault("", wanted=most, found=found, try_="Leave out what is not done to this dough")
    for number, step in enumerate(recipe.steps):
        for part, fault in _step(recipe, step, labels):
            yield ("step", number, *part), fault


def _step(recipe: Recipe, step: Step, labels: set[str]) -> Found:
    yield from _keys(step)
    yield from _subject(recipe, step)
    yield from _wait(step)
    if step.do in OVEN:
        yield from _dial(step)
    if step.add is not None and step.add not in labels:
        near = did_you_mean(step.add, labels) or 'Write the same add = "..." beside the ingredient'
        yield ("add",), Fault("", wanted="what an ingredient's add says", found=f'"{step.add}"', try_=near)
    if step.do == "divide" and step.pieces and step.each:
        yield ("each",), Fault("", wanted='"pieces" or "each"', found="both", try_="Take one of the two out")
    if step.degas is not None and step.degas > 1.0:
        yield (
            ("degas",),
            Fault("", wanted="0 % to 100 %", found=f"{step.degas * 100:g} %", try_='Write degas = "90 %"'),
        )


def _keys(step: Step) -> Found:
    for key, verbs in KEYS_OF.items():
        if getattr(step, key) is not None and step.do not in verbs:
            yield (
                (key,),
                Fault(
                    f'"{step.do}" has no "{key}"', wanted=f"a step that does {_or(verbs)}", try_="Take it out"
                ),
            )


def _or(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1]


def _subject(recipe: Recipe, step: Step) -> Found:
    if step.mix is not None and step.of is not None:
        yield ("of",), Fault("", wanted='"mix" or "of"', found="both", try_="Take one of the two out")
    wants = step.do not in ("note", "preheat", "dress", "glaze", "cook", "slice")
    if wants and step.mix is None and step.of is None and len(recipe.doughs) != 1:
        names = [mix.name for mix in recipe.mixes if mix.kind in ("dough", "preferment")] or [
            mix.name for mix in recipe.mixes
        ]
        key = "mix" if step.do == "mix" else "of"
        yield (
            ("do",),
            Fault(
                "it is not said which mix is meant", wanted=f'"{key}", since there is not just one dough',
                try_=f'Write {key} = "{names[0]}"',
            ),
        )  # fmt: skip


def _wait(step: Step) -> Found:
    if step.for_ is not None and step.for_.high > LONGEST_WAIT:
        yield (
            ("for",),
            Fault("", wanted="at most 60 days", found=_days(step.for_.high), try_='Write for = "2 days"'),
        )
    if step.do not in WAITS:
        return
    if step.for_ is None:
        said = (
            "says no time"
            if step.until is None
            else f'says "until {step.until.text}", but not how long at most'
        )
        yield (), Fault(f'"{step.do}" {said}', wanted='"for"', try_='Write for example for = "1 h"')
    degrees = step.at.degrees if step.at else None
    if degrees is not None and not COLDEST_WAIT <= degrees <= HOTTEST_WAIT:
        yield (
            ("at",),
            Fault(
                "",
                wanted=f"{COLDEST_WAIT:g} to {HOTTEST_WAIT:g} °C for a wait",
                found=f'"{step.at.text}"' if step.at else None,
                try_='Write for example at = "room"',
            ),
        )


def _days(seconds: float) -> str:
    return f"{seconds / 86_400:.4g} days"


def _dial(step: Step) -> Found:
    if step.at is None:
        return
    low, high = OVEN_RANGE
    wanted, try_ = f"what the dial says, {low:g} to {high:g} °C", 'Write for example at = "250 °C"'
    if step.at.degrees is None or not low <= step.at.degrees <= high:
        yield ("at",), Fault("", wanted=wanted, found=f'"{step.at.text}"', try_=try_)


def _target(recipe: Recipe) -> Found:
    target = recipe.target
    if target.rise is not None and not 1.0 < target.rise.low <= target.rise.high <= 10.0:
        yield (
            ("target", "rise"),
            Fault("", wanted="volumes above 1 and at most 10", try_='Write rise = "1.6 to 2.0"'),
        )
    if target.dough_temperature is not None and not 0.0 <= target.dough_temperature <= 45.0:
        yield (
            ("target", "dough_temperature"),
            Fault("", wanted="0 to 45 °C", found=f"{target.dough_temperature:g} °C", try_='Write "24 °C"'),
        )
