"""The swelling band: a dough's days as a picture, a table and a few lines of text."""

from doughwright.publish.band._model import Band, Course, Mark, Part, Stay
from doughwright.publish.band._of import all_events, band_of, ripe_span, run_clock
from doughwright.publish.band._picture import band_svg
from doughwright.publish.band._rows import HEADINGS, BandRow, band_table, band_text
from doughwright.publish.band._words import description, finding, ripe_sentence

__all__ = [
    "HEADINGS", "Band", "BandRow", "Course", "Mark", "Part", "Stay", "all_events", "band_of", "band_svg",
    "band_table", "band_text", "description", "finding", "ripe_sentence", "ripe_span", "run_clock",
]  # fmt: skip
