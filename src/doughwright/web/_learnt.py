"""What readings have taught of a kitchen: each quantity with its interval and what it is mixed with."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.kitchen.learnt import QUANTITIES, Learnt, LearntQuantity
from doughwright.publish.render import HELD, capital, listed, number, temperature

NAMES = {
    "yeast": "strength of the yeast",
    "cold": "the yeast in the cold",
    "growth": "how fast the yeast multiplies",
    "lag": "how long the yeast takes to wake",
    "film": "how fast the dough cools",
    "fridge": "the fridge",
    "room": "the room",
    "thermometer": "the thermometer",
}
"""What each learnt quantity is called in a sentence."""


@dataclass(frozen=True, slots=True)
class LearntRow:
    """A quantity: its name, what it means, its value, nine times in ten, and what it cannot be told from."""

    name: str
    means: str
    value: str
    doubt: str
    note: str


@dataclass(frozen=True, slots=True)
class LearntPart:
    """What was learnt, and which readings it came from."""

    rows: tuple[LearntRow, ...]
    readings: str


def learnt_part(learnt: Learnt | None) -> LearntPart | None:
    """The rows of what was learnt; ``None`` where nothing was."""
    if learnt is None or not learnt.quantities:
        return None
    return LearntPart(tuple(_row(one) for one in learnt.quantities), listed(learnt.from_))


def _row(one: LearntQuantity) -> LearntRow:
    return LearntRow(
        name=capital(NAMES[one.of]),
        means=QUANTITIES[one.of][0],
        value=value_words(one.of, one.value),
        doubt=f"{value_words(one.of, one.low)} to {value_words(one.of, one.high)}",
        note=mixed_words(one.mixed_with),
    )


def value_words(of: str, value: float) -> str:
    """A learnt value: "1.12 times", "5.2 °C"."""
    if QUANTITIES[of][1] == "factor":
        return f"{number(value, 2)}{HELD}times"
    return temperature(value, decimals=1)


def mixed_words(names: tuple[str, ...]) -> str:
    """That a quantity is learnt only together with others; empty where it stands alone."""
    if not names:
        return ""
    return f"Only together with {listed(NAMES[name] for name in names)}: the readings cannot tell them apart"
