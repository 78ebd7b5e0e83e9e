"""A plan for the eye: how good it is, what to cook, who eats what, what to buy, what it comes to."""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from fractions import Fraction
from math import ceil, floor
from pathlib import Path

from ladleworth.cli import say, show_compared, show_kept, show_why
from ladleworth.cli.document import gap_share
from ladleworth.decide import Helping, Rule, Status, Tight, tight
from ladleworth.decide.verdict import pot_of
from ladleworth.dish.allergens import NOT_VOUCHED
from ladleworth.units import show_minutes
from ladleworth.week import (
    CookingDay,
    PlannedWeek,
    ToBuy,
    cooking_of,
    costs_table,
    opened_too_long,
    preview_money,
    shopping_of,
    use_up_of,
)
from ladleworth.week.packing import Packed, is_split
from ladleworth.week.telling import COST_LABELS, cannot_be_cooked

STATIONS = {"oven": "Oven", "burner": "Burners, all together"}

MOST_EATER_COLUMNS = 4
"""With more eaters than this the calendar has a line a dish, and names who has it."""


def title(week: PlannedWeek, today: date) -> None:
    """Name the kitchen and the days; doubt a plan for days that are over."""
    household = week.kitchen.household
    say.heading(f"{household.name}: {say.plural(household.days, 'day')} from {say.long_day(household.start)}")
    if household.start < today:
        say.warn(f"the first day, {household.start}, is over (today is {today}); --start names another")


def whole(week: PlannedWeek) -> None:
    """Show a plan in full."""
    status(week)
    if week.question.wishes:
        told = "; ".join(show_why.wish_text(week, wish) for wish in week.question.wishes)
        say.sentence(f"Settled beforehand: {told}.")
    if week.changes is not None:
        show_compared.changes(week, week.changes)
    costs(week)
    cooking(week)
    show_kept.differences(week)
    calendar(week)
    show_kept.nutrients(week)
    show_kept.nights(week)
    shopping(week)
    use_up(week)
    limits_reached(week)
    cautions(week)
    money(week)


def status(week: PlannedWeek) -> None:
    """Say how good the plan is known to be."""
    answer, kitchen = week.answer, week.kitchen
    assert answer.costs is not None
    took = f"{answer.seconds:.1f} s, {answer.solver}, seed {answer.seed}"
    if answer.status is Status.PROVEN:
        say.sentence(f"Proven best: no plan that keeps the rules has a lower value ({took}).")
        return
    gap, bound = answer.gap_cents, answer.bound
    if gap is None or bound is None:
        say.sentence(f"Good: the best plan found ({took}). How far off the best it is, is not known.")
        return
    share = gap_share(week)
    of_cost = (
        ""
        if share is None
        else f", {ceil(share * 1000) / 10:g} % of what the week costs with what it uses of the stock counted"
    )
    say.sentence(
        f"Good, with a gap: the best plan found ({took}). Its value is at most "
        f"{say.cents_text(Fraction(ceil(gap)), kitchen)} above the best there is{of_cost}; the bound is "
        f"{say.cents_text(Fraction(floor(bound)), kitchen)}. More --seconds may close the gap."
    )


def costs(week: PlannedWeek) -> None:
    """Show the value with the components that add up to it."""
    assert week.answer.costs is not None
    table = costs_table(week.answer.costs)
    say.reckoning(table, week.kitchen, title="What was made as small as it can be", total="value")
    say.sentence(
        "Value: tills, trips, spoilt and meals out (and the additions that are on), less what is carried over. "
        "Bound: no plan can have less."
    )
    share = week.question.additions.carried_share
    if share != 1:
        counted = -sum(row.cents for row in table.rows if row.label == COST_LABELS["carried"])
        full = week.answer.costs.carried / share if share else None
        figures = (
            ""
            if full is None
            else f": {say.cents_text(counted, week.kitchen)} of {say.cents_text(full, week.kitchen)}"
        )
        say.sentence(f"What is carried over counts at {float(share * 100):g} % of its cost{figures}.")


def cooking(week: PlannedWeek) -> None:
    """Show the batches of each session."""
    for session in cooking_of(week):
        used, most = show_minutes(_whole(session.used_min)), show_minutes(session.most_min)
        say.heading(
            f"Cook on {say.short_day(session.when)} (day {session.day}): {used} hands-on of at most {most}"
        )
        if not session.batches:
            say.sentence("Nothing is cooked.")
            continue
        say.table(
            ("dish", "portions", "chill", "freeze", "minutes"), _batch_rows(session), right=(1, 2, 3, 4)
        )
        for use in session.stations:
            taken = f"{show_minutes(_whole(use.used_min))} of {show_minutes(use.most_min)}"
            say.sentence(f"{STATIONS.get(use.station, use.station)}: {taken}", indent=2)


