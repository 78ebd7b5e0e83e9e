"""`ladleworth cool`: a container, readings and a neutral question, for the eye and as JSON."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from tests.unit.cli.kitchens import run, run_json, write_kitchen
from tests.unit.keep.test_cool_json import example

from ladleworth.cli.cool_options import STEW, CoolOptions, read_makeup
from ladleworth.errors import BadField
from ladleworth.keep import Case, Lid, Spot


def test_a_container_shows_outcome_limits_advice_ways_out_and_cautions() -> None:
    shown = run(
        "cool",
        "--depth",
        "4 cm",
        "--box",
        "18x13 cm",
        "--lid",
        "on",
        "--counter",
        "20 min",
        "--fridge",
        "2 C",
    )
    assert shown.exit_code == 0
    text = " ".join(shown.stdout.split())
    assert "It does not meet the retail limits of cooling. Change the plan." in text
    assert "41 °F within 6 hours in" in text
    assert "into the fridge within 2 h (thawing-fact-sheet, read); here after 20 min: in time." in text
    assert "an ice bath of" in text
    assert "a thermometer in the thickest middle decides" in text


def test_json_holds_the_forecast_the_ways_out_and_the_cautions() -> None:
    told = run_json("cool", "--depth", "15 mm", "--fan", "--fridge", "1 C", "--start", "60 C")
    assert set(told) == {"forecast", "ways_out", "calibration", "readings", "cautions"}
    assert told["readings"] is None
    limits = told["forecast"]["limits"]
    assert [limit["allowed"]["source"] for limit in limits] == [
        "food-code-cooling",
        "food-code-cooling",
        "cooling-abstracts",
    ]
    assert all(limit["middle_min"] < limit["slow_min"] for limit in limits)


def test_readings_need_no_container_and_tell_what_to_do() -> None:
    told = run_json("cool", "--reading", "2 h=80 F", "--reading", "1 h=120 F")
    assert told["forecast"] is None
    assert told["readings"]["first"] == "missed"
    shown = run("cool", "--reading", "2 h=80 F")
    assert "reheat to 165 °F (74 °C) at once" in " ".join(shown.stdout.split())


def test_a_curve_teaches_and_its_factor_can_be_told_another_time() -> None:
    box = ("cool", "--depth", "3 cm", "--fridge", "3 C", "--start", "80 C", "--counter", "20 min")
    curve = ("--curve", "60 min=61 C", "--curve", "2 h=38 C", "--curve", "3 h=24 C")
    told = run_json(*box, *curve)
    factor = told["calibration"]["factor"]
    assert 0.8 < factor < 3
    assert told["calibration"]["greatest_miss_k"] < 5
    again = run_json(*box, "--factor", factor)
    assert again["forecast"]["middle"] == pytest.approx(told["forecast"]["middle"])
    assert "write --factor" in " ".join(run(*box, *curve).stdout.split())
    assert "say its --depth" in run("cool", "--curve", "1 h=50 C").stderr


def test_a_kitchens_thermometers_are_taken_and_an_option_goes_before(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    text = (folder / "kitchen.yaml").read_text(encoding="utf-8")
    (folder / "kitchen.yaml").write_text(
        f"{text}equipment: {{fridge: 2 C, freezer: -20 C}}\n", encoding="utf-8"
    )
    around = run_json("cool", "--depth", "2 cm", "--kitchen", folder, "--freezer", "-15 C")["forecast"][
        "question"
    ]["around"]
    assert (around["fridge_c"], around["freezer_c"], around["room_c"]) == (2.0, -15.0, None)


def test_a_question_is_answered_from_a_file_and_from_what_is_piped_in(tmp_path: Path) -> None:
    file = tmp_path / "q.json"
    file.write_text(json.dumps(example()), encoding="utf-8")
    told = run_json("cool", "--question", file)
    assert set(told) == {"title", "by", "middle", "slow"}
    assert told["middle"]["readings"][1]["hottest_c"] == pytest.approx(53.348, abs=0.03)
    assert told["middle"]["limits"][1] == {
        "point": "hottest",
        "c": 5,
        "minutes": pytest.approx(803.4, rel=0.002),
    }
    shown = run("cool", "--question", file).stdout
    assert "Middle case, °C" in shown
    assert "Slow case, °C" in shown
    piped = subprocess.run(
        [
            sys.executable,
            "-c",
            "from ladleworth.cli.main import main; main(['cool', '--question', '-', '--json'])",
        ],
        input=json.dumps(example()),
        capture_output=True,
        text=True,
        check=True,
    )
    assert json.loads(piped.stdout) == told


def test_a_faulty_question_tells_every_fault_and_ends_with_three(tmp_path: Path) -> None:
    file = tmp_path / "q.json"
    file.write_text(json.dumps(example() | {"start_c": "hot", "stages": []}), encoding="utf-8")
    result = run("cool", "--question", file)
    assert result.exit_code == 3
    assert "q.json: start_c: the temperature at the start is the text 'hot'" in result.stderr
    assert "q.json: stages: stages has 0 entries; write 1 to 100" in result.stderr
    told = json.loads(run("cool", "--question", file, "--json").stdout)
    assert told["error"]["kind"] == "faulty kitchen"
    assert len(told["error"]["findings"]) == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "say --depth '4 cm' of a container"),
        (("--depth", "4"), "write one such as '4 cm'"),
        (("--depth", "4 cm", "--box", "18 cm"), "write one such as '18 x 13 cm'"),
        (("--depth", "4 cm", "--hot", "4 l"), "write one such as '4 kg'"),
        (("--depth", "4 cm", "--fridge", "cold"), "write a number and C or F"),
        (("--reading", "2 h"), "like '2 h=68 F'"),
        (("--question", "x.json", "--depth", "4 cm"), "--question takes --json"),
    ],
)
def test_a_slip_on_the_command_line_says_what_to_write(words: tuple[str, ...], said: str) -> None:
    result = run("cool", *words)
    assert result.exit_code == 2
    assert said in result.stderr


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--depth", "4 cm", "--fridge", "40 C"), "write -5 to 15 °C"),
        (("--depth", "4 cm", "--makeup", "water 50"), "the shares come to 0.5"),
        (("--depth", "4 cm", "--makeup", "water 50, salt 50"), "'salt 50' is no share of the food"),
        (("--depth", "4 cm", "--start", "15 C"), "more than 21 °C"),
        (("--depth", "4 cm", "--box", "18x13 cm", "--round", "9 cm"), "round or has sides"),
    ],
)
def test_what_cannot_be_ends_with_three(words: tuple[str, ...], said: str) -> None:
    result = run("cool", *words)
    assert result.exit_code == 3
    assert said in result.stderr


def test_options_come_to_the_plan_that_they_say() -> None:
    asked = CoolOptions(
        depth_mm=40, counter_min=20, ice_bath_min=30, stir_min=10, freezer_first_min=60, lid="touching"
    )
    posed = asked.posed(fridge_c=3.0)
    assert [(step.spot, step.minutes, step.stir_every_min) for step in posed.steps] == [
        (Spot.COUNTER, 20, None),
        (Spot.ICE_BATH, 30, 10),
        (Spot.FREEZER, 60, None),
        (Spot.FRIDGE, None, None),
    ]
    assert posed.filled.lid is Lid.TOUCHING
    assert posed.around.fridge_c == 3.0
    assert not posed.filled.counts_sides(Case.MIDDLE)


def test_a_makeup_is_read_in_per_cent() -> None:
    assert read_makeup(STEW).water == 0.75
    assert read_makeup("Water: 68%, protein 3, carbohydrate 28, fibre 1, air 20").air == 0.2
    with pytest.raises(BadField, match="each once"):
        read_makeup("water 50, water 50")
