"""Finding a kitchen's dish, lot or foods by what the cook calls them."""

from __future__ import annotations

from ladleworth.dish.dish import Dish
from ladleworth.dish.tree import nearest
from ladleworth.errors import BadField, LedgerError, UnknownFood
from ladleworth.facts.names import fold_name, plain_words
from ladleworth.household import Kitchen
from ladleworth.week.packing import dish_of

MOST_NAMED = 5
"""So many dishes or lots are named in a message."""

MOST_SHORT = 3
"""A word of so few letters keeps its last s: 'peas' loses it, 'gas' does not."""


def find_dish(kitchen: Kitchen, name: str) -> Dish:
    """Find a dish by name or id, whatever the case and accents.

    Raises
    ------
    BadField
        If no dish is called so, with the nearest name.
    """
    for dish in kitchen.dishes:
        if name in (dish.id, dish.name):
            return dish
    folded = [
        dish for dish in kitchen.dishes if fold_name(name) in (fold_name(dish.name), fold_name(dish.id))
    ]
    if len(folded) == 1:
        return folded[0]
    near = nearest(name, [dish.name for dish in kitchen.dishes])
    begun = [dish for dish in kitchen.dishes if fold_name(dish.name).startswith(fold_name(name) or "-")]
    if len(begun) == 1:
        return begun[0]
    if begun:
        near = begun[0].name
    if near:
        hint = f"did you mean {near!r}?"
    else:
        names = [dish.name for dish in kitchen.dishes]
        more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
        hint = f"the kitchen has {', '.join(names[:MOST_NAMED])}{more}"
    raise BadField(f"no dish is called {name!r}; {hint}")


def find_lot(kitchen: Kitchen, name: str) -> str:
    """Find a lot by its id; by its food's name where only one lot of the food is left.

    Raises
    ------
    LedgerError
        If no lot is called so, or several are left: with the nearest lots, by id and by food.
    """
    ledger = kitchen.ledger
    if ledger.has_lot(name):
        return name
    here = {held.lot.id: held.lot.item for held in ledger.holdings()}
    try:
        item = kitchen.foods.find(name).id
    except UnknownFood:
        item = ""
    mine = [lot for lot, food in here.items() if food == item]
    if len(mine) == 1:
        return mine[0]
    if mine:
        raise LedgerError(
            f"several lots are of {name}; name one of {', '.join(map(repr, mine[:MOST_NAMED]))}"
        )
    near = _nearest_lots(kitchen, name, here)
    hint = f"did you mean {' or '.join(map(repr, near))}?" if near else "`ladleworth onhand` lists them"
    raise LedgerError(f"no lot is called {name!r}; {hint}")


def _nearest_lots(kitchen: Kitchen, name: str, here: dict[str, str]) -> list[str]:
    """Find the lots whose id, or whose food's name, is like a name or shares a word with it."""
    called = {lot: lot for lot in here}
    for lot, item in here.items():
        if item in kitchen.foods:
            food = kitchen.foods.get(item)
            for alias in (food.name, *food.aliases):
                called.setdefault(alias, lot)
        else:
            dish = next((d.name for d in kitchen.dishes if d.id == dish_of(item)), "")
            if dish:
                called.setdefault(dish, lot)
    wanted = set(words_of(name))
    shared = [lot for alias, lot in called.items() if wanted & set(words_of(alias))]
    like = nearest(name, called)
    found = list(dict.fromkeys([*([called[like]] if like else []), *shared]))
    return found[:3]


def words_of(name: str) -> tuple[str, ...]:
    """Part a name into plain words without their plural s, so that 'lentils' is 'lentil'."""
    return tuple(
        word.removesuffix("s") if len(word) > MOST_SHORT else word
        for part in plain_words(name)
        for word in part.split("-")
    )


def find_priced(kitchen: Kitchen, name: str) -> tuple[str, ...]:
    """Find the foods of the price book that a name fits, by id: all that have its words, the food so called first.

    Raises
    ------
    UnknownFood
        If none has, and no food is called so either.
    """
    wanted = set(words_of(name))
    offered = dict.fromkeys(offer.food for offer in kitchen.prices.offers)
    fit = [
        food
        for food in offered
        if wanted and any(wanted <= set(words_of(called)) for called in _names_of(kitchen, food))
    ]
    try:
        first = kitchen.foods.find(name)
    except UnknownFood:
        if not fit:
            raise
        return tuple(fit)
    if not fit:
        return (first.id,)
    return tuple(sorted(fit, key=lambda food: food != first.id))


def _names_of(kitchen: Kitchen, food_id: str) -> tuple[str, ...]:
    food = kitchen.foods.get(food_id)
    return food.id, food.name, *food.aliases
