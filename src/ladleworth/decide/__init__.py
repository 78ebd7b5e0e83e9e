"""Decide: which batches, swaps, portions and packages; one optimisation, since whole packages tie them together."""

from ladleworth.decide.answer import Answer, Batch, Costs, Drawing, Helping, Plan, Purchase, Status
from ladleworth.decide.deciding import decide, judged
from ladleworth.decide.judge import judge
from ladleworth.decide.pose import per_portion, pose
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
from ladleworth.decide.reasons import (
    Clash,
    PriceOfRule,
    Rule,
    Tight,
    WayOut,
    clash,
    limits,
    prices_of_rules,
    runner_up,
    tight,
)

__all__ = [
    "Additions",
    "Answer",
    "Batch",
    "Clash",
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
    "PriceOfRule",
    "Purchase",
    "Question",
    "Rule",
    "ShopVisit",
    "Status",
    "StockLot",
    "Tight",
    "Version",
    "WayOut",
    "clash",
    "decide",
    "judge",
    "judged",
    "limits",
    "per_portion",
    "pose",
    "prices_of_rules",
    "runner_up",
    "tight",
]
