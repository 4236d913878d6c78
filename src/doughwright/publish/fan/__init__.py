"""The fan: a recipe's days in many kitchens, where each hundredth of them lands, and both in words."""

from doughwright.publish.fan._marks import marks_svg
from doughwright.publish.fan._model import LEVELS, Fan, Landing, counts, hundredths
from doughwright.publish.fan._of import fan_of
from doughwright.publish.fan._picture import fan_svg
from doughwright.publish.fan._words import (
    HEADINGS,
    fan_finding,
    fan_table,
    marks_finding,
    marks_words,
    share_finding,
    state_counts,
)

__all__ = [
    "HEADINGS", "LEVELS", "Fan", "Landing", "counts", "fan_finding", "fan_of", "fan_svg", "fan_table",
    "hundredths", "marks_finding", "marks_svg", "marks_words", "share_finding", "state_counts",
]  # fmt: skip
