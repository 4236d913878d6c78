"""What readings over a band show, in words."""

from __future__ import annotations

from doughwright.publish.readings._model import Panel, Spread
from doughwright.publish.render import counted, number


def panel_finding(panel: Panel) -> str:
    """How many readings lie within the band, before and after; and which do not fit."""
    kept = [one for one in panel.points if not one.odd]
    odd = len(panel.points) - len(kept)
    said = [f"{counted(len(kept), 'reading')} of {panel.what}"]
    for spread, words in ((panel.before, "before"), (panel.after, "after")):
        if spread is not None:
            said.append(f"{_inside(panel, spread)} within the band {words}")
    left = f" {counted(odd, 'reading')} {'does' if odd == 1 else 'do'} not fit the others." if odd else ""
    narrower = _narrower(panel)
    return f"{': '.join([said[0], ', '.join(said[1:])]) if len(said) > 1 else said[0]}.{narrower}{left}"


def _inside(panel: Panel, spread: Spread) -> int:
    found = 0
    for one in panel.points:
        low, _, high = spread.at(one.time)
        found += not one.odd and low <= one.value <= high
    return found


def _narrower(panel: Panel) -> str:
    if panel.before is None or panel.after is None or not panel.points:
        return ""
    end = panel.points[-1].time
    widths = [high - low for low, _, high in (panel.before.at(end), panel.after.at(end))]
    before, after = (number(width / 2.0, 1 if panel.unit == "°C" else 2) for width in widths)
    return f" At the last of them the forecast is known to ± {after}, before to ± {before}."
