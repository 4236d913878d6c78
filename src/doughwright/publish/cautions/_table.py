"""The table of cautions: what each says, what to do, and the source; ``{...}`` is filled from the recipe."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Rule:
    """One row: ``gravity`` 1 can make ill or burn, 2 can break or spoil, 3 is good to know."""

    id: str
    gravity: int
    what: str
    do: str
    source: str


CODE = "Your local food code and a licensed kitchen's own rules go first."
MAKER = "The maker's instructions go first."

RULES = (
    Rule(
        "warm-animal-food",
        1,
        "In the {mix}: {items}. It stands {hours} above 5 °C before it is baked; food of animal origin is "
        "usually left there for 2 h at most, and 1 h above 32 °C.",
        "Let the long waits pass in a fridge at 5 °C or below, make them shorter, or leave these out. "
        f"{CODE}",
        "USDA FSIS, two-hour rule; FDA Food Code 2022, 3-501.16 and 3-501.19",
    ),
    Rule(
        "food-waiting",
        1,
        "{said} {hours} above 5 °C. Cooked or dressed food is usually left there for 2 h at most.",
        "Cool it quickly, to 21 °C within 2 h and to 5 °C within 6 h in all, and keep it in the fridge until "
        f"it is used. Throw away what stood longer. {CODE}",
        "USDA FSIS, two-hour rule; FDA Food Code 2022, 3-501.14 and 3-501.16",
    ),
    Rule(
        "garlic-in-oil",
        1,
        '"{mix}" holds {items} under oil, where the germ of botulism can grow at room temperature.',
        "Make it fresh, keep it in the fridge and use it within 4 days, or freeze it. Never leave it out. "
        f"{CODE}",
        "US Centers for Disease Control: 4 days (from memory); US home-preservation advice: 7",
    ),
    Rule(
        "raw-animal-food",
        1,
        "Raw in it: {items}.",
        "Heat them through and check the middle with a probe: {least}. Keep them cold and apart from what is "
        f"eaten as it is; wash hands and tools. {CODE}",
        "FDA Food Code 2022, 3-401.11",
    ),
    Rule(
        "warm-fridge",
        1,
        "The fridge is at {degrees} °C. Food that spoils is usually kept at 5 °C or below.",
        f"Set it colder, and check it with a thermometer in a glass of water. {CODE}",
        "FDA Food Code 2022, 3-501.16",
    ),
    Rule(
        "raw-flour",
        1,
        "Raw flour can carry germs; people have fallen ill from raw dough.",
        "Do not taste dough or batter before it is baked. Wash hands, tools and worktop after it. Heating "
        f"flour at home does not help. {CODE}",
        "US FDA and Centers for Disease Control on raw flour and dough",
    ),
    Rule(
        "hot-surface",
        1,
        "The {surface} is as hot as the oven and stays hot long after it is off. Bare metal at 70 °C burns "
        "within a second.",
        f"Use dry, thick gloves and a peel, say aloud that it is hot, and let it cool in the oven. {MAKER}",
        "ISO 13732-1, contact burns on bare metal (from memory)",
    ),
    Rule(
        "steam",
        1,
        "{said}. Steam and splashes scald at once: water at 60 °C does within 5 s.",
        "Stand back and to the side when you open, keep face and arms away, and pour no water on the door's "
        f"glass or the lamp. {MAKER}",
        "burn-institute chart of scald times (second-hand)",
    ),
    Rule(
        "boiling",
        2,
        "Something is cooked in a pan ({mix}): fat and boiling sauce splash and scald.",
        "Keep water away from hot fat, turn the handle inwards, and do not leave it alone. A fire of fat is "
        f"smothered with a lid, never put out with water. {MAKER}",
        "burn-institute chart of scald times (second-hand); common practice",
    ),
    Rule(
        "stone-shock",
        2,
        "The {surface} is stone, and stone cracks when it is heated or cooled unevenly.",
        "Heat it up with the oven, dry. Put nothing frozen or wet on it, pour no water on it, wash it cold. "
        f"{MAKER}",
        "common practice, no source",
    ),
    Rule(
        "glass-shock",
        2,
        "{said} of glass. Glass that goes from cold to hot, or from hot to wet or cold, can burst.",
        "Let it come to room temperature before it goes into the oven. Never set it on a hot stone or steel, "
        f"under the broiler or on a wet worktop. Use none that is chipped. {MAKER}",
        "common practice, no source",
    ),
    Rule(
        "dark-crust",
        3,
        "A dark {parts} is asked for. Acrylamide forms above 120 °C as a crust dries and browns.",
        "Bake to golden, in a cooler oven for longer, and cut off what is burnt. A long rise with yeast "
        f"lowers it too. {CODE}",
        "Commission Regulation (EU) 2017/2158, recital 3 and Annexes I and II",
    ),
    Rule(
        "unknown-fridge",
        3,
        "Nobody has measured this fridge. Many fridges at home are above 5 °C.",
        f"Check it with a thermometer in a glass of water, and write it into the kitchen. {CODE}",
        "surveys of home fridges in New Zealand, France, England and the USA; FDA Food Code 2022, 3-501.16",
    ),
    Rule(
        "allergens-us",
        1,
        "Allergens on the US list: {names}.",
        f"Name them to everyone who eats it, and in writing where it is sold. {CODE}",
        "US FD&C Act 201(qq) and 403(w), nine major allergens",
    ),
    Rule(
        "allergens-eu",
        1,
        "Allergens on the EU list: {names}.",
        f"Name them to everyone who eats it, and in writing where it is sold. {CODE}",
        "Regulation (EU) No 1169/2011, Annex II, fourteen substances",
    ),
    Rule(
        "allergens-label",
        1,
        "Allergens that depend on the make: {names}.",
        f"Check the label of the pack that is used. {CODE}",
        "US FD&C Act 403(w); Regulation (EU) No 1169/2011, Annex II",
    ),
)
