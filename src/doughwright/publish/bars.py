"""A share as a bar with its error, beside the figure itself."""

from __future__ import annotations

from doughwright.publish.svg import Pen

WIDE, HIGH = 72.0, 12.0
BAR = 8.0


def bar_svg(
    share: float, error: float = 0.0, *, full: float = 100.0, width: float = WIDE, for_paper: bool = False
) -> str:
    """A share [%] as a bar, ``full`` [%] being the whole width; ``error`` [%] on both sides as a whisker."""
    pen = Pen("bar", for_paper=for_paper)
    scale = (width - 6.0) / full if full > 0.0 else 0.0
    end = max(min(share, full) * scale, 0.0)
    middle = HIGH / 2.0
    pen.box((0.0, middle - BAR / 2.0), (max(end, 1.5), BAR), "ink")
    reach = error * scale
    if reach >= 1.0:
        outer, inner = min(end + reach, width - 1.0), max(end - reach, 0.0)
        pen.line((end, middle), (outer, middle), "edge", 1.2)
        pen.line((outer, middle - 3.5), (outer, middle + 3.5), "edge", 1.2)
        if end - inner >= 1.0:
            pen.line((inner, middle), (end, middle), "inverse", 1.2)
            pen.line((inner, middle - 2.5), (inner, middle + 2.5), "inverse", 1.2)
    return pen.ornament(width, HIGH)
