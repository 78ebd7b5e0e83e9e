"""What was compared with a plan, for the eye: the plan in force, dishes, budgets, shops, near-equal plans."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor
from typing import TYPE_CHECKING

from ladleworth.cli import say
from ladleworth.decide import Answer, Batch, Purchase, Status
from ladleworth.units import show_number
from ladleworth.week import PlannedWeek

if TYPE_CHECKING:
    from ladleworth.cli.comparisons import Found, WhyNot
    from ladleworth.decide.comparing import Between, NearPlan, Rung, ShopWorth
    from ladleworth.week.changes import Changes

MOST_MEALS = 12
"""With more changed meals than this only their number is said."""


def whole(week: PlannedWeek, found: Found) -> None:
    """Show every comparison that was made."""
    for one in found.why_not:
        dish_forced(week, one)
    if found.ladder:
        budgets(week, found.ladder)
    if found.shop_worth is not None:
        shop(week, found.shop_worth)
    if found.near is not None:
        near(week, found.near)


def changes(week: PlannedWeek, found: Changes) -> None:
    """Say what a plan changes against the rest of the accepted one."""
    say.heading("Against the plan in force")
    budget = week.question.rules.budget_cents
    if budget is not None:
        say.sentence(f"Of the budget, {say.cents_text(budget, week.kitchen)} is left.")
    if found.none:
        say.sentence("Nothing is changed.")
        return
    kitchen = week.kitchen
    lines = [f"cook now: {_batch(week, batch)}" for batch in found.batches_added]
    lines += [f"no longer cook: {_batch(week, batch)}" for batch in found.batches_dropped]
    lines += [
        f"cook {now.portions} portions in place of {old.portions}: {_batch(week, now, portions=False)}"
        for old, now in found.batches_changed
    ]
    lines += [f"buy now: {_purchase(week, one)}" for one in found.purchases_added]
    lines += [f"no longer buy: {_purchase(week, one)}" for one in found.purchases_dropped]
    lines += [
        f"buy {now.packages} in place of {old.packages}: {_purchase(week, now, packages=False)}"
        for old, now in found.purchases_changed
    ]
    meals = [
        f"{say.short_day(kitchen.household.date_of(one.day))}, {one.eater} {one.meal}: "
        f"{say.dish_name(kitchen, one.now) or 'out'} in place of {say.dish_name(kitchen, one.before) or 'a meal out'}"
        for one in found.meals
    ]
    if len(meals) > MOST_MEALS:
        meals = [f"{len(meals)} meals have another dish than before"]
    for line in (*lines, *meals):
        say.sentence(line, indent=2)


def _batch(week: PlannedWeek, batch: Batch, *, portions: bool = True) -> str:
    ways = next((d.versions for d in week.question.dishes if d.name == batch.dish), ())
    version = f" ({batch.version})" if len(ways) > 1 else ""
    many = f", {say.plural(batch.portions, 'portion')}" if portions else ""
    when = say.short_day(week.kitchen.household.date_of(batch.day))
    return f"{say.dish_name(week.kitchen, batch.dish)}{version}{many}, {when}"


def _purchase(week: PlannedWeek, one: Purchase, *, packages: bool = True) -> str:
    offer = next((o for o in week.kitchen.prices.offers if o.id == one.offer), None)
    name = one.offer if offer is None else f"{say.food_name(week.kitchen, offer.food)} at {offer.shop}"
    size = "" if offer is None else f" ({say.amount_text(offer.quantity, offer.unit)})"
    many = f"{one.packages} × " if packages else ""
    return f"{many}{name}{size}, {say.short_day(week.kitchen.household.date_of(one.day))}"


def dish_forced(week: PlannedWeek, found: WhyNot) -> None:
    """Say what a dish would cost more."""
    name = say.dish_name(week.kitchen, found.dish)
    say.heading(f"Why not {name}?")
    if found.answer is week.answer:
        say.sentence("The plan cooks it.")
        return
    if found.answer.status is Status.INFEASIBLE:
        say.sentence("No plan that keeps all the rules cooks it: that is proven.")
        return
    if found.answer.plan is None:
        say.sentence("No plan that cooks it was found in the time given, and none was ruled out.")
        return
    say.sentence(f"With {name} the week costs {between_text(week, found.dearer)} more.")
    _instead(week, found.answer)


def _instead(week: PlannedWeek, answer: Answer) -> None:
    """Say which dishes another plan cooks in place of which."""
    assert answer.plan is not None
    mine, others = ({b.dish for b in plan.batches} for plan in (week.plan, answer.plan))
    gained = ", ".join(say.dish_name(week.kitchen, dish) for dish in sorted(others - mine)) or "nothing else"
    lost = ", ".join(say.dish_name(week.kitchen, dish) for dish in sorted(mine - others)) or "nothing"
    say.sentence(f"It cooks {gained}, in place of {lost}.")


def between_text(week: PlannedWeek, found: Between) -> str:
    """Write cents that are known exactly, or between which they lie, never more exactly than they are known."""
    kitchen = week.kitchen
    if found.proven and found.most is not None:
        return f"{say.cents_text(Fraction(found.most), kitchen)} (proven)"
    low = None if found.least is None else say.cents_text(Fraction(floor(found.least)), kitchen)
    high = None if found.most is None else say.cents_text(Fraction(ceil(found.most)), kitchen)
    if low is None and high is None:
        return "an amount that is not known"
    if low is None:
        return f"at most {high}"
    return f"at least {low}" if high is None else f"between {low} and {high}"


def status_text(answer: Answer) -> str:
    """Say in a few words how an answer stands."""
    words = {
        Status.PROVEN: "proven",
        Status.GOOD: "the best found",
        Status.INFEASIBLE: "impossible",
        Status.OUT_OF_TIME: "none found in time",
    }
    return words[answer.status]


def budgets(week: PlannedWeek, rungs: tuple[Rung, ...]) -> None:
    """Show the same week at several budgets."""
    kitchen = week.kitchen
    say.heading(f"The same week at other budgets ({kitchen.household.currency.code})")
    rows = []
    for rung in rungs:
        answer = rung.answer
        plan, costs = answer.plan, answer.costs
        bound = None if answer.bound is None else say.cents_text(Fraction(floor(answer.bound)), kitchen)
        rows.append(
            (
                say.cents_text(rung.budget_cents, kitchen),
                "–" if costs is None else say.cents_text(costs.total, kitchen),
                "–" if bound is None or costs is None else bound,
                "–" if costs is None else say.cents_text(costs.tills, kitchen),
                "–" if plan is None else str(len({b.dish for b in plan.batches})),
                status_text(answer),
            )
        )
    say.table(("budget", "value", "bound", "at the tills", "dishes", ""), rows, right=(0, 1, 2, 3, 4))


def shop(week: PlannedWeek, found: ShopWorth) -> None:
    """Say whether a shop is worth its trips."""
    say.heading(f"Is {found.shop} worth the trip?")
    if found.without_shop.status is Status.INFEASIBLE:
        say.sentence("Without it no plan keeps all the rules: that is proven.")
        return
    if found.without_shop.costs is None or found.with_shop.costs is None:
        say.sentence("No plan without it was found in the time given, and none was ruled out.")
        return
    there = {offer.name for offer in week.question.offers if offer.shop == found.shop}
    plan = found.with_shop.plan
    if plan is not None and not any(purchase.offer in there for purchase in plan.purchases):
        say.sentence(f"The plan does not go there; going there saves {between_text(week, found.saved)}.")
        return
    mine, other = found.with_shop.costs, found.without_shop.costs
    tills = other.tills - other.carried - (mine.tills - mine.carried)
    trips = mine.trips - other.trips
    say.sentence(
        f"Going there saves {between_text(week, found.saved)}, its trips counted. Of the two plans, the one that may go "
        f"there pays {_more_or_less(week, -tills)} at the tills for what is used, and {_more_or_less(week, trips)} for trips."
    )


def _more_or_less(week: PlannedWeek, cents: Fraction) -> str:
    if not cents:
        return "the same"
    return f"{say.cents_text(abs(cents), week.kitchen)} {'more' if cents > 0 else 'less'}"


def near(week: PlannedWeek, found: tuple[NearPlan, ...]) -> None:
    """Show plans that cost little more and differ in dishes."""
    say.heading("Other plans, each without a dish of those before it")
    if not found:
        say.sentence("None was found in the time given.")
        return
    assert week.answer.costs is not None
    rows = []
    for number, one in enumerate(found, start=2):
        assert one.answer.plan is not None
        assert one.answer.costs is not None
        dishes = sorted({say.dish_name(week.kitchen, batch.dish) for batch in one.answer.plan.batches})
        dearer = one.answer.costs.total - week.answer.costs.total
        rows.append(
            (
                show_number(number),
                ", ".join(dishes) or "nothing is cooked",
                say.cents_text(one.answer.costs.total, week.kitchen),
                ("+" if dearer >= 0 else "") + say.cents_text(dearer, week.kitchen),
                "proven next" if one.next_best else "the best found",
            )
        )
    say.table(("", "dishes", "value", "against this plan", ""), rows, right=(0, 2, 3))
    if week.answer.status is not Status.PROVEN:
        say.sentence(
            "This plan itself is not proven best: what another costs more is against the best found."
        )
