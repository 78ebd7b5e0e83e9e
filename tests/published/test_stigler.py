"""The cheapest basket on a published diet question of 1945, and on the same in whole packages.

Outside figures: data/stigler_1945*.csv hold the foods, prices and allowances of G. J. Stigler's table of
1945 as digitised in the example data of OR-Tools. That its optimum is $39.66 a year is the usual figure of
textbooks (basis: memory). That figure to two more places, the amounts, the prices of the floors and the costs
in whole packages were worked out beforehand with another program (scipy) from the same table; a second
solver (CBC through PuLP) is asked again here.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path

import pulp
import pytest

from ladleworth.decide.least_cost import (
    Basket,
    LeastCostQuestion,
    PackagedFood,
    basket_breaches,
    basket_stands,
)
from ladleworth.decide.least_cost_model import least_cost
from ladleworth.errors import BadField

DATA = Path(__file__).parent / "data"
YEAR = 365
WHOLE = {7: "0.855", 14: "1.586", 30: "3.313", YEAR: "39.745"}  # days: dollars


def rows(name: str) -> Iterator[dict[str, str]]:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return csv.DictReader(line for line in lines if not line.startswith("#"))


@cache
def foods() -> tuple[PackagedFood, ...]:
    found = []
    for row in rows("stigler_1945.csv"):
        cents = Fraction(row["price_cents"])
        gives = {
            column.removesuffix("_per_usd"): Fraction(amount) * cents / 100
            for column, amount in row.items()
            if column.endswith("_per_usd")
        }
        found.append(PackagedFood(row["commodity"], cents, gives))
    return tuple(found)


def floors(days: int) -> dict[str, Fraction]:
    return {row["nutrient"]: Fraction(row["per_day"]) * days for row in rows("stigler_1945_floors.csv")}


@cache
def best_basket(days: int, whole: bool) -> Basket:
    basket = least_cost(floors(days), foods(), whole_packages=whole)
    assert basket is not None
    return basket


def question(days: int, whole: bool) -> LeastCostQuestion:
    return LeastCostQuestion(floors(days), foods(), whole)


def dollars(cents: Fraction, places: int) -> str:
    return f"{float(cents / 100):.{places}f}"


def test_the_table_has_77_foods_and_9_floors() -> None:
    assert len(foods()) == 77
    assert len(floors(1)) == 9


def test_the_least_cost_of_a_year_is_39_dollars_66() -> None:
    basket = best_basket(YEAR, whole=False)
    assert dollars(basket.cents, 2) == "39.66"  # the usual figure of textbooks (basis: memory)
    assert dollars(basket.cents, 4) == "39.6617"  # worked out with scipy
    assert basket.proven
    assert basket_breaches(question(YEAR, whole=False), basket) == ()


def test_the_basket_of_a_year_holds_the_five_foods_in_the_amounts_worked_out() -> None:
    # Packages a year, worked out with scipy.
    assert {name: f"{float(count):.2f}" for name, count in best_basket(YEAR, whole=False).packages} == {
        "Wheat Flour (Enriched)": "29.93",
        "Liver (Beef)": "2.58",
        "Cabbage": "110.63",
        "Spinach": "22.57",
        "Navy Beans, Dried": "377.55",
    }


def test_the_floor_prices_of_a_year_are_the_worked_out_ones() -> None:
    # Dollars a year for one unit more a day, worked out with scipy; the other four floors are not tight.
    prices = {name: price * YEAR / 100 for name, price in best_basket(YEAR, whole=False).floor_prices}
    assert {name: f"{float(price):.4f}" for name, price in prices.items()} == {
        "energy_kcal_thousand": "3.1993",
        "calcium_g": "11.5843",
        "vitamin_a_kiu": "0.1461",
        "riboflavin_mg": "5.9707",
        "ascorbic_acid_mg": "0.0526",
    }


def test_the_basket_meets_five_floors_exactly_and_the_others_amply() -> None:
    supplied = best_basket(YEAR, whole=False).supplied(question(YEAR, whole=False))
    a_day = {name: f"{float(amount / YEAR):.2f}" for name, amount in supplied.items()}
    assert a_day == {
        "energy_kcal_thousand": "3.00",
        "protein_g": "147.41",
        "calcium_g": "0.80",
        "iron_mg": "60.47",
        "vitamin_a_kiu": "5.00",
        "thiamine_mg": "4.12",
        "riboflavin_mg": "2.70",
        "niacin_mg": "27.32",
        "ascorbic_acid_mg": "75.00",
    }


@pytest.mark.parametrize(("days", "printed"), WHOLE.items())
def test_whole_packages_cost_what_was_worked_out(days: int, printed: str) -> None:
    basket = best_basket(days, whole=True)
    assert dollars(basket.cents, 3) == printed
    assert basket.proven
    assert basket_stands(question(days, whole=True), basket)
    assert all(count.denominator == 1 for _, count in basket.packages)
    assert basket.cents > best_basket(days, whole=False).cents


@pytest.mark.filterwarnings("ignore:.*PuLP 4.0:DeprecationWarning")
@pytest.mark.parametrize("whole", [False, True], ids=["split", "whole"])
@pytest.mark.parametrize("days", [1, *WHOLE])
def test_a_second_solver_finds_the_same_cost(days: int, whole: bool) -> None:
    problem = pulp.LpProblem("basket", pulp.LpMinimize)
    kind = pulp.LpInteger if whole else pulp.LpContinuous
    counts = [pulp.LpVariable(f"food{i}", lowBound=0, cat=kind) for i in range(len(foods()))]
    problem += pulp.lpSum(float(f.package_cents) * x for f, x in zip(foods(), counts, strict=True))
    for nutrient, floor in floors(days).items():
        given = (float(f.gives[nutrient]) * x for f, x in zip(foods(), counts, strict=True))
        problem += pulp.lpSum(given) >= float(floor)
    status = problem.solve(pulp.PULP_CBC_CMD(msg=False, threads=1, gapRel=0, timeLimit=60))
    assert pulp.LpStatus[status] == "Optimal"
    assert float(best_basket(days, whole).cents) == pytest.approx(pulp.value(problem.objective), abs=1e-3)


# -- the judge of baskets -----------------------------------------------------------------------------


def test_stiglers_own_basket_falls_just_short_of_the_energy_floor() -> None:
    # His trial and error of 1945, quantities a year as remembered (basis: memory): 370 lb of flour, 57 cans of
    # evaporated milk, 111 lb of cabbage, 23 lb of spinach, 285 lb of navy beans, $39.93. By this table the
    # energy is 0.2 % short and the cost $39.92.
    own = (
        ("Wheat Flour (Enriched)", Fraction(37)),
        ("Evaporated Milk (can)", Fraction(57)),
        ("Cabbage", Fraction(111)),
        ("Spinach", Fraction(23)),
        ("Navy Beans, Dried", Fraction(285)),
    )
    price = {food.name: food.package_cents for food in foods()}
    cents = sum(price[name] * count for name, count in own)
    assert dollars(cents, 2) == "39.92"
    breaches = basket_breaches(question(YEAR, whole=False), Basket(own, cents, Fraction(0)))
    assert len(breaches) == 1
    assert breaches[0].startswith("energy_kcal_thousand: ")


def _first(basket: Basket, count: Fraction) -> tuple[tuple[str, Fraction], ...]:
    (name, _), *others = basket.packages
    return ((name, count), *others)


@pytest.mark.parametrize(
    ("whole", "change", "phrase"),
    [
        (False, lambda b: replace(b, packages=(*b.packages, ("Manna", Fraction(1)))), "no food is called"),
        (False, lambda b: replace(b, packages=(*b.packages, b.packages[0])), "in the basket 2 times"),
        (False, lambda b: replace(b, packages=_first(b, Fraction(-1))), "cannot be bought"),
        (False, lambda b: replace(b, packages=b.packages[1:]), "below the floor"),
        (False, lambda b: replace(b, cents=b.cents - 1), "the packages cost"),
        (False, lambda b: replace(b, bound_cents=b.cents + 1), "lies above the cost"),
        (False, lambda b: replace(b, bound_cents=b.bound_cents - 1), "the floor prices prove"),
        (
            False,
            lambda b: replace(b, floor_prices=tuple((n, p + Fraction(1, 1000)) for n, p in b.floor_prices)),
            "and costs less",
        ),
        (False, lambda b: replace(b, floor_prices=(("iron_mg", Fraction(-1)),)), "is negative"),
        (
            True,
            lambda b: replace(b, packages=_first(b, b.packages[0][1] + Fraction(1, 2))),
            "would split one",
        ),
    ],
)
def test_a_basket_with_a_fault_planted_in_it_is_refused(whole: bool, change, phrase: str) -> None:
    faulty = change(best_basket(30, whole))
    breaches = basket_breaches(question(30, whole), faulty)
    assert any(phrase in breach for breach in breaches), breaches


# -- the edges ----------------------------------------------------------------------------------------

FLOUR = PackagedFood("flour", Fraction(30), {"energy": Fraction(10)})


def test_a_floor_that_no_food_reaches_has_no_basket_and_is_named() -> None:
    wanted = {"energy": Fraction(5), "iron": Fraction(1), "salt": Fraction(0)}
    assert least_cost(wanted, (FLOUR,)) is None
    assert LeastCostQuestion(wanted, (FLOUR,)).unreachable() == ("iron",)


@pytest.mark.parametrize(("whole", "cents"), [(False, Fraction(75)), (True, Fraction(90))])
def test_two_and_a_half_packages_are_three_when_they_cannot_be_split(whole: bool, cents: Fraction) -> None:
    basket = least_cost({"energy": Fraction(25)}, (FLOUR,), whole)
    assert basket is not None
    assert basket.cents == cents
    assert basket.proven


@pytest.mark.parametrize("floors", [{}, {"energy": Fraction(0)}])
@pytest.mark.parametrize("whole", [False, True])
def test_without_floors_the_basket_is_empty_and_free(whole: bool, floors: dict[str, Fraction]) -> None:
    basket = least_cost(floors, (FLOUR,), whole)
    assert basket is not None
    assert (basket.packages, basket.cents, basket.proven) == ((), 0, True)


def test_faulty_figures_are_refused_with_the_place_named() -> None:
    with pytest.raises(BadField, match="flour: the price must not be negative"):
        PackagedFood("flour", Fraction(-1), {})
    with pytest.raises(BadField, match="flour: the amount of energy must not be negative"):
        PackagedFood("flour", Fraction(1), {"energy": Fraction(-1)})
    with pytest.raises(BadField, match="floors: the amount of energy must not be negative"):
        LeastCostQuestion({"energy": Fraction(-1)}, (FLOUR,))
    with pytest.raises(BadField, match="'flour' stands there more than once"):
        LeastCostQuestion({"energy": Fraction(1)}, (FLOUR, FLOUR))
