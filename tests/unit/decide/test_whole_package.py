"""A recipe that takes a whole package needs that package and not a milligram more."""

from __future__ import annotations

from pathlib import Path

import pytest

from ladleworth.decide import Status, decide, pose
from ladleworth.store import read_folder

KITCHEN = """
ladleworth: 1
name: One tin
currency: USD
start: 2026-12-06
days: 3
eaters: [{name: Ada}, {name: Ben}]
slots: [{meals: [dinner]}]
sessions: [{day: 1, minutes: 60}]
shops: [{name: Corner}]
rules: {in_a_row: none}
"""


@pytest.mark.parametrize("size", ["14.5 oz", "1 lb", "7 oz", "13 oz"])
def test_six_portions_of_one_tin_take_exactly_the_tin_on_hand(tmp_path: Path, size: str) -> None:
    (tmp_path / "kitchen.yaml").write_text(KITCHEN)
    (tmp_path / "dishes.yaml").write_text(
        f"dish: Beans\nportions: 6\nleast: 6\ngreatest: 6\nlines: ['1 ({size}) can white beans']\n"
    )
    (tmp_path / "stock.csv").write_text(f"food,amount,cost,use_by\ncanned white beans,{size},1.00,none\n")
    (tmp_path / "prices.csv").write_text(
        f"shop,food,package,price,seen\nCorner,canned white beans,{size},1.00,2026-12-01\n"
    )
    answer = decide(pose(read_folder(tmp_path).without_faults()), seconds=10)
    assert answer.status is Status.PROVEN
    assert answer.plan is not None
    assert answer.plan.purchases == ()
    assert [batch.portions for batch in answer.plan.batches] == [6]
