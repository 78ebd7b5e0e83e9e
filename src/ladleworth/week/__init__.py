"""The week: one function per user action, over a kitchen folder or a kitchen's file.

Each function loads what it needs, computes, lets the judge pass, and saves in one transaction; the doors call
these and nothing else. `today` is always an argument.
"""

from ladleworth.week.acting import (
    buy_day,
    change_stock,
    cook_day,
    dump_file,
    eat_day,
    live_week,
    load_folder,
    open_kitchen,
    see_prices,
    see_stocking,
)
from ladleworth.week.carry_out import Done, carry_out, helpings_of
from ladleworth.week.cooking import CookingDay, StationUse, ToCook, cooking_of
from ladleworth.week.finding import find_dish
from ladleworth.week.measuring import Night, NutrientMean, SizeInUse, nights_of, nutrients_of
from ladleworth.week.opened import OpenedTooLong, opened_too_long
from ladleworth.week.planning import PlannedWeek, accepted_week, decide_week, preview_money, week_money
from ladleworth.week.reckoned import BatchMoney, WeekMoney, reckon_week
from ladleworth.week.shelf import count_lot, give_lot, move_lot, open_lot, throw_lot, undo_entry
from ladleworth.week.telling import (
    ToBuy,
    ToUseUp,
    costs_table,
    gross_cents,
    shopping_of,
    use_up_of,
    week_cost_cents,
)

__all__ = [
    "BatchMoney",
    "CookingDay",
    "Done",
    "Night",
    "NutrientMean",
    "OpenedTooLong",
    "PlannedWeek",
    "SizeInUse",
    "StationUse",
    "ToBuy",
    "ToCook",
    "ToUseUp",
    "WeekMoney",
    "accepted_week",
    "buy_day",
    "carry_out",
    "change_stock",
    "cook_day",
    "cooking_of",
    "costs_table",
    "count_lot",
    "decide_week",
    "dump_file",
    "eat_day",
    "find_dish",
    "give_lot",
    "gross_cents",
    "helpings_of",
    "live_week",
    "load_folder",
    "move_lot",
    "nights_of",
    "nutrients_of",
    "open_kitchen",
    "open_lot",
    "opened_too_long",
    "preview_money",
    "reckon_week",
    "see_prices",
    "see_stocking",
    "shopping_of",
    "throw_lot",
    "undo_entry",
    "use_up_of",
    "week_cost_cents",
    "week_money",
]
