"""A recipe's sheet: what it shows, and form and text as two views of one document."""

from __future__ import annotations

import re

from doughwright.store import Bench
from tests.web.conftest import PIE, demo_texts
from tests.web.window import TestClient, Window

TEXT = demo_texts()["leek-and-rye-flat-pie.toml"]
YEAST = "f:mix.1.ingredients.3.amount"
WATER = "f:mix.1.ingredients.2.amount"


def text_in(window: Window) -> str:
    """The document's text as the window has it."""
    window.fill(go="text")
    start = window.page.index('id="text"')
    inside = window.page[window.page.index(">", start) + 2 : window.page.index("</textarea>", start)]
    from html import unescape

    text = unescape(inside)
    window.fill({"text": text}, go="form")
    return text


def test_the_sheet_shows_the_whole_path(pie: Window) -> None:
    """What goes in, the days with both pictures and the table, the steps, the plan, cautions, history."""
    text = pie.text()
    for heading in ("What goes in", "The days", "The steps", "The plan", "Cautions", "History"):
        assert heading in text
    assert pie.page.count("<h1>") == 1
    assert pie.page.count('<svg xmlns="http://www.w3.org/2000/svg"') == 4
    assert 'viewBox="0 0 932' in pie.page and 'viewBox="0 0 350' in pie.page
    assert "hydration 67.5 % as poured 67.5 %" in text
    assert "Thu 26 Nov" in text and "Mix the poolish" in text
    assert "Raw flour" in text


def test_an_edit_in_the_form_changes_those_characters_only(pie: Window) -> None:
    """The text is the same but for the amount."""
    pie.fill({YEAST: "0.6 g"})
    assert text_in(pie) == TEXT.replace('"0.45 g"', '"0.6 g"')


def test_an_edit_says_what_moved(pie: Window) -> None:
    """More yeast: ripe earlier, at the top and in one line at the foot; the old value at its field."""
    pie.fill({YEAST: "0.6 g"})
    said = pie.text()
    assert "What moved Instant yeast 0.45 g to 0.6 g." in said
    assert "earlier" in pie.part("said") and "yeast" in pie.part("said")
    assert "was 0.45 g" in said
    assert 'class="pic-move"' in pie.page


def test_before_any_edit_nothing_is_said_to_have_moved(pie: Window) -> None:
    """No part at the top, and no buttons at the foot."""
    assert "What moved" not in pie.text()
    assert 'id="put-back"' not in pie.page


def test_a_number_alone_keeps_its_unit(pie: Window) -> None:
    """The column says what it is in; a cook types the figure."""
    pie.fill({WATER: "190"})
    assert pie.value(WATER) == "190 g"


def test_putting_back_takes_the_last_edit_back(pie: Window) -> None:
    """One edit at a time, to where the window began."""
    pie.fill({YEAST: "0.6 g"})
    pie.fill({WATER: "190 g"})
    pie.fill(do="put-back")
    assert (pie.value(YEAST), pie.value(WATER)) == ("0.6 g", "178 g")
    pie.fill(do="put-back")
    assert (pie.value(YEAST), pie.value(WATER)) == ("0.45 g", "178 g")
    assert "What moved" not in pie.text()


def test_an_edit_of_the_text_shows_in_the_form(pie: Window) -> None:
    """Two views of one document."""
    pie.fill(go="text")
    pie.fill({"text": TEXT.replace('"0.45 g"', '"0.9 g"')})
    assert 'id="goes"' not in pie.page, "the text is being typed in, so it is not replaced"
    pie.fill({"text": TEXT.replace('"0.45 g"', '"0.9 g"')}, go="form")
    assert pie.value(YEAST) == "0.9 g"


def test_a_faulty_text_keeps_the_last_good_pictures(pie: Window) -> None:
    """It says so, names the line, and loses nothing."""
    pie.fill({YEAST: "0.6 g"})
    shown = re.compile(r'<svg[^>]*aria-labelledby="(?:band|lanes)')
    good = len(shown.findall(pie.page))
    pie.fill(go="text")
    broken = TEXT.replace('"0.45 g"', '"0.6 g"').replace('"178 g"', '"178"')
    pie.fill({"text": broken})
    said = pie.text()
    assert "as of the last text that could be read" in said
    assert 'line 31 Mix 2, ingredient 3 "amount": needs an amount with its unit, found "178"' in said
    assert len(shown.findall(pie.page)) == good > 0
    pie.fill({"text": broken}, go="form")
    assert pie.value(WATER) == "178"
    assert 'aria-invalid="true"' in pie.page


def test_a_wrong_value_in_a_field_is_shown_at_the_field(pie: Window) -> None:
    """With what is wanted and what to write; mending it mends the text."""
    pie.fill({WATER: "lots"})
    assert pie.value(WATER) == "lots"
    assert 'id="field-f-mix-1-ingredients-2-amount-fault">' in pie.page
    pie.fill({WATER: "180 g"})
    assert 'aria-invalid="true"' not in pie.page


