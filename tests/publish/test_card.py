"""The card: amounts and steps on A5, tagged, the same bytes each time, and nothing read as markup."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache

import pypdf
import pytest

from doughwright.publish.card import CardData, Stamp, card, card_data, recipe_card, template
from doughwright.publish.cautions import cautions
from doughwright.publish.render import System
from doughwright.recipe.formula import formula
from tests.publish._example import PIE, kitchen, recipe, run

A5_POINTS = (419.53, 595.28)


@cache
def data(units: System = "metric", text: str = PIE) -> CardData:
    one = recipe(text)
    return card_data(
        one,
        formula(one, kitchen()),
        kitchen(),
        run=run(text),
        cautions=cautions(one, kitchen(), run(text)),
        units=units,
        stamp=Stamp("Version 14", "25 November 2026"),
    )


@cache
def reader(units: System = "metric") -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(card(data(units))))


def text_of(pdf: bytes | pypdf.PdfReader) -> str:
    one = pypdf.PdfReader(io.BytesIO(pdf)) if isinstance(pdf, bytes) else pdf
    return " ".join(" ".join(page.extract_text() for page in one.pages).replace("\u00a0", " ").split())


def test_the_same_data_give_the_same_bytes() -> None:
    """No date, no random id."""
    assert card(data()) == card(data())


def test_it_is_one_or_two_sides_of_a5() -> None:
    """148 by 210 mm."""
    pages = reader().pages
    assert len(pages) in (1, 2)
    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(A5_POINTS, abs=0.1)


def test_it_is_tagged_titled_and_in_a_language() -> None:
    """A screen reader finds headings, tables with heads, and words for the picture."""
    root = reader().trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert reader().metadata is not None
    assert reader().metadata.title == "Leek and rye flat pie"
    kinds = set(tag_kinds(root["/StructTreeRoot"]))
    assert {"/H1", "/H2", "/Table", "/TH", "/TD", "/Figure"} <= kinds


@pytest.mark.outside(
    source="ISO 14289-1 (PDF/UA-1): the identification schema in the metadata", how="identity"
)
def test_it_says_that_it_is_pdf_ua() -> None:
    """The metadata carries pdfuaid:part 1."""
    meta = reader().trailer["/Root"]["/Metadata"].get_object().get_data().decode()
    assert re.search(r"pdfuaid:part>?=?\"?1", meta)


def tag_kinds(node: object) -> list[str]:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        return [kind for one in node for kind in tag_kinds(one)]
    if not isinstance(node, dict):
        return []
    own = [str(node["/S"])] if "/S" in node else []
    return own + (tag_kinds(node["/K"]) if "/K" in node else [])


def test_the_picture_is_said_in_words() -> None:
    """The figure's alternative text states the finding."""
    assert any(
        "times its volume" in alt for alt in alternatives(reader().trailer["/Root"]["/StructTreeRoot"])
    )


def alternatives(node: object) -> list[str]:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        return [alt for one in node for alt in alternatives(one)]
    if not isinstance(node, dict):
        return []
    own = [str(node["/Alt"])] if "/Alt" in node else []
    return own + (alternatives(node["/K"]) if "/K" in node else [])


def test_every_font_is_embedded() -> None:
    """It prints the same everywhere."""
    for page in reader().pages:
        for font in page["/Resources"]["/Font"].values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = inner["/FontDescriptor"].get_object()
            assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))


def test_amounts_percentages_steps_and_times_are_text() -> None:
    """What a cook needs can be searched and read aloud."""
    text = text_of(reader())
    for wanted in (
        "bread flour",
        "300 g",
        "69.0",
        "Makes 2 rounds of 30 cm",
        "hydration",
        "dress with leeks",
    ):
        assert wanted in text
    assert re.search(r"Sat 16:51 temper 2 h room", text)
    assert "Version 14 · 25 November 2026" in text


def test_grams_stand_beside_measures() -> None:
    """Salt by the spoon, butter as it was written; the yeast that the scale cannot weigh has advice."""
    text = text_of(reader())
    assert re.search(r"salt, fine \(later\) 9 g 1 . tsp", text)
    assert "rapeseed oil (last) 14 g 1 tbsp" in text
    assert "instant yeast into" in text


