"""A scaled dish for the eye, and as a document."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from ladleworth.cli import say, show_yields
from ladleworth.dish.allergens import allergens_of
from ladleworth.dish.chain import YieldChain, by_part, chain, expected_yield
from ladleworth.dish.dish import Dish, Ingredient, Variant
from ladleworth.dish.salt import salt
from ladleworth.dish.scale import show_amount
from ladleworth.divide.history import YieldHistory
from ladleworth.errors import MissingFact
from ladleworth.facts import Measure
from ladleworth.household import Kitchen
from ladleworth.units import show_minutes, show_number


@dataclass(frozen=True, slots=True)
class Scaled:
    """A dish as written and as scaled, with the swaps chosen and how it is shown.

    `methods` pairs food ids with how they are cooked; `history` is what was weighed of its batches.
    """

    kitchen: Kitchen
    written: Dish
    dish: Dish
    variant: Variant
    factor: Fraction
    methods: Mapping[str, str]
    system: Literal["metric", "us"]
    history: YieldHistory = field(default_factory=YieldHistory)


def whole(shown: Scaled, *, sources: bool) -> None:
    """Show a scaled dish in full."""
    dish = shown.dish
    times = (
        f", {show_number(shown.factor)} times the recipe's {shown.written.portions}"
        if shown.factor != 1
        else ""
    )
    say.heading(f"{dish.name}: {say.plural(dish.portions, 'portion')}{times}")
    made = shown.written.portions * shown.factor
    if made != dish.portions:
        say.sentence(f"The amounts make {show_number(made, 'decimal')} portions of the recipe's size.")
    if shown.variant.swaps:
        say.sentence("Made with " + "; ".join(f"{part}: {swap}" for part, swap in shown.variant.swaps) + ".")
    if shown.variant.brings:
        say.sentence(f"It brings {' and '.join(shown.variant.brings)}.")
    _amounts(shown, sources=sources)
    _yields(shown)
    show_yields.weighed(shown.history, shown.written.yield_mg)
    _minutes(shown)
    _salt(shown)
    _allergens(shown)


def _amount(shown: Scaled, ingredient: Ingredient) -> str:
    if ingredient.unmeasured:
        if not ingredient.edible_mg:
            return "to taste"
        return f"{show_amount(ingredient.edible_mg, system=shown.system).text}, not bought"
    pieces = shown.kitchen.foods.get(ingredient.food).measured_in is Measure.PIECES
    text = show_amount(ingredient.bought, pieces=pieces, system=shown.system).text
    return (
        say.plural(Fraction(ingredient.bought), "piece")
        if pieces and ingredient.bought.denominator == 1
        else text
    )


def _amounts(shown: Scaled, *, sources: bool) -> None:
    rows, ends, last = [], [], None
    for part, ingredient in by_part(shown.dish, shown.variant):
        if last not in (None, part):
            ends.append(len(rows) - 1)
        written = f"\n  as written: {ingredient.text}" if ingredient.text else ""
        worked = f"\n  {ingredient.working}" if sources and ingredient.working else ""
        rows.append(
            (
                part if part != last else "",
                f"{say.food_name(shown.kitchen, ingredient.food)}{written}{worked}",
                _amount(shown, ingredient),
            )
        )
        last = part
    say.table(("part", "ingredient", "as bought"), rows, right=(2,), sections=ends)


def _chains(shown: Scaled) -> list[tuple[Ingredient, YieldChain | str]]:
    found: list[tuple[Ingredient, YieldChain | str]] = []
    for _, ingredient in by_part(shown.dish, shown.variant):
        if ingredient.unmeasured:
            continue
        try:
            found.append(
                (ingredient, chain(ingredient, shown.kitchen.foods, shown.methods.get(ingredient.food)))
            )
        except MissingFact as missing:
            found.append((ingredient, str(missing)))
    return found


def _yields(shown: Scaled) -> None:
    say.heading("From the shop to the pot")
    rows = []
    for ingredient, followed in _chains(shown):
        name = say.food_name(shown.kitchen, ingredient.food)
        if isinstance(followed, str):
            rows.append((f"{name}\n  {followed}", "", "", ""))
            continue
        cooked = "" if followed.cooked_mg is None else _mass(followed.cooked_mg, shown)
        bone = " with bone" if followed.includes_bone and cooked else ""
        rows.append(
            (name, _mass(followed.bought_mg, shown), _mass(followed.edible_mg, shown), f"{cooked}{bone}")
        )
    say.table(("", "bought", "edible", "cooked"), rows, right=(1, 2, 3))
    known = {food: way for food, way in shown.methods.items() if _takes(shown, food)}
    total = expected_yield(shown.dish, shown.kitchen.foods, shown.variant, known)
    weight, each = _mass(total.known_mg, shown), _mass(total.known_mg / shown.dish.portions, shown)
    if total.measured:
        say.sentence(f"All of it weighs {weight} by the scale's reading, {each} a portion.")
        return
    boils = "what boils away is not taken off"
    if not total.missing:
        say.sentence(f"All of it weighs about {weight}, {each} a portion: {boils}.")
        return
    missing = ", ".join(dict.fromkeys(say.food_name(shown.kitchen, one.food) for one in total.missing))
    if total.known_mg == 0:
        say.sentence(f"What it weighs is not known, for want of a figure of {missing}.")
        return
    say.sentence(
        f"It weighs more than {weight}, {each} a portion, which leaves out {missing}, for want of a figure; {boils}."
    )


def _takes(shown: Scaled, food: str) -> bool:
    return any(ingredient.food == food for ingredient in shown.variant.ingredients)


def _mass(mass_mg: Fraction, shown: Scaled) -> str:
    return show_amount(mass_mg, system=shown.system).text if mass_mg > 0 else "0 g"


def _minutes(shown: Scaled) -> None:
    hands_on = shown.variant.fixed_min + shown.variant.per_portion_min * shown.dish.portions
    say.heading("Time")
    say.sentence(
        f"Hands-on: {show_minutes(-int(-hands_on // 1))}, as the dish says for a batch of this size."
    )
    if shown.factor != 1 and shown.dish.steps:
        say.sentence("The minutes of the steps stay as written: how they grow is not known.")


def _salt(shown: Scaled) -> None:
    found = salt(shown.dish, shown.variant, shown.kitchen.foods)
    say.heading("Salt")
    names = ", ".join(dict.fromkeys(say.food_name(shown.kitchen, one.food) for one in found.missing))
    if found.missing and not found.sources:
        say.sentence(f"Not known, for want of an amount or a figure of {names}.")
        return
    say.sentence(
        f"{'At least ' if found.missing else ''}{float(found.salt_g_per_portion):.1f} g a portion ({float(found.sodium_mg_per_portion):.0f} mg sodium), "
        "calculated, not analysed."
    )
    if found.missing:
        say.sentence(f"Not counted, for want of an amount or a figure: {names}.")


def _allergens(shown: Scaled) -> None:
    found = allergens_of(shown.variant.ingredients, shown.kitchen.foods)
    say.heading("Allergens")
    for allergen, bringers in found.present:
        names = dict.fromkeys(say.food_name(shown.kitchen, bringer.food) for bringer in bringers)
        say.sentence(f"{allergen}: {', '.join(names)}", indent=2)
    for title, foods in (("Labels to read", found.read_labels), ("Nothing is on record of", found.unknown)):
        if foods:
            say.sentence(
                f"{title}: {', '.join(say.food_name(shown.kitchen, food) for food in foods)}.", indent=2
            )
    say.sentence(found.notice, indent=2)


def document(shown: Scaled) -> dict[str, object]:
    """Gather what --json prints."""
    dish, foods = shown.dish, shown.kitchen.foods
    known = {food: way for food, way in shown.methods.items() if _takes(shown, food)}
    weight, salty = expected_yield(dish, foods, shown.variant, known), salt(dish, shown.variant, foods)
    return {
        "dish": dish.id,
        "name": dish.name,
        "factor": shown.factor,
        "portions": dish.portions,
        "swaps": [{"part": part, "swap": swap} for part, swap in shown.variant.swaps],
        "brings": shown.variant.brings,
        "ingredients": [
            {"part": part, "ingredient": ingredient, "shown": _amount(shown, ingredient)}
            for part, ingredient in by_part(dish, shown.variant)
        ],
        "chains": [
            {"food": ingredient.food, "missing" if isinstance(followed, str) else "chain": followed}
            for ingredient, followed in _chains(shown)
        ],
        "yield": weight,
        "weight_mg": weight.total_mg,
        "yield_history": shown.history,
        "hands_on_min": shown.variant.fixed_min + shown.variant.per_portion_min * dish.portions,
        "salt": salty,
        "salt_g_per_portion": None if salty.missing and not salty.sources else salty.salt_g_per_portion,
        "allergens": allergens_of(shown.variant.ingredients, foods),
    }
