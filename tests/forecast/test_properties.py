"""What holds for any dough: conservation of gas and sugar, and what must be sooner or later."""

from __future__ import annotations

from itertools import pairwise
from math import log

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.forecast._dough import Contents, Dough, Frame, Joining, Yeast, mix, worked
from doughwright.forecast._wait import ON_SCREEN, POINTS, Air, Row, rows_of, wait
from doughwright.science.heat import Body, ball, slab
from doughwright.science.kernels.layout import Stepping
from doughwright.science.parameters import Parameters
from doughwright.science.properties import flour_composition

P = Parameters()
COARSE = Stepping(longest=900.0)
NODES = 6


def contents(*, flour=1000.0, water=62.0, salt=2.0, sugar=0.0, lactose=0.0, protein=12.0) -> Contents:
    """So much flour [g] with the rest in per cent of it."""
    share = flour / 100.0
    parts = flour_composition(protein=protein) * share
    parts += np.array([water, 0.0, 0.0, sugar + lactose, 0.0, salt]) * share
    mass = flour + share * (water + salt + sugar + lactose)
    return Contents(
        flour, mass, water * share, salt * share, sugar * share, lactose * share, protein * share, *parts
    )


def dough(
    *, yeast=0.4, degrees=24.0, altitude=0.0, body: Body | None = None, lag=P.gassing_lag, **made: float
) -> Dough:
    """A dough with so much fresh yeast [% of flour], in a 250 g ball unless said."""
    inside = contents(**made)
    frame = Frame(altitude=altitude, nodes=NODES)
    fresh = mix([], inside, [Yeast(yeast * inside.flour / 100.0, lag)], degrees, frame, P)
    piece = body or ball(mass=0.25, density=1120.0, nodes=NODES)
    return worked(fresh, degassed=0.0, tightened=False, body=piece)


def left(one: Dough, hours: float, air: Air, stepping: Stepping = COARSE) -> tuple[Dough, list[Row]]:
    waited = wait(one, start=0.0, hours=hours, air=air, stepping=stepping)
    return waited.dough, rows_of(waited.rows)


@pytest.mark.property
@settings(max_examples=25)
@given(
    yeast=st.floats(0.01, 4.0),
    degrees=st.floats(2.0, 38.0),
    hours=st.floats(0.1, 40.0),
    sugar=st.floats(0.0, 20.0),
    knocked=st.floats(0.0, 1.0),
)
def test_gas_and_sugar_are_conserved(
    yeast: float, degrees: float, hours: float, sugar: float, knocked: float
) -> None:
    """Gas made is gas held, leaked and knocked out; sugar had is sugar left and gas made over 255."""
    after, _ = left(dough(yeast=yeast, sugar=sugar), hours, Air(degrees, 7.5))
    made, held, leaked = (after.mean(one) for one in (after.state.made, after.state.gas, after.state.leaked))
    assert made == pytest.approx(held + leaked, rel=1e-9)
    again = worked(after, degassed=knocked, tightened=True)
    lost = held - again.mean(again.state.gas)
    later, _ = left(again, 2.0, Air(25.0, 7.5))
    total = later.mean(later.state.made)
    kept = later.mean(later.state.gas) + later.mean(later.state.leaked)
    assert total == pytest.approx(kept + lost, rel=1e-9)
    had = P.native_sugar + sugar + later.mean(later.state.maltose)
    assert had == pytest.approx(later.mean(later.state.sugar) + total / P.gas_yield, rel=1e-9)
    assert later.state.sugar.min() >= 0.0


@pytest.mark.property
@settings(max_examples=20)
@given(yeast=st.floats(0.05, 2.0), more=st.floats(1.05, 2.0), degrees=st.floats(2.0, 35.0))
def test_more_yeast_is_earlier(yeast: float, more: float, degrees: float) -> None:
    """At every moment more yeast has made more gas."""
    _, few = left(dough(yeast=yeast), 12.0, Air(degrees, 7.5))
    _, many = left(dough(yeast=yeast * more), 12.0, Air(degrees, 7.5))
    assert all(b.made >= a.made for a, b in zip(few, many, strict=True))
    assert many[-1].made > few[-1].made


