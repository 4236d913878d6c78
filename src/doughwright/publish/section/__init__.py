"""The section of a piece in the oven, its crust as swatches, and both in words and as tables."""

from doughwright.publish.section._model import Cut, cut_of
from doughwright.publish.section._picture import section_svg
from doughwright.publish.section._swatch import swatch_svg
from doughwright.publish.section._table import HEADINGS, section_table
from doughwright.publish.section._words import cell, finding, margin, preheat_sentence, seconds_words

__all__ = [
    "HEADINGS", "Cut", "cell", "cut_of", "finding", "margin", "preheat_sentence", "seconds_words",
    "section_svg", "section_table", "swatch_svg",
]  # fmt: skip
