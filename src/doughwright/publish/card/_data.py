"""What stands on a card, from a recipe, its formula, its days and its plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from zoneinfo import ZoneInfo

from doughwright.figures import Figure
from doughwright.forecast.results import Run
from doughwright.kitchen.assumed import Surroundings
from doughwright.plan.model import Entry as PlanEntry
from doughwright.plan.model import Plan
from doughwright.publish.band import all_events, band_of, finding, run_clock
from doughwright.publish.card._measures import in_measures
from doughwright.publish.card._pdf import CardCaution, CardData, CardMix, CardRow, CardStep
from doughwright.publish.cautions import Caution
from doughwright.publish.clock import Clock
from doughwright.publish.explain import makes_words, until_words
from doughwright.publish.render import (
    HELD,
    System,
    baker_percent,
    capital,
    duration,
    figure,
    listed,
    mass,
    temperature,
)
from doughwright.recipe.formula import Dough, Entry, Formula
from doughwright.recipe.model import OVEN, Mix, Recipe, Step
from doughwright.recipe.types import Interval
from doughwright.recipe.weigh import WeighedLine, WeighedMix, weigh

SYSTEMS: dict[str, tuple[str, ...]] = {"metric": ("metric",), "US": ("US",), "both": ("metric", "US")}
# The card says these by themselves, as two lists.
ALLERGEN_RULES = ("allergens-us", "allergens-eu")
HEADS = {"metric": "weight", "US": "US weight"}


@dataclass(frozen=True, slots=True)
class Stamp:
    """What a card says of itself: the version it was made from, and the day."""

    version: str = ""
    date: str = ""


def card_data(
    recipe: Recipe,
    formula: Formula,
    kitchen: Surroundings,
    *,
    run: Run | None = None,
    plan: Plan | None = None,
    cautions: Sequence[Caution] = (),
    units: System = "metric",
    stamp: Stamp | None = None,
    why_no_days: str = "",
) -> CardData:
    """Gather a card; ``run`` is that of the plan's own recipe where there is a plan.

    Without a run there is no picture; without either the steps have no times of day.
    """
    clock = plan_clock(plan, run) if plan and run else run_clock(run, recipe) if run else None
    meal_at = clock.hours(plan.eats) if plan and clock else None
    band = band_of(run, recipe, kitchen, clock, meal_at=meal_at) if run else None
    if band is not None and units == "US":
        band = replace(band, system="US")
    systems = SYSTEMS[units]
    stamp = stamp or Stamp()
    return CardData(
        title=recipe.title,
        lead=_lead(recipe, clock, plan),
        weight_units=tuple(HEADS[system] for system in systems),
        mixes=tuple(_mixes(recipe, formula, systems)),
        facts=tuple(_facts(recipe, formula, units)),
        steps=tuple(_steps(recipe, run, plan, clock, units)),
        finding=finding(band) if band else capital(why_no_days),
        band=band,
        notes=_notes(run, clock),
        kitchen=kitchen.name,
        cautions=tuple(CardCaution(one.what, one.do) for one in cautions if one.rule not in ALLERGEN_RULES),
        allergens=tuple(_allergens(recipe)),
        version=stamp.version,
        date=stamp.date,
        measure_note=(
            f"Measures are rounded to what a spoon holds, in {recipe.cups} cups: weigh where you can."
        ),
    )


def plan_clock(plan: Plan, run: Run) -> Clock:
    """The plan's clock on the run's hours: it agrees with the plan where the dough is judged."""
    zone = ZoneInfo(plan.zone)
    judged = [event for event in run.events if abs(event.start - run.judged_at) < 1e-6]
    for event in judged:
        entry = next((one for one in plan.entries if one.step == event.step + 1), None)
        if entry is not None:
            return _clock_at(entry, event.start, zone)
    pairs = [(one, event) for event in run.events for one in plan.entries if one.step == event.step + 1]
    entry, event = max(pairs, key=lambda pair: pair[1].start)
    return _clock_at(entry, event.start, zone)


def _clock_at(entry: PlanEntry, hours: float, zone: ZoneInfo) -> Clock:
    begun = Clock(entry.starts, zone, dated=True)
    return replace(begun, zero=begun.at(-hours))


def _lead(recipe: Recipe, clock: Clock | None, plan: Plan | None) -> str:
    made = f"Makes {makes_words(recipe)}"
    if plan is not None:
        eats = plan.eats
        return f"{made}, on the table {eats:%A} {eats.day} {eats:%B} at {eats:%H:%M}."
    if recipe.makes.eat is not None:
        return f"{made}, on the table {recipe.makes.eat.text}."
    return f"{made}."


def _mixes(recipe: Recipe, formula: Formula, systems: Sequence[str]) -> Iterator[CardMix]:
    left = [entry for dough in formula.doughs for entry in dough.ingredients]
    left += [entry for other in formula.others for entry in other.ingredients]
    for weighed in weigh(recipe).values():
        rows = tuple(_row(recipe, line, weighed.mix, left, systems) for line in weighed.lines)
        totals = tuple(mass(weighed.mass, system) for system in systems)
        yield CardMix(_mix_name(weighed), rows, totals, weighed.mix.notes or "")


def _mix_name(weighed: WeighedMix) -> str:
    return f"{weighed.mix.name}, for all pieces" if weighed.mix.per == "piece" else weighed.mix.name


def _row(recipe: Recipe, one: WeighedLine, mix: Mix, left: list[Entry], systems: Sequence[str]) -> CardRow:
    """A line with its weights, its measure and its baker's percentage; takes its entry out of ``left``."""
    line = one.line
    entry = next((e for e in left if (e.mix, e.item) == (mix.name, line.item)), None)
    if entry is not None:
        left.remove(entry)
    amount = line.amount.text if line.amount is not None else ""
    if one.mass is None:
        weights = (amount, *[""] * (len(systems) - 1))
    else:
        weights = tuple(mass(one.mass, system) for system in systems)
    item = line.item or f"{line.mix}{', all of it' if amount == 'all' else ''}"
    later = f" ({line.add})" if line.add else ""
    said = entry.instead.split("; or ")[0] if entry and entry.instead and entry.weighable is False else None
    return CardRow(item + later, weights, _measure(recipe, one, amount), _percent(entry, mix), said or "")


