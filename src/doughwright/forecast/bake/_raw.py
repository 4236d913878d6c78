"""A piece as it goes into the oven: what the days made of it, and the form it is baked in."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._course import Course, Mark
from doughwright.forecast._moments import dough_of
from doughwright.forecast._wait import row
from doughwright.forecast.bake._draws import Lanes
from doughwright.recipe.model import BAKES, Recipe
from doughwright.science.browning import browning_factor
from doughwright.science.kernels.bake_column import dough_column
from doughwright.science.kernels.bake_inputs import Form
from doughwright.science.kernels.bake_layout import BakeStepping, Column
from doughwright.science.kernels.layout import fit_lanes
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.yeast import Array, Real

CELLS: dict[Form, int] = {"flat": 24, "bun": 24, "loaf": 24}
FINER: dict[Form, float] = {"flat": 4.0, "bun": 5.0, "loaf": 8.0}
LONGEST: dict[Form, float] = {"flat": 4.0, "bun": 4.0, "loaf": 4.0}
"""Cells of a dough, how much finer they are at its faces, the longest step [s]: see docs/oven.md."""

PAN_LOAD = 12.0
"""A tin with less dough than this on its floor [kg/m2] holds a flat pan pie, with more a loaf."""

BUN_MASS, BUN_AREA = 0.080, 0.0160
LOAF_MASS, CROWN = 0.5, 1.2
"""The loaf that the model was compared with [kg]; the upper face of a loaf over the floor of its tin."""

RICH = 10.0
"""Fat and sugar [% of flour] from which a dough counts as rich."""

LIGHTEST, HEAVIEST = 0.8, 15.0
"""Loads of a flat piece that the model is asked for [kg/m2]."""


@dataclass(frozen=True, slots=True)
class Shape:
    """The form of a piece and its ``area`` [m2], that of its upper face in a bun or a loaf; the ``tin`` of a
    loaf is what lies on the metal [m2]."""

    form: Form
    area: float
    tin: float = 0.0


@dataclass(frozen=True, slots=True)
class Raw:
    """A piece in each lane: ``load`` [kg/m2], ``water`` [1], ``foot`` [1]; ``inner`` temperatures [degC] by
    shell from the core out with each shell's share of the mass; ``sugar`` left [% of flour], the
    ``browning`` factor, whether it is ``rich``."""

    shape: Shape
    load: Array
    water: Array
    foot: Array
    inner: Array
    shares: Array
    sugar: Array
    browning: Array
    rich: bool

    @property
    def mass(self) -> Array:
        """Dough of one piece [kg]."""
        return np.asarray(self.load * self.shape.area)


def shape_of(recipe: Recipe, mass: Real, said: list[str]) -> Shape:
    """The form and area of a piece of so much dough [kg]; raises ``NoAnswerError`` where it has no size."""
    makes = recipe.makes
    if recipe.shape == "ball":
        middle = float(np.mean(mass))
        if middle > 3.0 * BUN_MASS:
            said.append(
                f"a ball of {middle * 1e3:.0f} g is run as a large bun, beyond what was compared with bakes"
            )
        return Shape("bun", BUN_AREA * (middle / BUN_MASS) ** (2.0 / 3.0))
    if recipe.shape == "round" and makes.diameter:
        return _flat(0.25 * pi * makes.diameter**2, mass)
    if makes.length and makes.width:
        floor = makes.length * makes.width
        if recipe.shape == "tin" and float(np.mean(mass)) / floor >= PAN_LOAD:
            walls = 2.0 * (makes.length + makes.width)
            return _loaf(float(np.mean(mass)), floor, walls, makes.height or np.inf, said)
        return _flat(floor, mass)
    raise NoAnswerError(
        Fault(
            f"a {recipe.shape} without a size has no thickness, and the oven needs one",
            wanted="its measures in [makes]",
            try_='Write for example diameter = "30 cm"',
        )
    )


def _loaf(mass: float, floor: float, walls: float, height: float, said: list[str]) -> Shape:
    """A loaf as deep as its raw dough: what stands above the rim of the tin sees the oven."""
    if mass > 1.5 * LOAF_MASS:
        text = f"a loaf of {mass * 1e3:.0f} g is run as a larger one of 500 g"
        said.append(f"{text}, beyond what was compared with bakes")
    deep = mass / OvenParameters().density_loaf / floor
    inside = min(deep, height)
    return Shape("loaf", CROWN * floor + walls * (deep - inside), floor + walls * inside)


def _flat(area: float, mass: Real) -> Shape:
    load = float(np.mean(mass)) / area
    if not LIGHTEST <= load <= HEAVIEST:
        raise NoAnswerError(
            Fault(
                "the oven does not model so flat or so deep a piece",
                wanted=f"{LIGHTEST / 10:g} to {HEAVIEST / 10:g} g/cm2 of dough",
                found=f"{load / 10:.2f}",
                try_="Change the size or the mass of a piece",
            )
        )
    return Shape("flat", area)


def at_bake(course: Course) -> Mark:
    """The dough just before its first bake."""
    found = [mark for mark in course.marks if mark.step is not None and mark.step.do in BAKES]
    if not found:
        raise NoAnswerError(Fault(f'no step bakes "{course.name}"', try_='Add do = "bake"'))
    return found[0]


def raw_piece(marks: tuple[Mark, ...], shape: Shape, lanes: Lanes, malt: float) -> Raw:
    """A piece in each lane: the first mark is the middle's, a second one that of all other lanes."""
    doughs = [dough_of(one) for one in marks]
    counts = (1, lanes.count - 1)
    mass = _joined([one.body.mass for one in doughs], counts) * lanes.loading
    contents = [one.contents for one in doughs]
    water = _joined([one.composition[0] / one.composition.sum(axis=0) for one in contents], counts)
    wet = water / (1.0 - water) * lanes.hydration
    inner = np.concatenate(
        [_shells(one.temperature, doughs[0].body.shares, one.body.shares) for one in doughs], axis=1
    )
    rows = [row(mark.time, dough, mark.where.air) for mark, dough in zip(marks, doughs, strict=True)]
    sugar = _joined([one[7] for one in rows], counts)
    browning = _browning(
        sugar=sugar,
        hours=_joined([mark.time for mark in marks], counts),
        milk=_joined([one.percent("lactose") for one in contents], counts),
        malt=malt,
        lanes=lanes,
    )
    return Raw(
        shape=shape,
        load=mass / shape.area,
        water=wet / (1.0 + wet),
        foot=_foot(shape, mass, lanes.parameters),
        inner=inner,
        shares=doughs[0].body.shares,
        sugar=sugar,
        browning=browning,
        rich=bool(np.mean(contents[0].percent("all_fat") + contents[0].percent("sugar")) >= RICH),
    )


