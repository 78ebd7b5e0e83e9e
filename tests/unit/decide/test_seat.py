from __future__ import annotations

import random
from collections import Counter
from fractions import Fraction
from itertools import permutations

from tests.unit.decide.weeks import sessions, slots, stew, week

from ladleworth.decide import Helping, MealSlot, Question
from ladleworth.decide.columns import Dinner
from ladleworth.decide.seat import seat


def dinner(dish: str, session: int, day: int, *, frozen: bool = False) -> Dinner:
    """A standard portion of a batch, eaten on a day."""
    return Dinner(dish, "plain", session, Fraction(1), day, frozen)


def day_of(*meals: str, dishes: dict[str, set[str] | None], eaters: tuple[str, ...] = ("Ada",)) -> Question:
    """A day with these meals for each eater, and dishes that suit some of them (None: all)."""
    return week(
        slots=tuple(MealSlot(1, eater, meal) for eater in eaters for meal in meals),
        dishes=tuple(
            stew(name=name, meals=None if suits is None else frozenset(suits))
            for name, suits in dishes.items()
        ),
    )


def test_portions_go_to_the_meals_they_suit_and_the_rest_is_out() -> None:
    question = day_of("breakfast", "lunch", "supper", dishes={"any": None, "early": {"breakfast"}})
    eaten = {dinner("any", 1, 1): 1, dinner("early", 1, 1): 1}
    served = {("any", "plain", "Ada", 1): 1, ("early", "plain", "Ada", 1): 1}
    assert seat(question, eaten, served) == (
        Helping(1, "Ada", "breakfast", "early", 1, version="plain"),
        Helping(1, "Ada", "lunch", "any", 1, version="plain"),
        Helping(1, "Ada", "supper"),
    )


def test_a_dish_makes_room_for_one_that_suits_fewer_meals() -> None:
    # 'a' comes first and could take breakfast, the only meal of 'b'; 'c' has lunch alone.
    question = day_of(
        "breakfast", "lunch", "supper", dishes={"a": None, "b": {"breakfast"}, "c": {"breakfast", "lunch"}}
    )
    names = ("a", "b", "c")
    helpings = seat(
        question,
        {dinner(name, 1, 1): 1 for name in names},
        {(name, "plain", "Ada", 1): 1 for name in names},
    )
    assert helpings is not None
    assert [h.dish for h in helpings] == ["b", "c", "a"]


def test_more_portions_than_meals_that_they_suit_cannot_be_seated() -> None:
    # Three slots and three portions, but 'a' and 'b' both have breakfast alone.
    question = day_of(
        "breakfast", "lunch", "supper", dishes={"a": {"breakfast"}, "b": {"breakfast"}, "c": None}
    )
    names = ("a", "b", "c")
    assert (
        seat(
            question,
            {dinner(name, 1, 1): 1 for name in names},
            {(name, "plain", "Ada", 1): 1 for name in names},
        )
        is None
    )


def test_more_portions_than_slots_cannot_be_seated() -> None:
    question = day_of("supper", dishes={"a": None})
    assert seat(question, {dinner("a", 1, 1): 2}, {("a", "plain", "Ada", 1): 2}) is None


def test_who_is_served_more_than_is_eaten_that_day_cannot_be_seated() -> None:
    question = day_of("lunch", "supper", dishes={"a": None})
    assert seat(question, {dinner("a", 1, 1): 1}, {("a", "plain", "Ada", 1): 2}) is None


def test_the_portions_of_a_day_are_dealt_out_oldest_batch_first_and_chilled_before_frozen() -> None:
    question = week(
        days=4, slots=(*slots(4), *slots(4, eater="Ben"), *slots(4, eater="Cem")), sessions=sessions(1, 2)
    )
    eaten = {
        dinner("stew", 2, 4): 1,
        dinner("stew", 1, 4, frozen=True): 1,
        dinner("stew", 1, 4): 1,
    }
    served = {("stew", "plain", eater, 4): 1 for eater in ("Ada", "Ben", "Cem")}
    helpings = seat(question, eaten, served)
    assert helpings is not None
    assert [(h.eater, h.cooked_day, h.frozen) for h in helpings] == [
        ("Ada", 1, False),
        ("Ben", 1, True),
        ("Cem", 2, False),
    ]


def test_equal_counts_give_equal_plans_whatever_order_they_come_in() -> None:
    question = day_of("breakfast", "lunch", "supper", dishes={"a": None, "b": None}, eaters=("Ada", "Ben"))
    eaten = {dinner("a", 1, 1): 3, dinner("b", 1, 1): 2}
    served = {("a", "plain", "Ben", 1): 2, ("b", "plain", "Ada", 1): 2, ("a", "plain", "Ada", 1): 1}
    turned = tuple(dict(reversed(list(counts.items()))) for counts in (eaten, served))
    assert seat(question, eaten, served) == seat(question, *turned)  # type: ignore[arg-type]


def test_portions_are_seated_exactly_where_some_order_of_the_slots_suits_them_all() -> None:
    dice = random.Random(5)
    seated = 0
    meals = ("breakfast", "lunch", "tea", "supper")
    for _ in range(300):
        suits = {f"dish {n}": set(dice.sample(meals, dice.randint(1, 2))) for n in range(dice.randint(1, 4))}
        question = day_of(*dice.sample(meals, dice.randint(1, 4)), dishes=dict(suits))
        here = [slot.meal for slot in question.slots]
        portions = dice.choices(list(suits), k=dice.randint(0, len(here)))
        counts = Counter(portions)
        helpings = seat(
            question,
            {dinner(name, 1, 1): n for name, n in counts.items()},
            {(name, "plain", "Ada", 1): n for name, n in counts.items()},
        )
        possible = any(
            all(meal in suits[name] for meal, name in zip(order, portions, strict=True))
            for order in permutations(here, len(portions))
        )
        assert (helpings is not None) == possible
        if helpings is None:
            continue
        seated += 1
        assert sorted(h.meal for h in helpings) == sorted(here)
        assert Counter(h.dish for h in helpings if h.dish) == counts
        assert all(h.dish is None or h.meal in suits[h.dish] for h in helpings)
    assert 100 <= seated <= 250
