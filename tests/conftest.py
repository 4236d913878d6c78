"""What every test shares: the same examples on every run, and markers that say what they must."""

from __future__ import annotations

import os
from importlib.util import find_spec
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

SLOW_MACHINE = [HealthCheck.too_slow]
HERE = Path(__file__).parent
# These read the source and the documents, so they have no meaning against an installed wheel.
OF_THE_TREE = [HERE / "architecture", HERE / "docs"]

# Where the kernel could not be compiled the twin is what is tested, and need not say so.
if find_spec("doughwright.science.kernels._core") is None:
    os.environ.setdefault("DOUGHWRIGHT_KERNEL", "numpy")

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


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the tests of the tree, and refuse an outside check that does not name its source."""
    for item in items:
        if any(folder in item.path.parents for folder in OF_THE_TREE):
            item.add_marker("tree")
        for marker in item.iter_markers("outside"):
            wanting = [key for key in ("source", "how") if not str(marker.kwargs.get(key, "")).strip()]
            if wanting or marker.args:
                raise pytest.UsageError(
                    f'{item.nodeid}: write @pytest.mark.outside(source="...", how="..."); '
                    f"wanting: {', '.join(wanting) or 'nothing, but by name'}"
                )
