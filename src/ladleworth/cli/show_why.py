"""Why this plan, and why none, in words."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.cli import say
from ladleworth.decide import (
    Answer,
    Clash,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    PriceOfRule,
    Rule,
    Status,
    WayOut,
    Wish,
)
from ladleworth.units import show_minutes, show_volume
from ladleworth.week import PlannedWeek
from ladleworth.week.packing import THAWING
from ladleworth.week.telling import cannot_be_cooked


def question(week: PlannedWeek) -> None:
    """Show what was asked."""
    asked, kitchen = week.question, week.kitchen
    say.heading("What was asked")
    rows = [
        ("slots to fill", str(len(asked.slots))),
        ("eaters", ", ".join(asked.eaters)),
        (
            "sessions",
            ", ".join(
                f"{say.short_day(kitchen.household.date_of(s.day))} {show_minutes(s.minutes)}"
                for s in asked.sessions
            )
            or "none",
        ),
        ("dishes, ways to make them", f"{len(asked.dishes)}, {sum(len(d.versions) for d in asked.dishes)}"),
        ("lots on hand", str(len(asked.lots))),
        ("portions on hand", str(sum(lot.portions for lot in asked.portions))),
        ("packages on offer", str(len(asked.offers))),
        (
            "shops, a trip",
            ", ".join(f"{s.name} {say.cents_text(s.trip_cents, kitchen)}" for s in asked.shops),
        ),
    ]
    rules = asked.rules
    limits = [
        ("containers", rules.containers),
        ("freezer places", rules.freezer_places),
        ("budget", None if rules.budget_cents is None else say.cents_text(rules.budget_cents, kitchen)),
        (
            "a meal out",
            "not allowed" if rules.meal_out_cents is None else say.cents_text(rules.meal_out_cents, kitchen),
        ),
        ("the same dish in a row, days", rules.in_a_row),
        ("helpings of one dish, each", rules.most_times),
    ]
    rows += [(name, "no limit" if value is None else str(value)) for name, value in limits]
    if rules.freezing_load is not None:
        rows.append(("portions put into the freezer on a day", str(rules.freezing_load)))
    rows += [
        (name, show_volume(value))
        for name, value in (("fridge room", rules.fridge_ml), ("freezer room", rules.freezer_ml))
        if value is not None
    ]
    rows += [("what helpings bring", str(bound)) for bound in rules.nutrient_bounds if bound.share]
    rows += [("settled beforehand", wish_text(week, wish)) for wish in asked.wishes]
    rows += _additions(week)
    say.table(("", ""), rows)


def _additions(week: PlannedWeek) -> list[tuple[str, str]]:
    """List the priced additions that are on."""
    asked, kitchen = week.question.additions, week.kitchen
    rows = []
    if asked.repeat_cents:
        rows.append(("each further helping of a dish", say.cents_text(asked.repeat_cents, kitchen)))
    if asked.minute_cents:
        rows.append(("each hands-on hour", say.cents_text(asked.minute_cents * 60, kitchen)))
    if asked.reserve_portions:
        each = say.cents_text(asked.reserve_cents, kitchen)
        rows.append(("portions in reserve, at most", f"{asked.reserve_portions}, each worth {each}"))
    if asked.carried_share != 1:
        rows.append(("what is carried over counts at", f"{float(asked.carried_share * 100):g} % of its cost"))
    return rows


def no_plan(week: PlannedWeek) -> None:
    """Say why there is no plan, and the ways out."""
    if week.clash is None:
        say.sentence(
            f"Out of time: no plan was found in {week.answer.seconds:.1f} s, and none was ruled out. "
            "Give more --seconds, or leave dishes out with --without."
        )
        return
    say.sentence("No plan keeps all the rules.")
    for line in _wishes_in_the_way(week):
        say.sentence(line, indent=2)
    for line in cannot_be_cooked(week.kitchen):
        say.sentence(line, indent=2)
    for line in clash_lines(week, week.clash):
        say.sentence(line, indent=2)


def _wishes_in_the_way(week: PlannedWeek) -> list[str]:
    """Say which wishes leave no plan, and that without one of them there would be one."""
    if week.clashing is None:
        return []
    if not week.clashing:
        told = "; ".join(wish_text(week, wish) for wish in week.question.wishes)
        return [f"What was wished for cannot be had together: {told}. Without all of it there is a plan."]
    return [f"Without this wish there is a plan: {wish_text(week, wish)}." for wish in week.clashing]


def wish_text(week: PlannedWeek, wish: Wish) -> str:
    """Put a wish into words."""
    kitchen, household = week.kitchen, week.kitchen.household
    match wish:
        case MustCook(dish, day, version, portions):
            at_least = f"at least {say.plural(portions, 'portion')} of "
            return f"cook {at_least if portions > 1 else ''}{_made(week, dish, day, version)}"
        case MustNotCook(dish, day, version):
            return f"do not cook {_made(week, dish, day, version)}"
        case MustUse(lot, quantity):
            unit = kitchen.ledger.holding(lot.removesuffix(THAWING)).lot.unit
            return f"use {say.amount_text(quantity, unit)} of {lot}"
        case MustServe(day, eater, meal, served):
            when = say.short_day(household.date_of(day))
            return f"{eater} {meal}, {when}: {say.dish_name(kitchen, served) if served else 'out'}"
        case MustBuy(day, offer, packages):
            return f"buy {packages} × {offer}, {say.short_day(household.date_of(day))}"


def _made(week: PlannedWeek, dish: str, day: int | None, version: str | None) -> str:
    made = f" ({version})" if version else ""
    when = f", {say.short_day(week.kitchen.household.date_of(day))}" if day else ""
    return f"{say.dish_name(week.kitchen, dish)}{made}{when}"


def clash_lines(week: PlannedWeek, clash: Clash) -> list[str]:
    """Put a clash and its ways out into words, a sentence a line."""
    if not clash.rules and clash.wishes:
        told = "; ".join(wish_text(week, wish) for wish in clash.wishes)
        return [f"What was wished for and no rule of the house can bend: {told}."]
    if not clash.rules:
        return [
            (
                "No rule that can be bent stands in the way: the clash lies in dishes, exclusions, keeping times, "
                "sessions or shops. Is there a dish that each eater may have at each meal, and can all of it be bought?"
            )
        ]
    names = [
        *(rule_text(week, rule) for rule in clash.rules),
        *(wish_text(week, wish) for wish in clash.wishes),
    ]
    together = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    sure = "" if clash.proven else " (the time did not allow to show that each of them is needed)"
    lines = [
        f"What cannot be kept: {together}{sure}."
        if len(names) == 1
        else f"What cannot be kept together: {together}{sure}."
    ]
    if not clash.ways_out and not clash.droppable:
        lines.append("No single change of one of them was found that leaves a plan.")
    lines += [f"A way out: {way_out_text(week, way)}." for way in clash.ways_out]
    lines += [f"Another: to have no limit on {rule_text(week, rule)}." for rule in clash.droppable]
    return lines


def rule_text(week: PlannedWeek, rule: Rule) -> str:
    """Name a rule; what helpings bring as it is asked for: 'fresh in at least 50 % of Wanda's helpings'."""
    bounds = week.question.rules.nutrient_bounds if rule is Rule.BRINGS else ()
    return " and ".join(str(bound) for bound in bounds if bound.share) or rule.value


