"""dishes.yaml and dishes/*.yaml: one dish or a list of dishes a file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import prod

from ladleworth.decide.pose_nutrients import never_served
from ladleworth.decide.question import MOST_VERSIONS
from ladleworth.dish.batch_version import not_to_freeze
from ladleworth.dish.dish import Dish
from ladleworth.dish.resolve import resolve
from ladleworth.dish.tree import Node, Path, Placer, shorten
from ladleworth.dish.volume import portion_ml
from ladleworth.dish.written import WrittenDish, dish_id, read_dish
from ladleworth.errors import Finding, MissingFact, Place, Weight
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


def doubt_frozen(dishes: list[tuple[DishOnPaper, Dish]]) -> None:
    """Doubt every dish with `freezer_days` of which a part, not kept apart, comes out badly from the freezer."""
    for dish, record in dishes:
        if record.freezer_days is None:
            continue
        for bad in not_to_freeze(record):
            told = bad.texture
            part = f"{bad.part!r} ({bad.swap})" if bad.swap else repr(bad.part)
            what = (
                f"{record.name} has freezer_days, and its part {part} is {told.kind}, which comes out badly"
            )
            source = f"source {told.source}, {told.basis}"
            dish.doubt(
                "freezer_days",
                f"{what} from the freezer: {told.goes_wrong} ({source})",
                f"{told.differently}; write apart: yes for that part, or leave freezer_days out",
            )


def check_volumes(household: Household, dishes: list[tuple[DishOnPaper, Dish]], foods: FoodTable) -> None:
    """Where rules go by volume, fault a dish of which nobody knows what it fills; doubt one that no container holds."""
    rules = household.rules
    if not rules.by_volume:
        return
    sizes = [one.capacity_ml(rules.headspace) for one in rules.container_sizes if one.count]
    for dish, record in dishes:
        try:
            least = min(portion_ml(record, variant, foods) for variant in record.variants())
        except MissingFact as lacking:
            what = f"nobody knows what a portion of {record.name} fills: {lacking}"
            dish.node.fault(
                what, "write portion_volume: 400 ml, say, or take out the sizes and room of the rules"
            )
            continue
        least_ml = least * min(eater.appetite for eater in household.eaters)
        if sizes and least_ml > max(sizes):
            what = f"a portion of {record.name} fills {float(least_ml):.0f} ml, and the largest container holds {max(sizes)} ml"
            dish.doubt(
                "dish", what, "it is eaten on its cooking day only; if it fills less, write portion_volume"
            )


def doubt_unbounded(household: Household, dishes: list[tuple[DishOnPaper, Dish]], foods: FoodTable) -> None:
    """Doubt every dish that an eater with bounds cannot be served, since a figure of it is not known."""
    for dish, record in dishes:
        for eater in household.eaters:
            why = never_served(eater, record, foods)
            if why is not None:
                what = f"{eater.name} has bounds and cannot be served {record.name}: {why}"
                dish.doubt(
                    "dish",
                    what,
                    "write the amount, or the food's figures in foods.yaml, or take the bound out",
                )


def doubt_unbrought(
    household: Household, dishes: list[tuple[DishOnPaper, Dish]], foods: FoodTable, place: Placer
) -> list[Finding]:
    """Doubt every bound that wants helpings to bring what no dish brings that the eater may have.

    Parameters
    ----------
    household, dishes, foods
        Who eats, and what there is.
    place
        Tells where something of kitchen.yaml stands.
    """
    found = []
    for at, eater in enumerate(household.eaters):
        meals = {slot.meal for slot in household.slots() if slot.eater == eater.name}
        had = [
            variant
            for _, dish in dishes
            if meals and (not dish.meals or meals & set(dish.meals))
            for variant in dish.variants()
            if barred(eater, dish, variant, foods) is None
        ]
        for goal in eater.goals if had else ():
            if goal.is_share and goal.least and not any(goal.nutrient in way.brings for way in had):
                what = f"{eater.name} wants {goal.nutrient}, and no dish that {eater.name} may have brings it"
                remedy = f"write brings: [{goal.nutrient}] where one does, or take the bound out"
                here = place(("eaters", at, "bounds", goal.nutrient))
                found.append(Finding(here, what, remedy, Weight.DOUBT))
    return found
