"""Decide: which batches, swaps, portions and packages; one optimisation, since whole packages tie them together."""

from ladleworth.decide.answer import Answer, Batch, Costs, Drawing, Helping, Plan, Purchase, Status
from ladleworth.decide.deciding import decide, judged
from ladleworth.decide.forced import why_not
from ladleworth.decide.goods import Foodstuff, PackageOffer, PortionLot, ShopVisit, StockLot
from ladleworth.decide.judge import judge
from ladleworth.decide.pose import per_portion, pose
from ladleworth.decide.question import CookSession, DishChoice, Load, MealSlot, Question, Version
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
from ladleworth.decide.rules import (
    Additions,
    ContainerSize,
    HouseRules,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
    Wish,
)

__all__ = [
    "Additions",
    "Answer",
    "Batch",
    "Clash",
    "ContainerSize",
    "CookSession",
    "Costs",
    "DishChoice",
    "Drawing",
    "Foodstuff",
    "Helping",
    "HouseRules",
    "Load",
    "MealSlot",
    "MustBuy",
    "MustCook",
    "MustNotCook",
    "MustServe",
    "MustUse",
    "NutrientBound",
    "PackageOffer",
    "Plan",
    "PortionLot",
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
    "Wish",
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
    "why_not",
]
