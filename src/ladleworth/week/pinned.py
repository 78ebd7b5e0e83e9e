"""Days written as numbers, pinned to the calendar, so that a plan that goes on from another keeps its days. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from ladleworth.decide import Question
from ladleworth.household import Days, Household


def pinned(household: Household, origin: date) -> Household:
    """Write the household's numbered days as dates, day 1 being `origin`; weekdays and dates stay."""

    def pin(days: Days) -> Days:
        dates = (origin + timedelta(days=number - 1) for number in days.numbers)
        return Days((), days.weekdays, tuple(dict.fromkeys((*days.dates, *dates))))

    return replace(
        household,
        meals=tuple(replace(meals, days=pin(meals.days)) for meals in household.meals),
        sessions=tuple(replace(session, days=pin(session.days)) for session in household.sessions),
    )


def pinned_for(household: Household, question: Question, starts: Sequence[date]) -> Household:
    """Pin the numbered days as they were counted when a plan was made.

    A plan that goes on from an earlier one counts its own days anew, but the papers' numbers go on being those of the
    first. Which of the earlier plans that was is told by the question: its slots and sessions are on the days that the
    numbers mean.

    Parameters
    ----------
    household
        The household as the papers have it, with the plan's first day and number of days.
    question
        The plan's question.
    starts
        First days from which the numbers may have been counted, the likeliest first.

    Returns
    -------
    Household
        Pinned to the first of them from which the fewest slots and sessions lie on other days than the question's.
    """
    asked = {(s.day, s.eater, s.meal) for s in question.slots}
    sessions = {(s.day, "", "") for s in question.sessions}

    def differing(origin: date) -> int:
        mine = pinned(household, origin)
        slots = {(s.day, s.eater, s.meal) for s in mine.slots()}
        cooks = {(day, "", "") for day, _ in mine.cook_days()}
        return len(asked ^ slots) + len(sessions ^ cooks)

    return pinned(household, min(starts, key=differing))
