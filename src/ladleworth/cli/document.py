"""What `decide --json` prints."""

from __future__ import annotations

from dataclasses import asdict
from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ladleworth.cli.comparisons import Found
    from ladleworth.week import PlannedWeek


def document(week: PlannedWeek, found: Found, *, stopped: bool = False) -> dict[str, object]:
    """Gather what --json prints."""
    from ladleworth.decide import tight
    from ladleworth.week import (
        cooking_of,
        costs_table,
        gross_cents,
        nights_of,
        nutrients_of,
        opened_too_long,
        preview_money,
        shopping_of,
        use_up_of,
        week_cost_cents,
    )

    answer, household = week.answer, week.kitchen.household
    gathered: dict[str, object] = {
        "kitchen": household.name,
        "currency": household.currency.code,
        "start": household.start,
        "days": household.days,
        "plan_number": week.number,
        "status": answer.status,
        "stopped": stopped,
        "bound_cents": answer.bound,
        "gap_cents": answer.gap_cents,
        "seconds": answer.seconds,
        "seed": answer.seed,
        "solver": answer.solver,
        "plan": answer.plan,
        "wishes": [wish_record(wish) for wish in week.question.wishes],
        "clash": week.clash,
        "wishes_in_the_way": None if week.clashing is None else [wish_record(w) for w in week.clashing],
        "findings": week.findings,
        "ladder": found.ladder,
    }
    if answer.plan is None or answer.costs is None:
        return gathered
    return gathered | {
        "total_cents": answer.costs.total,
        "gross_cents": gross_cents(answer.costs),
        "week_cost_cents": week_cost_cents(week.question, answer.costs),
        "gap_share": gap_share(week),
        "costs_cents": asdict(answer.costs),
        "costs_table": costs_table(answer.costs),
        "changes": week.changes,
        "cooking": cooking_of(week),
        "nights": nights_of(week.question, answer.plan),
        "nutrients": nutrients_of(week),
        "shopping": shopping_of(week),
        "use_up": use_up_of(week),
        "limits_reached": tight(week.question, answer.plan),
        "opened_too_long": opened_too_long(week.kitchen, answer.plan),
        "money": preview_money(week),
        "prices_of_rules": found.prices,
        "runner_up": found.runner_up,
        "why_not": found.why_not,
        "shop_worth": found.shop_worth,
        "near_equal": found.near,
    }


def wish_record(wish: object) -> dict[str, object]:
    """A wish with its kind, which its fields alone do not tell."""
    return {"wish": type(wish).__name__, **asdict(wish)}  # type: ignore[call-overload]


def gap_share(week: PlannedWeek) -> Fraction | None:
    """The gap as a share of what the week costs with what it uses of stock counted; None where nothing is known."""
    from ladleworth.week import week_cost_cents

    answer = week.answer
    if answer.costs is None or answer.gap_cents is None:
        return None
    cost = week_cost_cents(week.question, answer.costs)
    return Fraction(answer.gap_cents) / cost if cost > 0 else None
