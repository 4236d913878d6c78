"""A crust's colour as a swatch in three parts: its light end, as forecast, its dark end."""

from __future__ import annotations

from doughwright.forecast.bake.results import Colour
from doughwright.publish.svg import Pen

END = 0.22
"""The share of the width that each end takes."""


def swatch_svg(
    colour: Colour, *, width: float, height: float, prefix: str = "swatch", for_paper: bool = False
) -> str:
    """The swatch, edged in ink; the words and figures stand beside it."""
    pen = Pen(prefix, for_paper=for_paper)
    parts = [(0.0, 1.0, colour.srgb)]
    if colour.low != colour.high:
        parts = [
            (0.0, END, colour.srgb_high),
            (END, 1.0 - END, colour.srgb),
            (1.0 - END, 1.0, colour.srgb_low),
        ]
    for left, right, fill in parts:
        x, far = left * width, right * width
        pen.area([(x, 0.0), (far, 0.0), (far, height), (x, height)], fill)
    pen.box((0.5, 0.5), (width - 1.0, height - 1.0), "edge", ' stroke-width="1"')
    return pen.ornament(width, height)
