"""Scaling a dish by mass: where the factor comes from, the exact scaled dish, and the one rounding rule for show.

Amounts stay exact fractions; only what is shown is rounded. The rule: an amount is shown at the largest step
that a kitchen scale reads of which half is at most 2 % of the amount, so that the sum of what is shown is
within 2 % of the exact sum as long as no amount needs a step finer than the finest.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from ladleworth.dish.dish import Dish, Ingredient, Variant
from ladleworth.errors import BadField
from ladleworth.units import OZ, Quantity, half_up, round_ounces, show_mass, show_number

Amount = Fraction | int

WITHIN = Fraction(2, 100)
"""How far a shown amount may lie from the exact one. House rule, no source."""

# House rule, no source: the steps that a kitchen scale shows. 0.1 g needs a spoon scale.
_METRIC_STEPS_MG = (1_000_000, 500_000, 100_000, 50_000, 10_000, 5_000, 1_000, 500, 100)
_FINE_OZ = (Fraction(1, 10), Fraction(1, 20), Fraction(1, 100))
_PIECE_STEP = Fraction(1, 4)


def factor_for_portions(dish: Dish, portions: int) -> Fraction:
    """Give the factor that makes so many portions: wanted portions over the recipe's.

    Source
    ------
    US Armed Forces Recipe Service (TM 10-412), card A-1, general information: adjusting recipes.
    """
    _above_zero("portions", portions)
    return Fraction(portions, dish.portions)


def factor_for_portion_size(
    recipe_portions: int, recipe_size_mg: Amount, portions: int, size_mg: Amount
) -> Fraction:
    """Give the factor when the portion's size changes as well as the number.

    Parameters
    ----------
    recipe_portions, recipe_size_mg
        What the recipe makes, and how large each is.
    portions, size_mg
        What is wanted.

    Returns
    -------
    Fraction
        Wanted portions times new size over old size, over the recipe's portions: 348 portions at 3 oz from
        100 at 4 oz need 2.61 times the recipe.

    Raises
    ------
    BadField
        If a figure is not above zero.

    Source
    ------
    US Armed Forces Recipe Service (TM 10-412), card A-1, general information: adjusting recipes.
    """
    _above_zero("the recipe's portions", recipe_portions)
    _above_zero("the recipe's portion size", recipe_size_mg)
    _above_zero("portions", portions)
    _above_zero("the portion size", size_mg)
    return portions * Fraction(size_mg) / Fraction(recipe_size_mg) / recipe_portions


def amount_of(ingredients: Iterable[Ingredient], food: str) -> Fraction:
    """Add up how much of a food the ingredients take, as bought: mg, or pieces for a food in pieces.

    Raises
    ------
    BadField
        If no measured ingredient is that food.
    """
    total = sum((i.bought for i in ingredients if i.food == food), Fraction(0))
    if total == 0:
        raise BadField(f"the dish takes no measured amount of {food}; name a food that it takes")
    return total


def factor_from_on_hand(variant: Variant, food: str, on_hand: Amount) -> Fraction:
    """Give the factor that uses up what is on hand of one food.

    Parameters
    ----------
    variant
        The dish with its swaps chosen.
    food
        The food that decides, by id.
    on_hand
        How much there is, in mg or pieces as the food is measured.

    Returns
    -------
    Fraction
        Amount on hand over the amount that the recipe takes.

    Raises
    ------
    BadField
        If the dish takes no measured amount of the food, or there is none on hand.

    Source
    ------
    US Armed Forces Recipe Service (TM 10-412), card A-1, general information: adjusting recipes.
    """
    _above_zero(f"the {food} on hand", on_hand)
    return Fraction(on_hand) / amount_of(variant.ingredients, food)


def factor_for_whole_packages(
    variant: Variant, packages: Mapping[str, Amount], at_least: Amount = 0
) -> Fraction:
    """Give the smallest factor that uses whole packages of one food, or of several at once.

    Parameters
    ----------
    variant
        The dish with its swaps chosen.
    packages
        By food id, the content of one package, in mg or pieces as the food is measured.
    at_least
        The factor wanted at the least; 0 for no bound (one package may then be less than the recipe).

    Returns
    -------
    Fraction
        The smallest factor above zero and not below `at_least` for which the dish takes a whole number of
        packages of every food named. Several foods can need a large one.

    Raises
    ------
    BadField
        If no package is named, one holds nothing, or the dish does not take a named food.
    """
    if not packages:
        raise BadField("no package is named; give a food and what one package holds")
    ratios = []
    for food, package in packages.items():
        _above_zero(f"the package of {food}", package)
        ratios.append(Fraction(package) / amount_of(variant.ingredients, food))
    least = Fraction(
        math.lcm(*(ratio.numerator for ratio in ratios)), math.gcd(*(r.denominator for r in ratios))
    )
    return least * max(1, math.ceil(Fraction(at_least) / least))


def scale(dish: Dish, factor: Amount, portions: int | None = None) -> Dish:
    """Scale a dish exactly: every ingredient's amount, the measured yield and the portions.

    Hands-on minutes, steps and batch limits stay as written: they do not follow the factor, and how the
    steps' minutes grow is not known.

    Parameters
    ----------
    dish
        The dish.
    factor
        What every amount is multiplied by.
    portions
        How many portions the scaled dish makes; left out, the dish's times the factor.

    Returns
    -------
    Dish
        The same dish with other amounts.

    Raises
    ------
    BadField
        If the factor is not above zero, or the portions would not be whole and are not given.
    """
    _above_zero("the factor", factor)
    made = dish.portions * Fraction(factor)
    if portions is None and made.denominator != 1:
        raise BadField(
            f"{dish.name} would make {show_number(made)} portions; say how many it is divided into"
        )

    def scaled(ingredients: tuple[Ingredient, ...]) -> tuple[Ingredient, ...]:
        return tuple(scale_ingredient(ingredient, factor) for ingredient in ingredients)

    return replace(
        dish,
        portions=made.numerator if portions is None else portions,
        parts=tuple(
            replace(
                part,
                ingredients=scaled(part.ingredients),
                swaps=tuple(replace(swap, ingredients=scaled(swap.ingredients)) for swap in part.swaps),
            )
            for part in dish.parts
        ),
        yield_mg=None if dish.yield_mg is None else half_up(dish.yield_mg * Fraction(factor)),
        portion_volume_ml=_volume_ml(dish, made, portions),
    )


def _volume_ml(dish: Dish, made: Fraction, portions: int | None) -> int | None:
    """What a portion fills when so many standard portions are divided into so many: never less than 1 ml."""
    if dish.portion_volume_ml is None or portions is None:
        return dish.portion_volume_ml
    return max(1, half_up(dish.portion_volume_ml * made / portions))


def scale_ingredient(ingredient: Ingredient, factor: Amount) -> Ingredient:
    """Multiply an ingredient's amounts; what is unmeasured stays so."""
    edible_mg = ingredient.edible_mg
    return replace(
        ingredient,
        bought=ingredient.bought * factor,
        edible_mg=None if edible_mg is None else edible_mg * factor,
        count=None if ingredient.count is None else ingredient.count * factor,
    )


