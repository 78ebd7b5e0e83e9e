"""A kitchen's file with an accepted plan that was planted, not decided: two versions of a chili, and a soup."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tests.unit.week.split_week import PAPERS, kitchen_of, posed, split_plan

from ladleworth.decide.answer import Answer, Costs, Status
from ladleworth.store import Store, read_folder, record_json

SUNDAY = date(2026, 12, 6)
BOXES = (
    "[{size: 1 l, count: 2}, {size: 500 ml, count: 6, depth: 6 cm}, {size: 400 ml, count: 3, depth: 5 cm}]"
)
KITCHEN = PAPERS["kitchen.yaml"].replace("[{size: 1 l, count: 4}, {size: 500 ml, count: 6}]", BOXES)


def planted(folder: Path, **changed: str) -> Path:
    """Write the kitchen of `split_week` (papers may be changed), load it, and accept its plan."""
    kitchen = kitchen_of(folder / "kitchen", **({"kitchen_yaml": KITCHEN} | changed))
    question = posed(kitchen)
    answer = Answer(Status.PROVEN, split_plan(question), Costs(), 0.0, 0.1, "none: it was planted")
    file = folder / "kitchen.db"
    with Store.open(file, create=True) as store:
        store.load(read_folder(folder / "kitchen"))
        store.save_plan(SUNDAY, SUNDAY, answer, question=record_json.to_json(question), accepted=True)
    return file
