"""`ladleworth cookday --question`: the table, the JSON, the exit codes, and what is told of a faulty file."""

from __future__ import annotations

import json
import random
import re
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest
from tests.unit.cli.kitchens import run, run_json

from ladleworth.cli.decide import NO_PLAN, OUT_OF_TIME
from ladleworth.cli.ending import INTERRUPTED
from ladleworth.cookday.project_json import read_project
from ladleworth.cookday.project_judge import judge_project

PAGE = (Path(__file__).parents[3] / "docs" / "cookday-question.md").read_text(encoding="utf-8")
EXAMPLE = re.findall(r"^```json\n(.*?)^```$", PAGE, re.S | re.M)[0]
KEYS = ["question", "title", "status", "makespan", "bound", "times", "why_not", "clash", "seconds", "seed", "solver"]  # fmt: skip


def asked(tmp_path: Path, question: Any = None, **changes: Any) -> Path:
    """Write the page's question, changed, or another one."""
    file = tmp_path / "bread.json"
    tree = (json.loads(EXAMPLE) | changes) if question is None else question
    file.write_text(json.dumps(tree), encoding="utf-8")
    return file


def no_answer(*arguments: object) -> tuple[int, Any]:
    result = run(*arguments, "--json")
    return result.exit_code, json.loads(result.stdout)


def hard(size: int = 15) -> dict[str, Any]:
    """A job shop of so many jobs on as many machines; with 15, nobody proves its optimum in a second."""
    dice = random.Random(size)
    activities, lags = [], []
    for job in range(size):
        for step, machine in enumerate(dice.sample(range(size), size)):
            activities.append(
                {"name": f"{job}.{step}", "duration": dice.randint(1, 99), "demands": {f"m{machine}": 1}}
            )
            if step:
                lags.append({"from": f"{job}.{step - 1}", "to": f"{job}.{step}", "least": 0})
    resources = [{"name": f"m{machine}", "capacity": 1} for machine in range(size)]
    return {"activities": activities, "resources": resources, "lags": lags}


def test_the_timetable_is_shown_in_the_order_of_its_starts(tmp_path: Path) -> None:
    shown = run("cookday", "--question", asked(tmp_path))
    assert shown.exit_code == 0
    lines = shown.stdout.splitlines()
    assert lines[1:4] == [
        "Bread and a roast",
        "Proven shortest: everything has ended at 160.",
        "activity   start   end   holds",
    ]
    assert [line.split()[0] for line in lines[5:]] == ["season", "knead", "roast", "prove", "bake", "carve"]
    assert lines[7].split() == ["roast", "45", "125", "2", "oven"]


def test_the_json_has_the_keys_of_the_docs_and_a_timetable_that_the_judge_passes(tmp_path: Path) -> None:
    file = asked(tmp_path)
    told = run_json("cookday", "--question", file, "--seed", 7)
    assert list(told) == KEYS
    assert (told["status"], told["makespan"], told["bound"], told["seed"]) == ("proven shortest", 160, 160, 7)
    assert (told["why_not"], told["clash"], told["title"]) == ([], None, "Bread and a roast")
    docs = (Path(__file__).parents[3] / "docs" / "cli.md").read_text(encoding="utf-8")
    part = docs.split("### cookday\n")[1].split("\n### ")[0]
    assert all(f"`{key}`" in part for key in KEYS)
    from ladleworth.cookday.project import ProjectTime

    times = [ProjectTime(**one) for one in told["times"]]
    assert judge_project(read_project(file.read_bytes(), "q").project, times) == ()


def test_a_question_may_be_piped_in() -> None:
    shown = run("cookday", "--question", "-", stdin=EXAMPLE)
    assert shown.exit_code == 0
    assert "160" in shown.stdout


def test_the_same_question_and_seed_get_the_same_answer(tmp_path: Path) -> None:
    file = asked(tmp_path, hard(6) | {"deadline": 100_000})
    first, second = (
        run_json("cookday", "--question", file, "--seconds", 60) | {"seconds": 0} for _ in range(2)
    )
    assert first["status"] == "proven shortest"
    assert first == second


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"deadline": 100}, "after the deadline 100"),
        (
            {"resources": [{"name": "hands", "capacity": 1}, {"name": "oven", "capacity": 1}]},
            "'roast' takes 2 of",
        ),
    ],
)
def test_a_reason_that_needs_no_solver_is_told_with_exit_code_9(
    tmp_path: Path, changes: dict[str, Any], words: str
) -> None:
    file = asked(tmp_path, **changes)
    code, told = no_answer("cookday", "--question", file)
    assert code == NO_PLAN
    assert (told["status"], told["times"], told["makespan"]) == (
        "no timetable keeps all the rules",
        None,
        None,
    )
    assert words in told["why_not"][0]
    assert (told["clash"], told["solver"]) == (None, "none needed")
    shown = run("cookday", "--question", file)
    assert shown.exit_code == NO_PLAN
    assert words in " ".join(shown.stdout.split())


