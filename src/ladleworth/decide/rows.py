"""The rules of the week as rows over the columns, one function per rule, and the value of what is left."""

from __future__ import annotations

from collections import defaultdict

from ladleworth.decide.columns import WeekModel, unions, unit, versions_of
from ladleworth.decide.judge import hands_on_min, need


def one_batch_a_session(model: WeekModel) -> None:
    """A session cooks a dish at most once, in one version and one size."""
    groups: dict[tuple[str, int], list[int]] = defaultdict(list)
    for (dish, _, session, _), column in model.size.items():
        groups[dish, session].append(column)
    for columns in groups.values():
        model.sheet.row(((c, 1) for c in columns), high=1)


def portions_are_eaten(model: WeekModel) -> None:
    """What a batch gives is eaten within the days, or kept where a reserve is allowed; by day and dish."""
    cooked: dict[tuple[str, str, int], list[tuple[int, float]]] = defaultdict(list)
    for (dish, version, session, portions), column in model.size.items():
        cooked[dish, version, session].append((column, -portions))
    by_day: dict[tuple[str, str, int], list[tuple[int, float]]] = defaultdict(list)
    for key, sizes in cooked.items():
        eaten = list(model.eaten_of(*key))
        rest = [(model.kept[key], 1.0)] if key in model.kept else []
        model.sheet.row([*sizes, *((c, 1.0) for _, c, _ in eaten), *rest], 0, 0)
        for day, column, _ in eaten:
            by_day[key[0], key[1], day].append((column, -1.0))
    for (dish, version, eater, day), column in model.served.items():
        assert eater
        by_day[dish, version, day].append((column, 1.0))
    for terms in by_day.values():
        model.sheet.row(terms, 0, 0)


def slots_are_filled(model: WeekModel) -> None:
    """Each slot takes one portion or a meal out; dishes for some meals only fit into those (Hall's condition)."""
    question = model.question
    meals_of: dict[tuple[str, int], set[str]] = defaultdict(set)
    for slot in question.slots:
        meals_of[slot.eater, slot.day].add(slot.meal)
    slots = {(s.eater, s.day, s.meal) for s in question.slots}
    by_seat: dict[tuple[str, int], list[tuple[frozenset[str], int]]] = defaultdict(list)
    for (dish, _, eater, day), column in model.served.items():
        fits = frozenset(m for m in meals_of[eater, day] if question.dish(dish).suits(m))
        by_seat[eater, day].append((fits, column))
    for (eater, day), out in model.out.items():
        everyone = [(c, 1.0) for _, c in by_seat[eater, day]]
        total = len(meals_of[eater, day])
        model.sheet.row([*everyone, (out, 1.0)], total, total)
        for some in unions(fits for fits, _ in by_seat[eater, day]):
            inside = [(c, 1.0) for fits, c in by_seat[eater, day] if fits <= some]
            if len(some) < total:
                model.sheet.row(inside, high=sum((eater, day, m) in slots for m in some))


