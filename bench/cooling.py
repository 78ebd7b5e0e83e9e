"""How long a forecast of cooling and a search for a depth take, and a general solver on the same slab.

The peer is scipy's solve_ivp (BDF, with the band of its Jacobian told) on 100 finite volumes: what one would write without the
series. Both follow the same slab through counter and fridge for ten hours in one run; their hottest points are compared
before their times are. A slow machine fails nothing; a difference above 0.1 K does.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from ladleworth.keep import CoolingQuestion, FilledContainer, Lid, Makeup, Surroundings, forecast, plan_of
from ladleworth.keep.bodies import Body, Face, Layer, Matter, Shape, Stage
from ladleworth.keep.cooling_search import greatest_depth_mm
from ladleworth.keep.course import follow
from ladleworth.keep.surroundings import Case

ROUNDS = 15
CELLS = 100
FORECAST_MS, SEARCH_MS = 50, 300
CLOSE_K = 0.1
HOURS = np.linspace(0.2, 9.9, 40)
STEW = Makeup(0.75, 0.10, 0.05, 0.08, 0.01, 0.01)
MATTER = Matter(0.5, 1040, 3700)


def question(depth_mm: float, at: int) -> CoolingQuestion:
    """Ask about a lidded box; each round asks of another fridge, so that nothing is remembered from the last."""
    around = Surroundings(room_c=21, fridge_c=2 + at / 100, freezer_c=-18)
    box = FilledContainer(depth_mm + at / 100, 180, 130, lid=Lid.ON)
    return CoolingQuestion(box, STEW, plan_of(20), around, 80.0)


def stages(at: int) -> tuple[Stage, Stage]:
    """Counter for half an hour, then a fridge."""
    more = at / 1000
    return (
        Stage(1800.0, (Face(9 + more, 20), Face(3 + more, 20))),
        Stage(34_200.0, (Face(7 + more, 4), Face(5 + more, 4))),
    )


def ours(at: int) -> NDArray[np.float64]:
    """Follow a slab of 40 mm by the series: its hottest point some four times an hour."""
    course = follow(Body(Shape.SLAB, (Layer(MATTER, 0.04),)), stages(at), 80.0)
    course.when("hottest", 21.1111)
    return course.at(HOURS * 3600).hottest


def theirs(at: int) -> NDArray[np.float64]:
    """Follow the same slab by a general solver of stiff equations."""
    step = 0.04 / CELLS
    passes, stores = MATTER.conductivity_w_mk / step, MATTER.density_kg_m3 * MATTER.heat_capacity_j_kgk * step
    state, began, found = np.full(CELLS, 80.0), 0.0, []
    for stage in stages(at):
        exchange = [1 / (1 / face.exchange_w_m2k + 1 / (2 * passes)) for face in stage.faces]
        around = [face.surroundings_c for face in stage.faces]

        def change(_: float, cells: NDArray[np.float64]) -> NDArray[np.float64]:
            flows = np.empty(CELLS + 1)
            flows[1:-1] = passes * (cells[:-1] - cells[1:])  # used before the next stage begins
            flows[0] = exchange[0] * (around[0] - cells[0])  # noqa: B023
            flows[-1] = exchange[1] * (cells[-1] - around[1])  # noqa: B023
            return (flows[:-1] - flows[1:]) / stores

        wanted = HOURS * 3600
        inside = wanted[(wanted > began) & (wanted <= began + stage.seconds)] - began
        solved = solve_ivp(
            change,
            (0, stage.seconds),
            state,
            method="BDF",
            t_eval=np.append(inside, stage.seconds),
            rtol=1e-6,
            atol=1e-6,
            jac_sparsity=_band(),
        )
        found.append(solved.y[:, :-1].max(axis=0))
        state, began = solved.y[:, -1], began + stage.seconds
    return np.concatenate(found)


def _band() -> NDArray[np.float64]:
    return np.eye(CELLS) + np.eye(CELLS, k=1) + np.eye(CELLS, k=-1)


def timed(work: Callable[[int], object]) -> float:
    """Give the median of the rounds, ms."""
    work(0)
    taken = []
    for at in range(1, ROUNDS + 1):
        began = time.perf_counter()
        work(at)
        taken.append((time.perf_counter() - began) * 1000)
    return statistics.median(taken)


def main() -> None:
    """Print the table."""
    apart = float(np.abs(ours(0) - theirs(0)).max())
    rows = [
        ("forecast of a lidded box, both cases", timed(lambda at: forecast(question(40, at))), FORECAST_MS),
        (
            "greatest depth, slow corner",
            timed(lambda at: greatest_depth_mm(question(40, at), Case.SLOW)),
            SEARCH_MS,
        ),
        (
            "greatest depth, middle case",
            timed(lambda at: greatest_depth_mm(question(40, at), Case.MIDDLE)),
            SEARCH_MS,
        ),
    ]
    for name, taken, wished in rows:
        met = "met" if taken < wished else "not met"
        print(f"{name:40} {taken:8.1f} ms   wished for: under {wished} ms, {met}")
    series, solver = timed(ours), timed(theirs)
    print(f"{'one slab by the series':40} {series:8.1f} ms")
    print(f"{'the same by scipy solve_ivp, BDF':40} {solver:8.1f} ms   {solver / series:.0f} times as long")
    print(f"their hottest points differ by {apart:.4f} K at most")
    if apart > CLOSE_K:
        sys.exit("the two do not agree")


if __name__ == "__main__":
    main()
