"""Cooks' amounts, and what is said of those that cannot be read."""

from __future__ import annotations

import pytest

from doughwright.errors import QuantityError
from doughwright.units import Amount, AmountKind, parse_amount, parse_volume


def fault_of(text: object, cups: str = "US") -> tuple[str | None, str | None, str | None]:
    """What is wanted, found and advised for a text that is refused."""
    with pytest.raises(QuantityError) as caught:
        parse_amount(text, cups=cups)  # type: ignore[arg-type]
    return caught.value.fault.wanted, caught.value.fault.found, caught.value.fault.try_


def test_an_amount_keeps_its_text() -> None:
    """The text stays as written, blanks and all."""
    assert parse_amount(" 420\u00a0g ") == Amount(AmountKind.MASS, 0.42, None, " 420\u00a0g ", None)


@pytest.mark.parametrize("blank", ["", " ", "  ", "\u00a0", "\u202f", "\u2009"])
def test_any_blank_or_none_goes_before_the_unit(blank: str) -> None:
    """No-break and thin spaces are blanks."""
    assert parse_amount(f"1,5{blank}kg").value == 1.5


@pytest.mark.parametrize(
    "text", ["1½ tsp", "1 ½ tsp", "1 1/2 tsp", "1 1⁄2 tsp", "3/2 tsp", "1.5 tsp", "1,5 tsp"]
)
def test_one_and_a_half_in_every_notation(text: str) -> None:
    """Every notation of one number gives the same amount."""
    amount = parse_amount(text)
    assert (amount.value, amount.measure) == (7.393382390625e-6, "tsp")


@pytest.mark.parametrize(
    "text",
    [
        "2 tbsp",
        "2 Tbsp.",
        "2 TBSP",
        "2 tablespoons",
        "2 tbs",
        "2tbsp",
        "2 US tbsp",
        "2 us tablespoons",
        "2 U.S. tbsp",
    ],
)
def test_a_spoon_by_any_of_its_names(text: str) -> None:
    """Capitals, full stops and long names change nothing."""
    assert parse_amount(text).value == 29.5735295625e-6


@pytest.mark.parametrize(
    "text", ["1 lb 4 oz", "1 lb, 4 oz", "1 lb and 4 oz", "1 lb + 4 oz", "1lb4oz", "1 pound 4 ounces"]
)
def test_pounds_and_ounces(text: str) -> None:
    """The two parts are added however they are joined."""
    assert parse_amount(text).value == 0.5669904625


def test_ounces_are_mass_and_fluid_ounces_volume() -> None:
    """Oz is never a volume, fl oz never a mass."""
    kinds = [
        parse_amount(text).kind
        for text in ("14 oz", "14 ounces", "14 fl oz", "14 fl. oz.", "14 fluid ounces")
    ]
    assert kinds == [AmountKind.MASS] * 2 + [AmountKind.VOLUME] * 3


@pytest.mark.parametrize(
    ("text", "number", "measure"),
    [
        ("2 large", 2, "large"),
        ("1 extra large", 1, "extra large"),
        ("3 cloves", 3, "clove"),
        ("½ onion", 0.5, "onion"),
        ("2 medium onions", 2, "medium onion"),
        ("2 leaves", 2, "leaf"),
        ("1 bunch", 1, "bunch"),
        ("2 bunches", 2, "bunch"),
        ("4 anchovies", 4, "anchovy"),
        ("2 tomatoes", 2, "tomato"),
        ("3 olives", 3, "olive"),
        ("2 eggs", 2, "egg"),
        ("2 Sticks", 2, "stick"),
        ("1 glass", 1, "glass"),
        ("1 octopus", 1, "octopus"),
        ("2 crêpes", 2, "crêpe"),
    ],
)
def test_counts_name_their_measure_in_the_singular(text: str, number: float, measure: str) -> None:
    """The ingredient is asked for its own weight of the measure by this word."""
    amount = parse_amount(text)
    assert (amount.kind, amount.value, amount.measure) == (AmountKind.COUNT, number, measure)
    assert amount.volume is None