def test_a_text_of_another_build_closes_the_fields(pie: Window) -> None:
    """Where lines were added and the text has a fault, a field could mean another line: it waits."""
    pie.fill(go="text")
    line = '  { item = "water", amount = "178 g" },\n'
    pie.fill({"text": TEXT.replace(line, line + '  { item = "nobody knows", amount = "3 g" },\n')})
    pie.fill({"text": TEXT.replace(line, line + '  { item = "nobody knows", amount = "3 g" },\n')}, go="form")
    assert "the fields are closed" in pie.text()
    assert "disabled" in pie.page


def test_a_field_that_is_cleared_leaves_the_document(pie: Window) -> None:
    """Its key goes, with its line; what is assumed then stands in its place."""
    pie.fill({"f:makes.portions": "", "f:target.rise": ""})
    assert text_in(pie) == TEXT.replace("portions = 4\n", "").replace('rise = "1.6 to 2.1"\n', "")


def test_a_field_that_was_not_written_is_added(client: TestClient, bench: Bench) -> None:
    """Also where its table is not there yet."""
    bare = TEXT[: TEXT.index("[target]")]
    bench.save("recipe", "bare.toml", bare, expected=None)
    window = Window(client, "/recipe/bare.toml", live=True)
    window.fill({"f:target.rise": "1.7 to 2.0"})
    assert text_in(window).endswith('\n[target]\nrise = "1.7 to 2.0"\n')


def test_saving_makes_a_version_with_its_note(pie: Window, bench: Bench) -> None:
    """The draft is gone, the note is kept, and the page says which version it is."""
    pie.fill({YEAST: "0.6 g"})
    pie.fill(do="save", note="  a warmer  week ")
    head = bench.head("recipe", "leek-and-rye-flat-pie.toml")
    assert (head.number, head.note, head.text) == (2, "a warmer week", TEXT.replace('"0.45 g"', '"0.6 g"'))
    assert bench.drafts("recipe", head.name) == ()
    assert "Version 2, saved 12:00 by Ida" in pie.text()
    assert "What moved" not in pie.text()


def test_a_text_with_faults_can_be_saved(pie: Window, bench: Bench) -> None:
    """A document that does not parse is never lost."""
    pie.fill(go="text")
    pie.fill({"text": "schema = 1\n[[mix]"}, do="save")
    assert bench.head("recipe", "leek-and-rye-flat-pie.toml").text == "schema = 1\n[[mix]"


def test_undo_and_an_old_version_are_new_versions(pie: Window, bench: Bench) -> None:
    """Nothing is written over by going back."""
    pie.fill({YEAST: "0.6 g"})
    pie.fill(do="save")
    pie.fill(do="undo")
    head = bench.head("recipe", "leek-and-rye-flat-pie.toml")
    assert (head.number, head.text) == (3, TEXT)
    pie.fill(do="bring", number="2")
    assert pie.value(YEAST) == "0.6 g"
    assert bench.head("recipe", head.name).number == 3


def test_windows_line_ends_stay(client: TestClient, bench: Bench) -> None:
    """A text area knows one line end; the document keeps its own."""
    bench.save("recipe", "crlf.toml", TEXT.replace("\n", "\r\n"), expected=None)
    window = Window(client, "/recipe/crlf.toml", live=True)
    window.fill(go="text")
    window.fill({"text": TEXT.replace("0.45", "0.5").replace("\n", "\r\n")}, do="save")
    assert bench.head("recipe", "crlf.toml").text == TEXT.replace("0.45", "0.5").replace("\n", "\r\n")


def test_the_sheet_works_without_scripts(client: TestClient, bench: Bench) -> None:
    """A form that is sent, an answer that leads back to the sheet, and all of it read on the page."""
    window = Window(client, PIE)
    assert "<noscript>" in window.page
    window.fill({YEAST: "0.6 g"})
    assert window.answer.history[0].status_code == 303
    assert window.answer.url.params["window"] == window.state("window")
    assert window.value(YEAST) == "0.6 g"
    assert "What moved" in window.text()
    window.fill(do="save")
    assert bench.head("recipe", "leek-and-rye-flat-pie.toml").number == 2


def test_card_and_calendar_are_of_the_windows_text(pie: Window, client: TestClient) -> None:
    """Unsaved work included."""
    pie.fill({"f:title": "x", YEAST: "0.6 g"})
    window = pie.state("window")
    card = client.get(f"{PIE}/card.pdf?window={window}&units=both")
    assert (card.headers["content-type"], card.content[:5]) == ("application/pdf", b"%PDF-")
    assert 'filename="leek-and-rye-flat-pie.pdf"' in card.headers["content-disposition"]
    plan = client.get(f"{PIE}/plan.ics?window={window}")
    assert plan.headers["content-type"].startswith("text/calendar")
    assert plan.content.startswith(b"BEGIN:VCALENDAR\r\n")


