"""The brute force reaches optima worked out by hand for means, spans of days and wishes, as in `test_brute_further.py`."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.model.paper_weeks import (
    CORNER,
    PORTION,
    RICE,
    RICE_OFFER,
    boxes,
    cents,
    days_of,
    rules,
    stew,
    week,
)

from ladleworth.decide.question import Additions, CookSession, Foodstuff, PackageOffer, Question, StockLot
from ladleworth.decide.rules import MustBuy, MustCook, MustNotCook, MustServe, MustUse, NutrientBound, Wish

# -- nutrients ------------------------------------------------------------------------------------------


def fed(bounds: tuple[NutrientBound, ...], **fields: object) -> Question:
    """Lunch and supper of Ada on day 1: stew (10 cents, 10 of protein) or bake (25 cents, 30 of protein)."""
    rich = stew({"beans": PORTION}, name="bake")
    plain = stew()
    usual: dict[str, object] = {
        "slots": (*days_of(1, meal="lunch"), *days_of(1)),
        "dishes": (
            replace(plain, versions=(replace(plain.versions[0], nutrients={"protein": Fraction(10)}),)),
            replace(rich, versions=(replace(rich.versions[0], nutrients={"protein": Fraction(30)}),)),
        ),
        "foods": (RICE, Foodstuff("beans")),
        "offers": (RICE_OFFER, PackageOffer("beans at corner", "beans", "corner", PORTION, 25)),
        "rules": rules(nutrient_bounds=bounds),
    }
    return week(**(usual | fields))


@pytest.mark.parametrize(("least", "expected"), [(10, 20), (11, 35), (20, 35), (21, 50), (30, 50), (31, 600)])
def test_the_mean_of_a_nutrient_is_at_least_so_much_and_meals_out_do_not_count(
    least: int, expected: int
) -> None:
    assert cents(fed((NutrientBound("Ada", "protein", least=Fraction(least)),))) == expected


@pytest.mark.parametrize(("most", "expected"), [(30, 20), (10, 20), (9, 600)])
def test_the_mean_of_a_nutrient_is_at_most_so_much(most: int, expected: int) -> None:
    assert cents(fed((NutrientBound("Ada", "protein", most=Fraction(most)),))) == expected


def test_a_mean_goes_by_the_appetite_and_a_bound_for_one_eater_by_that_eater() -> None:
    least = (NutrientBound("Ada", "protein", least=Fraction(15)),)
    assert cents(fed(least, appetites={"Ada": Fraction(3, 2)})) == 30  # 3 portions of stew, 15 a helping
    ben = (NutrientBound("Ben", "protein", least=Fraction(15)),)
    both = (*days_of(1, meal="lunch"), *days_of(1), *days_of(1, eater="Ben"))
    assert cents(fed(ben, slots=both)) == 20 + 25  # stew twice for Ada, bake for Ben


@pytest.mark.parametrize(
    ("least", "appetite", "expected"),
    [(0, 1, 20), (1, 1, 35), (2, 1, 50), (1, 2, 70), (2, 2, 100), (2, Fraction(1, 2), 25)],
)
def test_a_share_counts_helpings_whatever_their_size(
    least: int, appetite: int | Fraction, expected: int
) -> None:
    # So many of two helpings: of bake, since stew is not fresh. Two double ones take four portions, two halves one.
    bound = NutrientBound("Ada", "fresh", Fraction(least, 2), share=True)
    plain, rich = fed(()).dishes
    dishes = tuple(
        replace(dish, versions=(replace(dish.versions[0], nutrients={"fresh": Fraction(figure)}),))
        for dish, figure in ((plain, 0), (rich, 1))
    )
    assert cents(fed((bound,), dishes=dishes, appetites={"Ada": Fraction(appetite)})) == expected


@pytest.mark.parametrize(("span_days", "expected"), [(None, 35), (1, 50)])
def test_a_mean_is_taken_over_each_span(span_days: int | None, expected: int) -> None:
    # Day 1 and day 2, at least 20: a stew and a bake over both days, two bakes if each day is by itself.
    bounds = (NutrientBound("Ada", "protein", least=Fraction(20)),)
    question = fed(bounds, slots=days_of(1, 2), rules=rules(nutrient_bounds=bounds, span_days=span_days))
    assert cents(question) == expected


def test_what_has_no_figure_is_not_served_to_who_has_a_bound() -> None:
    bounds = (NutrientBound("Ada", "salt", most=Fraction(1)),)
    assert cents(fed(bounds)) == 600
    assert cents(fed(bounds, slots=(*days_of(1), *days_of(1, eater="Ben")))) == 300 + 10
    assert cents(replace(fed(bounds), portions=(boxes(cents=0, nutrients={"salt": Fraction(1)}),))) == 300
    assert cents(replace(fed(bounds), portions=(boxes(cents=0),))) == 600


# -- spans of days --------------------------------------------------------------------------------------


@pytest.mark.parametrize(("span_days", "expected"), [(None, 10 + 900), (2, 20 + 600), (1, 40), (3, 20 + 600)])
def test_most_times_holds_in_each_span(span_days: int | None, expected: int) -> None:
    # Days 1 to 4, at most once: by two days, on days 1-2 and 3-4; by three days, on days 1-3 and on day 4.
    question = week(
        days=4, slots=days_of(1, 2, 3, 4), rules=rules(in_a_row=None, most_times=1, span_days=span_days)
    )
    assert cents(question) == expected


@pytest.mark.parametrize(("span_days", "repeats"), [(None, 3), (2, 2), (1, 0), (3, 2)])
def test_repeats_are_counted_in_each_span(span_days: int | None, repeats: int) -> None:
    question = week(
        days=4,
        slots=days_of(1, 2, 3, 4),
        rules=rules(in_a_row=None, span_days=span_days),
        additions=Additions(repeat_cents=7),
    )
    assert cents(question) == 40 + 7 * repeats


def test_days_in_a_row_go_on_over_the_end_of_a_span() -> None:
    question = week(days=4, slots=days_of(1, 2, 3, 4), rules=rules(in_a_row=2, span_days=2))
    assert cents(question) == 30 + 300


# -- wishes ---------------------------------------------------------------------------------------------


def wished(*wishes: Wish, **fields: object) -> Fraction | None:
    """Ada on days 1 and 2, sessions on both; stew of rice (10), bake of beans (25), soup in a box (40)."""
    usual: dict[str, object] = {
        "slots": days_of(1, 2),
        "sessions": (CookSession(1, 60), CookSession(2, 60)),
        "dishes": (stew(), stew({"beans": PORTION}, name="bake")),
        "foods": (RICE, Foodstuff("beans")),
        "offers": (
            RICE_OFFER,
            PackageOffer("beans at corner", "beans", "corner", PORTION, 25),
            PackageOffer("sack of rice", "rice", "corner", 10 * PORTION, 90, most=1),
        ),
        "portions": (boxes(cents=40),),
        "lots": (StockLot("old beans", "beans", 2 * PORTION, 60),),
        "wishes": wishes,
    }
    return cents(week(**(usual | fields)))


NOTHING_WISHED = 18 - 40 - 60
"""Two stews out of the sack at 9 each; the box and the old beans are carried."""


@pytest.mark.parametrize(
    ("wish", "more"),
    [
        (MustCook("stew"), 0),
        (MustCook("stew", 1, "plain", 2), 0),
        (MustCook("stew", 2), 0),
        (MustCook("stew", None, None, 3), None),  # nobody eats the third
        (MustCook("stew", 3), None),  # no session
        (MustCook("bake"), 25 - 9),
        (MustCook("bake", 2, "plain", 1), 25 - 9),
        (MustNotCook("bake"), 0),
        (MustNotCook("stew", 1), 25 - 9),
        (MustNotCook("stew"), 2 * (25 - 9)),
        (MustNotCook("stew", None, "plain"), 2 * (25 - 9)),
        (MustUse("box", 1), 40 - 9),
        (MustUse("box", 2), None),  # there is one
        (
            MustUse("old beans", 1),
            30 - 9,
        ),  # one bake, with all of its portion from the lot or a mg: see below
        (MustUse("old beans", 2 * PORTION), 2 * (30 - 9)),
        (MustUse("old beans", 2 * PORTION + 1), None),
        (MustServe(1, "Ada", "supper", "stew"), 0),
        (MustServe(1, "Ada", "supper", "bake"), 25 - 9),
        (MustServe(2, "Ada", "supper", "soup"), 40 - 9),
        (MustServe(2, "Ada", "supper", None), 300 - 9),
        (MustBuy(1, "rice at corner", 1), 0),  # what is not drawn from it is carried at cost
        (MustBuy(1, "sack of rice", 1), 0),
        (MustBuy(2, "sack of rice", 1), 0),
        (MustBuy(1, "sack of rice", 2), None),  # the shop has one
        (MustBuy(3, "sack of rice", 1), None),  # nobody shops on day 3
    ],
    ids=str,
)
def test_a_wish_is_kept_at_the_least_cost_or_there_is_no_plan(wish: Wish, more: int | None) -> None:
    if wish == MustUse("old beans", 1):
        # A milligram from the lot (30 cents for 100 g) and the rest bought at 25: the package is carried but for
        # what is drawn from it.
        each = Fraction(30 - 25, PORTION)
        assert wished(wish) == NOTHING_WISHED + 25 - 9 + each
        return
    assert wished(wish) == (None if more is None else NOTHING_WISHED + more)


def test_wishes_that_clash_leave_no_plan() -> None:
    assert wished(MustCook("stew"), MustNotCook("stew")) is None
    assert wished(MustServe(1, "Ada", "supper", "stew"), MustServe(1, "Ada", "supper", None)) is None
    # Three things must be used up on two days.
    assert wished(MustUse("box", 1), MustUse("old beans", 2 * PORTION)) is None


def test_a_package_that_must_be_bought_counts_as_money_at_the_till() -> None:
    wish = MustBuy(1, "sack of rice", 1)
    assert wished(wish, rules=rules(budget_cents=90)) == NOTHING_WISHED
    assert wished(wish, rules=rules(budget_cents=89)) is None


def test_a_package_that_must_be_bought_and_does_not_keep_is_paid_for_nothing() -> None:
    # Ada eats out of the box at no cost; the greens (20) that must be bought keep a day, and the visit costs 5.
    question = week(
        foods=(RICE, Foodstuff("greens", keep_days=1)),
        offers=(RICE_OFFER, PackageOffer("greens at corner", "greens", "corner", PORTION, 20)),
        shops=(replace(CORNER, trip_cents=5),),
        portions=(boxes(cents=0, last_day=1),),
        wishes=(MustBuy(1, "greens at corner", 1),),
    )
    assert cents(question) == 25
