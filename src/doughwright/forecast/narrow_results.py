"""What measuring would buy, as it is shown and printed."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.figures import Figure


@dataclass(frozen=True, slots=True)
class Narrowing:
    """What one measurement would buy: the width of the rise's interval after it, on the mean.

    ``reduction`` [percent of the width now] has the interval of its own sampling; ``minutes`` is assumed.
    """

    what: str
    how: str
    width: Figure
    reduction: Figure
    minutes: Figure


@dataclass(frozen=True, slots=True)
class NotMeasured:
    """A measurement that was not tried, and why."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Narrow:
    """The rise of a dough when it is judged, and what each measurement alone would narrow it by.

    ``rise`` is the middle with its 90 % interval now, ``width`` that of the interval; ``measures`` are in
    order, what narrows most first.
    """

    dough: str
    judged: str
    rise: Figure
    width: Figure
    measures: tuple[Narrowing, ...]
    not_measured: tuple[NotMeasured, ...]
    draws: int
    said: tuple[str, ...]
