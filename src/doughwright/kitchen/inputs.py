"""What differs between kitchens, and what nobody knows of yeast and dough: inputs with their distributions.

Each input is one dimension of a design of points. The published population has them all; a kitchen of its
own has those that it leaves open, with its own spread where it gives one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from doughwright.kitchen import assumed
from doughwright.kitchen.air import DAILY_SWING, PLACE
from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.learnt import Learnt, is_factor
from doughwright.kitchen.spread import Quantile, factor, half_normal, normal, same, shared, uniform
from doughwright.kitchen.types import Assumption, Known
from doughwright.science.parameters import Parameters, parameter_table

Season = Literal["year", "summer"]
Mixed = Literal["computed", "aimed", "measured"]
Whose = Literal["kitchen", "model", "learnt"]

NOTES = "science notes, population of kitchens"
COLD_SOURCE = (
    "Slator 1906 as fitted leaves a factor of 1.5 at 4 °C, 1.18 at 10, 1.05 at 20; not measured in dough"
)
SCALES = (
    "consumer glossaries: steps of 1 g are typical, 0.1 g in pocket scales; how many have which is assumed"
)

FRIDGE_ENDS, ROOM_ENDS = (-0.5, 12.0), (14.0, 31.0)
SUMMER = Assumption(4.0, 0.0, "rooms 4 °C warmer in summer", NOTES)
YEAST = Assumption(1.0, 0.15, "yeast that differs by 15 %", NOTES)
COLD = Assumption(1.0, math.log(1.5), "gassing at 4 °C known to a factor of 1.5", COLD_SOURCE)
PROTEIN = Assumption(0.0, 0.007, "flour that differs by 0.7 points of protein", "assumed")
FLOURS = Assumption(0.0, 1.0, "flour, water and the rest weighed to 1 g", NOTES)
COARSE = Assumption(0.7, 0.5, "70 % of scales show 1 g, and are off by up to 0.5 g", SCALES)
FINE = Assumption(0.0, 0.05, "the others are off by 0.05 g", SCALES)
FINE_STEP = 0.1
SPOONS = Assumption(0.0, 1.0, "spoons off by their own spread", "each ingredient's table of measures")
AIMED = Assumption(0.0, 1.5, "a dough temperature aimed for and missed by 1.5 °C", "assumed")
THERMOMETER = Assumption(0.0, 0.5, "a thermometer off by 0.5 °C", NOTES)
SET = Assumption(
    0.0, 0.7, "a fridge measured and set to 0.7 °C", "thermometer and dial, 0.5 °C each: assumed"
)
OPENING = Assumption(1.0, 0.5, "what an opening does known to half of it", "assumed")
# How many mix by what.
MIXERS = {"hand": 0.5, "stand": 0.42, "processor": 0.06, "spiral": 0.02}

Ends = tuple[float, float]
Headings = Mapping[str, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Input:
    """One thing that is drawn: its name, the heading a cook finds it under, its unit, how known, its source.

    ``quantile`` turns probabilities into values; ``whose`` says whether it differs between kitchens, is not
    known of the model (the same for all), or was learnt, when it is drawn with all else that was.
    """

    name: str
    heading: str
    unit: str
    how: str
    source: str
    whose: Whose
    quantile: Quantile


@dataclass(frozen=True, slots=True)
class Readers:
    """Who reads the recipe: in which ``season``; ``aim`` for its dough temperature, by thermometer.

    ``fridge`` [degC] is what they set theirs to, having measured where the dough stands; ``fine`` that they
    weigh to 0.1 g. Inputs stay the same and in order, so that the same points are the same kitchens.
    """

    season: Season = "year"
    aim: bool = False
    fridge: float | None = None
    fine: bool = False


def population_inputs(
    readers: Readers | None = None, *, parameters: Parameters | None = None, ignorance: bool = True
) -> tuple[Input, ...]:
    """What is drawn for kitchens of the published population; without ``ignorance`` the model is held."""
    who, p = readers or Readers(), parameters or Parameters()
    kitchens = (*_places(who), *_dough(who), *_weighing(who), _film(p), *_hands(p))
    return (*kitchens, *(_ignorance(p) if ignorance else ()))


def kitchen_inputs(
    kitchen: Surroundings, *, mixed: Mixed = "computed", parameters: Parameters | None = None
) -> tuple[Input, ...]:
    """What is not known of one kitchen and its dough: what was learnt first, then what it leaves open.

    ``mixed`` is how the dough's temperature is known. What it knows exactly is no input.
    """
    p = parameters or Parameters()
    taught = tuple(_learnt(kitchen.learnt))
    own = (*_own_places(kitchen), *_own_dough(kitchen, mixed), *_own_weighing(kitchen))
    every = (*own, _film(p), *_hands(p), *_ignorance(p, yeast=False))
    names = {one.name for one in taught}
    return (*taught, *(one for one in every if one.name not in names))


def headings(inputs: Sequence[Input]) -> Headings:
    """Which inputs stand under each heading, by number from 0, in the order of the inputs."""
    found: dict[str, list[int]] = {}
    for number, one in enumerate(inputs):
        found.setdefault(one.heading, []).append(number)
    return {name: tuple(numbers) for name, numbers in found.items()}


def _of(name: str, heading: str, unit: str, one: Assumption, quantile: Quantile) -> Input:
    how = "assumed" if "assumed" in one.source else "published"
    return Input(name, heading, unit, how, one.source, "kitchen", quantile)


def _places(who: Readers) -> Iterator[Input]:
    fridge, room = assumed.FRIDGE, assumed.ROOM
    cold = normal(fridge.middle, fridge.spread, *FRIDGE_ENDS)
    place = normal(PLACE.middle, PLACE.spread)
    if who.fridge is not None:
        cold, place = normal(who.fridge, SET.spread), same(0.0)
    yield _of("fridge", "fridge", "degC", fridge if who.fridge is None else SET, cold)
    yield _of("shelf", "fridge", "K", PLACE, place)
    warmer = SUMMER.middle if who.season == "summer" else 0.0
    yield _of("room", "room", "degC", room, normal(room.middle + warmer, room.spread, *ROOM_ENDS))
    yield _of("hour", "room", "h", DAILY_SWING, uniform(0.0, 24.0))
    yield _of("altitude", "altitude", "m", assumed.ALTITUDE, half_normal(assumed.ALTITUDE.spread))


def _dough(who: Readers) -> Iterator[Input]:
    name = "dough temperature"
    yield _of("water", name, "K", assumed.WATER, normal(assumed.WATER.middle, assumed.WATER.spread))
    yield _of("flour", name, "K", assumed.GRAIN, normal(assumed.GRAIN.middle, assumed.GRAIN.spread))
    rubs = [assumed.FRICTION[kind] for kind in MIXERS]
    kinds = zip(MIXERS.values(), (normal(one.middle, one.spread, 0.0) for one in rubs), strict=True)
    source = Assumption(0.0, 0.0, "", f"shares of mixers assumed; {rubs[0].source}, {rubs[1].source}")
    yield _of("friction", name, "K", source, shared(tuple(kinds)))
    yield _of("miss", name, "K", AIMED, normal(0.0, AIMED.spread) if who.aim else same(0.0))
    yield _of("yeast", "yeast", "times", YEAST, factor(YEAST.spread))
    yield _of("protein", "flour", "share", PROTEIN, normal(0.0, PROTEIN.spread))


def _weighing(who: Readers) -> Iterator[Input]:
    name, coarse = "weighing", uniform(-COARSE.spread, COARSE.spread)
    some = shared(((COARSE.middle, coarse), (1.0 - COARSE.middle, normal(0.0, FINE.spread))))
    scale = uniform(-FINE_STEP / 2.0, FINE_STEP / 2.0) if who.fine else some
    yield _of("yeast weighed", name, "g", COARSE, scale)
    yield _of("flour weighed", name, "g", FLOURS, normal(0.0, FLOURS.spread))
    yield _of("others weighed", name, "g", FLOURS, normal(0.0, FLOURS.spread))
    yield _of("spoons", name, "sd", SPOONS, normal(0.0, SPOONS.spread))


LIMITS = {
    "growth_cap": (0.1, 1.5),
    "dissolving": (0.5, 1.2),
    "retention": (0.7, 1.2),
    "air": (0.02, 0.16),
    "degas_fold": (0.0, 1.0),
    "degas_divide": (0.0, 1.0),
    "degas_ball": (0.0, 1.0),
    "degas_shape": (0.0, 1.0),
}
"""What a parameter given by its value can be; those given by a factor only have to be above 0."""

# Input, parameter, heading; how far each may be off stands in the table of parameters.
_HANDS = tuple((one, one, "gas lost in working") for one in LIMITS if one.startswith("degas"))
_MODEL = (
    ("growth", "growth_optimum_rate", "how yeast grows"),
    ("growth_cap", "growth_cap", "how yeast grows"),
    ("growth_lag", "growth_lag", "how yeast grows"),
    ("lag", "gassing_lag", "how yeast wakes"),
    ("dissolving", "dissolving", "how dough holds gas"),
    ("retention", "retention", "how dough holds gas"),
    ("air", "air", "how dough holds gas"),
)


def _film(parameters: Parameters) -> Input:
    return _parameter("film", "film_still", "how fast dough warms and cools", "kitchen", parameters)


def _hands(parameters: Parameters) -> Iterator[Input]:
    return (_parameter(*one, "kitchen", parameters) for one in _HANDS)


def _ignorance(parameters: Parameters, *, yeast: bool = True) -> Iterator[Input]:
    """What nobody knows of yeast and dough; in one kitchen its own yeast's strength holds that of all."""
    if yeast:
        yield _parameter("gassing", "gassing_30", "yeast", "model", parameters)
    yield Input("cold", "yeast in the cold", "times", "fitted", COLD.source, "model", factor(COLD.spread))
    for name, parameter, heading in _MODEL:
        yield _parameter(name, parameter, heading, "model", parameters)


