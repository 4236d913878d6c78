"""The example of docs/formula.md comes out as the page says."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from doughwright.recipe.formula import formula
from doughwright.recipe.read import read_recipe

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "formula.md").read_text(encoding="utf-8")
NAMES = {"hydration as poured": "hydration_poured", "piece": "piece_mass", "yeast as fresh": "yeast_as_fresh"}


@dataclass(frozen=True)
class Kitchen:
    name: str = "page"
    scale: float = 0.001
    scale_known: bool = True


def test_the_example_comes_out_as_the_page_says() -> None:
    """Each row of its table, to the digits it shows."""
    text = re.search(r"```toml\n(.*?)```", PAGE, re.S)
    assert text is not None
    dough = formula(read_recipe(text[1]).recipe, Kitchen()).doughs[0]
    table = PAGE.split("| figure | is | because |")[1].split("\n\n")[0]
    rows = re.findall(r"^\| ([a-z ]+) \| ([\d.]+) (?:g|%|g/cm²) \|", table, re.M)
    assert len(rows) == 8
    for name, shown in rows:
        decimals = len(shown.partition(".")[2])
        value = getattr(dough, NAMES.get(name, name)).value
        assert f"{value:.{decimals}f}" == shown, name