@pytest.mark.property
@settings(max_examples=20)
@given(degrees=st.floats(1.0, 33.0), more=st.floats(0.5, 5.0))
def test_warmer_is_earlier_below_forty(degrees: float, more: float) -> None:
    """A warmer dough in warmer air has made more gas and risen more."""
    _, cool = left(dough(yeast=0.1, degrees=degrees), 10.0, Air(degrees, 7.5))
    warmer = degrees + more
    _, warm = left(dough(yeast=0.1, degrees=warmer), 10.0, Air(warmer, 7.5))
    assert warm[-1].made > cool[-1].made
    assert warm[-1].rise > cool[-1].rise


@pytest.mark.property
@settings(max_examples=20)
@given(salt=st.floats(0.0, 3.5), more=st.floats(0.2, 2.0))
def test_less_salt_is_earlier(salt: float, more: float) -> None:
    """A saltier dough has made less gas."""
    _, plain = left(dough(salt=salt), 10.0, Air(24.0, 7.5))
    _, salty = left(dough(salt=salt + more), 10.0, Air(24.0, 7.5))
    assert salty[-1].made < plain[-1].made


@pytest.mark.property
@settings(max_examples=20)
@given(cold=st.floats(1.0, 10.0), warm=st.floats(15.0, 35.0))
def test_warming_a_cold_dough_with_its_yeast_off_raises_it(cold: float, warm: float) -> None:
    """Gas comes out of solution although none is made."""
    ripe, _ = left(dough(yeast=0.3, protein=13.0), 24.0, Air(cold, 7.5))
    dead = Dough(**{**vars(ripe), "state": _without_yeast(ripe)})
    before = dead.mean(dead.split().rise)
    after, _ = left(dead, 3.0, Air(warm, 7.5))
    assert after.mean(after.state.made) == pytest.approx(ripe.mean(ripe.state.made))
    assert after.mean(after.split().rise) > before


def _without_yeast(one: Dough):
    state = one.state
    return type(state)(
        state.yeast * 0.0,
        state.sugar,
        state.maltose,
        state.gas,
        state.made,
        state.leaked,
        state.woken,
        state.grown,
    )


def test_lactose_slows_but_does_not_feed() -> None:
    """10 % of milk sugar slows as other sugar does, and none of it is eaten."""
    (_, plain), (_, milky), (_, sweet) = (
        left(one, 6.0, Air(26.0, 7.5))
        for one in (dough(yeast=3.0), dough(yeast=3.0, lactose=10.0), dough(yeast=3.0, sugar=10.0))
    )
    assert milky[-1].made < plain[-1].made
    assert milky[-1].sugar < 1.0 < sweet[-1].sugar


def test_a_bigger_piece_follows_the_fridge_more_slowly() -> None:
    """And rises more for it."""
    rows = [
        left(dough(body=ball(mass=mass, density=1120.0, nodes=NODES)), 12.0, Air(4.0, 7.5))[1]
        for mass in (0.2, 1.0, 5.0)
    ]
    assert [one[-1].core for one in rows] == sorted(one[-1].core for one in rows)
    assert [one[-1].rise for one in rows] == sorted(one[-1].rise for one in rows)


def test_risen_slabs_warm_more_slowly() -> None:
    """A slab keeps its area, so gas in it only insulates: its core lags one without yeast."""
    flat = slab(mass=2.0, density=1120.0, area=0.05, nodes=NODES)
    live = left(dough(yeast=1.5, degrees=24.0, body=flat), 5.0, Air(24.0, 7.5))[0]
    still = left(dough(yeast=0.0, degrees=24.0, body=flat), 5.0, Air(24.0, 7.5))[0]
    risen, plain = (left(one, 2.0, Air(4.0, 7.5))[1][-1] for one in (live, still))
    assert risen.rise > 1.5
    assert risen.core > plain.core


def test_no_yeast_no_gas() -> None:
    """A dough without yeast stays as mixed; only its maltose grows."""
    after, rows = left(dough(yeast=0.0), 24.0, Air(24.0, 7.5))
    assert rows[-1].rise == pytest.approx(1.0, abs=1e-12)
    assert after.mean(after.state.sugar) > P.native_sugar


def test_a_dough_high_up_rises_more() -> None:
    """At 1800 m the same dough has risen visibly more by the end of the day."""
    low, high = (left(dough(altitude=metres), 10.0, Air(22.0, 7.5))[1][-1] for metres in (0.0, 1800.0))
    assert high.rise > low.rise + 0.1
    assert high.made == pytest.approx(low.made, rel=0.01)


