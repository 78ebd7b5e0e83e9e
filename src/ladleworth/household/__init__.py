"""The household: who eats when, with what kitchen, under which house rules; and the kitchen on record."""

from __future__ import annotations

from ladleworth.household.barring import NO_AISLE, barred
from ladleworth.household.house import Household, Kitchen
from ladleworth.household.people import Avoid, Days, Eater, Exclusion, Goal, Meals, Slot
from ladleworth.household.rules import (
    HEADSPACE_SHARE,
    HEADSPACE_SOURCE,
    WEEK_DAYS,
    Container,
    Equipment,
    OvenPace,
    Rules,
    Session,
    Shop,
    Vessel,
    Wishes,
)

__all__ = [
    "HEADSPACE_SHARE",
    "HEADSPACE_SOURCE",
    "NO_AISLE",
    "WEEK_DAYS",
    "Avoid",
    "Container",
    "Days",
    "Eater",
    "Equipment",
    "Exclusion",
    "Goal",
    "Household",
    "Kitchen",
    "Meals",
    "OvenPace",
    "Rules",
    "Session",
    "Shop",
    "Slot",
    "Vessel",
    "Wishes",
    "barred",
]