@pytest.mark.parametrize(
    ("text", "number"), [("1 pinch", 1), ("a pinch", 1), ("pinch", 1), ("2 pinches", 2), ("½ pinch", 0.5)]
)
def test_a_pinch_has_an_assumed_volume(text: str, number: float) -> None:
    """A sixteenth of a US teaspoon each: common practice, no source."""
    amount = parse_amount(text)
    assert (amount.kind, amount.value, amount.measure) == (AmountKind.PINCH, number, "pinch")
    assert amount.volume == pytest.approx(number * 0.3080575996e-6, rel=1e-9)


def test_a_dash_is_two_pinches() -> None:
    """An eighth of a US teaspoon: common practice, no source."""
    assert parse_amount("1 dash").volume == parse_amount("2 pinches").volume


@pytest.mark.parametrize("text", ["to taste", "To Taste", "as needed"])
def test_to_taste_has_no_number(text: str) -> None:
    """Unknown is none, not nought."""
    assert parse_amount(text) == Amount(AmountKind.TASTE, None, None, text)


@pytest.mark.parametrize(
    ("text", "cups", "millilitres"),
    [
        ("1 cup", "US", 236.5882365),
        ("1 cup", "imperial", 284.130625),
        ("1 cup", "metric", 250),
        ("1 UK cup", "US", 284.130625),
        ("1 US cup", "imperial", 236.5882365),
        ("1 metric cup", "US", 250),
        ("1 pint", "imperial", 568.26125),
        ("1 imperial pint", "metric", 568.26125),
        ("1 US pt", "metric", 473.176473),
        ("1 dessertspoon", "metric", 10),
        ("1 imperial gallon", "US", 4546.09),
    ],
)
def test_kitchens_are_told_apart(text: str, cups: str, millilitres: float) -> None:
    """The recipe says whose cups; a measure written out in full means what it says."""
    assert parse_amount(text, cups=cups).value == pytest.approx(millilitres * 1e-6, rel=1e-14)
    assert parse_volume(text, cups=cups) == pytest.approx(millilitres * 1e-6, rel=1e-14)


def test_a_metric_kitchen_has_no_pint_of_its_own() -> None:
    """Both pints are offered rather than one guessed."""
    assert fault_of("1 pint", "metric") == (
        "an amount in a measure that a metric kitchen has",
        '"1 pint"',
        'Write "US pint" or "imperial pint"',
    )


def test_an_unknown_kitchen_is_refused() -> None:
    """Only three kitchens are known."""
    wanted, found, _ = fault_of("1 cup", "Japanese")
    assert (wanted, found) == ("one of US, metric or imperial", '"Japanese"')


@pytest.mark.parametrize(
    ("text", "wanted", "advice"),
    [
        (
            "1,500 g",
            "an amount that can be read one way only",
            'It could be 1500 g or 1.5 g: write "1500 g" or "1.5 g"',
        ),
        (
            "0,125 kg",
            "an amount that can be read one way only",
            'It could be 125 kg or 0.125 kg: write "125 kg" or "0.125 kg"',
        ),
        ("1,500", "an amount with its unit", 'Write for example "1,500 g", "1,500 tsp" or "2 large"'),
        ("1 500 g", "an amount with its unit", 'If it is one number, write "1500 g"; else multiply it out'),
        ("1,234,567 g", "an amount with one decimal sign", 'Write for example "1234567 g"'),
        ("1.500,5 g", "an amount with one decimal sign", 'Write for example "1500.5 g"'),
        ("2.5.1 g", "an amount with one decimal sign", 'Write for example "1.5 g"'),
        (
            "1 400 g tin",
            "an amount with its unit",
            'If it is one number, write "1400 g"; else multiply it out',
        ),
        ("1 cup, chopped", "an amount", 'Write "1 cup", and the rest in a note'),
        ("400 g tin", "an amount: a number and a unit", 'Write "400 g", and the rest in a note'),
        ("60 mins", "an amount in a known unit", 'Write for example "420 g" or "2 large"'),
        ("0x10 g", "an amount", 'Write for example "420 g"'),
        ("2 x 400 g", "an amount", 'Multiply it out: write "800 g"'),
        ("2 × 400 g", "an amount", 'Multiply it out: write "800 g"'),
        ("2 to 3 cloves", "an amount", 'Write one amount, not a range, for example "420 g"'),
        ("2-3 tbsp", "an amount", 'Write one amount, not a range, for example "420 g"'),
        ("1-1/2 cups", "an amount", 'If it is one number, write "1 1/2 cups"'),
        ("~420 g", "an amount", 'Write the amount alone, for example "420 g"'),
        (
            "1 heaped tsp",
            "an amount: a number and a unit",
            'Write "1 tsp", and the rest in a note',
        ),
        ("420 gr", "an amount with a unit that means one thing", 'Write "g" for grams'),
        ("3 tbps", "an amount in a known unit", 'Did you mean "tbsp"'),
        ("3 teaspon", "an amount in a known unit", 'Did you mean "teaspoon"'),
        ("30 cm", "an amount in a known unit", 'Write for example "420 g" or "2 large"'),
        ("1/0 tsp", "an amount", "A fraction cannot be divided by 0"),
        ("1 3/2 tsp", "an amount with a fraction below 1", 'Write for example "1 1/2"'),
        ("４２０ g", "an amount in the digits 0 to 9", 'Write "420 g"'),
        ("1 lb 1 cup", "an amount in one kind of unit", 'Write for example "420 g"'),
        ("4 oz 1 lb", "an amount, the largest unit first and each unit once", 'Write for example "420 g"'),
        ("1 oz 1 oz", "an amount, the largest unit first and each unit once", 'Write for example "420 g"'),
        ("2e6 g", "an amount", 'Write for example "420 g"'),
        ("2000000 kg", "a mass from 0.000001 g to 10000 kg", 'Write for example "420 g"'),
    ],
)
def test_what_cannot_be_read_one_way_is_refused_with_advice(text: str, wanted: str, advice: str) -> None:
    """The error names what is wanted and what to write."""
    assert fault_of(text) == (wanted, f'"{text}"', advice)


