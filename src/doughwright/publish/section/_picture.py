"""The section as one SVG: what a piece lies on, its dough and toppings, by height and minute."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.publish.palette import temperature_colour
from doughwright.publish.render import HELD, number
from doughwright.publish.section._key import draw_key
from doughwright.publish.section._labels import draw_layers, draw_phases, draw_set, draw_surface
from doughwright.publish.section._model import Cut, Phase, smoothed
from doughwright.publish.section._place import Place, place_of
from doughwright.publish.section._words import finding
from doughwright.publish.svg import Pen, Point, thinned

WIDE, NARROW = 932.0, 350.0
# A layer's temperature may be drawn this far [K] from what it is.
NEAR = 1.0
STEPS = (1, 2, 5, 10, 20, 30, 60)
HEIGHTS = (5, 10, 20, 50)
"""Minutes and millimetres between two figures of the axes."""


def section_svg(cut: Cut, *, width: float = WIDE, prefix: str = "section", for_paper: bool = False) -> str:
    """The picture at a width [px]: 932 on a page, 350 on a phone, any other on paper."""
    pen = Pen(prefix, for_paper=for_paper)
    place = place_of(cut, width)
    for phase in cut.phases:
        _draw_ground(pen, place, phase)
    _draw_surface_body(pen, place, cut)
    for phase in cut.phases:
        _draw_food(pen, place, phase)
    pen.box((place.left, place.face), (place.right - place.left, place.foot - place.face), "edge")
    for phase in cut.phases:
        _draw_boiling(pen, place, phase)
    draw_phases(pen, place, cut)
    draw_set(pen, place, cut)
    draw_surface(pen, place, cut)
    draw_layers(pen, place, cut)
    _draw_axes(pen, place, cut)
    draw_key(pen, place)
    title = f"Piece {cut.piece.number} in the oven, cut through"
    return pen.picture(width, place.height, title, finding(cut.bake))


def _draw_ground(pen: Pen, place: Place, phase: Phase) -> None:
    left, right = place.x(phase.start), place.x(phase.end)
    if phase.in_oven:
        pen.box((left, place.roof), (right - left, place.face - place.roof), "oven")


def _draw_surface_body(pen: Pen, place: Place, cut: Cut) -> None:
    """The cells of what it lies on, the uppermost first, each down to the foot."""
    moments = [one for phase in cut.phases for one in phase.moments]
    count = len(moments[0].surface)
    for cell in reversed(range(count)):
        top = place.foot - (cell + 1) / count * (place.foot - place.face)
        edge = [(place.left, top), (place.right, top)]
        _fill(pen, place, _Layer(edge, place.foot, [(one.time, one.surface[cell]) for one in moments]))


def _draw_food(pen: Pen, place: Place, phase: Phase) -> None:
    """The cells of dough and toppings, the uppermost first, each down to the foot; then their edges."""
    foot = place.y(0.0, lifted=phase.lifted)
    for cell in reversed(range(len(phase.moments[0].food))):
        edge = _edge(place, phase, cell + 1)
        _fill(pen, place, _Layer(edge, foot, [(one.time, one.food[cell]) for one in phase.moments]))
    tops = {phase.moments[0].dough, len(phase.moments[0].food)}
    for face in sorted(tops):
        pen.lines(_edge(place, phase, face), "edge")
    for moment in (phase.moments[0], phase.moments[-1]):
        x = place.x(moment.time)
        pen.line((x, foot), (x, place.y(moment.top, lifted=phase.lifted)), "edge")
    pen.line((place.x(phase.start), foot), (place.x(phase.end), foot), "edge", 1.4)


def _edge(place: Place, phase: Phase, face: int) -> list[Point]:
    return thinned(
        [(place.x(one.time), place.y(one.faces[face], lifted=phase.lifted)) for one in phase.moments]
    )


@dataclass(frozen=True, slots=True)
class _Layer:
    """One polygon: its upper edge, its foot, and its temperature over time."""

    edge: list[Point]
    foot: float
    degrees: list[tuple[float, float]]


def _fill(pen: Pen, place: Place, layer: _Layer) -> None:
    (start, _), (end, _) = layer.degrees[0], layer.degrees[-1]
    kept = thinned(layer.degrees, NEAR)
    colours = [temperature_colour(round(degrees, 1)) for _, degrees in kept]
    fill = colours[0]
    if len(set(colours)) > 1 and end > start:
        stops = [((t - start) / (end - start), one) for (t, _), one in zip(kept, colours, strict=True)]
        fill = f"url(#{pen.gradient(place.x(start), place.x(end), stops)})"
    right, left = layer.edge[-1][0], layer.edge[0][0]
    pen.area([*layer.edge, (right, layer.foot), (left, layer.foot)], fill)


def _draw_boiling(pen: Pen, place: Place, phase: Phase) -> None:
    """How far in water has boiled, from below and from above, while it is in the oven."""
    if not phase.in_oven:
        return
    moments = phase.moments
    below = smoothed(moments, [one.from_base for one in moments])
    above = smoothed(moments, [one.from_top for one in moments])
    for depths, from_top in ((below, False), (above, True)):
        line = [
            (place.x(one.time), place.y(one.top - depth if from_top else depth, lifted=False))
            for one, depth, low, high in zip(moments, depths, below, above, strict=True)
            if depth > 0.05 and low + high < one.top
        ]
        pen.lines(line, "seam", 5.0)
        pen.lines(line, "seam-core", 2.4)


def _draw_axes(pen: Pen, place: Place, cut: Cut) -> None:
    """Minutes under it, millimetres above the surface beside it."""
    step = next((one for one in STEPS if cut.end / one <= place.most_ticks), STEPS[-1])
    y = place.foot + place.under
    pen.line((place.left, y), (place.right, y), "line")
    for minute in range(0, int(cut.end + 1e-6) + 1, step):
        pen.line((place.x(minute), y), (place.x(minute), y + 5.0), "line")
        if minute or not place.narrow:
            pen.text((place.x(minute), y + 18.0), number(minute), "soft", "middle")
    if place.narrow:
        pen.text((place.left - 4.0, y + 18.0), f"0{HELD}min", "soft")
    else:
        pen.text((place.right + 10.0, y + 18.0), "min", "soft")
    every = next((one for one in HEIGHTS if one * place.scale >= 22.0), HEIGHTS[-1])
    for height in range(0, int(cut.tallest) + every, every):
        level = place.y(float(height), lifted=False)
        if level < place.roof + 12.0:
            break
        pen.line((place.left - 5.0, level), (place.left, level), "line")
        pen.text((place.left - 8.0, level + 4.0), number(height), "soft", "end")
    pen.text((place.left - 8.0, place.roof + 4.0), "mm", "soft", "end")
