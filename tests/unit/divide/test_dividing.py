"""A batch divided as a whole: shares, two targets, containers, labels, and what is told where something is not known."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.divide.batches import BOXES, STEW, TENTH, asked, counted, dish, food, part

from ladleworth.dish.dish import Ingredient, Role
from ladleworth.divide import Dealt, Divided, Known, Portion, Reading, divide, read_code
from ladleworth.errors import BadField

POT = Reading(("beef", "sauce"), 2_600_000, 1_200_000)
HALF = Fraction(1, 2)


def heap(answer: Divided, name: str) -> Dealt:
    return next(one for one in answer.dealt if one.heap.name == name)


def test_a_weighed_pot_is_dealt_out_less_its_tare_to_the_gram() -> None:
    pot = heap(divide(asked(STEW, readings=(POT,))), "beef and sauce")
    # 1400 g in six: 233 g, and two get one more
    assert pot.shares_mg == (234_000, 234_000, 233_000, 233_000, 233_000, 233_000)


def test_pieces_are_dealt_out_to_the_piece_and_their_weight_goes_with_them() -> None:
    bread = heap(divide(asked(STEW)), "bread")
    assert bread.pieces == (Fraction(7, 6),) * 6  # one each, the seventh in six
    assert bread.shares_mg == (35_000,) * 6
    nine = heap(divide(asked(STEW, [1] * 9, readings=(Reading(("bread",), 10, in_pieces=True),))), "bread")
    assert nine.pieces == (2, *[1] * 8)
    assert nine.shares_mg == (42_000, *[21_000] * 8)  # 210 g by the piece


def test_appetites_weigh_by_the_gram() -> None:
    rice = heap(divide(asked(STEW, [1, 1, HALF, HALF])), "rice")
    assert rice.shares_mg == (380_000, 380_000, 190_000, 190_000)
    assert [(one.size, one.count, one.exact_mg) for one in rice.sizes] == [
        (1, 2, 380_000),
        (HALF, 2, 190_000),
    ]


# --- solids first ---------------------------------------------------------------------------------------------


def test_of_a_pot_the_solids_go_first_and_the_sauce_up_to_the_pots_share() -> None:
    phases = divide(asked(STEW, readings=(POT,))).phases
    assert phases is not None
    assert (phases.solids, phases.liquid) == (("beef",), ("sauce",))
    # 560 g of the 1400 g are reckoned to be beef: 93 g each, two get one more
    assert phases.solids_mg == (94_000, 94_000, 93_000, 93_000, 93_000, 93_000)
    assert phases.total_mg == (234_000, 234_000, 233_000, 233_000, 233_000, 233_000)


def test_solids_that_were_lifted_out_and_weighed_have_a_target_of_their_own() -> None:
    readings = (Reading(("beef",), 500_000), Reading(("sauce",), 800_000))
    phases = divide(asked(STEW, readings=readings)).phases
    assert phases is not None
    assert (sum(phases.solids_mg), sum(phases.total_mg)) == (500_000, 1_300_000)


def test_solids_stand_before_their_sauce_and_the_garnish_last() -> None:
    assert [one.heap.name for one in divide(asked(STEW)).dealt] == [
        "rice",
        "bread",
        "beef",
        "sauce",
        "cheese",
    ]


def test_there_is_one_target_where_there_is_no_sauce_or_nothing_in_it() -> None:
    plain = dish(part("pot", Role.WHOLE, food("onion", 600)))
    assert divide(asked(plain)).phases is None
    dry = dish(
        part("beef", Role.PROTEIN, food("beef-ground-80", 600)),
        part("sauce", Role.SAUCE, food("tomatoes-crushed", 900)),
    )
    assert divide(asked(dry)).phases is None


def test_solids_that_nobody_can_tell_from_the_sauce_have_no_target() -> None:
    lacking = dish(
        part(
            "beef",
            Role.PROTEIN,
            Ingredient("chicken-drumstick", Fraction(500_000)),
            kinds=["ground meat in sauce"],
        ),
        part("sauce", Role.SAUCE, food("tomatoes-crushed", 900)),
    )
    answer = divide(asked(lacking, readings=(POT,)))
    assert answer.phases is None
    assert sum(heap(answer, "beef and sauce").shares_mg) == 1_400_000
    little = dish(
        part("beef", Role.PROTEIN, food("beef-ground-80", 600), kinds=["ground meat in sauce"]),
        part("sauce", Role.SAUCE, food("tomatoes-crushed", 3)),
    )
    assert divide(asked(little, readings=(POT,))).phases is None  # a gram of sauce is not poured by the scale


# --- containers and labels --------------------------------------------------------------------------------------


def test_what_a_portion_fills_leaves_out_what_is_kept_apart() -> None:
    answer = divide(asked(STEW, containers=BOXES))
    # 190 g of rice at 0.66783 g/ml, 100 g of beef, 150 g of tomatoes at 1.02287, 10 g of cheddar at 0.47762, no bread
    assert answer.volumes_ml == (553,) * 6
    assert answer.fit is not None
    # 600 ml to the brim take 540 ml, 750 ml take 675 ml; one of these is left clean, and one of a litre taken
    assert sorted(one.container.size_ml for one in answer.fit.filled) == [750, 750, 750, 750, 750, 1000]


def test_a_portion_that_is_eaten_at_once_needs_no_container_and_has_no_label() -> None:
    portions = (Portion(kept=False), Portion(), Portion(frozen=True))
    answer = divide(asked(STEW, portions=portions, containers=BOXES))
    assert answer.fit is not None
    assert [one.portion for one in answer.fit.filled] + list(answer.fit.unfilled) == [1, 2]
    assert [(label.portion, label.number, label.of) for label in answer.labels] == [(1, 1, 2), (2, 2, 2)]
    assert answer.chilled != answer.frozen
    with pytest.raises(BadField, match="needs a container"):
        Portion(frozen=True, kept=False)


def test_a_label_says_what_is_in_the_container() -> None:
    answer = divide(asked(STEW, batch=2, readings=(POT,), containers=BOXES))
    label = answer.labels[2]
    assert read_code(label.code).batch == 2
    assert (label.number, label.of, label.dish, label.size) == (3, 6, "pot", 1)
    assert [(one.what, one.mass_mg, one.pieces, one.aside) for one in label.contents] == [
        ("rice", 190_000, None, False),
        ("bread", 35_000, Fraction(7, 6), True),
        ("beef and sauce", 233_000, None, False),
        ("cheese", 10_000, None, False),
    ]
    assert label.total_mg == 468_000
    assert label.container_ml in (600, 750, 1000)
    assert len({each.code for each in answer.labels}) == 6


# --- what is not known ------------------------------------------------------------------------------------------


def test_a_part_without_a_weight_has_no_shares_and_no_container_is_chosen() -> None:
    lacking = dish(
        part("meat", Role.PROTEIN, Ingredient("chicken-drumstick", Fraction(500_000))),
        part("sauce", Role.SAUCE, food("tomatoes-crushed", 900)),
    )
    answer = divide(asked(lacking, containers=BOXES))
    meat = heap(answer, "meat")
    assert (meat.heap.known, meat.shares_mg, meat.sizes[0].scoop) == (Known.NOT, (), None)
    assert (answer.volumes_ml, answer.fit) == ((), None)
    assert "for want of the weight of meat; weigh it" in answer.why_no_fit
    assert answer.labels[0].total_mg is None
    assert answer.labels[0].contents[0].mass_mg is None
    weighed = divide(asked(lacking, containers=BOXES, readings=(Reading(("meat",), 600_000),)))
    assert weighed.fit is not None


def test_why_no_containers_are_chosen_is_told() -> None:
    assert "state no sizes of containers" in divide(asked(STEW)).why_no_fit
    eaten = divide(asked(STEW, portions=(Portion(kept=False),) * 2, containers=BOXES))
    assert (eaten.fit, eaten.labels) == (None, ())
    assert "all eaten on its day" in eaten.why_no_fit


def test_containers_that_do_not_do_leave_portions_over_with_the_reason() -> None:
    answer = divide(asked(STEW, [1] * 2, containers=BOXES, filling=TENTH))
    assert answer.fit is not None
    assert len(answer.fit.unfilled) == 2
    assert "largest clean container holds 900 ml" in answer.fit.reasons[0]


def test_a_batch_into_no_portions_and_a_portion_of_nothing_are_refused() -> None:
    with pytest.raises(BadField, match="divided into no portions"):
        replace(asked(STEW), portions=())
    with pytest.raises(BadField, match="write a size above 0"):
        Portion(Fraction(0))


def test_only_the_scoops_that_there_are_are_offered() -> None:
    rice = heap(divide(asked(STEW, scoops=(8,))), "rice").sizes[0]
    assert rice.scoop is not None
    assert (rice.scoop.number, rice.scoop.count) == (8, 2)
    assert heap(divide(asked(STEW)), "bread").sizes[0].scoop is None  # it comes in pieces


def test_eggs_are_two_each() -> None:
    eggs = dish(part("eggs", Role.PROTEIN, counted("egg", 12), kinds=["hard-cooked egg"]))
    assert heap(divide(asked(eggs)), "eggs").pieces == (2,) * 6
