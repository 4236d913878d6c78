"""Readings over the forecast's band, before and after they were taken in."""

from doughwright.publish.readings._model import Panel, Point, Spread
from doughwright.publish.readings._picture import panel_svg
from doughwright.publish.readings._words import panel_finding

__all__ = ["Panel", "Point", "Spread", "panel_finding", "panel_svg"]
