"""Which single measurement would narrow the forecast most: simulated before anybody measures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot
from typing import Any, Literal

import numpy as np

from doughwright.errors import Fault, NoAnswerError, OutOfRangeError
from doughwright.figures import Figure
from doughwright.forecast._amounts import Changes, Weighing
from doughwright.forecast._contents import lines_within, main_protein, need_yeast
from doughwright.forecast._order import dough_named, steps_of
from doughwright.forecast.calibrate._forward import jar_model
from doughwright.forecast.calibrate._likelihood import MEAN_WITHIN, MODEL_RISE
from doughwright.forecast.calibrate._unknowns import batch_of
from doughwright.forecast.doubt import how_mixed
from doughwright.forecast.many import many
from doughwright.forecast.narrow_results import Narrow, Narrowing, NotMeasured
from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.inputs import FINE_STEP, THERMOMETER
from doughwright.kitchen.population import Drawn, draw, kitchen_inputs
from doughwright.kitchen.readings.jar import CROWN_WITHIN, READ_WITHIN, start_height
from doughwright.kitchen.readings.taken import SMALL_SAMPLE, TakenJar
from doughwright.recipe.model import BAKES, Recipe
from doughwright.recipe.types import At
from doughwright.recipe.weigh import weigh
from doughwright.science.inference.preposterior import expected_narrowing_raiffa_1961
from doughwright.science.sampling.sobol import sobol
from doughwright.science.yeast import Array

DRAWS = 4096
READINGS = 256
JAR_WIDE = 0.045
"""A small straight-sided jar [m]: 40 g of dough stand 22 mm high in it."""

PROTEIN_WITHIN = 0.003
"""How far the protein on a bag or a mill's sheet is off, a share; assumed."""


@dataclass(frozen=True, slots=True)
class Measurable:
    """A measurement: its name, how it is done, and the cook's own minutes for it (assumed)."""

    name: str
    how: str
    minutes: float


FRIDGE = Measurable(
    "the fridge at that shelf", "a thermometer in a glass of water on that shelf, read after a night", 4.0
)
ROOM = Measurable("the room", "a thermometer where the dough stands", 1.0)
DOUGH = Measurable("the dough after mixing", "a thermometer in its middle, just mixed", 1.0)
JAR = Measurable("a jar's rise at 2 h", "40 g of it in a small straight-sided jar in the room", 6.0)
JAR_COLD = Measurable(
    "a jar in the fridge overnight", "40 g of it in a small straight-sided jar beside it, read at 12 h", 6.0
)
YEAST = Measurable("the yeast on a better scale", "a scale that shows 0.1 g", 2.0)
PROTEIN = Measurable("the flour's protein", "the bag, or the mill's own sheet", 2.0)
"""What a cook can measure; the minutes are assumed, waiting left out."""


def narrow(
    recipe: Recipe, kitchen: Surroundings, *, dough: str | None = None, seed: int = 0, draws: int = DRAWS
) -> Narrow:
    """Rank measurements by how much each would narrow the rise of a dough, the first where none is named.

    Each is made in every one of ``draws`` kitchens that this one may be, and taken in by its error. Raises
    ``NoAnswerError`` where the recipe has no yeasted dough, or its rise is known already.
    """
    name = dough_named(recipe, dough)
    need_yeast(name, lines_within(weigh(recipe), name))
    simulated = _Simulated(recipe, name, kitchen, seed, draws)
    rise = simulated.rise
    low, high = np.percentile(rise, (5.0, 95.0)).tolist()
    if high - low < 1e-6:
        raise NoAnswerError(
            Fault(
                f'the rise of "{name}" is in no doubt: nothing would narrow it',
                try_="Write the waits of the dough as steps, if there are none",
            )
        )
    found: list[Narrowing] = []
    left: list[NotMeasured] = []
    for measurable, tried in simulated.measurements():
        if isinstance(tried, str):
            left.append(NotMeasured(measurable.name, tried))
            continue
        one = _narrowing(measurable, rise, *tried, seed)
        if isinstance(one, Narrowing):
            found.append(one)
        else:
            left.append(one)
    found.sort(key=lambda one: -(one.reduction.value or 0.0))
    return Narrow(
        dough=name,
        judged=simulated.judged,
        rise=Figure(float(np.median(rise)), "ratio", low, high),
        width=Figure(high - low, "ratio"),
        measures=tuple(found),
        not_measured=tuple(left),
        draws=draws,
        said=("the minutes of your time, waiting left out", *kitchen.assumed),
    )


