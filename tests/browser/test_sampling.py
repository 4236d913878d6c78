"""What is sampled comes after the sheet: no edit waits for it, nothing typed is lost by it."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Open
from tests.browser.test_access import looked_at

pytestmark = pytest.mark.browser
YEAST = "instant yeast in the dough"
# Ten thousand kitchens on a busy machine [ms].
LONG = 60_000


def test_the_fan_streams_in_and_is_accessible(opened: Open, recipe: str) -> None:
    """First the sheet, then the fan with its marks and shares; in each look without a fault."""
    page = opened(f"/recipe/{recipe}", bypass_csp=True)
    expect(page.locator("#others figure").first).to_be_visible(timeout=LONG)
    expect(page.locator("#others header")).to_contain_text("of 100")
    expect(page.locator("#sampled-said")).to_contain_text("Of 100 kitchens")
    expect(page.get_by_role("table", name="What explains the difference")).to_be_visible()
    for one in page.locator("#others summary").all():
        one.click()
    assert looked_at(page) == {}


def test_the_fan_stands_under_the_band_hour_by_hour(opened: Open, recipe: str) -> None:
    """The eye may drop straight down."""
    page = opened(f"/recipe/{recipe}")
    expect(page.locator("#others figure").first).to_be_visible(timeout=LONG)
    left = [
        page.locator(f"{where} .wide svg").first.locator("text", has_text="Saturday").first.bounding_box()
        for where in ("#days", "#others")
    ]
    assert left[0] is not None
    assert left[1] is not None
    assert abs(left[0]["x"] - left[1]["x"]) < 1.5


def test_an_edit_goes_before_the_kitchens(opened: Open, recipe: str) -> None:
    """The answer is there long before they are, and what is typed meanwhile stays."""
    page = opened(f"/recipe/{recipe}")
    field = page.get_by_label(YEAST, exact=True)
    field.fill("0.9 g")
    field.press("Tab")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    water = page.get_by_label("water in the dough", exact=True)
    water.focus()
    page.keyboard.press("End")
    page.keyboard.type("0")
    expect(page.locator("#others figure").first).to_be_visible(timeout=LONG)
    expect(page.locator("#others .working")).to_have_count(0, timeout=LONG)
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "water in the dough"
    assert water.input_value().endswith("0")
    expect(field).to_have_value("0.9 g")


def test_with_scripts_off_it_is_a_link_away(opened: Open, recipe: str) -> None:
    """The page waits for it, and then has it."""
    page = opened(f"/recipe/{recipe}", java_script_enabled=False)
    page.set_default_timeout(LONG)
    link = page.get_by_role("link", name="Work them out and show them")
    if link.count():
        link.click()
    expect(page.locator("#others .wide svg").first).to_be_visible()
    expect(page.locator("#others .working")).to_have_count(0)


def test_a_fit_is_compared_and_taken_over(opened: Open, recipe: str) -> None:
    """From the sheet to the comparison, accessible in each look; taken over, then put back."""
    page = opened(f"/recipe/{recipe}", bypass_csp=True)
    page.get_by_role("link", name="Compare and take over: Warm flat").click(timeout=LONG)
    expect(page.get_by_role("heading", level=1)).to_have_text("Leek and rye flat pie in the Warm flat")
    assert looked_at(page) == {}
    page.get_by_role("button", name="Take it over, for the Warm flat").click()
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    expect(page.locator("#top")).to_contain_text("Kitchen: Warm flat")
    page.get_by_role("button", name="Put it back").or_(page.locator("#put-back")).first.click()
    expect(page.locator("#top")).to_contain_text("Kitchen: Boathouse")


def test_readings_are_written_down_and_drawn_over_the_band(opened: Open) -> None:
    """From the kitchen's page, which says what to measure next, to what a jar teaches; in each look."""
    page = opened("/kitchen/boathouse.toml", bypass_csp=True)
    expect(page.locator("#next figure")).to_be_visible(timeout=LONG)
    expect(page.locator("#buys-fridge-temperature")).not_to_have_text("–")
    assert looked_at(page) == {}
    page.get_by_role("link", name="Write down readings").click()
    page.get_by_label("Of which dough").select_option(label="Leek and rye flat pie")
    page.set_default_timeout(LONG)
    page.get_by_role("button", name="See what they say").click()
    expect(page.get_by_role("heading", name="What they teach")).to_be_visible(timeout=LONG)
    expect(page.locator("figure .pic-fan-outer").first).to_be_attached()
    assert looked_at(page) == {}


def test_the_oven_streams_in_and_follows_an_edit(opened: Open, recipe: str) -> None:
    """The section, its swatches and the pieces, accessible in each look; other minutes draw it anew."""
    page = opened(f"/recipe/{recipe}", bypass_csp=True)
    section = page.locator("#oven .wide svg").first
    expect(section).to_be_visible(timeout=LONG)
    expect(page.locator("#oven header")).to_contain_text("The second piece meets the steel")
    for one in page.locator("#oven summary").all():
        one.click()
    assert looked_at(page) == {}
    page.set_viewport_size({"width": 1280, "height": 900})
    minutes = page.get_by_label("time for par-bake").first
    minutes.fill("6 min")
    minutes.press("Tab")
    expect(section).to_contain_text("par-bake, 6\u00a0min", timeout=LONG)
    expect(page.locator("#oven .working")).to_have_count(0, timeout=LONG)


def test_with_scripts_off_the_oven_is_a_link_away(opened: Open, recipe: str) -> None:
    """On a phone too: the section is drawn for its width."""
    page = opened(f"/recipe/{recipe}", width=390, java_script_enabled=False)
    page.set_default_timeout(LONG)
    link = page.get_by_role("link", name="Work the oven out and show it")
    if link.count():
        link.click()
    expect(page.locator("#oven .narrow svg").first).to_be_visible()
    expect(page.locator("#oven .working")).to_have_count(0)
