"""The colours of the bench: the light and dark palettes, and one temperature scale for everything."""

from __future__ import annotations

from bisect import bisect_right
from functools import lru_cache

from doughwright.science.colour import Triple, srgb_of_lab

LIGHT = {
    "paper": "#f8f4ea", "ink": "#231e19", "soft": "#5f564a", "accent": "#1f6b4a", "line": "#857a69",
    "rule": "#d3c9b7", "wash": "#f1ebdd", "fridge": "#e2e8e9", "oven": "#eadccd",
    "fan-outer": "#d9d0c0", "fan-inner": "#b7ab98",
}  # fmt: skip
DARK = {
    "paper": "#191613", "ink": "#ece5d8", "soft": "#b3a999", "accent": "#86c9a3", "line": "#857b6c",
    "rule": "#3a342c", "wash": "#221e1a", "fridge": "#20282c", "oven": "#33261e",
    "fan-outer": "#3b342c", "fan-inner": "#5d5448",
}  # fmt: skip
# Words on a fill: dark up to 40 degC, light from 95 degC; between the two the word stands outside.
DARK_WORD, LIGHT_WORD = "#231e19", "#fbf7ee"

# Temperature [degC] and its L*a*b*. L* only falls, so that the scale reads without hue.
SCALE: tuple[tuple[float, Triple], ...] = (
    (0.0, (88.0, -10.0, -21.0)),
    (4.0, (86.5, -8.0, -15.0)),
    (8.0, (84.7, -5.0, -5.0)),
    (12.0, (82.5, -2.0, 3.5)),
    (16.0, (80.0, 2.0, 11.5)),
    (20.0, (77.0, 6.0, 19.5)),
    (25.0, (72.5, 13.0, 28.0)),
    (30.0, (68.0, 19.0, 34.0)),
    (40.0, (61.0, 26.0, 38.0)),
    (60.0, (56.0, 31.0, 40.0)),
    (100.0, (46.0, 34.0, 36.0)),
    (150.0, (37.0, 31.0, 28.0)),
    (200.0, (28.0, 24.0, 17.0)),
    (250.0, (19.5, 16.0, 8.0)),
    (300.0, (12.0, 9.0, 3.0)),
)  # fmt: skip
_TEMPERATURES = [degrees for degrees, _ in SCALE]


def temperature_lab(degrees: float) -> Triple:
    """L*a*b* of a temperature [degC]; beyond the ends of the scale, the end."""
    held = min(max(degrees, _TEMPERATURES[0]), _TEMPERATURES[-1])
    after = min(bisect_right(_TEMPERATURES, held), len(SCALE) - 1)
    (cold, low), (hot, high) = SCALE[after - 1], SCALE[after]
    share = (held - cold) / (hot - cold)
    mixed = [a + (b - a) * share for a, b in zip(low, high, strict=True)]
    return mixed[0], mixed[1], mixed[2]


@lru_cache(maxsize=4096)
def temperature_colour(degrees: float) -> str:
    """The colour of a temperature [degC], as "#d7b99a"."""
    return hex_of(srgb_of_lab(lab=temperature_lab(degrees)))


def word_colour(degrees: float) -> str | None:
    """The colour of a word on the fill of a temperature; ``None`` where no word may stand on it."""
    if degrees <= 40.0:
        return DARK_WORD
    return LIGHT_WORD if degrees >= 95.0 else None


def hex_of(srgb: Triple) -> str:
    """A colour as "#d7b99a"."""
    return "#" + "".join(f"{round(c * 255):02x}" for c in srgb)


def srgb_of(colour: str) -> Triple:
    """The red, green and blue, 0 to 1, of "#d7b99a"."""
    parts = [int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5)]
    return parts[0], parts[1], parts[2]
