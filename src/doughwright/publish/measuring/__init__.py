"""What measuring something would buy: the forecast's width now and after each reading, drawn and in words."""

from doughwright.publish.measuring._model import Measure, Measuring
from doughwright.publish.measuring._picture import measuring_svg
from doughwright.publish.measuring._words import buys_words, measuring_finding, next_words, width_words

__all__ = [
    "Measure", "Measuring", "buys_words", "measuring_finding", "measuring_svg", "next_words", "width_words",
]  # fmt: skip
