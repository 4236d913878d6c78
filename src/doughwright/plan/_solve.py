"""The best times for a network of chains: exact, by a table per chain and a branch where hands collide.

Best is, in this order: no minute of work outside the hours awake, waits nearest the middle of their
ranges (sum of squares), least waiting. Times are whole minutes of elapsed time.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from itertools import combinations, count, pairwise

from doughwright.plan._awake import Awake
from doughwright.plan._network import Chain, Node, Span

# One number orders by three: minutes of night work, distance from the middles, minutes of waiting.
NIGHT, AWAY = 1 << 96, 1 << 32
# Branches tried before the best plan so far is given without the proof that none is better.
MOST_BRANCHES = 3000


@dataclass(frozen=True, slots=True)
class Placed:
    """A node in time: when it starts and how long it is."""

    node: Node
    start: int
    length: int

    @property
    def end(self) -> int:
        """When it ends."""
        return self.start + self.length

    def busy(self) -> Iterable[Span]:
        """When it needs the cook's hands."""
        return ((self.start + a, self.start + b) for a, b in self.node.busy)


@dataclass(frozen=True, slots=True)
class Solution:
    """Every node in time; ``night`` is minutes of work outside the hours awake."""

    placed: tuple[Placed, ...]
    cost: int

    @property
    def night(self) -> int:
        """Minutes of work outside the hours awake."""
        return self.cost // NIGHT

    @property
    def start(self) -> int:
        """The first minute."""
        return min(one.start for one in self.placed)


@dataclass(frozen=True, slots=True)
class Rules:
    """What a solution has to keep: ``strict`` allows no work at night; ``earliest`` is the first minute."""

    awake: Awake
    strict: bool = True
    earliest: int | None = None


@dataclass(frozen=True, slots=True)
class _Branch:
    """Starts that a node may have: within a span, and not so that its hands or the oven meet another's."""

    within: Mapping[int, Span] = field(default_factory=dict)
    apart: tuple[tuple[int, Placed], ...] = ()

    def allows(self, node: Node, start: int) -> bool:
        """Whether the node may start there."""
        span = self.within.get(node.key)
        if span is not None and not span[0] <= start <= span[1]:
            return False
        for key, other in self.apart:
            if key == node.key and collide(Placed(node, start, node.lengths[0]), other):
                return False
        return True


def solve(meal: Chain, at: int, rules: Rules) -> Solution | None:
    """The best solution that ends at a minute, ``None`` where there is none."""
    order, depth = count(), _depths(meal, 0)
    heap: list[tuple[int, int, _Branch, Solution]] = []
    _push(heap, order, meal, at, rules, _Branch())
    for _ in range(MOST_BRANCHES):
        if not heap:
            return None
        _, _, branch, solution = heapq.heappop(heap)
        pair = _collision(solution)
        if pair is None:
            return solution
        first, second = sorted(pair, key=lambda one: depth[one.node.key])
        for narrowed in _narrowed(branch, first, second):
            _push(heap, order, meal, at, rules, narrowed)
    return None


def collide(one: Placed, other: Placed) -> bool:
    """Whether two nodes need the cook, or the oven, at the same time."""
    hands = any(a < d and c < b for a, b in one.busy() for c, d in other.busy())
    both_bake = one.node.oven and other.node.oven
    return hands or (both_bake and one.start < other.end and other.start < one.end)


def _push(
    heap: list[tuple[int, int, _Branch, Solution]], order: count[int], meal: Chain, at: int, rules: Rules,
    branch: _Branch,
) -> None:  # fmt: skip
    found = _Tables(rules, branch).best(meal, at)
    if found is not None:
        heapq.heappush(heap, (found.cost, next(order), branch, found))


def _narrowed(branch: _Branch, first: Placed, second: Placed) -> Iterable[_Branch]:
    """Three parts that share no solution: the first node earlier, later, or there with the second apart."""
    key, far = first.node.key, 1 << 40
    low, high = branch.within.get(key, (-far, far))
    for span in ((first.start, first.start), (low, first.start - 1), (first.start + 1, high)):
        if span[0] <= span[1]:
            there = span == (first.start, first.start)
            apart = (*branch.apart, (second.node.key, first)) if there else branch.apart
            yield replace(branch, within={**branch.within, key: span}, apart=apart)


def _collision(solution: Solution) -> tuple[Placed, Placed] | None:
    working = sorted((one for one in solution.placed if one.node.busy), key=lambda one: (one.start, one.end))
    return next((pair for pair in combinations(working, 2) if collide(*pair)), None)


