"""Weeks small enough to settle on paper: a meal out costs 300 cents and the rice of one portion 10."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.decide import (
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    MealSlot,
    PackageOffer,
    Question,
    ShopVisit,
    Version,
)

PORTION = 100_000
"""What a portion takes of its one food, in mg."""

RICE = Foodstuff("rice")
BEANS = Foodstuff("beans")
CORNER = ShopVisit("corner")


def stew(needs: dict[str, int | Fraction] | None = None, **fields: object) -> DishChoice:
    """A dish in one version; `fixed_min`, `per_portion_min`, `barred` and `liking_cents` go to the version."""
    of_version = {
        key: fields.pop(key)
        for key in ("fixed_min", "per_portion_min", "barred", "liking_cents")
        if key in fields
    }
    name = str(fields.pop("name", "stew"))
    amounts = {food: Fraction(amount) for food, amount in (needs or {"rice": PORTION}).items()}
    return DishChoice(name, (Version("plain", amounts, **of_version),), **fields)  # type: ignore[arg-type]


def pack(cents: int, food: str = "rice", quantity: int = PORTION, **fields: object) -> PackageOffer:
    """A package at the corner shop, called after its food."""
    usual: dict[str, object] = {"name": f"{food} pack", "shop": "corner"}
    return PackageOffer(food=food, quantity=quantity, cents=cents, **(usual | fields))  # type: ignore[arg-type]


def slots(*days: int, eater: str = "Ada", meal: str = "supper") -> tuple[MealSlot, ...]:
    """One eater's slots, one a day."""
    return tuple(MealSlot(day, eater, meal) for day in days)


def sessions(*days: int, minutes: int = 60) -> tuple[CookSession, ...]:
    """Sessions of equal length."""
    return tuple(CookSession(day, minutes) for day in days)


def rules(**fields: object) -> HouseRules:
    """Meals out at 300 and no other rule than those given."""
    return HouseRules(**({"meal_out_cents": 300, "in_a_row": None} | fields))  # type: ignore[arg-type]


def week(**fields: object) -> Question:
    """Three days, a session on the first, rice stew at 10 cents a portion."""
    usual: dict[str, object] = {
        "days": 3,
        "slots": slots(1),
        "sessions": sessions(1),
        "dishes": (stew(),),
        "foods": (RICE,),
        "offers": (pack(10),),
        "shops": (CORNER,),
        "rules": rules(),
    }
    return Question(**(usual | fields))  # type: ignore[arg-type]
