"""Decide: which batches, swaps, portions and packages; one optimisation, since whole packages tie them together."""

from ladleworth.decide.answer import Answer, Batch, Costs, Drawing, Helping, Plan, Purchase, Status
from ladleworth.decide.deciding import decide, judged
from ladleworth.decide.judge import judge
from ladleworth.decide.question import (
    Additions,
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    MealSlot,
    PackageOffer,
    Question,
    ShopVisit,
    StockLot,
    Version,
)

__all__ = [
    "Additions",
    "Answer",
    "Batch",
    "CookSession",
    "Costs",
    "DishChoice",
    "Drawing",
    "Foodstuff",
    "Helping",
    "HouseRules",
    "MealSlot",
    "PackageOffer",
    "Plan",
    "Purchase",
    "Question",
    "ShopVisit",
    "Status",
    "StockLot",
    "Version",
    "decide",
    "judge",
    "judged",
]