def _parameter(name: str, parameter: str, heading: str, whose: Whose, parameters: Parameters) -> Input:
    row = parameter_table(parameters)[parameter]
    spread = row.spread or 0.0
    if row.spread_kind == "relative":
        quantile, unit = factor(spread), "times"
    else:
        quantile, unit = normal(row.value, spread, *LIMITS[parameter]), row.unit
    return Input(name, heading, unit, row.how, row.source, whose, quantile)


def _known(
    name: str, heading: str, unit: str, known: Known, usual: Assumption, ends: Ends = (-np.inf, np.inf)
) -> Iterator[Input]:
    """An input for a value with a spread: as assumed within the population's ends; none where it is exact."""
    spread, source = known.spread, "the kitchen's document"
    if known.how == "assumed":
        source = usual.source
        spread = usual.spread if spread is None else spread
    elif spread is None and known.how == "measured" and unit == "degC":
        spread = THERMOMETER.spread
    if spread:
        cut = ends if known.how == "assumed" else (-np.inf, np.inf)
        yield Input(name, heading, unit, known.how, source, "kitchen", normal(known.value, spread, *cut))


def _own_places(kitchen: Surroundings) -> Iterator[Input]:
    cold = kitchen.cold
    yield from _known("fridge", "fridge", "degC", kitchen.fridge, assumed.FRIDGE, FRIDGE_ENDS)
    yield from _known("shelf", "fridge", "K", cold.offset, PLACE)
    if cold.opened.spread or cold.daily.spread:
        yield _of("openings", "fridge", "times", OPENING, normal(1.0, OPENING.spread, 0.0))
    if cold.grip is not None and cold.grip.spread:
        grip, far = cold.grip, cold.grip.spread
        yield Input("grip", "fridge", "W/K", grip.how, "the kitchen's document", "kitchen",
                    normal(grip.value, far, 0.1 * grip.value))  # fmt: skip
    yield from _known("room", "room", "degC", kitchen.room, assumed.ROOM, ROOM_ENDS)
    if kitchen.room_swing is not None:
        yield from _known("swing", "room", "K", kitchen.room_swing, DAILY_SWING, (0.0, np.inf))
        if kitchen.room_warmest is None:
            yield _of("hour", "room", "h", DAILY_SWING, uniform(0.0, 24.0))
    for name, known in kitchen.places.items():
        yield from _known(f"place: {name}", name, "degC", known, assumed.ROOM)
    if kitchen.altitude == Known(assumed.ALTITUDE.middle, "assumed", assumed.ALTITUDE.spread):
        yield _of("altitude", "altitude", "m", assumed.ALTITUDE, half_normal(assumed.ALTITUDE.spread))
    else:
        yield from _known("altitude", "altitude", "m", kitchen.altitude, assumed.ALTITUDE)


