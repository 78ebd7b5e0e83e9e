"""The demo: a whole week, and where it may write."""

from __future__ import annotations

import json
from pathlib import Path

from tests.unit.cli.kitchens import loaded, run


def test_the_demo_lives_a_week_and_its_money_adds_up(tmp_path: Path) -> None:
    out = tmp_path / "out"
    result = run("demo", "--out", out, "--seconds", 4, "--json")
    assert result.exit_code == 0, result.output
    told = json.loads(result.stdout)
    assert len(told["days"]) == 7
    money = told["money"]
    for table in (money["till"], money["stock"]):
        assert sum(row["cents"] for row in table["rows"]) == table["total_cents"]
    assert money["till"]["total_cents"] == sum(day["paid_cents"] for day in told["days"])
    assert money["portions"] == sum(day["cooked_portions"] for day in told["days"])
    assert (out / "kitchen.db").is_file()


def test_the_demo_leaves_a_file_alone_that_is_not_its_own(tmp_path: Path) -> None:
    (tmp_path / "kitchen.db").write_text("my shopping list", encoding="utf-8")
    result = run("demo", "--out", tmp_path, "--seconds", 1)
    assert result.exit_code == 7
    assert (tmp_path / "kitchen.db").read_text(encoding="utf-8") == "my shopping list"


def test_the_demo_refuses_a_kitchen_that_is_not_the_demo(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    before = file.read_bytes()
    result = run("demo", "--out", tmp_path, "--seconds", 1)
    assert result.exit_code == 7
    assert file.read_bytes() == before
