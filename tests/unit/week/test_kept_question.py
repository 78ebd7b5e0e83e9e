"""Questions without those who do not eat: kept ones read back, and what is left of a day on which some have eaten."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.week.split_week import PAPERS, kitchen_of, split_plan

from ladleworth.decide import Answer, NutrientBound, Status, judged, pose
from ladleworth.errors import BadField
from ladleworth.store import Store, record_json
from ladleworth.week import accepted_week, load_folder
from ladleworth.week.again import asked_on, household_left, rest_of
from ladleworth.week.kept_question import read_question

SUN = date(2026, 12, 6)
BOUNDED = PAPERS["kitchen.yaml"].replace(
    "    appetite: 2/3", "    appetite: 2/3\n    bounds: {fresh: {most: 50%}}"
)


def test_a_kept_question_is_read_back_as_it_was(tmp_path: Path) -> None:
    question = pose(kitchen_of(tmp_path / "k", kitchen_yaml=BOUNDED))
    assert question.rules.nutrient_bounds == (
        NutrientBound("Kid", "fresh", None, Fraction(1, 2), share=True),
    )
    assert read_question(record_json.to_json(question)) == question


def test_a_question_kept_with_eaters_who_have_no_slot_is_read_without_them(tmp_path: Path) -> None:
    question = pose(kitchen_of(tmp_path / "k", kitchen_yaml=BOUNDED))
    kept = json.loads(record_json.to_json(question))
    kept["appetites"]["Guest"] = "2/1"
    guest = {"eater": "Guest", "nutrient": "protein_g", "least": "10/1", "most": None}
    kept["rules"]["nutrient_bounds"].insert(0, guest)
    with pytest.raises(BadField, match="'Guest', who has no slot"):
        record_json.from_json(json.dumps(kept), type(question))
    assert read_question(json.dumps(kept)) == question
    # kept before there were any appetites or bounds
    del kept["appetites"]
    del kept["rules"]["nutrient_bounds"]
    older = read_question(json.dumps(kept))
    assert (dict(older.appetites), older.rules.nutrient_bounds) == ({}, ())


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"slots": 3}', '{"slots": [], "rules": 4}'])
def test_what_is_no_question_is_refused(text: str) -> None:
    with pytest.raises(BadField):
        read_question(text)


def test_whoever_has_eaten_on_the_last_day_asks_for_nothing_more(tmp_path: Path) -> None:
    kitchen = kitchen_of(tmp_path / "k", kitchen_yaml=BOUNDED)
    load_folder(tmp_path / "k", tmp_path / "k.db")
    question = pose(kitchen)
    plan = split_plan(question)
    answer = Answer(Status.GOOD, plan, judged(question, plan), None, 0.0, "planted")
    with Store.open(tmp_path / "k.db") as store, store.transaction():
        store.save_plan(SUN, SUN, answer, question=record_json.to_json(question), accepted=True)
    rest = rest_of(accepted_week(tmp_path / "k.db"), date(2026, 12, 9))
    rest = replace(rest, eaten=frozenset({("Kid", "dinner")}))
    left = asked_on(rest, pose(replace(kitchen, household=household_left(rest))))
    assert left.eaters == ("Ada",)
    assert (dict(left.appetites), left.rules.nutrient_bounds) == ({}, ())
