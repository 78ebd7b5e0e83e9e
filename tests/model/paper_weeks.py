"""Weeks small enough to settle on paper: a meal out costs 300 and rice 10 cents for the 100 g of one portion."""

from __future__ import annotations

from fractions import Fraction

from tests.model.brute_force import best_plan
from tests.model.plan_rules import broken_rules

from ladleworth.decide.judge import judge
from ladleworth.decide.question import (
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    MealSlot,
    PackageOffer,
    PortionLot,
    Question,
    ShopVisit,
    Version,
)

PORTION = 100_000
RICE = Foodstuff("rice")
CORNER = ShopVisit("corner")
RICE_OFFER = PackageOffer("rice at corner", "rice", "corner", PORTION, 10)
OUT = HouseRules(meal_out_cents=300)


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


def days_of(*days: int, eater: str = "Ada", meal: str = "supper") -> tuple[MealSlot, ...]:
    return tuple(MealSlot(day, eater, meal) for day in days)


def week(**fields: object) -> Question:
    usual: dict[str, object] = {
        "days": 3,
        "slots": days_of(1),
        "sessions": (CookSession(1, 60),),
        "dishes": (stew(),),
        "foods": (RICE,),
        "offers": (RICE_OFFER,),
        "shops": (CORNER,),
        "rules": OUT,
    }
    return Question(**(usual | fields))  # type: ignore[arg-type]


def rules(**fields: object) -> HouseRules:
    return HouseRules(**({"meal_out_cents": 300} | fields))  # type: ignore[arg-type]


def cents(question: Question) -> Fraction | None:
    """Return the optimum; the judge and the second writing of the rules must let its plan stand."""
    found = best_plan(question)
    if found is None:
        return None
    assert judge(question, found[1]).breaches == ()
    assert judge(question, found[1]).costs.total == found[0]
    assert broken_rules(question, found[1]) == set()
    return found[0]


def boxes(**fields: object) -> PortionLot:
    return PortionLot(**({"name": "box", "dish": "soup", "portions": 1, "cents": 5} | fields))  # type: ignore[arg-type]
