"""What an eater never has, as written under `never`: a food, an allergen, an aisle or a dish."""

from __future__ import annotations

from collections.abc import Mapping

from ladleworth.dish.tree import Node, shorten
from ladleworth.dish.written import dish_id
from ladleworth.errors import UnknownFood
from ladleworth.facts import ALLERGENS, FoodTable, find_allergen, near_allergens
from ladleworth.household import Avoid, Exclusion
from ladleworth.store.fields import suggestion

_KINDS = {kind.value: kind for kind in Avoid}
_EXAMPLE = "milk, peanut butter, 'aisle: meat' or 'dish: Bean chili'"


def name_allergen(node: Node, name: str) -> str | None:
    """Read the name of a major allergen; None after a fault that says which may be meant."""
    allergen = find_allergen(name)
    if allergen is None:
        near = " or ".join(map(repr, near_allergens(name)))
        listed = f"the major allergens are {', '.join(ALLERGENS)}"
        node.fault(
            f"no major allergen is called {shorten(name)}", f"did you mean {near}?" if near else listed
        )
    return allergen


def read_exclusion(node: Node, foods: FoodTable, dishes: Mapping[str, str]) -> Exclusion | None:
    """Read one entry of an eater's `never`.

    Parameters
    ----------
    node
        The entry: a bare word, or one after `food:`, `allergen:`, `aisle:` or `dish:`.
    foods
        The food table with the kitchen's own foods.
    dishes
        Names of the dishes on record and their ids.

    Returns
    -------
    Exclusion or None
        None after a fault: a word that names nothing would otherwise bar nothing.
    """
    kind, name = _parts(node)
    if not name:
        return None
    if kind is None:
        kind = Avoid.FOOD if find_allergen(name) is None else Avoid.ALLERGEN
    if kind is Avoid.ALLERGEN:
        allergen = name_allergen(node, name)
        return None if allergen is None else Exclusion(Avoid.ALLERGEN, allergen)
    if kind is Avoid.AISLE:
        aisles = {food.aisle: None for food in foods if food.aisle}
        wanted = "-".join(name.casefold().split())
        if wanted in aisles:
            return Exclusion(Avoid.AISLE, wanted)
        node.fault(f"no aisle is called {shorten(name)}", suggestion(wanted, aisles, "aisles"))
        return None
    if kind is Avoid.DISH:
        if dish_id(name) in dishes.values():
            return Exclusion(Avoid.DISH, dish_id(name))
        node.fault(f"no dish is called {shorten(name)}", suggestion(name, dishes, "dishes"))
        return None
    return _food(node, name, foods, dishes)


def _parts(node: Node) -> tuple[Avoid | None, str]:
    """Part an entry into its kind and name; `{aisle: meat}` is what `aisle: meat` means without quotes."""
    if isinstance(node.data, Mapping) and len(node.data) == 1:
        ((word, value),) = node.data.items()
        inner = Node(value, node.path, node.findings)
        return _kind(node, str(word)), inner.text("an exclusion", _EXAMPLE)
    text = node.text("an exclusion", _EXAMPLE)
    word, colon, name = text.partition(":")
    if not colon:
        return None, text
    if _kind(node, word) is None:
        return None, ""
    if not name.strip():
        node.fault(f"nothing follows {shorten(text)}", f"write something like {_EXAMPLE}")
    return _kind(node, word), name.strip()


def _kind(node: Node, word: str) -> Avoid | None:
    kind = _KINDS.get(word.strip().casefold())
    if kind is None:
        node.fault(f"an exclusion has no kind {shorten(word)}", f"write {', '.join(_KINDS)} before the colon")
    return kind


def _food(node: Node, name: str, foods: FoodTable, dishes: Mapping[str, str]) -> Exclusion | None:
    try:
        return Exclusion(Avoid.FOOD, foods.find(name).id)
    except UnknownFood as unknown:
        near = [repr(other) for other in unknown.nearest]
        slug = dish_id(name)
        if slug in {food.aisle for food in foods}:
            near.insert(0, f"'aisle: {slug}'")
        if slug in dishes.values():
            near.insert(0, f"'dish: {name}'")
        near[:0] = map(repr, near_allergens(name))
        node.fault(
            f"no food, allergen or other thing to avoid is called {shorten(name)}",
            f"did you mean {' or '.join(near[:4])}?" if near else f"write something like {_EXAMPLE}",
        )
        return None
