"""Why this plan, and why none, in words."""

from __future__ import annotations

from fractions import Fraction

from ladleworth.cli import say
from ladleworth.decide import Answer, Clash, PriceOfRule, Rule, Status, WayOut
from ladleworth.units import show_minutes
from ladleworth.week import PlannedWeek
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
    for line in cannot_be_cooked(week.kitchen):
        say.sentence(line, indent=2)
    for line in clash_lines(week, week.clash):
        say.sentence(line, indent=2)


def clash_lines(week: PlannedWeek, clash: Clash) -> list[str]:
    """Put a clash and its ways out into words, a sentence a line."""
    if not clash.rules:
        return [
            (
                "No rule that can be bent stands in the way: the clash lies in dishes, exclusions, keeping times, "
                "sessions or shops. Is there a dish that each eater may have at each meal, and can all of it be bought?"
            )
        ]
    names = [rule.value for rule in clash.rules]
    together = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    sure = "" if clash.proven else " (the time did not allow to show that each of them is needed)"
    lines = [
        f"What cannot be kept: {together}{sure}."
        if len(names) == 1
        else f"What cannot be kept together: {together}{sure}."
    ]
    if not clash.ways_out:
        lines.append("No single change of one of them was found that leaves a plan.")
    lines += [f"A way out: {way_out_text(week, way)}." for way in clash.ways_out]
    return lines


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
            price.rule.value,
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
