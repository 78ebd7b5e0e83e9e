"""The least by which one rule must give way for a plan to exist."""

from __future__ import annotations

from dataclasses import dataclass

from ladleworth.decide.model import run
from ladleworth.decide.programme import build
from ladleworth.decide.question import Question
from ladleworth.decide.rows_food import till_terms
from ladleworth.decide.rows_kitchen import minute_terms, waiting


@dataclass(frozen=True, slots=True)
class Slack:
    """How much of a rule must give way: cents, whole minutes of each session added up, places, or meals."""

    amount: float
    proven: bool


def least_slack(freed: Question, question: Question, rule: str, seconds: float) -> Slack | None:
    """Find the least by which one rule must give way for a plan to exist.

    Parameters
    ----------
    freed
        The question without the rule.
    question
        The question with it.
    rule
        'budget', 'minutes', 'containers', 'freezer' or 'no_meal_out'.
    seconds
        The clock limit.

    Returns
    -------
    Slack or None
        None if no plan was found with the rule given up altogether.
    """
    model = build(freed)
    sheet = model.sheet
    sheet.cost = [0.0] * len(sheet.cost)
    sheet.constant = 0.0
    rules = question.rules
    if rule == "budget":
        over = sheet.column("over budget", cost=1.0)
        sheet.row([*till_terms(model), (over, -1.0)], high=rules.budget_cents or 0)
    elif rule == "minutes":
        for session in question.sessions:
            over = sheet.column(f"over time {session.day}", cost=1.0)
            sheet.row([*minute_terms(model, session.day), (over, -1.0)], high=session.minutes)
    elif rule == "no_meal_out":
        for column in model.out.values():
            sheet.cost[column] = 1.0
    else:
        over = sheet.column(f"over {rule}", cost=1.0)
        limit = rules.containers if rule == "containers" else rules.freezer_places
        for night in range(1, question.days + 1):
            here = [w for w in waiting(model, night) if rule == "containers" or w.frozen]
            fixed = sum(w.number for w in here if w.column is None)
            terms = [(w.column, w.number) for w in here if w.column is not None]
            sheet.row([*terms, (over, -1.0)], high=(limit or 0) - fixed)
    ended = run(sheet, max(0.1, seconds))
    if ended.values is None:
        return None
    return Slack(sum(c * v for c, v in zip(sheet.cost, ended.values, strict=True)), ended.proven)
