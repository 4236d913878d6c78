"""The oven, piece after piece on one surface: preheat, load, bake, lift, pause, dress, bake, lift."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from doughwright.forecast.bake._around import Session
from doughwright.forecast.bake._raw import food_of, stepping_of
from doughwright.forecast.bake._steps import Action
from doughwright.forecast.bake._toppings import Topping
from doughwright.science.kernels.bake import bake
from doughwright.science.kernels.bake_column import (
    dress_food,
    load_food,
    part_food,
    surface_column,
    topping_column,
)
from doughwright.science.kernels.bake_inputs import lane_inputs, rules_of
from doughwright.science.kernels.bake_layout import Baked, Column
from doughwright.science.yeast import Array, Real

EVERY = 5.0
"""Seconds between two rows."""
MOST_ROWS = 240
"""Rows of one phase at most."""


@dataclass(frozen=True, slots=True)
class Phase:
    """What came of one phase: what was done, to which piece, from when [s], in or ``out`` of the oven, and
    the rows of its columns."""

    do: str
    piece: int
    start: float
    seconds: float
    out: bool
    baked: Baked
    rim: Baked | None


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece through the oven: its ``phases``, its column and its rim's at the last lifting, the raw mass
    with its toppings [kg/m2], and the surface's face before and after [degC]."""

    number: int
    phases: tuple[Phase, ...]
    column: Column
    rim: Column | None
    raw_mass: Array
    before: Array
    after: Array


def run(session: Session) -> tuple[Piece, ...]:
    """Heat up, then one piece after another."""
    return _Oven(session).run()


class _Oven:
    """The oven on its way: the surface as it stands, how the dial stands, and the clock [s]."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.steps, self.raw, self.lanes = session.steps, session.raw, session.lanes
        self.clock, self.heating = 0.0, session.steps.preheated
        self.surface = self._start()

    def run(self) -> tuple[Piece, ...]:
        pieces = []
        for number in range(1, self.steps.pieces + 1):
            if number > 1:
                self._wait(self.steps.between)
            pieces.append(self._piece(number))
        return tuple(pieces)

    def _start(self) -> Column:
        on, steps = self.steps.on, self.steps
        hot = self.session.true(steps.preheated)
        start: Real = self.session.room
        if on.hot and steps.preheat is None:
            start = hot + self.lanes.start
        bare = surface_column(
            thickness=on.thickness,
            density=on.material.density,
            temperature=start,
            cells=on.cells,
            area=self.raw.foot,
            lanes=self.lanes.count,
        )
        if not on.hot or steps.preheat is None:
            return bare
        return self._bake(bare, steps.preheat, self.session.preheating(hot)).column

    def _wait(self, seconds: float) -> None:
        """The surface alone in the oven until the next piece; a tin or a tray of the next piece is cold."""
        self.heating = self.steps.heated
        if not self.steps.on.hot:
            self.surface = self._start()
        elif seconds > 0.0:
            self.surface = self._bake(
                self.surface, seconds, self.session.values(self.heating, opened=True)
            ).column
        self.clock += seconds

    def _piece(self, number: int) -> Piece:
        raw, before = self.raw, self.surface.read("surface")
        column = load_food(surface=self.surface, food=food_of(raw, self.lanes))
        rim = self._rim()
        column, mass = self._dress(column, self.steps.before, raw.load)
        phases: list[Phase] = []
        opened = True
        for action in self.steps.actions:
            out = action.heating is None
            lifted = out and self.steps.on.hot
            values = self._during(action, opened)
            done = self._bake(column, action.seconds, values, lifted=lifted, rows=True)
            of_rim = (
                None if rim is None else self._bake(rim, action.seconds, values, lifted=lifted, rows=True)
            )
            phases.append(Phase(action.do, number, self.clock, action.seconds, out, done, of_rim))
            self.clock += action.seconds
            column, mass = self._dress(done.column, action.toppings, mass)
            rim = None if of_rim is None else of_rim.column
            opened = out
        self.surface, _ = part_food(column=column)
        after = self.surface.read("surface")
        return Piece(number, tuple(phases), column, rim, mass, before, after)

    def _during(self, action: Action, opened: bool) -> Mapping[str, Any]:
        before, session = self.heating, self.session
        if action.heating is None:
            return session.out(before)
        self.heating = action.heating
        return session.values(action.heating, opened=opened) | session.turned(before, action.heating)

    def _rim(self) -> Column | None:
        """The rim of a flat piece, on a surface as the piece itself finds it."""
        if self.raw.shape.form != "flat":
            return None
        foot = self.lanes.parameters.rim_faces
        under = replace(self.surface, solids=self.surface.solids * foot, area=self.surface.area * foot)
        return load_food(surface=under, food=food_of(self.raw, self.lanes, rim=True))

    def _dress(self, column: Column, toppings: tuple[Topping, ...], mass: Array) -> tuple[Column, Array]:
        p, area = self.lanes.parameters, self.raw.shape.area
        for one in toppings:
            load = one.mass / area
            laid = topping_column(
                load=load,
                water=one.water,
                density=one.density,
                temperature=p.cheese_start if one.cheese else p.sauce_start,
                cheese=one.cheese,
                lanes=self.lanes.count,
            )
            column, mass = dress_food(column=column, topping=laid), mass + load
        return column, mass

    def _bake(
        self,
        column: Column,
        seconds: float,
        values: Mapping[str, Any],
        *,
        lifted: bool = False,
        rows: bool = False,
    ) -> Baked:
        count = int(min(max(seconds / EVERY, 1.0), MOST_ROWS)) + 1 if rows else 2
        return bake(
            inputs=lane_inputs(values=dict(values) | {"seconds": seconds}, lanes=self.lanes.count),
            rules=rules_of(parameters=self.lanes.parameters),
            column=column,
            lifted=lifted,
            stepping=stepping_of(self.raw.shape.form),
            samples=np.linspace(0.0, 1.0, count),
            snapshots=self.session.sections and rows,
        )