def _narrowing(
    measurable: Measurable, rise: Array, measured: Array, noise: float, seed: int
) -> Narrowing | NotMeasured:
    """What a measurement would buy, on the mean over what it may show."""
    if float(np.std(measured)) < 1e-9:
        return NotMeasured(measurable.name, "it is known already")
    try:
        found = expected_narrowing_raiffa_1961(
            quantity=rise, measured=measured, noise=np.array(noise),
            generator=np.random.default_rng(seed), readings=READINGS,
        )  # fmt: skip
    except OutOfRangeError:
        return NotMeasured(measurable.name, "it is too fine a measurement to be simulated")
    # A measurement never tells less than nothing: below that is chance.
    gain = max(found.reduction, 0.0)
    far = 1.645 * found.error
    ends = max(gain - far, 0.0), min(gain + far, 1.0)
    return Narrowing(
        what=measurable.name,
        how=measurable.how,
        width=Figure(found.before * (1.0 - gain), "ratio"),
        reduction=Figure(100.0 * gain, "percent", 100.0 * ends[0], 100.0 * ends[1]),
        minutes=Figure(measurable.minutes, "min"),
    )


Tried = tuple[Array, float] | str


class _Simulated:
    """A dough in many kitchens that are all this one, and what each measurement would show in each."""

    def __init__(self, recipe: Recipe, dough: str, kitchen: Surroundings, seed: int, draws: int) -> None:
        self.recipe, self.dough, self.draws = recipe, dough, draws
        inputs = kitchen_inputs(kitchen, mixed=how_mixed(recipe, dough))
        points = sobol(count=draws, dimensions=len(inputs), seed=seed)
        protein = main_protein(lines_within(weigh(recipe), dough))
        self.drawn: Drawn = draw(kitchen, points, inputs, protein=protein)
        weighing: Any = self.drawn.weighing
        ran = many(
            recipe, self.drawn.surroundings, self.drawn.parameters, count=draws, dough=dough, every=None,
            changes=Changes(miss=self.drawn.miss), weighing=Weighing(**weighing),
        )  # fmt: skip
        self.rise, self.entered, self.judged = ran.judged.rise, ran.entered, ran.target.judged

    def measurements(self) -> Iterator[tuple[Measurable, Tried]]:
        """Each measurement with what it would show and its error, or why it is left out."""
        cold = self._stands_at("fridge")
        nowhere = "this dough never stands in the fridge"
        yield FRIDGE, self._place("fridge") if cold else nowhere
        yield ROOM, self._place("room")
        yield DOUGH, (self.entered, THERMOMETER.spread)
        yield JAR, self._jar("room", 2.0)
        yield JAR_COLD, self._jar("fridge", 12.0) if cold else nowhere
        yield YEAST, self._weighed()
        columns = self.drawn.columns
        yield PROTEIN, (columns["protein"], PROTEIN_WITHIN) if "protein" in columns else "it is known already"
        for place in self.drawn.surroundings.places:
            if self._stands_at(place):
                how = Measurable(f"the {place}", ROOM.how, ROOM.minutes)
                yield how, self._place(place)

    def _stands_at(self, place: str) -> bool:
        """Whether the dough waits at a place before it is baked."""
        for _, step in steps_of(self.recipe, self.dough):
            if step.do in BAKES:
                return False
            if step.at is not None and step.at.name == place:
                return True
        return False

    def _place(self, place: str) -> Tried:
        value = np.asarray(self.drawn.surroundings.place(place).value, dtype=np.float64)
        return np.broadcast_to(value, (self.draws,)), hypot(THERMOMETER.spread, MEAN_WITHIN)

    def _jar(self, place: Literal["room", "fridge"], hours: float) -> Tried:
        """A jar's rise, its error that of the ruler, the crown and the start."""
        jar = TakenJar("jar", At(place), SMALL_SAMPLE, 0.0, (3600.0 * hours,), (1.0,), (0.0,), (0.0,))
        model = jar_model(self.recipe, self.dough, jar)
        rise = model.rise(model.runner.run(batch_of(self.drawn), self.draws))[0]
        usual, ruler = float(np.median(rise)), READ_WITHIN / start_height(SMALL_SAMPLE, JAR_WIDE)
        crown = 0.5 * CROWN_WITHIN * JAR_WIDE / start_height(SMALL_SAMPLE, JAR_WIDE)
        return rise, hypot(ruler, ruler * usual, crown, MODEL_RISE * usual)

    def _weighed(self) -> Tried:
        """The yeast weighed again: the error of the first scale, seen by one that shows 0.1 g."""
        error = np.asarray(self.drawn.weighing["yeast"], dtype=np.float64)
        fine = FINE_STEP / 12.0**0.5
        if float(np.std(error)) <= 1.5 * fine:
            return "the scale is fine enough"
        return error, fine
