"""The solver's plan is the best there is: a twin tries every combination."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import datetime
from itertools import product
from zoneinfo import ZoneInfo

import pytest

from doughwright.kitchen.types import Hours
from doughwright.plan._awake import Awake
from doughwright.plan._network import Chain, Node
from doughwright.plan._solve import AWAY, NIGHT, Rules, solve

ZONE = ZoneInfo("Europe/London")
EAT = int(datetime(2026, 11, 28, 19, 0, tzinfo=ZONE).timestamp() // 60)
UP = (7, 22)

Time = tuple[Node, int, int]


def work(key: int, length: int, joins: tuple[Chain, ...] = ()) -> Node:
    span = ((0, length),)
    return Node(key, (length,), (), busy=span, up=span, joins=joins)


def wait(key: int, lengths: tuple[int, ...]) -> Node:
    return Node(key, lengths, (), wait=True)


def every(chain: Chain, end: int) -> Iterator[list[Time]]:
    """Each way to lay a chain and all that joins it back from an end."""
    for lengths in product(*(node.lengths for node in chain.nodes)):
        ways: list[list[Time]] = [[]]
        at = end
        for node, length in zip(reversed(chain.nodes), reversed(lengths), strict=True):
            at -= length
            ways = [[*way, (node, at, length)] for way in ways]
            for joined in node.joins:
                more = [one for gap in joined.gaps for one in every(joined, at - gap)]
                ways = [[*way, *one] for way in ways for one in more]
        yield from ways


def cost(way: list[Time], meal: Chain, eat: int) -> tuple[int, int, int] | None:
    """Night minutes, distance from the middles, waiting; ``None`` where hands meet. Own arithmetic."""
    spans = [(start + a, start + b) for node, start, _ in way for a, b in node.busy]
    for i, (a, b) in enumerate(spans):
        for c, d in spans[i + 1 :]:
            if a < d and c < b:
                return None
    night = sum(1 for a, b in spans for minute in range(a, b) if not UP[0] <= hour(minute) < UP[1])
    away = 0
    for node, _, length in way:
        low, high = min(node.lengths), max(node.lengths)
        if low < high:
            away += round(1_000_000 * ((length - (low + high) / 2) / ((high - low) / 2)) ** 2)
    start_of = {node.key: start for node, start, _ in way}
    end_of = {node.key: start + length for node, start, length in way}
    gaps = sum(
        start_of[node.key] - end_of[joined.nodes[-1].key] for node, _, _ in way for joined in node.joins
    )
    return night, away, gaps + sum(length for node, _, length in way if node.wait)


def hour(minute: int) -> int:
    return datetime.fromtimestamp(minute * 60, ZONE).hour


def a_network(draw: random.Random) -> Chain:
    keys = iter(range(100))

    def lengths(least: int, most: int) -> tuple[int, ...]:
        low = draw.randrange(least, most, 30)
        return (low,) if draw.random() < 0.4 else tuple(sorted({low, low + 60, low + 120, low + 300}))

    def side(kind: int) -> Chain:
        nodes = (work(next(keys), draw.choice((5, 10, 25))), wait(next(keys), lengths(60, 900)))
        return Chain(nodes[: 1 + kind], (0, 10, 20), "side")

    sides = tuple(side(draw.randrange(2)) for _ in range(draw.randrange(3)))
    nodes = (
        work(next(keys), 15, sides),
        wait(next(keys), lengths(60, 300)),
        work(next(keys), 10),
        wait(next(keys), lengths(300, 1500)),
        work(next(keys), 20, (side(0),) if draw.random() < 0.6 else ()),
    )
    return Chain((Node(next(keys), (0,), (), joins=(Chain(nodes),)),))


@pytest.mark.twin
@pytest.mark.parametrize("seed", range(40))
def test_no_combination_is_better_than_the_plan(seed: int) -> None:
    """Random networks with side chains whose hands collide: the same best cost, or none for both."""
    meal = a_network(random.Random(seed))
    costs = [found for way in every(meal, EAT) if (found := cost(way, meal, EAT)) is not None]
    best = min(costs, default=None)
    awake = Awake(Hours(UP[0] * 3600.0, UP[1] * 3600.0), ZONE, EAT - 5 * 1440, EAT + 1440)
    found = solve(meal, EAT, Rules(awake, strict=False))
    if best is None:
        assert found is None
        return
    assert found is not None
    assert (found.cost // NIGHT, found.cost % NIGHT // AWAY, found.cost % AWAY) == best
    strict = solve(meal, EAT, Rules(awake, strict=True))
    assert (strict is not None) == (best[0] == 0)
    way = [(one.node, one.start, one.length) for one in found.placed]
    assert cost(way, meal, EAT) == best


def test_the_twin_meets_networks_with_and_without_a_plan() -> None:
    """The random networks are no easy lot: some have no plan by day, some have colliding hands."""
    awake = Awake(Hours(UP[0] * 3600.0, UP[1] * 3600.0), ZONE, EAT - 5 * 1440, EAT + 1440)
    solved = [solve(a_network(random.Random(seed)), EAT, Rules(awake)) is not None for seed in range(40)]
    assert 5 < sum(solved) < 35