@dataclass(frozen=True, slots=True)
class Shown:
    """An amount as it is shown: the text, and the amount that the text says, in mg or pieces."""

    text: str
    amount: Fraction
    exact: Fraction


def show_amount(amount: Amount, *, pieces: bool = False, system: Literal["metric", "us"] = "metric") -> Shown:
    """Round an amount for show by the one rule, never to nothing.

    Parameters
    ----------
    amount
        Exact mg, or pieces; above zero.
    pieces
        Whether it is a count.
    system
        'metric': the largest of 0.1, 0.5, 1, 5, 10, 50, 100, 500 g and 1 kg of which half is at most 2 % of
        the amount. 'us': pounds and quarter ounces as the armed forces round them, and a tenth, a twentieth
        or a hundredth of an ounce where a quarter would be off by more than 2 %. Pieces: quarters.

    Returns
    -------
    Shown
        The text, what it says, and the exact amount.

    Raises
    ------
    BadField
        If the amount is not above zero.
    """
    _above_zero("an amount", amount)
    exact = Fraction(amount)
    if pieces:
        count = _to_step(exact, _PIECE_STEP)
        return Shown(show_number(count), count, exact)
    if system == "us":
        return _show_ounces(exact)
    step = next((step for step in _METRIC_STEPS_MG if Fraction(step, 2) <= WITHIN * exact), 100)
    rounded = _to_step(exact, Fraction(step))
    return Shown(show_mass(rounded, exact=True), rounded, exact)


def _show_ounces(exact_mg: Fraction) -> Shown:
    ounces = exact_mg / OZ.in_base
    rounded = round_ounces(ounces)
    if abs(rounded - ounces) > WITHIN * ounces:
        fine = next((step for step in _FINE_OZ if step / 2 <= WITHIN * ounces), _FINE_OZ[-1])
        rounded = _to_step(ounces, fine)
        return Shown(f"{show_number(rounded, 'decimal')} oz", rounded * OZ.in_base, exact_mg)
    pounds, rest = divmod(rounded, 16)
    texts = ([f"{pounds} lb"] if pounds else []) + ([f"{show_number(rest)} oz"] if rest else [])
    return Shown(" ".join(texts), rounded * OZ.in_base, exact_mg)


def _to_step(exact: Fraction, step: Fraction) -> Fraction:
    return max(1, half_up(exact / step)) * step


def total_error(shown: Iterable[Shown]) -> Fraction:
    """Say by what share the sum of the shown amounts differs from the exact sum: 0.01 is 1 % too much.

    Raises
    ------
    BadField
        If there are no amounts.
    """
    amounts = tuple(shown)
    _above_zero("the number of amounts", len(amounts))
    exact = sum((one.exact for one in amounts), Fraction(0))
    return sum((one.amount for one in amounts), Fraction(0)) / exact - 1


def change_percent(before: Quantity, after: Quantity) -> Fraction:
    """Say by how many percent an amount changes: 25 from 2 cups to 2 1/2, -20 from 2 1/2 to 2.

    Raises
    ------
    BadUnit
        If the two measure different things, or there was nothing before.
    """
    return (after.ratio(before) - 1) * 100


def say_change(what: str, before: Quantity, after: Quantity) -> str:
    """Say a change of an ingredient in words: '25 % more water'.

    That a sauce for keeping and reheating takes more liquid than one eaten at once (2 1/2 cups of water
    where 2 are written) is common practice, no source; how much more is the cook's choice.
    """
    change = change_percent(before, after)
    if change == 0:
        return f"as much {what} as before"
    return f"{show_number(abs(change), 'decimal')} % {'more' if change > 0 else 'less'} {what}"


def _above_zero(what: str, number: Amount) -> None:
    if number <= 0:
        raise BadField(f"{what} is {number}; give a number above 0")
