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
    load_folder,
    open_kitchen,
    see_prices,
)
from ladleworth.week.carry_out import OpenedTooLong, carry_out, helpings_of, opened_too_long
from ladleworth.week.planning import PlannedWeek, accepted_week, decide_week, preview_money, week_money
from ladleworth.week.reckoned import BatchMoney, WeekMoney, reckon_week

__all__ = [
    "BatchMoney",
    "OpenedTooLong",
    "PlannedWeek",
    "WeekMoney",
    "accepted_week",
    "buy_day",
    "carry_out",
    "change_stock",
    "cook_day",
    "decide_week",
    "dump_file",
    "eat_day",
    "helpings_of",
    "load_folder",
    "open_kitchen",
    "opened_too_long",
    "preview_money",
    "reckon_week",
    "see_prices",
    "week_money",
]
