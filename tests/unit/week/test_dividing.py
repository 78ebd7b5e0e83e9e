"""Dividing a batch of a plan: whose portions, which containers, what is kept, and what was weighed before."""

from __future__ import annotations

from collections import Counter
from datetime import date, datetime, timedelta
from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.week.divided_week import SUNDAY, planted
from tests.unit.week.split_week import PAPERS

from ladleworth.decide import Batch, Helping, Plan
from ladleworth.divide import Known
from ladleworth.errors import BadField, FaultyKitchen, NotYet
from ladleworth.store import Store
from ladleworth.week import accepted_week, dump_file, find_dish, load_folder, open_kitchen
from ladleworth.week.dividing import DividedBatch, divide_batch
from ladleworth.week.packing import packed
from ladleworth.week.portions import clean_containers, portions_of
from ladleworth.week.weighing import DivideWish
from ladleworth.week.yields import yield_history

NOON = datetime(2026, 12, 6, 12, 0)  # noqa: DTZ001  # the kitchen's clock


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return planted(tmp_path)


def divided(
    place: Path, name: str = "chili", *, day: int | None = None, today: date = SUNDAY, **wish: object
) -> tuple[DividedBatch, ...]:
    return divide_batch(place, name, today=today, now=NOON, day=day, wish=DivideWish(**wish))  # type: ignore[arg-type]


def onion(place: Path, **wish: object) -> DividedBatch:
    (one,) = divided(place, swaps=("onion",), **wish)
    return one


# --- whose portions ---------------------------------------------------------------------------------------------


def test_each_version_of_a_batch_goes_to_those_who_eat_it(file: Path) -> None:
    carrot, onions = divided(file)
    assert [(one.divided.version, one.portions, one.day, one.when) for one in (carrot, onions)] == [
        ("carrot", 3, 1, SUNDAY),
        ("onion", 4, 1, SUNDAY),
    ]
    assert {portion.size for portion in carrot.divided.portions} == {Fraction(2, 3)}
    # what is eaten on its day needs no container; the last of the days is from the freezer
    assert [(p.who, p.kept, p.frozen) for p in onions.divided.portions] == [
        ("Ada dinner", False, False),
        ("Ada dinner", True, False),
        ("Ada dinner", True, False),
        ("Ada dinner", True, True),
    ]
    assert onions.divided.portions[3].day == SUNDAY + timedelta(days=3)
    codes = [label.code for one in (carrot, onions) for label in one.divided.labels]
    assert [code[:6] for code in codes] == ["1206A1", "1206A2", "1206A3", "1206B1", "1206B2", "1206B3"]


def test_portions_are_those_that_the_ledger_packs(file: Path) -> None:
    week = accepted_week(file)
    batch = Batch(1, "chili", "onion", 7)
    helpings = tuple(Helping(day, "Kid", "dinner", "chili", 1, day == 4, "onion") for day in (1, 2, 4))
    plan = Plan((batch,), helpings, (), ())
    portions = portions_of(week.kitchen, plan, batch)
    counts = Counter((portion.frozen, portion.size) for portion in portions)
    assert counts == {(kind.frozen, kind.size): kind.count for kind in packed(week.kitchen, plan, batch)}
    assert [portion.who for portion in portions][-5:] == ["in reserve"] * 5  # 7 - 3 x 2/3 portions


def test_so_many_equal_portions_in_place_of_the_plans(file: Path) -> None:
    one = onion(file, portions=5)
    assert len(one.divided.portions) == 5
    assert one.portions == 4  # the batch is the plan's all the same
    assert one.divided.dealt[0].heap.total_mg == onion(file).divided.dealt[0].heap.total_mg


# --- which containers -------------------------------------------------------------------------------------------


def test_containers_that_the_days_other_batches_need_are_not_clean(file: Path) -> None:
    week = accepted_week(file)
    everything = clean_containers(week.kitchen)
    assert everything is not None
    assert {one.size_ml: one.count for one in everything} == {1000: 2, 500: 6, 400: 3}
    (carrot,) = (batch for batch in week.plan.batches if batch.version == "carrot")
    left = clean_containers(week.kitchen, week, carrot)
    assert left is not None
    # three portions of 400 ml lie in the two of a litre (900 ml each); nothing else holds the third
    assert {one.size_ml: one.count for one in left} == {1000: 0, 500: 6, 400: 3}


def test_a_frozen_portion_without_a_container_is_told_with_the_room_that_headspace_takes(file: Path) -> None:
    carrot, onions = divided(file)
    assert onions.divided.fit is not None
    assert onions.divided.fit.reasons == ()
    assert carrot.divided.fit is not None
    assert carrot.divided.fit.unfilled == (3,)
    (reason,) = carrot.divided.fit.reasons
    assert "holds 298 ml (400 ml to the brim, 13 mm left at the top)" in reason


def test_a_depth_asked_for_binds_the_containers_of_known_depth(file: Path) -> None:
    fit = onion(file, depth="2 cm").divided.fit
    assert fit is not None
    assert {one.container.depth_mm for one in fit.filled} == {None}


# --- what is kept -----------------------------------------------------------------------------------------------


