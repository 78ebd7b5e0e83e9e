"""Finding a kitchen's dish by what the cook calls it."""

from __future__ import annotations

from ladleworth.dish.dish import Dish
from ladleworth.dish.tree import nearest
from ladleworth.errors import BadField
from ladleworth.facts.names import fold_name
from ladleworth.household import Kitchen

MOST_NAMED = 5
"""So many dishes are named in a message."""


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
