"""``[learnt]``: what a cook's own readings have taught of a kitchen and its yeast.

A quantity has a value and the ends of its 90 % interval; two may be correlated. Factors are normal in their
logarithm, temperatures as they are: ``middle``, ``spread`` and ``covariance`` are on that scale.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationInfo
from pydantic.dataclasses import dataclass

from doughwright import units
from doughwright.errors import Fault, QuantityError
from doughwright.recipe.model import CONFIG
from doughwright.recipe.text import Where
from doughwright.recipe.types import Text, Texts, refuse

# 90 % of a normal distribution lies within so many standard deviations.
NINETY = 1.6448536269514722

Quantity = Literal["yeast", "cold", "growth", "lag", "film", "fridge", "room", "thermometer"]
# What each is, the kind of its value, and the least and most it can be.
QUANTITIES: dict[str, tuple[str, Literal["factor", "temperature", "difference"], float, float]] = {
    "yeast": ("the gas the yeast makes, times the usual", "factor", 0.05, 20.0),
    "cold": ("the gas it makes at 4 °C, times the usual", "factor", 0.02, 50.0),
    "growth": ("how fast it multiplies, times the usual", "factor", 0.05, 20.0),
    "lag": ("how long it takes to wake, times the usual", "factor", 0.02, 50.0),
    "film": ("the warmth that passes through a dough's skin, times the usual", "factor", 0.05, 20.0),
    "fridge": ("the fridge where the dough stands", "temperature", -5.0, 20.0),
    "room": ("the room", "temperature", -5.0, 50.0),
    "thermometer": ("the thermometer, true less shown", "difference", -10.0, 10.0),
}
_READ = {
    "factor": (units.parse_number, "a factor", "1.12"),
    "temperature": (units.parse_temperature, "a temperature", "5 °C"),
    "difference": (units.parse_temperature_difference, "a temperature difference", "0.4 °C"),
}


def is_factor(name: str) -> bool:
    """Whether a quantity multiplies what is usual, and so is normal in its logarithm."""
    return QUANTITIES[name][1] == "factor"


def _value(value: Any, info: ValidationInfo) -> Any:
    if info.context is None:
        return value
    name = info.data.get("of")
    if name is None:
        return 1.0
    parse, wanted, example = _READ[QUANTITIES[name][1]]
    try_ = f'Write for example "{example}"'
    if not isinstance(value, str):
        raise refuse("", wanted=wanted, found=value, try_=try_)
    try:
        return parse(value)
    except QuantityError as error:
        said = error.fault.try_
        raise refuse("", wanted=error.fault.wanted or wanted, found=value, try_=said or try_) from error


def _correlation(value: Any, info: ValidationInfo) -> Any:
    if info.context is None:
        return value
    try:
        number = units.parse_quantity(value, units.Kind.NUMBER, signed=True).value
    except (QuantityError, TypeError, AttributeError):
        number = math.inf
    if not -1.0 < number < 1.0:
        wanted = "a number between -1 and 1"
        raise refuse("", wanted=wanted, found=value, try_='Write for example "-0.42"')
    return number


Value = Annotated[float, BeforeValidator(_value)]


@dataclass(frozen=True, config=CONFIG)
class LearntQuantity:
    """``[[learnt.quantity]]``: one thing learnt, in its own unit, with the ends of its 90 % interval.

    ``mixed_with`` names what the readings could not tell it from.
    """

    of: Quantity
    value: Value
    low: Value
    high: Value
    mixed_with: tuple[Quantity, ...] = ()

    @property
    def middle(self) -> float:
        """The value on its scale: a factor's logarithm."""
        return math.log(self.value) if is_factor(self.of) else self.value

    @property
    def spread(self) -> float:
        """One standard deviation on its scale, from the width of the interval."""
        low, high = (math.log(self.low), math.log(self.high)) if is_factor(self.of) else (self.low, self.high)
        return (high - low) / (2.0 * NINETY)


@dataclass(frozen=True, config=CONFIG)
class LearntCorrelation:
    """``[[learnt.correlation]]``: how two of them hang together, -1 to 1."""

    between: tuple[Quantity, Quantity]
    value: Annotated[float, BeforeValidator(_correlation)]


