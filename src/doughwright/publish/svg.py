"""Drawing: SVG from small parts, with classes on screen and light colours on paper.

One table says what each role is painted with; the style sheet for the screen and the attributes for paper
both come from it. No style attributes: a strict content policy forbids them.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from itertools import pairwise
from math import inf

from doughwright.publish.palette import DARK_WORD, LIGHT, LIGHT_WORD

Point = tuple[float, float]

ROLES: dict[str, dict[str, str]] = {
    "edge": {"stroke": "ink", "fill": "none"},
    "line": {"stroke": "line", "fill": "none"},
    "rule": {"stroke": "rule", "fill": "none"},
    "move": {"stroke": "accent", "fill": "none"},
    "ink": {"fill": "ink"},
    "fridge": {"fill": "fridge"},
    "oven": {"fill": "oven"},
    "paper": {"fill": "paper"},
    "wash": {"fill": "wash", "stroke": "rule"},
    "below": {"fill": "wash"},
    "dashed": {"fill": "none", "stroke": "ink"},
    "inverse": {"stroke": "paper", "fill": "none"},
    "fan-outer": {"fill": "fan-outer"},
    "fan-inner": {"fill": "fan-inner"},
    "cook": {"fill": "ink"},
    "lane": {"fill": "line"},
    "hollow": {"fill": "paper", "stroke": "line"},
    "over": {"fill": "paper", "font-weight": "600"},
    "word": {"fill": "ink"},
    "soft": {"fill": "soft"},
    "strong": {"fill": "ink", "font-weight": "600"},
    "moved": {"fill": "accent", "font-weight": "600"},
    "clear": {"fill": "ink", "stroke": "paper", "stroke-width": "4", "paint-order": "stroke"},
    "halo": {"fill": "paper", "stroke": "paper", "stroke-width": "4"},
    "on-pale": {"fill": DARK_WORD},
    "on-dark": {"fill": LIGHT_WORD},
    "seam": {"stroke": DARK_WORD, "fill": "none"},
    "seam-core": {"stroke": "#fffaf0", "fill": "none"},
}
"""What each role is painted with: a name of the palette, or a colour that both schemes share."""

_PAPER = {**LIGHT, "paper": "#ffffff", "none": "none"}
_FACE = "Libertinus Serif"
SIZE = 12.5


def picture_css() -> str:
    """The style sheet for every picture, in terms of the page's custom properties (--ink, --soft, ...)."""
    rules = [
        ".pic{display:block;max-width:100%;height:auto;overflow:visible}",
        f".pic text{{font-size:{SIZE}px;fill:var(--ink);font-variant-numeric:tabular-nums lining-nums}}",
        ".pic .mid{text-anchor:middle}",
        ".pic .end{text-anchor:end}",
    ]
    for role, paint in ROLES.items():
        inside = ";".join(f"{name}:{_screen(value)}" for name, value in paint.items())
        rules.append(f".pic .pic-{role}{{{inside}}}")
    return "\n".join(rules) + "\n"


def text_width(words: str, *, bold: bool = False) -> float:
    """About how wide words stand [px]: for keeping them apart, so on the wide side."""
    narrow, wide = "iljtf.,:;'|!() \u00a0", "mwMWQ%@"
    per = sum(3.9 if one in narrow else 10.5 if one in wide else 7.0 for one in words)
    return per * (1.07 if bold else 1.0)


