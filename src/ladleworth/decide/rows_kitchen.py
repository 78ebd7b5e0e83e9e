"""Rules of the kitchen as rows, one function per rule, in the order of `judge_kitchen.py`."""

from __future__ import annotations

import math
from collections import defaultdict
from typing import NamedTuple

from ladleworth.decide.columns import WeekModel, wished_portions
from ladleworth.decide.rules import MustCook
from ladleworth.decide.verdict import hands_on_min

Terms = list[tuple[int, float]]


def batches_are_allowed(model: WeekModel) -> None:
    """A session cooks a dish at most once, perhaps split between versions, in least..greatest portions."""
    question, sheet = model.question, model.sheet
    groups: dict[tuple[str, int], dict[str, Terms]] = defaultdict(lambda: defaultdict(list))
    for (called, version, session, portions), column in model.size.items():
        groups[called, session][version].append((column, float(portions)))
    for (name, day), versions in groups.items():
        dish = question.dish(name)
        sizes = [entry for terms in versions.values() for entry in terms]
        cooked = model.cooked.get((name, day))
        if cooked is None:
            sheet.row(((c, 1.0) for c, _ in sizes), high=1)
            continue
        sheet.row([*((c, 1.0) for c, _ in sizes), (cooked, -float(dish.most_versions))], high=0)
        if dish.most_versions > 1:
            for terms in versions.values():
                sheet.row([*((c, 1.0) for c, _ in terms), (cooked, -1.0)], high=0)
            sheet.row([*sizes, (cooked, -float(dish.greatest))], high=0)
            sheet.row([*sizes, (cooked, -float(dish.least))], low=0)
    for (_, _, session, _), column in model.size.items():
        if session in model.held:
            sheet.row([(column, 1.0), (model.held[session], -1.0)], high=0)
    for wish in question.wishes:
        if isinstance(wish, MustCook):
            sheet.row(wished_portions(model, wish), low=wish.portions)


def minute_terms(model: WeekModel, day: int) -> Terms:
    """Hands-on minutes of a session, as terms."""
    question = model.question
    batches = [
        (column, float(hands_on_min(question.version(dish, name), portions)))
        for (dish, name, session, portions), column in model.size.items()
        if session == day
    ]
    shared = [
        (column, float(question.dish(dish).shared_min))
        for (dish, session), column in model.cooked.items()
        if session == day
    ]
    return batches + shared


def minutes_suffice(model: WeekModel) -> None:
    """Hands-on minutes of a session, and those of its stations, suffice."""
    for session in model.question.sessions:
        model.sheet.row(minute_terms(model, session.day), high=session.minutes)
        for station in session.stations:
            model.sheet.row(station_terms(model, session.day, station), high=session.stations[station])


def station_terms(model: WeekModel, day: int, station: str) -> Terms:
    """Minutes of a station that a session takes, as terms."""
    terms = []
    for (dish, name, session, portions), column in model.size.items():
        load = model.question.version(dish, name).loads.get(station)
        if session == day and load is not None:
            terms.append((column, float(load.minutes(portions))))
    return terms


class Waiting(NamedTuple):
    """Portions in containers on some night: their column (None: fixed), how many a unit of it is, where, how large."""

    column: int | None
    number: float
    frozen: bool
    volume_ml: int


def waiting(model: WeekModel, night: int) -> list[Waiting]:
    """What stands in containers after the slots of a day.

    Tomorrow's frozen portions have been taken out to thaw: they are in a container but not in the freezer. What
    is not eaten of portions on hand is thrown out on the evening of its last day.
    """
    question = model.question
    entries = []
    for dinner, column in model.eaten.items():
        if dinner.session <= night < dinner.day:
            volume = math.ceil(question.version(dinner.dish, dinner.version).volume_ml * dinner.appetite)
            entries.append(Waiting(column, 1.0, dinner.frozen and dinner.day > night + 1, volume))
    for (dish, version, session), column in model.kept.items():
        if session <= night:
            entries.append(
                Waiting(column, 1.0, frozen=True, volume_ml=question.version(dish, version).volume_ml)
            )
    for lot in question.portions:
        days: dict[int, list[int]] = defaultdict(list)
        for (name, _, day), column in model.taken.items():
            if name == lot.name:
                days[day].append(column)
        stays = lot.last_day is None or lot.last_day > night
        if stays:
            entries.append(Waiting(None, float(lot.portions), lot.frozen, lot.volume_ml))
        for day, columns in days.items():
            for column in columns:
                # those to be eaten later wait anyway; those that stay are there until they are eaten
                if stays and day <= night:
                    entries.append(Waiting(column, -1.0, lot.frozen, lot.volume_ml))
                elif stays and day == night + 1 and lot.frozen:
                    entries.append(Waiting(column, -1.0, frozen=True, volume_ml=lot.volume_ml))
                    entries.append(Waiting(column, 1.0, frozen=False, volume_ml=lot.volume_ml))
    return entries


def _at_most(model: WeekModel, entries: list[tuple[Waiting, float]], limit: float) -> None:
    fixed = sum(w.number * size for w, size in entries if w.column is None)
    terms = [(w.column, w.number * size) for w, size in entries if w.column is not None]
    model.sheet.row(terms, high=limit - fixed)


def containers_suffice(model: WeekModel) -> None:
    """Containers, freezer places and room suffice every night, and the freezer is not loaded too fast.

    What is held only rises on a session's day, so that those nights and the first one are enough; the fridge
    fills up on other days too, by what thaws.
    """
    rules = model.question.rules
    nights = sorted({1, *(s.day for s in model.question.sessions)})
    every = range(1, model.question.days + 1)
    for night in every if rules.fridge_ml is not None else nights:
        here = waiting(model, night)
        if rules.containers is not None:
            _at_most(model, [(w, 1.0) for w in here], rules.containers)
        if rules.freezer_places is not None:
            _at_most(model, [(w, 1.0) for w in here if w.frozen], rules.freezer_places)
        if rules.container_sizes:
            for capacity in (0, *sorted(c.capacity_ml for c in rules.container_sizes)):
                larger = sum(c.count for c in rules.container_sizes if c.capacity_ml > capacity)
                _at_most(model, [(w, 1.0) for w in here if w.volume_ml > capacity or not capacity], larger)
        if rules.fridge_ml is not None:
            _at_most(model, [(w, w.volume_ml / 1000) for w in here if not w.frozen], rules.fridge_ml / 1000)
        if rules.freezer_ml is not None:
            _at_most(model, [(w, w.volume_ml / 1000) for w in here if w.frozen], rules.freezer_ml / 1000)
    if rules.freezing_load is not None:
        for session in model.question.sessions:
            frozen = [c for d, c in model.eaten.items() if d.session == session.day and d.frozen]
            kept = [c for key, c in model.kept.items() if key[2] == session.day]
            model.sheet.row(((c, 1.0) for c in (*frozen, *kept)), high=rules.freezing_load)
