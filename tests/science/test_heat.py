"""Conduction in dough: shells, conservation, steady states and refused numbers."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import OutOfRangeError
from doughwright.science.conduction_series import conduction_series, semi_infinite_film
from doughwright.science.heat import Body, ball, conduct, skin_temperature, slab, tin

BODIES = {
    "ball": ball(mass=0.25, density=1120.0, nodes=12),
    "slab": slab(mass=0.25, density=1120.0, area=0.05, nodes=12),
    "tin": tin(mass=0.9, density=1120.0, length=0.25, width=0.11, nodes=12),
}


def step(
    body: Body, temperature, *, film=7.5, ambient=5.0, seconds=120.0, source=0.0, rise=1.0, implicit=0.5
):
    return conduct(
        temperature=temperature,
        body=body,
        rise=rise,
        conductivity=np.full(body.nodes, 0.38),
        heat=2800.0,
        film=film,
        ambient=ambient,
        source=np.full(body.nodes, source),
        seconds=seconds,
        implicit=implicit,
    )


@pytest.mark.parametrize("name", BODIES)
def test_the_shells_are_the_whole_piece(name: str) -> None:
    """Their shares add up to 1, and shells times thickness times skin is the volume."""
    body = BODIES[name]
    assert body.shares.sum() == pytest.approx(1.0)
    depth = body.thickness(1.0) * body.nodes
    assert depth * body.area(1.0) / body.ways == pytest.approx(body.mass / 1120.0)


def test_a_ball_has_the_skin_of_a_sphere_and_grows_all_round() -> None:
    """At twice its volume, 2^(2/3) times its skin."""
    body = BODIES["ball"]
    radius = (3.0 * body.volume / (4.0 * pi)) ** (1.0 / 3.0)
    assert body.area(1.0) == pytest.approx(4.0 * pi * radius**2)
    assert body.area(2.0) == pytest.approx(body.area(1.0) * 2.0 ** (2.0 / 3.0))


def test_a_slab_keeps_its_area_and_a_tin_grows_upward() -> None:
    """The slab's two faces stay; the tin's sides grow with the height."""
    assert BODIES["slab"].area(2.0) == BODIES["slab"].area(1.0) == pytest.approx(0.10)
    sides = 2.0 * (0.25 + 0.11) * 0.9 / 1120.0 / (0.25 * 0.11)
    assert BODIES["tin"].area(2.0) - BODIES["tin"].area(1.0) == pytest.approx(sides)


@pytest.mark.property
@given(
    name=st.sampled_from(sorted(BODIES)),
    values=st.lists(st.floats(0.0, 40.0), min_size=12, max_size=12),
    implicit=st.sampled_from([0.5, 1.0]),
)
def test_heat_is_conserved_without_a_film(name: str, values: list[float], implicit: float) -> None:
    """With no way out, the mean by mass stays."""
    body = BODIES[name]
    after = step(body, np.array(values), film=0.0, implicit=implicit)
    assert body.shares @ after == pytest.approx(body.shares @ np.array(values), abs=1e-8)


@pytest.mark.parametrize("name", BODIES)
def test_heat_made_warms_a_closed_piece_by_what_it_is(name: str) -> None:
    """1 W/kg for an hour is 3600 J/kg: 1.2857 K at 2800 J/(kg K)."""
    body = BODIES[name]
    after = step(body, np.full(12, 20.0), film=0.0, source=1.0, seconds=3600.0)
    assert after.tolist() == pytest.approx([20.0 + 3600.0 / 2800.0] * 12)


@pytest.mark.parametrize("name", BODIES)
def test_a_piece_as_warm_as_its_air_stays(name: str) -> None:
    """Nothing moves, and the skin is as warm."""
    body = BODIES[name]
    after = step(body, np.full(12, 5.0), rise=1.7)
    assert after.tolist() == pytest.approx([5.0] * 12)
    skin = skin_temperature(
        temperature=after, body=body, rise=1.7, conductivity=np.full(12, 0.2), film=7.5, ambient=5.0
    )
    assert skin == pytest.approx(5.0)


@pytest.mark.parametrize("name", BODIES)
def test_implicit_steps_stay_between_dough_and_air(name: str) -> None:
    """However long the step after a move, no shell passes the air or the dough it was."""
    after = step(BODIES[name], np.full(12, 24.0), seconds=36000.0, implicit=1.0)
    assert np.all((after > 5.0) & (after < 24.0))
    assert np.all(np.diff(after) < 0.0)


def test_one_shell_is_a_lumped_piece() -> None:
    """A single node cools as one."""
    body = ball(mass=0.25, density=1120.0, nodes=1)
    after = step(body, np.array([24.0]), seconds=600.0)
    assert 5.0 < after[0] < 24.0


@pytest.mark.parametrize(("biot", "fourier"), [(0.0, 1.0), (1.0, 0.0), (-1.0, 1.0)])
def test_the_series_refuses_numbers_it_has_no_answer_for(biot: float, fourier: float) -> None:
    """Biot and Fourier numbers are above 0."""
    with pytest.raises(OutOfRangeError):
        conduction_series(shape="sphere", biot=biot, fourier=fourier)


def test_the_film_on_the_ground_refuses_what_would_overflow() -> None:
    """Past an exponent of 600 it says so."""
    with pytest.raises(OutOfRangeError):
        semi_infinite_film(depth=1.0, diffusivity=1e-7, conductivity=0.1, film=5000.0, seconds=1e9)
