"""The question that a plan was kept with, read back. Pure."""

from __future__ import annotations

import json

from ladleworth.decide import Question
from ladleworth.store import record_json


def read_question(text: str) -> Question:
    """Read the question of a kept plan.

    Plans were once kept with the appetites and bounds of eaters who have no slot; these say nothing and are left out.

    Raises
    ------
    BadField
        If it is no question.
    """
    return record_json.from_json(_of_who_eats(text), Question)


def _of_who_eats(text: str) -> str:
    try:
        data = json.loads(text)
        there = {slot["eater"] for slot in data["slots"]}
        data["appetites"] = {name: size for name, size in data.get("appetites", {}).items() if name in there}
        bounds = data["rules"].get("nutrient_bounds", [])
        data["rules"]["nutrient_bounds"] = [bound for bound in bounds if bound["eater"] in there]
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return text  # it is no question, which reading it will say
    return json.dumps(data)
