"""Bounds on what helpings bring in kitchen.yaml: read, refused, doubted, and written out again."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.store.papers import KITCHEN, doubts, faults, read, write

from ladleworth.errors import BadField
from ladleworth.household import Goal
from ladleworth.store import Store, read_folder, write_folder

DISHES = """\
- dish: Stew
  per_portion: {lentils: 80 g}
- dish: Salad
  portions: 2
  parts:
    - {part: leaves, lines: [200 g lettuce], brings: [fresh, crunch]}
    - part: top
      swaps:
        - {swap: egg, lines: [2 eggs]}
        - {swap: peppers, lines: [1 red bell pepper], brings: colour}
"""


def kitchen(text: str, dishes: str) -> dict[str, str]:
    return {"kitchen.yaml": text, "dishes.yaml": dishes}


def bounded(bounds: str, more: str = "") -> str:
    return KITCHEN.replace("name: Ada", f"{{name: Ada, bounds: {bounds}{more}}}")


def test_shares_of_helpings_are_read_beside_nutrients() -> None:
    text = bounded("{fresh: {least: 50%}, fat: {most: 9 g}, crunch: {least: 12.5 %, most: 100%}}")
    goals = read(kitchen(text, DISHES)).without_faults().household.eaters[0].goals
    assert goals == (
        Goal("fresh", Fraction(1, 2)),
        Goal("fat_g", None, Fraction(9)),
        Goal("crunch", Fraction(1, 8), Fraction(1)),
    )
    assert [goal.is_share for goal in goals] == [True, False, True]


def test_every_fault_of_them_is_told_at_once_with_what_to_write_instead() -> None:
    text = bounded(
        "{fresh: {least: 50}, crunch: {least: 1/2, most: 101%}, colour: {least: 60%, most: 40%}, crunchy: {least: 1%}}"
    ).replace("name: Ben", "{name: Ben, bounds: {fresh: {}, colour: {least: 20 g}}}")
    found = {f.place.item: f"{f.what}; {f.remedy}" for f in faults(read(kitchen(text, DISHES)))}
    share = "is no share of helpings from 0% to 100%; write 50%, say"
    assert found == {
        "eaters[1].bounds.crunchy": "bounds has no key 'crunchy'; did you mean 'crunch'?",
        "eaters[1].bounds.fresh.least": f"'50' {share}",
        "eaters[1].bounds.crunch.least": f"'1/2' {share}",
        "eaters[1].bounds.crunch.most": f"'101%' {share}",
        "eaters[1].bounds.colour": "the least of colour is above the most; write the smaller one as least",
        "eaters[2].bounds.fresh": "the bound of fresh says nothing; write least, most or both: {least: 50%}",
        "eaters[2].bounds.colour.least": f"'20 g' {share}",
    }


@pytest.mark.parametrize("goal", [("fresh", Fraction(3, 2), None), ("colour", None, Fraction(-1))])
def test_a_share_beyond_all_helpings_is_refused(goal: tuple[str, Fraction | None, Fraction | None]) -> None:
    with pytest.raises(BadField, match=f"{goal[0]}: a share of helpings must be from 0 to 1"):
        Goal(*goal)
    with pytest.raises(BadField, match=r"'crisp' is not known; write one of: .*, colour, crunch, fresh"):
        Goal("crisp")


def test_what_no_dish_for_the_eater_brings_is_doubted() -> None:
    assert doubts(read(kitchen(bounded("{fresh: {least: 50%}, colour: {least: 1%}}"), DISHES))) == []
    plain = DISHES.replace(", brings: [fresh, crunch]", "")
    (doubt,) = doubts(read(kitchen(bounded("{fresh: {least: 50%}, colour: {least: 1%}}"), plain)))
    assert doubt.place.item == "eaters[1].bounds.fresh"
    assert doubt.what == "Ada wants fresh, and no dish that Ada may have brings it"
    assert doubt.remedy == "write brings: [fresh] where one does, or take the bound out"
    # a swap that Ada may not have is nothing to her; at most, or none at all, can be had without any
    (pepper,) = doubts(read(kitchen(bounded("{colour: {least: 1%}}", ", never: [bell-pepper-red]"), DISHES)))
    assert pepper.place.item == "eaters[1].bounds.colour"
    assert doubts(read(kitchen(bounded("{fresh: {most: 10%, least: 0%}}"), plain))) == []


def test_a_kitchen_with_them_written_out_and_read_again_is_the_same(tmp_path: Path) -> None:
    folder = write(tmp_path / "k", kitchen(bounded("{fresh: {least: 50%}}"), DISHES))
    reading = read_folder(folder)
    held = reading.without_faults()
    write_folder(held, reading.papers, tmp_path / "again")
    again = read_folder(tmp_path / "again").without_faults()
    assert again == held
    assert again.dishes[1].variants()[1].brings == ("colour", "crunch", "fresh")
    with Store.open(tmp_path / "kitchen.db", create=True) as store:
        store.load(reading)
        assert store.load_kitchen() == held