def test_what_clashes_is_told_where_only_a_solver_sees_it(tmp_path: Path) -> None:
    file = asked(tmp_path, deadline=159)
    code, told = no_answer("cookday", "--question", file)
    assert code == NO_PLAN
    assert told["why_not"] == [
        "no starts keep the lags and the capacities together and end by the deadline 159"
    ]
    limits = ["the deadline 159", "the capacity 2 of 'oven'"]  # 15 + 30 + 80, and 35 more with the oven
    assert told["clash"] == {"limits": limits, "fewest": True}
    shown = " ".join(run("cookday", "--question", file).stdout.split())
    assert "given the durations and the least lags; without any one of them there is one" in shown
    assert "the capacity 2 of 'oven'" in shown


def test_a_good_answer_says_how_far_off_it_may_be(tmp_path: Path) -> None:
    file = asked(tmp_path, hard())
    told = run_json("cookday", "--question", file, "--seconds", 1)
    assert (told["status"], told["solver"][:6]) == ("good, with a gap", "CP-SAT")
    assert 0 < told["bound"] < told["makespan"]
    shown = run("cookday", "--question", file, "--seconds", 1).stdout
    assert re.search(r"Good, with a gap: everything has ended at \d+; no timetable ends before \d+\.", " ".join(shown.split()))  # fmt: skip


def test_out_of_time_is_another_thing_than_impossible(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from ladleworth.cookday import project_model

    run_of_none = project_model._Run(None, 42, proven=False, seconds=1.0, solver="CP-SAT")
    monkeypatch.setattr(project_model, "_run", lambda *_, **__: run_of_none)
    monkeypatch.setattr(project_model, "draft", lambda *_: None)
    code, told = no_answer("cookday", "--question", asked(tmp_path))
    assert code == OUT_OF_TIME
    assert (told["status"], told["times"], told["bound"]) == ("out of time", None, 42)
    shown = run("cookday", "--question", asked(tmp_path))
    assert shown.exit_code == OUT_OF_TIME
    assert "none was ruled out" in " ".join(shown.stdout.split())


def test_every_fault_of_a_file_is_told_and_nothing_is_solved(tmp_path: Path) -> None:
    activities = [{"name": "a", "duration": -1}, {"name": "a", "duration": 2, "demands": {"pan": 1}}]
    file = asked(tmp_path, {"activities": activities, "lags": [{"from": "a", "to": "b", "least": 0}]})
    result = run("cookday", "--question", file)
    assert result.exit_code == 3
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert lines[0] == "ladleworth: 4 faults were found, so nothing was done"
    assert all(str(file) in line and "; " in line for line in lines[1:])
    code, told = no_answer("cookday", "--question", file)
    assert code == 3
    assert len(told["error"]["findings"]) == 4
    assert told["error"]["findings"][0]["place"]["item"] == "activities[2].name"


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        ((), 2, "--question"),
        (("--question", "no such file.json"), 7, "no such file.json"),
        (("--question", "."), 7, "."),
        (("--question", "-", "--seconds", 0), 2, "--seconds"),
        (("--question", "-", "--seed", -1), 2, "--seed"),
    ],
)
def test_what_is_wrong_with_the_command_line(arguments: tuple[object, ...], code: int, words: str) -> None:
    result = run("cookday", *arguments)
    assert result.exit_code == code
    assert result.stderr.startswith("ladleworth: ")
    assert words in result.stderr


def test_the_interrupt_key_ends_a_search(tmp_path: Path) -> None:
    code = "from ladleworth.cli.main import main; main()"
    command = [
        sys.executable,
        "-c",
        code,
        "cookday",
        "--question",
        str(asked(tmp_path, hard())),
        "--seconds",
        "600",
    ]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    time.sleep(4)
    process.send_signal(signal.SIGINT)
    _, told = process.communicate(timeout=60)
    assert process.returncode == INTERRUPTED
    assert told == "ladleworth: stopped; nothing more was done\n"
