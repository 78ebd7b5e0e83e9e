"""Cooling, heating, freezing and thawing against cases with a known answer, through the door that a stranger takes.

Outside figures: data/cooling_cases.json. Cases P come from or rest on textbooks of heat transfer (Cengel, Geankoplis,
Incropera, Singh and Heldman); each names which, and whether it was read or remembered. Cases C were worked out beforehand
with another program: exact series of 60 terms, finite volumes of 200 and 400 cells advanced through their eigenvectors,
and an enthalpy method of 100 cells. Tolerances are those of the cases.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from ladleworth.keep.bodies import Matter
from ladleworth.keep.cool_json import read_cool_question
from ladleworth.keep.cool_question import CaseAnswer, solve
from ladleworth.keep.exchange import convected_up_w_m2k, evaporated_w_m2, radiated_w_m2k, rayleigh
from ladleworth.keep.freezing import pham_seconds
from ladleworth.keep.frozen import FreezingMatter
from ladleworth.keep.modes import wall
from ladleworth.keep.readings import Probe, verdict_of
from ladleworth.keep.reheating import heat_of, seconds_for

ROOT = Path(__file__).parents[2]
CASES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "data" / "cooling_cases.json").read_text(encoding="utf-8")
)
SCHEMA = json.loads(
    (ROOT / "src/ladleworth/keep/schemas/cool-question.schema.json").read_text(encoding="utf-8")
)


def test_the_table_holds_the_cases_it_should() -> None:
    series = [f"C{number:02d}" for number in range(1, 21)] + [f"C{number:02d}" for number in range(27, 35)]
    assert {case["id"].split()[0] for case in CASES} == {"P01", "P02", "P03", "P04", "P05", "P09", *series}
    assert sum(len(case["expected"]) for case in CASES) >= 90


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_a_case_comes_out_within_its_tolerance(case: dict[str, Any]) -> None:
    Draft202012Validator(SCHEMA).validate(case["question"])
    answer = solve(read_cool_question(json.dumps(case["question"]), case["id"]))
    assert answer.slow == answer.middle
    for wanted in case["expected"]:
        if "minute" in wanted:
            found = temperature(answer.middle, wanted["minute"], wanted["point"])
            assert found == pytest.approx(wanted["c"], abs=wanted["within_k"]), wanted
        else:
            minutes = reached(answer.middle, wanted["point"], wanted["c"])
            within = wanted.get("within_min") or wanted["within_share"] * wanted["minutes"]
            assert minutes == pytest.approx(wanted["minutes"], abs=within), wanted


def temperature(case: CaseAnswer, minute: float, point: str) -> float:
    told = next(told for told in case.readings if told.minute == minute)
    named = {"hottest": told.hottest_c, "coldest": told.coldest_c, "mean": told.mean_c}
    return (named | dict(told.faces_c))[point]


def reached(case: CaseAnswer, point: str, level_c: float) -> float | None:
    return next(one.minutes for one in case.limits if (one.point, one.degrees_c) == (point, level_c))


def test_a_lump_is_too_quick() -> None:
    # C19: a lump, exp(-(U1 + U2) t / (rho c D)), of 10 mm: 3638.8 and 12744.8 s against 3751.9 and 13055 s.
    for level, lump_s in ((21.1111, 3638.8), (5.0, 12744.8)):
        seconds = 1040 * 3700 * 0.010 / 12 * math.log((57.2222 - 4) / (level - 4))
        assert seconds == pytest.approx(lump_s, rel=1e-3)
        case = next(case for case in CASES if case["id"] == "C19")
        exact = next(one["minutes"] for one in case["expected"] if one["c"] == level)
        assert 1.02 < exact * 60 / seconds < 1.032


def test_h_from_two_temperatures() -> None:
    # P08, after data of Cengel, example 4-11: surface at 2 °C when the middle is at 8 °C in air of -15 °C, half thickness
    # 15 mm, k 0.45: a chart gives h = 20, the first term exactly 20.20 W/m2/K.
    matter = Matter(0.45, 1000, 4000)
    for exchange, wanted, within in ((20.20, 17 / 23, 1e-4), (20.0, 17 / 23, 0.005)):
        first = wall(matter, 0.015, 0.0, exchange, 3)
        assert first.at_points[-1, 0] / first.at_points[0, 0] == pytest.approx(wanted, abs=within)


FOOD = FreezingMatter(Matter(0.50, 1040, 3600), 1.50, 2000, -1.0, 0.71, 333_600)


@pytest.mark.parametrize(
    ("case", "depth_m", "exchange", "start_c", "target_c", "hours", "cells_h"),
    [
        # Pham's formula beside the enthalpy method, both worked out beforehand; tolerance 0.1 %.
        ("C27", 0.050, 10, 5.0, -10, 14.010, 13.158),
        ("C28", 0.050, 10, 5.0, -15, 15.876, 15.741),
        ("C29", 0.025, 8, 5.0, -10, 8.352, 7.815),
        ("C30", 0.050, 25, 5.0, -10, 6.251, 5.894),
        ("C31", 0.050, 10, 21.11, -10, 15.342, 14.775),
        ("C32", 0.075, 6, 5.0, -10, 34.755, 32.629),
    ],
)
def test_pham_is_on_the_slow_side_of_the_cells_and_plank_far_on_the_other(
    case: str, depth_m: float, exchange: float, start_c: float, target_c: float, hours: float, cells_h: float
) -> None:
    found = pham_seconds(FOOD, depth_m / 2, exchange, -18, start_c, target_c) / 3600
    assert found == pytest.approx(hours, rel=1e-3), case
    assert 1.0 < found / cells_h < 1.09
    # Plank's rule: ice alone. P13, an exercise of it (a 40 mm, rho 1050, 280 kJ/kg, k 1.6, h 25, 20 K): 13597.5 s.
    plank_h = plank_seconds(1040, FOOD.latent_of_food_j_kg, depth_m, 1.5, exchange, 17) / 3600
    assert 0.685 <= plank_h / cells_h <= 0.835  # 17 to 31 % short
    assert plank_seconds(1050, 280_000, 0.040, 1.6, 25, 20) == pytest.approx(13597.5, abs=1)


def plank_seconds(
    density: float, latent: float, depth_m: float, conductivity: float, exchange: float, kelvin: float
) -> float:
    return density * latent / kelvin * (depth_m / (2 * exchange) + depth_m**2 / (8 * conductivity))


def test_radiation_and_convection_and_evaporation() -> None:
    # C23: Ts 57.22, Ta 4 °C, emissivity 0.95: 6.09 W/m2/K; 0.1: 0.64. Tolerance 0.02.
    assert radiated_w_m2k(57.22, 4, 0.95) == pytest.approx(6.09, abs=0.02)
    assert radiated_w_m2k(57.22, 4, 0.1) == pytest.approx(0.64, abs=0.02)
    # C24: McAdams by a general library (ht): plate 0.20 x 0.15 m, Ra 3.69e5, h 8.28. Tolerance 2 %.
    assert rayleigh(57.22, 4, 0.04286) == pytest.approx(3.69e5, rel=0.02)
    assert convected_up_w_m2k(57.22, 4, 0.04286) == pytest.approx(8.28, rel=0.02)
    # C25: wet surface, air 4 °C of 80 %, h 4: 946 W/m2, as if h were 17.8 more; at 21.11 °C 6.93. Tolerance 1 %.
    assert evaporated_w_m2(57.22, 4, 0.8, 4) == pytest.approx(946, rel=0.01)
    assert evaporated_w_m2(57.22, 4, 0.8, 4) / 53.22 == pytest.approx(17.8, rel=0.01)
    assert evaporated_w_m2(21.11, 4, 0.8, 4) / 17.11 == pytest.approx(6.93, rel=0.01)


def test_the_rate_between_two_readings() -> None:
    # C26: log10[(135-37)/(70-37)]/2 = 0.23636 and log10[(70-37)/(41-37)]/4 = 0.22911 an hour.
    first = verdict_of([Probe(0, 57.2222), Probe(120, 21.1111)])
    second = verdict_of([Probe(120, 21.1111), Probe(360, 5.0)])
    assert first.rate == pytest.approx(0.23636, abs=1e-4)
    assert second.rate == pytest.approx(0.22911, abs=1e-4)


def test_microwave_by_energy() -> None:
    # C35: 0.4 kg, c 3700, 4 to 73.8889 °C, 800 W: 3.592 min at 0.60, 2.394 min at 0.90.
    chilled = 0.400 * 3700 * (73.8889 - 4)
    assert seconds_for(chilled, 800, 0.60) / 60 == pytest.approx(3.592, abs=0.005)
    assert seconds_for(chilled, 800, 0.90) / 60 == pytest.approx(2.394, abs=0.005)
    # C36: the freezing food from -18 °C: 527297 J/kg, 7.324 min; from 4 °C 251600 J/kg. Tolerance 0.05 %.
    assert heat_of(FOOD, -18, 73.8889) == pytest.approx(527_297, rel=5e-4)
    assert seconds_for(0.400 * heat_of(FOOD, -18, 73.8889), 800, 0.60) / 60 == pytest.approx(7.324, rel=5e-4)
    assert heat_of(FOOD, 4, 73.8889) == pytest.approx(251_600, rel=5e-4)
