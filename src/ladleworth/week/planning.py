"""Decide a week and keep the plan; find the accepted one again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path

from ladleworth.decide import Answer, Clash, Plan, Question, Status, Wish, clash, judged, pose
from ladleworth.decide.answer import Progress
from ladleworth.decide.comparing import Asking, wishes_in_the_way
from ladleworth.decide.pose_stock import pose_portions
from ladleworth.errors import BadField, Finding, LedgerError, NotYet
from ladleworth.household import Kitchen
from ladleworth.ledger import Kind
from ladleworth.store import Store, is_kitchen_file, record_json
from ladleworth.store.plan_json import SavedPlan
from ladleworth.week.acting import read_kitchen
from ladleworth.week.again import Rest, asked_on, household_left, rest_of, start_of, wishes_left
from ladleworth.week.carry_out import carry_out
from ladleworth.week.changes import Changes, changes
from ladleworth.week.finding import find_dish
from ladleworth.week.kept_question import read_question
from ladleworth.week.pinned import pinned_for
from ladleworth.week.reckoned import WeekMoney, reckon_week
from ladleworth.week.wanted import Wanted, asked_with


@dataclass(frozen=True, slots=True)
class PlannedWeek:
    """A question, its answer, and the kitchen that asked.

    `number` is the plan's number in the kitchen's file, None for one that is not kept; `clash` explains an
    answer without a plan, and `clashing` names wishes of which one dropped would leave a plan (None: the wishes are not
    in the way); `findings` are the doubts about the kitchen's papers; `changes` is what a plan that goes on from an
    accepted one changes.
    """

    kitchen: Kitchen
    question: Question
    answer: Answer
    number: int | None = None
    clash: Clash | None = None
    findings: tuple[Finding, ...] = ()
    changes: Changes | None = None
    clashing: tuple[Wish, ...] | None = None

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


@dataclass(frozen=True, slots=True)
class Asked:
    """A question that is ready to be decided: the kitchen with its days and prices, and what is planned on.

    `rest` is what is left of the accepted plan, and `start` the same as a plan of the question, where it stands there.
    """

    kitchen: Kitchen
    question: Question
    findings: tuple[Finding, ...] = ()
    rest: Rest | None = None
    start: Plan | None = None


def ask_week(
    place: str | Path,
    *,
    today: date,
    start: date | None = None,
    days: int | None = None,
    without_dishes: Sequence[str] = (),
    wanted: Wanted | None = None,
    again: bool = False,
    keep_wishes: bool = True,
) -> Asked:
    """Pose the question of a kitchen's week, or of what is left of it.

    Parameters
    ----------
    place
        A kitchen folder or a kitchen's file.
    today
        The day on which it is decided; with `again` the first day of what is left.
    start, days
        Another first day and number of days than the household's.
    without_dishes
        Names or ids of dishes to leave out this time.
    wanted
        What is wished for.
    again
        Plan on from the accepted plan, with what is cooked, bought and eaten as it lies.
    keep_wishes
        With `again`, whether the accepted plan's wishes that are still open hold on.

    Raises
    ------
    FaultyKitchen
        If the kitchen cannot be read, or with all faults of what is wished for.
    StoreError
        If the kitchen cannot be read.
    BadField
        If a dish to leave out is none, or the first day lies before everything that was ever counted.
    LedgerError
        If things were cooked or eaten on the plan's days already.
    NotYet
        If there is no plan to go on from, or it is over.
    """
    if again and not is_kitchen_file(place):
        raise NotYet(f"{place} is a folder and keeps no plans; load it into a file and decide there")
    reading = read_kitchen(place)
    kitchen = reading.without_faults()
    rest = rest_of(_accepted(kitchen, reading.plans), today) if again else None
    if rest is not None:
        household = household_left(rest, days)
    else:
        household = kitchen.household
        household = replace(household, start=start or household.start, days=days or household.days)
        _check_start(kitchen, household.start)
        _check_lived(kitchen, household.start)
    everything = replace(kitchen, household=household)
    left_out = {find_dish(kitchen, name).id for name in without_dishes}
    kitchen = replace(everything, dishes=tuple(d for d in kitchen.dishes if d.id not in left_out))
    question = pose(kitchen)
    if left_out:
        question = replace(question, portions=tuple(pose_portions(everything)))
    kept: tuple[Wish, ...] = ()
    if rest is not None:
        question = asked_on(rest, question)
        kept = wishes_left(rest, question, keep=keep_wishes)
    kitchen, question = asked_with(kitchen, question, wanted or Wanted(), kept)
    return Asked(
        kitchen, question, reading.findings, rest, None if rest is None else start_of(rest, question)
    )


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
    wanted: Wanted | None = None,
    again: bool = False,
    keep_wishes: bool = True,
    work: int | None = None,
    report: Callable[[Progress], None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> PlannedWeek:
    """Decide the week of a kitchen.

    Parameters
    ----------
    place, today, start, days, without_dishes, wanted, again, keep_wishes
        As for `ask_week`, which also says what may be raised.
    seconds, seed, work, report, stop
        The limits of the search, and who is told and asked meanwhile, as for `decide`; an explanation of a question
        without a plan takes as long again.
    accept
        Keep the plan in the file, as the one the cook goes by; an answer without a plan is not kept.

    Raises
    ------
    NotYet
        If a plan is to be accepted and `place` is a folder.
    """
    check_acceptable(place, accept=accept)
    asked = ask_week(
        place,
        today=today,
        start=start,
        days=days,
        without_dishes=without_dishes,
        wanted=wanted,
        again=again,
        keep_wishes=keep_wishes,
    )
    asking = Asking(seconds, seed, work, report, stop)
    return decide_asked(place, asked, asking, today=today, accept=accept)


def check_acceptable(place: str | Path, *, accept: bool) -> None:
    """Refuse to keep a plan in a folder."""
    if accept and not is_kitchen_file(place):
        raise NotYet(f"{place} is a folder; load it into a file first, so that the plan can be kept")


def decide_asked(
    place: str | Path, asked: Asked, asking: Asking, *, today: date, accept: bool = False
) -> PlannedWeek:
    """Decide a week that was asked for; see `decide_week`.

    Raises
    ------
    NotYet
        If a plan is to be accepted and `place` is a folder.
    """
    check_acceptable(place, accept=accept)
    question = asked.question
    answer = asking.decide(question, asked.start)
    week = PlannedWeek(asked.kitchen, question, answer, findings=asked.findings)
    if answer.status is Status.INFEASIBLE:
        in_the_way = wishes_in_the_way(question, replace(asking, report=None))
        why = clash(question, asking.seconds, asking.seed)
        week = replace(week, clash=why, clashing=in_the_way)
    if answer.plan is not None and asked.rest is not None:
        week = replace(week, changes=changes(asked.rest.plan, answer.plan))
    if accept and answer.plan is not None:
        judged(question, answer.plan)
        with Store.open(place) as store, store.transaction():
            saved = store.save_plan(
                today,
                asked.kitchen.household.start,
                answer,
                question=record_json.to_json(question),
                accepted=True,
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
    return _accepted(kitchen, plans)


def _accepted(kitchen: Kitchen, plans: Sequence[SavedPlan]) -> PlannedWeek:
    accepted = [saved for saved in plans if saved.accepted]
    if not accepted:
        raise NotYet("no plan has been accepted yet; decide with --accept first")
    saved: SavedPlan = accepted[-1]
    _check_dishes(kitchen, saved)
    question = read_question(saved.question)
    household = replace(kitchen.household, start=saved.start, days=question.days)
    starts = dict.fromkeys(plan.start for plan in reversed(accepted) if plan.start <= saved.start)
    household = pinned_for(household, question, tuple(starts))
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
