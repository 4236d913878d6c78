"""The parameters of the oven's model: value, unit, how each is known, how far it may be off, and its source.

"Fitted" means tuned to bands of practice (weight loss, base colour, core temperatures): about 15 numbers to
57 soft items, so that the bands show that one set can meet them all and are no evidence for it. SI and degC.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from doughwright.science.parameter_rows import How, ParameterTable, SpreadKind, row, table_of

_BANDS = "tuned to bands of weight loss, base colour and core temperature"
_GENERAL = "handbooks of food engineering; 5 to 12 still, 15 to 40 with a fan"
_MAXWELL = "Choi & Okos 1986 solids with gas by Maxwell, at the raw density"
_CHOI = "Choi & Okos 1986 on the composition"
_PRACTICE = "experience of practice, no measurement found"
_STEAM = "steam tables"
_RISEN = "raw and baked density of such pieces, from memory; tuned within that"


def _row(
    value: float,
    unit: str,
    meaning: str,
    how: How,
    source: str,
    spread: float | None = None,
    kind: SpreadKind = "relative",
) -> Any:
    return row(
        value=value, unit=unit, meaning=meaning, how=how, source=source, spread=spread, spread_kind=kind
    )


# fmt: off
@dataclass(frozen=True)
class OvenParameters:
    """One parameter set of the oven's model; see each row's metadata, or ``oven_parameter_table()``."""

    # Where the dough meets its surface.
    contact_wet: float = _row(
        300.0, "W/(m2 K)", "conductance between surface and wet dough", "from memory",
        "plates frying meat: 200 to 1200 (Housova & Topinka 1985; Pan, Singh & Rumsey 2000)", 0.35)
    contact_dry: float = _row(
        45.0, "W/(m2 K)", "conductance between surface and a base that has dried and lifted off", "fitted",
        "radiation 18 to 25 and 1 to 1.5 mm of steam; " + _BANDS, 0.35)
    contact_depth: float = _row(
        0.4e-3, "m", "dried depth over which the base stiffens and lifts off", "fitted", _BANDS, 0.40)
    contact_oil: float = _row(
        500.0, "W/(m2 K)", "conductance through oil between a pan and its dough", "from memory",
        "plates frying meat: 200 to 1200 (Housova & Topinka 1985)", 0.40)
    contact_dried: float = _row(
        0.6, "1", "dryness under which a layer of the base is the last that counts as dried", "assumed",
        "a rule of the numerical scheme")
    contact_noticed: float = _row(
        0.02, "1", "dryness from which a layer of the base counts as dried", "assumed",
        "a rule of the numerical scheme")
    lifted_film: float = _row(
        9.0, "W/(m2 K)", "heat transfer at a base that is lifted into the room", "from memory",
        "still air, 8 to 10", 0.10)
    lifted_emissivity: float = _row(
        0.85, "1", "emissivity of a lifted base", "from memory", "food about 0.9")

    # Dough, crust and toppings.
    crust_conductivity: float = _row(
        0.055, "W/(m K)", "heat conductivity of dry crust", "fitted",
        "solid 0.24 at porosity 0.82 by Maxwell 0.055, radiation in pores more; " + _BANDS, 0.25)
    dough_conductivity_flat: float = _row(
        0.20, "W/(m K)", "heat conductivity of a flat pie's dough", "assumed", _MAXWELL, 0.20)
    dough_conductivity_bun: float = _row(
        0.14, "W/(m K)", "heat conductivity of a bun's dough", "assumed", _MAXWELL, 0.20)
    dough_conductivity_loaf: float = _row(
        0.12, "W/(m K)", "heat conductivity of a loaf's dough", "assumed", _MAXWELL, 0.20)
    density_flat: float = _row(
        500.0, "kg/m3", "density of a flat pie going in", "from memory", _RISEN, 0.15)
    density_bun: float = _row(
        350.0, "kg/m3", "density of a bun going in", "from memory", _RISEN, 0.15)
    density_loaf: float = _row(
        310.0, "kg/m3", "density of a loaf going in", "from memory", _RISEN, 0.15)
    spring_flat: float = _row(
        0.75, "1", "oven spring of a flat pie: growth in thickness", "fitted",
        _RISEN + "; " + _BANDS, 0.30)
    spring_bun: float = _row(
        0.30, "1", "oven spring of a bun", "fitted", _RISEN + "; " + _BANDS, 0.30)
    spring_loaf: float = _row(
        0.15, "1", "oven spring of a loaf", "fitted", _RISEN + "; " + _BANDS, 0.30)
    spring_from: float = _row(
        25.0, "degC", "spring begins at", "assumed", "gas and steam expand as the dough warms")
    spring_span: float = _row(
        50.0, "K", "spring is complete so much warmer", "assumed", "dough sets from 60 to 80 degC")
    spring_stop: float = _row(
        0.90, "1", "share of starch gelatinised that ends the spring", "assumed", "the crumb has set")
    dough_heat: float = _row(
        1550.0, "J/(kg K)", "heat capacity of dough solids", "assumed",
        "6 % under " + _CHOI + ", 1650 at 20 degC", 0.05)
    sauce_heat: float = _row(
        1600.0, "J/(kg K)", "heat capacity of sauce solids", "assumed",
        "rounded from " + _CHOI + ", 1610 to 1650 at 20 degC", 0.05)
    cheese_heat: float = _row(
        1900.0, "J/(kg K)", "heat capacity of cheese solids", "assumed",
        "rounded from " + _CHOI + ", 1910 at 20 degC", 0.05)
    sauce_conductivity: float = _row(
        0.60, "W/(m K)", "heat conductivity of wet sauce", "assumed",
        _CHOI + ", 0.57 at 20 and 0.64 at 80 degC", 0.10)
    cheese_conductivity: float = _row(
        0.35, "W/(m K)", "heat conductivity of moist cheese", "assumed",
        _CHOI + ", between its bounds 0.29 and 0.41", 0.15)
    topping_dry_conductivity: float = _row(
        0.15, "W/(m K)", "heat conductivity of a dried topping", "from memory", "dry foods")
    topping_dry_moisture: float = _row(
        0.15, "kg/kg solids", "moisture under which a topping dries out", "from memory", _PRACTICE)
    sauce_start: float = _row(
        12.0, "degC", "sauce goes on at", "assumed", "out of the fridge a while", 4.0, "absolute")
    cheese_start: float = _row(
        8.0, "degC", "cheese goes on at", "assumed", "out of the fridge", 3.0, "absolute")

    # Water held, and the ways it leaves.
    sorption_moisture: float = _row(
        0.055, "kg/kg solids", "moisture of dough at a water activity of 1/2 when hot", "from memory",
        "wheat sorption, about 0.06 at 120 degC")
    sorption_power: float = _row(
        2.5, "1", "how sharply water is held as dough dries", "from memory", "wheat sorption, Oswin's shape")
    boiling_rise: float = _row(
        0.030, "1/K", "fall of ln(water activity) for each kelvin of boiling point", "from memory",
        "slope of the saturation curve over 100 to 160 degC")
    vapour_share: float = _row(
        0.25, "1", "share of free vapour diffusion in the pores of dough", "fitted",
        "porosity and tortuosity; core heating of a loaf; " + _BANDS, 0.40)
    vapour_limit: float = _row(
        3.0, "1", "limit on the speeding up of diffusion near boiling (Stefan flow)", "assumed",
        "pores would choke past it")
    crust_diffusivity: float = _row(
        1.2e-6, "m2/s", "vapour through crust", "fitted",
        "an open foam 1.5e-5; closed cells and skin; " + _BANDS + ": loaf core > 95 degC", 1.8, "factor")
    front_dough: float = _row(
        0.25, "kg/kg solids", "moisture over which dough holds the evaporation front", "assumed",
        "a rule of the numerical scheme")
    front_topping: float = _row(
        0.05, "kg/kg solids", "moisture over which a topping holds the front", "assumed",
        "a rule of the numerical scheme")
    vapour_ceiling: float = _row(
        0.97, "1", "highest share of vapour at an evaporating face", "assumed",
        "past it the water boils, and is booked as boiling")
    lewis: float = _row(
        0.90, "1", "heat over mass transfer of water vapour in air, Le^(2/3)", "from memory", "Le about 0.85")
    skin_dough: float = _row(
        0.7, "1", "evaporation of bare dough over that of free water", "fitted", "a floured skin; " + _BANDS)
    skin_sauce: float = _row(
        1.0, "1", "evaporation of sauce over that of free water", "assumed", "a wet face")
    skin_part_skim: float = _row(
        0.15, "1", "evaporation of low-moisture cheese over that of free water", "fitted",
        "oil film and skin; " + _BANDS, 0.50)
    skin_fresh: float = _row(
        0.8, "1", "evaporation of fresh cheese over that of free water", "from memory", "it weeps", 0.25)
    water_heat: float = _row(4190.0, "J/(kg K)", "heat capacity of water", "measured", "physical tables")
    steam_heat: float = _row(2000.0, "J/(kg K)", "heat capacity of steam", "measured", _STEAM)

    # The oven.
    emissivity: float = _row(
        0.78, "1", "effective emissivity between food and walls", "assumed",
        "grey enclosure: 0.89 in enamel, 0.74 in bright steel", 0.08)
    film_static: float = _row(
        9.5, "W/(m2 K)", "heat transfer by still oven air at the food", "fitted",
        _GENERAL + "; " + _BANDS, 0.20)
    film_fan: float = _row(
        14.0, "W/(m2 K)", "heat transfer with the fan at the food", "fitted", _GENERAL + "; " + _BANDS, 0.20)
    film_pressure: float = _row(
        0.6, "1", "power of air pressure in the heat transfer", "from memory", "0.5 free, 0.5 to 0.8 forced")
    air_shortfall: float = _row(
        0.04, "1", "air short of the setting, of setting less 25 degC", "from memory", "a load cools it")
    wall_shortfall: float = _row(
        0.11, "1", "walls short of the setting, of setting less 25 degC", "assumed",
        "door glass at 150 to 180 degC over 18 % of the view; load", 0.40)
    floor_shortfall: float = _row(
        0.02, "1", "below the surface short of the setting, of setting less 25 degC", "assumed", _PRACTICE)
    shortfall_from: float = _row(
        25.0, "degC", "temperature the shortfalls are counted from", "assumed", "a room")
    door_air: float = _row(
        50.0, "K", "fall of the air when the door is opened", "from memory", _PRACTICE, 0.30)
    door_walls: float = _row(
        12.0, "K", "fall of the walls when the door is opened", "from memory", _PRACTICE, 0.30)
    door_recovery: float = _row(
        90.0, "s", "time constant of that", "from memory", _PRACTICE, 0.30)
    vapour_static: float = _row(
        13e3, "Pa", "water vapour in a closed oven", "assumed",
        "0.1 g/s steam in 0.5 to 1 g/s vented air", 1.6, "factor")
    vapour_fan: float = _row(
        8e3, "Pa", "water vapour in an oven with a fan", "assumed", "the same, vented more", 1.6, "factor")
    broil: float = _row(
        6000.0, "W/m2", "heat of a broiler on food 10 to 15 cm below it", "assumed",
        "2.5 to 3.5 kW over the cavity, 30 to 60 % arriving: 5 to 12 kW/m2", 0.35)
    preheat_emissivity: float = _row(
        0.85, "1", "emissivity of a surface and its oven in preheating", "from memory", "handbooks")
    preheat_film_fan: float = _row(
        20.0, "W/(m2 K)", "heat transfer to an empty surface with the fan", "from memory", _GENERAL, 0.30)
    preheat_ramp: float = _row(
        900.0, "s", "time in which a cold oven reaches its setting", "from memory", _PRACTICE, 0.25)
    preheat_within: float = _row(
        10.0, "K", "a surface this close to the setting counts as hot", "assumed", "one step of a dial")
    recovery_film: float = _row(
        40.0, "W/(m2 K)", "heat transfer at each face of a surface as it recovers", "assumed",
        "radiation about 25 to 30 and convection")

    # Colour and setting.
    browning: float = _row(
        1.6, "1", "browning of a yeasted dough with sugar left, over a plain lean dough", "fitted",
        "sugars of a long ferment; " + _BANDS, 0.30)
    browning_plain: float = _row(
        1.0, "1", "browning of a lean dough with no sugar left", "measured",
        "Zanoni et al. 1995, as published")
    browning_sugar_all: float = _row(
        1.0, "% of flour", "sugar left from which browning is that of a yeasted dough", "assumed", "ruled")
    browning_sugar_none: float = _row(
        0.5, "% of flour", "sugar left up to which browning is that of a plain dough", "assumed", "ruled")
    browning_young: float = _row(
        3.0, "h", "age under which a dough browns as a plain one", "assumed", "ruled")
    browning_milk: float = _row(
        0.15, "per % of flour", "browning that milk sugar adds", "assumed",
        "yeast leaves milk sugar, and it browns with protein; no figure found", 0.50)
    browning_malt: float = _row(
        0.15, "per % of flour", "browning that malt flour or syrup adds", "assumed",
        "sugar made as the dough warms; no figure found", 0.50)
    browning_extra: float = _row(
        0.4, "1", "most browning that milk and malt add together", "assumed",
        "caution: no figure found", 0.50)
    browning_from: float = _row(
        90.0, "degC", "a face browns from", "assumed", "below it the published rate is negligible")
    lightness_raw: float = _row(
        85.0, "L*", "lightness of raw dough", "from memory", "papers: 80 to 88", 2.0, "absolute")
    lightness_slope: float = _row(
        0.9, "L*", "fall of lightness for each unit of colour change", "from memory",
        "colour change holds a* and b* too", 0.05)
    char: float = _row(
        46.0, "dE", "colour change past which a crust is burnt", "assumed", "90 % of Zanoni's 52")
    set_temperature: float = _row(
        80.0, "degC", "dough is set at", "from memory", "starch and gluten set from 55 to 80 degC")
    set_share: float = _row(
        0.98, "1", "or with this share of its starch gelatinised", "assumed", "Zanoni's rate alone sets late")
    yeast_decimal: float = _row(
        18.0, "s", "time at 60 degC that leaves a tenth of the yeast alive", "from memory",
        "pasteurisation literature: 6 to 60 s", 2.5, "factor")
    yeast_z: float = _row(
        5.0, "K", "warming that makes that ten times shorter", "from memory", "4 to 7", 1.0, "absolute")
    yeast_dead: float = _row(
        5.0, "log10", "decimal reductions after which yeast counts as dead", "assumed", "one in 100 000 left")

    # Form.
    wedge_power: float = _row(
        1.3, "1", "how the area of a bun or loaf grows outward from its core", "assumed",
        "between a slab (0) and a ball (2); core heating of a loaf")
    bun_faces: float = _row(0.48, "1", "lower face of a bun over its upper", "assumed", "an 80 g bun")
    loaf_faces: float = _row(2.8, "1", "lower face of a loaf, its tin, over its upper", "assumed",
        "a 500 g tin loaf")
    rim_load: float = _row(
        1.4, "1", "mass per area of the rim over the mean", "assumed", _PRACTICE, 0.15)
    rim_faces: float = _row(0.72, "1", "lower face of a rim over its upper", "assumed", "a half round")
# fmt: on


def oven_parameter_table(parameters: OvenParameters | None = None) -> ParameterTable:
    """Every parameter of the oven's model with its unit, source and spread.

    Parameters
    ----------
    parameters : OvenParameters
        the set [each row in its own unit]; the standard one when left out

    Returns
    -------
    ParameterTable
        one row for each field, in order
    """
    return table_of(chosen=parameters or OvenParameters())
