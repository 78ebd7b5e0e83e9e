"""Rules of the table: every slot served, in time, not always the same, never what an eater may not have."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from fractions import Fraction

from ladleworth.decide.answer import Helping, Plan
from ladleworth.decide.question import Question
from ladleworth.decide.rules import NutrientBound
from ladleworth.decide.verdict import Breach, helpings_by_pot, pot_of, reserve, slot_words

# --- rule 1: every listed slot takes one portion or a meal out; every portion cooked is eaten --------


def slots_are_filled(question: Question, plan: Plan) -> Iterator[Breach]:
    """Each listed slot has one helping, of a dish for that meal; meals out only where the household has them."""
    filled = Counter((h.day, h.eater, h.meal) for h in plan.helpings)
    listed = {(s.day, s.eater, s.meal) for s in question.slots}
    for day, eater, meal in sorted(listed):
        if filled[day, eater, meal] != 1:
            yield Breach("slots", f"{eater} {meal} day {day} has {filled[day, eater, meal]} helpings, not 1")
    for day, eater, meal in sorted(set(filled) - listed):
        yield Breach("slots", f"{eater} {meal} day {day} is no listed slot")
    lots = {lot.name: lot for lot in question.portions}
    for helping in plan.helpings:
        if helping.dish is None:
            if question.rules.meal_out_cents is None:
                yield Breach("slots", f"{slot_words(helping)} eats out, which the household does not do")
            continue
        source = question.dish(helping.dish) if helping.lot is None else lots[helping.lot]
        if not source.suits(helping.meal):
            yield Breach("meals", f"{helping.dish} is no dish for {helping.meal} ({slot_words(helping)})")


def portions_are_eaten(question: Question, plan: Plan) -> Iterator[Breach]:
    """A batch is as large as the appetites it feeds, rounded up; what is left over keeps on, within the reserve.

    Portions on hand are not eaten more often than they are there.
    """
    left = reserve(question, plan)
    for (day, dish, _), portions in left.items():
        if portions < 0:
            yield Breach("portions", f"{-portions} more portions of {dish} (day {day}) are eaten than cooked")
        freezes = question.dish(dish).freezer_days
        if portions > 0 and (freezes is None or day + freezes - 1 <= question.days):
            yield Breach(
                "portions", f"{portions} portions of {dish} (day {day}) are neither eaten nor keep on"
            )
    total = sum(max(0, portions) for portions in left.values())
    if total > question.additions.reserve_portions:
        yield Breach(
            "portions",
            f"{total} portions are left over; the household allows {question.additions.reserve_portions}",
        )
    eaten = Counter(h.lot for h in plan.helpings if h.lot is not None)
    for lot in question.portions:
        if eaten[lot.name] > lot.portions:
            yield Breach(
                "portions", f"{eaten[lot.name]} of {lot.name} are eaten and {lot.portions} are there"
            )


# --- rule 3: chilled portions within their keeping time, frozen ones after a night's thaw ------------


def portions_keep(question: Question, plan: Plan) -> Iterator[Breach]:
    """Chilled within the keeping time; frozen only what freezes well, thawed a day ahead; lots by their own days."""
    lots = {lot.name: lot for lot in question.portions}
    for helping in plan.helpings:
        if helping.lot is not None:
            lot = lots[helping.lot]
            if helping.day < lot.first_day or (lot.last_day is not None and helping.day > lot.last_day):
                last = "the end" if lot.last_day is None else f"day {lot.last_day}"
                yield Breach(
                    "keeping", f"{slot_words(helping)}: {lot.name} is for days {lot.first_day} to {last}"
                )
        elif helping.dish is not None and helping.cooked_day is not None:
            yield from _batch_keeps(question, helping, helping.dish, helping.day - helping.cooked_day + 1)


def _batch_keeps(question: Question, helping: Helping, name: str, age: int) -> Iterator[Breach]:
    dish, where = question.dish(name), slot_words(helping)
    if age < 1:
        yield Breach("keeping", f"{where} eats {name} before it is cooked")
    elif not helping.frozen and age > dish.keep_days:
        yield Breach("keeping", f"{where}: chilled {name} is in day {age} of {dish.keep_days}")
    elif helping.frozen and dish.freezer_days is None:
        yield Breach("freezing", f"{where}: {name} does not freeze well")
    elif helping.frozen and age < 3:
        yield Breach("freezing", f"{where}: frozen {name} cannot be thawed before day 3 of its age")
    elif helping.frozen and dish.freezer_days is not None and age > dish.freezer_days:
        yield Breach("freezing", f"{where}: frozen {name} is in day {age} of {dish.freezer_days}")


# --- rule 5: sameness and exclusions ------------------------------------------------------------------


def no_dish_too_often(question: Question, plan: Plan) -> Iterator[Breach]:
    """No eater has one dish on too many days in a row, nor too often in a span of days."""
    days: dict[tuple[str, str], Counter[int]] = defaultdict(Counter)
    for helping in plan.helpings:
        if helping.dish is not None:
            days[helping.eater, helping.dish][helping.day] += 1
    rules = question.rules
    for (eater, dish), times in days.items():
        for span in question.spans():
            number = sum(times[day] for day in span)
            if rules.most_times is not None and number > rules.most_times:
                yield Breach("sameness", f"{eater} has {dish} {number} times; {rules.most_times} is the most")
        if rules.in_a_row is not None:
            for day in times:
                run = range(day, day + rules.in_a_row + 1)
                if all(d in times for d in run):
                    yield Breach("sameness", f"{eater} has {dish} on each of days {run[0]} to {run[-1]}")


def exclusions_are_kept(question: Question, plan: Plan) -> Iterator[Breach]:
    """Nobody has what is barred to them."""
    lots = {lot.name: lot for lot in question.portions}
    for helping in plan.helpings:
        pot = pot_of(plan, helping.cooked_day, helping.dish, helping.version)
        if helping.lot is not None and helping.eater in lots[helping.lot].barred:
            yield Breach("exclusions", f"{helping.eater} may not have {helping.dish} ({helping.lot})")
        elif pot is not None and helping.eater in question.version(*pot[1:]).barred:
            yield Breach("exclusions", f"{helping.eater} may not have {helping.dish} ({pot[2]})")


# --- rule 9: nutrients, and what helpings bring, on average over an eater's helpings of a span ----------


def nutrients_stay_within(question: Question, plan: Plan) -> Iterator[Breach]:
    """What an eater's helpings of a span average lies within the household's bounds; a figure is never guessed."""
    for bound in question.rules.nutrient_bounds:
        figures = nutrient_figures(question, plan, bound)
        for span in question.spans():
            here = [figure for day, figure in figures if day in span]
            known = [figure for figure in here if figure is not None]
            where = f"{bound.eater}, days {span[0]} to {span[-1]}: {bound.nutrient}"
            if len(known) < len(here):
                yield Breach("nutrients", f"{where} has no figure for {len(here) - len(known)} helpings")
            elif here:
                mean = sum(known, Fraction(0)) / len(here)
                told = bound.figure(mean)
                told = f"in {told} of helpings" if bound.share else f"averages {told}"
                if bound.least is not None and mean < bound.least:
                    yield Breach("nutrients", f"{where} {told}, below {bound.figure(bound.least)}")
                if bound.most is not None and mean > bound.most:
                    yield Breach("nutrients", f"{where} {told}, above {bound.figure(bound.most)}")


def nutrient_figures(
    question: Question, plan: Plan, bound: NutrientBound
) -> list[tuple[int, Fraction | None]]:
    """What each helping of the bound's eater brings of its nutrient, with its day; None: no figure."""
    lots = {lot.name: lot for lot in question.portions}
    factor = question.counted(bound)
    figures: list[tuple[int, Fraction | None]] = []
    for pot, helpings in helpings_by_pot(plan).items():
        standard = question.version(*pot[1:]).nutrients.get(bound.nutrient)
        figure = None if standard is None else standard * factor
        figures += [(h.day, figure) for h in helpings if h.eater == bound.eater]
    for helping in plan.helpings:
        if helping.lot is not None and helping.eater == bound.eater:
            figures.append((helping.day, lots[helping.lot].nutrients.get(bound.nutrient)))
    return figures