def _own_dough(kitchen: Surroundings, mixed: Mixed) -> Iterator[Input]:
    name = "dough temperature"
    yield from _beside_room("water", name, kitchen.tap, assumed.WATER)
    yield from _beside_room("flour", name, kitchen.flour_temperature, assumed.GRAIN)
    yield from _known("friction", name, "K", kitchen.friction, assumed.FRICTION[kitchen.mixer])
    if mixed == "aimed":
        yield _of("miss", name, "K", AIMED, normal(0.0, AIMED.spread))
    elif mixed == "measured":
        yield _of("thermometer", name, "K", THERMOMETER, normal(0.0, THERMOMETER.spread))
    both = math.hypot(YEAST.spread, parameter_table()["gassing_30"].spread or 0.0)
    source = f"{YEAST.source}; and what is not known of any yeast"
    yield Input("yeast", "yeast", "times", "assumed", source, "kitchen", factor(both))
    own = kitchen.flour_protein
    if own is None:
        yield _of("protein", "flour", "share", PROTEIN, normal(0.0, PROTEIN.spread))
    elif own.spread:
        bag = Known(0.0, own.how, own.spread)
        yield from _known("protein", "flour", "share", bag, PROTEIN)


def _beside_room(name: str, heading: str, known: Known, usual: Assumption) -> Iterator[Input]:
    """An assumed temperature is that of the room, with an error; any other stands by itself."""
    if known.how == "assumed" and known.spread == usual.spread:
        yield _of(name, heading, "K", usual, normal(usual.middle, usual.spread))
    else:
        yield from _known(name, heading, "degC", known, usual)


def _own_weighing(kitchen: Surroundings) -> Iterator[Input]:
    for one in _weighing(Readers()):
        if one.name == "yeast weighed" and kitchen.scale_known:
            half = 500.0 * kitchen.scale
            step = Assumption(0.0, half, "", "the kitchen's scale, half a step to either side")
            yield _of(one.name, one.heading, one.unit, step, uniform(-half, half))
        else:
            yield one


def _learnt(learnt: Learnt | None) -> Iterator[Input]:
    """What was learnt, each by itself; it is drawn with its correlations."""
    for one in learnt.quantities if learnt is not None else ():
        quantile = factor(one.spread, one.value) if is_factor(one.of) else normal(one.value, one.spread)
        unit = "times" if is_factor(one.of) else "K" if one.of == "thermometer" else "degC"
        heading, source = HEADING_OF[one.of], "the cook's own readings"
        yield Input(one.of, heading, unit, "measured", source, "learnt", quantile)


HEADING_OF = {
    "yeast": "yeast", "cold": "yeast in the cold", "growth": "how yeast grows", "lag": "how yeast wakes",
    "film": "how fast dough warms and cools", "fridge": "fridge", "room": "room",
    "thermometer": "dough temperature",
}  # fmt: skip
