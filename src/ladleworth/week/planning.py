"""Decide a week and keep the plan; find the accepted one again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path

from ladleworth.decide import Answer, Clash, Plan, Question, Status, clash, decide, judged, pose
from ladleworth.errors import BadField, Finding, LedgerError, NotYet
from ladleworth.household import Kitchen
from ladleworth.ledger import Kind
from ladleworth.store import Store, is_kitchen_file, record_json
from ladleworth.store.plan_json import SavedPlan
from ladleworth.week.acting import read_kitchen
from ladleworth.week.carry_out import carry_out
from ladleworth.week.finding import find_dish
from ladleworth.week.reckoned import WeekMoney, reckon_week


@dataclass(frozen=True, slots=True)
class PlannedWeek:
    """A question, its answer, and the kitchen that asked.

    `number` is the plan's number in the kitchen's file, None for one that is not kept; `clash` explains an
    answer without a plan; `findings` are the doubts about the kitchen's papers.
    """

    kitchen: Kitchen
    question: Question
    answer: Answer
    number: int | None = None
    clash: Clash | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def plan(self) -> Plan:
        """The plan.

        Raises
        ------
        NotYet
            If the answer has none.
        """
        if self.answer.plan is None:
            raise NotYet(f"there is no plan: {self.answer.status.value}")
        return self.answer.plan


def decide_week(
    place: str | Path,
    *,
    today: date,
    seconds: float = 20.0,
    seed: int = 0,
    start: date | None = None,
    days: int | None = None,
    accept: bool = False,
    without_dishes: Sequence[str] = (),
) -> PlannedWeek:
    """Decide the week of a kitchen.

    Parameters
    ----------
    place
        A kitchen folder or a kitchen's file.
    today
        The day on which it is decided.
    seconds, seed
        The clock limit and the seed of the search; an explanation of a question without a plan takes as long
        again.
    start, days
        Another first day and number of days than the household's.
    accept
        Keep the plan in the file, as the one the cook goes by; an answer without a plan is not kept.
    without_dishes
        Names or ids of dishes to leave out this time.

    Raises
    ------
    FaultyKitchen, StoreError
        If the kitchen cannot be read.
    BadField
        If a dish to leave out is none, or the first day lies before everything that was ever counted.
    LedgerError
        If things were cooked or eaten on the plan's days already.
    NotYet
        If a plan is to be accepted and `place` is a folder.
    """
    if accept and not is_kitchen_file(place):
        raise NotYet(f"{place} is a folder; load it into a file first, so that the plan can be kept")
    reading = read_kitchen(place)
    kitchen = reading.without_faults()
    household = kitchen.household
    household = replace(household, start=start or household.start, days=days or household.days)
    _check_start(kitchen, household.start)
    _check_lived(kitchen, household.start)
    left_out = {find_dish(kitchen, name).id for name in without_dishes}
    dishes = tuple(d for d in kitchen.dishes if d.id not in left_out)
    kitchen = replace(kitchen, household=household, dishes=dishes)
    question = pose(kitchen)
    answer = decide(question, seconds, seed)
    week = PlannedWeek(kitchen, question, answer, findings=reading.findings)
    if answer.status is Status.INFEASIBLE:
        week = replace(week, clash=clash(question, seconds, seed))
    if accept and answer.plan is not None:
        judged(question, answer.plan)
        with Store.open(place) as store, store.transaction():
            saved = store.save_plan(
                today, household.start, answer, question=record_json.to_json(question), accepted=True
            )
        week = replace(week, number=saved.id)
    return week


def _check_start(kitchen: Kitchen, start: date) -> None:
    """Refuse a first day on which nothing of the stock was there yet: it would be planned without."""
    first = min((entry.day for entry in kitchen.ledger.movements), default=None)
    if first is not None and start < first:
        raise BadField(
            f"the first day {start} is before {first}, when the stock was counted; start then or later"
        )


def _check_lived(kitchen: Kitchen, start: date) -> None:
    """Refuse to plan days on which things were cooked or eaten already."""
    ledger = kitchen.ledger
    lived = [
        entry.day
        for entry in ledger.movements
        if entry.kind in (Kind.DRAWN, Kind.EATEN)
        and entry.day >= start
        and entry.reverses is None
        and ledger.reversal_of(entry.id) is None
    ]
    if lived:
        raise LedgerError(
            f"the plan would begin on {start}, and meals or cooking up to {max(lived)} are entered already; "
            f"plan the days that are left, with --start {max(lived) + timedelta(days=1)} or a later date"
        )


def accepted_week(place: str | Path) -> PlannedWeek:
    """Find the plan that was accepted last, with its question, over the kitchen as it stands now.

    Raises
    ------
    NotYet
        If none has been accepted, or a dish that it cooks is no longer in the papers as it was.
    """
    if not is_kitchen_file(place):
        raise NotYet(f"{place} is a folder and keeps no plans; load it into a file and decide there")
    with Store.open(place) as store:
        kitchen, plans = store.load_kitchen(), store.plans()
    accepted = [saved for saved in plans if saved.accepted]
    if not accepted:
        raise NotYet("no plan has been accepted yet; decide with --accept first")
    saved: SavedPlan = accepted[-1]
    _check_dishes(kitchen, saved)
    question = record_json.from_json(saved.question, Question)
    household = replace(kitchen.household, start=saved.start, days=question.days)
    return PlannedWeek(replace(kitchen, household=household), question, saved.answer, saved.id)


def _check_dishes(kitchen: Kitchen, saved: SavedPlan) -> None:
    """Refuse a plan that cooks what the papers, taken anew since, no longer have."""
    ways = {(dish.id, variant.name) for dish in kitchen.dishes for variant in dish.variants()}
    plan = saved.answer.plan
    gone = [batch.dish for batch in plan.batches if (batch.dish, batch.version) not in ways] if plan else []
    if gone:
        raise NotYet(
            f"the accepted plan cooks {', '.join(dict.fromkeys(gone))}, which the dishes no longer have as it was; "
            "decide anew with --accept, or bring the dish back with load --papers"
        )


def preview_money(week: PlannedWeek) -> WeekMoney:
    """Reckon a plan as if it had been carried out to the letter; nothing is written."""
    return reckon_week(carry_out(week.kitchen, week.plan), week.question, week.plan)


def week_money(place: str | Path) -> tuple[PlannedWeek, WeekMoney]:
    """Reckon the accepted plan from the ledger, as far as it has been carried out."""
    week = accepted_week(place)
    return week, reckon_week(week.kitchen, week.question, week.plan)