def _batch_rows(session: CookingDay) -> list[tuple[str, ...]]:
    rows = []
    for batch in session.batches:
        made = "".join(f"\n  {part}: {swap}" for part, swap in batch.swaps)
        flagged = f"\n  allergens: {', '.join(batch.allergens.names)}" if batch.allergens.names else ""
        filled = _filled(batch.containers)
        cells = (batch.portions, batch.chilled or "", batch.frozen or "", _whole(batch.hands_on_min))
        rows.append((f"{batch.name}{made}{filled}{flagged}", *map(str, cells)))
    return rows


def _filled(containers: tuple[Packed, ...]) -> str:
    """Say what goes into the containers where it is not one standard portion each."""
    if all(kind.size == 1 for kind in containers):
        return ""
    told = ", ".join(
        f"{kind.count} × {'a portion' if kind.size == 1 else f'{kind.size} of a portion'} "
        f"{'frozen' if kind.frozen else 'chilled'}"
        for kind in containers
    )
    return f"\n  fill {told}"


def _whole(minutes: Fraction) -> int:
    return -int(-minutes // 1)


def calendar(week: PlannedWeek) -> None:
    """Show who has what when; a star marks what comes from the freezer."""
    thaw = any(helping.frozen for helping in week.plan.helpings)
    say.heading("Who eats what" + (" (* from the freezer: thaw it the day before)" if thaw else ""))
    household = week.kitchen.household
    by_meal: dict[tuple[int, str], dict[str, str]] = {}
    for helping in week.plan.helpings:
        by_meal.setdefault((helping.day, helping.meal), {})[helping.eater] = _served(week, helping)
    order = {slot.meal: at for at, slot in reversed(list(enumerate(household.slots())))}
    keys = sorted(by_meal, key=lambda key: (key[0], order.get(key[1], 0)))
    ends = [at for at, key in enumerate(keys[:-1]) if keys[at + 1][0] != key[0]]
    eaters = list(dict.fromkeys(slot.eater for slot in week.question.slots))
    days = [
        say.short_day(household.date_of(day)) if at == 0 or keys[at - 1][0] != day else ""
        for at, (day, _) in enumerate(keys)
    ]
    if len(eaters) <= MOST_EATER_COLUMNS:
        rows = [
            (days[at], key[1], *(by_meal[key].get(eater, "–") for eater in eaters))
            for at, key in enumerate(keys)
        ]
        say.table(("day", "meal", *eaters), rows, sections=ends)
    else:
        rows = [(days[at], key[1], _by_dish(by_meal[key])) for at, key in enumerate(keys)]
        say.table(("day", "meal", "dish: eaters"), rows, sections=ends)
    if any(helping.dish is None for helping in week.plan.helpings):
        for line in cannot_be_cooked(week.kitchen):
            say.sentence(line)


def _served(week: PlannedWeek, helping: Helping) -> str:
    if helping.dish is None:
        return "out"
    name = say.dish_name(week.kitchen, helping.dish)
    pot = pot_of(week.plan, helping.cooked_day, helping.dish, helping.version)
    if pot is not None and is_split(week.plan, pot[0], pot[1]):
        name += f" ({pot[2]})"
    held = " (on hand)" if helping.lot is not None else ""
    return name + held + (" *" if helping.frozen else "")


def _by_dish(served: dict[str, str]) -> str:
    eaters: dict[str, list[str]] = defaultdict(list)
    for eater, dish in served.items():
        eaters[dish].append(eater)
    return "\n".join(f"{dish}: {', '.join(names)}" for dish, names in eaters.items())


def shopping(week: PlannedWeek) -> None:
    """Show the shopping list by day and shop."""
    household, lines = week.kitchen.household, shopping_of(week)
    visits: dict[tuple[int, str], list[ToBuy]] = {}
    for line in lines:
        visits.setdefault((line.day, line.shop), []).append(line)
    for (day, shop), mine in visits.items():
        say.heading(f"Buy on {say.short_day(household.date_of(day))} (day {day}) at {shop}")
        rows = [_line_cells(week, line) for line in mine]
        total = ("together", "", say.cents_text(sum(line.cents for line in mine), week.kitchen), "", "")
        say.table(("what", "packages", "pay", "needed", "left over"), rows, right=(1, 2, 3, 4), total=total)
    if not lines:
        say.heading("Nothing has to be bought")


def _line_cells(week: PlannedWeek, line: ToBuy) -> tuple[str, ...]:
    kitchen = week.kitchen
    dishes = ", ".join(say.dish_name(kitchen, dish) for dish in line.dishes)
    called = f" ({line.name})" if line.name else ""
    stock = f"\n  and {say.amount_text(line.on_hand, line.unit)} on hand" if line.on_hand else ""
    return (
        f"{say.food_name(kitchen, line.food)}{called}\n  for {dishes or 'nothing yet'}{stock}",
        f"{line.packages} × {say.amount_text(line.size, line.unit)}",
        say.cents_text(line.cents, kitchen),
        say.amount_text(line.taken, line.unit),
        say.amount_text(line.left, line.unit) if line.left else "",
    )


def use_up(week: PlannedWeek) -> None:
    """Show what is on hand and ends within the days."""
    found = use_up_of(week)
    if not found:
        return
    say.heading("Has to be used up in these days")
    write = say.day_style((one.last_day for one in found), week.kitchen)
    rows = [
        (
            say.food_name(week.kitchen, one.food),
            write(one.last_day),
            say.amount_text(one.quantity, one.unit),
            say.amount_text(one.drawn, one.unit) if one.drawn else "nothing",
            say.cents_text(one.spoils_cents, week.kitchen) if one.spoils_cents else "",
        )
        for one in found
    ]
    say.table(("on hand", "last day", "there", "used", "spoils, worth"), rows, right=(2, 3, 4))


def limits_reached(week: PlannedWeek) -> None:
    """Name the limits that the plan reaches."""
    reached = tight(week.question, week.plan)
    if reached:
        say.heading("Limits reached")
        for one in reached:
            say.sentence(_limit_text(week, one), indent=2)


def _limit_text(week: PlannedWeek, limit: Tight) -> str:
    kitchen = week.kitchen
    if limit.rule is Rule.BUDGET:
        return f"the budget: {say.cents_text(limit.used, kitchen)} of {say.cents_text(limit.limit, kitchen)}"
    words = limit.where.split()
    where = limit.where
    if words and words[0] in ("day", "night") and words[-1].isdigit():
        where = say.short_day(kitchen.household.date_of(int(words[-1])))
    unit = {
        Rule.MINUTES: "minutes",
        Rule.CONTAINERS: "containers",
        Rule.FREEZER: "freezer places",
        Rule.STATIONS: "minutes",
        Rule.FRIDGE_ROOM: "ml of room in the fridge",
        Rule.FREEZER_ROOM: "ml of room in the freezer",
        Rule.FREEZING_LOAD: "portions that freeze",
    }
    names = unit.get(limit.rule, limit.rule.value)
    return f"{where}: {_whole(limit.used)} of {_whole(limit.limit)} {names}"


def cautions(week: PlannedWeek) -> None:
    """Say what the plan is too kind about, and that allergens are not vouched for."""
    say.heading("Cautions")
    say.sentence(NOT_VOUCHED, indent=2)
    foods = [batch.allergens for session in cooking_of(week) for batch in session.batches]
    labels = dict.fromkeys(food for one in foods for food in (*one.read_labels, *one.unknown))
    if labels:
        names = ", ".join(say.food_name(week.kitchen, food) for food in labels)
        say.sentence(f"Labels to read for allergens that hide: {names}.", indent=2)
    for late in opened_too_long(week.kitchen, week.plan):
        say.sentence(
            f"{say.food_name(week.kitchen, late.food)}: opened on day {late.opened_day} and used again on day "
            f"{late.drawn_day}; once opened it keeps {say.plural(late.keeps_days, 'day')} ({week.kitchen.foods.source(late.source).title}). "
            "Freeze the rest, or plan it for one day.",
            indent=2,
        )


def money(week: PlannedWeek) -> None:
    """Show what becomes of the money, if everything goes to plan."""
    spent = preview_money(week)
    say.reckoning(
        spent.till, week.kitchen, title="Where the money at the tills goes", total="paid at the tills"
    )
    if spent.per_portion_cents is not None:
        say.sentence(
            f"{say.plural(spent.portions, 'portion')} use food worth "
            f"{say.cents_text(spent.used_cents, week.kitchen)}: "
            f"{say.cents_text(spent.per_portion_cents, week.kitchen)} a portion."
        )


def what_next(week: PlannedWeek, place: Path) -> None:
    """Say what became of the plan, and what to do with it."""
    if week.number is not None:
        say.heading(f"Accepted as plan {week.number}")
        say.sentence(f"Next: {_next_act(week, place)}.")
    elif place.is_file():
        say.heading("Not kept")
        say.sentence("Say --accept to go by it.")
    else:
        say.heading("Not kept: a folder keeps no plans")
        say.sentence(f"Next: ladleworth load {place} kitchen.db, then decide kitchen.db --accept.")


def _next_act(week: PlannedWeek, place: Path) -> str:
    """The first command of the plan: its shopping, else its cooking, else its meals."""
    plan = week.plan
    if plan.purchases:
        return f"ladleworth buy {place} --day {min(p.day for p in plan.purchases)}, then cook and eat"
    if plan.batches:
        return f"ladleworth cook {place} --day {min(b.day for b in plan.batches)}, then eat"
    return f"ladleworth eat {place} --day 1"
