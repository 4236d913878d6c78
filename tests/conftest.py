"""What every test shares: Hypothesis behaves the same on every machine and every run."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

SLOW_MACHINE = [HealthCheck.too_slow]

# "steady" draws the same examples every time; "search" looks for new ones (DOUGHWRIGHT_HYPOTHESIS=search).
settings.register_profile(
    "steady",
    derandomize=True,
    database=None,
    deadline=None,
    max_examples=60,
    suppress_health_check=SLOW_MACHINE,
)
settings.register_profile("search", deadline=None, max_examples=1000, suppress_health_check=SLOW_MACHINE)
settings.load_profile(os.environ.get("DOUGHWRIGHT_HYPOTHESIS", "steady"))
