"""Scoops, cups and spoons, and the density that a part has."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.divide.batches import STEW, TABLE, counted, dish, food, only, part, tap

from ladleworth.dish.dish import Dish, Ingredient, Role
from ladleworth.divide import nearest_scoop, nearest_spoon, parts_made
from ladleworth.divide.density import Density, densities, together
from ladleworth.errors import BadField
from ladleworth.units import CUP, QUART, TBSP


@pytest.mark.parametrize(
    ("cups", "scoop", "spoon"),
    [
        # (volume in cups, scoop and count, cup or spoon and count); a No. n scoop holds 4/n cups
        (Fraction(1, 2), ("No. 8", 1), ("1/2 cup", 1)),
        (Fraction(1, 3), ("No. 12", 1), ("1/3 cup", 1)),
        (Fraction(1), ("No. 4", 1), ("1 cup", 1)),
        (Fraction(3, 2), ("No. 8", 3), ("1/2 cup", 3)),
        (Fraction(1, 16), ("No. 60", 1), ("1 tbsp", 1)),
    ],
)
def test_a_volume_that_a_measure_holds_is_that_measure(
    cups: Fraction, scoop: tuple[str, int], spoon: tuple[str, int]
) -> None:
    found = nearest_scoop(cups * CUP.in_base), nearest_spoon(cups * CUP.in_base)
    assert [(one.name, one.count) for one in found] == [scoop, spoon]
    assert found[1].error == 0


def test_the_fewest_fillings_win_within_five_per_cent_else_the_least_error() -> None:
    # 245 ml: one No. 4 is 236.6 ml, 3.4 % short; three of No. 12 would be nearer only by counting further
    assert nearest_scoop(Fraction(245)).name == "No. 4"
    # with a No. 16 alone (59.1 ml), 150 ml is three of them, 18 % over, rather than two, 21 % short
    found = nearest_scoop(Fraction(150), [16])
    assert (found.name, found.count, round(found.error, 3)) == ("No. 16", 3, Fraction("0.183"))


def test_only_the_scoops_that_there_are_are_taken() -> None:
    assert nearest_scoop(CUP.in_base / 2, [12, 12]).number == 12
    with pytest.raises(BadField, match="no scoop has the number 7; there are 4, 5, 6"):
        nearest_scoop(Fraction(100), [7])


@pytest.mark.parametrize("nothing", [0, -5])
def test_nothing_cannot_be_measured(nothing: int) -> None:
    with pytest.raises(BadField, match="give a volume above 0"):
        nearest_spoon(Fraction(nothing))


def test_a_large_share_is_off_by_what_six_of_the_largest_leave() -> None:
    found = nearest_scoop(2 * QUART.in_base)
    assert (found.name, found.count, found.error) == ("No. 4", 6, Fraction(-1, 4))


# --- density -----------------------------------------------------------------------------------------------------


def dense(of: Dish) -> dict[str, Density]:
    return densities(of, only(of), TABLE, parts_made(of, only(of), TABLE), of.yield_mg)


def test_cooked_rice_shredded_cheese_and_salsa_have_the_tables_density() -> None:
    of = dish(
        part("rice", Role.STARCH, food("rice-white-long-grain", 390), tap(750)),
        part("cheese", Role.GARNISH, food("cheddar", 60, preparation=("shredded",))),
        part("salsa", Role.SAUCE, food("salsa", 260)),
    )
    # USDA SR26 household weights: a cup of rice 158 g, of shredded cheddar 113 g, of salsa 260 g
    for name, grams in (("rice", 158), ("cheese", 113), ("salsa", 260)):
        found = dense(of)[name]
        assert not found.estimated
        assert found.figure.source == "usda-sr26"
        assert abs(found.mg_per_ml * CUP.in_base / 1000 - grams) < Fraction(1, 100)


def test_a_mixture_is_estimated_and_says_so() -> None:
    stew = dish(part("stew", Role.WHOLE, food("onion", 300), food("carrot", 300)))
    for one in (dense(STEW)["beef"], dense(stew)["stew"]):
        assert (one.estimated, one.figure.basis, one.mg_per_ml) == (True, "common practice", 1000)


def test_raw_oats_in_much_water_have_no_density_of_raw_oats() -> None:
    assert dense(dish(part("porridge", Role.WHOLE, food("oats", 200), tap(1000))))["porridge"].estimated


def test_the_cooks_own_volume_and_yield_make_the_density() -> None:
    of = dish(part("pot", Role.WHOLE, food("onion", 2400)), portion_volume_ml=500)
    assert dense(of)["pot"].figure.value == Fraction(2400, 3000)
    assert dense(replace(of, yield_mg=2_100_000))["pot"].figure.value == Fraction(2100, 3000)


def test_where_nobody_knows_a_weight_it_is_waters_and_said_to_be() -> None:
    of = dish(
        part("meat", Role.PROTEIN, Ingredient("chicken-drumstick", Fraction(500_000))),
        part("bread", Role.STARCH, counted("tortilla-flour", 6, grams=30)),
    )
    found = dense(of)["meat"]
    assert (found.estimated, found.figure.value) == (True, 1)
    assert "for want of a figure" in found.figure.note


def test_parts_in_one_pot_have_the_density_of_what_they_fill_together() -> None:
    table = dense(STEW)
    pot = together([(table["beef"], 1_000_000), (table["rice"], 667_830)])
    # a litre of beef at water's density and a litre of rice (0.66783 g/ml, usda-sr26)
    assert pot.mg_per_ml == Fraction(1_667_830, 2_000)
    assert together([(table["sauce"], 0), (table["rice"], 0)]).figure.value == 1


def test_a_spoon_of_nearly_nothing_is_still_a_spoon() -> None:
    assert nearest_spoon(TBSP.in_base / 60).name == "1/4 tsp"