def no_dish_too_often(model: WeekModel) -> None:
    """No eater has one dish on too many days in a row, nor too often; further helpings have their price."""
    question, sheet, rules = model.question, model.sheet, model.question.rules
    columns: dict[tuple[str, str], dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
    for (dish, _, eater, day), column in model.served.items():
        columns[dish, eater][day].append(column)
    for (dish, eater), by_day in columns.items():
        terms = [(c, 1.0) for cs in by_day.values() for c in cs]
        if rules.most_times is not None:
            sheet.row(terms, high=rules.most_times)
        if question.additions.repeat_cents:
            has = sheet.column(f"has {dish} {eater}", 1, -question.additions.repeat_cents)
            sheet.row([(has, 1.0), *((c, -1.0) for c, _ in terms)], high=0)
            for c, _ in terms:
                sheet.cost[c] += question.additions.repeat_cents
        if rules.in_a_row is None:
            continue
        runs = [
            range(day, day + rules.in_a_row + 1)
            for day in by_day
            if all(d in by_day for d in range(day, day + rules.in_a_row + 1))
        ]
        on_day = {
            d: _has_on_day(model, by_day[d], f"{dish} {eater} {d}") for d in {d for run in runs for d in run}
        }
        for run in runs:
            sheet.row(((on_day[d], 1.0) for d in run), high=rules.in_a_row)


def _has_on_day(model: WeekModel, served: list[int], name: str) -> int:
    """Return a column that is 1 whenever the eater has any of these portions that day."""
    most = max(model.sheet.upper[c] for c in served)
    if len(served) == 1 and most == 1:
        return served[0]
    has = model.sheet.column(f"day with {name}", 1)
    for column in served:
        model.sheet.row([(column, 1.0), (has, -model.sheet.upper[column])], high=0)
    if len(served) > 1:
        model.sheet.row(
            [*((c, 1.0) for c in served), (has, -sum(model.sheet.upper[c] for c in served))], high=0
        )
    return has


def held_terms(model: WeekModel, night: int) -> tuple[list[tuple[int, float]], list[tuple[int, float]]]:
    """Portions in containers, and in the freezer, after the slots of a day, as terms."""
    held: list[tuple[int, float]] = []
    frozen: list[tuple[int, float]] = []
    for (_, _, session, day), column in model.chilled.items():
        if session <= night < day:
            held.append((column, 1.0))
    for (_, _, session, day), column in model.thawed.items():
        if session <= night < day:
            held.append((column, 1.0))
            if day > night + 1:
                frozen.append((column, 1.0))
    kept = [(c, 1.0) for (_, _, session), c in model.kept.items() if session <= night]
    return held + kept, frozen + kept


def containers_suffice(model: WeekModel) -> None:
    """After the slots of a session's day (stock only rises then) containers and freezer places suffice."""
    rules = model.question.rules
    for night in (s.day for s in model.question.sessions):
        held, frozen = held_terms(model, night)
        if rules.containers is not None:
            model.sheet.row(held, high=rules.containers)
        if rules.freezer_places is not None:
            model.sheet.row(frozen, high=rules.freezer_places)


def minute_terms(model: WeekModel, day: int) -> list[tuple[int, float]]:
    """Hands-on minutes of a session, as terms."""
    versions = {(d.name, v.name): v for d, v in versions_of(model.question)}
    return [
        (column, float(hands_on_min(versions[dish, name], portions)))
        for (dish, name, session, portions), column in model.size.items()
        if session == day
    ]


def minutes_suffice(model: WeekModel) -> None:
    """Hands-on minutes of a session's batches fit into the session."""
    for session in model.question.sessions:
        model.sheet.row(minute_terms(model, session.day), high=session.minutes)


def needs_are_met(model: WeekModel) -> None:
    """Each session gets what its batches need, from lots and packages that hold it."""
    question, sheet = model.question, model.sheet
    units = {f.name: unit(question, f.name) for f in question.foods}
    versions = {(d.name, v.name): v for d, v in versions_of(question)}
    balance: dict[tuple[str, int], list[tuple[int, float]]] = defaultdict(list)
    for (dish, name, day, portions), column in model.size.items():
        for food in versions[dish, name].needs:
            balance[food, day].append((column, -need(versions[dish, name], food, portions) / units[food]))
    food_of = {o.name: o.food for o in question.offers}
    lot_food = {lot.name: lot.food for lot in question.lots}
    drawn: dict[tuple[str, int | None], list[tuple[int, float]]] = defaultdict(list)
    for (source, bought, day), column in model.use.items():
        food = lot_food[source] if bought is None else food_of[source]
        balance[food, day].append((column, 1.0))
        drawn[source, bought].append((column, 1.0))
    for terms in balance.values():
        sheet.row(terms, 0, 0)
    for lot in question.lots:
        sheet.row(drawn[lot.name, None], high=lot.quantity / units[lot.food])
    for offer in question.offers:
        for session in question.sessions:
            if (offer.name, session.day) in model.buy:
                packages = (model.buy[offer.name, session.day], -offer.quantity / units[offer.food])
                sheet.row([*drawn[offer.name, session.day], packages], high=0)


def trips_are_paid(model: WeekModel) -> None:
    """Whatever is bought in a shop on a day makes that visit."""
    shop = {o.name: o.shop for o in model.question.offers}
    for (offer, day), column in model.buy.items():
        model.sheet.row([(column, 1.0), (model.trip[shop[offer], day], -model.sheet.upper[column])], high=0)


def till_terms(model: WeekModel) -> list[tuple[int, float]]:
    """Money at the tills over all days, as terms."""
    cents = {o.name: float(o.cents) for o in model.question.offers}
    return [(column, cents[offer]) for (offer, _), column in model.buy.items()]


def budget_suffices(model: WeekModel) -> None:
    """Money at the tills over all days stays within the budget."""
    budget = model.question.rules.budget_cents
    if budget is not None:
        model.sheet.row(till_terms(model), high=budget)


def reserve_is_small(model: WeekModel) -> None:
    """No more portions are left over than the household allows."""
    model.sheet.row(((c, 1.0) for c in model.kept.values()), high=model.question.additions.reserve_portions)


def stock_is_valued(model: WeekModel) -> None:
    """Objective: what is left of lots at its cost share, as spoilt or as carried over."""
    question, sheet = model.question, model.sheet
    worth = float(question.additions.carried_share)
    for lot in question.lots:
        spoils = lot.last_day is not None and lot.last_day <= question.days
        value = lot.cents if spoils else lot.cents * worth
        sheet.constant += value if spoils else -value
        share = value / lot.quantity * unit(question, lot.food)
        for session in question.sessions:
            column = model.use.get((lot.name, None, session.day))
            if column is not None:
                sheet.cost[column] += -share if spoils else share
    for offer in question.offers:
        keep = question.food(offer.food).keep_days
        share = offer.cents * worth / offer.quantity * unit(question, offer.food)
        for bought in (s.day for s in question.sessions):
            if (offer.name, bought) not in model.buy or (
                keep is not None and bought + keep - 1 <= question.days
            ):
                continue
            sheet.cost[model.buy[offer.name, bought]] -= offer.cents * worth
            for day in (s.day for s in question.sessions):
                column = model.use.get((offer.name, bought, day))
                if column is not None:
                    sheet.cost[column] += share
