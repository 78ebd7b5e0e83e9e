"""A cooking day on its way: what is entered, what is planned anew, and that a restart loses nothing."""

from __future__ import annotations

import shutil
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from tests.unit.cli.cooking import SUNDAY, planned
from tests.unit.cli.kitchens import run, run_json

from ladleworth.cli import options
from ladleworth.store import Store


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file whose day is planned from four o'clock and kept."""
    file = planned(tmp_path_factory.mktemp("kitchen"))
    assert run("cookday", file, "--start", "16:00", "--keep", *SUNDAY).exit_code == 0
    return file


@pytest.fixture
def file(whole: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(whole, tmp_path / "kitchen.db"))


def live(file: Path, act: str, step: str, at: str) -> Any:
    return run_json("cookday", file, f"--{act}", step, "--at", at, *SUNDAY)


def times(told: Any) -> dict[str, tuple[int, int]]:
    return {each["activity"]: (each["start"], each["end"]) for each in told["timetable"]["times"]}


def test_a_whole_day_is_entered_and_its_minutes_are_on_record(file: Path) -> None:
    live(file, "began", "chopped onion", "16:03")
    live(file, "began", "A2", "16:10")
    live(file, "ended", "A2", "16:18")
    live(file, "began", "A3", "16:18")
    told = live(file, "began", "B3", "16:19")
    assert told["running"] == ["Egg rice: 3", "Lentil stew: 3"]
    told = live(file, "ended", "B3", "16:24")
    assert told["running"] == ["Egg rice: 3", "Lentil stew: 3, by itself"]
    live(file, "began", "A divide", "16:48")
    live(file, "began", "B divide", "16:52")
    live(file, "began", "washing up", "16:55")
    live(file, "ended", "washing up", "17:01")
    live(file, "began", "A lid", "17:12")
    live(file, "began", "B lid", "17:15")
    told = live(file, "ended", "B lid", "17:16")
    assert told["running"] == []
    assert (told["now"], told["next"]) == ([], [])
    taken = {each["step"]: (each["least_min"], each["taken_min"]) for each in told["minutes"]}
    assert taken["chopped onion"] == (10, 7)
    assert taken["Egg rice: 2"] == (4, 8)
    assert taken["Lentil stew: 3"] == (2, 5)
    assert taken["Egg rice: cool"] == (20, 20)
    assert "All is done." in run("cookday", file, "--now", "--at", "17:20", *SUNDAY).stdout


def test_what_is_running_is_not_moved_and_the_rest_starts_now_or_later(file: Path) -> None:
    live(file, "began", "chopped onion", "16:00")
    told = live(file, "began", "A2", "16:20")  # ten minutes late
    assert told["now_min"] == 20
    found = times(told)
    assert found["Egg rice: 1"] == found["Lentil stew: 2"] == (0, 20)
    assert found["Egg rice: 2"][0] == 20
    begun = {"Egg rice: 1", "Lentil stew: 2", "Egg rice: 2"}
    assert all(start >= 20 for name, (start, _) in found.items() if name not in begun)
    # the dish is filled at 16:24 in place of 16:14, and from then on all goes as planned, ten minutes later
    assert max(end for _, end in found.values()) == 80 + 10


def test_the_entries_survive_a_restart_and_another_plan_does_not_see_them(file: Path) -> None:
    live(file, "began", "chopped onion", "16:03")
    with Store.open(file) as store:  # opened anew, as by another program
        (plan,) = store.plans()
        assert [(e.activity, e.what.value, f"{e.at:%H:%M}") for e in plan.day_entries] == [
            ("Egg rice: 1", "began", "16:03"),
            ("Lentil stew: 2", "began", "16:03"),
        ]
    assert run_json("cookday", file, "--now", "--at", "16:05", *SUNDAY)["running"] == [
        "Egg rice: 1",
        "Lentil stew: 2",
    ]
    assert run("decide", file, "--accept", "--seconds", 5, *SUNDAY).exit_code == 0
    told = run_json("cookday", file, "--now", "--at", "16:05", *SUNDAY)
    assert (told["plan_number"], told["running"], told["entries"]) == (2, [], [])


def test_the_timetable_that_is_kept_is_the_one_that_is_shown(file: Path) -> None:
    assert run_json("cookday", file, *SUNDAY)["start"] == "2026-12-06T16:00"
    other = run_json("cookday", file, "--start", "15:00", *SUNDAY)
    assert other["start"] == "2026-12-06T15:00"
    assert run_json("cookday", file, *SUNDAY)["start"] == "2026-12-06T16:00"


def test_an_entry_is_taken_back(file: Path) -> None:
    live(file, "began", "chopped onion", "16:03")
    told = live(file, "forget", "A1", "16:04")
    assert [(each["activity"], each["takes_back"]) for each in told["entered"]] == [
        ("Egg rice: 1", 1),
        ("Lentil stew: 2", 2),
    ]
    assert told["entries"] == []
    shown = run("cookday", file, "--began", "chopped onion", "--at", "16:05", *SUNDAY)
    assert "Entered: A1 (Egg rice: 1) began at 16:05." in shown.stdout


