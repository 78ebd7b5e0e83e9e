"""Rules of the table as rows, one function per rule, in the order of `judge_meals.py`."""

from __future__ import annotations

import math
from collections import defaultdict

from ladleworth.decide.columns import WeekModel, lot_slots, unions, version_slots, versions_of
from ladleworth.decide.rules import MustServe
from ladleworth.decide.sheet import FREE

Terms = list[tuple[int, float]]


def portions_are_eaten(model: WeekModel) -> None:
    """A batch is the appetites that it feeds, rounded up, and what is kept; day by day it is what eaters have."""
    question, sheet = model.question, model.sheet
    denominator = (
        math.lcm(*(question.appetite(e).denominator for e in question.eaters)) if question.slots else 1
    )
    batches: dict[tuple[str, str, int], Terms] = defaultdict(list)
    for (dish, version, session, portions), column in model.size.items():
        batches[dish, version, session].append((column, float(portions)))
    eaten: dict[tuple[str, str, int], Terms] = defaultdict(list)
    by_day: dict[tuple[str, str, object, int], Terms] = defaultdict(list)
    for dinner, column in model.eaten.items():
        eaten[dinner[:3]].append((column, -float(dinner.appetite)))
        by_day[dinner.dish, dinner.version, dinner.appetite, dinner.day].append((column, -1.0))
    for key, sizes in batches.items():
        rest = [(model.kept[key], -1.0)] if key in model.kept else []
        over = 1 - 1 / denominator  # of a portion, shared out among the containers
        sheet.row([*sizes, *eaten[key], *rest], low=0, high=FREE if over else 0)
        if over:
            sheet.row(
                [*((c, n - over) for c, n in sizes), *eaten[key], *rest],
                high=0,
            )
    for (dish, version, eater, day), column in model.served.items():
        by_day[dish, version, question.appetite(eater), day].append((column, 1.0))
    for terms in by_day.values():
        sheet.row(terms, 0, 0)
    for lot in question.portions:
        sheet.row(
            ((c, 1.0) for (name, _, _), c in model.taken.items() if name == lot.name), high=lot.portions
        )
    sheet.row(((c, 1.0) for c in model.kept.values()), high=question.additions.reserve_portions)


def fits_by_seat(model: WeekModel) -> dict[tuple[str, int], list[tuple[frozenset[str], str, int]]]:
    """(meals that suit, dish, column) of everything that an eater could have on a day, by (eater, day)."""
    question = model.question
    seats: dict[tuple[str, int], list[tuple[frozenset[str], str, int]]] = defaultdict(list)
    for dish, version in versions_of(question):
        for seat, meals in version_slots(question, dish, version).items():
            column = model.served.get((dish.name, version.name, *seat))
            if column is not None:
                seats[seat].append((meals, dish.name, column))
    for lot in question.portions:
        for seat, meals in lot_slots(question, lot).items():
            if (lot.name, *seat) in model.taken:
                seats[seat].append((meals, lot.dish, model.taken[lot.name, *seat]))
    return seats


def slots_are_filled(model: WeekModel) -> None:
    """Each slot takes one portion or a meal out; what suits some meals only fits into those (Hall's condition).

    A slot that is promised to a dish suits nothing else (`fitting_slots`), and as much of the dish is had that
    day as is promised, so that an exchange of seats keeps every promise; one promised to a meal out suits nothing.
    """
    question = model.question
    meals_of: dict[tuple[str, int], set[str]] = defaultdict(set)
    for slot in question.slots:
        meals_of[slot.eater, slot.day].add(slot.meal)
    by_seat = fits_by_seat(model)
    for seat, out in model.out.items():
        here = by_seat[seat]
        total = len(meals_of[seat])
        model.sheet.row([*((c, 1.0) for _, _, c in here), (out, 1.0)], total, total)
        for some in unions(fits for fits, _, _ in here):
            if len(some) < total:
                model.sheet.row(((c, 1.0) for fits, _, c in here if fits <= some), high=len(some))
    promised: dict[tuple[str, int, str], set[str]] = defaultdict(set)
    for wish in question.wishes:
        if isinstance(wish, MustServe) and wish.dish is not None:
            promised[wish.eater, wish.day, wish.dish].add(wish.meal)
    for (eater, day, dish), meals in promised.items():
        here = by_seat[eater, day]
        for some in unions(frozenset({meal}) for meal in meals):
            # so many portions that suit one of these meals
            suiting = [(c, 1.0) for fits, name, c in here if name == dish and fits & some]
            model.sheet.row(suiting, low=len(some))


