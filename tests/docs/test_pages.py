"""The pages name only what is there."""

from __future__ import annotations

import importlib
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGES = [*sorted(ROOT.glob("*.md")), *sorted((ROOT / "docs").rglob("*.md"))]
LINK = re.compile(r"!?\[[^\]]*\]\(([^)#\s]+)(?:#[^)]*)?\)")
ADDRESS = re.compile(r"^[a-z]+:")
MAKE = re.compile(r"`make ([a-z]+)")
PATH = re.compile(r"`((?:src|tests|docs|scripts|benchmarks|requirements)/[\w./-]+)`")


def name(page: Path) -> str:
    return page.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_every_link_leads_to_a_file(page: Path) -> None:
    """A link or a picture that leads nowhere is found here, not by a reader."""
    links = [one for one in LINK.findall(page.read_text(encoding="utf-8")) if not ADDRESS.match(one)]
    assert [one for one in links if not (page.parent / one).exists()] == []


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_every_path_named_exists(page: Path) -> None:
    """Paths in code type are paths of the checkout."""
    paths = PATH.findall(page.read_text(encoding="utf-8"))
    assert [one for one in paths if not (ROOT / one).exists()] == []


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_every_make_target_named_exists(page: Path) -> None:
    """``make`` does what a page says it does."""
    targets = re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.M)
    assert sorted(set(MAKE.findall(page.read_text(encoding="utf-8"))) - set(targets)) == []


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_every_verb_named_exists(page: Path) -> None:
    """A page promises no verb that the command does not have."""
    verbs = re.findall(r"`doughwright ([a-z]+)", page.read_text(encoding="utf-8"))
    known = importlib.import_module("doughwright.cli").main.verbs if verbs else {}
    assert sorted(set(verbs) - set(known)) == []


def test_every_make_target_is_explained() -> None:
    """``make help`` lists all of them."""
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    silent = [line for line in makefile.splitlines() if re.match(r"[a-z]+:", line) and "## " not in line]
    assert silent == []


def test_contributing_and_vision_stay_short() -> None:
    """One page and one screen."""
    lengths = {
        page: len((ROOT / page).read_text(encoding="utf-8").splitlines())
        for page in ("CONTRIBUTING.md", "VISION.md")
    }
    assert lengths["CONTRIBUTING.md"] <= 80
    assert lengths["VISION.md"] <= 45
