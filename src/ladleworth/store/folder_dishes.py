"""dishes.yaml and dishes/*.yaml: one dish or a list of dishes a file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import prod

from ladleworth.decide.question import MOST_VERSIONS
from ladleworth.dish.dish import Dish
from ladleworth.dish.resolve import resolve
from ladleworth.dish.tree import Node, Path, shorten
from ladleworth.dish.written import WrittenDish, dish_id, read_dish
from ladleworth.errors import Place
from ladleworth.facts import FoodTable
from ladleworth.household import Household, barred
from ladleworth.store.fields import suggestion


@dataclass(frozen=True, slots=True)
class DishOnPaper:
    """A dish as written (None when it is faulty), and the node it stands in."""

    node: Node
    written: WrittenDish | None

    @property
    def name(self) -> str:
        """The dish's name, also when something else about it is faulty; '' without one."""
        name = self.node.data.get("dish") if isinstance(self.node.data, Mapping) else None
        return name.strip() if isinstance(name, str) else ""

    def place(self, path: Path) -> Place:
        """Tell where something of the dish stands."""
        return self.node.findings.place((*self.node.path, *path))

    def doubt(self, key: str, what: str, remedy: str) -> None:
        """Note a doubt about the dish, at one of its keys."""
        self.node.findings.doubt((*self.node.path, key), what, remedy)


def read_dishes(top: Node) -> list[DishOnPaper]:
    """Read the dishes of one paper as written; every fault is noted with the node's findings."""
    items = (top,) if isinstance(top.data, Mapping) else top.items("a file of dishes")
    dishes: list[DishOnPaper] = []
    for item in items:
        written, found = read_dish(item.data, DishOnPaper(item, None).place)
        item.findings.found.extend(found)
        dishes.append(DishOnPaper(item, written))
    return dishes


def dish_names(dishes: list[DishOnPaper]) -> dict[str, str]:
    """Give the ids of the dishes by their names, faulty dishes included; a name used twice is a fault."""
    names: dict[str, str] = {}
    first: dict[str, Place] = {}
    for dish in dishes:
        slug = dish_id(dish.name)
        if slug in first:
            what = f"a dish called {shorten(dish.name)} stands at {first[slug]} already"
            dish.node.findings.fault((*dish.node.path, "dish"), what, "give each dish a name of its own")
        elif slug:
            first[slug] = dish.place(("dish",))
            names[dish.name] = slug
    return names


def resolve_dishes(
    dishes: list[DishOnPaper], foods: FoodTable, keep_days: int
) -> list[tuple[DishOnPaper, Dish]]:
    """Look every dish's ingredients up; every fault is noted with its node's findings.

    Parameters
    ----------
    dishes
        The dishes as written.
    foods
        The food table with the kitchen's own foods.
    keep_days
        The house rule: days a cooked dish keeps chilled, cooking day as day 1.

    Returns
    -------
    list of (DishOnPaper, Dish)
        The dishes without a fault.
    """
    resolved: list[tuple[DishOnPaper, Dish]] = []
    for dish in dishes:
        if dish.written is None:
            continue
        record, found = resolve(dish.written, foods, keep_days, dish.place)
        dish.node.findings.found.extend(found)
        if record is None:
            continue
        ways = prod(len(part.swaps) for part in record.parts if part.swaps)
        if ways > MOST_VERSIONS:
            what = f"the swaps of {record.name} can be combined in {ways} ways"
            dish.node.fault(what, f"leave at most {MOST_VERSIONS}: write some as dishes of their own")
            continue
        resolved.append((dish, record))
    return resolved


def check_never(dishes: list[DishOnPaper], eaters: tuple[str, ...]) -> None:
    """Fault every name under a dish's `never` that is no eater's: it would bar nobody."""
    for dish in dishes:
        for at, name in enumerate(dish.written.never if dish.written is not None else ()):
            if name not in eaters:
                path = (*dish.node.path, "never", at)
                what = f"nobody here is called {shorten(name)}"
                dish.node.findings.fault(path, what, suggestion(name, eaters, "eaters"))


def doubt_uneaten(household: Household, dishes: list[tuple[DishOnPaper, Dish]], foods: FoodTable) -> None:
    """Doubt every dish that no slot can take: its meals match none, or everyone who eats then is barred."""
    slots = {(slot.eater, slot.meal) for slot in household.slots()}
    meals = tuple(dict.fromkeys(slot.meal for slot in household.slots()))
    for dish, record in dishes:
        suited = [slot for slot in slots if not record.meals or slot[1] in record.meals]
        if not suited:
            what = f"{record.name} is for {' and '.join(record.meals)}, and no slot is"
            dish.doubt(
                "meals", what, f"it is never planned; the slots' meals are {', '.join(meals) or 'none'}"
            )
            continue
        asking = {eater for eater, _ in suited}
        variants = record.variants()
        reasons: list[str] = []
        for eater in household.eaters:
            if eater.name not in asking:
                continue
            why = [barred(eater, record, variant, foods) for variant in variants]
            if None in why:
                break
            reasons.append(str(why[0]))
        else:
            what = f"nobody may have {record.name}: {'; '.join(reasons)}".replace("; ", ", ")
            dish.doubt("dish", what, "it is never planned; add a swap that leaves the ingredient out")