@dataclass(frozen=True, config=CONFIG)
class Learnt:
    """``[learnt]``: from which readings, what, and how the quantities hang together."""

    from_: Texts = Field(default=(), validation_alias="from")
    quantities: tuple[LearntQuantity, ...] = Field(default=(), validation_alias="quantity")
    correlations: tuple[LearntCorrelation, ...] = Field(default=(), validation_alias="correlation")
    notes: Text | None = None

    @property
    def names(self) -> tuple[str, ...]:
        """The quantities learnt, as they stand."""
        return tuple(one.of for one in self.quantities)

    def get(self, name: str) -> LearntQuantity | None:
        """The quantity of this name, if it is learnt."""
        return next((one for one in self.quantities if one.of == name), None)

    def value(self, name: str, default: float) -> float:
        """The value of a quantity in its own unit; ``default`` where it is not learnt."""
        found = self.get(name)
        return default if found is None else found.value

    def correlation(self, first: str, second: str) -> float:
        """The correlation of two quantities; 0 where none is written."""
        if first == second:
            return 1.0
        pairs = (one.value for one in self.correlations if set(one.between) == {first, second})
        return next(pairs, 0.0)

    def covariance(self) -> tuple[tuple[float, ...], ...]:
        """The covariance of all quantities on their scales, in the order of ``names``."""
        every = self.quantities
        return tuple(tuple(self.correlation(a.of, b.of) * a.spread * b.spread for b in every) for a in every)

    def factor(self) -> tuple[tuple[float, ...], ...]:
        """The lower triangle L with L L' = covariance; raises ``ValueError`` where there is none."""
        return triangle(self.covariance())


def triangle(matrix: Sequence[Sequence[float]]) -> tuple[tuple[float, ...], ...]:
    """Cholesky's lower triangle of a small matrix; ``ValueError`` where it is not positive definite."""
    rows: list[list[float]] = []
    for i, given in enumerate(matrix):
        row: list[float] = []
        for j in range(i):
            inner = sum(a * b for a, b in zip(row, rows[j], strict=False))
            row.append((given[j] - inner) / rows[j][j])
        left = given[i] - sum(one * one for one in row)
        if not left > 1e-9 * given[i]:
            raise ValueError("not positive definite")
        rows.append([*row, math.sqrt(left), *[0.0] * (len(matrix) - i - 1)])
    return tuple(tuple(row) for row in rows)


def learnt_faults(learnt: Learnt) -> Iterator[tuple[Where, Fault]]:
    """What is wrong in what is learnt although each value can be read."""
    found = [*_all_quantity_faults(learnt), *_correlation_faults(learnt)]
    yield from found
    if found:
        return
    try:
        learnt.factor()
    except ValueError:
        wanted = "correlations that can hold together"
        fault = Fault("", wanted=wanted, try_="Learn them anew from the readings")
        yield ("learnt", "correlation", 0, "value"), fault


def _all_quantity_faults(learnt: Learnt) -> Iterator[tuple[Where, Fault]]:
    for number, one in enumerate(learnt.quantities):
        where: Where = ("learnt", "quantity", number)
        yield from (((*where, *part), fault) for part, fault in _quantity_faults(one, learnt.names))
        if one.of in learnt.names[:number]:
            yield (*where, "of"), Fault("", wanted="each quantity once", found=f'"{one.of}" twice')


def _quantity_faults(one: LearntQuantity, names: tuple[str, ...]) -> Iterator[tuple[Where, Fault]]:
    _, kind, least, most = QUANTITIES[one.of]
    unit = "" if kind == "factor" else " °C"
    for key in ("value", "low", "high"):
        value = getattr(one, key)
        if not least <= value <= most:
            wanted = f"{least:g} to {most:g}{unit}"
            yield (key,), Fault("", wanted=wanted, found=f"{value:g}{unit}")
            return
    if not one.low < one.value < one.high:
        found = f"{one.low:g}, {one.value:g}, {one.high:g}{unit}"
        yield ("value",), Fault("", wanted="a value between its low and its high", found=found)
    for name in one.mixed_with:
        if name == one.of or name not in names:
            yield ("mixed_with",), Fault("", wanted="another quantity learnt here", found=f'"{name}"')


def _correlation_faults(learnt: Learnt) -> Iterator[tuple[Where, Fault]]:
    pairs: set[frozenset[str]] = set()
    for number, one in enumerate(learnt.correlations):
        where: Where = ("learnt", "correlation", number, "between")
        pair = frozenset(one.between)
        if len(pair) < 2 or not pair <= set(learnt.names):
            found = " and ".join(f'"{name}"' for name in one.between)
            yield where, Fault("", wanted="two quantities learnt here", found=found)
        elif pair in pairs:
            yield where, Fault("", wanted="each pair once", found="it twice")
        pairs.add(pair)
