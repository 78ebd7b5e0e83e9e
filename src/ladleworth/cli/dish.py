"""`ladleworth dish`: a dish scaled, with its workings, yields, salt, allergens and minutes."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from ladleworth.cli import options

if TYPE_CHECKING:
    from ladleworth.dish.dish import Dish, Variant
    from ladleworth.household import Kitchen


@click.command()
@options.kitchen_argument
@click.argument("name")
@click.option("--portions", type=click.IntRange(1, 100_000), help="Make so many portions.")
@click.option("--from", "from_", metavar="FOOD=AMOUNT", help="Use up so much of a food, as 'carrots=500 g'.")
@click.option(
    "--packs",
    multiple=True,
    metavar="FOOD[=AMOUNT]",
    help="Use whole packages of a food: of the price book's cheapest, or of AMOUNT.",
)
@click.option(
    "--swap", multiple=True, metavar="SWAP", help="Choose this swap; the first-written ones otherwise."
)
@click.option("--cooked", multiple=True, metavar="FOOD=METHOD", help="Follow a food through a cooking yield.")
@click.option("--us", is_flag=True, help="Show pounds and ounces.")
@click.option("--sources", is_flag=True, help="Show how each amount was worked out, with its sources.")
@options.as_json
def dish(
    kitchen: Path,
    name: str,
    portions: int | None,
    from_: str | None,
    packs: tuple[str, ...],
    swap: tuple[str, ...],
    cooked: tuple[str, ...],
    *,
    us: bool,
    sources: bool,
    as_json: bool,
) -> None:
    """Show a dish scaled, with its workings.

    Amounts are kept exact and rounded only when shown, each within 2 % of itself.
    """
    from ladleworth.cli import show_dish
    from ladleworth.dish.scale import scale
    from ladleworth.week import find_dish, open_kitchen
    from ladleworth.week.yields import yield_history

    if sum((portions is not None, from_ is not None, bool(packs))) > 1:
        raise click.UsageError("give one of --portions, --from and --packs")
    found = open_kitchen(kitchen)
    written = find_dish(found, name)
    variant = _variant(written, swap)
    factor = _factor(found, written, variant, portions, from_, packs)
    made = written.portions * factor
    whole = portions or max(1, made.numerator // made.denominator)
    scaled = scale(written, factor, whole)
    chosen = next(one for one in scaled.variants() if one.swaps == variant.swaps)
    methods = _methods(found, cooked, chosen)
    system: Literal["metric", "us"] = "us" if us else "metric"
    history = yield_history(kitchen, found, written)
    shown = show_dish.Scaled(found, written, scaled, chosen, factor, methods, system, history)
    if as_json:
        from ladleworth.cli.json_out import write_json

        write_json(show_dish.document(shown))
        return
    show_dish.whole(shown, sources=sources)


def _variant(dish: Dish, wanted: tuple[str, ...]) -> Variant:
    """Choose the first variant that has every swap asked for."""
    from ladleworth.errors import BadField

    for variant in dish.variants():
        names = {swap.casefold() for _, swap in variant.swaps}
        if all(swap.casefold() in names for swap in wanted):
            return variant
    there = ", ".join(f"{part.name}: {swap.name}" for part in dish.parts for swap in part.swaps) or "none"
    raise BadField(f"{dish.name} cannot be made with {', '.join(wanted)}; its swaps are {there}")


def _factor(
    kitchen: Kitchen,
    dish: Dish,
    variant: Variant,
    portions: int | None,
    from_: str | None,
    packs: tuple[str, ...],
) -> Fraction:
    from ladleworth.dish.scale import factor_for_portions, factor_for_whole_packages, factor_from_on_hand

    if portions is not None:
        return factor_for_portions(dish, portions)
    if from_ is not None:
        food, _, amount = from_.partition("=")
        return factor_from_on_hand(variant, *_amount(kitchen, food, amount, "--from"))
    if packs:
        return factor_for_whole_packages(variant, dict(_package(kitchen, text) for text in packs))
    return Fraction(1)


def _amount(kitchen: Kitchen, name: str, text: str, option: str) -> tuple[str, int]:
    from ladleworth.store.amounts import read_as_bought

    if not text.strip():
        raise click.BadParameter(
            f"{name!r} has no amount; write FOOD=AMOUNT, as 'carrots=500 g'", param_hint=option
        )
    food = kitchen.foods.find(name)
    return food.id, read_as_bought(text, food, kitchen.foods)


def _package(kitchen: Kitchen, text: str) -> tuple[str, int]:
    """Read a food with what one package holds; without an amount, the cheapest package by the unit counts."""
    from ladleworth.store.amounts import unit_of

    name, equals, amount = text.partition("=")
    if equals:
        return _amount(kitchen, name, amount, "--packs")
    food = kitchen.foods.find(name)
    return food.id, kitchen.prices.cheapest_unit(food.id, unit_of(food)).quantity


def _methods(kitchen: Kitchen, cooked: tuple[str, ...], variant: Variant) -> dict[str, str]:
    """Read how foods of the dish are cooked; a food that it does not take is refused."""
    from ladleworth.errors import BadField

    taken = dict.fromkeys(one.food for one in variant.ingredients)
    methods = {}
    for text in cooked:
        name, equals, method = text.partition("=")
        if not equals:
            raise click.BadParameter(f"{text!r} names no method; write FOOD=METHOD", param_hint="--cooked")
        food = kitchen.foods.find(name)
        if food.id not in taken:
            names = ", ".join(kitchen.foods.get(one).name for one in taken)
            raise BadField(f"the dish takes no {food.name}; with --cooked, name one of {names}")
        methods[food.id] = method.strip()
    return methods
