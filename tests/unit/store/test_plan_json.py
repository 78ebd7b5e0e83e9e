from __future__ import annotations

import math
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

import pytest

from ladleworth.decide.answer import Answer, Batch, Costs, Drawing, Helping, Plan, Purchase, Status
from ladleworth.decide.question import (
    CookSession,
    DishChoice,
    Foodstuff,
    HouseRules,
    Load,
    MealSlot,
    PackageOffer,
    PortionLot,
    Question,
    ShopVisit,
    Version,
    Wish,
)
from ladleworth.decide.rules import (
    ContainerSize,
    MustBuy,
    MustCook,
    MustNotCook,
    MustServe,
    MustUse,
    NutrientBound,
)
from ladleworth.errors import BadField
from ladleworth.store import record_json
from ladleworth.store.plan_json import Deed, Mark, SavedPlan, from_json, read_plan, to_json, write_plan

ANSWER = Answer(
    Status.GOOD,
    Plan(
        (Batch(1, "Soup", "as written", 4),),
        (Helping(1, "Ada", "dinner", "Soup", 1), Helping(2, "Ada", "dinner")),
        (Purchase(1, "rice", 2),),
        (Drawing(1, "Soup", "rice", 1, 400_000), Drawing(1, "Soup", "egg", None, 2)),
    ),
    Costs(tills=Fraction(398), carried=Fraction(-1, 3), spoilt=Fraction(10**30, 7)),
    1.1,
    0.25,
    "some solver 1.2",
    7,
)
SAVED = SavedPlan(
    3, date(2026, 12, 6), date(2026, 12, 7), "{}", ANSWER, accepted=True,
    marks=(Mark(Deed.BOUGHT, 1, "rice"), Mark(Deed.COOKED, 1, "Soup")),
)  # fmt: skip


def test_an_answer_comes_back_exactly() -> None:
    assert from_json(to_json(ANSWER)) == ANSWER


def test_fractions_are_written_as_a_over_b() -> None:
    assert '"-1/3"' in to_json(ANSWER)
    assert '"398/1"' in to_json(ANSWER)


@pytest.mark.parametrize("bound", [None, math.inf, -math.inf, 0.1 + 0.2, 1e300, 5.0])
def test_every_bound_comes_back_exactly(bound: float | None) -> None:
    answer = replace(ANSWER, bound=bound, plan=None, costs=None, status=Status.INFEASIBLE)
    assert from_json(to_json(answer)) == answer


def test_a_kept_plan_comes_back_with_its_marks() -> None:
    assert read_plan(write_plan(SAVED)) == SAVED


def test_a_question_comes_back_exactly() -> None:
    question = Question(
        7,
        (MealSlot(1, "Ada"),),
        (),
        (
            DishChoice(
                "Soup",
                (Version("as written", {"rice": Fraction(1, 3)}, barred=frozenset({"Ada", "Ben"})),),
                meals=frozenset({"meal"}),
            ),
        ),
        (Foodstuff("rice", keep_days=None),),
    )
    assert record_json.from_json(record_json.to_json(question), Question) == question


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "this is no JSON"),
        ("[", "this is no JSON"),
        ("[" * 100_000, "this is no JSON"),
        ("[]", r"SavedPlan is \[\]; write a value of the kind dict"),
        ("{}", "SavedPlan lacks the key 'id'"),
        (write_plan(SAVED).replace('"id": 3', '"id": 0'), "a plan has the number 0"),
        (
            write_plan(SAVED).replace('"id": 3', '"id": true'),
            "SavedPlan.id is True; write a value of the kind int",
        ),
        (write_plan(SAVED).replace('"id": 3', '"id": 3, "idd": 3'), "SavedPlan has no key 'idd'"),
        (write_plan(SAVED).replace("-1/3", "1/0"), "SavedPlan.answer.costs.carried"),
        (write_plan(SAVED).replace("2026-12-07", "tomorrow"), "SavedPlan.start"),
        (write_plan(SAVED).replace("good, with a gap", "good"), "SavedPlan.answer.status"),
        (
            write_plan(SAVED).replace('"cooked"', '"bought"').replace('"Soup"\n', '"rice"\n'),
            "has a mark twice",
        ),
    ],
)
def test_what_is_no_plan_is_refused_with_its_place(text: str, said: str) -> None:
    with pytest.raises(BadField, match=said):
        read_plan(text)


def test_what_has_no_form_in_json_is_refused() -> None:
    with pytest.raises(BadField, match="object has no form in JSON"):
        record_json.to_json(object())
    with pytest.raises(ValueError, match="JSON compliant"):
        record_json.to_json(math.nan)


@pytest.mark.parametrize(
    ("mark", "said"), [((Deed.BOUGHT, 0, "rice"), "count the days"), ((Deed.BOUGHT, 1, ""), "names nothing")]
)
def test_a_mark_names_something_on_a_day(mark: tuple[Deed, int, str], said: str) -> None:
    with pytest.raises(BadField, match=said):
        Mark(*mark)


WISHES = (
    MustCook("soup", day=1, portions=2),
    MustNotCook("soup", version="a"),
    MustUse("box", 1),
    MustServe(2, "Ada", "meal", None),
    MustBuy(1, "rice-1", 3),
)


def test_a_question_with_every_further_rule_comes_back_exactly() -> None:
    version = Version(
        "a",
        {"rice": Fraction(1, 3)},
        loads={"oven": Load(Fraction(30), Fraction(1, 2))},
        nutrients={"fat_g": Fraction(7, 3)},
        volume_ml=350,
    )
    question = Question(
        14,
        (MealSlot(2, "Ada"),),
        (CookSession(1, 90, {"oven": 120}, 250),),
        (
            DishChoice(
                "soup", (version, replace(version, name="b")), most_versions=2, shared_min=Fraction(9, 2)
            ),
        ),
        (Foodstuff("rice"),),
        offers=(PackageOffer("rice-1", "rice", "Shop", 500_000, 99),),
        shops=(ShopVisit("Shop"),),
        rules=HouseRules(
            span_days=7,
            freezing_load=3,
            container_sizes=(ContainerSize(450, 8),),
            fridge_ml=20_000,
            freezer_ml=30_000,
            nutrient_bounds=(NutrientBound("Ada", "fat_g", None, Fraction(20)),),
        ),
        portions=(
            PortionLot(
                "box",
                "soup",
                2,
                90,
                2,
                None,
                True,
                frozenset({"Ben"}),
                frozenset({"meal"}),
                {"fat_g": Fraction(1)},
                300,
            ),
        ),
        appetites={"Ada": Fraction(3, 4)},
        wishes=WISHES,
    )
    assert record_json.from_json(record_json.to_json(question), Question) == question


def test_a_wish_of_no_kind_is_refused_with_the_kinds_there_are() -> None:
    text = record_json.to_json(MustUse("box", 1)).replace("lot", "box")
    with pytest.raises(BadField, match=r"Wished\.wish has the keys box, quantity; write those of MustCook"):
        record_json.from_json(f'{{"wish": {text}}}', Wished)


@dataclass(frozen=True, slots=True)
class Wished:
    wish: Wish


@dataclass(frozen=True, slots=True)
class Unclear:
    which: int | str


def test_a_field_of_several_plain_kinds_is_refused() -> None:
    with pytest.raises(BadField, match="may be of several kinds; write records that differ in their fields"):
        record_json.from_json('{"which": 1}', Unclear)
