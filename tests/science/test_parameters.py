"""The parameter table: each row says how it is known, and each moves a result."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest

from doughwright.forecast._course import Setting
from doughwright.forecast.days import run_of
from doughwright.recipe.weigh import weigh
from doughwright.science.kernels.layout import Stepping
from doughwright.science.mixing import Part, ice_mass, mixing_rise
from doughwright.science.parameters import Parameters, parameter_table
from tests.forecast._documents import KITCHEN, kitchen, recipe

NAMES = [one.name for one in fields(Parameters)]
FLOUR = (
    '{{ item = "bread flour", amount = "500 g", protein = "{} %" }}, {{ item = "water", amount = "310 g" }},'
)
SALT = '{ item = "salt, fine", amount = "10 g" },'
MIX = {"do": "mix", "mix": "dough"}
GROWN = {"do": "bulk", "for": "7 h", "at": "room"}

DOUGHS = {
    "worked": (
        FLOUR.format(12)
        + SALT
        + '{ item = "instant yeast", amount = "1 g" }, { item = "active dry yeast", amount = "1 g" },'
        '{ item = "sugar, granulated", amount = "50 g" },',
        [
            MIX,
            {"do": "bulk", "for": "2 h", "at": "room", "in": "lidded tub"},
            {"do": "fold"},
            {"do": "rest", "for": "1 h", "at": "room"},
            {"do": "divide", "pieces": "3"},
            {"do": "rest", "for": "1 h", "at": "fridge"},
            {"do": "ball"},
            {"do": "rest", "for": "1 h", "at": "28 °C"},
            {"do": "shape"},
            {"do": "proof", "for": "1 h", "at": "33 °C"},
            {"do": "proof", "for": "150 min", "at": "58 °C"},
            {"do": "rest", "for": "1 h", "at": "room"},
        ],
    ),
    **{
        f"at its ceiling, {protein} %": (
            FLOUR.format(protein) + SALT + '{ item = "instant yeast", amount = "8 g" },',
            [MIX, GROWN],
        )
        for protein in (10, 11.5, 13)
    },
    "woken in the cold": (
        FLOUR.format(12)
        + '{ item = "instant yeast", amount = "1 g" }, { item = "active dry yeast", amount = "1 g" },',
        [MIX | {"dough_at": "10 °C"}, {"do": "bulk", "for": "9 h", "at": "room"}],
    ),
    "long made": (
        FLOUR.format(12) + '{ item = "instant yeast", amount = "8 g" },',
        [MIX, {"do": "bulk", "for": "30 h", "at": "28 °C"}],
    ),
}


def outcomes(parameters: Parameters) -> list[float]:
    """What several doughs, some ice and a mixer come to under a parameter set."""
    found = [
        ice_mass(water=1.0, tap=20.0, wanted=5.0, parameters=parameters),
        mixing_rise(parts=[Part(1.0, 2.8, 20.0)], flour=0.6, energy=5.0, parameters=parameters),
    ]
    for dough, steps in DOUGHS.values():
        document = recipe(steps, dough=dough, makes='shape = "ball"\npieces = 3')
        there = kitchen(KITCHEN.replace("[fridge]", "[fridge]\nfan = true"))
        setting = Setting(document, there, weigh(document), parameters, Stepping(longest=900.0), nodes=4)
        run = run_of(setting, "dough")
        found += [*run.series.rise, run.judged.ph, run.judged.tightness, run.judged.sugar, run.judged.core]
    return found


BASE = outcomes(Parameters())


@pytest.mark.parametrize("name", NAMES)
def test_every_parameter_changes_a_result(name: str) -> None:
    """Moved by 3 % (or 0.03), each parameter moves some dough, the ice or the mixer's warming."""
    value = getattr(Parameters(), name)
    assert outcomes(replace(Parameters(), **{name: value * 1.03 if value else 0.03})) != BASE


@pytest.mark.parametrize("name", NAMES)
def test_every_row_says_what_it_is_and_how_it_is_known(name: str) -> None:
    """Meaning, unit, source and one of four ways of knowing."""
    row = parameter_table()[name]
    assert row.meaning
    assert row.unit
    assert row.source
    assert row.how in ("measured", "fitted", "assumed", "from memory")
    assert row.spread is None or row.spread > 0.0


def test_the_table_shows_the_set_it_is_given() -> None:
    """A changed set has its own value in its row; an unknown name is a KeyError."""
    assert parameter_table(replace(Parameters(), air=0.1))["air"].value == 0.1
    with pytest.raises(KeyError):
        parameter_table()["nothing"]
