"""The dough itself: layers filled by temperature, strands after dividing, and its edge in ink."""

from __future__ import annotations

from collections.abc import Sequence

from doughwright.publish.band._frame import Frame
from doughwright.publish.band._model import Band, Course
from doughwright.publish.palette import temperature_colour
from doughwright.publish.svg import Pen, Point, thinned

STEP = 2.0
GAP = 5.0
WHOLE_LAYERS, STRAND_LAYERS = 7, 5


def draw_dough(pen: Pen, frame: Frame, band: Band) -> None:
    """The preferments, the dough up to its judging, and what it would do if left."""
    for part in band.preferments:
        for smooth in _within(part.course, frame, part.course.time[-1]):
            draw_smooth(pen, frame, smooth, strands=1)
    for smooth in _within(band.course, frame, band.judged_at):
        divided = band.divided_at is not None and smooth.time[0] >= band.divided_at - 1e-6
        draw_smooth(pen, frame, smooth, strands=band.strands if divided else 1)
    draw_joins(pen, frame, band)


def _within(course: Course, frame: Frame, end: float) -> list[Course]:
    part = course.between(frame.start, min(frame.end, end))
    return [one for one in part.pieces() if one.time[-1] > one.time[0]] if part else []


def draw_smooth(pen: Pen, frame: Frame, course: Course, *, strands: int) -> None:
    """One smooth part of the course, in so many strands one above another."""
    rows = _sampled(frame, course)
    layers = WHOLE_LAYERS if strands == 1 else STRAND_LAYERS
    fills = [_layer_fill(pen, rows, layer, layers) for layer in range((layers + 1) // 2)]
    # Every side of every layer is straight where the top edge is, so that one is thinned for all.
    kept = {x for x, _ in thinned([(x, rise * frame.unit) for x, _, _, rise in rows])}
    rows = [one for one in rows if one[0] in kept]
    for strand in range(strands):
        low, high = _sides(frame, rows, strand, strands)
        for layer in reversed(range(layers)):
            share = (layer + 1) / layers
            edge = [(x, y + (top - y) * share) for (x, y), (_, top) in zip(low, high, strict=True)]
            pen.area([*_ends(low), *reversed(edge)], fills[min(layer, layers - 1 - layer)])
        pen.lines([low[0], *high, low[-1]], "edge", 1.4)
        if strand:
            pen.lines(low, "edge", 1.0)


def _ends(side: list[Point]) -> list[Point]:
    """The two ends of a side that is level; all of one that is not."""
    return [side[0], side[-1]] if len({y for _, y in side}) == 1 else side


def _sampled(frame: Frame, course: Course) -> list[tuple[float, float, float, float]]:
    """Rows of x, core, edge, rise: one every two pixels, and the ends."""
    span = course.time[-1] - course.time[0]
    count = max(2, int(span / frame.hours_per_pixel / STEP) + 1)
    times = [course.time[0] + span * at / (count - 1) for at in range(count)]
    rows = [(frame.x(time), *found) for time, found in zip(times, course.along(times[:-1]), strict=False)]
    return [*rows, (frame.x(times[-1]), *course.at(times[-1], before=True))]


def _sides(
    frame: Frame, rows: Sequence[tuple[float, ...]], strand: int, strands: int
) -> tuple[list[Point], list[Point]]:
    """The lower and the upper side of a strand; the gap is taken from both neighbours."""
    low, high = [], []
    for x, _, _, rise in rows:
        height = rise * frame.unit / strands
        low.append((x, frame.base - height * strand - (GAP / 2.0 if strand else 0.0)))
        high.append((x, frame.base - height * (strand + 1) + (GAP / 2.0 if strand < strands - 1 else 0.0)))
    return low, high


def layer_temperature(core: float, edge: float, layer: int, layers: int) -> float:
    """The temperature [degC] a layer is drawn in: cold creeps in from both faces."""
    across = abs(2.0 * (layer + 0.5) / layers - 1.0)
    return edge + (core - edge) * (1.0 - float(across**1.6))


def _layer_fill(pen: Pen, rows: Sequence[tuple[float, ...]], layer: int, layers: int) -> str:
    """A gradient along time, a stop wherever the colour moves by 1 degC; one colour where it does not."""
    warmth = [layer_temperature(core, edge, layer, layers) for _, core, edge, _ in rows]
    start, end = rows[0][0], rows[-1][0]
    stops = [(start, warmth[0])]
    for (x, *_), value in zip(rows, warmth, strict=True):
        if abs(value - stops[-1][1]) >= 1.0:
            stops.append((x, value))
    if len(stops) == 1:
        return temperature_colour(round(warmth[0], 1))
    stops.append((end, warmth[-1]))
    width = end - start
    offsets = [((x - start) / width, temperature_colour(round(value, 1))) for x, value in stops]
    return f"url(#{pen.gradient(start, end, offsets)})"


def draw_joins(pen: Pen, frame: Frame, band: Band) -> None:
    """Dots from a preferment's end to the dough's beginning: it is seen to join."""
    begins = band.course.time[0]
    for part in band.preferments:
        ends = part.course.time[-1]
        if frame.shows(ends) and frame.shows(begins) and ends <= begins + 1e-6:
            one = (frame.x(ends), frame.y(part.course.rise[-1]))
            pen.line(one, (frame.x(begins), frame.y(band.course.rise[0])), "edge", 1.2, "1.5 3")


def draw_waiting(pen: Pen, frame: Frame, band: Band) -> tuple[float, float] | None:
    """Dots for the dough left as it is after its judging; gives a place for the words."""
    left = band.course.between(max(band.judged_at, frame.start), frame.end)
    if left is None or not frame.start <= band.course.time[-1]:
        return None
    rows = _sampled(frame, left)
    points = [(x, frame.y(rise)) for x, _, _, rise in rows]
    inside = [(x, y) for x, y in points if y >= frame.roof]
    pen.lines(thinned(inside), "edge", 1.4, "1.5 3.5")
    free = [(x, y) for x, y in inside if y > frame.roof + 12.0]
    wide = bool(free) and frame.right - free[-1][0] > 90.0 and free[-1][0] - free[0][0] > 40.0
    return free[-1] if wide else free[len(free) // 2] if free and free[-1][0] - free[0][0] > 200.0 else None


def draw_before(pen: Pen, frame: Frame, band: Band) -> None:
    """The course before the last change, in accent dashes, with its words."""
    ghost = band.before.between(frame.start, min(frame.end, band.judged_at)) if band.before else None
    if ghost is None:
        return
    points: list[Point] = []
    for smooth in ghost.pieces():
        if smooth.time[-1] > smooth.time[0]:
            points += [(x, frame.y(rise)) for x, _, _, rise in _sampled(frame, smooth)]
    pen.lines(thinned(points), "move", 1.6, "6 3")
