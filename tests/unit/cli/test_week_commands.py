"""A week on a tiny kitchen: decided, judged, bought, cooked, eaten and reckoned, for the eye and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.unit.cli.kitchens import KITCHEN, accepted, cents, loaded, run, run_json, write_kitchen

from ladleworth.decide import Question
from ladleworth.store import record_json

SUNDAY = ("--today", "2026-12-06")
FAST = ("--seconds", 5, "--today", "2026-12-05")


def test_decide_prints_a_plan_whose_components_add_up(tmp_path: Path) -> None:
    told = run_json("decide", write_kitchen(tmp_path / "k"), *FAST)
    costs = {name: cents(value) for name, value in told["costs_cents"].items()}
    taken_off = costs.pop("carried") + costs.pop("reserve")
    assert sum(costs.values()) - taken_off == cents(told["total_cents"])
    assert sum(row["cents"] for row in told["costs_table"]["rows"]) == told["costs_table"]["total_cents"]
    assert told["status"] == "proven best"
    till = told["money"]["till"]
    assert sum(row["cents"] for row in till["rows"]) == till["total_cents"] == costs["tills"]


def test_decide_for_the_eye_has_its_parts_and_no_colour_codes_when_piped(tmp_path: Path) -> None:
    text = run("decide", write_kitchen(tmp_path / "k"), "--why", "--questions", *FAST).stdout
    for part in (
        "What was asked",
        "Proven best",
        "Cook on Sun 6 Dec (day 1): ",
        "Who eats what",
        "Buy on Sun 6 Dec (day 1) at Corner Shop",
        "Has to be used up",
        "Read the labels.",
        "a portion.",
        "What each rule costs",
        "The runner-up",
    ):
        assert part in text, part
    assert "\x1b" not in text
    assert max(map(len, text.splitlines())) <= 80


def test_the_shopping_list_says_what_is_needed_and_what_is_left_over(tmp_path: Path) -> None:
    told = run_json("decide", write_kitchen(tmp_path / "k"), *FAST)
    for line in told["shopping"]:
        assert line["taken"] + line["left"] == line["packages"] * line["size"]
        drawn = [
            d
            for d in told["plan"]["drawings"]
            if (d["source"], d["bought_day"]) == (line["offer"], line["day"])
        ]
        assert sum(d["quantity"] for d in drawn) == line["taken"]


def test_two_runs_with_one_seed_print_the_same_plan(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    assert run_json("decide", folder, *FAST)["plan"] == run_json("decide", folder, *FAST)["plan"]


@pytest.mark.parametrize(
    ("old", "new", "way_out"),
    [
        ("budget: 20.00", "budget: 0", "2.99 more at the tills"),
        ("minutes: 60", "minutes: 5", "22 more hands-on minutes in the sessions together"),
        ("containers: 6", "containers: 1", "3 more containers"),
        ("budget: 20.00", "budget: 0", "2 meals eaten out"),
    ],
)
def test_a_question_without_a_plan_ends_with_ways_out(
    tmp_path: Path, old: str, new: str, way_out: str
) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=KITCHEN.replace(old, new))
    result = run("decide", folder, "--seconds", 3, "--today", "2026-12-05")
    assert result.exit_code == 9
    assert way_out in " ".join(result.stdout.split())
    as_json = run("decide", folder, "--seconds", 3, "--today", "2026-12-05", "--json")
    assert as_json.exit_code == 9
    document = json.loads(as_json.stdout)
    assert document["plan"] is None
    assert document["clash"]["ways_out"]


def test_accepting_without_a_plan_keeps_nothing(tmp_path: Path) -> None:
    file = loaded(tmp_path, kitchen=KITCHEN.replace("budget: 20.00", "budget: 0"))
    assert run("decide", file, "--accept", "--seconds", 3, "--today", "2026-12-05").exit_code == 9
    assert run("buy", file, "--day", 1).exit_code == 8


def test_the_question_written_out_is_the_one_asked_and_judges_the_plan(tmp_path: Path) -> None:
    asked, plan = tmp_path / "q.json", tmp_path / "p.json"
    result = run("decide", write_kitchen(tmp_path / "k"), "--question", asked, "--json", *FAST)
    plan.write_text(result.stdout, encoding="utf-8")
    assert record_json.from_json(asked.read_text(encoding="utf-8"), Question).days == 3
    total = cents(json.loads(result.stdout)["total_cents"])
    for question in (asked, tmp_path / "k"):
        assert cents(run_json("judge", question, plan)["total_cents"]) == total


def test_judge_names_every_broken_rule(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    plan = run_json("decide", folder, *FAST)["plan"]
    plan["helpings"] = plan["helpings"][1:]
    (tmp_path / "p.json").write_text(json.dumps(plan), encoding="utf-8")
    result = run("judge", folder, tmp_path / "p.json")
    assert result.exit_code == 6
    assert "broken  " in result.stdout


def test_a_week_is_bought_cooked_eaten_and_reckoned(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    bought = run("buy", file, "--day", 1)
    assert bought.exit_code == 0
    assert "together" in bought.stdout
    assert "portions" in run("cook", file, "--day", 1).stdout
    for day in (1, 2, 3):
        assert len(run_json("eat", file, "--day", day)["entered"]) == 2
    told = run_json("reckon", file, "--spice", "5%")
    till, stock = told["money"]["till"], told["money"]["stock"]
    for table in (till, stock):
        assert sum(row["cents"] for row in table["rows"]) == table["total_cents"]
    used = sum(row["cents"] for table in (till, stock) for row in table["rows"] if row["label"] == "used")
    assert used == told["money"]["used_cents"]
    assert told["allowance_cents"] == round(used / 20)
    text = run("reckon", file, "--spice", "5%").stdout
    assert "allowance for what is not measured (5 %)" in text
    assert "empty" in text


def test_a_reckoning_of_a_folder_is_the_plan_as_if_it_had_been_carried_out(tmp_path: Path) -> None:
    told = run_json("reckon", write_kitchen(tmp_path / "k"), *FAST)
    assert told["carried_out"] is False
    assert told["money"]["portions"] == 6


def test_a_period_comes_to_the_same_on_both_sides(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    run("buy", file, "--day", 1)
    told = run_json("reckon", file, "--period", "2026-12-06", "2026-12-08")
    assert told["came_from"]["total_cents"] == told["went_to"]["total_cents"] == 380 + 299
    assert "There before, and come in" in run("reckon", file, "--period", "2026-12-06", "2026-12-08").stdout


def test_what_was_really_paid_is_what_is_entered(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    offers = [line["what"] for line in run_json("buy", file, "--day", 1, "--paid", "onion=0.80")["entered"]]
    assert "onion" in offers
    assert run_json("history", file, "--lot", "onion-1206")["movements"][0]["cents"] == 80


def test_unicode_names_come_through(tmp_path: Path) -> None:
    kitchen = KITCHEN.replace("Ada", "Åsa-Łucja").replace("Two on Heron Street", "台所")
    told = run("decide", write_kitchen(tmp_path / "k", kitchen=kitchen), *FAST)
    assert told.exit_code == 0
    assert "Åsa-Łucja" in told.stdout
    assert "台所" in told.stdout


def test_text_in_square_brackets_is_no_markup(tmp_path: Path) -> None:
    kitchen = KITCHEN.replace("name: Two on Heron Street", "name: '[bold]Two[/bold]'")
    assert "[bold]Two[/bold]" in run("decide", write_kitchen(tmp_path / "k", kitchen=kitchen), *FAST).stdout


def test_a_kitchen_without_stock_is_planned_from_the_shops(tmp_path: Path) -> None:
    told = run_json("decide", write_kitchen(tmp_path / "k", stock=None), *FAST)
    assert told["status"] == "proven best"
    assert all(drawing["bought_day"] for drawing in told["plan"]["drawings"])
    assert run("onhand", tmp_path / "k", *SUNDAY).exit_code == 0
