"""A bare bake written a second time, as ordinary differential equations for SciPy's stiff solver.

Boiling is a relaxation onto the boiling curve; nothing evaporates below it, and steam takes up no heat.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from scipy.integrate import solve_ivp

from doughwright.science.kernels.bake_layout import Column
from doughwright.science.yeast import Array

SIGMA, WATER, LATENT, R_VAPOUR = 5.670374419e-8, 4190.0, 2256.5e3, 461.5


def saturation(t: Array) -> Array:
    """IAPWS 1992 [Pa]."""
    kelvin = t + 273.15
    th = 1.0 - kelvin / 647.096
    inner = (
        -7.85951783 * th + 1.84408259 * th**1.5 - 11.7866497 * th**3 + 22.6807411 * th**3.5
        - 15.9618719 * th**4 + 1.80122502 * th**7.5
    )  # fmt: skip
    return np.asarray(22.064e6 * np.exp(647.096 / kelvin * inner))


def vapour(t: Array, boiling: float, share: float) -> Array:
    """Conductivity of the vapour path [W/(m K)] at sea level."""
    t = np.minimum(t, boiling)
    kelvin, p = t + 273.15, saturation(t)
    latent = 1e3 * (2500.74 - 2.367 * t + 5.7084e-4 * t**2 - 1.31918e-5 * t**3)
    slope = p / (R_VAPOUR * kelvin) * (latent / (R_VAPOUR * kelvin**2) - 1.0 / kelvin)
    free = np.minimum(101325.0 / np.maximum(101325.0 - p, 1.0), 3.0)
    return np.asarray(share * 2.6e-5 * (kelvin / 298.15) ** 1.8 * latent * slope * free)


class Bake:
    """The equations of one column, its arrays taken from the kernel's, its formulas written anew."""

    def __init__(self, column: Column, values: dict[str, Any], relaxation: float) -> None:
        self.n = column.surface
        self.s, self.dz = column.solids, column.thickness
        self.x0, self.spring = column.moisture[self.n :], column.spring[self.n :]
        self.v = {name: float(np.asarray(one).flat[0]) for name, one in values.items()}
        self.relaxation = relaxation
        self.start = np.concatenate(
            [column.state[0, :, 0], column.state[1, self.n :, 0], np.zeros(len(self.x0)), np.zeros(2)]
        )

    def split(self, y: Array) -> tuple[Array, Array, Array, Array]:
        """Temperatures, water, gelatinised shares, colours."""
        cells, dough = len(self.s), len(self.x0)
        return y[:cells], y[cells : cells + dough], y[cells + dough : cells + 2 * dough], y[-2:]

    def face(self, cell: Array, half: Any, film: float, air: Array, eps: float, walls: Array) -> Array:
        """Temperature at which a face passes on what it gets."""
        f = cell + 0.5 * (walls - cell)
        for _ in range(12):
            gap = (
                film * (air - f)
                + eps * SIGMA * ((walls + 273.15) ** 4 - (f + 273.15) ** 4)
                - (f - cell) / half
            )
            f = f + gap / (film + 4.0 * eps * SIGMA * (f + 273.15) ** 3 + 1.0 / half)
        return f

    def __call__(self, t: float, y: Array) -> Array:
        """Rates of change."""
        y = y.reshape(len(self.start), -1)
        v, n = self.v, self.n
        temperature, water, g, _ = self.split(y)
        water = np.maximum(water, 1e-9)
        s, dough = self.s[n:], temperature[n:]
        x = water / s
        dry = np.clip(1.0 - x / self.x0, 0.0, 1.0)
        dz = self.dz[n:] * (1.0 + self.spring * np.clip((dough - 25.0) / 50.0, 0.0, 1.0))
        wet = v["dough_conductivity"] + vapour(dough, v["boiling"], v["vapour_share"])
        plate = np.broadcast_to(self.dz[:n] / v["surface_conductivity"], temperature[:n].shape)
        r = np.concatenate([plate, dz * (dry / v["crust_conductivity"] + (1.0 - dry) / wet)])
        between = 0.5 * (r[1:] + r[:-1])
        between[n - 1] += 1.0 / self.contact(dry, dz)
        flow = (temperature[:-1] - temperature[1:]) / between
        fade = np.exp(-t / v["door_recovery"])
        air, walls = v["air"] - fade * v["door_air"], v["walls"] - fade * v["door_walls"]
        top = self.face(dough[-1], 0.5 * r[-1], v["film"], air, v["emissivity"], walls)
        under = self.face(
            temperature[0],
            0.5 * r[0],
            v["under_film"],
            v["under_air"],
            v["surface_emissivity"],
            v["under_walls"],
        )
        net = np.zeros_like(temperature)
        net[:-1] -= flow
        net[1:] += flow
        net[0] += (under - temperature[0]) / (0.5 * r[0])
        net[-1] += (top - dough[-1]) / (0.5 * r[-1])
        capacity = np.concatenate(
            [
                np.broadcast_to(self.s[:n] * v["surface_heat"], temperature[:n].shape),
                s * v["dough_heat"] + water * WATER,
            ]
        )
        held = (v["sorption_moisture"] / x) ** 2.5
        over = np.maximum(dough - v["boiling"] - np.log1p(held) / v["boiling_rise"], 0.0)
        boiled = self.relaxation * capacity[n:] * over / LATENT
        net[n:] -= LATENT * boiled
        base = dough[0] + flow[n - 1] * 0.5 * r[n]
        colour = [
            np.where(at > 90.0, v["browning"] * 42000.0 * np.exp(-64151.0 / (8.314 * (at + 273.15))), 0.0)
            for at in (base, top)
        ]
        setting = 2.8e18 * np.exp(-139000.0 / (8.314 * (dough + 273.15))) * (1.0 - g)
        return np.concatenate([net / capacity, -boiled, setting, np.array(colour) * (52.0 - y[-2:])])

    def contact(self, dry: Array, dz: Array) -> Array:
        """Conductance to the surface."""
        depth, going = np.zeros_like(dry[0]), np.ones_like(dry[0])
        for one, thick in zip(dry, dz, strict=True):
            going = going * (one > 0.02)
            depth = depth + going * one * thick
            going = going * (one >= 0.6)
        v = self.v
        return np.asarray(
            v["contact_dry"] + (v["contact_wet"] - v["contact_dry"]) * np.exp(-depth / v["contact_depth"])
        )

    def solve(self, seconds: float) -> dict[str, float]:
        """What comes of it."""
        found = solve_ivp(
            self,
            (0.0, seconds),
            self.start,
            method="BDF",
            rtol=1e-5,
            atol=1e-7,
            max_step=5.0,
            vectorized=True,
        )
        temperature, water, _, colour = self.split(found.y[:, -1])
        whole = self.split(self.start)[1].sum()
        return {
            "lost": float(whole - water.sum()), "base_cell": float(temperature[self.n]),
            "base_browning": float(colour[0]), "top_browning": float(colour[1]),
            "surface": float(temperature[self.n - 1]),
        }  # fmt: skip
