"""From what came of each piece to figures: colour, loss, core, when it sets, and its state."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast.bake._around import Session
from doughwright.forecast.bake._figures import colour_of, figure_of
from doughwright.forecast.bake._raw import far_from_core
from doughwright.forecast.bake._run import Piece
from doughwright.forecast.bake.results import (
    BakeEvent,
    BakeSeries,
    Filling,
    PieceBaked,
    Share,
    State,
    Wanted,
    column,
)
from doughwright.recipe.model import Recipe
from doughwright.science.browning import COLOUR_WORDS, colour_word, lightness_of_change
from doughwright.science.kernels.bake_layout import ROWS, Column
from doughwright.science.materials import areal_capacity
from doughwright.science.oven import recovery_time_constant
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import boiling_point
from doughwright.science.yeast import Array, Mask

LEAN, RICH = 7.0, 12.0
"""Baked through is the coldest dough this close to boiling [K]: craft books want 93 to 99 degC of a lean
dough, 88 to 93 of a rich one (from memory), by the sea."""

Fill = Callable[[dict[str, Array]], Filling | None]

STATES: tuple[State, ...] = ("raw", "pale", "right", "dark", "burnt")


@dataclass(frozen=True, slots=True)
class Judge:
    """What a base is held against: L* ``low`` to ``high``, and below ``char`` it is burnt."""

    low: float
    high: float
    char: float

    def states(self, base: Array, rim: Array, is_set: Mask) -> Array:
        """The state of each lane, as its number in STATES."""
        found = np.where(base > self.high, 1, np.where(base < self.low, 3, 2))
        found = np.where((base < self.char) | (rim < self.char), 4, found)
        return np.asarray(np.where(is_set, found, 0))


def wanted_of(recipe: Recipe) -> tuple[Wanted, Judge]:
    """The base that is right: the target's, else golden."""
    word = recipe.target.base or "golden"
    bands = {name: (low, high) for name, low, high in COLOUR_WORDS}
    low, high = bands[word]
    char = bands["burnt"][1]
    top = 100.0 if word == "pale" else high
    return (
        Wanted(word, Figure(low, "L*"), Figure(top, "L*"), recipe.target.base is None),
        Judge(low, top, char),
    )


def piece_of(piece: Piece, session: Session, recipe: Recipe, filling: Fill) -> PieceBaked:
    """One piece as figures; ``filling`` says what the Food Code wants of its toppings."""
    wanted, judge = wanted_of(recipe)
    base, rim = lightness(piece, session)
    p, done = session.lanes.parameters, piece.column
    set_at = done.read("set_at")
    states = judge.states(base, rim, _has_set(done, session))
    dead = _first(piece, "killed", np.asarray(p.yeast_dead))
    done_at = boiling_point(pressure=session.pressure) - (RICH if session.raw.rich else LEAN)
    through = _first(piece, "core", done_at)
    toppings = {kind: _hottest(piece, kind) for kind in ("sauce", "cheese") if _has(piece, kind)}
    peak = done.read("core_peak")
    never = f"not in this bake: its coldest dough comes to {float(peak[0]):.0f} °C"
    state = STATES[int(states[0])]
    above = "top" if piece.rim is None else "rim"
    return PieceBaked(
        number=piece.number,
        base_lightness=figure_of(base, "L*"),
        rim_lightness=figure_of(rim, "L*"),
        weight_loss=figure_of(100.0 * done.read("lost") / piece.raw_mass, "percent"),
        core_peak=figure_of(peak, "degC"),
        surface_before=figure_of(piece.before, "degC"),
        surface_after=figure_of(piece.after, "degC"),
        set_at=figure_of(set_at, "s", _line(done, peak, session) or never),
        yeast_dead_at=figure_of(dead, "s", never),
        through_at=figure_of(through, "s", never),
        base=colour_of(base),
        rim=colour_of(rim),
        state=state,
        state_why=_why(state, base, rim, judge, wanted, above) + _rim_why(rim, recipe.target.rim, above),
        share=_share(states),
        sauce=figure_of(toppings["sauce"], "degC") if "sauce" in toppings else None,
        cheese=figure_of(toppings["cheese"], "degC") if "cheese" in toppings else None,
        filling=filling(toppings),
        moisture=figure_of(100.0 * _crumb(done, session), "percent"),
        recover=_recover(piece, session),
    )


