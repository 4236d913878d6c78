"""The scale of temperatures under the section."""

from __future__ import annotations

from doughwright.publish.palette import SCALE, temperature_colour
from doughwright.publish.section._place import Place
from doughwright.publish.svg import Pen

WIDTH, HEIGHT = 220.0, 11.0
HOTTEST = 300.0
SHOWN = (0, 40, 100, 150, 200, 250, 300)


def draw_key(pen: Pen, place: Place) -> None:
    """One bar from cold to hot, with figures."""
    left, top = place.left, place.foot + place.under + 34.0
    stops = [(degrees / HOTTEST, temperature_colour(degrees)) for degrees, _ in SCALE if degrees <= HOTTEST]
    name = pen.gradient(left, left + WIDTH, stops)
    corners = [(left, top), (left + WIDTH, top), (left + WIDTH, top + HEIGHT), (left, top + HEIGHT)]
    pen.area(corners, f"url(#{name})")
    pen.box((left, top), (WIDTH, HEIGHT), "edge", ' stroke-width="1"')
    for degrees in SHOWN:
        pen.text((left + WIDTH * degrees / HOTTEST, top + HEIGHT + 14.0), str(degrees), "soft", "middle")
    pen.text((left + WIDTH + 16.0, top + HEIGHT + 14.0), "°C", "soft")
