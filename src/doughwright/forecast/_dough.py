"""A dough as the days see it: what is in it, the state of each shell, and what mixing and work do to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

import numpy as np

from doughwright.science.ferment import Ferment, Medium, medium, throughout
from doughwright.science.gas import GasSplit, degas, gas_basis, split_gas
from doughwright.science.heat import Body, ball
from doughwright.science.kernels.layout import fit_lanes
from doughwright.science.kernels.tables import tables
from doughwright.science.parameters import Parameters
from doughwright.science.properties import Solids, conductivity_maxwell, dough_solids, porosity
from doughwright.science.yeast import Array, Real


@dataclass(frozen=True, slots=True)
class Contents:
    """What is in a dough, in grams: the whole of it, not per 100 g of flour.

    ``water`` is all that is added, ``sugar`` what yeast can use of the added, ``lactose`` what it cannot;
    ``flour_protein`` is the flour's own; the last six are the dough's composition for its heat.
    """

    flour: Real = 0.0
    mass: Real = 0.0
    water: Real = 0.0
    salt: Real = 0.0
    sugar: Real = 0.0
    lactose: Real = 0.0
    flour_protein: Real = 0.0
    all_water: Real = 0.0
    all_protein: Real = 0.0
    all_fat: Real = 0.0
    all_carbohydrate: Real = 0.0
    all_fibre: Real = 0.0
    all_ash: Real = 0.0

    def __add__(self, other: Contents) -> Contents:
        return Contents(*(getattr(self, one.name) + getattr(other, one.name) for one in fields(self)))

    def scaled(self, factor: Real) -> Contents:
        """The same in another quantity."""
        return Contents(*(getattr(self, one.name) * factor for one in fields(self)))

    @property
    def composition(self) -> Array:
        """Water, protein, fat, carbohydrate, fibre and ash [g], shape (6,) or (6, lanes)."""
        return np.array(np.broadcast_arrays(*(getattr(self, one.name) for one in fields(self)[-6:])))

    def percent(self, name: str) -> Real:
        """One of the fields per 100 g of flour."""
        return np.asarray(100.0 * getattr(self, name) / self.flour)[()]


@dataclass(frozen=True, slots=True)
class Yeast:
    """Yeast that goes in: ``fresh`` [g, as fresh] and its gassing ``lag`` [h at 30 degC]."""

    fresh: Real
    lag: Real


@dataclass(frozen=True)
class Dough:
    """A dough at one moment; ``temperature`` [degC] and ``state`` by shell from the core out, then by lane.

    A lane is a kitchen; whatever else differs from kitchen to kitchen is an array of shape (lanes,), and one
    kitchen is one lane. ``kept`` is the share of it that left the bowl. ``brought`` is the gas its
    preferments had made [mL per 100 g flour]: not part of what this dough made.
    """

    contents: Contents
    solids: Solids
    medium: Medium
    body: Body
    state: Ferment
    temperature: Array
    tightness: Array
    brought: Real
    parameters: Parameters
    kept: float = 1.0

    @property
    def lanes(self) -> int:
        """How many kitchens it is in at once."""
        return int(self.temperature.shape[1])

    @property
    def pieces(self) -> Real:
        """How many pieces like this one stand together."""
        return self.contents.mass * self.kept / 1000.0 / self.body.mass

    def split(self) -> GasSplit:
        """Its gas now, dissolved and in bubbles."""
        return split_gas(
            gas=self.state.gas,
            temperature=self.temperature,
            basis=self.medium.basis,
            parameters=self.parameters,
            solubility=tables(self.parameters).solubility(self.temperature),
        )

    def mean(self, values: Array) -> Array:
        """The mean by mass of something known in each shell, a value each lane."""
        return np.asarray(self.body.shares @ values)

    def conductivity(self, rise: Array) -> Array:
        """Conductivity of each shell [W/(m K)] at this rise of each."""
        return conductivity_maxwell(
            solid=self.solids.conductivity + self.solids.slope * self.mean(self.temperature),
            porosity=porosity(rise=rise, parameters=self.parameters),
            parameters=self.parameters,
        )


@dataclass(frozen=True, slots=True)
class Joining:
    """A dough that goes into a mix, in part or whole; ``itself`` where it is this dough, mixed once more."""

    dough: Dough
    share: Real
    itself: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a dough is made and how it is cut for the model; ``kept`` is the share that leaves the bowl."""

    altitude: Real = 0.0
    kept: float = 1.0
    nodes: int = 16
    lanes: int = 1