def _depths(chain: Chain, depth: int) -> dict[int, int]:
    found = {node.key: depth for node in chain.nodes}
    for node in chain.nodes:
        for joined in node.joins:
            found |= _depths(joined, depth + 1)
    return found


# For each end of a node: its least cost so far, and the length and the gaps that give it.
_Table = dict[int, tuple[int, int, tuple[int, ...]]]


class _Tables:
    """One pass over the chains, as if hands never met."""

    def __init__(self, rules: Rules, branch: _Branch) -> None:
        self.rules, self.branch = rules, branch
        self.tables: dict[int, _Table] = {}
        self.prices: dict[tuple[int, int], int | None] = {}

    def best(self, meal: Chain, at: int) -> Solution | None:
        """The cheapest solution that ends at a minute."""
        costs = self._fill(meal, {at})
        if at not in costs:
            return None
        return Solution(tuple(self._read(meal, at)), costs[at])

    def _fill(self, chain: Chain, ends: set[int]) -> dict[int, int]:
        """Least cost of the chain and all that joins it, for each end that can be had."""
        reach = [ends]
        for node in reversed(chain.nodes):
            starts = {end - length for end in reach[-1] for length in node.lengths}
            price = self._price
            reach.append({start for start in starts if price(node, start) is not None})
        reach.reverse()
        before: dict[int, int] | None = None
        for node, (starts, its_ends) in zip(chain.nodes, pairwise(reach), strict=True):
            entered = self._enter(node, starts, before)
            self.tables[node.key] = self._table(node, entered, its_ends)
            before = {end: row[0] for end, row in self.tables[node.key].items()}
        return before or {}

    def _enter(
        self, node: Node, starts: set[int], before: dict[int, int] | None
    ) -> dict[int, tuple[int, tuple[int, ...]]]:
        """Cost of all that must have ended when a node starts, with the gaps chosen."""
        joined = [
            (chain, self._fill(chain, {start - gap for start in starts for gap in chain.gaps}))
            for chain in node.joins
        ]
        if not joined:
            nothing: tuple[int, ...] = ()
            if before is None:
                return dict.fromkeys(starts, (0, nothing))
            return {start: (before[start], nothing) for start in starts if start in before}
        found: dict[int, tuple[int, tuple[int, ...]]] = {}
        for start in starts:
            own = 0 if before is None else before.get(start)
            picks = [
                min(
                    ((costs[start - gap] + gap, gap) for gap in chain.gaps if start - gap in costs),
                    default=None,
                )
                for chain, costs in joined
            ]
            kept = [pick for pick in picks if pick is not None]
            if own is not None and len(kept) == len(picks):
                found[start] = (own + sum(cost for cost, _ in kept), tuple(gap for _, gap in kept))
        return found

    def _table(self, node: Node, entered: dict[int, tuple[int, tuple[int, ...]]], ends: set[int]) -> _Table:
        table: _Table = {}
        priced = [(n, node.away(n) * AWAY + (n if node.wait else 0)) for n in node.lengths]
        starts = {start: cost + (self._price(node, start) or 0) for start, (cost, _) in entered.items()}
        if len(priced) == 1:
            length, cost = priced[0]
            return {
                start + length: (starts[start] + cost, length, gaps) for start, (_, gaps) in entered.items()
            }
        for end in ends:
            options = [(starts[end - n] + cost, n) for n, cost in priced if end - n in starts]
            if options:
                cost, length = min(options)
                table[end] = (cost, length, entered[end - length][1])
        return table

    def _price(self, node: Node, start: int) -> int | None:
        """What starting there costs in night work; ``None`` where it may not."""
        at = (node.key, start)
        try:
            return self.prices[at]
        except KeyError:
            found = self.prices[at] = self._priced(node, start)
            return found

    def _priced(self, node: Node, start: int) -> int | None:
        earliest = self.rules.earliest
        if (earliest is not None and start < earliest) or not self.branch.allows(node, start):
            return None
        night = 0
        for a, b in node.up:
            night += self.rules.awake.night(start + a, start + b)
        return None if night and self.rules.strict else night * NIGHT

    def _read(self, chain: Chain, end: int) -> list[Placed]:
        placed: list[Placed] = []
        for node in reversed(chain.nodes):
            _, length, gaps = self.tables[node.key][end]
            start = end - length
            for joined, gap in zip(node.joins, gaps, strict=True):
                placed += self._read(joined, start - gap)
            placed.append(Placed(node, start, length))
            end = start
        return placed
