"""What helpings bring, alone through the whole decision, as in `test_further_model_rules.py`.

Rice stew at 10 cents a portion brings nothing; bean salad at 25 is fresh. A meal out costs 300.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.model.decided import cost, no_plan, refused
from tests.model.test_further_model_rules import two, with_version
from tests.unit.decide.weeks import PORTION, pack, rules, slots, stew

from ladleworth.decide import HouseRules, NutrientBound, PortionLot, Question, Rule, Status, clash, decide
from ladleworth.decide.reasons import in_force, without

STEW = with_version(stew(), nutrients={"fresh": Fraction(0)})
SALAD = with_version(stew({"beans": PORTION}, name="salad"), nutrients={"fresh": Fraction(1)})
HALF = Fraction(1, 2)


def fresh(
    least: Fraction | int | None = None, most: Fraction | int | None = None, eater: str = "Ada"
) -> NutrientBound:
    ends = (None if end is None else Fraction(end) for end in (least, most))
    return NutrientBound(eater, "fresh", *ends, share=True)


def wanted(*bounds: NutrientBound, **fields: object) -> Question:
    """Ada's suppers of three days."""
    return two(**({"dishes": (STEW, SALAD), "rules": rules(nutrient_bounds=bounds)} | fields))


def test_a_share_of_helpings_is_fresh() -> None:
    assert cost(wanted()) == cost(wanted(fresh(0))) == cost(wanted(fresh(0, 1))) == 3 * 10
    # Of three helpings a third is one salad, to the helping; any more than a third takes a second, than two the third.
    assert cost(wanted(fresh(Fraction(1, 3)))) == 10 + 10 + 25
    assert cost(wanted(fresh(Fraction(34, 100)))) == cost(wanted(fresh(HALF))) == 10 + 25 + 25
    assert cost(wanted(fresh(Fraction(2, 3)))) == 10 + 25 + 25
    assert cost(wanted(fresh(Fraction(67, 100)))) == cost(wanted(fresh(1))) == 3 * 25
    assert refused(wanted(fresh(HALF)), ignoring=wanted()) == "nutrients"


def test_no_more_than_a_share_of_helpings_is_fresh() -> None:
    # Salad is the cheaper one here: two thirds of it at the most are two of three, a half is one.
    def cheap(*bounds: NutrientBound) -> Question:
        return wanted(*bounds, offers=(pack(25), pack(10, "beans")))

    assert cost(cheap(fresh(None, 1))) == 3 * 10
    assert cost(cheap(fresh(None, Fraction(2, 3)))) == 10 + 10 + 25
    assert cost(cheap(fresh(None, HALF))) == 10 + 25 + 25
    assert cost(cheap(fresh(None, 0))) == 3 * 25
    assert refused(cheap(fresh(None, 0)), ignoring=cheap()) == "nutrients"


def test_a_helping_is_fresh_however_large_it_is() -> None:
    # Double portions: all fresh takes salad for each supper, though one salad holds twice as much.
    assert cost(wanted(fresh(1), slots=slots(1, 2), appetites={"Ada": Fraction(2)})) == 4 * 25
    assert cost(wanted(fresh(HALF), slots=slots(1, 2), appetites={"Ada": Fraction(2)})) == 20 + 50
    # Half portions: both are of one salad, and fresh as any.
    assert cost(wanted(fresh(1), slots=slots(1, 2), appetites={"Ada": HALF})) == 25
    # Nobody has one more often than half the time for being a light eater.
    assert cost(wanted(fresh(None, HALF), slots=slots(1, 2), appetites={"Ada": HALF})) == 10


def test_meals_out_count_for_nothing_and_a_week_that_cannot_be_fresh_is_eaten_out() -> None:
    # Without a salad to cook nothing fresh can be had: whoever wants any eats out, and keeps the bound.
    assert cost(wanted(fresh(HALF), dishes=(STEW,))) == 3 * 300
    assert no_plan(wanted(dishes=(STEW,), rules=HouseRules(nutrient_bounds=(fresh(HALF),))))


def test_a_share_is_counted_in_each_span() -> None:
    # Half of four suppers are two of them; half of each two days one each; half of one day all of it.
    def over(span_days: int | None) -> Question:
        limits = rules(nutrient_bounds=(fresh(HALF),), span_days=span_days)
        return wanted(days=4, slots=slots(1, 2, 3, 4), rules=limits)

    assert cost(over(None)) == cost(over(2)) == 2 * 10 + 2 * 25
    assert cost(over(3)) == 10 + 3 * 25  # two of days 1 to 3, and day 4 by itself
    assert cost(over(1)) == 4 * 25


@pytest.mark.parametrize(
    ("nutrients", "cents"),
    [({"fresh": Fraction(1)}, 10), ({"fresh": Fraction(0)}, 25), ({}, 10 + 25)],
    ids=["fresh", "not fresh", "not known"],
)
def test_a_portion_on_hand_brings_what_it_brings_and_what_nobody_knows_is_no_zero(
    nutrients: dict[str, Fraction], cents: int
) -> None:
    # Two suppers, half of them fresh, a box on hand that costs nothing: with it a stew will do, or it takes a salad;
    # a box of which nobody knows it is left, and both are cooked.
    box = PortionLot("box", "curry", 1, 0, nutrients=nutrients)
    assert cost(wanted(fresh(HALF), slots=slots(1, 2), portions=(box,))) == cents


def test_a_bound_for_one_eater_is_nothing_to_the_others() -> None:
    both = (*slots(1, 2), *slots(1, 2, eater="Ben"))
    assert cost(wanted(fresh(1, eater="Ben"), slots=both)) == 2 * 10 + 2 * 25
    assert cost(wanted(fresh(1), fresh(None, 0, eater="Ben"), slots=both)) == 2 * 10 + 2 * 25


def test_what_helpings_bring_and_nutrients_are_two_rules_that_can_be_left_out_each_by_itself() -> None:
    salt = NutrientBound("Ada", "salt", most=Fraction(9))
    question = wanted(salt, fresh(HALF))
    assert {Rule.BRINGS, Rule.NUTRIENTS} <= set(in_force(question))
    assert without(question, [Rule.BRINGS]).rules.nutrient_bounds == (salt,)
    assert without(question, [Rule.NUTRIENTS]).rules.nutrient_bounds == (fresh(HALF),)
    assert Rule.BRINGS not in in_force(wanted(salt))
    assert Rule.NUTRIENTS not in in_force(wanted(fresh(HALF)))


def test_where_nothing_fresh_can_be_cooked_that_is_what_clashes() -> None:
    question = wanted(dishes=(STEW,), rules=HouseRules(in_a_row=None, nutrient_bounds=(fresh(HALF),)))
    assert decide(question).status is Status.INFEASIBLE
    found = clash(question)
    assert found.proven
    assert set(found.rules) == {Rule.BRINGS, Rule.NO_MEAL_OUT}
    assert found.droppable == (Rule.BRINGS,)
    assert {way.rule: way.amount for way in found.ways_out} == {Rule.NO_MEAL_OUT: 3}