def no_dish_too_often(model: WeekModel) -> None:
    """No eater has one dish on too many days in a row, nor too often; further helpings have their price."""
    question, sheet, rules = model.question, model.sheet, model.question.rules
    columns: dict[tuple[str, str], dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
    for (dish, _, eater, day), column in model.served.items():
        columns[dish, eater][day].append(column)
    dish_of = {lot.name: lot.dish for lot in question.portions}
    for (name, eater, day), column in model.taken.items():
        columns[dish_of[name], eater][day].append(column)
    for (dish, eater), by_day in columns.items():
        for span in question.spans():
            terms = [(c, 1.0) for day in span for c in by_day.get(day, ())]
            if not terms:
                continue
            if rules.most_times is not None:
                sheet.row(terms, high=rules.most_times)
            if question.additions.repeat_cents:
                has = sheet.column(f"has {dish} {eater} {span[0]}", 1, -question.additions.repeat_cents)
                model.has[dish, eater, span[0]] = has
                sheet.row([(has, 1.0), *((c, -1.0) for c, _ in terms)], high=0)
                for c, _ in terms:
                    sheet.cost[c] += question.additions.repeat_cents
        if rules.in_a_row is not None:
            _not_on_too_many_days_in_a_row(model, f"{dish} {eater}", by_day, rules.in_a_row)


def _not_on_too_many_days_in_a_row(
    model: WeekModel, name: str, by_day: dict[int, list[int]], most: int
) -> None:
    runs = [
        range(day, day + most + 1) for day in by_day if all(d in by_day for d in range(day, day + most + 1))
    ]
    days = {d for run in runs for d in run}
    on_day = {d: _has_on_day(model, by_day[d], f"{name} {d}") for d in sorted(days)}
    for run in runs:
        model.sheet.row(((on_day[d], 1.0) for d in run), high=most)


def _has_on_day(model: WeekModel, served: list[int], name: str) -> int:
    """Return a column that is 1 whenever the eater has any of these portions that day."""
    most = max(model.sheet.upper[c] for c in served)
    if len(served) == 1 and most == 1:
        return served[0]
    has = model.sheet.column(f"day with {name}", 1)
    for column in served:
        model.sheet.row([(column, 1.0), (has, -model.sheet.upper[column])], high=0)
    return has


def nutrients_stay_within(model: WeekModel) -> None:
    """What an eater's helpings of a span average lies within the household's bounds; a share is such a mean too."""
    question = model.question
    lots = {lot.name: lot for lot in question.portions}
    for bound in question.rules.nutrient_bounds:
        figures: list[tuple[int, int, float]] = []
        for (dish, version, eater, day), column in model.served.items():
            if eater == bound.eater:
                standard = question.version(dish, version).nutrients[bound.nutrient]
                figures.append((day, column, float(standard * question.counted(bound))))
        for (name, eater, day), column in model.taken.items():
            if eater == bound.eater:
                figures.append((day, column, float(lots[name].nutrients[bound.nutrient])))
        scale = max((abs(figure) for _, _, figure in figures), default=1.0) or 1.0
        for span in question.spans():
            for limit, sign in ((bound.least, 1.0), (bound.most, -1.0)):
                if limit is not None:
                    terms = [
                        (c, sign * (figure - float(limit)) / scale) for d, c, figure in figures if d in span
                    ]
                    before = len(model.sheet.rows)
                    model.sheet.row(terms, low=0)
                    model.nutrient_rows += range(before, len(model.sheet.rows))
