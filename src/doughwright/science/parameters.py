"""The parameters of the models: value, unit, how each is known, how far it may be off, and its source.

A parameter set is a frozen dataclass; ``dataclasses.replace`` makes another. ``parameter_table()`` lists
the rows for people. Time is in hours and the basis 100 g of flour as weighed, as in the sources.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from doughwright.science.parameter_rows import (
    How,
    ParameterRow,
    ParameterTable,
    SpreadKind,
    row,
    table_of,
    varied,
)

__all__ = ["ParameterRow", "ParameterTable", "Parameters", "parameter_table", "varied"]


def _row(
    value: float,
    unit: str,
    meaning: str,
    how: How,
    source: str,
    spread: float | None = None,
    spread_kind: SpreadKind = "relative",
) -> Any:
    return row(
        value=value,
        unit=unit,
        meaning=meaning,
        how=how,
        source=source,
        spread=spread,
        spread_kind=spread_kind,
    )


_SLATOR = "Slator 1906, J. Chem. Soc. 89:128, quoted in Harden 1911; Ratkowsky form fitted to his ratios"
_SEMIKHATOVA = "Semikhatova 1980, growth of baker's yeast, cardinal-temperature form fitted to it"
_SALT = "shape osmotic; size from Reed & Nagodawithana 1991 and Lynch et al. 2009 type data"
_CAMPBELL = "Campbell et al. 1993, Cereal Chem. 70:517 and the work before it"
_FILM = "Laguerre et al. 2007, 2010: convection and radiation about as large as each other"
_DEGAS = "no measurement found; a prior of plus or minus 0.1 is meant"


@dataclass(frozen=True)
class Parameters:
    """One parameter set of the dough models; see each row's metadata, or ``parameter_table()``."""

    gassing_30: float = _row(
        120.0,
        "mL/(g h)",
        "gas made by 1 g fresh yeast in an hour at 30 degC, 2 % salt, 62 % water, sugar not limiting",
        "fitted",
        "consensus of fermentometer, lifting-power and rheofermentometer figures; tuned on rows 6 to 8",
        0.17,
    )
    gassing_minimum: float = _row(
        -1.8,
        "degC",
        "gassing stops below",
        "fitted",
        _SLATOR + "; the value at 4 degC is known to x/1.5",
        1.0,
        "absolute",
    )
    gassing_slope: float = _row(
        0.30, "1/degC", "how sharply gassing falls near its upper end", "fitted", _SLATOR
    )
    gassing_maximum: float = _row(50.0, "degC", "gassing stops above", "fitted", _SLATOR)
    gassing_lag: float = _row(
        0.25,
        "h at 30 degC",
        "time constant of the gassing lag: instant, fresh, or dry yeast woken in warm water",
        "from memory",
        "Reed & Nagodawithana 1991, Yeast Technology: 10 to 20 min to full rate",
        0.40,
    )
    gassing_lag_dry: float = _row(
        0.6,
        "h at 30 degC",
        "time constant of the gassing lag: active dry yeast put in dry",
        "from memory",
        "trade bulletins: 30 to 45 min more than instant yeast",
        0.40,
    )
    cold_shock_dry: float = _row(
        0.35,
        "1",
        "share of its gassing that active dry yeast loses when it wakes in dough at 5 degC",
        "from memory",
        "Ponte 1960s, trade bulletins: 20 to 50 % lost where it wakes under 15 degC",
        0.10,
        "absolute",
    )
    cold_shock_instant: float = _row(
        0.08,
        "1",
        "share of its gassing that instant yeast, mixed into flour, loses when it wakes in dough at 5 degC",
        "assumed",
        "much less hurt in flour than bare (trade bulletins)",
        0.04,
        "absolute",
    )
    sugar_half: float = _row(
        0.10,
        "% of flour",
        "sugar at which gassing is half of its full rate",
        "assumed",
        "no measurement found",
    )
    gassing_salt_limit: float = _row(
        2.6, "mol/L", "salt in the dough's water that stops gassing", "from memory", _SALT
    )
    growth_salt_limit: float = _row(
        2.2, "mol/L", "salt in the dough's water that stops growth", "from memory", _SALT
    )
    salt_reference: float = _row(
        0.462,
        "mol/L",
        "salt in the water of the dough gassing_30 is defined for",
        "assumed",
        "2 % salt, 62 % water",
    )
    brine_water: float = _row(
        12.0,
        "g per 100 g flour",
        "the flour's own water counted into the brine",
        "assumed",
        "flour at 14 % moisture",
    )
    sugar_inhibition: float = _row(
        0.045,
        "per % of flour",
        "fall of gassing for each per cent of added sugar past the threshold",
        "from memory",
        "AACC 89-01.01 practice at 0, 8 and 20 % sugar",
    )
    sugar_threshold: float = _row(
        5.0, "% of flour", "added sugar that does not slow a lean yeast", "measured", "Marek & Bushuk 1967"
    )
    growth_optimum_rate: float = _row(
        0.335, "1/h", "growth at its best temperature", "fitted", _SEMIKHATOVA, 0.20
    )
    growth_minimum: float = _row(
        2.5, "degC", "growth stops below", "fitted", _SEMIKHATOVA + ", fixed in the fit"
    )
    growth_optimum: float = _row(34.0, "degC", "growth is fastest at", "fitted", _SEMIKHATOVA)
    growth_maximum: float = _row(43.0, "degC", "growth stops above", "fitted", _SEMIKHATOVA)
    growth_lag: float = _row(
        0.45,
        "1",
        "growth (integral of its rate) passed before yeast multiplies",
        "fitted",
        "cell counts; tuned on row 7",
        0.40,
    )
    growth_cap: float = _row(
        0.65,
        "g per 100 g flour",
        "most new yeast a dough can grow, as fresh",
        "fitted",
        "cell counts by dose (Hoffman et al. 1941 lineage); tuned on row 7",
        0.15,
        "absolute",
    )
    death_temperature: float = _row(
        52.0,
        "degC",
        "yeast that has been this hot is dead",
        "assumed",
        "yeast killed about 55 to 60 degC; ruled",
    )
    native_sugar: float = _row(
        1.5,
        "% of flour",
        "sugar of the flour yeast can use at once",
        "measured",
        "Saunders, Ng & Kline 1972: about 1.7",
    )
    maltose_rate: float = _row(
        0.45,
        "% of flour/h",
        "maltose made at first, at 30 degC",
        "from memory",
        "start 0.4 to 0.6 for normal flour",
    )
    maltose_q10: float = _row(
        1.85,
        "1",
        "maltose formation 10 degC warmer",
        "measured",
        "wheat amylases, 25 to 35 degC: 1.83 to 1.93",
    )
    maltose_limit: float = _row(
        5.5, "% of flour", "maltose a dough can make in all", "measured", "Saunders, Ng & Kline 1972"
    )
    gas_yield: float = _row(
        255.0,
        "mL/g",
        "gas from 1 g of sugar, at 25 degC and 1 atm",
        "fitted",
        "94 % of 272 mL/g (stoichiometry)",
    )
    fermentation_heat: float = _row(
        0.55,
        "kJ/g",
        "heat from 1 g of sugar",
        "from memory",
        "wine and brewing calorimetry, 100 kJ/mol",
        0.07,
        "absolute",
    )
    split_water: float = _row(
        13.0,
        "g per 100 g flour",
        "the flour's own water counted where gas dissolves",
        "assumed",
        "14 % moisture",
    )
    dissolving: float = _row(
        0.85,
        "1",
        "gas dough's water holds, of what pure water would",
        "from memory",
        "salting-out, bound water",
        0.08,
        "absolute",
    )
    air: float = _row(
        0.08,
        "1",
        "share of a fresh dough that is air",
        "from memory",
        _CAMPBELL + ": 5 to 12 %",
        0.02,
        "absolute",
    )
    fresh_density: float = _row(
        1.12, "g/mL", "density of a dough just mixed", "from memory", _CAMPBELL + ": 1.10 to 1.20"
    )
    retention: float = _row(
        0.95,
        "1",
        "share of the bubbles' growth that shows as volume",
        "from memory",
        "rheofermentometer",
        0.04,
        "absolute",
    )
    ceiling_weak: float = _row(
        2.6, "1", "volume ratio at which a weak dough (10 % protein) leaks", "assumed", "jars: 2.3 to 2.8"
    )
    ceiling_medium: float = _row(
        3.0,
        "1",
        "volume ratio at which a middling dough (11.5 % protein) leaks",
        "assumed",
        "between the two",
    )
    ceiling_strong: float = _row(
        3.5, "1", "volume ratio at which a strong dough (13 % protein) leaks", "assumed", "jars: 3 to 3.5"
    )
    degas_fold: float = _row(
        0.3, "1", "share of the free gas lost in a fold", "assumed", _DEGAS, 0.1, "absolute"
    )
    degas_divide: float = _row(
        0.5, "1", "share of the free gas lost in dividing", "assumed", _DEGAS, 0.1, "absolute"
    )
    degas_ball: float = _row(
        0.9, "1", "share of the free gas lost in balling", "assumed", _DEGAS, 0.1, "absolute"
    )
    degas_shape: float = _row(
        1.0, "1", "share of the free gas lost in shaping", "assumed", _DEGAS, 0.1, "absolute"
    )
    film_still: float = _row(
        7.5, "W/(m2 K)", "heat transfer in still air, room or fridge", "from memory", _FILM, 0.3
    )
    film_fan: float = _row(
        15.0,
        "W/(m2 K)",
        "heat transfer in the moving air of a fridge with a fan, to dough that is not lidded",
        "from memory",
        "10 to 20, science notes: fan fridge, prover with moving air",
        0.3,
    )
    film_lidded: float = _row(
        4.0, "W/(m2 K)", "heat transfer under a lid, through its air", "from memory", "3 to 5", 0.3
    )
    slump_area: float = _row(
        1.2, "1", "skin of a free-standing dough over that of a sphere", "assumed", "a ball that has slumped"
    )
    air_conductivity: float = _row(
        0.025, "W/(m K)", "heat conductivity of the gas in dough", "measured", "tables of air"
    )
    tightness_25: float = _row(
        25.0,
        "min",
        "time in which tightness falls to 1/e at 25 degC",
        "from memory",
        "after Launay & Bure 1974",
    )
    tightness_q10: float = _row(
        1.9, "1", "slackening 10 degC warmer", "from memory", "2 to 3 times slower at 4 degC"
    )
    ph_start: float = _row(
        5.95, "pH", "pH of a fresh dough (a heuristic)", "from memory", "5.8 to 6.1, trade magazine"
    )
    ph_fall: float = _row(
        0.10,
        "pH per 100 mL",
        "fall of pH with the gas made (a heuristic)",
        "from memory",
        "AIB, Pyler: 5.9 to 5.4 in 3 to 4 h",
    )
    ph_floor: float = _row(
        5.0, "pH", "lowest pH of a yeasted dough (a heuristic)", "from memory", "sponges 4.9 to 5.2"
    )
    flour_heat: float = _row(
        1.9,
        "kJ/(kg K)",
        "heat capacity of flour",
        "from memory",
        "1.76 (Cengel & Boles) to 2.01 (Choi & Okos)",
    )
    water_heat: float = _row(4.186, "kJ/(kg K)", "heat capacity of water", "measured", "physical tables")
    ice_heat: float = _row(333.6, "kJ/kg", "heat that melts ice", "measured", "physical tables: 144 Btu/lb")
    hydration_heat: float = _row(
        15.0, "kJ/kg flour", "heat of wetting flour", "measured", "trade magazine, 6.5 Btu per lb of flour"
    )


def parameter_table(parameters: Parameters | None = None) -> ParameterTable:
    """Every parameter of a set with its unit, source and spread.

    Parameters
    ----------
    parameters : Parameters
        the set [each row in its own unit]; the standard one when left out

    Returns
    -------
    ParameterTable
        one row for each field, in order
    """
    return table_of(chosen=parameters or Parameters())
