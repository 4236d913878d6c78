"""What is sampled of a recipe, invented at once: for tests of the page, not of the model."""

from __future__ import annotations

import math
from dataclasses import replace
from statistics import NormalDist
from typing import Any

from doughwright.figures import Figure
from doughwright.forecast.bake import Bake, bake
from doughwright.forecast.calibrate.results import (
    Band,
    Calibrated,
    JarBand,
    LearntAlone,
    LearntTogether,
    NotLearnt,
    OddReading,
    SeenReading,
)
from doughwright.forecast.days import days
from doughwright.forecast.elsewhere.results import (
    LEVELS,
    Elsewhere,
    Explained,
    Failing,
    Shares,
    Told,
    Trait,
)
from doughwright.forecast.narrow_results import Narrow, Narrowing, NotMeasured
from doughwright.forecast.printed import PrintedColumn
from doughwright.forecast.results import Days, Doubt, Run
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.learning import learnt_of, with_learnt
from doughwright.kitchen.read import KitchenDocument
from doughwright.kitchen.readings.taken import Taken
from doughwright.recipe.model import Recipe

SPREAD = 0.28
COUNT = 10_000


def invented(recipe: Recipe, *, progress: Any = None, **_: object) -> Elsewhere:
    """Kitchens whose rise spreads round that of the middle one; it says half way that it is half way."""
    run = days(recipe, surroundings(None)).runs[0]
    if progress is not None:
        progress(COUNT // 2, COUNT, 1.0)
    times = (*(0.5 * at for at in range(int(run.judged_at * 2))), run.judged_at)

    def level(percent: float) -> tuple[float, ...]:
        far = NormalDist().inv_cdf(percent / 100.0) * SPREAD
        return tuple(
            1.0 + (run.series.at(at)["rise"] - 1.0) * math.exp(far * min(1.0, at / 6.0)) for at in times
        )

    ends = tuple(level(at + 0.5)[-1] for at in range(100))
    low, high = run.target.low, run.target.high
    states = tuple("young" if one < low else "past" if one > high else "ripe" for one in ends)
    count = {state: states.count(state) for state in ("young", "ripe", "past")}
    columns = {"time": PrintedColumn("h", times)}
    columns |= {str(one): PrintedColumn("ratio", level(one)) for one in LEVELS}
    warm = Trait("the fridge", Figure(8.3, "degC"), Figure(4.8, "degC"))
    return Elsewhere(
        dough=run.dough, kitchens=COUNT, asked=COUNT, season="year", aim=False, judged=run.target.judged,
        judged_at=Figure(run.judged_at, "h"), target=(low, high),
        share=Shares(*(Figure(float(one), "percent") for one in count.values())),
        explained_by=_explained(("the fridge", 52.0), ("weighing the yeast", 18.0), ("the room", 0.2)),
        ripe_explained_by=_explained(("the fridge", 31.0), ("the room", 9.0), ("weighing the yeast", 0.1)),
        quantiles=columns, percentiles=PrintedColumn("ratio", ends), states=states,
        rise=Figure(1.8, "ratio"), sugar=Figure(1.0, "percent"), dough_temperature=Figure(24.0, "degC"),
        failing=(Failing("past", 2800, Figure(22.0, "h"), Figure(2.5, "ratio"), (warm,)),),
        readers=(Told("measure the fridge", "to 0.5 °C", Figure(58.0, "percent"), Figure(13.0, "percent")),),
        full=None, seed=0, said=("mixing by hand",), seconds=Figure(0.1, "s"),
    )  # type: ignore[arg-type] # fmt: skip


def _explained(*rows: tuple[str, float]) -> tuple[Explained, ...]:
    return tuple(Explained(name, Figure(share, "percent", share - 2.0, share + 2.0)) for name, share in rows)


def narrowed(*_: object, **__: object) -> Narrow:
    """A fridge that halves the doubt, and flour that buys next to nothing."""
    rows = (("the fridge at that shelf", 0.4, 50.0, 4.0), ("the flour's protein", 0.79, 1.0, 2.0))
    return Narrow(
        dough="dough", judged="when shaping begins", rise=Figure(1.8, "ratio", 1.4, 2.2),
        width=Figure(0.8, "ratio"),
        measures=tuple(
            Narrowing(
                what, "a thermometer", Figure(width, "ratio"), Figure(less, "percent"), Figure(time, "min")
            )
            for what, width, less, time in rows
        ),
        not_measured=(NotMeasured("the room", "it is known already"),), draws=1, said=(),
    )  # fmt: skip


_BAKED: dict[str, Bake] = {}


def baked(recipe: Recipe, kitchen: Surroundings, **_: object) -> Bake:
    """The oven itself with few draws; the same for a recipe that only weighs otherwise, so at once."""
    key = repr((recipe.title, recipe.makes, recipe.steps, kitchen))
    if key not in _BAKED:
        _BAKED[key] = bake(recipe, kitchen, draws=8, section=1)
    return _BAKED[key]


def doubted(days: Days, *_: object, **__: object) -> Days:
    """Every reading known to a tenth of itself, and ripeness to an hour and a half."""
    return Days(tuple(replace(run, doubt=_doubt(run)) for run in days.runs))


def _doubt(run: Run) -> Doubt:
    ends = {name: _tenth(getattr(run.judged, name)) for name in ("rise", "core", "edge", "sugar")}
    return Doubt(
        draws=512, share=(10.0, 80.0, 10.0), judged=ends, at_shaping=None, at_bake=None,
        entered=_tenth(run.dough_temperature.value), ripe_from=_hours(run.ripe_window.from_),
        ripe_to=_hours(run.ripe_window.to), time=(), quantiles=(),
    )  # fmt: skip


def _tenth(value: float) -> tuple[float, float]:
    return 0.9 * value, 1.1 * value


def _hours(value: float | None) -> tuple[float, float] | None:
    return None if value is None else (value - 1.5, value + 1.5)


def calibrated(
    recipe: Recipe, kitchen: KitchenDocument, readings: Taken, *, called: str, **_: object
) -> Calibrated:
    """A yeast that is a fifth stronger than usual; the last reading of the first jar does not fit."""
    update = learnt_of(["yeast"], [math.log(1.2)], [[0.0025]], readings=[called])
    times = tuple(0.5 * at for at in range(9))
    wide, narrow = (_band(times, share) for share in (0.5, 0.1))
    jar = readings.jars[0]
    seen = SeenReading(
        f'jar "{jar.name}"', Figure(jar.times[-1] / 3600.0, "h"), Figure(jar.rise[-1], "ratio"),
        Figure(1.4, "ratio", 1.3, 1.5), True,
    )  # fmt: skip
    return Calibrated(
        readings=called,
        learnt=(
            LearntAlone(
                "the yeast's strength", "times the usual", Figure(1.2, "ratio", 1.1, 1.3),
                Figure(1.0, "ratio", 0.7, 1.4),
            ),
        ),
        together=(LearntTogether(("cold", "fridge"), (), "a warm fridge or a hardy yeast", "a thermometer"),),
        not_learnt=(NotLearnt("the room", "the room", "a thermometer"),),
        odd=(OddReading(f'jar "{jar.name}"', "its last height is far higher than the rest"),),
        seen=(seen,), bands=(JarBand(jar.name, wide, narrow),), rhat=1.004, effective=812.0, draws=5600,
        said=(), document=with_learnt(kitchen.text, update), update=update,
    )  # fmt: skip


def _band(times: tuple[float, ...], share: float) -> Band:
    middle = tuple(1.0 + 0.2 * at for at in times)
    low, high = (tuple(1.0 + (one - 1.0) * (1.0 + side * share) for one in middle) for side in (-1, 1))
    return Band(times, low, middle, high)
