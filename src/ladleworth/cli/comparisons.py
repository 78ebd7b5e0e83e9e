"""What `decide` compares with the plan beside deciding it: rules, dishes, budgets, shops, near-equal plans."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from ladleworth.cli.wishing import Compared
    from ladleworth.decide import Answer, PriceOfRule
    from ladleworth.decide.comparing import Asking, Between, NearPlan, Rung, ShopWorth
    from ladleworth.household import Kitchen
    from ladleworth.week import PlannedWeek

SHORTEST_LADDER, LONGEST_LADDER = 2, 6


@dataclass(frozen=True, slots=True)
class ToCompare:
    """What is to be compared, read: dishes by id, budgets in cents, a shop by name."""

    dishes: tuple[str, ...] = ()
    budgets_cents: tuple[int, ...] = ()
    shop: str = ""
    near: int = 0


@dataclass(frozen=True, slots=True)
class WhyNot:
    """A dish, the answer with it forced in, and what it would cost more (all None: it cannot be)."""

    dish: str
    answer: Answer
    dearer: Between


@dataclass(frozen=True, slots=True)
class Found:
    """What the comparisons came to; empty where nothing was asked."""

    prices: tuple[PriceOfRule, ...] = ()
    runner_up: Answer | None = None
    why_not: tuple[WhyNot, ...] = ()
    ladder: tuple[Rung, ...] = ()
    shop_worth: ShopWorth | None = None
    near: tuple[NearPlan, ...] | None = None


def read_compared(kitchen: Kitchen, compared: Compared) -> ToCompare:
    """Read what is to be compared; every fault is said before anything is decided."""
    from ladleworth.errors import BadField, FaultyKitchen, Finding, LadleworthError, Place
    from ladleworth.facts.names import fold_name
    from ladleworth.units import read_money
    from ladleworth.week import find_dish

    dishes, budgets, shop, faults = [], [], "", []

    def fault(option: str, error: LadleworthError) -> None:
        what, _, remedy = str(error).partition("; ")
        faults.append(Finding(Place("command line", None, option), what, remedy or "see docs/cli.md"))

    for name in compared.why_not:
        try:
            dishes.append(find_dish(kitchen, name).id)
        except BadField as bad:
            fault(f"--why-not {name!r}", bad)
    steps = [step for step in compared.ladder.split(",") if step.strip()]
    if compared.ladder and not SHORTEST_LADDER <= len(steps) <= LONGEST_LADDER:
        raise click.BadParameter(
            f"{compared.ladder!r} are no budgets; write 2 to 6 amounts, such as 20,25,30",
            param_hint="--ladder",
        )
    for step in steps:
        try:
            budgets.append(read_money(step.strip(), kitchen.household.currency))
        except LadleworthError as bad:
            fault(f"--ladder {step!r}", bad)
    if compared.shop_worth:
        shops = dict.fromkeys(
            [*(s.name for s in kitchen.household.shops), *(o.shop for o in kitchen.prices.offers)]
        )
        shop = next((name for name in shops if fold_name(name) == fold_name(compared.shop_worth)), "")
        if not shop:
            told = ", ".join(shops) or "none"
            fault("--shop-worth", BadField(f"no shop is called {compared.shop_worth!r}; name one of {told}"))
    if faults:
        raise FaultyKitchen(faults)
    return ToCompare(tuple(dishes), tuple(budgets), shop, compared.near)


def compare(week: PlannedWeek, wanted: ToCompare, asking: Asking, *, why: bool) -> Found:
    """Make the comparisons that were asked for, each with the time once more; none where the key was pressed.

    Without a plan only the budgets are compared: what needs a plan has nothing to go by.
    """
    if asking.stop is not None and asking.stop():
        return Found()
    from ladleworth.decide import prices_of_rules, runner_up
    from ladleworth.decide.comparing import difference, ladder, near_equal, second_shop
    from ladleworth.decide.forced import why_not

    question, answer = week.question, week.answer
    rungs = ladder(question, wanted.budgets_cents, asking) if wanted.budgets_cents else ()
    if answer.plan is None:
        return Found(ladder=rungs)
    forced = []
    for dish in wanted.dishes:
        if any(choice.name == dish for choice in question.dishes):
            found = why_not(question, answer, dish, asking)
            forced.append(WhyNot(dish, found, difference(found, answer)))
    there = any(shop.name == wanted.shop for shop in question.shops)
    return Found(
        prices_of_rules(question, answer, asking.seconds, asking.seed) if why else (),
        runner_up(question, week.plan, asking.seconds, asking.seed) if why else None,
        tuple(forced),
        rungs,
        second_shop(question, wanted.shop, answer, asking) if wanted.shop and there else None,
        near_equal(question, answer, wanted.near, asking) if wanted.near else None,
    )
