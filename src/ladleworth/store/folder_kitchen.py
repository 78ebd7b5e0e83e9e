"""kitchen.yaml: who eats when, when the cook cooks, shops, money, house rules and equipment."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from ladleworth.dish.dish import KEEP_DAYS
from ladleworth.dish.tree import Node, shorten
from ladleworth.household import Days, Exclusion, Household, Meals, Rules, Session, Shop, Wishes
from ladleworth.store.fields import (
    parse_date,
    read_cents,
    read_days,
    read_filled,
    read_minutes_whole,
    read_name,
    read_share,
    read_whole,
    read_with,
    suggestion,
)
from ladleworth.store.folder_eaters import BOUND_KEYS, BOUNDS_KEYS, EATER_KEYS, read_eaters
from ladleworth.store.folder_equipment import EQUIPMENT_KEYS, OVEN_KEYS, VESSEL_KEYS, read_equipment
from ladleworth.store.folder_rules import CONTAINER_KEYS, RULE_KEYS, read_rules
from ladleworth.units import Currency, currency

FORMAT = 1
"""The version of the kitchen folder's format that is read and written."""

MOST_DAYS = 366

KITCHEN_KEYS = {
    "ladleworth": "1", "name": "Two on Heron Street", "currency": "USD", "start": "2026-12-06", "days": "7",
    "eaters": "[{name: Ada}]", "slots": "[{meals: [dinner]}]", "sessions": "[{day: sunday, minutes: 150}]",
    "shops": "[{name: Corner Shop}]", "rules": "{containers: 12}", "additions": "{repeat: 0.25}",
    "equipment": "{burners: 4}",
}  # fmt: skip
NEEDED_KEYS = ("ladleworth", "currency", "start", "days", "eaters", "slots", "sessions")
SLOT_KEYS = {"meals": "[lunch, dinner]", "eaters": "[Ada]", "days": "[1-7]"}
SESSION_KEYS = {"day": "sunday", "minutes": "150", "days": "[1, 4]", "length": "3 h", "price": "2.00"}
SHOP_KEYS = {"name": "Corner Shop", "trip": "0.50"}
ADDITION_KEYS = {
    "repeat": "0.25",
    "hour": "6.00",
    "reserve": "{portions: 4, worth: 1.50}",
    "carried": "70%",
    "liking": "{Bean chili: 0.20}",
}
RESERVE_KEYS = {"portions": "4", "worth": "1.50"}
ALL_KEYS = {
    "kitchen.yaml": KITCHEN_KEYS, "eaters": EATER_KEYS, "slots": SLOT_KEYS, "sessions": SESSION_KEYS,
    "shops": SHOP_KEYS, "rules": RULE_KEYS, "additions": ADDITION_KEYS, "reserve": RESERVE_KEYS,
    "equipment": EQUIPMENT_KEYS, "bounds": BOUNDS_KEYS, "bound": BOUND_KEYS, "container": CONTAINER_KEYS,
    "oven": OVEN_KEYS, "vessel": VESSEL_KEYS,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class KitchenPaper:
    """What kitchen.yaml holds, as far as it could be read.

    `household` is None when a needed key is missing or faulty; `start` and `days` are then what could be
    read. `keep_days` is the house rule for cooked dishes.
    """

    household: Household | None = None
    currency: Currency | None = None
    start: date | None = None
    days: int | None = None
    keep_days: int = KEEP_DAYS
    eaters: tuple[str, ...] = ()


def read_kitchen(
    top: Node, read_exclusion: Callable[[Node], Exclusion | None], dishes: dict[str, str]
) -> KitchenPaper:
    """Read kitchen.yaml; every fault is noted with the node's findings.

    Parameters
    ----------
    top
        The paper's top node.
    read_exclusion
        Reads one entry of an eater's `never`.
    dishes
        Names of the dishes on record and their ids.

    Returns
    -------
    KitchenPaper
        What could be read.
    """
    keys = top.keys(KITCHEN_KEYS, "a kitchen")
    for key in NEEDED_KEYS:
        if key not in keys:
            top.fault(f"the key {key!r} is missing", f"write {key}: {KITCHEN_KEYS[key]}")
    if "ladleworth" in keys:
        _check_format(keys["ladleworth"])
    money = read_with(keys["currency"], "currency", "USD", currency) if "currency" in keys else None
    start = read_with(keys["start"], "start", "2026-12-06", parse_date) if "start" in keys else None
    days = read_whole(keys["days"], "days", least=1, most=MOST_DAYS) if "days" in keys else None
    name = keys["name"].text("the kitchen's name", "Two on Heron Street") if "name" in keys else "Kitchen"
    eaters = read_eaters(keys["eaters"], read_exclusion) if "eaters" in keys else ()
    names = tuple(eater.name for eater in eaters)
    meals = _slots(keys["slots"], names, start, days) if "slots" in keys else ()
    sessions = _sessions(keys["sessions"], start, days, money) if "sessions" in keys else ()
    shops = _shops(keys["shops"], money) if "shops" in keys else ()
    rules, keep_days = read_rules(keys["rules"], money) if "rules" in keys else (Rules(), KEEP_DAYS)
    wishes = _additions(keys["additions"], money, dishes) if "additions" in keys else Wishes()
    equipment = read_equipment(keys.get("equipment"))
    if any(one.length_min for one in sessions) and (equipment.burners, equipment.oven_shelves) == (
        None,
        None,
    ):
        what = "a session has a length, and the equipment card has neither burners nor oven_shelves"
        top.findings.doubt(
            ("sessions",), what, "write them under equipment: the length counts for nothing without"
        )
    household = None
    if money and start and days and eaters and meals and sessions:
        household = Household(
            name, money, start, days, eaters, meals, sessions, shops, rules, wishes, equipment
        )
    return KitchenPaper(household, money, start, days, keep_days, names)


def _check_format(node: Node) -> None:
    version = read_whole(node, "the format's version", least=1)
    if version is not None and version != FORMAT:
        node.fault(
            f"the format's version is {version}",
            f"this program reads version {FORMAT}; write ladleworth: {FORMAT}",
        )


def _slots(node: Node, names: tuple[str, ...], start: date | None, days: int | None) -> tuple[Meals, ...]:
    slots: list[Meals] = []
    seen: set[tuple[str, str, int]] = set()
    for item in read_filled(node, "slots"):
        keys = item.keys(SLOT_KEYS, "an entry of slots")
        meals = keys["meals"].texts("meals", "[lunch, dinner]") if "meals" in keys else ("meal",)
        eaters = _known_eaters(keys["eaters"], names) if "eaters" in keys else ()
        chosen = _days(item, keys.get("days"), "days", start, days)
        if not meals:
            continue
        slots.append(Meals(meals, eaters, chosen))
        if start is None or days is None:
            continue
        again = {
            (meal, eater, day)
            for meal in meals
            for eater in eaters or names
            for day in chosen.within(start, days)
        }
        if twice := seen & again:
            meal, eater, day = min(twice, key=lambda slot: (slot[2], slot))
            what = f"{eater}'s {meal} on day {day} is listed above already"
            item.findings.doubt(item.path, what, "it counts once; take one of the two out")
        seen |= again
    return tuple(slots)


def _known_eaters(node: Node, names: tuple[str, ...]) -> tuple[str, ...]:
    chosen: list[str] = []
    for item in node.items("eaters", or_one=True):
        name = item.text("an eater's name", "Ada")
        if name and name not in names:
            item.fault(f"nobody here is called {shorten(name)}", suggestion(name, names, "eaters"))
        elif name and name not in chosen:
            chosen.append(name)
    return tuple(chosen)


def _days(owner: Node, node: Node | None, what: str, start: date | None, days: int | None) -> Days:
    """Read a choice of days, and doubt those outside the plan."""
    if node is None:
        return Days()
    chosen = read_days(node.items(what, or_one=True), what)
    if chosen == Days():
        if not owner.findings.faulty:
            node.fault(f"{what} names no day", "name one, such as 1 or sunday, or leave the key out")
        return chosen
    if start is None or days is None:
        return chosen
    outside = [str(n) for n in chosen.numbers if n > days]
    outside += [str(day) for day in chosen.dates if not 0 <= (day - start).days < days]
    if not chosen.within(start, days):
        what = f"{what} names no day between {start} and day {days}"
        node.findings.doubt(node.path, what, "it counts for nothing; name days of the plan")
    elif outside:
        what = f"{', '.join(outside[:5])} lies outside the {days} days from {start}"
        node.findings.doubt(node.path, what, "it counts for nothing; name days of the plan")
    return chosen


def _sessions(
    node: Node, start: date | None, days: int | None, money: Currency | None
) -> tuple[Session, ...]:
    sessions: list[Session] = []
    taken: dict[int, int] = {}
    faults = len(node.findings.found)
    for item in read_filled(node, "sessions"):
        keys = item.keys(SESSION_KEYS, "a session")
        if ("day" in keys) == ("days" in keys) and keys:
            item.fault("a session needs either day or days", "write day: sunday, or days: [1, 4]")
        if "minutes" not in keys and keys:
            item.fault("a session has no minutes", "write minutes: 150, hands-on at the most")
        minutes = read_minutes_whole(keys["minutes"], "minutes") if "minutes" in keys else None
        length = read_minutes_whole(keys["length"], "length") if "length" in keys else None
        if length is not None and minutes is not None and length < minutes:
            what = f"a session lasts {length} minutes by the clock, less than its {minutes} hands-on minutes"
            keys["length"].findings.doubt(keys["length"].path, what, "mend it, unless several cook at once")
        cents = read_cents(keys["price"], "price", money) if "price" in keys else 0
        key = "day" if "day" in keys else "days"
        if key not in keys:
            continue
        chosen = _days(item, keys[key], key, start, days)
        if chosen == Days() or minutes is None:
            continue
        sessions.append(Session(chosen, minutes, length, cents or 0))
        for day in chosen.within(start, days) if start and days else ():
            if day in taken:
                item.fault(f"day {day} has a session already, {taken[day]} minutes", "keep one session a day")
            taken[day] = minutes
    if (
        start
        and days
        and not taken
        and not any(f.weight.value == "fault" for f in node.findings.found[faults:])
    ):
        node.fault(f"no session falls within the {days} days from {start}", "name a day of the plan")
    return tuple(sessions)


def _shops(node: Node, money: Currency | None) -> tuple[Shop, ...]:
    shops: list[Shop] = []
    taken: dict[str, int | None] = {}
    for item in node.items("shops"):
        keys = item.keys(SHOP_KEYS, "a shop")
        name = read_name(item, keys, "a shop", taken) if keys else ""
        trip = read_cents(keys["trip"], "trip", money) if "trip" in keys else 0
        if name:
            shops.append(Shop(name, trip or 0))
    return tuple(shops)


def _additions(node: Node, money: Currency | None, dishes: dict[str, str]) -> Wishes:
    keys = node.keys(ADDITION_KEYS, "additions") if node.data is not None else {}
    reserve = keys["reserve"].keys(RESERVE_KEYS, "reserve") if "reserve" in keys else {}
    if "reserve" in keys and reserve and len(reserve) < len(RESERVE_KEYS):
        keys["reserve"].fault("a reserve needs portions and worth", "write {portions: 4, worth: 1.50}")
    liking: dict[str, int] = {}
    for name, item in keys["liking"].entries("liking") if "liking" in keys else ():
        if name not in dishes:
            item.fault(f"no dish is called {shorten(name)}", suggestion(name, dishes, "dishes"))
            continue
        price = read_cents(item, f"the liking of {name}", money, negative=True)
        liking[dishes[name]] = price or 0
    return Wishes(
        repeat_cents=_price(keys, "repeat", money),
        hour_cents=_price(keys, "hour", money),
        reserve_portions=(read_whole(reserve["portions"], "portions") if "portions" in reserve else 0) or 0,
        reserve_cents=_price(reserve, "worth", money),
        carried_share=read_share(keys["carried"], "carried", most=Fraction(1))
        if "carried" in keys
        else Fraction(1),
        liking_cents=tuple(liking.items()),
    )


def _price(keys: dict[str, Node], key: str, money: Currency | None) -> int:
    return (read_cents(keys[key], key, money) if key in keys else 0) or 0
