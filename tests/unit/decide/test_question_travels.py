"""A question, a plan and an answer come back from a pickle and from JSON as they were."""

from __future__ import annotations

import pickle
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction

import pytest
from tests.model.full_week import FULL_PLAN, FULL_WEEK
from tests.model.planted_week import PLAN, WEEK

from ladleworth.decide import (
    Additions,
    Answer,
    Batch,
    Costs,
    DishChoice,
    Drawing,
    Foodstuff,
    Helping,
    HouseRules,
    PackageOffer,
    Plan,
    Purchase,
    ShopVisit,
    Status,
    StockLot,
    Version,
    judge,
)
from ladleworth.decide.goods import PortionLot
from ladleworth.decide.question import CookSession, Load, MealSlot, Question
from ladleworth.decide.rules import (
    ContainerSize,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
)
from ladleworth.store import record_json


def parts_of(value: object) -> Iterator[object]:
    """Yield a record and every record in it."""
    if is_dataclass(value):
        yield value
        for f in fields(value):
            yield from parts_of(getattr(value, f.name))
    elif isinstance(value, tuple | frozenset):
        for one in value:
            yield from parts_of(one)
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from parts_of(one)


@pytest.mark.parametrize(
    "whole",
    [
        WEEK,
        PLAN,
        FULL_WEEK,
        FULL_PLAN,
        Answer(Status.PROVEN, FULL_PLAN, Costs(Fraction(1, 3)), 0.3, 1.0, "s"),
    ],
    ids=["week", "plan", "full week", "full plan", "answer"],
)
def test_every_record_comes_back_from_a_pickle_as_it_was(whole: object) -> None:
    records = list(parts_of(whole))
    for record in records:
        again = pickle.loads(pickle.dumps(record))
        assert again == record
        assert type(again) is type(record)
        assert repr(again) == repr(record)


def test_the_full_week_and_its_plan_hold_every_kind_of_record() -> None:
    kinds = {type(record) for whole in (FULL_WEEK, FULL_PLAN) for record in parts_of(whole)}
    assert kinds >= {
        Question,
        CookSession,
        MealSlot,
        DishChoice,
        Version,
        Load,
        Foodstuff,
        StockLot,
        PortionLot,
    }
    assert kinds >= {PackageOffer, ShopVisit, HouseRules, Additions, ContainerSize, NutrientBound, Helping}
    assert kinds >= {Batch, Purchase, Drawing, Plan, MustCook, MustNotCook, MustUse, MustServe, MustBuy}


def test_a_question_from_a_pickle_still_finds_its_records_and_cannot_be_changed() -> None:
    again = pickle.loads(pickle.dumps(FULL_WEEK))
    assert again.food("meat") == FULL_WEEK.food("meat")
    assert again.version("stew", "with meat") == FULL_WEEK.version("stew", "with meat")
    version = again.version("stew", "with meat")
    for mapping in (
        version.needs,
        version.loads,
        version.nutrients,
        again.sessions[0].stations,
        again.portions[0].nutrients,
        again.appetites,
    ):
        assert mapping
        with pytest.raises(TypeError):
            mapping["rice"] = 1
    assert judge(again, FULL_PLAN).breaches == ()


@pytest.mark.parametrize(
    ("question", "plan"), [(WEEK, PLAN), (FULL_WEEK, FULL_PLAN)], ids=["week", "full week"]
)
def test_a_question_and_a_plan_come_back_from_json_as_they_were(question: Question, plan: Plan) -> None:
    question = replace(question, additions=replace(question.additions, minute_cents=Fraction(7, 3)))
    assert record_json.from_json(record_json.to_json(question), Question) == question
    assert record_json.from_json(record_json.to_json(plan), Plan) == plan
