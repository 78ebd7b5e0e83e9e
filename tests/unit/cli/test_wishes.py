"""Wishes, planning on, comparisons, progress and the interrupt key on the command line."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
import threading
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from tests.unit.cli.kitchens import KITCHEN, accepted, loaded, run, run_json, write_kitchen
from tests.unit.week.split_week import PAPERS

from ladleworth.cli.document import gap_share, wish_record
from ladleworth.cli.progress import ProgressLine
from ladleworth.cli.stopping import stops_when_asked
from ladleworth.decide import MustCook
from ladleworth.decide.answer import Progress

FAST = ("--seconds", 5, "--today", "2026-12-05")
OUT = KITCHEN.replace("rules:\n", "rules:\n  meal_out: 9.00\n")


def exact(value: dict[str, Any]) -> Fraction:
    return Fraction(value["exact"])


# --- wishes ---------------------------------------------------------------------------------------------------


def test_a_wish_is_kept_and_told_with_the_question(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=OUT)
    wished = ("--serve", "Ada dinner 2=out", "--cook", "lentil*3")
    shown = run("decide", folder, *FAST, *wished, "--questions")
    assert shown.exit_code == 0, shown.output
    assert "cook at least 3 portions of Lentil stew" in shown.stdout
    text = " ".join(shown.stdout.split())
    assert "Settled beforehand: cook at least 3 portions of Lentil stew; Ada dinner, Mon 7 Dec: out." in text
    found = run_json("decide", folder, *FAST, *wished)
    assert found["wishes"] == [
        {"wish": "MustCook", "dish": "lentil-stew", "day": None, "version": None, "portions": 3},
        {"wish": "MustServe", "day": 2, "eater": "Ada", "meal": "dinner", "dish": None},
    ]
    assert wish_record(MustCook("a"))["wish"] == "MustCook"


def test_all_faults_of_the_options_are_told_at_once_with_exit_code_3(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    faulty = ("--cook", "soup", "--serve", "Eve dinner 1=out", "--price", "onion")
    told = run("decide", folder, *FAST, *faulty)
    assert told.exit_code == 3
    assert "3 faults were found, so nothing was done" in told.stderr
    assert "command line: --cook 'soup': no dish is called 'soup'" in told.stderr
    found = run("decide", folder, *FAST, *faulty, "--json")
    assert [f["place"]["item"] for f in json.loads(found.stdout)["error"]["findings"]] == [
        "--price 'onion'",
        "--cook 'soup'",
        "--serve 'Eve dinner 1=out'",
    ]
    compared = run("decide", folder, *FAST, "--why-not", "soup", "--shop-worth", "Moon", "--ladder", "1,x")
    assert compared.exit_code == 3
    assert "3 faults were found" in compared.stderr


def test_wishes_without_a_plan_are_told_as_what_is_in_the_way(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    wished = [part for day in (1, 2, 3) for part in ("--serve", f"Ada dinner {day}=egg")]
    told = run("decide", folder, "--seconds", 8, "--today", "2026-12-05", *wished)
    assert told.exit_code == 9
    assert "Without this wish there is a plan: Ada dinner, Sun 6 Dec: Egg rice." in told.stdout


def test_a_shop_left_out_is_not_bought_at(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=OUT)
    assert run_json("decide", folder, *FAST, "--without-shop", "corner shop")["plan"]["purchases"] == []


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (("--drop-wishes",), "it goes with --again alone"),
        (("--again", "--start", "2026-12-06"), "leave --start out"),
        (("--ladder", "20"), "write 2 to 6 amounts"),
    ],
)
def test_options_that_do_not_go_together_are_refused(
    tmp_path: Path, given: tuple[str, ...], told: str
) -> None:
    result = run("decide", loaded(tmp_path), *FAST, *given)
    assert result.exit_code in (2, 8)
    assert told in result.stderr


# --- planning on -----------------------------------------------------------------------------------------------


def test_planning_on_says_that_nothing_is_changed_or_what(tmp_path: Path) -> None:
    file = accepted(tmp_path, kitchen=OUT)
    sunday = ("--today", "2026-12-06", "--seconds", 5, "--again")
    same = run("decide", file, *sunday)
    assert same.exit_code == 0, same.output
    told = "Against the plan in force\nOf the budget, 20.00 is left.\nNothing is changed."
    assert told in same.stdout
    other = run("decide", file, *sunday, "--leave-out", "lentil")
    assert "no longer cook: Lentil stew, " in other.stdout
    assert "no longer buy: 1 × onion at Corner Shop (1 kg), Sun 6 Dec" in other.stdout
    assert run_json("decide", file, *sunday)["changes"]["meals"] == []


def test_planning_on_from_a_folder_says_what_comes_first(tmp_path: Path) -> None:
    told = run("decide", write_kitchen(tmp_path / "k"), "--again")
    assert told.exit_code == 8
    assert "keeps no plans" in told.stderr


def test_the_week_goes_on_with_the_plan_accepted_in_its_middle(tmp_path: Path) -> None:
    file = accepted(tmp_path, kitchen=OUT)
    for act in ("buy", "cook", "eat"):
        assert run(act, file, "--day", 1).exit_code == 0
    sunday = run("decide", file, "--again", "--today", "2026-12-07", "--seconds", 3, "--accept")
    assert sunday.exit_code == 0, sunday.output
    assert "(on hand)" in sunday.stdout
    for day in (1, 2):
        assert run("eat", file, "--day", day).exit_code == 0
    money = run_json("reckon", file)["money"]
    assert money["stock"]["total_cents"] == sum(row["cents"] for row in money["stock"]["rows"])
    assert run_json("onhand", file, "--today", "2026-12-08")["day"] == "2026-12-08"


# --- comparisons ---------------------------------------------------------------------------------------------------


def test_comparisons_are_told_with_how_sure_they_are(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=OUT)
    asked = ("--ladder", "20,2,5", "--shop-worth", "corner shop", "--near", 2, "--why-not", "egg")
    shown = run("decide", folder, *FAST, *asked)
    assert shown.exit_code == 0, shown.output
    assert "The same week at other budgets (USD)" in shown.stdout
    assert "Is Corner Shop worth the trip?" in shown.stdout
    assert "its trips counted" in shown.stdout.replace("\n", " ")
    assert "Other plans, each without a dish of those before it" in shown.stdout
    assert "Why not Egg rice?\nThe plan cooks it." in shown.stdout
    found = run_json("decide", folder, *FAST, *asked)
    assert [rung["budget_cents"] for rung in found["ladder"]] == [200, 500, 2000]
    values = [exact(rung["answer"]["costs"]["tills"]) for rung in found["ladder"]]
    assert all(value <= budget for value, budget in zip(values, (200, 500, 2000), strict=True))
    assert found["shop_worth"]["saved"]["least"] == found["shop_worth"]["saved"]["most"]
    assert all(one["next_best"] for one in found["near_equal"])


def test_a_dish_left_out_is_told_what_it_would_cost(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=OUT)
    shown = run("decide", folder, *FAST, "--leave-out", "egg", "--why-not", "egg")
    assert "Why not Egg rice?\nNo plan that keeps all the rules cooks it: that is proven." in shown.stdout
    rich = write_kitchen(tmp_path / "rich", kitchen=OUT.replace("  budget: 20.00\n", ""))
    dear = run(
        "decide", rich, *FAST, "--price", "lentils-2=99", "--price", "lentils-3=198", "--why-not", "lentil"
    )
    assert dear.exit_code == 0, dear.output
    assert "With Lentil stew the week costs" in dear.stdout
    assert "(proven) more" in dear.stdout.replace("\n", " ")


# --- what the plan shows --------------------------------------------------------------------------------------------


def split_folder(tmp_path: Path) -> Path:
    goals = "  - name: Ada\n    bounds: {protein: {least: 10 g}}\n"
    folder = tmp_path / "split"
    folder.mkdir()
    for name, text in PAPERS.items():
        (folder / name).write_text(text.replace("  - name: Ada\n", goals), encoding="utf-8")
    return folder


def test_a_plan_shows_containers_stations_room_and_what_is_made_differently(tmp_path: Path) -> None:
    shown = run("decide", split_folder(tmp_path), *FAST)
    assert shown.exit_code == 0, shown.output
    text = " ".join(shown.stdout.split())
    assert "Burners, all together:" in text
    assert "Made differently, since it is kept" in text
    assert "of a portion chilled" in text
    assert "Kept overnight, after the day's meals" in text
    assert "× 450 ml" in text
    assert "of 6 l" in text
    found = run_json("decide", tmp_path / "split", *FAST)
    night = found["nights"][0]
    used = sum(size["chilled"] + size["frozen"] for size in night["sizes"])
    assert used == night["chilled"] + night["frozen"]


def test_the_gap_is_a_share_of_what_the_week_costs_with_the_stock_that_it_uses(tmp_path: Path) -> None:
    from dataclasses import replace
    from datetime import date

    from ladleworth.decide import Status
    from ladleworth.week import decide_week, week_cost_cents

    week = decide_week(write_kitchen(tmp_path / "k", kitchen=OUT), today=date(2026, 12, 5), seconds=5)
    costs = week.answer.costs
    assert costs is not None
    # the rice, 1.80, keeps beyond the days and is put back; eggs and spinach: the eggs too, to 12 December
    cost = costs.total + 180 + 110
    assert week_cost_cents(week.question, costs) == cost
    wide = replace(week, answer=replace(week.answer, status=Status.GOOD, bound=float(costs.total) - 29))
    assert gap_share(wide) == Fraction(wide.answer.gap_cents or 0) / cost
    assert gap_share(replace(week, answer=replace(week.answer, bound=None))) is None


# --- progress ---------------------------------------------------------------------------------------------------------


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_on_a_screen_progress_is_one_line_that_is_cleared_at_the_end() -> None:
    screen = Screen()
    line = ProgressLine(plain=False, digits=2, to=screen)
    line.report(Progress(0.5, None, None))
    line.report(Progress(1.0, 4520.0, 4310.0))
    line.close()
    assert "\n" not in screen.getvalue()
    assert "plan 45.20, bound 43.10, gap 2.10" in screen.getvalue()
    assert "no plan yet, no bound yet" in screen.getvalue()
    assert screen.getvalue().endswith(" \r")


def test_where_nobody_looks_nothing_is_said_and_plain_lines_are_said_everywhere() -> None:
    piped = io.StringIO()
    ProgressLine(plain=False, digits=2, to=piped).report(Progress(1.0, 4520.0, None))
    assert piped.getvalue() == ""
    line = ProgressLine(plain=True, digits=0, to=piped)
    line.report(Progress(1.0, 4520.0, None))
    line.report(Progress(2.0, 4520.0, None))
    line.report(Progress(3.0, 4500.0, 4500.0))
    line.close()
    assert piped.getvalue() == "  1.0 s  plan 4520, no bound yet\n  3.0 s  plan 4500, bound 4500, gap 0\n"


def test_progress_goes_to_stderr_and_leaves_the_document_alone(tmp_path: Path) -> None:
    result = run("decide", write_kitchen(tmp_path / "k"), *FAST, "--progress", "--json")
    assert json.loads(result.stdout)["stopped"] is False
    assert "plan " in result.stderr
    assert run("decide", tmp_path / "k", *FAST).stderr == ""


def test_so_much_work_gives_the_same_plan_each_time(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=OUT)
    one, other = (run_json("decide", folder, "--work", 2, "--today", "2026-12-05") for _ in range(2))
    assert one["plan"] == other["plan"]


# --- the interrupt key ------------------------------------------------------------------------------------------------


def test_the_key_asks_for_the_best_so_far_and_is_given_back_afterwards(
    capfd: pytest.CaptureFixture[str],
) -> None:
    before = signal.getsignal(signal.SIGINT)
    with stops_when_asked(as_json=False) as stop:
        assert not stop()
        os.kill(os.getpid(), signal.SIGINT)
        deadline = threading.Event()
        for _ in range(100):
            if stop():
                break
            deadline.wait(0.05)
        assert stop()
    assert signal.getsignal(signal.SIGINT) == before
    assert signal.set_wakeup_fd(-1) == -1
    assert "press again to end without" in capfd.readouterr().err


def test_pressed_again_it_ends_the_command_even_where_nothing_listens() -> None:
    script = (
        "import os, signal, time\n"
        "from ladleworth.cli.stopping import stops_when_asked\n"
        "with stops_when_asked(as_json=True) as stop:\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    while not stop(): time.sleep(0.01)\n"
        "    signal.signal(signal.SIGINT, lambda *_: None)  # as while a solver runs: nothing is raised\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    time.sleep(30)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=20)
    assert done.returncode == 130
    assert json.loads(done.stdout)["error"]["kind"] == "interrupted"


def press_twice() -> None:
    with stops_when_asked(as_json=False):
        os.kill(os.getpid(), signal.SIGINT)
        os.kill(os.getpid(), signal.SIGINT)


def test_a_second_press_is_an_interrupt_where_python_listens() -> None:
    with pytest.raises(KeyboardInterrupt):
        press_twice()


def test_stopped_in_the_middle_the_plan_found_by_then_is_shown_and_kept(tmp_path: Path) -> None:
    file = tmp_path / "d.db"
    demo = Path(__file__).parents[3] / "examples" / "demo"
    assert run("load", demo, file).exit_code == 0
    command = [
        sys.executable, "-c", "from ladleworth.cli.main import main; main()", "decide", str(file), "--accept",
        "--json", "--progress", "--seconds", "60", "--today", "2026-12-05",
    ]  # fmt: skip
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert process.stderr is not None
    for said in process.stderr:
        if "plan " in said and "no plan yet" not in said:
            break
    process.send_signal(signal.SIGINT)
    out, _ = process.communicate(timeout=40)
    assert process.returncode == 0
    found = json.loads(out)
    assert found["stopped"] is True
    assert found["seconds"] < 50
    assert found["plan_number"] == 1
    assert run("buy", file, "--day", 1).exit_code == 0


# --- check ------------------------------------------------------------------------------------------------------------


def test_check_notes_what_an_eater_with_bounds_cannot_have(tmp_path: Path) -> None:
    kitchen = KITCHEN.replace("- name: Ada", "- name: Ada\n    bounds: {protein: {least: 5 g}}")
    dishes = "dish: Bun supper\nper_portion: {bun: 1}\n"
    foods = "- food: bun\n  measured_in: pieces\n  keep_days: 5\n"
    folder = write_kitchen(
        tmp_path / "k", kitchen=kitchen, dishes=dishes, foods=foods, stock=None,
        prices="shop,food,package,price\nCorner Shop,bun,6,1.20\n",
    )  # fmt: skip
    shown = run("check", folder)
    assert "note   Ada cannot have Bun supper" in shown.stdout
    (note,) = run_json("check", folder)["without_figures"]
    assert "protein is not known" in note
    assert run_json("check", write_kitchen(tmp_path / "b"))["without_figures"] == []
