"""A fridge and the yeast's work in it: told together wherever only a jar tells of them."""

from __future__ import annotations

import pytest

from doughwright.forecast.calibrate._told import _untold

SPREADS = {"yeast": (0.12, 0.22), "fridge": (1.7, 2.4), "cold": (0.39, 0.41)}


def test_a_jar_alone_never_tells_the_fridge() -> None:
    """However loosely the two hang together in this posterior: a jar's rise is the doing of both."""
    ties = _untold({}, SPREADS, {"dough"})
    assert ties == {"fridge": ("cold",), "cold": ("fridge",)}


def test_what_else_they_are_tied_to_stays() -> None:
    """The closest first."""
    ties = _untold({"cold": ("yeast",), "yeast": ("cold",)}, SPREADS, set())
    assert ties == {"fridge": ("cold",), "cold": ("fridge", "yeast"), "yeast": ("cold",)}


@pytest.mark.parametrize(
    ("spreads", "read"),
    [
        (SPREADS, {"fridge"}),
        ({**SPREADS, "fridge": (0.4, 0.5)}, set()),
        ({**SPREADS, "fridge": (2.3, 2.4)}, set()),
        ({"yeast": (0.12, 0.22), "cold": (0.2, 0.41)}, set()),
    ],
)
def test_a_fridge_that_is_known_or_not_spoken_of_ties_nothing(spreads: dict, read: set) -> None:
    """Read with a thermometer, known already, hardly learnt, or known exactly."""
    assert _untold({}, spreads, read) == {}
