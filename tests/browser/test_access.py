"""Every page, light and dark, wide and on a phone: axe finds nothing, nothing overflows, targets are big."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from doughwright.store import Bench
from tests.browser.conftest import Open, demo_text

pytestmark = pytest.mark.browser
AXE = (Path(__file__).parent / "vendor" / "axe.min.js").read_text(encoding="utf-8")
PIE = demo_text("leek-and-rye-flat-pie.toml")
LOOKS = [(width, scheme) for width in (1280, 390) for scheme in ("light", "dark")]

RUN = """() => axe.run(document, {resultTypes: ['violations']}).then(found => found.violations.map(
    one => one.id + ': ' + one.nodes.slice(0, 3).map(node => node.html.slice(0, 160)).join(' | ')))"""
WIDER = """() => [...document.querySelectorAll('body *')].filter(one => {
    const box = one.getBoundingClientRect(), main = one.closest('main');
    const edge = main ? main.getBoundingClientRect().right : innerWidth;
    return box.width > 1 && box.height > 1 && box.right > edge + 1 && !one.closest('svg, .hidden');
    }).slice(0, 4).map(one => one.outerHTML.slice(0, 120))"""
SMALL = """() => [...document.querySelectorAll(
        'input.in, select.in, button, summary, .bar a, .top a, .list a')].filter(one => {
        const box = one.getBoundingClientRect();
        return box.width > 1 && box.height > 0 && box.height < 43.5 && !one.closest('.hidden'); })
    .map(one => one.outerHTML.slice(0, 120) + ' ' + one.getBoundingClientRect().height)"""


def changed(page: Page) -> None:
    """An edit, so that what moved and the strip are there."""
    page.get_by_label("instant yeast in the dough", exact=True).fill("0.6 g")
    page.get_by_label("instant yeast in the dough", exact=True).press("Tab")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    for one in page.locator("summary").all():
        one.click()


def faulty(page: Page) -> None:
    """A text with a fault."""
    page.get_by_label("The recipe’s text").fill(PIE.replace('"178 g"', '"178"'))
    expect(page.locator("#faults li")).to_have_count(1)


def wrong_field(page: Page) -> None:
    """A value that is none, in its field."""
    page.get_by_label("water in the dough", exact=True).fill("lots")
    page.get_by_label("water in the dough", exact=True).press("Tab")
    expect(page.locator("[aria-invalid=true]")).to_have_count(1)


def conflicting(page: Page, bench: Bench, recipe: str) -> None:
    """Another window saves first."""
    bench.save("recipe", recipe, PIE.replace('"178 g"', '"190 g"'), expected=1)
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_role("heading", name="Choose")).to_be_visible()


def found_by_axe(page: Page) -> list[str]:
    page.evaluate(AXE)
    violations: Any = page.evaluate(RUN)
    return list(violations)


def looked_at(page: Page) -> dict[str, list[str]]:
    """What is wrong with a page in each look; empty where nothing is."""
    wrong: dict[str, list[str]] = {}
    for width, scheme in LOOKS:
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
        page.wait_for_timeout(50)
        found = [*found_by_axe(page), *page.evaluate(WIDER)]
        found += page.evaluate(SMALL) if width == 390 else []
        if found:
            wrong[f"{width} {scheme}"] = found
    return wrong


@pytest.mark.parametrize(
    "path",
    ["/", "/kitchen/boathouse.toml", "/recipe/boathouse-milk-loaf.toml", "/recipe/nobody.toml"],
)
def test_a_page_as_it_is(opened: Open, path: str) -> None:
    """The list, a kitchen, a sheet, an error."""
    assert looked_at(opened(path, bypass_csp=True)) == {}


def test_a_sheet_at_work(opened: Open, recipe: str) -> None:
    """With what moved, the strip, and everything opened."""
    page = opened(f"/recipe/{recipe}", bypass_csp=True)
    changed(page)
    assert looked_at(page) == {}


def test_a_text_with_a_fault(opened: Open, recipe: str) -> None:
    """The text view, and its fault in the form."""
    page = opened(f"/recipe/{recipe}?view=text", bypass_csp=True)
    faulty(page)
    assert looked_at(page) == {}
    page.get_by_role("button", name="Form", exact=True).click()
    expect(page.locator("[aria-invalid=true]")).to_have_count(1)
    assert looked_at(page) == {}


def test_a_conflict_and_an_old_version(opened: Open, recipe: str, bench: Bench) -> None:
    """Both texts side by side, and a version by itself."""
    page = opened(f"/recipe/{recipe}", bypass_csp=True)
    changed(page)
    conflicting(page, bench, recipe)
    assert looked_at(page) == {}
    page.goto(f"/recipe/{recipe}/version/1")
    assert looked_at(page) == {}


def test_on_paper_only_the_recipe_is_left(opened: Open, recipe: str) -> None:
    """Light colours whatever the scheme; no buttons, no strip; what is folded is open."""
    page = opened(f"/recipe/{recipe}", color_scheme="dark")
    changed_page = page.get_by_label("instant yeast in the dough", exact=True)
    changed_page.fill("0.6 g")
    changed_page.press("Tab")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    for gone in (".strip", ".switch", "#moved section", "#history"):
        expect(page.locator(gone)).to_be_hidden()
    expect(page.locator("#pictures .wide svg")).to_be_visible()
    expect(page.locator("#band-table-1 table")).to_be_visible()