def mix(
    joining: Sequence[Joining],
    added: Contents,
    yeast: Sequence[Yeast],
    temperature: Real,
    frame: Frame,
    parameters: Parameters,
) -> Dough:
    """Mix doughs and ingredients: free gas goes, all else passes over by flour share, even throughout."""
    contents = sum((one.dough.contents.scaled(one.share) for one in joining), added)
    shares = [one.dough.contents.flour * one.share / contents.flour for one in joining]
    new = [Yeast(100.0 * one.fresh / contents.flour, one.lag) for one in yeast]
    state, lag = _joined_state(joining, shares, added, contents, new, parameters)
    at_mixing = sum(one.fresh for one in new) + sum(
        share * (one.dough.medium.at_mixing if one.itself else one.dough.mean(one.dough.state.yeast))
        for one, share in zip(joining, shares, strict=True)
    )
    basis = gas_basis(
        mass=contents.percent("mass"),
        water=contents.percent("water"),
        protein=100.0 * contents.flour_protein / contents.flour,
        altitude=frame.altitude,
        parameters=parameters,
    )
    within = medium(
        salt=contents.percent("salt"),
        water=contents.percent("water"),
        sugar=contents.percent("sugar") + contents.percent("lactose"),
        lag=lag,
        at_mixing=at_mixing,
        basis=basis,
        parameters=parameters,
    )
    body = ball(
        mass=contents.mass / 1000.0 * frame.kept,
        density=parameters.fresh_density * 1000.0,
        nodes=frame.nodes,
    )
    return Dough(
        contents=contents,
        solids=dough_solids(composition=contents.composition),
        medium=within,
        body=body,
        state=Ferment(*(_everywhere(value, frame) for value in state)),
        temperature=_everywhere(temperature, frame),
        tightness=np.ones(frame.lanes),
        brought=sum(
            share * (one.dough.brought if one.itself else one.dough.mean(one.dough.state.made))
            for one, share in zip(joining, shares, strict=True)
        ),
        parameters=parameters,
        kept=frame.kept,
    )


def _everywhere(value: Real, frame: Frame) -> Array:
    return throughout(value=fit_lanes(value=value, lanes=frame.lanes), nodes=frame.nodes)


def _joined_state(
    joining: Sequence[Joining],
    shares: Sequence[Real],
    added: Contents,
    contents: Contents,
    new: Sequence[Yeast],
    parameters: Parameters,
) -> tuple[tuple[Real, ...], Real]:
    """The values of a Ferment right after mixing, and the mean gassing lag."""
    old_sugar = (added.sugar * 100.0 + added.flour * parameters.native_sugar) / contents.flour
    totals: dict[str, Real] = {"yeast": sum(one.fresh for one in new), "sugar": old_sugar}
    totals |= dict.fromkeys(("maltose", "gas", "made", "leaked"), 0.0)
    woken: Real = 0.0
    grown: Real = 0.0
    lag: Real = sum(one.fresh * one.lag for one in new)
    for one, share in zip(joining, shares, strict=True):
        old = worked(one.dough, degassed=1.0, tightened=False)
        for name in totals:
            if name != "leaked" or one.itself:
                totals[name] = totals[name] + share * getattr(old.state, name)[0]
        cells = share * old.state.yeast[0]
        woken = woken + cells * old.state.woken[0]
        grown = grown + cells * old.state.grown[0]
        lag = lag + cells * old.medium.lag
    there = np.asarray(totals["yeast"]) > 0.0
    whole = np.where(there, totals["yeast"], 1.0)
    means = [np.where(there, one / whole, 0.0) for one in (woken, grown)]
    return (*totals.values(), *means), np.where(there, lag / whole, parameters.gassing_lag)


def worked(dough: Dough, *, degassed: Real, tightened: bool, body: Body | None = None) -> Dough:
    """Work a dough: even it out, lose a share of its free gas, then give it its new body."""
    shares = dough.body.shares
    to = body or dough.body
    even = replace(
        dough,
        state=dough.state.evened(shares, to.nodes),
        temperature=throughout(value=dough.mean(dough.temperature), nodes=to.nodes),
        body=to,
    )
    gas = degas(gas=even.state.gas, dissolved=even.split().dissolved, share=degassed)
    tightness = np.ones(dough.lanes) if tightened else dough.tightness
    return replace(even, state=replace(even.state, gas=gas), tightness=tightness)