def test_mixing_a_dough_into_nothing_new_keeps_what_it_is() -> None:
    """Mixed once more by itself: the same yeast, sugar and lag; only free gas is gone."""
    before, _ = left(dough(), 4.0, Air(24.0, 7.5))
    again = mix([Joining(before, 1.0, True)], Contents(), [], 24.0, Frame(nodes=NODES), P)
    for name in ("yeast", "sugar", "maltose", "made", "woken", "grown"):
        assert getattr(again.state, name)[0] == pytest.approx(
            before.mean(getattr(before.state, name)), rel=1e-3
        )
    assert again.medium.at_mixing == before.medium.at_mixing
    dissolved = worked(before, degassed=1.0, tightened=False).state.gas[0]
    assert again.state.gas[0] == pytest.approx(dissolved)


def test_a_preferment_passes_over_by_its_share_of_the_flour() -> None:
    """Half of a poolish into three times as much new flour: a quarter of half, and X0 begins anew."""
    poolish, _ = left(dough(flour=400.0, yeast=0.2, salt=0.0, water=100.0), 12.0, Air(21.0, 7.5))
    new = contents(flour=600.0, water=50.0)
    mixed = mix([Joining(poolish, 0.5, False)], new, [], 24.0, Frame(nodes=NODES), P)
    share = 200.0 / 800.0
    state = worked(poolish, degassed=1.0, tightened=False).state
    assert mixed.contents.flour == pytest.approx(800.0)
    assert mixed.state.yeast[0] == pytest.approx(share * state.yeast[0])
    assert mixed.state.gas[0] == pytest.approx(share * state.gas[0])
    assert mixed.state.sugar[0] == pytest.approx(share * state.sugar[0] + 0.75 * P.native_sugar)
    assert mixed.state.woken[0] == pytest.approx(state.woken[0])
    assert mixed.medium.at_mixing == pytest.approx(mixed.state.yeast[0], rel=1e-3)
    assert mixed.brought == pytest.approx(share * state.made[0])


def test_lags_of_two_yeasts_meet_in_the_middle() -> None:
    """As much fresh yeast as dry: the mean of their lags."""
    both = mix([], contents(), [Yeast(2.0, 0.25), Yeast(2.0, 0.6)], 24.0, Frame(nodes=NODES), P)
    assert both.medium.lag == pytest.approx(0.425)


@pytest.mark.property
@settings(max_examples=20)
@given(hours=st.floats(0.0, 30.0), swing=st.sampled_from([0.0, 1.0]), degrees=st.floats(2.0, 30.0))
def test_points_fill_the_wait_and_none_is_far_from_the_next(
    hours: float, swing: float, degrees: float
) -> None:
    """From its start to its end exactly, at most 5 min apart; a swinging fridge is cut finely enough."""
    air = Air(degrees, 7.5, swing=swing, period=0.75)
    _, rows = left(dough(), hours, air, ON_SCREEN)
    times = [one.time for one in rows]
    assert (times[0], times[-1]) == (0.0, hours if hours > 1e-9 else 0.0)
    longest = 225.0 if swing else POINTS
    assert all(0.0 < after - before <= longest / 3600.0 + 1e-9 for before, after in pairwise(times))


def test_a_slow_dough_takes_longer_steps_and_a_fast_one_does_not() -> None:
    """Past its first hour and a half in a place: 15 min where it makes under 12 mL/h, 5 min over 36 mL/h."""

    def after(last: float, done: float, pace: float) -> float:
        last, done, pace, still = (np.array([one]) for one in (last, done, pace, 0.0))
        return float(ON_SCREEN.next(last, done, pace, still, still)[0])

    assert after(POINTS, 1000.0, 1.0) == POINTS
    assert after(800.0, 6000.0, 1.0) == 3.0 * POINTS
    assert after(800.0, 6000.0, 24.0) == pytest.approx(450.0)
    assert after(800.0, 6000.0, 100.0) == POINTS


def test_tightness_falls_to_a_third_in_its_time() -> None:
    """A dough kept at 25 °C is at 1/e of its tightness after 25 min."""
    _, rows = left(dough(yeast=0.0, degrees=25.0), 25.0 / 60.0, Air(25.0, 7.5))
    assert log(rows[-1].tightness) == pytest.approx(-1.0, abs=1e-6)
