"""A piece cut through: temperature by depth, its layers and how far boiling has come, moment by moment."""

from __future__ import annotations

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast.bake._around import Session
from doughwright.forecast.bake._run import Phase, Piece
from doughwright.forecast.bake.results import Frame, Layer, Section, column
from doughwright.science.kernels.bake_layout import CHEESE, DOUGH, SAUCE, STATE, SURFACE, Column
from doughwright.science.steam import boiling_point
from doughwright.science.yeast import Array

FRAMES_EVERY = 30.0
"""Seconds between two frames."""
PAST = 0.5
"""Past boiling by this [K]: wet dough boils a little over the point of plain water."""

_NAMES = {SURFACE: "surface", DOUGH: "dough", SAUCE: "sauce", CHEESE: "cheese"}


def section_of(piece: Piece, session: Session) -> Section:
    """The section of a piece in the middle of what is known."""
    boiling = float(boiling_point(pressure=session.pressure)[0]) + PAST
    begin = piece.phases[0].start
    return Section(
        piece.number, tuple(one for phase in piece.phases for one in _frames(phase, begin, boiling))
    )


def _frames(phase: Phase, begin: float, boiling: float) -> list[Frame]:
    states, rows = phase.baked.snapshots, phase.baked.rows
    if states is None:
        return []
    count = len(rows)
    step = max(1, round(FRAMES_EVERY / (phase.seconds / max(count - 1, 1))))
    chosen = sorted({*range(0, count, step), count - 1})
    start = phase.start - begin
    return [_frame(phase, start + float(rows[n, 0, 0]), states[n, :, :, 0], boiling) for n in chosen]


def _frame(phase: Phase, seconds: float, state: Array, boiling: float) -> Frame:
    whole = phase.baked.column
    thick = _thickness(whole, state)
    n = whole.surface
    edges = np.concatenate([[0.0], np.cumsum(thick)]) - thick[:n].sum()
    temperature = state[STATE.index("temperature")]
    food, faces = temperature[n:], edges[n:]
    return Frame(
        time=Figure(round(seconds / 60.0, 5), "min"),
        do=phase.do,
        depth=column("cm", 100.0 * 0.5 * (edges[:-1] + edges[1:])),
        temperature=column("degC", temperature),
        layers=_layers(whole, thick),
        from_base=_cm(_reached(food, faces, boiling)),
        from_top=_cm(_reached(food[::-1], (faces[-1] - faces)[::-1], boiling)),
    )


def _thickness(whole: Column, state: Array) -> Array:
    """Each cell's thickness [m]: dough as it has sprung, a topping as it has lost mass."""
    water, sprung = state[STATE.index("water")], state[STATE.index("sprung")]
    kinds = np.array(whole.kinds)
    solids, first = whole.solids[:, 0], whole.moisture[:, 0]
    left = (solids + water) / np.maximum(solids * (1.0 + first), 1e-12)
    grown = np.where(kinds == DOUGH, 1.0 + whole.spring[:, 0] * sprung, 1.0)
    return np.asarray(whole.thickness[:, 0] * np.where(kinds >= SAUCE, left, grown))


def _layers(whole: Column, thick: Array) -> tuple[Layer, ...]:
    kinds = np.array(whole.kinds)
    return tuple(
        Layer(_NAMES[kind], _cm(float(thick[kinds == kind].sum()))) for kind in sorted(set(whole.kinds))
    )


def _reached(temperature: Array, faces: Array, boiling: float) -> float:
    """How deep from a face the cells are past boiling [m], between the middles of two cells as a line."""
    middles = 0.5 * (faces[:-1] + faces[1:])
    wet = np.flatnonzero(temperature <= boiling)
    if not len(wet):
        return float(faces[-1])
    n = int(wet[0])
    if n == 0:
        return 0.0
    hot, cold = float(temperature[n - 1]), float(temperature[n])
    return float(middles[n - 1] + (hot - boiling) / (hot - cold) * (middles[n] - middles[n - 1]))


def _cm(metres: float) -> Figure:
    return Figure(round(100.0 * metres, 5), "cm")
