"""Bad input: one clear message, the documented exit code, nothing half-written."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from tests.unit.cli.kitchens import DISHES, KITCHEN, PRICES, STOCK, accepted, loaded, run, write_kitchen

from ladleworth.cli.ending import INTERRUPTED, ended
from ladleworth.cli.main import main
from ladleworth.cli.stopping import stops_at_once

SUNDAY = ("--today", "2026-12-06")

Arguments = tuple[object, ...]
FAULTY_PAPERS = {
    "bad YAML": ({"kitchen": "eaters: [Ada\nname: x\n"}, "kitchen.yaml"),
    "an unknown food": ({"dishes": "- dish: X\n  per_portion: {ryce: 80 g}\n"}, "ryce"),
    "a negative amount": ({"stock": "food,amount\nrice,-1 kg\n"}, "below zero"),
    "a price without a size": (
        {"prices": "shop,food,package,price,seen\nS,rice,,1.99,2026-11-29\n"},
        "package",
    ),
    "no session": ({"kitchen": KITCHEN.replace("day: 1\n", "day: 9\n")}, "session"),
    "a date that is none": ({"kitchen": KITCHEN.replace("2026-12-06", "2026-02-30")}, "2026-02-30"),
    "an eater nobody knows": ({"dishes": DISHES.replace("least: 2", "never: [Bob]")}, "Bob"),
}


@pytest.mark.parametrize("name", FAULTY_PAPERS)
@pytest.mark.parametrize("command", ["check", "decide", "load"])
def test_a_faulty_paper_is_refused_with_its_place(tmp_path: Path, name: str, command: str) -> None:
    papers, fragment = FAULTY_PAPERS[name]
    folder = write_kitchen(tmp_path / "k", **papers)
    extra = (tmp_path / "k.db",) if command == "load" else ()
    result = run(command, folder, *extra)
    assert result.exit_code == 3
    assert fragment in result.output
    assert "Traceback" not in result.output
    assert not (tmp_path / "k.db").exists()


def test_a_dish_nobody_may_eat_is_doubted_and_leaves_no_plan(tmp_path: Path) -> None:
    dishes = "- dish: Egg rice\n  never: [Ada, Ben]\n  per_portion: {rice: 75 g}\n"
    folder = write_kitchen(tmp_path / "k", dishes=dishes)
    checked = run("check", folder)
    assert checked.exit_code == 0
    assert "doubt" in checked.stdout
    decided = run("decide", folder, "--seconds", 3, "--today", "2026-12-05")
    assert decided.exit_code == 9
    assert "eaten out" in decided.stdout


REFUSED: dict[str, tuple[int, str, Callable[[Path, Path], Arguments]]] = {
    "no such kitchen": (7, "no folder and no file", lambda t, f: ("decide", t / "nowhere")),
    "no such folder to load": (
        3,
        "there is no such folder",
        lambda t, f: ("load", t / "nowhere", t / "x.db"),
    ),
    "a file of something else": (7, "not a Ladleworth kitchen", lambda t, f: ("onhand", t / "junk.db")),
    "a damaged file": (7, "", lambda t, f: ("onhand", t / "cut.db")),
    "a second kitchen into one file": (7, "holds a kitchen already", lambda t, f: ("load", t / "kitchen", f)),
    "a dump over a folder in use": (7, "not an empty folder", lambda t, f: ("dump", f, t / "kitchen")),
    "an unknown food": (4, "did you mean", lambda t, f: ("facts", "ryce")),
    "a food without a price": (4, "no price of firm tofu", lambda t, f: ("prices", f, "tofu")),
    "an unknown dish": (3, "no dish is called 'gruel'", lambda t, f: ("dish", f, "gruel")),
    "a dish to leave out that is none": (3, "gruel", lambda t, f: ("decide", f, "--without", "gruel")),
    "a start before the stock": (
        3,
        "start then or later",
        lambda t, f: ("decide", f, "--start", "2020-01-01"),
    ),
    "a date that is none": (2, "2026-13-01", lambda t, f: ("decide", f, "--start", "2026-13-01")),
    "no time": (2, "--seconds", lambda t, f: ("decide", f, "--seconds", "0")),
    "accepting in a folder": (8, "load it into a file", lambda t, f: ("decide", t / "kitchen", "--accept")),
    "buying before deciding": (8, "no plan has been accepted", lambda t, f: ("buy", f, "--day", 1)),
    "reckoning before deciding": (8, "no plan has been accepted", lambda t, f: ("reckon", f)),
    "a lot that is none": (5, "no lot is called", lambda t, f: ("throw", f, "x", "--why", "spilt", *SUNDAY)),
    "a negative count": (3, "below zero", lambda t, f: ("count", f, "egg", "-3", "--why", "x", *SUNDAY)),
    "pounds of eggs": (
        3,
        "counted in pieces",
        lambda t, f: ("count", f, "egg", "3 lb", "--why", "x", *SUNDAY),
    ),
    "more than is there": (5, "there", lambda t, f: ("give", f, "egg", "--part", "9", *SUNDAY)),
    "a day before the entries": (
        5,
        "before the last entry",
        lambda t, f: ("throw", f, "egg", "--why", "spilt", "--today", "2026-12-01"),
    ),
    "a last day that is over": (
        3,
        "write 2026-12-06 or a later day",
        lambda t, f: ("move", f, "egg", "freezer", "--use-by", "2020-01-01", *SUNDAY),
    ),
    "use-up of a day that is over": (
        3,
        "write a later one",
        lambda t, f: ("onhand", f, "--use-up", "2026-12-01", *SUNDAY),
    ),
    "an entry that is none": (5, "no entry has the number 99", lambda t, f: ("undo", f, 99, *SUNDAY)),
    "a period backwards": (
        3,
        "swap the two days",
        lambda t, f: ("reckon", f, "--period", "2026-12-08", "2026-12-06"),
    ),
    "a share that is none": (2, "such as 5%", lambda t, f: ("reckon", f, "--spice", "lots")),
    "an act on a folder": (
        7,
        "is a folder",
        lambda t, f: ("count", t / "kitchen", "egg", "3", "--why", "x", *SUNDAY),
    ),
    "no recipe in a text": (3, "no recipe can be read", lambda t, f: ("read", t / "empty.txt")),
    "no such recipe": (7, "nowhere.txt", lambda t, f: ("read", t / "nowhere.txt")),
    "a plan that is no JSON": (3, "is no JSON", lambda t, f: ("judge", f, t / "empty.txt")),
    "a download that is none": (3, "food.csv", lambda t, f: ("facts", "--import-fdc", t, "--select", "1")),
    "a select without a download": (2, "--import-fdc", lambda t, f: ("facts", "--select", "1")),
    "nothing to look up": (2, "name at least one food", lambda t, f: ("facts",)),
    "a command that is none": (2, "did you mean 'decide'?", lambda t, f: ("decied", f)),
    "an option that is none": (2, "--secnods", lambda t, f: ("decide", f, "--secnods", "3")),
    "a food the dish has not": (
        3,
        "takes no measured amount of",
        lambda t, f: ("dish", f, "egg rice", "--from", "onion=1 kg"),
    ),
    "two ways to scale": (
        2,
        "one of",
        lambda t, f: ("dish", f, "egg rice", "--portions", "3", "--packs", "rice"),
    ),
    "a folder that is not there for the question": (
        2,
        "there is no folder",
        lambda t, f: ("decide", f, "--question", t / "no" / "q.json"),
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_done_is_said_once_and_changes_nothing(tmp_path: Path, name: str) -> None:
    code, fragment, arguments = REFUSED[name]
    file = loaded(tmp_path)
    (tmp_path / "junk.db").write_bytes(b"no database at all\n" * 50)
    (tmp_path / "cut.db").write_bytes(file.read_bytes()[:30_000])
    (tmp_path / "empty.txt").write_text("", encoding="utf-8")
    before = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    asked = arguments(tmp_path, file)
    result = run(*asked)
    assert result.exit_code == code, result.output
    assert fragment in result.stderr
    assert result.stdout == ""
    assert result.stderr.startswith("ladleworth: ")
    as_json = run(*asked, "--json")
    assert as_json.exit_code == code
    assert as_json.stderr == ""
    document = json.loads(as_json.stdout)
    assert list(document) == ["error"]
    assert list(document["error"]) == ["kind", "message", "findings"]
    assert fragment in as_json.stdout or fragment in document["error"]["message"]
    after = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    assert {p: b for p, b in after.items() if not p.name.endswith(("-wal", "-shm"))} == before


def test_shopping_cooking_and_eating_twice_or_out_of_turn_is_refused(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    assert run("cook", file, "--day", 1).exit_code == 5
    assert "has not been bought" in run("cook", file, "--day", 1).stderr
    assert "has not been cooked" in run("eat", file, "--day", 1).stderr
    assert run("buy", file, "--day", 1, "--paid", "truffle=1").exit_code == 3
    assert run("buy", file, "--day", 1, "--paid", "onion=-1").exit_code == 3
    assert run("buy", file, "--day", 1, "--paid", "onion").exit_code == 2
    assert run("buy", file, "--day", 1).exit_code == 0
    again = run("buy", file, "--day", 1)
    assert again.exit_code == 5
    assert "already" in again.stderr
    assert run("cook", file, "--day", 1).exit_code == 0
    assert run("cook", file, "--day", 1).exit_code == 5
    assert run("eat", file, "--day", 1).exit_code == 0
    assert "already" in run("eat", file, "--day", 1).stderr
    assert run("eat", file, "--day", 4).exit_code == 3
    assert "days with shopping: 1" in run("buy", file, "--day", 2).stdout


def test_a_kitchen_of_ten_thousand_lots_is_read_and_shown(tmp_path: Path) -> None:
    lines = [f"rice,{at % 900 + 1} g,0.01,cupboard,none\n" for at in range(10_000)]
    folder = write_kitchen(tmp_path / "k", stock="food,amount,cost,place,use_by\n" + "".join(lines))
    assert "10000 lots on hand" in run("check", folder).stdout
    shown = run("onhand", folder, *SUNDAY, "--json")
    assert json.loads(shown.stdout)["cents"] == 10_000


def test_a_budget_of_nothing_is_enough_for_a_full_cupboard(tmp_path: Path) -> None:
    stock = STOCK + "lentils,2 kg,4.00,cupboard,none,\nonion,1 kg,1.00,cupboard,none,\n"
    kitchen = KITCHEN.replace("budget: 20.00", "budget: 0")
    folder = write_kitchen(tmp_path / "k", stock=stock, kitchen=kitchen, prices=PRICES)
    assert run("decide", folder, "--seconds", 5, "--today", "2026-12-05").exit_code == 0


def test_a_plan_for_days_that_are_over_is_doubted(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    told = run("decide", folder, "--seconds", 5, "--today", "2027-01-01")
    assert told.exit_code == 0
    assert "is over" in told.stderr


def test_the_interrupt_key_ends_with_130(capsys: pytest.CaptureFixture[str]) -> None:
    def stopped() -> None:
        raise KeyboardInterrupt

    assert ended(stopped, []) == INTERRUPTED == 130
    assert capsys.readouterr().err.startswith("ladleworth: stopped")
    assert ended(stopped, ["--json"]) == 130
    assert json.loads(capsys.readouterr().out)["error"]["kind"] == "interrupted"


def test_the_interrupt_key_ends_a_command_whose_solver_does_not_listen() -> None:
    script = (
        "import os, signal, time\n"
        "from ladleworth.cli.stopping import stops_at_once\n"
        "signal.signal(signal.SIGINT, lambda *_: None)  # as while a solver runs: nothing is raised\n"
        "with stops_at_once(as_json=True):\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    time.sleep(30)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, timeout=20)
    assert done.returncode == 130
    assert json.loads(done.stdout)["error"]["kind"] == "interrupted"


def test_a_command_that_ends_in_time_is_left_alone() -> None:
    with stops_at_once(as_json=True):
        pass
    assert signal.set_wakeup_fd(-1) == -1


def test_a_defect_of_the_program_is_not_hidden() -> None:
    def broken() -> None:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        ended(broken, [])


def test_without_a_command_the_help_is_shown() -> None:
    result = CliRunner().invoke(main, [])
    assert result.exit_code == 2
    assert "Usage: ladleworth" in result.output
    assert "decide" in result.output