def test_a_reading_is_kept_and_counts_the_next_time(file: Path) -> None:
    first = onion(file, weighed=("1.6kg",), tare=("400g",))
    assert first.kept
    assert first.divided.dealt[0].heap.total_mg == 1_200_000
    again = onion(file)
    assert not again.kept
    assert (again.divided.dealt[0].heap.known, again.divided.dealt[0].heap.total_mg) == (
        Known.WEIGHED,
        1_200_000,
    )
    onion(file, weighed=("stew=1.1kg",))
    assert onion(file).divided.dealt[0].heap.total_mg == 1_100_000
    with Store.open(file) as store:
        (plan,) = store.plans()
    assert [(one.number, one.version, one.portions, one.reading.net) for one in plan.yield_readings] == [
        (1, "onion", 4, 1_200_000),
        (2, "onion", 4, 1_100_000),
    ]
    carrot, _ = divided(file)
    assert carrot.divided.dealt[0].heap.known is Known.RECKONED


def test_readings_of_a_batch_stand_under_a_later_plan_as_well(file: Path) -> None:
    onion(file, weighed=("1.2kg",))
    with Store.open(file) as store:
        (plan,) = store.plans()
        store.save_plan(SUNDAY, SUNDAY, plan.answer, question=plan.question, accepted=True)
    assert onion(file).divided.dealt[0].heap.total_mg == 1_200_000


def test_nothing_is_kept_where_something_is_at_fault(file: Path) -> None:
    with pytest.raises(FaultyKitchen):
        onion(file, weighed=("1.2kg",), scoops=(7,))
    with pytest.raises(
        BadField, match="cooked in several versions; say which was weighed with --swap 'carrot' or"
    ):
        divided(file, weighed=("1.2kg",))
    with Store.open(file) as store:
        assert store.plans()[0].yield_readings == ()


def test_a_dish_shows_its_own_yields_from_the_file_and_from_a_dump(file: Path, tmp_path: Path) -> None:
    onion(file, weighed=("1.2kg",))
    kitchen = open_kitchen(file)
    history = yield_history(file, kitchen, find_dish(kitchen, "chili"))
    (seen,) = history.seen
    assert (seen.when, seen.version, seen.per_portion_mg) == (SUNDAY, "onion", 300_000)
    assert history.offered is not None
    assert history.offered.mass_mg == 300_000  # the recipe makes one
    dump_file(file, tmp_path / "out")
    assert yield_history(tmp_path / "out", kitchen, find_dish(kitchen, "chili")) == history
    load_folder(tmp_path / "out", tmp_path / "again.db")
    assert onion(tmp_path / "again.db").divided.dealt[0].heap.total_mg == 1_200_000


# --- which batch ------------------------------------------------------------------------------------------------


def test_a_day_a_version_or_a_dish_that_the_plan_does_not_have_is_refused(file: Path) -> None:
    with pytest.raises(BadField, match="does not cook Chili on day 3; it does on day 1"):
        divided(file, day=3)
    with pytest.raises(BadField, match="does not make Chili with beef; it makes it with carrot, onion"):
        divided(file, swaps=("beef",))
    with pytest.raises(BadField, match="no dish is called 'chowder'"):
        divided(file, "chowder")


def test_a_batch_of_a_day_that_is_over_is_found_all_the_same(file: Path) -> None:
    assert [one.day for one in divided(file, today=SUNDAY + timedelta(days=9))] == [1, 1]


def test_a_folder_divides_so_many_portions_of_a_dish_and_keeps_nothing(tmp_path: Path) -> None:
    file = planted(tmp_path)
    (one,) = divided(tmp_path / "kitchen", portions=4, swaps=("onion",), weighed=("1.2kg",))
    assert (one.plan_number, one.day, one.kept, one.portions) == (None, None, False, 4)
    assert one.divided.dealt[0].shares_mg == (300_000,) * 4
    with pytest.raises(NotYet, match="say how many portions of it are made with --portions"):
        divided(tmp_path / "kitchen")
    with pytest.raises(BadField, match="cannot be made with beef; its swaps are onion, carrot"):
        divided(tmp_path / "kitchen", portions=4, swaps=("beef",))
    with Store.open(file) as store:
        assert store.plans()[0].yield_readings == ()


def test_a_file_without_a_plan_asks_for_one_or_for_the_portions(tmp_path: Path) -> None:
    planted(tmp_path)
    load_folder(tmp_path / "kitchen", tmp_path / "new.db")
    with pytest.raises(NotYet, match="no plan has been accepted yet"):
        divided(tmp_path / "new.db")
    assert len(divided(tmp_path / "new.db", portions=3)[0].divided.portions) == 3


def test_a_dish_that_the_plan_does_not_cook_is_divided_by_its_portions_alone(tmp_path: Path) -> None:
    chili = "- " + PAPERS["dishes.yaml"].strip().replace("\n", "\n  ")
    file = planted(tmp_path, dishes_yaml=f"{chili}\n- {{dish: Soup, portions: 2, lines: [600 g onion]}}\n")
    with pytest.raises(NotYet, match="does not cook Soup; it cooks Chili; --portions N"):
        divided(file, "soup")
    (soup,) = divided(file, "soup", portions=4, weighed=("1kg",))
    assert (soup.day, soup.kept) == (None, False)