def _percent(entry: Entry | None, mix: Mix) -> str:
    in_dough = entry is not None and mix.kind in ("dough", "preferment")
    return baker_percent(entry.percent.value) if entry is not None and in_dough else ""


def _measure(recipe: Recipe, one: WeighedLine, amount: str) -> str:
    """As written where it was written in measures, else by the ingredient's own."""
    if one.how in ("measured", "counted"):
        return amount.replace(" ", HELD)
    if one.ingredient is None or one.mass is None:
        return ""
    return in_measures(one.ingredient, one.mass, recipe.cups) or ""


def _allergens(recipe: Recipe) -> Iterator[tuple[str, str]]:
    """What it contains of either list, everything in every mix counted."""
    every = [one.ingredient for mix in weigh(recipe).values() for one in mix.lines if one.ingredient]
    for name, of in (("US", "allergens_us"), ("EU", "allergens_eu")):
        found = sorted({allergen for one in every for allergen in getattr(one, of)})
        yield f"contains, by the {name} list", ", ".join(found) if found else "none of those named there"


def _facts(recipe: Recipe, formula: Formula, units: System) -> Iterator[tuple[str, str]]:
    several = len(formula.doughs) > 1
    for dough in formula.doughs:
        prefix = f"{dough.name}: " if several else ""
        for name, value, decimals in _figures(dough):
            if value.value:
                yield prefix + name, figure(value, decimals)
        if dough.piece_mass.value is not None:
            yield f"{prefix}a piece", mass(dough.piece_mass.value / 1000.0, units)
    wanted = recipe.target.dough_temperature
    if wanted is not None:
        yield "dough out of the mixer at", temperature(wanted, units)


def _figures(dough: Dough) -> tuple[tuple[str, Figure, int | None], ...]:
    return (
        ("hydration", dough.hydration, 0),
        ("salt", dough.salt, 1),
        ("sugar", dough.sugar, 1),
        ("fat", dough.fat, 1),
        ("yeast, as fresh", dough.yeast_as_fresh, 2),
        ("loading", dough.loading, 2),
    )


