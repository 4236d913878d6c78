"""Where a dough stands: the air of a place, and what a container does to heat and shape."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.forecast._wait import Air
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.types import At
from doughwright.science.kernels.layout import HOURS_A_DAY
from doughwright.science.parameters import Parameters

Film = Literal["film_still", "film_lidded"]


@dataclass(frozen=True, slots=True)
class ContainerRow:
    """What standing ``in`` something means: which film, whether it shapes the dough, and the source."""

    name: str
    film: Film
    shapes: bool
    source: str


_STILL = "Laguerre et al. 2007, 2010: still air, convection and radiation"
_LID = "a series air gap under a lid, 3 to 5 W/(m2 K): from memory"

CONTAINERS = {
    row.name: row
    for row in (
        ContainerRow("open", "film_still", False, _STILL + "; a skin that dries loses more heat: left out"),
        ContainerRow("bowl", "film_still", False, _STILL + "; the bowl's own heat is left out (assumed)"),
        ContainerRow("covered bowl", "film_lidded", False, _LID),
        ContainerRow("lidded tub", "film_lidded", False, _LID),
        ContainerRow("box", "film_lidded", False, _LID),
        ContainerRow("bag", "film_still", False, "a bag that touches the dough changes almost nothing"),
        ContainerRow("tray", "film_still", False, _STILL + "; the tray's own heat is left out (assumed)"),
        ContainerRow("tin", "film_still", True, _STILL + "; the tin's own heat is left out (assumed)"),
        ContainerRow("cloth", "film_still", False, "a cloth that touches the dough: as a bag (assumed)"),
    )
}
"""Every container a step may name."""

COLDEST = -2.0
"""Below this [degC] dough freezes, which is not modelled."""


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """Where a dough stands: the place by name, its container, and the air there."""

    place: str
    container: str
    air: Air


def whereabouts(
    kitchen: Surroundings, at: At | None, container: str, parameters: Parameters, clock: float = 0.0
) -> Whereabouts:
    """The place that a step names, or the room, as this kitchen has it.

    ``clock`` is the hour of the day at which the dough's own time begins.
    """
    film = getattr(parameters, CONTAINERS[container].film)
    if at is not None and at.degrees is not None:
        return Whereabouts(at.text, container, Air(at.degrees, film))
    name = at.text if at is not None else "room"
    place = kitchen.air(name)
    if place.fan and CONTAINERS[container].film == "film_still":
        film = parameters.film_fan
    # Where nobody says when it is warmest, its sine begins with the dough.
    warmest = HOURS_A_DAY / 4.0 if place.warmest is None else place.warmest / 3600.0 - clock
    air = Air(
        mean=place.mean,
        film=film,
        swing=place.swing,
        period=place.period,
        daily=place.daily,
        warmest=warmest,
        grip=place.grip,
    )
    return Whereabouts(name, container, air)


def air_faults(place: Whereabouts, step: int, verb: str) -> list[str]:
    """Warnings for air in which the model does not hold; raises where no dough could stand in it."""
    mean = float(np.max(place.air.mean))
    if mean > 60.0:
        raise OutOfRangeError(
            Fault(
                f'step {step + 1} "{verb}"',
                wanted="a place up to 60 °C for a dough to wait in",
                found=f"{mean:g} °C",
                try_="Bake in a bake step",
            )
        )
    coldest = float(np.min(place.air.mean - np.abs(place.air.swing) - np.abs(place.air.daily)))
    if coldest < COLDEST:
        return [
            f"step {step + 1} ({verb}) is at {coldest:g} °C: below -2 °C dough freezes, which is not modelled"
        ]
    if mean > 43.0:
        return [f"step {step + 1} ({verb}) is at {mean:g} °C: yeast slows above 40 °C and dies above 52 °C"]
    return []