def way_out_text(week: PlannedWeek, way: WayOut) -> str:
    """Put a way out into words: '2.40 more at the tills'."""
    number = int(way.amount)
    text = {
        Rule.BUDGET: f"{say.cents_text(way.amount, week.kitchen)} more at the tills",
        Rule.MINUTES: f"{say.plural(number, 'more hands-on minute')} in the sessions together",
        Rule.CONTAINERS: say.plural(number, "more container"),
        Rule.FREEZER: say.plural(number, "more freezer place"),
        Rule.IN_A_ROW: f"the same dish on {say.plural(number, 'more day')} in a row",
        Rule.MOST_TIMES: f"{say.plural(number, 'more helping')} of one dish for each eater",
        Rule.NO_MEAL_OUT: f"{say.plural(number, 'meal')} eaten out",
    }[way.rule]
    return f"{text} ({'no less will do' if way.proven else 'the smallest found'})"


def prices(week: PlannedWeek, found: tuple[PriceOfRule, ...]) -> None:
    """Show what each rule costs."""
    say.heading(f"What each rule costs ({week.kitchen.household.currency.code}), were it dropped")
    rows = [
        (
            rule_text(week, price.rule),
            say.cents_text(Fraction(price.least), week.kitchen),
            "not known" if price.most is None else say.cents_text(Fraction(price.most), week.kitchen),
        )
        for price in found
    ]
    say.table(("rule", "at least", "at most"), rows, right=(1, 2))


def runner_up(week: PlannedWeek, second: Answer | None) -> None:
    """Say what the cheapest other plan was."""
    say.heading("The runner-up: the cheapest plan without one of these dishes")
    if second is None or second.plan is None or second.costs is None or week.answer.costs is None:
        say.sentence("None was found.")
        return
    mine, others = ({b.dish for b in plan.batches} for plan in (week.plan, second.plan))
    gained = ", ".join(say.dish_name(week.kitchen, dish) for dish in sorted(others - mine)) or "nothing else"
    lost = ", ".join(say.dish_name(week.kitchen, dish) for dish in sorted(mine - others)) or "nothing"
    dearer = second.costs.total - week.answer.costs.total
    sure = "" if second.status is Status.PROVEN else " (the best found)"
    higher = say.cents_text(dearer, week.kitchen)
    say.sentence(f"It cooks {gained}, in place of {lost}; its value is {higher} higher{sure}.")