def _notes(run: Run | None, clock: Clock | None) -> tuple[str, ...]:
    if run is None:
        return ()
    assumed = [*([clock.said] if clock and clock.said else []), *run.said]
    said = [f"Assumed: {'; '.join(assumed)}."] if assumed else []
    return (*said, *(capital(f"{warning.rstrip('.')}.") for warning in run.warnings))


def _steps(
    recipe: Recipe, run: Run | None, plan: Plan | None, clock: Clock | None, units: System
) -> Iterator[CardStep]:
    """Every step of the document, with the plan's time and in its order, else that of the days."""
    starts = {event.step: event.start for event in reversed(all_events(run, recipe))} if run else {}
    entries = {one.step: one for one in reversed(plan.entries) if one.step} if plan else {}
    steps = list(enumerate(recipe.steps))
    if plan is not None:
        steps.sort(key=lambda pair: entries[pair[0] + 1].starts if pair[0] + 1 in entries else plan.eats)
    last_day = ""
    for index, step in steps:
        entry = entries.get(index + 1)
        day = time = ""
        if entry is not None:
            day, time = f"{entry.starts:%A}", f"{entry.starts:%H:%M}"
        elif clock is not None and index in starts:
            day, time = clock.day(starts[index]), clock.time(starts[index])
        shown = day[:3] if day != last_day else ""
        last_day = day or last_day
        yield CardStep(shown, time, _do(step, recipe, units), _for(step, entry), _at(step, units))


def _do(step: Step, recipe: Recipe, units: System) -> str:
    """What is done, in words; what a cook wrote to it stands as written."""
    text = f": {step.text}" if step.text else ""
    if step.until is not None:
        text = f" {until_words(step.until, units)}{text}"
    if step.do == "note":
        return step.text or step.notes or "note"
    if step.do == "mix" and step.add is not None:
        items = [line.item or line.mix or "" for mix in recipe.mixes for line in mix.ingredients
                 if line.add == step.add]  # fmt: skip
        return f"mix in {listed(items)}{text}"
    if step.do == "divide":
        count = step.pieces or recipe.makes.pieces
        into = f"pieces of {mass(step.each)}" if step.each else f"{count}"
        return f"divide into {into}{text}"
    if step.with_:
        return f"{step.do} with {listed(step.with_)}{text}"
    subject = step.mix or step.of
    return f"{step.do} the {subject}{text}" if subject else f"{step.do}{text}"


def _for(step: Step, entry: PlanEntry | None) -> str:
    if step.until is not None:
        return f"at most {_limit(step, entry)}"
    if entry is not None and entry.wait:
        return duration((entry.ends - entry.starts).total_seconds() / 3600.0)
    if step.for_ is not None:
        return _span(step.for_)
    if entry is not None and entry.hands_on.value:
        return duration(entry.hands_on.value / 60.0)
    return duration(step.hands / 3600.0) if step.hands else ""


def _limit(step: Step, entry: PlanEntry | None) -> str:
    if entry is not None and entry.wait:
        return duration((entry.ends - entry.starts).total_seconds() / 3600.0)
    return duration(step.for_.high / 3600.0) if step.for_ is not None else ""


def _span(times: Interval) -> str:
    low = duration(times.low / 3600.0)
    return low if times.single else f"{low} to {duration(times.high / 3600.0)}"


def _at(step: Step, units: System) -> str:
    """Where, with what the dough stands in or on."""
    words = []
    if step.at is not None:
        words.append(step.at.text if step.at.degrees is None else temperature(step.at.degrees, units))
    if step.do in OVEN:
        words += [
            step.heat or "",
            f"{step.rack} rack" if step.rack else "",
            f"on {step.on}" if step.on else "",
        ]
        words += ["steam" if step.steam else "", "lid on" if step.lid else ""]
    words.append("uncovered" if step.in_ == "open" else step.in_ or "")
    return ", ".join(word for word in words if word)
