"""What a piece is baked on: a surface of the kitchen, an assumed one, or the tin or tray it stands in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.model import Surface
from doughwright.recipe.model import Recipe
from doughwright.science.materials import MATERIALS, Material, material

CELLS = {"stone": 6, "metal": 2, "sheet": 1}
"""Cells of a surface: stone has its own profile, metal hardly one."""

_KINDS = {"stone": "cordierite", "steel": "carbon steel", "iron": "cast iron"}
_PANS = {
    "aluminium": ("aluminium", 1.0e-3), "aluminum": ("aluminium", 1.0e-3), "iron": ("cast iron", 4.0e-3),
    "stainless": ("stainless steel", 0.8e-3),
}  # fmt: skip
_DISHES = ("glass", "ceramic", "clay", "stoneware", "porcelain", "silicone")
_NAMES = tuple(one.name for one in MATERIALS)


@dataclass(frozen=True, slots=True)
class On:
    """What a piece lies on: its name, its ``material``, its ``thickness`` [m]; ``hot`` where it waits in the
    oven for the piece, not where it goes in with it; ``oiled`` where oil fills the gap."""

    name: str
    material: Material
    thickness: float
    hot: bool = True
    oiled: bool = False

    @property
    def cells(self) -> int:
        """How many cells it is cut into."""
        return CELLS[self.material.kind]


def surface_of(wanted: str | None, kitchen: Surroundings, said: list[str]) -> On:
    """The surface meant: the kitchen's by name, else by material, else its first; without any an assumed one.

    What is assumed is added to ``said``.
    """
    name = wanted.casefold() if wanted is not None else None
    if not kitchen.surfaces:
        return _assumed(name, said)
    for one in kitchen.surfaces:
        if name is not None and one.name.casefold() == name:
            return _own(one, said)
    if (found := _by_material(name, kitchen.surfaces)) is not None:
        return _own(found, said)
    first = kitchen.surfaces[0]
    meant = f'no "{wanted}" here' if wanted else "no surface is named"
    said.append(f'{meant}: this kitchen\'s "{first.name}" is meant')
    return _own(first, said)


def _by_material(name: str | None, surfaces: Sequence[Surface]) -> Surface | None:
    if name is None:
        return None
    for one in surfaces:
        made = _material_of(one)
        if made is not None and (made.name == _KINDS.get(name, name) or made.kind == name):
            return one
        if made is not None and name in ("steel", "iron") and name in made.name:
            return one
    return None


def _assumed(name: str | None, said: list[str]) -> On:
    if name is None:
        said.append("no surface is named and the kitchen has none: a cold tray is meant")
        return On("tray", material(name="tray"), material(name="tray").thickness, hot=False)
    known = _KINDS.get(name, name)
    made = material(name=known if known in _NAMES else "cordierite")
    metal = "steel" if made.kind == "sheet" else made.name
    said.append(f"the {name} is {made.thickness * 1e3:g} mm of {metal}")
    return On(name, made, made.thickness)


def _own(surface: Surface, said: list[str]) -> On:
    made = _material_of(surface)
    if made is None:
        made = material(name="cordierite")
        said.append(f'"{surface.name}" says no material: cordierite is meant')
    if surface.thickness is None:
        said.append(f'"{surface.name}" says no thickness: {made.thickness * 1e3:g} mm is meant')
    return On(surface.name, made, surface.thickness or made.thickness)


def _material_of(surface: Surface) -> Material | None:
    if surface.material is not None:
        return material(name=surface.material)
    name = surface.name.casefold()
    known = [_KINDS[one] for one in _KINDS if one in name] + [one for one in _NAMES if one in name]
    return material(name=known[-1]) if known else None


def container_of(recipe: Recipe, kind: str, said: list[str]) -> On:
    """The tin or the tray that a piece goes into the oven with, cold, by what it is said to be made of."""
    text = (recipe.makes.material or "").casefold()
    for word, (name, thickness) in _PANS.items():
        if word in text:
            said.append(f"a {kind} of {thickness * 1e3:g} mm {name}, going in cold")
            return On(kind, material(name=name), thickness, hot=False)
    made = material(name="tray" if kind == "tray" else "tin")
    if any(word in text for word in _DISHES):
        said.append(f"{text} is not modelled: it is run as thin steel, and heats later than that")
    said.append(f"a {kind} of {made.thickness * 1e3:g} mm steel, going in cold")
    return On(kind, made, made.thickness, hot=False)