def _line(done: Column, peak: Array, session: Session) -> str | None:
    """Why a piece whose crumb has set does not count as set: a line in it that stayed cooler."""
    if not bool(_has_set(done, session)[0]):
        return None
    share = 100.0 * float(done.state[2, done.dough].min(axis=0)[0])
    where = "under the toppings" if len(done.kinds) > done.dough.stop else "of its dough"
    return f"a line {where} comes only to {int(peak[0])} °C, and may stay gummy ({share:.0f} % of it set)"


def lightness(piece: Piece, session: Session) -> tuple[Array, Array]:
    """L* of base and rim in each lane; the rim of a bun or a loaf is its top."""
    above: Column = piece.column if piece.rim is None else piece.rim
    return _light(piece.column.read("base_browning"), session), _light(above.read("top_browning"), session)


def _light(change: Array, session: Session) -> Array:
    return lightness_of_change(change=change, parameters=session.lanes.parameters)


def _why(state: State, base: Array, rim: Array, judge: Judge, wanted: Wanted, above: str) -> str:
    asked = f"{wanted.word} is {'meant' if wanted.assumed else 'asked for'}"
    light = f"L* {float(base[0]):.0f}"
    if state == "raw":
        return "its crumb has not set"
    if state == "burnt":
        what = "base" if float(base[0]) < judge.char else above
        value = float(base[0] if what == "base" else rim[0])
        return f"the {what} is at L* {value:.0f}, burnt below {judge.char:g}"
    band = f"L* {judge.low:g} to {judge.high:g}"
    return f"the base is at {light}; {asked}, {band}"


def _rim_why(rim: Array, asked: str | None, above: str) -> str:
    """Whether the rim is as the document wants it; a state is that of the base alone."""
    if asked is None:
        return ""
    word = colour_word(lightness=float(np.clip(rim[0], 0.0, 100.0)))
    return f"; the {above} is {word}, " + ("as asked" if word == asked else f"{asked} is asked for")


def _share(states: Array) -> Share | None:
    drawn = states[1:]
    if not len(drawn):
        return None
    counts = np.bincount(drawn.astype(int), minlength=len(STATES)) / len(drawn)
    return Share(
        **{
            name: Figure(round(100.0 * one, 3), "percent")
            for name, one in zip(STATES, counts.tolist(), strict=True)
        }
    )


def _rows(piece: Piece, name: str) -> tuple[Array, Array]:
    """Seconds since loading and values of a row, over all phases: (samples,), (samples, lanes)."""
    which, begin = ROWS.index(name), piece.phases[0].start
    time = np.concatenate([one.start - begin + one.baked.rows[:, 0, 0] for one in piece.phases])
    return time, np.concatenate([one.baked.rows[:, which] for one in piece.phases])


def _first(piece: Piece, name: str, level: Array) -> Array:
    """When a row first comes to a level [s since loading], NaN where it never does."""
    time, values = _rows(piece, name)
    there = values >= level
    at = np.argmax(there, axis=0)
    lane = np.arange(values.shape[1])
    before = np.maximum(at - 1, 0)
    low, high = values[before, lane], values[at, lane]
    part = np.where(high > low, (level - low) / np.where(high > low, high - low, 1.0), 1.0)
    found = time[before] + np.clip(part, 0.0, 1.0) * (time[at] - time[before])
    return np.where(there.any(axis=0), found, np.nan)


def _hottest(piece: Piece, name: str) -> Array:
    return np.asarray(np.nanmax(_rows(piece, name)[1], axis=0))


