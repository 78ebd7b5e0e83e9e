"""Amounts of ingredients for a batch, exact, and how they are said: '330 g onion, chopped (3)'.

What is said is rounded by the one rule for show (`dish.scale.show_amount`); the records stay exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ladleworth.dish.dish import Ingredient
from ladleworth.dish.line_words import ADVERBS
from ladleworth.dish.scale import show_amount
from ladleworth.facts import Food, FoodTable, Measure

_IRREGULAR = {"cut": "cut", "torn": "tear", "beaten": "beat", "split": "split", "shaken": "shake"}
_DOUBLED = {
    "chopped": "chop",
    "stemmed": "stem",
    "trimmed": "trim",
    "snipped": "snip",
    "whipped": "whip",
    "pitted": "pit",
}
_DONE = {
    "sliced": "slice", "diced": "dice", "minced": "mince", "grated": "grate", "shredded": "shred", "cubed": "cube",
    "peeled": "peel", "mashed": "mash", "crushed": "crush", "crumbled": "crumble", "drained": "drain",
    "rinsed": "rinse", "washed": "wash", "squeezed": "squeeze", "cored": "core", "seeded": "seed", "deseeded": "deseed",
    "halved": "halve", "quartered": "quarter", "thawed": "thaw", "toasted": "toast", "scrubbed": "scrub",
    "soaked": "soak", "melted": "melt", "softened": "soften", "separated": "separate",
}  # fmt: skip
IMPERATIVES = {**_DONE, **_DOUBLED, **_IRREGULAR}
"""What to do, by what is done to an ingredient."""


@dataclass(frozen=True, slots=True)
class Measured:
    """An ingredient of a batch with its amounts for this batch.

    Parameters
    ----------
    food, name
        The food's id, and what the recipe calls it (pieces: its own name, in the plural where there are more).
    bought
        As bought: mg, or pieces where `pieces`. 0 for what is not measured.
    pieces
        Whether it is bought by the piece.
    edible_mg
        Its edible part, None where nobody knows.
    preparation
        What is done to it beforehand, in words.
    count, piece
        How many the recipe counts, and of what ('' is the food itself); None where it weighs or measures.
    text
        The line of the recipe, which is not scaled.
    """

    food: str
    name: str
    bought: Fraction
    pieces: bool
    edible_mg: Fraction | None = None
    preparation: tuple[str, ...] = ()
    count: Fraction | None = None
    piece: str = ""
    text: str = ""

    @property
    def words(self) -> str:
        """The amount and the food in words; what has no amount as the recipe says it."""
        amount = self.amount
        if not amount:
            return self.text or self.name
        counted = self.counted
        done = "".join(f", {phrase}" for phrase in self.preparation)
        shown = f"{amount} {self.name}{done}"
        return f"{shown} ({counted})" if counted and counted != amount else shown

    @property
    def amount(self) -> str:
        """How much, as it is handled: the edible part by weight where it is known, else as bought; '' for none."""
        if self.pieces and self.bought:
            return show_amount(self.bought, pieces=True).text
        mg = self.edible_mg or self.bought
        return show_amount(mg).text if mg else ""

    @property
    def counted(self) -> str:
        """How many, in words: '3', '4 cloves'; '' where the recipe does not count."""
        return "" if self.count is None else counted_words(self.count, self.piece)


def measured(ingredient: Ingredient, factor: Fraction, foods: FoodTable) -> Measured:
    """Scale an ingredient to a batch that is `factor` times the recipe."""
    food = foods.get(ingredient.food)
    pieces = food.measured_in is Measure.PIECES
    return Measured(
        food=food.id,
        name=plural(food, ingredient.bought * factor) if pieces else ingredient.called or food.name,
        bought=ingredient.bought * factor,
        pieces=pieces,
        edible_mg=None if ingredient.edible_mg is None else ingredient.edible_mg * factor,
        preparation=ingredient.preparation,
        count=None if ingredient.count is None else ingredient.count * factor,
        piece=ingredient.piece,
        text=ingredient.text,
    )


def counted_words(count: Fraction, piece: str) -> str:
    """Write a count with what it counts: '3', '1 clove', '4 bunches'."""
    number = show_amount(count, pieces=True).text
    if not piece:
        return number
    ending = "" if count <= 1 else "es" if piece.endswith(("ch", "sh", "x", "s")) else "s"
    return f"{number} {piece}{ending}"


def plural(food: Food, count: Fraction | None) -> str:
    """Give a food's name for a count of it: the plural among its other names where there is one, else with an s."""
    if count is None or count <= 1:
        return food.name
    stem = food.name[:-1] if food.name.endswith("y") else food.name
    endings = (f"{food.name}s", f"{food.name}es", f"{stem}ies")
    return next((name for name in endings if name in food.aliases), f"{food.name}s")


def listed(names: Sequence[str]) -> str:
    """List names in words: 'A, B and C'."""
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def imperative(preparation: tuple[str, ...], thing: str) -> str:
    """Say what to do to a thing: 'chop 3 onions', 'cut 2 potatoes into wedges', 'drain and rinse chickpeas'.

    Words of which the imperative is not known stand after the thing: '3 onions, hard-boiled'.
    """
    phrases = [_turned(phrase) for phrase in preparation]
    if not phrases or any(not verb for verb, _ in phrases):
        return ", ".join((thing, *preparation))
    verbs = " and ".join(verb for verb, _ in phrases)
    rest = " and ".join(rest for _, rest in phrases if rest)
    return f"{verbs} {thing} {rest}".strip()


def _turned(phrase: str) -> tuple[str, str]:
    """Part a phrase into what to do and how: 'cut into wedges' is 'cut' and 'into wedges'; ('', '') if it cannot be."""
    words = phrase.split()
    verbs: list[str] = []
    for at, word in enumerate(words):
        joins = word == "and" and any(later in IMPERATIVES for later in words[at + 1 :])
        if not (word in IMPERATIVES or word in ADVERBS or joins):
            break
        verbs.append(IMPERATIVES.get(word, word))
    known = any(word in IMPERATIVES for word in words[: len(verbs)])
    return (" ".join(verbs), " ".join(words[len(verbs) :])) if known else ("", "")
