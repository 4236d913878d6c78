"""What a plan is made of: work and waits in chains, each chain joining the next on its way to the meal.

Lengths and offsets are whole minutes.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, floor

from doughwright.recipe.types import Interval

Span = tuple[int, int]

# The grid on which the waits of a range are tried [min], by the longest range [min] it is for.
GRID = ((48 * 60, 5), (7 * 24 * 60, 30), (60 * 24 * 60, 120))


@dataclass(frozen=True, slots=True)
class Part:
    """What becomes one entry: ``offset`` from the start of its node, ``length`` (``None``: to its end)."""

    what: str
    offset: int
    length: int | None
    hands: int = 0
    step: int | None = None
    mix: str | None = None
    place: str | None = None
    piece: int | None = None
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class Node:
    """A stretch of work or a wait: its possible lengths, and what each is away from the middle of its range.

    ``busy`` is when it needs the cook's hands, ``up`` when somebody has to be up, both from its start.
    ``joins`` are the chains that must have ended when it starts.
    """

    key: int
    lengths: tuple[int, ...]
    parts: tuple[Part, ...]
    wait: bool = False
    busy: tuple[Span, ...] = ()
    up: tuple[Span, ...] = ()
    oven: bool = False
    joins: tuple[Chain, ...] = ()
    step: int | None = None
    asked: Span | None = None
    lean: float = 0.0

    @property
    def range(self) -> Span:
        """What the document asks for; ``lengths`` may go beyond it where ``asked`` is given."""
        return self.asked or (self.lengths[0], self.lengths[-1])

    def away(self, length: int) -> int:
        """How far a length is from the middle of the range, squared: 0 there, a million at either end.

        ``lean`` moves the middle: to the longest at 1, to the shortest at -1.
        """
        low, high = self.range
        return round(1e6 * ((2 * length - low - high - self.lean * (high - low)) / max(1, high - low)) ** 2)


@dataclass(frozen=True, slots=True)
class Chain:
    """Nodes one straight after another; ``gaps`` is how long what it makes may stand before it is used."""

    nodes: tuple[Node, ...]
    gaps: tuple[int, ...] = (0,)
    mix: str | None = None

    def all_nodes(self) -> tuple[Node, ...]:
        """Its nodes, and those of the chains that join it."""
        found: list[Node] = []
        for node in self.nodes:
            for chain in node.joins:
                found += chain.all_nodes()
            found.append(node)
        return tuple(found)

    def with_node(self, new: Node) -> Chain:
        """The same chain with the node of that key in another form, here or in a chain that joins."""
        nodes = (
            new if node.key == new.key
            else replace(node, joins=tuple(chain.with_node(new) for chain in node.joins))
            for node in self.nodes
        )  # fmt: skip
        return replace(self, nodes=tuple(nodes))

    @property
    def shortest(self) -> int:
        """The least time [min] from its first start to its end, the chains that join it counted."""
        return self.length(0)

    @property
    def longest(self) -> int:
        """The most time [min] from its first start to its end, the chains that join it counted."""
        return self.length(-1)

    def length(self, which: int) -> int:
        """The time [min] with the first (0) or the last (-1) of all its choices."""
        before = 0
        for node in self.nodes:
            joined = [chain.length(which) + chain.gaps[which] for chain in node.joins]
            before = max([before, *joined]) + node.lengths[which]
        return before


def choices(times: Interval) -> tuple[int, ...]:
    """The lengths [min] tried within a range [s]: from its middle outwards on a grid, and both ends."""
    if times.single:
        return (max(1, ceil(times.low / 60.0)),)
    low, high = ceil(times.low / 60.0), floor(times.high / 60.0)
    if low >= high:
        return (max(1, low),)
    step = next((step for longest, step in GRID if high - low <= longest), GRID[-1][1])
    middle = (low + high) // 2
    tried = {middle - k for k in range(0, middle - low + 1, step)}
    tried |= {middle + k for k in range(0, high - middle + 1, step)}
    return tuple(sorted(tried | {low, high}))
