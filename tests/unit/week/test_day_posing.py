"""From a plan to a cooking day: batches, containers, what thaws, and whose pan is washed for whom."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from ladleworth.decide import Answer, Batch, Drawing, Helping, Plan, Question, Status, pose
from ladleworth.errors import BadField, NotYet
from ladleworth.household import Kitchen
from ladleworth.store import read_folder
from ladleworth.week import PlannedWeek
from ladleworth.week.day_posing import PosedSession, pose_session

DEMO = Path(__file__).parents[3] / "examples" / "demo"
TOAST, PEAS = "tomato-and-white-bean-toast", "split-pea-pot-with-rye-bread"
POT, CURRY = "two-bean-tomato-pot-with-rice", "coconut-and-tomato-curry-with-rice"
LB_MG = 453_592


@cache
def demo() -> tuple[Kitchen, Question]:
    kitchen = read_folder(DEMO).without_faults()
    return kitchen, pose(kitchen)


def planned(*batches: Batch, drawings: tuple[Drawing, ...] = (), frozen: int = 0) -> PlannedWeek:
    """Plant a plan that nobody judged: Theo has every portion, the first ones of each batch frozen."""
    kitchen, question = demo()
    helpings = tuple(
        Helping(1 + at % 7, "Theo", f"{batch.dish} {at}", batch.dish, batch.day, at < frozen, batch.version)
        for batch in batches
        for at in range(batch.portions)
    )
    plan = Plan(batches, helpings, (), drawings)
    return PlannedWeek(kitchen, question, Answer(Status.GOOD, plan, None, None, 0.0, "planted"))


def session(*batches: Batch, drawings: tuple[Drawing, ...] = (), frozen: int = 0) -> PosedSession:
    return pose_session(planned(*batches, drawings=drawings, frozen=frozen), 1)


def drawn(food: str, quantity: int, dish: str) -> Drawing:
    kitchen, _ = demo()
    held = [one.lot.id for one in kitchen.ledger.on_hand(date(2026, 12, 6)) if one.lot.item == food]
    return Drawing(1, dish, held[0], None, quantity)


def test_a_session_is_posed_with_its_batches_and_containers() -> None:
    found = session(
        Batch(1, POT, "without", 4), Batch(1, PEAS, "without", 3), Batch(4, TOAST, "without", 2), frozen=1
    )
    assert (found.day, found.when, found.posed.faults) == (1, date(2026, 12, 6), ())
    asked = found.posed.question
    assert asked is not None
    assert {one.batch for one in asked.activities} == {
        "Two-bean tomato pot with rice",
        "Split pea pot with rye bread",
        "",
    }
    assert (
        asked.activity("Two-bean tomato pot with rice: lid").words
        == "Lid on; 3 into the fridge, 1 into the freezer."
    )
    assert asked.activity("Split pea pot with rye bread: cool").counter == 3
    assert asked.bench.counter == 10
    assert [one.words for one in found.posed.day_before] == ["Soak the beans overnight in plenty of water."]
    assert [one.words for one in found.posed.day_before[0].ingredients] == ["165 g dried kidney beans"]
    assert (
        "chop 1 3/4 onions: 220 g, for Two-bean tomato pot with rice and Split pea pot with rye bread"
        in " ".join(line.words for line in found.posed.prep_list)
    )
    assert found.to_thaw == ()


def test_hands_on_minutes_of_the_day_are_those_that_the_week_counted() -> None:
    asked = session(Batch(1, POT, "ground beef", 5)).posed.question
    assert asked is not None
    own = ("divide", "cool", "lid")
    steps = [one for one in asked.activities if one.batch and one.name.rpartition(": ")[2] not in own]
    # 14 fixed, 4 for the beef, and 1 for each of five portions.
    assert sum(one.least_min for one in steps if one.hands) == 14 + 4 + 5


def test_what_lies_in_the_freezer_has_to_thaw_but_not_what_is_sold_frozen() -> None:
    found = session(
        Batch(1, CURRY, "chicken", 3),
        drawings=(
            drawn("chicken-thigh", LB_MG, CURRY),
            drawn("spinach-frozen", 140_000, CURRY),
            Drawing(4, CURRY, "elsewhere", None, 5),
        ),
    )
    (thaw,) = found.to_thaw
    # Thawing in the fridge takes a full day for a small pack (a consumer column repeating USDA advice, read), and
    # 24 hours for each five pounds of a large one (fact sheet on safe thawing practices, read).
    assert (thaw.quantity, thaw.pieces, thaw.lead_min) == (LB_MG, False, 24 * 60)
    assert thaw.words == (
        "Put 454 g boneless skinless chicken thigh from the freezer into the fridge, in a dish that catches what drips, "
        "24 h before the cooking (thaw-advice-column, read)"
    )
    assert "from the freezer" not in " ".join(one.words for one in found.posed.day_before)


def test_a_large_piece_thaws_a_day_for_every_five_pounds() -> None:
    (thaw,) = session(
        Batch(1, CURRY, "chicken", 3),
        drawings=(drawn("chicken-thigh", 6 * LB_MG, CURRY),),
    ).to_thaw
    assert thaw.lead_min == 2 * 24 * 60
    assert thaw.words.endswith("48 h before the cooking (thawing-fact-sheet, read)")


def test_bacon_fat_goes_into_a_pan_of_meat_but_into_none_that_wanda_may_eat_from() -> None:
    found = session(
        Batch(1, TOAST, "bacon", 4), Batch(1, TOAST, "without", 4), Batch(1, PEAS, "smoked sausage", 4)
    )
    asked = found.posed.question
    assert asked is not None
    pans = {use.name: use for use in asked.uses if use.kind == "deep skillet"}
    fat = pans["Tomato and white bean toast (bacon): 2 bacon, deep skillet"]
    assert fat.leaves == "bacon fat"
    follows = {name: use.may_follow(fat) for name, use in pans.items() if use is not fat}
    assert follows == {
        "Tomato and white bean toast (bacon): 4, deep skillet": True,
        "Tomato and white bean toast (without): 4, deep skillet": False,
        "Split pea pot with rye bread: 2, deep skillet": True,
    }
    assert found.posed.doubts[-1].startswith(
        "bacon fat of Tomato and white bean toast (bacon) does not go into Tomato and white bean toast (without)"
    )


def test_a_split_batch_pays_the_minutes_of_its_dish_once() -> None:
    asked = session(Batch(1, TOAST, "bacon", 4), Batch(1, TOAST, "without", 4)).posed.question
    assert asked is not None
    own = ("divide", "cool", "lid")
    steps = [one for one in asked.activities if one.batch and one.name.rpartition(": ")[2] not in own]
    # 9 fixed once, 3 for the bacon, half a minute for each of eight portions; each batch rounded up.
    assert sum(one.least_min for one in steps if one.hands) in (16, 17)


def test_clean_by_is_the_deadline() -> None:
    asked = pose_session(planned(Batch(1, POT, "without", 4)), 1, clean_by=240).posed.question
    assert asked is not None
    assert asked.deadline == 240


def test_a_day_without_a_session_or_without_a_batch_is_refused() -> None:
    week = planned(Batch(1, POT, "without", 4))
    with pytest.raises(BadField, match="there is no session on day 2; the sessions are on day 1, 4"):
        pose_session(week, 2)
    with pytest.raises(NotYet, match="the plan cooks nothing on day 4, 2026-12-09"):
        pose_session(week, 4)
    with pytest.raises(NotYet):
        pose_session(replace(week, answer=replace(week.answer, plan=None)), 1)