def test_a_meal_without_a_plan_says_why_and_names_the_nearest(client: TestClient) -> None:
    """On the sheet in words; the calendar of no plan is no file."""
    window = Window(client, PIE)
    window.look("eat=2026-11-27 05:00")
    assert "There is no plan for this meal." in window.text()
    assert "The nearest meal that works" in window.text()
    answer = client.get(f"{PIE}/plan.ics?eat=2026-11-27 05:00")
    assert answer.status_code == 409


def test_a_recipe_of_what_is_not_modelled_still_has_its_sheet(client: TestClient, bench: Bench) -> None:
    """The formula is there, and the days say why they are not."""
    text = TEXT.replace('do = "retard"', 'do = "freeze"').replace('at = "fridge"', 'at = "-18 °C"')
    bench.save("recipe", "frozen.toml", text, expected=None)
    window = Window(client, "/recipe/frozen.toml")
    assert "hydration" in window.part("goes")
    assert "freez" in window.part("days")


TWO_DOUGHS = """\
schema = 1
title = "Two"
[[mix]]
name = "white"
kind = "dough"
ingredients = [ { item = "bread flour", amount = "400 g" }, { item = "water", amount = "260 g" },
  { item = "instant yeast", amount = "1 g" }, { item = "salt, fine", amount = "8 g" } ]
[[mix]]
name = "rye"
kind = "dough"
ingredients = [ { item = "rye flour, medium", amount = "400 g" }, { item = "water", amount = "300 g" },
  { item = "instant yeast", amount = "1 g" }, { item = "salt, fine", amount = "8 g" } ]
[[step]]
do = "mix"
mix = "white"
[[step]]
do = "mix"
mix = "rye"
[[step]]
do = "bulk"
of = "white"
for = "5 h"
at = "room"
[[step]]
do = "bulk"
of = "rye"
for = "4 h"
at = "room"
"""


def test_the_steps_of_every_dough_have_their_times_and_volumes(client: TestClient) -> None:
    """Of the second dough too."""
    window = Window(client, PIE, live=True)
    window.fill(text=TWO_DOUGHS)
    steps = window.part("steps")
    rows = re.findall(r"((?:\w{3} )?\d\d:\d\d) (Mix|Bulk) (white|rye)( 1\.00)?", steps)
    assert [(row[1], row[2], row[3]) for row in rows if row[1] == "Bulk"] == [
        ("Bulk", "white", " 1.00"),
        ("Bulk", "rye", " 1.00"),
    ]
    assert len(rows) == 4


def test_a_saved_text_with_faults_shows_the_last_version_that_can_be_read(client: TestClient) -> None:
    """With what is made of it; a card is promised, not offered."""
    window = Window(client, PIE, live=True)
    window.fill(text="schema = 1\n[[mix]", do="save")
    shown = Window(client, PIE).text()
    assert "Version 2" in shown
    assert "as of the last text that could be read" in shown
    assert "leeks" in shown
    assert "A card is made once the text can be read" in shown and "Card in grams" not in shown


def test_the_page_names_no_option_of_the_terminal(pie: Window) -> None:
    """The nearest meal is a link."""
    pie.fill({"f:makes.eat": "Saturday 05:00"})
    plan = pie.part("plan")
    assert "The nearest meal that works" in plan and "--eat" not in plan


def test_a_recipe_without_dough_has_no_days_and_says_so(pie: Window) -> None:
    """In a whole sentence."""
    pie.fill(
        text='schema = 1\ntitle = "S"\n[[mix]]\nname = "s"\nkind = "sauce"\n'
        'ingredients = [{ item = "water", amount = "9 g" }]\n'
    )
    assert "This recipe has no dough, so it has no days." in pie.part("days")


def test_what_is_taken_away_is_called_after_the_recipe(client: TestClient) -> None:
    """In any script; a title keeps no characters that a calendar cannot hold."""
    token = client.cookies["bench"]
    made = client.post("/new", data={"token": token, "kind": "recipe", "title": "Хлеб\x07", "shape": "ball"})
    assert "<h1>Хлеб</h1>" in made.text
    card = client.get(f"{made.url.path}/plan.ics")
    assert card.headers["content-disposition"] == (
        "attachment; filename*=UTF-8''%D1%85%D0%BB%D0%B5%D0%B1.ics"
    )


def test_what_ends_a_wait_stands_in_its_step_and_can_be_edited(pie: Window) -> None:
    """A wait with an event has a field for it; the others have none."""
    assert "end of" not in pie.page
    assert 'do = "temper"' in TEXT
    number = re.findall(r'^do = "([^"]+)"', TEXT, re.M).index("temper")
    pie.fill(go="text")
    pie.fill({"text": TEXT.replace('do = "temper"', 'do = "temper"\nuntil = "core 16 °C"', 1)}, go="form")
    field = f"f:step.{number}.until"
    assert f'name="{field}" value="core 16 °C"' in pie.page
    pie.fill({field: "core 15 °C"})
    assert 'until = "core 15 °C"' in text_in(pie)