def _last(piece: Piece, name: str) -> Array:
    return np.asarray(_rows(piece, name)[1][-1])


def _inside(column: Column, session: Session) -> Mask:
    """Which cells of the dough are crumb: the half of it by mass that lies nearest to the core."""
    solids = column.solids[column.dough]
    middle = (np.cumsum(solids, axis=0) - 0.5 * solids) / solids.sum(axis=0)
    return far_from_core(session.raw, middle) < 0.5


def _crumb(column: Column, session: Session) -> Array:
    """Share of water in the crumb."""
    inside = _inside(column, session)
    parts = (column.state[1, column.dough], column.solids[column.dough])
    wet, dry = (np.where(inside, one, 0.0).sum(axis=0) for one in parts)
    return np.asarray(wet / (wet + dry))


def _has_set(column: Column, session: Session) -> Mask:
    """Whether the crumb has set in each lane, though a line under toppings or at a face may not have."""
    share = np.where(_inside(column, session), column.state[2, column.dough], 1.0).min(axis=0)
    return np.asarray(~np.isnan(column.read("set_at")) | (share >= session.lanes.parameters.spring_stop))


def _has(piece: Piece, name: str) -> bool:
    return bool(np.isfinite(_last(piece, name)).all())


def _recover(piece: Piece, session: Session) -> Figure:
    """How long the surface takes, by itself, to within 10 K of what it was before the piece."""
    on, p = session.steps.on, session.lanes.parameters
    if not on.hot:
        return Figure(None, "min", why=f"the {on.name} leaves the oven with its piece")
    held = areal_capacity(
        density=on.material.density, heat_capacity=on.material.heat_capacity, thickness=on.thickness
    )
    constant = recovery_time_constant(areal_capacity=held, parameters=p)
    fallen = np.maximum((piece.before - piece.after) / p.preheat_within, 1.0)
    return figure_of(np.asarray(constant * np.log(fallen) / 60.0), "min")


def series_of(pieces: tuple[Piece, ...], session: Session) -> BakeSeries:
    """Every row of every piece in the middle of what is known, in one clock."""
    names = ("base", "top", "core", "surface", "sauce", "cheese", "lost", "base_browning")
    rows: dict[str, list[float]] = {one: [] for one in ("time", "piece", "rim", *names)}
    for piece in pieces:
        for phase in piece.phases:
            got = phase.baked.rows[:, :, 0]
            above = got if phase.rim is None else phase.rim.rows[:, :, 0]
            rows["time"] += ((phase.start + got[:, 0]) / 60.0).tolist()
            rows["piece"] += [float(piece.number)] * len(got)
            rows["rim"] += above[:, ROWS.index("top_browning")].tolist()
            for name in names:
                rows[name] += got[:, ROWS.index(name)].tolist()
    whole = np.array([float(pieces[int(one) - 1].raw_mass[0]) for one in rows["piece"]])
    return BakeSeries(
        time=column("min", rows["time"]),
        piece=tuple(int(one) for one in rows["piece"]),
        **{name: column("degC", rows[name]) for name in names[:6]},
        loss=column("percent", (100.0 * np.array(rows["lost"]) / whole).tolist()),
        base_lightness=column("L*", _middle_light(rows["base_browning"])),
        rim_lightness=column("L*", _middle_light(rows["rim"])),
    )


def _middle_light(change: list[float]) -> list[float]:
    found: list[float] = lightness_of_change(change=np.array(change), parameters=OvenParameters()).tolist()
    return found


def events_of(pieces: tuple[Piece, ...]) -> tuple[BakeEvent, ...]:
    """What was done with each piece, and when."""
    return tuple(
        BakeEvent(
            phase.do,
            piece.number,
            Figure(round(phase.start / 60.0, 5), "min"),
            Figure(round((phase.start + phase.seconds) / 60.0, 5), "min"),
            not phase.out,
        )
        for piece in pieces
        for phase in piece.phases
    )
