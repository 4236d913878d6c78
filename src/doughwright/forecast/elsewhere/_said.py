"""What is taken to be so of the kitchens a recipe is run in."""

from __future__ import annotations

from doughwright.forecast.elsewhere._kitchens import Kitchens
from doughwright.kitchen.assumed import FRIDGE, ROOM
from doughwright.kitchen.inputs import AIMED, COARSE, SUMMER, YEAST


def said(kitchens: Kitchens) -> tuple[str, ...]:
    """The population in a few clauses, and how the dough's temperature comes about."""
    readers = kitchens.readers
    room = ROOM.middle + (SUMMER.middle if readers.season == "summer" else 0.0)
    dough = "each dough as warm as its room, flour and water make it"
    if readers.aim:
        dough = f"each dough aimed for {kitchens.wanted:.3g} °C and missed by {AIMED.spread:g} °C"
    places = f"fridges {FRIDGE.middle:g} ± {FRIDGE.spread:g} °C and rooms {room:g} ± {ROOM.spread:g} °C"
    named = [
        f"{name} as in the recipe's own kitchen"
        for name in kitchens.places.places
        if any(step.at is not None and step.at.name == name for step in kitchens.recipe.steps)
    ]
    return (
        *named,
        f"{places} (one standard deviation)",
        dough,
        COARSE.said,
        YEAST.said,
        "what is not known of yeast and dough differs too, as far as each figure of the model is in doubt",
    )