@pytest.mark.outside(source="NIST SP 811: 1 oz = 28.349523125 g; 250 °C = 482 °F", how="identity")
def test_both_systems_where_both_are_asked_for() -> None:
    """300 g is 10.6 oz, 250 °C is 482 °F."""
    text = text_of(reader("both"))
    assert "bread flour 300 g 10.6 oz" in text
    assert "250 °C (482 °F)" in text


def test_only_american_units_where_those_are_asked_for() -> None:
    """No gram and no Celsius among the amounts and steps."""
    us = data("US")
    assert all(" g" not in weight for mix in us.mixes for row in mix.rows for weight in row.weights)
    assert all("°C" not in step.at for step in us.steps)
    assert us.weight_units == ("US weight",)


def test_allergens_of_both_lists_are_named() -> None:
    """Wheat and milk; cereals containing gluten and milk."""
    us, eu = data().allergens
    assert us == ("contains, by the US list", "milk, wheat")
    assert eu[0] == "contains, by the EU list"
    assert "cereals containing gluten" in eu[1]
    assert "milk" in eu[1]


def test_cautions_say_what_to_do() -> None:
    """Raw flour is on the card of every dough."""
    found = [one for one in data().cautions if "flour" in one.says]
    assert found
    assert all(one.do for one in data().cautions)


MARKUP = r'#strike[x] *bold* _it_ $x^2$ \ "quoted" <label> [br] = head @ref ~ `raw` // no'


def test_words_are_set_as_written_and_never_read_as_markup() -> None:
    """Typst's own signs come out as signs, in every place where a cook's words go."""
    one = data()
    row = replace(one.mixes[0].rows[0], item=MARKUP, note=MARKUP)
    step = replace(one.steps[0], do=MARKUP)
    evil = replace(
        one,
        title=MARKUP,
        lead=MARKUP,
        mixes=(replace(one.mixes[0], name=MARKUP, rows=(row,), note=MARKUP),),
        steps=(step,),
        notes=(MARKUP,),
        version=MARKUP,
    )
    text = text_of(card(evil))
    wanted = " ".join(MARKUP.split())
    assert text.count(wanted) >= 5


def test_a_closing_quote_does_not_end_the_data() -> None:
    """Nothing that is written in a recipe can run: the data are JSON."""
    title = '"}); panic("no"); #("'
    assert title in text_of(card(replace(data(), title=title)))
    assert b"Leek" not in template()


@pytest.mark.parametrize("title", ["面包 🍞", "خبز بالثوم", "Ржаной хлеб", "", "a" * 400, "line\nbreak\ttab"])
def test_no_script_and_no_length_breaks_it(title: str) -> None:
    """What the faces at hand cannot show is shown as a box; the card is still made."""
    assert card(replace(data(), title=title)).startswith(b"%PDF")


def test_a_long_recipe_flows_on_to_further_pages() -> None:
    """Two hundred ingredients, with the head of the table on each page."""
    one = data()
    rows = tuple(replace(one.mixes[0].rows[0], item=f"thing {n}") for n in range(200))
    pdf = pypdf.PdfReader(io.BytesIO(card(replace(one, mixes=(replace(one.mixes[0], rows=rows),)))))
    assert len(pdf.pages) >= 4
    assert all("in measures" in page.extract_text() for page in pdf.pages[:3])
    assert "thing 199" in text_of(pdf)


def test_a_recipe_whose_days_are_not_modelled_has_a_card_without_a_picture() -> None:
    """It says why."""
    text = PIE.replace('do = "retard"', 'do = "freeze"')
    said = text_of(recipe_card(recipe(text), kitchen(), date="2026-11-25"))
    assert "freez" in said
    assert "opened out" not in said


def test_a_wait_that_ends_by_the_dough_says_so_in_the_units_asked_for() -> None:
    """With its time as the limit."""
    text = PIE.replace('do = "temper"', 'do = "temper"\nuntil = "core 16 °C"')
    said = text_of(card(data("US", text)))
    assert "temper until the core is at 61 °F" in said
    assert "at most 2 h" in said
