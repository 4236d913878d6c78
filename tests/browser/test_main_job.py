"""The main job in a real browser: open a recipe, change the yeast, see the days move, save, take it away."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

from doughwright.store import Bench
from tests.browser.conftest import Open, demo_text

pytestmark = pytest.mark.browser
PIE = demo_text("leek-and-rye-flat-pie.toml")
YEAST = "instant yeast in the dough"
WATER = "water in the dough"
CHOSEN = """() => { const text = document.activeElement;
    return text.value.slice(text.selectionStart, text.selectionEnd); }"""
NAMED = """() => { const one = document.activeElement;
    return one.getAttribute('aria-label') || one.textContent; }"""


def change(page: Page, label: str, value: str) -> None:
    """Type a value into a field and leave it."""
    page.get_by_label(label, exact=True).fill(value)
    page.get_by_label(label, exact=True).press("Tab")


def test_a_change_of_the_yeast_moves_the_days_and_is_saved(
    opened: Open, bench: Bench, tmp_path: Path
) -> None:
    """From the list to the saved version, the card and the calendar."""
    page = opened("/")
    page.locator('.list a[href$="/leek-and-rye-flat-pie.toml"]').click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Leek and rye flat pie")
    before = page.locator("#days figcaption").first.inner_text()
    expect(page.get_by_role("heading", name="What moved")).to_have_count(0)
    change(page, YEAST, "0.6 g")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    expect(page.locator("#moved")).to_contain_text("earlier")
    expect(page.locator("#said")).to_contain_text("Instant yeast 0.45 g to 0.6 g: ripe")
    assert page.locator("#days figcaption").first.inner_text() != before
    expect(page.locator("#pictures .wide .pic-move").first).to_be_attached()
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#top")).to_contain_text("Version 2")
    expect(page.get_by_role("heading", name="What moved")).to_have_count(0)
    page.goto("/")
    page.locator('.list a[href$="/leek-and-rye-flat-pie.toml"]').click()
    expect(page.get_by_label(YEAST, exact=True)).to_have_value("0.6 g")
    head = bench.head("recipe", "leek-and-rye-flat-pie.toml")
    assert head.text == PIE.replace('"0.45 g"', '"0.6 g"')
    assert downloaded(page, "Card in both", tmp_path).startswith(b"%PDF-")
    calendar = downloaded(page, "The plan for your calendar", tmp_path).decode()
    assert calendar.startswith("BEGIN:VCALENDAR") and "Mix the poolish" in calendar


def downloaded(page: Page, link: str, folder: Path) -> bytes:
    """What a link lets one take away."""
    with page.expect_download() as waiting:
        page.get_by_role("link", name=link).click()
    path = folder / waiting.value.suggested_filename
    waiting.value.save_as(path)
    return path.read_bytes()


def test_focus_and_place_stay_while_the_sheet_is_made_anew(opened: Open, recipe: str) -> None:
    """The next field has the focus, and stands where it stood on the screen."""
    page = opened(f"/recipe/{recipe}")
    field = page.get_by_label(YEAST, exact=True)
    field.fill("0.6 g")
    field.press("Tab")
    place = page.evaluate("document.activeElement.getBoundingClientRect().top")
    name = page.evaluate("document.activeElement.id")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    assert page.evaluate("document.activeElement.id") == name
    assert abs(page.evaluate("document.activeElement.getBoundingClientRect().top") - place) <= 24


def test_two_quick_edits_are_both_kept(opened: Open, recipe: str) -> None:
    """The second is made while the answer to the first is on its way."""
    page = opened(f"/recipe/{recipe}")
    change(page, WATER, "190 g")
    change(page, "salt, fine in the dough", "9 g")
    expect(page.locator("#moved header")).to_contain_text("alt, fine 8.2 g to 9 g")
    expect(page.locator("#moved header")).to_contain_text("ater 178 g to 190 g")
    expect(page.get_by_label(WATER, exact=True)).to_have_value("190 g")


def test_a_button_pressed_in_between_is_not_lost(opened: Open, recipe: str, bench: Bench) -> None:
    """Save straight after typing saves what was typed."""
    page = opened(f"/recipe/{recipe}")
    change(page, YEAST, "0.6 g")
    expect(page.get_by_role("button", name="Save", exact=True)).to_be_visible()
    page.get_by_label(WATER, exact=True).fill("190 g")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#top")).to_contain_text("Version 2")
    changed = PIE.replace('"0.45 g"', '"0.6 g"').replace('"178 g"', '"190 g"')
    assert bench.head("recipe", recipe).text == changed


def test_another_item_is_added_in_the_form(opened: Open, recipe: str) -> None:
    """Its name waits for its amount; then it is a row like the others."""
    page = opened(f"/recipe/{recipe}")
    change(page, YEAST, "0.6 g")
    item = page.locator(".formula .blank input").first
    item.fill("malt syrup")
    item.press("Tab")
    change(page, WATER, "190 g")
    expect(page.locator("#moved header")).to_contain_text("ater 178 g to 190 g")
    expect(item).to_have_value("malt syrup")
    change(page, "amount of another item in the dough", "5 g")
    expect(page.get_by_label("malt syrup in the dough", exact=True)).to_have_value("5 g")
    expect(item).to_have_value("")


def test_an_item_and_its_amount_may_be_typed_at_one_go(opened: Open, recipe: str) -> None:
    """The name waits for its amount also where the amount was typed before the first answer came."""
    page = opened(f"/recipe/{recipe}")
    page.locator(".formula .blank input").first.focus()
    page.keyboard.type("malt syrup")
    page.keyboard.press("Tab")
    page.keyboard.type("5 g")
    page.keyboard.press("Tab")
    expect(page.locator("#said")).to_contain_text("Malt syrup added")
    expect(page.locator(".formula .blank input").first).to_have_value("")


@pytest.mark.parametrize("so_far", ["", "5", "5 g"])
def test_an_answer_in_the_middle_of_typing_changes_nothing(opened: Open, recipe: str, so_far: str) -> None:
    """A value that is half written is not sent, and one that is written is, once its field is left."""
    page, held = opened(f"/recipe/{recipe}"), list[Route]()
    page.route("**/recipe/*", lambda route: held.append(route))
    page.locator(".formula .blank input").first.focus()
    page.keyboard.type("malt syrup")
    page.keyboard.press("Tab")
    page.keyboard.type(so_far)
    page.wait_for_timeout(50)
    with page.expect_response("**/recipe/*"):
        held.pop().continue_()
    page.unroute("**/recipe/*")
    page.wait_for_timeout(100)
    page.keyboard.type("5 g"[len(so_far) :])
    page.keyboard.press("Tab")
    expect(page.locator("#said")).to_contain_text("Malt syrup added")
    expect(page.locator("#faults li")).to_have_count(0)


def test_a_button_that_kept_the_focus_is_not_pressed_by_the_next_change(opened: Open, recipe: str) -> None:
    """After Put it back, another change is that change alone."""
    page = opened(f"/recipe/{recipe}")
    change(page, YEAST, "0.6 g")
    expect(page.locator("#said")).to_contain_text("0.6 g")
    change(page, WATER, "190 g")
    expect(page.locator("#said")).to_contain_text("190 g")
    page.locator("#put-back").click()
    expect(page.get_by_label(WATER, exact=True)).to_have_value("178 g")
    expect(page.locator("#put-back")).to_be_focused()
    page.get_by_label("kitchen", exact=True).select_option("warm-flat.toml")
    expect(page.locator("#said")).to_contain_text("warm-flat.toml")
    expect(page.get_by_label(YEAST, exact=True)).to_have_value("0.6 g")


def test_a_window_that_becomes_narrow_gets_its_pictures(opened: Open, recipe: str) -> None:
    """A wide one is sent only what it shows."""
    page = opened(f"/recipe/{recipe}")
    change(page, YEAST, "0.6 g")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    expect(page.locator("#pictures .narrow svg")).to_have_count(0)
    page.set_viewport_size({"width": 390, "height": 900})
    expect(page.locator("#pictures .narrow svg")).to_be_visible()
    expect(page.locator("#plan .narrow svg")).to_be_visible()


def test_a_change_that_cannot_be_kept_is_said(opened: Open, recipe: str) -> None:
    """Where the bench does not answer, the page says so and keeps what was typed."""
    page = opened(f"/recipe/{recipe}")
    page.route("**/recipe/**", lambda route: route.fulfill(status=404, body=""))
    change(page, YEAST, "0.6 g")
    expect(page.locator("#said")).to_contain_text("refused the last change")
    expect(page.locator("#said")).to_be_visible()
    expect(page.get_by_label(YEAST, exact=True)).to_have_value("0.6 g")
    page.unroute("**/recipe/**")
    change(page, WATER, "190 g")
    expect(page.locator("#moved header")).to_contain_text("nstant yeast 0.45 g to 0.6 g")


def test_put_it_back_takes_the_last_edit_back(opened: Open, recipe: str) -> None:
    """And the strip goes with it."""
    page = opened(f"/recipe/{recipe}")
    change(page, YEAST, "0.6 g")
    page.get_by_role("button", name="Put 0.45 g back").click()
    expect(page.get_by_label(YEAST, exact=True)).to_have_value("0.45 g")
    expect(page.get_by_role("button", name="Put 0.45 g back")).to_have_count(0)


def test_text_is_recomputed_as_it_is_typed(opened: Open, recipe: str) -> None:
    """A fault is named at its line while the last good pictures stay; mended, it goes; the form follows."""
    page = opened(f"/recipe/{recipe}")
    page.get_by_role("button", name="Text", exact=True).click()
    text = page.get_by_label("The recipe’s text")
    expect(text).to_have_value(PIE)
    text.fill(PIE.replace('"178 g"', '"178"'))
    expect(page.locator("#faults")).to_contain_text("line 31")
    expect(page.locator("#faults")).to_contain_text("needs an amount with its unit")
    expect(page.get_by_text("as of the last text that could be read")).to_be_visible()
    expect(page.locator("#days svg").first).to_be_attached()
    page.get_by_role("link", name="line 31").click()
    assert page.evaluate(CHOSEN) == '  { item = "water", amount = "178" },'
    text.fill(PIE.replace('"178 g"', '"200 g"'))
    expect(page.locator("#faults li")).to_have_count(0)
    expect(page.locator("#moved")).to_contain_text("hydration")
    assert page.evaluate("document.activeElement.id") == "text"
    page.get_by_role("button", name="Form", exact=True).click()
    expect(page.get_by_label(WATER, exact=True)).to_have_value("200 g")


def test_unsaved_work_survives_a_reload(opened: Open, recipe: str) -> None:
    """In the form and in the text, faults and all."""
    page = opened(f"/recipe/{recipe}")
    change(page, YEAST, "0.6 g")
    expect(page.get_by_role("button", name="Save", exact=True)).to_be_visible()
    other = opened(f"/recipe/{recipe}")
    other.get_by_role("link", name="open it").first.click()
    expect(other.get_by_label(YEAST, exact=True)).to_have_value("0.6 g")
    page.reload()
    expect(page.get_by_label(YEAST, exact=True)).to_have_value("0.6 g")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    page.get_by_role("button", name="Text", exact=True).click()
    page.get_by_label("The recipe’s text").fill("schema = 1\n[[mix]")
    expect(page.locator("#faults")).to_contain_text("fault")
    page.reload()
    expect(page.get_by_label("The recipe’s text")).to_have_value("schema = 1\n[[mix]")


def test_two_windows_are_shown_both_versions(opened: Open, recipe: str, bench: Bench) -> None:
    """The second to save is asked; nothing is written over."""
    one, other = opened(f"/recipe/{recipe}"), opened(f"/recipe/{recipe}")
    for page, label, value in ((one, YEAST, "0.6 g"), (other, WATER, "190 g")):
        change(page, label, value)
        page.get_by_role("button", name="Save", exact=True).click()
    expect(one.locator("#top")).to_contain_text("Version 2")
    expect(other.get_by_role("heading", level=1)).to_have_text("Two versions of Leek and rye flat pie")
    expect(other.locator(".diff")).to_contain_text('amount = "190 g"')
    assert bench.head("recipe", recipe).number == 2
    other.get_by_role("button", name="Keep mine, as version 3").click()
    expect(other.locator("#top")).to_contain_text("Version 3")
    texts = [version.text for version in bench.versions("recipe", recipe)]
    assert texts == [PIE, PIE.replace('"0.45 g"', '"0.6 g"'), PIE.replace('"178 g"', '"190 g"')]


def test_the_keyboard_is_enough(opened: Open, recipe: str, bench: Bench) -> None:
    """From the address to the saved version without a mouse, the focus always to be seen."""
    page = opened(f"/recipe/{recipe}")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="To the page’s content")).to_be_focused()
    page.keyboard.press("Enter")
    tab_to(page, YEAST)
    page.keyboard.press("Control+A")
    page.keyboard.type("0.6 g")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    tab_to(page, "Save")
    assert page.evaluate("getComputedStyle(document.activeElement).outlineWidth") == "2px"
    page.keyboard.press("Enter")
    expect(page.locator("#top")).to_contain_text("Version 2")
    assert bench.head("recipe", recipe).text == PIE.replace('"0.45 g"', '"0.6 g"')


def tab_to(page: Page, name: str) -> None:
    """Press Tab until what has this name has the focus."""
    for _ in range(120):
        page.keyboard.press("Tab")
        found = page.evaluate(NAMED)
        if found.strip() == name:
            return
    raise AssertionError(f"Tab does not come to {name}")


def test_it_works_with_scripts_off(opened: Open, recipe: str, bench: Bench) -> None:
    """Read, change, recompute, save: forms that are sent."""
    page = opened(f"/recipe/{recipe}", java_script_enabled=False)
    expect(page.locator("#pictures .wide svg")).to_be_visible()
    page.get_by_label(YEAST, exact=True).fill("0.6 g")
    page.get_by_role("button", name="Recompute").first.click()
    expect(page.get_by_role("heading", name="What moved")).to_be_visible()
    expect(page.get_by_label(YEAST, exact=True)).to_have_value("0.6 g")
    page.get_by_role("button", name="Text", exact=True).click()
    expect(page.get_by_label("The recipe’s text")).to_have_value(re.compile('"0.6 g"'))
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#top")).to_contain_text("Version 2")
    assert bench.head("recipe", recipe).text == PIE.replace('"0.45 g"', '"0.6 g"')


def test_a_kitchen_says_what_its_change_moves(opened: Open) -> None:
    """A warmer fridge, seen on the kitchen's page."""
    page = opened("/kitchen/boathouse.toml")
    change(page, "fridge, where the dough stands", "7 °C")
    expect(page.locator("#recipes")).to_contain_text("higher")
    expect(page.locator("#said")).to_contain_text("Boathouse milk loaf")
