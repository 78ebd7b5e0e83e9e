"""The exact optimum of a tiny week, found by trying everything; written from the rules in words alone.

It shares no code with the judge or the solver: it counts days, nights in a container, thaws, packages and
draws by itself, in `Fraction`s. It is only meant for questions small enough to try everything:

1. every set of batches that fits the sessions' minutes (`_batch_sets`);
2. for each, every way to hand its portions to the slots (`_serve`);
3. for each, every useful number of packages in every set of shop visits, with the best draws (`_buy`).

Whatever is left out of the search is left out with the reason beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, combinations, product
from math import ceil

from ladleworth.decide.answer import Batch, Drawing, Helping, Plan, Purchase
from ladleworth.decide.question import CookSession, DishChoice, MealSlot, PackageOffer, Question, Version

NOTHING = Fraction(0)


def best(question: Question) -> Fraction | None:
    """Return the least cost in cents over all plans that keep the rules; None if no plan keeps them."""
    found = best_plan(question)
    return None if found is None else found[0]


def best_plan(question: Question) -> tuple[Fraction, Plan] | None:
    """Return the least cost and one plan that reaches it; None if no plan keeps the rules."""
    return next(iter(_search(question, keep=1)), None)


def all_plans(question: Question) -> list[tuple[Fraction, Plan]]:
    """Return the cheapest plan of every set of batches that has one, cheapest first."""
    return _search(question, keep=None)


def _search(question: Question, keep: int | None) -> list[tuple[Fraction, Plan]]:
    served: dict[object, _Served | None] = {}
    bought: dict[object, list[_FoodBuy]] = {}
    most_left = question.additions.reserve_portions
    found: list[tuple[Fraction, Plan]] = []
    for batches in _batch_sets(question):
        own = _own_cost(question, batches)
        if keep == 1 and found:
            # No plan with these batches can cost less than this: every slot beyond the portions is a meal
            # out, no repeat is priced, every portion that may be left is left, and food costs no less than
            # its unbudgeted best.
            portions = sum(b.portions for b in batches)
            out = max(0, len(question.slots) - portions) * (question.rules.meal_out_cents or 0)
            floor = own + out - question.additions.reserve_cents * min(portions, most_left)
            food_floor = _food_floor(question, batches, bought)
            if food_floor is None or floor + food_floor >= found[0][0]:
                continue
        key = tuple((b.dish, b.day, b.portions, _version(question, b).barred) for b in batches)
        if key not in served:
            served[key] = _serve(question, batches)
        handed = served[key]
        if handed is None:
            continue
        shopping = _buy(question, batches, bought)
        if shopping is None:
            continue
        total = own + handed.cost + shopping.cost
        if keep == 1 and found and total >= found[0][0]:
            continue
        plan = Plan(batches, handed.helpings, shopping.purchases, shopping.drawings)
        if keep == 1:
            found = [(total, plan)]
        else:
            found.append((total, plan))
    return sorted(found, key=lambda pair: pair[0])


def _version(question: Question, batch: Batch) -> Version:
    dish = next(d for d in question.dishes if d.name == batch.dish)
    return next(v for v in dish.versions if v.name == batch.version)


def _own_cost(question: Question, batches: tuple[Batch, ...]) -> Fraction:
    """What a set of batches costs by itself: minutes, and the liking per portion cooked."""
    cost = NOTHING
    for batch in batches:
        version = _version(question, batch)
        minutes = version.fixed_min + version.per_portion_min * batch.portions
        cost += question.additions.minute_cents * minutes + version.liking_cents * batch.portions
    return cost


# -- batches ------------------------------------------------------------------------------------------


def _batch_sets(question: Question) -> Iterator[tuple[Batch, ...]]:
    """Yield every set of batches: each session cooks each dish at most once, in one version.

    Left out: sets with more portions than there are slots and reserve places, and batches with more portions
    than there are slots that could ever take one. Every portion is eaten or left in reserve, so these have
    no plan.
    """
    room = len(question.slots) + question.additions.reserve_portions
    each_session = [list(_session_sets(question, session, room)) for session in question.sessions]
    for choice in product(*each_session):
        batches = tuple(chain.from_iterable(choice))
        if sum(b.portions for b in batches) <= room:
            yield batches


def _session_sets(question: Question, session: CookSession, room: int) -> Iterator[tuple[Batch, ...]]:
    each_dish: list[list[Batch | None]] = []
    for dish in question.dishes:
        options: list[Batch | None] = [None]
        for version in dish.versions:
            takers = sum(
                1 for slot in question.slots if _way(dish, version, session.day, slot) is not None
            ) + (question.additions.reserve_portions if dish.freezer_days is not None else 0)
            options.extend(
                Batch(session.day, dish.name, version.name, n)
                for n in range(dish.least, min(dish.greatest, room, takers) + 1)
            )
        each_dish.append(options)
    for picked in product(*each_dish):
        batches = tuple(b for b in picked if b is not None)
        versions = [_version(question, b) for b in batches]
        minutes = sum(
            (v.fixed_min + v.per_portion_min * b.portions for b, v in zip(batches, versions, strict=True)),
            NOTHING,
        )
        if minutes <= session.minutes:
            yield batches


# -- portions into slots ------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Served:
    cost: Fraction
    helpings: tuple[Helping, ...]


def _way(dish: DishChoice, version: Version, cooked: int, slot: MealSlot) -> str | None:
    """Say how a slot can have a portion: 'chilled', 'frozen', or None if it cannot.

    The day of cooking is day 1 of its age. Where both would do, chilled is taken: a chilled portion fills
    the same container on the same nights and no freezer place, so freezing can only be worse.
    """
    if slot.eater in version.barred or (dish.meals is not None and slot.meal not in dish.meals):
        return None
    age = slot.day - cooked + 1
    if 1 <= age <= dish.keep_days:
        return "chilled"
    # Frozen on day 1 of its age, taken out on day 2 at the earliest, eaten on day 3 at the earliest.
    if dish.freezer_days is not None and 3 <= age <= dish.freezer_days:
        return "frozen"
    return None


def _may_be_left(question: Question, dish: DishChoice, cooked: int) -> bool:
    """Say whether a portion may lie frozen when the days end: it freezes well and is within its time."""
    return dish.freezer_days is not None and question.days - cooked + 1 <= dish.freezer_days


def _serve(question: Question, batches: tuple[Batch, ...]) -> _Served | None:
    """Return the cheapest way to hand out every portion, by trying every batch and 'out' for every slot."""
    rules, additions, days = question.rules, question.additions, question.days
    slots = sorted(question.slots)
    dishes = [next(d for d in question.dishes if d.name == b.dish) for b in batches]
    versions = [_version(question, b) for b in batches]
    left = [b.portions for b in batches]
    nights = [0] * (days + 2)  # containers filled after the slots of a day
    frozen = [0] * (days + 2)  # freezer places taken after the slots of a day
    had: dict[tuple[str, str], list[int]] = {}  # the days on which an eater had a dish
    chosen: list[Helping] = []
    best_found: _Served | None = None

    def hold(counts: list[int], days_held: range, limit: int | None) -> bool:
        for day in days_held:
            counts[day] += 1
        return limit is None or all(counts[day] <= limit for day in days_held)

    def release(counts: list[int], days_held: range) -> None:
        for day in days_held:
            counts[day] -= 1

    def leave_the_rest() -> Fraction | None:
        """Freeze what no slot took, if the household allows it; return what it is worth."""
        total = sum(left)
        if total > additions.reserve_portions:
            return None
        stays = []
        fits = True
        for i, batch in enumerate(batches):
            fits = fits and (left[i] == 0 or _may_be_left(question, dishes[i], batch.day))
            stays += [range(batch.day, days + 1)] * left[i]
        for stay in stays:
            box = hold(nights, stay, rules.containers)
            place = hold(frozen, stay, rules.freezer_places)
            fits = fits and box and place
        for stay in stays:
            release(nights, stay)
            release(frozen, stay)
        return Fraction(additions.reserve_cents * total) if fits else None

    def place(at: int, cost: Fraction) -> None:
        nonlocal best_found
        if sum(left) > len(slots) - at + additions.reserve_portions:
            return
        if at == len(slots):
            worth = leave_the_rest()
            if worth is not None and (best_found is None or cost - worth < best_found.cost):
                best_found = _Served(cost - worth, tuple(chosen))
            return
        slot = slots[at]
        for i, batch in enumerate(batches):
            way = _way(dishes[i], versions[i], batch.day, slot) if left[i] else None
            if way is None:
                continue
            # In a container every night from the cooking day to the day before it is eaten; in the freezer
            # until it is taken out on the day before it is eaten (that night it thaws).
            boxed = range(batch.day, slot.day)
            iced = range(batch.day, slot.day - 1) if way == "frozen" else range(0)
            eaten = had.setdefault((slot.eater, batch.dish), [])
            fits_box = hold(nights, boxed, rules.containers)
            fits_ice = hold(frozen, iced, rules.freezer_places)
            eaten.append(slot.day)
            left[i] -= 1
            if (
                fits_box
                and fits_ice
                and (rules.most_times is None or len(eaten) <= rules.most_times)
                and (rules.in_a_row is None or _run_ending(eaten, slot.day) <= rules.in_a_row)
            ):
                chosen.append(
                    Helping(slot.day, slot.eater, slot.meal, batch.dish, batch.day, way == "frozen")
                )
                place(at + 1, cost + (additions.repeat_cents if len(eaten) > 1 else 0))
                chosen.pop()
            left[i] += 1
            eaten.pop()
            release(nights, boxed)
            release(frozen, iced)
        if rules.meal_out_cents is not None:
            chosen.append(Helping(slot.day, slot.eater, slot.meal))
            place(at + 1, cost + rules.meal_out_cents)
            chosen.pop()

    place(0, NOTHING)
    return best_found


def _run_ending(days_had: list[int], day: int) -> int:
    """Count the days in a row up to `day` on which something was had."""
    length = 0
    while day - length in days_had:
        length += 1
    return length


# -- packages and draws -------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Source:
    """A lot on hand or the packages of one offer bought on one day, as something to draw from."""

    name: str
    bought_day: int | None
    first: int
    last: int | None
    quantity: int
    draw_cents: Fraction  # what drawing one mg or piece does to the objective

    def open_on(self, day: int) -> bool:
        return self.first <= day and (self.last is None or day <= self.last)


@dataclass(frozen=True, slots=True)
class _FoodBuy:
    """One way to meet the needs of one food: what is paid, what it adds to the objective, what is bought."""

    till: int
    cost: Fraction
    packages: tuple[tuple[PackageOffer, int, int], ...]
    drawn: tuple[tuple[_Source, int], ...]


@dataclass(frozen=True, slots=True)
class _Bought:
    cost: Fraction
    purchases: tuple[Purchase, ...]
    drawings: tuple[Drawing, ...]


Needs = tuple[tuple[int, int], ...]


def _batch_needs(question: Question, batch: Batch) -> dict[str, int]:
    """Amounts a batch needs, each rounded up to whole milligrams or pieces for the batch as a whole."""
    return {food: ceil(each * batch.portions) for food, each in _version(question, batch).needs.items()}


def _needs(question: Question, batches: tuple[Batch, ...]) -> dict[str, Needs]:
    by_food: dict[str, dict[int, int]] = {food.name: {} for food in question.foods}
    for batch in batches:
        for food, amount in _batch_needs(question, batch).items():
            by_food[food][batch.day] = by_food[food].get(batch.day, 0) + amount
    return {food: tuple(sorted(days.items())) for food, days in by_food.items()}


def _food_floor(
    question: Question, batches: tuple[Batch, ...], bought: dict[object, list[_FoodBuy]]
) -> Fraction | None:
    """What the foods cost at least, every shop open for nothing and no budget; None if a need cannot be met."""
    everywhere = frozenset((s.name, d.day) for s in question.shops for d in question.sessions)
    total = NOTHING
    for food, needs in _needs(question, batches).items():
        ways = _food_ways(question, food, needs, everywhere, bought)
        if not ways:
            return None
        total += min(way.cost for way in ways)
    return total


def _buy(
    question: Question, batches: tuple[Batch, ...], bought: dict[object, list[_FoodBuy]]
) -> _Bought | None:
    """Return the cheapest shopping for the batches, over every set of visits; None if none will do.

    Once the visits are fixed (and paid for), the foods touch each other through the budget only.
    """
    needs = _needs(question, batches)
    visits = [(s.name, d.day) for s in question.shops for d in question.sessions]
    fares = {s.name: s.trip_cents for s in question.shops}
    budget = question.rules.budget_cents
    best_cost: Fraction | None = None
    best_ways: tuple[_FoodBuy, ...] = ()
    for made in chain.from_iterable(combinations(visits, k) for k in range(len(visits) + 1)):
        trips = Fraction(sum(fares[shop] for shop, _ in made))
        each_food = [_food_ways(question, f, needs[f], frozenset(made), bought) for f in needs]
        if not all(each_food):
            continue
        for ways in _within_budget(each_food, budget):
            cost = trips + sum((way.cost for way in ways), NOTHING)
            if best_cost is None or cost < best_cost:
                best_cost, best_ways = cost, ways
    if best_cost is None:
        return None
    purchases = [Purchase(day, offer.name, count) for way in best_ways for offer, day, count in way.packages]
    drawings: list[Drawing] = []
    for food, way in zip(needs, best_ways, strict=True):
        drawings += _route(question, batches, food, way)
    return _Bought(best_cost, tuple(purchases), tuple(drawings))


def _within_budget(each_food: list[list[_FoodBuy]], budget: int | None) -> Iterator[tuple[_FoodBuy, ...]]:
    """Yield the combinations of ways, one per food, that the money on hand pays for."""
    if budget is None:
        yield tuple(min(ways, key=lambda way: way.cost) for ways in each_food)
        return
    for ways in product(*each_food):
        if sum(way.till for way in ways) <= budget:
            yield ways


def _food_ways(
    question: Question,
    food: str,
    needs: Needs,
    visits: frozenset[tuple[str, int]],
    bought: dict[object, list[_FoodBuy]],
) -> list[_FoodBuy]:
    """Return the ways to meet the needs of one food that are not beaten in both till and cost."""
    buyable = tuple(
        (offer, day)
        for offer in question.offers
        if offer.food == food
        for shop, day in sorted(visits)
        if shop == offer.shop and any(day <= needed for needed, _ in needs)
    )
    key = (food, needs, tuple((offer.name, day) for offer, day in buyable))
    if key not in bought:
        bought[key] = _undominated(_ways_to_buy(question, food, needs, buyable))
    return bought[key]


def _undominated(ways: Iterator[_FoodBuy]) -> list[_FoodBuy]:
    kept: list[_FoodBuy] = []
    for way in sorted(ways, key=lambda way: (way.till, way.cost)):
        if not kept or way.cost < kept[-1].cost:
            kept.append(way)
    return kept


def _ways_to_buy(
    question: Question, food: str, needs: Needs, buyable: tuple[tuple[PackageOffer, int], ...]
) -> Iterator[_FoodBuy]:
    """Yield a way for every number of packages worth trying, with its best draws.

    A package that is not even begun is worth no more than it cost, so leaving it in the shop is no worse, and
    easier on the budget. So every package tried is begun: for n packages of size q at least (n-1)*q+1 is
    drawn, and all these amounts together are no more than the whole need.
    """
    whole_need = sum(amount for _, amount in needs)

    def counts(at: int, begun: int) -> Iterator[tuple[int, ...]]:
        if at == len(buyable):
            yield ()
            return
        offer = buyable[at][0]
        n = 0
        while True:
            least_drawn = (n - 1) * offer.quantity + 1 if n else 0
            if begun + least_drawn > whole_need or (offer.most is not None and n > offer.most):
                return
            for rest in counts(at + 1, begun + least_drawn):
                yield (n, *rest)
            n += 1

    on_hand, standing = _on_hand(question, food)
    keep_days = next(f.keep_days for f in question.foods if f.name == food)
    for numbers in counts(0, 0):
        sources = list(on_hand)
        till = 0
        cost = standing
        packages = []
        for (offer, day), n in zip(buyable, numbers, strict=True):
            if n == 0:
                continue
            paid = n * offer.cents
            last = None if keep_days is None else day + keep_days - 1
            outlives = last is None or last > question.days
            till += paid
            cost += 0 if outlives else paid
            each = Fraction(offer.cents, offer.quantity) if outlives else NOTHING
            sources.append(_Source(offer.name, day, day, last, n * offer.quantity, each))
            packages.append((offer, day, n))
        drawn = cheapest_draws(sources, needs)
        if drawn is not None:
            cost += sum((source.draw_cents * amount for source, amount in drawn), NOTHING)
            yield _FoodBuy(till, cost, tuple(packages), drawn)


def _on_hand(question: Question, food: str) -> tuple[list[_Source], Fraction]:
    """Return the lots on hand of a food, and their part of the objective if nothing is drawn.

    Left alone, a lot that is durable or outlives the days counts against the cost in full, and a lot whose
    last day comes within the days (or has gone by) adds its cost in full. Each mg or piece drawn takes its
    share of that back.
    """
    sources = []
    standing = NOTHING
    for lot in question.lots:
        if lot.food != food:
            continue
        carried = lot.last_day is None or lot.last_day > question.days
        standing += -lot.cents if carried else lot.cents
        each = Fraction(lot.cents, lot.quantity) * (1 if carried else -1)
        sources.append(_Source(lot.name, None, 1, lot.last_day, lot.quantity, each))
    return sources, standing


def cheapest_draws(sources: list[_Source], needs: Needs) -> tuple[tuple[_Source, int], ...] | None:
    """Return how much to draw from each source so that every day's need is met at the least cost, or None.

    Amounts can be routed to the days without exceeding any need if and only if, for every set of days, the
    sources that are open on no other days give no more than these days need (Hall's condition). The sets of
    single mg or pieces that can be routed are the independent sets of a transversal matroid, and in a
    matroid taking the cheapest next as long as it still fits gives the cheapest of the largest sets; the
    largest meet the whole need, or nothing does.
    """
    days = [day for day, _ in needs]
    groups = [frozenset(g) for k in range(1, len(days) + 1) for g in combinations(days, k)]
    room = {group: sum(amount for day, amount in needs if day in group) for group in groups}
    drawn = []
    for source in sorted(sources, key=lambda s: (s.draw_cents, s.name, s.first)):
        open_days = frozenset(day for day in days if source.open_on(day))
        if not open_days:
            continue
        wider = [group for group in groups if open_days <= group]
        amount = min(source.quantity, *(room[group] for group in wider))
        for group in wider:
            room[group] -= amount
        if amount:
            drawn.append((source, amount))
    if sum(amount for _, amount in drawn) < sum(amount for _, amount in needs):
        return None
    return tuple(drawn)


def _route(question: Question, batches: tuple[Batch, ...], food: str, way: _FoodBuy) -> Iterator[Drawing]:
    """Hand the drawn amounts to the batches, day by day, from the lot that closes first."""
    left = dict(way.drawn)
    for batch in sorted(batches):
        need = _batch_needs(question, batch).get(food, 0)
        forever = question.days + 1
        for source in sorted(left, key=lambda s: (s.last or forever, s.name, s.first)):
            amount = min(need, left[source]) if source.open_on(batch.day) else 0
            if amount:
                left[source] -= amount
                need -= amount
                yield Drawing(batch.day, batch.dish, source.name, source.bought_day, amount)
        assert need == 0, "the drawn amounts could not be routed to their days"
    assert not any(left.values()), "more was drawn than the batches need"


# -- the cost of any plan -----------------------------------------------------------------------------


def cost_of(question: Question, plan: Plan) -> dict[str, Fraction]:
    """Return the parts of a plan's cost by name, worked out from the plan alone (it is taken to be in order)."""
    additions = question.additions
    offers = {offer.name: offer for offer in question.offers}
    keep = {food.name: food.keep_days for food in question.foods}
    fares = {shop.name: shop.trip_cents for shop in question.shops}
    tills = sum((Fraction(p.packages * offers[p.offer].cents) for p in plan.purchases), NOTHING)
    visits = {(offers[p.offer].shop, p.day) for p in plan.purchases}
    trips = sum((Fraction(fares[shop]) for shop, _ in visits), NOTHING)
    spoilt = carried = NOTHING
    for lot in question.lots:
        used = sum(d.quantity for d in plan.drawings if d.source == lot.name and d.bought_day is None)
        worth = Fraction(lot.cents * (lot.quantity - used), lot.quantity)
        if lot.last_day is not None and lot.last_day <= question.days:
            spoilt += worth
        else:
            carried += worth
    for p in plan.purchases:
        offer = offers[p.offer]
        days_kept = keep[offer.food]
        if days_kept is not None and p.day + days_kept - 1 <= question.days:
            continue
        used = sum(d.quantity for d in plan.drawings if d.source == p.offer and d.bought_day == p.day)
        carried += p.packages * offer.cents - Fraction(used * offer.cents, offer.quantity)
    times: dict[tuple[str, str], int] = {}
    out = 0
    for helping in plan.helpings:
        if helping.dish is None:
            out += 1
        else:
            times[helping.eater, helping.dish] = times.get((helping.eater, helping.dish), 0) + 1
    minutes = liking = NOTHING
    for batch in plan.batches:
        version = _version(question, batch)
        minutes += version.fixed_min + version.per_portion_min * batch.portions
        liking += version.liking_cents * batch.portions
    kept_back = sum(b.portions for b in plan.batches) - sum(times.values())
    return {
        "tills": tills,
        "trips": trips,
        "spoilt": spoilt,
        "meals_out": Fraction(out * (question.rules.meal_out_cents or 0)),
        "carried": carried,
        "repeats": Fraction(additions.repeat_cents * sum(n - 1 for n in times.values())),
        "minutes": additions.minute_cents * minutes,
        "liking": liking,
        "reserve": Fraction(additions.reserve_cents * kept_back),
    }


def total_of(parts: dict[str, Fraction]) -> Fraction:
    """Add the parts up; what is carried and what is in reserve count against the cost."""
    return sum((-v if name in ("carried", "reserve") else v for name, v in parts.items()), NOTHING)