def _joined(values: list[Real], counts: tuple[int, ...]) -> Array:
    """One row of lanes from the middle's value and the others'."""
    return np.concatenate([fit_lanes(value=one, lanes=n) for one, n in zip(values, counts, strict=False)])


def _shells(temperature: Array, wanted: Array, shares: Array) -> Array:
    """Temperatures by other shells, at the same share of the mass from the core out."""
    if len(wanted) == len(shares):
        return temperature
    to, at = np.cumsum(wanted) - 0.5 * wanted, np.cumsum(shares) - 0.5 * shares
    return np.stack([np.interp(to, at, one) for one in temperature.T], axis=1)


def _browning(*, sugar: Array, hours: Array, milk: Array, malt: float, lanes: Lanes) -> Array:
    """The browning factor of each lane: what the dough's sugar gives and what milk and malt add."""
    p, held = OvenParameters(), np.maximum(hours, 0.0)
    plain = browning_factor(sugar_left=sugar, hours=held, milk_sugar=0.0, malt=0.0, parameters=p).value
    whole = browning_factor(sugar_left=sugar, hours=held, milk_sugar=milk, malt=malt, parameters=p).value
    return np.asarray(plain * lanes.browning + (whole - plain) * lanes.browning_extra)


def _foot(shape: Shape, mass: Array, p: OvenParameters) -> Array:
    """The lower face over the upper one."""
    if shape.form == "flat":
        return np.ones(len(mass))
    if shape.form == "bun":
        return np.full(len(mass), p.bun_faces)
    return np.full(len(mass), shape.tin / shape.area)


def food_of(raw: Raw, lanes: Lanes, *, rim: bool = False) -> Column:
    """The dough of a piece as a column; ``rim`` for its rim, heavier and with a narrower foot."""
    p, form = lanes.parameters, raw.shape.form
    foot = np.full(lanes.count, p.rim_faces) if rim else raw.foot
    return dough_column(
        load=raw.load * (p.rim_load if rim else 1.0),
        water=raw.water,
        density=getattr(p, f"density_{form}"),
        spring=getattr(p, f"spring_{form}"),
        temperature=_by_cell(raw, lanes.count),
        cells=CELLS[form],
        finer=FINER[form],
        foot=foot,
        wedge=0.0 if form == "flat" else p.wedge_power,
        stepped=rim,
        lanes=lanes.count,
    )


def far_from_core(raw: Raw, middle: Array) -> Array:
    """How far places in the dough are from its core, 0 to 1 at a face, by mass from the base up, by lane."""
    foot = raw.foot if raw.shape.form != "flat" else np.ones(len(raw.foot))
    core = foot / (1.0 + foot)
    below, above = (core - middle) / core, (middle - core) / (1.0 - core)
    return np.asarray(np.where(middle < core, below, above))


def _by_cell(raw: Raw, lanes: int) -> Array:
    """Temperatures from the base up: the shells of the days laid out both ways from the core, by mass."""
    count, finer = CELLS[raw.shape.form], FINER[raw.shape.form]
    thick = 1.0 + (finer - 1.0) * np.sin(np.pi * (np.arange(count) + 0.5) / count) ** 1.5
    middle = (np.cumsum(thick) - 0.5 * thick) / thick.sum()
    far = far_from_core(raw, middle[:, None])
    at = np.cumsum(raw.shares) - 0.5 * raw.shares
    return np.stack([np.interp(far[:, n], at, raw.inner[:, n]) for n in range(lanes)], axis=1)


def stepping_of(form: Form) -> BakeStepping:
    """How a bake of this form cuts time."""
    return BakeStepping(longest=LONGEST[form])
