"""The rows of the aggregated programme: everyone's slots of a day are counted together.

It knows no eater, so it is small and quick, and whatever it says no plan can beat is true of every plan: each
row here follows from the rules. What it lacks (who had what on which day) the exact programme of `rows.py`
settles once the batches are known.
"""

from __future__ import annotations

from collections import defaultdict

from ladleworth.decide.columns import WeekModel, unions, versions_of
from ladleworth.decide.question import DishChoice, Question, Version

MOST_SETS = 10
"""With more sets of slots than this on a day, Hall's condition is stated for the sets alone, not their unions."""

Seats = frozenset[tuple[str, str]]
"""Slots of one day, as (eater, meal)."""


def seats_of(question: Question) -> dict[int, Seats]:
    """All slots, by day."""
    seats: dict[int, set[tuple[str, str]]] = defaultdict(set)
    for slot in question.slots:
        seats[slot.day].add((slot.eater, slot.meal))
    return {day: frozenset(here) for day, here in seats.items()}


def _fitting(dish: DishChoice, version: Version, seats: Seats) -> Seats:
    return frozenset(
        (eater, meal) for eater, meal in seats if eater not in version.barred and dish.suits(meal)
    )


def portions_go_to_days(model: WeekModel) -> None:
    """What a batch gives is eaten within the days, or kept where a reserve is allowed."""
    cooked: dict[tuple[str, str, int], list[tuple[int, float]]] = defaultdict(list)
    for (dish, version, session, portions), column in model.size.items():
        cooked[dish, version, session].append((column, -portions))
    for key, sizes in cooked.items():
        kept = [(model.kept[key], 1.0)] if key in model.kept else []
        model.sheet.row([*sizes, *((c, 1.0) for _, c, _ in model.eaten_of(*key)), *kept], 0, 0)


def crowd_fills_slots(model: WeekModel) -> None:
    """Portions eaten on a day fit into that day's slots, whoever has them (Hall's condition); the rest is out."""
    question, sheet = model.question, model.sheet
    seats = seats_of(question)
    price = question.rules.meal_out_cents
    eaten: dict[int, dict[Seats, list[int]]] = defaultdict(lambda: defaultdict(list))
    fitting = {
        (dish.name, version.name, day): _fitting(dish, version, here)
        for dish, version in versions_of(question)
        for day, here in seats.items()
    }
    for columns in (model.chilled, model.thawed):
        for (dish, version, _, day), column in columns.items():
            eaten[day][fitting[dish, version, day]].append(column)
    for day, here in seats.items():
        out = sheet.column(f"out {day}", 0 if price is None else len(here), price or 0)
        model.out["", day] = out
        sheet.row([*((c, 1.0) for cs in eaten[day].values() for c in cs), (out, 1.0)], len(here), len(here))
        for some in unions(eaten[day], most=MOST_SETS):
            if len(some) < len(here):
                sheet.row(
                    [(c, 1.0) for fits, cs in eaten[day].items() if fits <= some for c in cs], high=len(some)
                )


def crowd_varies(model: WeekModel) -> None:
    """No dish is eaten more often, in a run of days or over all days, than its eaters together may."""
    question, sheet, rules, extra = (
        model.question,
        model.sheet,
        model.question.rules,
        model.question.additions,
    )
    seats = seats_of(question)
    eaten: dict[str, dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
    for columns in (model.chilled, model.thawed):
        for (dish, _, _, day), column in columns.items():
            eaten[dish][day].append(column)
    for name, by_day in eaten.items():
        choice = question.dish(name)
        eaters = [e for e in question.eaters if any(e not in v.barred for v in choice.versions)]
        slots = {
            (e, day): sum(eater == e and choice.suits(meal) for eater, meal in seats[day])
            for e in eaters
            for day in by_day
        }
        everything = [(c, 1.0) for cs in by_day.values() for c in cs]
        if rules.most_times is not None:
            sheet.row(everything, high=rules.most_times * len(eaters))
        if extra.repeat_cents:
            repeats = sheet.column(f"repeats {name}", cost=extra.repeat_cents, whole=False)
            sheet.row([*everything, (repeats, -1.0)], high=len(eaters))
        if rules.in_a_row is None:
            continue
        for first in by_day:
            run = range(first, first + rules.in_a_row + 1)
            if all(day in by_day for day in run):
                most = sum(sum(sorted((slots[e, day] for day in run), reverse=True)[:-1]) for e in eaters)
                sheet.row([(c, 1.0) for day in run for c in by_day[day]], high=most)