class Pen:
    """Collects the parts of one picture; ids start with ``prefix`` so that a page may hold many pictures."""

    def __init__(self, prefix: str, *, for_paper: bool = False) -> None:
        self.prefix = prefix
        self.for_paper = for_paper
        self.parts: list[str] = []
        self._count = 0

    def new_id(self, word: str) -> str:
        """An id that no other part of this picture has."""
        self._count += 1
        return f"{self.prefix}-{word}{self._count}"

    def paint(self, role: str) -> str:
        """The attributes of a role."""
        if not self.for_paper:
            return f' class="pic-{role}"'
        inside = ROLES[role].items()
        return "".join(f' {name}="{_PAPER.get(value, value)}"' for name, value in inside)

    def line(self, one: Point, other: Point, role: str, width: float = 1.0, dash: str = "") -> None:
        """A straight line."""
        where = f'x1="{_at(one[0])}" y1="{_at(one[1])}" x2="{_at(other[0])}" y2="{_at(other[1])}"'
        self.parts.append(f"<line {where}{self.paint(role)}{_stroke(width, dash)}/>")

    def lines(self, points: Sequence[Point], role: str, width: float = 1.4, dash: str = "") -> None:
        """A line through points."""
        if len(points) > 1:
            self.parts.append(
                f'<polyline points="{_points(points)}"{self.paint(role)}{_stroke(width, dash)}'
                ' stroke-linejoin="round"/>'
            )

    def bars(self, start: float, end: float, low: float, high: float, apart: float = 4.0) -> None:
        """Upright bars side by side, as one path."""
        count = int((end - start) / apart) + 1
        path = "".join(f"M{_at(start + apart * n)} {_at(low)}V{_at(high)}" for n in range(count))
        self.parts.append(f'<path d="{path}"{self.paint("edge")}{_stroke(1.5, "")}/>')

    def box(self, corner: Point, size: Point, role: str, extra: str = "") -> None:
        """A rectangle; nothing where it has no width."""
        if size[0] > 0.05 and size[1] > 0.05:
            where = (
                f'x="{_at(corner[0])}" y="{_at(corner[1])}" width="{_at(size[0])}" height="{_at(size[1])}"'
            )
            self.parts.append(f"<rect {where}{self.paint(role)}{extra}/>")

    def area(self, points: Sequence[Point], fill: str) -> None:
        """A filled polygon: a colour, or the id of a gradient as ``url(#id)``."""
        self.parts.append(f'<polygon points="{_points(points)}" fill="{fill}"/>')

    def shape(self, points: Sequence[Point], role: str) -> None:
        """A filled polygon in a role."""
        self.parts.append(f'<polygon points="{_points(points)}"{self.paint(role)}/>')

    def path(self, d: str, role: str, width: float = 1.0) -> None:
        """A path in a role."""
        self.parts.append(f'<path d="{d}"{self.paint(role)}{_stroke(width, "")}/>')

    def disc(self, at: Point, radius: float = 3.0, role: str = "ink") -> None:
        """A disc."""
        self.parts.append(
            f'<circle cx="{_at(at[0])}" cy="{_at(at[1])}" r="{_at(radius)}"{self.paint(role)}/>'
        )

    def ring(self, at: Point, radius: float = 3.0, width: float = 1.4) -> None:
        """A ring."""
        self.parts.append(
            f'<circle cx="{_at(at[0])}" cy="{_at(at[1])}" r="{_at(radius)}"'
            f"{self.paint('edge')}{_stroke(width, '')}/>"
        )

    def gradient(self, start: float, end: float, stops: Sequence[tuple[float, str]]) -> str:
        """A gradient along x; gives its id."""
        name = self.new_id("g")
        inside = "".join(f'<stop offset="{offset:.3f}" stop-color="{colour}"/>' for offset, colour in stops)
        self.parts.append(
            f'<linearGradient id="{name}" gradientUnits="userSpaceOnUse" x1="{_at(start)}" x2="{_at(end)}"'
            f' y1="0" y2="0">{inside}</linearGradient>'
        )
        return name

    def text(
        self, at: Point, words: str, role: str = "word", anchor: str = "start", strong: str = ""
    ) -> None:
        """Words; ``strong`` stands before them in the strong weight."""
        if not words and not strong:
            return
        where = f'x="{_at(at[0])}" y="{_at(at[1])}"'
        head = f"<tspan{self.paint('strong')}>{escape(strong)}</tspan>" if strong else ""
        tail = f"{' ' if strong and words else ''}{escape(words)}"
        if role == "clear" and self.for_paper:
            # A halo stroked glyph by glyph would cover its neighbours on paper: it goes first, by itself.
            self.parts.append(f"<text {where}{self._text_paint('halo', anchor)}>{head}{tail}</text>")
            role = "word"
        self.parts.append(f"<text {where}{self._text_paint(role, anchor)}>{head}{tail}</text>")

    def picture(self, width: float, height: float, title: str, description: str) -> str:
        """The whole picture, with the title and the sentence that states the finding."""
        named, said = f"{self.prefix}-title", f"{self.prefix}-desc"
        head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_at(width)} {_at(height)}"'
        size = f' width="{_at(width)}" height="{_at(height)}"'
        face = f' font-family="{_FACE}" font-size="{SIZE}"' if self.for_paper else ' class="pic"'
        label = f' role="img" aria-labelledby="{named} {said}"'
        words = f'<title id="{named}">{escape(title)}</title><desc id="{said}">{escape(description)}</desc>'
        return f"{head}{size}{face}{label}>{words}{''.join(self.parts)}</svg>"

    def ornament(self, width: float, height: float) -> str:
        """The picture of a figure that stands beside it in words: not announced."""
        size = f' width="{_at(width)}" height="{_at(height)}" viewBox="0 0 {_at(width)} {_at(height)}"'
        kind = ' preserveAspectRatio="none"' + ("" if self.for_paper else ' class="pic"')
        head = f'<svg xmlns="http://www.w3.org/2000/svg"{size}{kind} aria-hidden="true">'
        return f"{head}{''.join(self.parts)}</svg>"

    def _text_paint(self, role: str, anchor: str) -> str:
        if self.for_paper:
            return self.paint(role) + (f' text-anchor="{anchor}"' if anchor != "start" else "")
        extra = {"middle": " mid", "end": " end"}.get(anchor, "")
        return f' class="pic-{role}{extra}"'


def thinned(points: Sequence[Point], within: float = 0.06) -> list[Point]:
    """The points without those that lie on the line between their neighbours, within a tolerance [px]."""
    if len(points) < 3:
        return list(points)
    kept = [points[0]]
    x0, y0 = points[0]
    # The slopes from the last point kept that pass every point since within the tolerance.
    low, high = -inf, inf
    for (x, y), (x1, y1) in pairwise(points[1:]):
        if across := x - x0:
            first, second = (y - within - y0) / across, (y + within - y0) / across
            low, high = max(low, min(first, second)), min(high, max(first, second))
        elif abs(y - y0) > within:
            low, high = inf, -inf
        slope = (y1 - y0) / (x1 - x0) if x1 != x0 else 0.0
        if not low <= slope <= high:
            kept.append((x, y))
            x0, y0, low, high = x, y, -inf, inf
    return [*kept, points[-1]]


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{_at(x)},{_at(y)}" for x, y in points)


def _at(value: float) -> str:
    text = f"{value:.1f}"
    if text[-1] != "0":
        return text
    return "0" if text in ("-0.0", "0.0") else text[:-2]


def _stroke(width: float, dash: str) -> str:
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return f' stroke-width="{width:g}"{dashes}'


def _screen(value: str) -> str:
    return f"var(--{value})" if value in LIGHT else value
