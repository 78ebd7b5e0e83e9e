"""Why not this dish: the week with the dish forced in, against the week as it was decided."""

from __future__ import annotations

from dataclasses import replace

from ladleworth.decide.answer import Answer, Status
from ladleworth.decide.comparing import Asking, raised_to
from ladleworth.decide.question import Question
from ladleworth.decide.rules import MustCook


def why_not(question: Question, answer: Answer, dish: str, asking: Asking) -> Answer:
    """Decide the week with a dish forced in.

    Parameters
    ----------
    question, answer
        A question and its answer.
    dish
        The dish's name in the question.
    asking
        The limits of the decision.

    Returns
    -------
    Answer
        The answer itself where its plan cooks the dish already. INFEASIBLE: no plan that keeps the rules cooks it. A
        plan that cooks it is one of the question, so that the question's bound holds for it as well.
    """
    if answer.plan is not None and any(batch.dish == dish for batch in answer.plan.batches):
        return answer
    forced = replace(question, wishes=(*question.wishes, MustCook(dish)))
    found = asking.decide(forced)
    known = answer.bound
    if answer.status is Status.PROVEN and answer.costs is not None:
        known = float(answer.costs.total)
    return raised_to(found, known)
