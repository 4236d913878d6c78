"""What a calibration found, as rows and sentences, and its bands for the pictures."""

from __future__ import annotations

from dataclasses import dataclass, replace

from doughwright.figures import Figure
from doughwright.forecast.calibrate.results import Band, Calibrated
from doughwright.publish.readings import Panel, Point, Spread
from doughwright.publish.render import HELD, MINUS, capital, curled, number, temperature

NOTHING = "–"


@dataclass(frozen=True, slots=True)
class TaughtRow:
    """A quantity told by itself: what it is now and was before, each nine times in ten."""

    of: str
    means: str
    now: str
    now_between: str
    before: str


@dataclass(frozen=True, slots=True)
class TaughtPart:
    """What the readings teach; ``text`` is the kitchen with it, empty where nothing was learnt."""

    rows: tuple[TaughtRow, ...]
    together: tuple[str, ...]
    little: tuple[str, ...]
    odd: tuple[str, ...]
    settled: str
    said: tuple[str, ...]
    text: str


def taught_part(found: Calibrated) -> TaughtPart:
    """The rows and the sentences."""
    return TaughtPart(
        rows=tuple(
            TaughtRow(
                capital(curled(one.of)),
                curled(one.what),
                _value(one.now),
                _between(one.now),
                f"{_value(one.before)} ({_between(one.before)})",
            )
            for one in found.learnt
        ),
        together=tuple(
            capital(curled(f"{one.says}. What would tell them apart: {one.would_tell}."))
            for one in found.together
        ),
        little=tuple(capital(curled(f"{one.of}: {one.would_tell}")) for one in found.not_learnt),
        odd=tuple(capital(curled(f"{one.of}: {one.says}.")) for one in found.odd),
        settled=(
            f"{found.draws:,} draws, worth {found.effective:,.0f} that know nothing of each other; "
            f"R-hat {number(found.rhat, 3)}."
        ),
        said=tuple(capital(curled(one)) for one in found.said),
        text=found.document or "",
    )


def with_bands(panels: list[Panel], names: list[str], found: Calibrated) -> list[Panel]:
    """The panels of the jars with their bands, and readings that do not fit marked; ``names`` are theirs."""
    bands = {one.jar: one for one in found.bands}
    odd = {
        (one.of, round(one.time.value or 0.0, 3)) for one in found.seen if one.odd
    }  # fmt: skip
    return [
        _with_band(panel, name, bands[name].before, bands[name].after, odd) if name in bands else panel
        for panel, name in zip(panels, names, strict=True)
    ]


def _with_band(panel: Panel, name: str, before: Band, after: Band, odd: set[tuple[str, float]]) -> Panel:
    points = tuple(
        Point(one.time, one.value, (f'jar "{name}"', round(one.time, 3)) in odd) for one in panel.points
    )
    return replace(panel, points=points, before=_spread(before), after=_spread(after))


def _spread(band: Band) -> Spread:
    return Spread(band.time, band.low, band.middle, band.high)


def _value(one: Figure) -> str:
    if one.value is None:
        return NOTHING
    if one.unit == "degC":
        return temperature(one.value, decimals=1)
    if one.unit == "percent":
        return f"{number(one.value, 1)}{HELD}%"
    return number(one.value, 2)


def _between(one: Figure) -> str:
    """Nine times in ten, without the unit that stands beside it."""
    if one.low is None or one.high is None:
        return NOTHING
    decimals = 2 if one.unit == "ratio" else 1
    return f"{number(one.low, decimals)} to {number(one.high, decimals)}".replace("-", MINUS)
