"""A plain picture of measured costs: lines and dots on two logarithmic scales, as SVG."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from math import ceil, floor, log10

WIDTH, HEIGHT = 670.0, 400.0
LEFT, RIGHT, TOP, BOTTOM = 70.0, 50.0, 40.0, 50.0
COLOURS = (
    "svg { color: #1c1a17; background: #fff } "
    "@media (prefers-color-scheme: dark) { svg { color: #eee; background: #1c1a17 } }"
)
STYLE = "font: 13px system-ui, sans-serif; fill: currentColor"


@dataclass(frozen=True)
class Line:
    """Points of one line, and its name; ``dots`` where they were measured."""

    name: str
    points: Mapping[int, float]
    dots: bool


@dataclass(frozen=True)
class Scale:
    """A logarithmic scale from one power of ten to another, over pixels."""

    low: int
    high: int
    start: float
    end: float

    def at(self, value: float) -> float:
        return self.start + (log10(value) - self.low) / (self.high - self.low) * (self.end - self.start)

    @property
    def ticks(self) -> range:
        return range(self.low, self.high + 1)


def scale(values: list[float], start: float, end: float) -> Scale:
    """A scale that holds all values."""
    return Scale(floor(log10(min(values))), ceil(log10(max(values))), start, end)


def plot(title: str, across: str, up: str, lines: list[Line]) -> str:
    """The picture, readable in light and in dark: it has no colours but the page's own."""
    x = scale([float(one) for line in lines for one in line.points], LEFT, WIDTH - RIGHT)
    y = scale([one for line in lines for one in line.points.values()], HEIGHT - BOTTOM, TOP)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" role="img">',
        f"<title>{escape(title)}</title>",
        f"<style>{COLOURS}</style>",
        f'<text x="{LEFT:g}" y="22" style="{STYLE}">{escape(title)}</text>',
        *(rule(x.at(10.0**k), y.start, x.at(10.0**k), y.end) for k in x.ticks),
        *(rule(x.start, y.at(10.0**k), x.end, y.at(10.0**k)) for k in y.ticks),
        *(text(x.at(10.0**k), y.start + 20.0, f"{10**k:,}", "middle") for k in x.ticks),
        *(text(x.start - 8.0, y.at(10.0**k) + 4.0, f"{10.0**k:g}", "end") for k in y.ticks),
        text(x.end, y.start + 38.0, across, "end"),
        text(x.start - 8.0, y.end - 14.0, up, "end"),
    ]
    for line in lines:
        places = [(x.at(float(count)), y.at(value)) for count, value in line.points.items()]
        path = " ".join(f"{a:.1f},{b:.1f}" for a, b in places)
        dash = "" if line.dots else ' stroke-dasharray="2 5"'
        parts.append(
            f'<polyline points="{path}" fill="none" stroke="currentColor" stroke-width="1.5"{dash}/>'
        )
        if line.dots:
            parts += [f'<circle cx="{a:.1f}" cy="{b:.1f}" r="4" fill="currentColor"/>' for a, b in places]
    for number, line in enumerate(lines):
        mark = "●–" if line.dots else "·····"
        parts.append(text(x.start + 16.0, y.end + 24.0 + 20.0 * number, f"{mark} {line.name}", "start"))
    return "\n".join([*parts, "</svg>", ""])


def rule(x1: float, y1: float, x2: float, y2: float) -> str:
    """A thin line of the grid."""
    ends = f'x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}"'
    return f'<line {ends} stroke="currentColor" stroke-opacity="0.2"/>'


def text(x: float, y: float, words: str, anchor: str) -> str:
    """Words at a place."""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" style="{STYLE}">{escape(words)}</text>'
