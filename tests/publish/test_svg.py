"""A drawn line keeps its shape with fewer points."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.publish.svg import Point, thinned

WITHIN = 0.06
heights = st.lists(st.floats(-5.0, 5.0), min_size=3, max_size=40)


def farthest(points: list[Point], kept: list[Point]) -> float:
    """How far a point lies above or below the line through the points kept."""
    worst = 0.0
    for x, y in points:
        spans = [(a, b) for a, b in pairwise(kept) if a[0] <= x <= b[0]]
        worst = max(worst, min(abs(y - height(a, b, x, y)) for a, b in spans))
    return worst


def height(a: Point, b: Point, x: float, y: float) -> float:
    """The height of the line from a to b at x; on an upright one, its point nearest to y."""
    if a[0] == b[0]:
        return min(max(y, min(a[1], b[1])), max(a[1], b[1]))
    return a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])


@pytest.mark.property
@given(heights=heights, step=st.sampled_from([0.25, 1.0, 7.0]))
def test_no_point_lies_off_the_thinned_line(heights: list[float], step: float) -> None:
    """Every point left out lies within the tolerance of the line that is drawn."""
    points = [(step * number, y) for number, y in enumerate(heights)]
    assert farthest(points, thinned(points, WITHIN)) <= WITHIN + 1e-9


def test_a_straight_line_keeps_its_ends() -> None:
    """Only where it begins and where it ends."""
    assert thinned([(float(x), 2.0 * x) for x in range(50)]) == [(0.0, 0.0), (49.0, 98.0)]


def test_a_jump_upright_is_kept() -> None:
    """A dough that is worked falls at once: both points of the fall stay."""
    points = [(0.0, 1.0), (1.0, 1.0), (2.0, 1.0), (2.0, 5.0), (3.0, 5.0), (4.0, 5.0)]
    assert thinned(points) == [(0.0, 1.0), (2.0, 1.0), (2.0, 5.0), (4.0, 5.0)]


def test_a_curve_keeps_few() -> None:
    """A thousand points of a wave need some dozens."""
    points = [(x / 10.0, 40.0 * math.sin(x / 100.0)) for x in range(1000)]
    assert len(thinned(points)) < 120
