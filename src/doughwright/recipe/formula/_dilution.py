"""An amount too small for a scale, stirred into water that can be weighed."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from doughwright.figures import Figure, grams, percent
from doughwright.units import format_mass

# Stock and dose tried, in steps of the scale; the most stock that is worth making [kg].
_FEWEST, _MOST = 5, 60
_MOST_STOCK = (0.6, 1.0)
# The dose may be at most this share of the water in the dough.
_OF_WATER = 0.5
_EXACT = 0.01


@dataclass(frozen=True, slots=True)
class Dilution:
    """Stir ``stir`` into ``into`` of water and weigh ``take`` of it: that brings ``brings`` of water along.

    ``water_left`` is what remains to be weighed of the dough's own water; ``off`` how far the dose may be
    off if every display is half a step out.
    """

    item: str
    stir: Figure
    into: Figure
    take: Figure
    brings: Figure
    water_left: Figure
    off: Figure
    text: str


@dataclass(frozen=True, slots=True)
class _Try:
    """Steps of the scale: what is stirred in, all of the stock, what is taken; and how far it may be off."""

    stir: int
    stock: int
    take: int
    off: float


def dilution(
    item: str,
    *,
    mass: float,
    step: float,
    water: float,
    strongest: float,
    solid: float,
    liquid: float,
    warm: str = "",
) -> Dilution | None:
    """A dilution that this scale can weigh, in part of the dough's own water; ``None`` where there is none.

    ``mass`` is wanted, ``step`` the scale's, ``water`` the dough's [kg]; ``strongest`` is how much of the
    stock may be the item; half a step may be ``solid`` of what is stirred in and ``liquid`` of what is taken.
    """
    tries = [
        one
        for one in _tries(mass / step, strongest, liquid, _MOST_STOCK[1] / step)
        if one.take * step <= _OF_WATER * water and one.stock * step <= _MOST_STOCK[1]
    ]
    close = [one for one in tries if one.off <= solid and one.stock * step <= _MOST_STOCK[0]]
    chosen = min(close or tries, key=_worth, default=None)
    return None if chosen is None else _dilution(item, chosen, step, water, warm)


@lru_cache(maxsize=64)
def _tries(wanted: float, strongest: float, liquid: float, largest: float) -> tuple[_Try, ...]:
    """Every stock (up to about ``largest``) and dose in whole steps that gives what is wanted, nearly."""
    least = round(0.5 / liquid)
    found = []
    for stir in range(_FEWEST, _MOST + 1):
        # Larger doses would need a larger stock; 5 steps more are lost in rounding to tens.
        most = min(_MOST, int((largest + 5) * wanted / stir))
        for take in range(least, most + 1):
            stock = round(take * stir / wanted / 10) * 10
            if stock <= take or stir > strongest * stock:
                continue
            if abs(take * stir / stock / wanted - 1.0) <= _EXACT:
                off = 0.5 / stir + 0.5 / take + 0.5 / stock
                found.append(_Try(stir, stock, take, off))
    return tuple(found)


def _worth(one: _Try) -> tuple[float, float]:
    """Little stock first; a round number is worth a tenth more of it."""
    odd = (one.stir % 5 != 0) + (one.take % 5 != 0)
    return one.stock * (1.0 + 0.1 * odd), one.off


def _dilution(item: str, chosen: _Try, step: float, water: float, warm: str) -> Dilution:
    stir, take = chosen.stir * step, chosen.take * step
    into = (chosen.stock - chosen.stir) * step
    brings = take * into / (chosen.stock * step)
    left = water - brings
    text = (
        f"stir {format_mass(stir)} of {item} into {format_mass(into)} of water{warm} "
        f"and weigh {format_mass(take)} of it at once; "
        f"that brings {format_mass(brings)} of water, so weigh {format_mass(round(left / step) * step)} "
        f"of water in place of {format_mass(water)} (good to {chosen.off * 100:.0f} %)"
    )
    return Dilution(
        item, grams(stir), grams(into), grams(take), grams(brings), grams(left), percent(chosen.off), text
    )
