"""The card: a recipe on one or two sides of A5, from its results to the bytes of a PDF."""

from doughwright.publish.card._data import Stamp, card_data, plan_clock
from doughwright.publish.card._measures import in_measures
from doughwright.publish.card._pdf import CardCaution, CardData, card, template
from doughwright.publish.card._recipe import recipe_card

__all__ = [
    "CardCaution", "CardData", "Stamp", "card", "card_data", "in_measures", "plan_clock", "recipe_card",
    "template",
]  # fmt: skip
