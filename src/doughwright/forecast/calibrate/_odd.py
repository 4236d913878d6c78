"""Readings beside what the model makes of them now, and those that do not fit the others."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast.calibrate._likelihood import (
    AS_WRITTEN,
    CENTIMETRES,
    FACTORS,
    INCHES,
    USELESS,
    JarReadings,
    Likelihood,
    Predicted,
)
from doughwright.forecast.calibrate._unknowns import batch_of
from doughwright.forecast.calibrate.results import Band, JarBand, OddReading, SeenReading
from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.sampling.sobol import sobol
from doughwright.science.yeast import Array
from doughwright.units import format_time

FAR_OFF = 3.5
"""A reading this many of its errors off is pointed out; assumed."""

ENDS = (5.0, 50.0, 95.0)
POINTS, LANES = 25, 192


def way_of(one: JarReadings, shown: Array) -> int:
    """The way that a jar is most likely meant: as written, in another unit, or of no use."""
    ways = one.ways(shown)
    share = np.exp(ways - np.logaddexp.reduce(ways, axis=0)).mean(axis=1)
    return int(share.argmax())


def odd_readings(likelihood: Likelihood, found: Predicted) -> Iterator[OddReading]:
    """What does not fit, in words."""
    for one, shown in zip(likelihood.jars, found.jars, strict=True):
        way = way_of(one, shown)
        of = f'jar "{one.jar.name}"'
        if way != AS_WRITTEN:
            yield OddReading(of, WAYS[way])
            continue
        off = _off(one, shown, 1.0)
        for number in np.flatnonzero(np.abs(off) > FAR_OFF):
            when, middle = format_time(one.jar.times[number]), float(np.median(shown[number]))
            side = "higher" if off[number] > 0.0 else "lower"
            rise = f"a rise of {one.jar.rise[number]:.2f} is far {side} than the {middle:.2f}"
            yield OddReading(of, f"at {when} {rise} that fits the rest: it counts for little")
    for row, shown in zip(likelihood.thermometers.rows, found.degrees, strict=True):
        middle = float(np.median(shown))
        if abs(row.degrees - middle) > FAR_OFF * row.within:
            far = f"{row.degrees:.1f} °C is far from the {middle:.1f} °C"
            yield OddReading(row.said, f"{far} that fits the rest: it counts for little")
    for one in likelihood.jars:
        if one.jar.looks_like is not None:
            yield OddReading(f'jar "{one.jar.name}"', STARTS[one.jar.looks_like])


WAYS = {
    INCHES: "its heights fit the rest if they are in inches, not as written: they are taken so",
    CENTIMETRES: "its heights fit the rest if they are in centimetres, not as written: they are taken so",
    USELESS: "its heights fit nothing else that was read: they count for nothing; see its times and units",
}
STARTS = {
    "in": "its start would fit its mass and its width if it were in inches",
    "cm": "its start would fit its mass and its width if it were in centimetres",
}


def _off(one: JarReadings, shown: Array, factor: float) -> Array:
    """How far each reading is off, in its errors."""
    seen = np.array(one.jar.rise) * factor
    return np.asarray((seen - np.median(shown, axis=1)) / (one.spread()[:, 0] * factor))


def seen_readings(likelihood: Likelihood, found: Predicted) -> Iterator[SeenReading]:
    """Every reading beside the model after all of them."""
    for one, shown in zip(likelihood.jars, found.jars, strict=True):
        way = way_of(one, shown)
        off = _off(one, shown, FACTORS[way] if way < len(FACTORS) else 1.0)
        for number, time in enumerate(one.jar.times):
            low, middle, high = np.percentile(shown[number], ENDS).tolist()
            yield SeenReading(
                f'jar "{one.jar.name}"', Figure(time / 3600.0, "h"), Figure(one.jar.rise[number], "ratio"),
                Figure(middle, "ratio", low, high), bool(way != AS_WRITTEN or abs(off[number]) > FAR_OFF),
            )  # fmt: skip
    for row, shown in zip(likelihood.thermometers.rows, found.degrees, strict=True):
        low, middle, high = np.percentile(shown, ENDS).tolist()
        yield SeenReading(
            row.said, Figure(row.time or 0.0, "h"), Figure(row.degrees, "degC"),
            Figure(middle, "degC", low, high), abs(row.degrees - middle) > FAR_OFF * row.within,
        )  # fmt: skip


def jar_bands(before: Likelihood, after: Likelihood, posterior: Array, seed: int) -> tuple[JarBand, ...]:
    """Each jar's rise as forecast without the readings and with them."""
    prior = normal_quantile(probability=sobol(count=LANES, dimensions=before.unknowns.count, seed=seed)).T
    some = posterior[:, np.linspace(0, posterior.shape[1] - 1, LANES).astype(int)]
    bands = [_bands(before, prior), _bands(after, after.turned_back(some))]
    return tuple(JarBand(name, bands[0][name], bands[1][name]) for name in bands[0])


def _bands(likelihood: Likelihood, points: Array) -> dict[str, Band]:
    batch = batch_of(likelihood.unknowns.drawn(points))
    found: dict[str, Band] = {}
    for group in likelihood.groups:
        course = group[0].model.runner.run(batch, points.shape[1])
        for one in group:
            times = np.linspace(one.model.filled, max(one.model.times), POINTS)
            low, middle, high = np.percentile(one.model.at(times).rise(course), ENDS, axis=1)
            found[one.jar.name] = Band(
                tuple(times.tolist()), tuple(low.tolist()), tuple(middle.tolist()), tuple(high.tolist())
            )
    return found
