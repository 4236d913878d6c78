"""What moves the air of a fridge and a room: shelf, openings, motor, warm dough, the hour of the day.

What is assumed of them stands in tables here, each with its source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from doughwright.kitchen.model import Fridge, Room
from doughwright.kitchen.types import Assumption, Hours, How, Known

DAY = 86_400.0

_EVANS = "Evans et al. 2014 (UK, 112 fridges; share of the time above 5 °C, top 58, middle 32, bottom 26 %)"
_GODWIN = "Godwin et al. 2007 (USA, 200 fridges; top 1.9, bottom 3.3, door 5.2 °C)"
_BOTH = f"{_EVANS} and {_GODWIN}, each less the mean of its shelves; they disagree on top and bottom"

# A shelf over the mean of the shelves: middle and spread [K]. The two surveys give +1.0, -0.3, -0.7 and
# -0.7, none, +0.7 for top, middle, bottom; the spread is half of what they differ by, at least 0.7.
SHELVES = {
    "top": Assumption(0.2, 0.9, "a top shelf 0.2 °C warmer than the fridge", _BOTH),
    "middle": Assumption(-0.3, 0.7, "a middle shelf 0.3 °C colder than the fridge", _EVANS),
    "bottom": Assumption(0.0, 0.7, "a bottom shelf as cold as the fridge", _BOTH),
    "door": Assumption(2.6, 1.0, "a door 2.6 °C warmer than the fridge", _GODWIN),
}
PLACE = Assumption(0.0, 1.0, "", "science notes, population of kitchens: place in fridge N(0, 1.0)")

# What one opening a day adds to the mean of 24 h [K], and how many the surveys' means already hold.
OPENING = Assumption(0.02, 0.01, "each opening a day warms the fridge by 0.02 °C", "assumed")
USUAL_OPENINGS = Assumption(20.0, 10.0, "20 openings a day", "assumed")

# The motor's cycle [s]; a uniform 30 to 60 min has this spread. A cycle given without a swing has this one.
CYCLE = Assumption(2700.0, 520.0, "a fridge cycle of 45 min", "science notes: 30 to 60 min")
CYCLE_SWING = Assumption(1.0, 0.4, "a fridge that swings by 1 °C", "science notes: cycling plus or minus 1")
DAILY_SWING = Assumption(
    1.5, 0.5, "a room that swings by 1.5 °C over the day", "science notes: plus or minus 1.5"
)

# The heat [W] that 1 kg of dough 20 K warmer than still air gives off at first: a ball of 1.12 g/ml, skin
# times 1.2, a film of 7.5 W/(m2 K).
FIRST_HEAT = 8.07


@dataclass(frozen=True, slots=True)
class FridgeAir:
    """What a fridge does to its own air, beside its mean.

    ``offset`` is the dough's shelf over the fridge's mean, ``opened`` what openings add to the mean [K],
    ``daily`` how far they carry it over a day [K], ``warmest`` when that peaks [s after midnight].
    ``grip`` [W/K] is the heat it takes away per degree that warm dough lifts its air; ``None``: no limit.
    A ``fan`` moves its air.
    """

    offset: Known
    opened: Known
    daily: Known
    warmest: float | None
    cycle: Known
    grip: Known | None = None
    swing: Known | None = None
    shelf: str | None = None
    fan: bool = False


@dataclass(frozen=True, slots=True)
class PlaceAir:
    """The air where a dough stands: ``mean`` [degC], a fast sine and a daily one.

    ``swing`` [K] over ``period`` [h]; ``daily`` [K] with its peak at ``warmest`` [s after midnight], ``None``
    where nobody says when. ``grip`` [W/K] is shared by all the pieces that stand there; ``None``: no limit.
    A ``fan`` moves it.
    """

    mean: float
    swing: float = 0.0
    period: float = CYCLE.middle / 3600.0
    daily: float = 0.0
    warmest: float | None = None
    grip: float | None = None
    fan: bool = False


NOTHING = Known(0.0, "assumed", 0.0)
COLD = FridgeAir(
    offset=Known(PLACE.middle, "assumed", PLACE.spread), opened=NOTHING, daily=NOTHING, warmest=None,
    cycle=Known(CYCLE.middle, "assumed", CYCLE.spread),
)  # fmt: skip
"""A fridge of which the document says no more than its mean."""


def fridge_air(given: Fridge, how: How, *, awake: Hours, said: list[str], learnt: bool = False) -> FridgeAir:
    """A fridge's own air as its document gives it, with ``how`` its mean is known; adds to ``said``.

    A ``learnt`` mean is that of whole days, so it holds what openings add.
    """
    held = given.openings if learnt else USUAL_OPENINGS.middle if how == "assumed" else 0.0
    opened, daily = _openings(given.openings, held or 0.0, awake, said)
    return FridgeAir(
        offset=_offset(given.shelf, how, said),
        opened=opened,
        daily=daily,
        warmest=_middle_of(awake) if given.openings is not None else None,
        cycle=given.cycle or Known(CYCLE.middle, "assumed", CYCLE.spread),
        grip=_grip(given.warms),
        swing=_swing(given, said),
        shelf=given.shelf,
        fan=given.fan,
    )


def room_swing(given: Room, said: list[str]) -> Known | None:
    """The swing of a room: its own, or the usual one where only the hour it is warmest is given."""
    if given.swing is not None or given.warmest is None:
        return given.swing
    said.append(DAILY_SWING.said)
    return Known(DAILY_SWING.middle, "assumed", DAILY_SWING.spread)


def _offset(shelf: str | None, how: How, said: list[str]) -> Known:
    """A measured mean is that of the dough's own place; any other is of the fridge as a whole."""
    if how == "measured":
        return Known(0.0, "measured", 0.0)
    if shelf is None:
        return Known(PLACE.middle, "assumed", PLACE.spread)
    said.append(SHELVES[shelf].said)
    return Known(SHELVES[shelf].middle, "assumed", SHELVES[shelf].spread)


def _openings(count: float | None, held: float, awake: Hours, said: list[str]) -> tuple[Known, Known]:
    """What openings beyond those held add to the mean; the first harmonic of a warmth of the waking day."""
    if count is None:
        return NOTHING, NOTHING
    said.append(f"{count:g} openings a day: {OPENING.said}")
    added = count - held
    share = ((awake.end - awake.start) % DAY or DAY) / DAY
    per_mean = 2.0 * math.sin(math.pi * share) / (math.pi * share)
    opened = Known(OPENING.middle * added, "assumed", OPENING.spread * abs(added))
    daily = Known(OPENING.middle * count * per_mean, "assumed", OPENING.spread * count * per_mean)
    return opened, daily


def _middle_of(awake: Hours) -> float:
    return (awake.start + ((awake.end - awake.start) % DAY) / 2.0) % DAY


def _swing(given: Fridge, said: list[str]) -> Known | None:
    if given.swing is not None or given.cycle is None:
        return given.swing
    said.append(CYCLE_SWING.said)
    return Known(CYCLE_SWING.middle, "assumed", CYCLE_SWING.spread)


def _grip(warms: Known | None) -> Known | None:
    """The heat taken away for each degree, from how far 1 kg of dough 20 K warmer lifts the air."""
    if warms is None:
        return None
    grip = FIRST_HEAT / warms.value
    return Known(grip, warms.how, grip * warms.spread / warms.value if warms.spread is not None else None)