@pytest.mark.parametrize("text", ["0 g", "0,0 kg", "0/4 cup", "0 large", "0 %", "-5 g", "-½ cup", "−5 g"])
def test_an_amount_is_above_zero(text: str) -> None:
    """Nothing, or less, is no amount."""
    assert fault_of(text)[0] == "an amount above zero"


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "g",
        "%",
        "nan",
        "NaN g",
        "inf g",
        "infinity",
        "1e3",
        "1/2",
        "½",
        ",5 kg",
        "5. kg",
        "1..5 g",
        "1 / / 2 g",
        "1 g 2",
        "+",
        "-",
        "½½ g",
        "1½½ cup",
        "1 g 1 %",
        "kg 5",
        "1 kg/m3",
        "five g",
        "1 \U0001d7d9 g",
        "2 🥚",
    ],
)
def test_what_is_no_amount_is_refused(text: str) -> None:
    """Each is our own error, with an example to follow."""
    assert '"' in str(fault_of(text)[2])


@pytest.mark.parametrize(
    ("thing", "found"),
    [
        (420, "the bare number 420"),
        (1.5, "the bare number 1.5"),
        (True, "true"),
        (None, "nothing"),
        ([], "a list"),
        (10**50, "a number too long to show"),
        (float("nan"), "the bare number nan"),
    ],
)
def test_what_is_no_text_is_refused(thing: object, found: str) -> None:
    """A bare number has no unit, whatever its size."""
    wanted, said, advice = fault_of(thing)
    assert (wanted, said) == ("an amount", found)
    assert advice is not None
    assert "in quotes and with its unit" in advice


def test_a_number_too_long_to_print_is_refused() -> None:
    """Python itself will not print it."""
    assert fault_of(10**5000)[1] == "a number too long to show"


@pytest.mark.parametrize(
    "sign", ["\x00", "\t", "\n", "\x7f", "\u200b", "\ufeff", "\u202e", "\ud800", "\u00ad"]
)
def test_what_cannot_be_seen_is_named(sign: str) -> None:
    """A control or an invisible character is spelled out."""
    wanted, found, _ = fault_of(f"4{sign}20 g")
    assert wanted == f"an amount without the invisible character U+{ord(sign):04X}"
    assert found == f'"4\\u{ord(sign):04x}20 g"'


def test_a_long_text_is_shortened_in_the_error() -> None:
    """Forty characters of it are enough to know it by."""
    wanted, found, _ = fault_of("9" * 5000 + " g")
    assert (wanted, found) == ("an amount of at most 100 characters", '"' + "9" * 40 + '…"')