def test_a_day_that_nobody_kept_is_kept_with_its_first_entry(tmp_path: Path) -> None:
    file = planned(tmp_path)
    assert run("cookday", file, "--now", "--at", "17:00", *SUNDAY).exit_code == 0
    with Store.open(file) as store:
        assert store.plans()[0].cooking_days == ()
    refused = run("cookday", file, "--began", "gruel", "--at", "17:00", *SUNDAY)
    assert refused.exit_code == 3
    with Store.open(file) as store:
        assert store.plans()[0].cooking_days == ()
    told = live(file, "began", "chopped onion", "17:07")
    assert told["start"] == "2026-12-06T17:07"
    with Store.open(file) as store:
        assert len(store.plans()[0].cooking_days) == 1


def test_a_day_begun_before_its_time_counts_from_its_first_step(file: Path) -> None:
    told = live(file, "began", "chopped onion", "15:52")
    assert (told["start"], told["now_min"]) == ("2026-12-06T15:52", 0)
    told = live(file, "began", "A2", "15:58")
    assert times(told)["Egg rice: 2"][0] == 6


def test_a_limit_that_is_broken_is_named_with_the_published_advice(file: Path) -> None:
    live(file, "began", "chopped onion", "16:00")
    live(file, "began", "A2", "16:06")
    live(file, "began", "A3", "16:16")
    live(file, "ended", "A3", "16:46")
    shown = run("cookday", file, "--now", "--at", "18:50", *SUNDAY)
    assert shown.exit_code == 0
    text = " ".join(shown.stdout.split())
    assert "Missed" in text
    assert "perishable food stands out 120 min at the most" in text
    assert "throw it out (USDA FSIS refreezing advice" in text
    assert "none of this says that food is safe" in text
    assert "Egg rice" in text.split("Missed")[1]
    told = run_json("cookday", file, "--now", "--at", "18:50", *SUNDAY)
    assert [lag["limit"] for lag in told["missed_lags"]] == [True]


def test_a_limit_that_is_out_of_reach_is_hurried_and_says_what_can_be_done(file: Path) -> None:
    live(file, "began", "chopped onion", "16:00")
    live(file, "began", "A2", "16:10")
    live(file, "began", "A3", "16:14")
    live(file, "ended", "A3", "16:54")
    # From 18:31 it takes 3 to divide, 20 to cool and 1 for the lid until 18:55, and 120 minutes are over at 18:54.
    told = run_json("cookday", file, "--now", "--at", "18:31", *SUNDAY)
    assert times(told)["Egg rice: divide"][0] == 151  # at once, before anything else
    assert "121 minutes, and 120 are the most; 23 minutes of it are left" in told["missed"][0]
    text = " ".join(run("cookday", file, "--now", "--at", "18:31", *SUNDAY).stdout.split())
    assert "leave the cooling on the counter out" in text
    assert "Egg rice 18:55 18:54 not kept" in text
    early = run_json("cookday", file, "--now", "--at", "18:00", *SUNDAY)
    assert (early["missed"], early["missed_lags"]) == ([], [])


def test_a_wished_end_that_is_lost_is_said_and_the_rest_is_planned_without(tmp_path: Path) -> None:
    file = planned(tmp_path)
    kept = run("cookday", file, "--start", "16:00", "--by", "17:30", "--keep", *SUNDAY)
    assert kept.exit_code == 0
    assert live(file, "began", "chopped onion", "16:00")["late"] is False
    told = live(file, "began", "A2", "16:30")
    assert told["late"] is True
    shown = " ".join(run("cookday", file, "--now", "--at", "16:31", *SUNDAY).stdout.split())
    assert "The kitchen cannot be clean by 17:30 any more" in shown


def test_the_chart_of_a_day_on_its_way_shows_now(file: Path, tmp_path: Path) -> None:
    drawn = tmp_path / "day.svg"
    live(file, "began", "chopped onion", "16:00")
    assert run("cookday", file, "--now", "--at", "16:05", "--chart", drawn, *SUNDAY).exit_code == 0
    assert "now 16:05" in drawn.read_text(encoding="utf-8")


WRONG = {
    "a step that is none": (("--began", "A9"), "did you mean A"),
    "an end before the beginning": (("--ended", "A3"), "has not begun"),
    "a beginning twice": (("--began", "A1"), "was begun at 16:00 already"),
    "nothing to forget": (("--forget", "A3"), "nothing is entered"),
    "an empty name": (("--began", ""), "no step is called ''"),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_mistake_gets_one_message_and_enters_nothing(file: Path, name: str) -> None:
    live(file, "began", "chopped onion", "16:00")
    arguments, said = WRONG[name]
    result = run("cookday", file, *arguments, "--at", "16:05", *SUNDAY)
    assert result.exit_code == 3
    assert said in result.stderr
    assert len(result.stderr.splitlines()) == 1
    with Store.open(file) as store:
        assert len(store.plans()[0].day_entries) == 2


def test_times_by_the_clock_are_those_that_have_been(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    clock = datetime(2026, 12, 6, 16, 4, 30)  # noqa: DTZ001  # the kitchen's clock

    def read() -> datetime:
        return clock

    monkeypatch.setattr(options, "clock_now", read)
    told = run_json("cookday", file, "--began", "chopped onion")
    assert [each["at"] for each in told["entries"]] == ["2026-12-06T16:04", "2026-12-06T16:04"]
    assert told["entries"][0]["entered"] == "2026-12-06T16:04:30"
    early = run("cookday", file, "--ended", "A1", "--at", "16:30")
    assert early.exit_code == 2
    assert "16:30 is still to come, it is 16:04" in early.stderr
    clock += timedelta(hours=8)
    late = run_json("cookday", file, "--ended", "A1", "--at", "23:59")
    assert late["entries"][-1]["at"] == "2026-12-06T23:59"
