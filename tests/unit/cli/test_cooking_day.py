"""`cookday` for a kitchen: the list by the clock, limits, wishes, the chart, and mistakes."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from tests.unit.cli.cooking import COOKS, STEPS, SUNDAY, planned
from tests.unit.cli.kitchens import KITCHEN, accepted, loaded, run, run_json, write_kitchen

FOUR = ("--start", "16:00", *SUNDAY)


@pytest.fixture(scope="module")
def kitchen(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return planned(tmp_path_factory.mktemp("kitchen"))


def lines(text: str) -> list[str]:
    return [" ".join(line.split()) for line in text.splitlines()]


def test_the_day_is_shown_by_the_clock(kitchen: Path) -> None:
    # Both onions together take 6 + 2/3 of 6 = 10 min, 4 more fill the dish, and by 16:14 the oven has come from 21 to
    # 190 degrees at 0.2 min for ten. 40 in it, 3 to divide; meanwhile the stew is put on, in 2 min, and simmers 40: it is divided from
    # 16:57 to 16:59, cools 20 and has its lid on at 17:20. At the slow pace 12 + 5 + 40 + 4, then 3 + 20 + 2: 86.
    shown = run("cookday", kitchen, *FOUR)
    assert shown.exit_code == 0, shown.output
    text = lines(shown.stdout)
    assert any(
        line.startswith("Two on Heron Street: cooking on Sunday, 6 December 2026 (day 1)") for line in text
    )
    assert any(line.startswith("Proven shortest:") for line in text)
    joined = " ".join(text)
    assert (
        "Done and washed up at 17:20 at the stated pace; at 17:26 where all hands-on work takes 20 % longer"
        in joined
    )
    assert "Lentil stew: Soak the lentils. (160 g lentils): begin by Sun 6 Dec, 08:00" in joined
    assert "1 × baking dish, 3 l" in text
    assert any("chopped onion, for Egg rice and Lentil stew." in line for line in text)
    assert "A: 300 g rice; 4 eggs; 36 g onion" in joined
    assert any(line.endswith("A3 Bake. By itself until 16:54.") for line in text)
    assert "[oven at 190 °C, baking dish]" in text
    assert any(line.startswith("16:10 Set the oven to 190 °C.") for line in text)
    assert "Hands free until 16:54." in joined
    assert "Egg rice 17:18 18:54" in text  # out of the oven at 16:54, and two hours
    assert "(thawing-fact-sheet, read)" in joined
    assert "How it stands" in text
    assert not re.search(r"\b(is|are|be) safe\b", joined)


def test_the_same_question_gets_the_same_timetable_and_json_has_all_of_it(kitchen: Path) -> None:
    first, second = (run_json("cookday", kitchen, *FOUR, "--simulate", 50) for _ in range(2))
    for told in (first, second):
        told.pop("seconds")
    assert first == second
    assert (first["status"], first["start"]) == ("proven shortest", "2026-12-06T16:00")
    assert first["bound"] == first["measure"]["finish"] == 86
    assert first["stated_finish"] == 80
    assert {time["activity"] for time in first["timetable"]["times"]} == {
        activity["name"] for activity in first["question"]["activities"]
    }
    assert first["simulated"]["runs"] == 50
    assert [one["batch"] for one in first["limits"]] == ["Egg rice", "Lentil stew"]
    assert first["how_slow"]["percent"] >= 120


def test_without_a_start_times_count_from_the_beginning(kitchen: Path) -> None:
    text = run("cookday", kitchen, *SUNDAY).stdout
    assert "Done and washed up at 1:20 at the stated pace" in " ".join(text.split())
    assert "--start 16:00 shows them by the clock" in " ".join(text.split())
    assert run_json("cookday", kitchen, *SUNDAY)["start"] is None


def test_a_wished_end_without_a_start_gives_the_latest_start(kitchen: Path) -> None:
    told = run_json("cookday", kitchen, "--by", "19:00", *SUNDAY)
    assert told["start"] == "2026-12-06T17:34"  # 86 minutes before, at the slow pace


def test_a_wished_end_that_cannot_be_met_says_the_soonest(kitchen: Path) -> None:
    shown = run("cookday", kitchen, "--by", "17:00", *FOUR)
    assert shown.exit_code == 9
    assert "Without --by, all is done at 17:26 with hands-on work 20 % slower (no sooner)" in " ".join(
        shown.stdout.split()
    )
    assert run("cookday", kitchen, "--by", "17:26", *FOUR).exit_code == 0
    told = run("cookday", kitchen, "--by", "17:25", *FOUR, "--json")
    assert told.exit_code == 9
    document = json.loads(told.stdout)
    assert document["timetable"] is None
    assert document["soonest"]["measure"]["finish"] == 86
    assert document["why_not"]


def test_two_cooks_each_have_their_work(kitchen: Path) -> None:
    shown = run("cookday", kitchen, "--cooks", 2, *FOUR)
    assert shown.exit_code == 0
    assert "[cook 1]" in shown.stdout
    assert "[cook 2]" in shown.stdout
    assert run_json("cookday", kitchen, "--cooks", 2, *FOUR)["measure"]["finish"] < 86


def test_why_names_what_the_finish_hangs_on_and_what_would_save_time(kitchen: Path) -> None:
    shown = run("cookday", kitchen, "--why", *FOUR)
    assert shown.exit_code == 0
    text = " ".join(shown.stdout.split())
    assert "Why it takes so long" in text
    assert "the dishes' own order and times decide" in text
    told = run_json("cookday", kitchen, "--why", *FOUR)
    assert told["chain"][-1]["activities"] == ["Lentil stew: lid"]
    second = next(one for one in told["savings"] if one["words"] == "a second cook")
    with_two = run_json("cookday", kitchen, "--cooks", 2, *FOUR)["measure"]["finish"]
    assert (second["least"], second["most"]) == (86 - with_two, 86 - with_two)
    assert f"A second cook would end the day {86 - with_two} minutes sooner." in text


def test_it_fits_a_phone(kitchen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    text = run("cookday", kitchen, *FOUR).stdout
    assert max(map(len, text.splitlines())) <= 40


@pytest.mark.parametrize("way", [(), ("--portrait",)])
def test_the_chart_is_drawn_into_a_file(kitchen: Path, tmp_path: Path, way: tuple[str, ...]) -> None:
    file = tmp_path / "day.svg"
    assert run("cookday", kitchen, *FOUR, "--chart", file, *way).exit_code == 0
    root = ET.fromstring(file.read_text(encoding="utf-8"))
    said = {each.text for each in root.iter()}
    assert "Two on Heron Street: cooking on Sunday, 6 December 2026" in said
    whole = " ".join(filter(None, said))
    assert "Done and washed up at 17:20 at the stated pace, at 17:26 with hands-on work 20 % slower." in whole


def test_a_folder_is_decided_first(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=COOKS, dishes=STEPS)
    shown = run("cookday", folder, "--seconds", 5, *FOUR)
    assert shown.exit_code == 0, shown.output
    assert "By the clock" in shown.stdout
    assert "a folder keeps nothing" in shown.stdout


def test_what_is_cooked_is_not_the_next_session(kitchen: Path, tmp_path: Path) -> None:
    file = planned(tmp_path)
    assert run("buy", file, "--day", 1).exit_code == 0
    assert run("cook", file, "--day", 1).exit_code == 0
    over = run("cookday", file, *SUNDAY)
    assert over.exit_code == 8
    assert "everything that the plan cooks has been cooked; --day 1 shows a day all the same" in over.stderr
    assert run("cookday", file, "--day", 1, *SUNDAY).exit_code == 0


WRONG = {
    "no plan yet": (8, "no plan has been accepted", lambda f, t: (loaded(t), *SUNDAY)),
    "no session on that day": (3, "there is no session on day 2", lambda f, t: (f, "--day", 2, *SUNDAY)),
    "a time that is none": (2, "such as 16:05", lambda f, t: (f, "--start", "4 pm")),
    "an hour that is none": (2, "such as 16:05", lambda f, t: (f, "--by", "24:00")),
    "a chart into nowhere": (2, "make it first", lambda f, t: (f, "--chart", t / "no" / "c.svg")),
    "portrait of nothing": (2, "goes with --chart", lambda f, t: (f, "--portrait")),
    "a time for nothing": (2, "goes with --began", lambda f, t: (f, "--at", "16:00")),
    "two entries at once": (2, "make one at a time", lambda f, t: (f, "--began", "A1", "--ended", "A1")),
    "why of a moment": (2, "about a whole day", lambda f, t: (f, "--now", "--why")),
    "neither": (2, "one of the two", lambda f, t: ()),
    "both": (2, "one of the two", lambda f, t: (f, "--question", t / "q.json")),
    "a kitchen's option for a question": (
        2,
        "the other options are for a KITCHEN",
        lambda f, t: ("--question", t / "q.json", "--cooks", 2),
    ),
    "an entry in a folder": (8, "keeps nothing", lambda f, t: (write_kitchen(t / "k"), "--began", "A1")),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_cannot_be_done_is_said_once(kitchen: Path, tmp_path: Path, name: str) -> None:
    code, said, arguments = WRONG[name]
    result = run("cookday", *arguments(kitchen, tmp_path))
    assert (result.exit_code, said in result.stderr) == (code, True), result.output
    assert "Traceback" not in result.output


def test_dishes_that_do_not_say_enough_are_named_all_at_once(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    result = run("cookday", file, *SUNDAY)
    assert result.exit_code == 3
    assert "Egg rice has no steps" in result.stderr
    assert "Lentil stew has no steps" in result.stderr
    assert KITCHEN.count("equipment") == 0
