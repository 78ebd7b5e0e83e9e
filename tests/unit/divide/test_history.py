"""A dish's own yields: by the portion, the middle of several, and the one on offer for its papers."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from tests.unit.divide.batches import STEW, SUNDAY, TABLE, dish, food, part

from ladleworth.dish.dish import Dish, Part, Role, Swap
from ladleworth.divide import Reading
from ladleworth.divide.history import WeighedBatch, YieldHistory, history_of

AS = "as written"
POT = dish(part("pot", Role.WHOLE, food("onion", 600)))


def batch(grams: int, *, week: int = 0, portions: int = 6, parts: tuple[str, ...] = ("pot",)) -> WeighedBatch:
    reading = Reading(parts, grams * 1000 + 400_000, 400_000)
    return WeighedBatch(SUNDAY + timedelta(weeks=week), AS, portions, (reading,))


def of(*batches: WeighedBatch, dish_is: Dish = POT) -> YieldHistory:
    return history_of(dish_is, TABLE, batches)


def test_a_batch_is_told_by_the_standard_portion_beside_what_is_reckoned() -> None:
    (seen,) = of(batch(720, portions=8)).seen
    assert (seen.net_mg, seen.per_portion_mg, seen.reckoned_mg) == (720_000, 90_000, 100_000)


def test_the_median_is_the_middle_of_the_batches_however_they_are_ordered() -> None:
    batches = batch(540), batch(600, week=1), batch(480, week=2), batch(570, week=3)
    (middle,) = of(*batches).medians
    # 90, 100, 80 and 95 g a portion: halfway between 90 and 95
    assert (middle.batches, middle.per_portion_mg, middle.reckoned_mg) == (4, 92_500, 100_000)
    assert of(*batches[::-1]) == of(*batches)


def test_the_newest_whole_reading_is_offered_for_the_recipes_portions() -> None:
    offered = of(batch(540), batch(800, week=1, portions=8)).offered
    assert offered is not None
    assert (offered.when, offered.portions, offered.mass_mg) == (date(2026, 12, 13), 6, 600_000)


def test_a_yield_that_the_dish_has_already_is_not_offered_again() -> None:
    assert of(batch(540), dish_is=replace(POT, yield_mg=540_000)).offered is None
    offered = of(batch(540), dish_is=replace(POT, yield_mg=600_000)).offered
    assert offered is not None
    assert offered.mass_mg == 540_000


def test_a_reading_of_one_part_alone_makes_no_yield() -> None:
    history = of(batch(1_000, parts=("rice",)), dish_is=STEW)
    assert history.offered is None
    assert [one.parts for one in history.medians] == [("rice",)]


def test_parts_weighed_one_by_one_make_a_yield_with_what_needs_no_scale() -> None:
    both = WeighedBatch(SUNDAY, AS, 6, (Reading(("beef", "sauce"), 1_400_000), Reading(("rice",), 1_100_000)))
    offered = of(both, dish_is=STEW).offered
    assert offered is not None
    assert offered.mass_mg == 1_400_000 + 1_100_000 + 210_000 + 60_000  # seven tortillas and the cheese
    without_rice = replace(both, readings=both.readings[:1])
    assert of(without_rice, dish_is=STEW).offered is None


def test_of_a_part_weighed_twice_the_last_reading_counts() -> None:
    twice = replace(batch(540), readings=(Reading(("pot",), 5_400_000), Reading(("pot",), 540_000)))
    (seen,) = of(twice).seen
    assert seen.net_mg == 540_000


def test_pieces_are_no_yield() -> None:
    pieces = replace(batch(540), readings=(Reading(("pot",), 7, in_pieces=True),))
    assert of(pieces) == YieldHistory()


def test_versions_are_kept_apart_and_one_that_is_gone_has_no_reckoning() -> None:
    swaps = (Swap("beef", (food("beef-ground-80", 600),)), Swap("without", ()))
    two = dish(part("pot", Role.WHOLE, food("onion", 600)), Part("heart", Role.PROTEIN, swaps=swaps))
    batches = [
        replace(batch(1_100, parts=("pot", "heart")), version="beef"),
        replace(batch(550, week=1), version="without"),
        replace(batch(500, week=2), version="lamb"),
    ]
    history = of(*batches, dish_is=two)
    assert [(one.version, one.reckoned_mg) for one in history.medians] == [
        ("beef", 200_000),
        ("without", 100_000),
        ("lamb", None),
    ]
    assert history.offered is not None
    assert (history.offered.version, history.offered.mass_mg) == ("without", 550_000)


def test_an_exact_share_is_kept_exact() -> None:
    assert of(batch(500, portions=7)).seen[0].per_portion_mg == Fraction(500_000, 7)
