"""How an oven is set for a step: its dial in this kitchen, what that truly is, its fan and its broiler."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.errors import Fault, NoAnswerError
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import Step

HOTTEST, COLDEST = 500.0, 60.0
"""Dials the oven's model is asked for [degC]."""


@dataclass(frozen=True, slots=True)
class Heating:
    """An oven as it is set: ``dial`` [degC] as it is turned in this kitchen, ``fan`` and ``broil``."""

    dial: float
    fan: bool = False
    broil: bool = False


def heating_of(step: Step, before: Sequence[Step], kitchen: Surroundings, said: list[str]) -> Heating:
    """The oven at a step: its own dial, else that of the oven step before it, held to what the oven can do.

    Raises ``NoAnswerError`` where no step says how hot.
    """
    dial = _dial(step, before)
    if kitchen.hottest is not None and dial > kitchen.hottest.value:
        said.append(
            f"this oven goes to {kitchen.hottest.value:.0f} °C: its dial stands there, not at {dial:.0f} °C"
        )
        dial = kitchen.hottest.value
    if not COLDEST <= dial <= HOTTEST:
        raise NoAnswerError(
            Fault(
                f"an oven at {dial:g} °C is not modelled",
                wanted=f"{COLDEST:g} to {HOTTEST:g} °C",
                try_="Write what the dial says",
            )
        )
    return Heating(dial, _fan(step, kitchen, said), step.heat == "broil")


def _dial(step: Step, before: Sequence[Step]) -> float:
    for one in (step, *reversed(before)):
        if one.in_oven and one.at is not None and one.at.degrees is not None:
            return one.at.degrees
    raise NoAnswerError(
        Fault(f'a step "{step.do}" says no temperature, and none before it does', try_='Write at = "250 °C"')
    )


def _fan(step: Step, kitchen: Surroundings, said: list[str]) -> bool:
    if step.heat == "bottom":
        said.append("heat from below alone is not modelled: it is run as top and bottom heat")
    if step.heat == "broil":
        said.append("the broiler is taken to be 10 to 15 cm above the food, and the oven at its dial")
    if step.heat == "fan" and kitchen.fan is False:
        said.append("this oven has no fan: it is run as top and bottom heat at the same dial")
        return False
    if step.heat == "fan" and kitchen.fan is None:
        said.append("this oven has a fan, since the recipe asks for one")
    return step.heat == "fan"
