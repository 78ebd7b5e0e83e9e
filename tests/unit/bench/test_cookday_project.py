from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from bench import cookday_project as bench
from bench.cookday_project import ALL, OURS, SAME, Outcome, faults, main
from bench.project_cases import Case, cases_of, random_case, shop_project, small_case

from ladleworth.cookday.answer import Status
from ladleworth.cookday.project import Anchor
from ladleworth.cookday.project_model import schedule

CASE = Case("job shop", "a shop", shop_project([[(0, 3), (1, 2)], [(1, 4), (0, 1)]]), optimum=5)
ENDS = {
    OURS: Outcome(proven=True, makespan=5, seconds=1.0),
    SAME: Outcome(proven=True, makespan=5, seconds=2.0),
}


@pytest.fixture
def table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Let the bench write to a table of its own, as if PyJobShop were there and gave what we give."""
    monkeypatch.setattr(bench, "TABLE", tmp_path / "bench.md")
    monkeypatch.setattr(bench, "theirs", lambda workers: bench.ours)
    monkeypatch.setattr(
        bench.importlib.util, "find_spec", lambda name: None if name == "job_shop_lib" else True
    )
    monkeypatch.setattr(bench, "version", lambda tool: "1")
    return tmp_path / "bench.md"


def test_a_run_is_shown_and_recorded(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["10 activities", "--count", "2", "--repeat", "2", "--record"]) == 0
    lines = table.read_text(encoding="utf-8").splitlines()
    assert lines[1].startswith("## Projects, ")
    rows = [line.split(" | ") for line in lines if line.startswith("| 10 activities")]
    assert [row[2] for row in rows] == [OURS, SAME, ALL]
    assert all(row[1] == row[3] == "2" for row in rows)
    assert [row[-1] == "– |" for row in rows] == [True, False, False]
    assert "Nothing contradicts." in lines
    assert "\n".join(lines[1:5]) in capsys.readouterr().out


def test_nothing_is_written_unless_asked(table: Path) -> None:
    assert main(["10 activities", "--count", "1", "--methods", OURS]) == 0
    assert not table.exists()


def test_what_is_not_installed_is_left_out_and_said(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["job shop"])
    told = capsys.readouterr()
    assert "the package job-shop-lib is not installed; install the dependency group `bench`" in told.out
    assert "nothing is left to measure" in told.err


def test_a_family_that_is_none_is_refused(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["11 activities"])
    assert "no family is called '11 activities'" in capsys.readouterr().err


def test_what_agrees_is_no_fault() -> None:
    assert faults(CASE, ENDS) == []
    assert (
        faults(replace(CASE, optimum=None), ENDS | {ALL: Outcome(proven=False, makespan=None, seconds=9)})
        == []
    )


@pytest.mark.parametrize(
    ("outcome", "words"),
    [
        (Outcome(proven=True, makespan=6, seconds=1), f"a shop, {ALL}: 6 is called proven; 5 is known"),
        (
            Outcome(proven=True, makespan=None, seconds=1),
            f"a shop, {ALL}: impossible is called proven; 5 is known",
        ),
        (Outcome(proven=False, makespan=5, seconds=1, breaches=("[lags] x",)), f"a shop, {ALL}: [lags] x"),
    ],
)
def test_what_contradicts_is_named(outcome: Outcome, words: str) -> None:
    assert faults(CASE, ENDS | {ALL: outcome}) == [words]


def test_a_makespan_below_the_published_one_is_named_and_contradicts_the_others() -> None:
    told = faults(CASE, ENDS | {ALL: Outcome(proven=True, makespan=4, seconds=1)})
    assert f"a shop, {ALL}: 4 is below the published 5" in told
    assert len(told) == 3


def test_the_invented_cases_stay_the_same_and_have_both_kinds_of_end() -> None:
    assert random_case(10, 3) == random_case(10, 3)
    assert small_case(3) == small_case(3)
    for family in ("10 activities", "small capacities"):
        cases = list(cases_of(family, 12))
        assert {schedule(case.project, seconds=60).status for case in cases} == {
            Status.PROVEN,
            Status.IMPOSSIBLE,
        }
        lags = [lag for case in cases for lag in case.project.lags]
        assert {(lag.first_anchor, lag.second_anchor) for lag in lags} == {
            (a, b) for a in Anchor for b in Anchor
        }
        assert any(lag.greatest is not None for lag in lags)


def test_both_are_asked_the_same() -> None:
    pytest.importorskip("pyjobshop", reason="it is in the dependency group `bench`")
    for case in (CASE, *cases_of("10 activities", 6), *cases_of("small capacities", 6)):
        mine, its = bench.ours(case.project, 60), bench.theirs(1)(case.project, 60)
        assert (mine.proven, mine.makespan) == (its.proven, its.makespan)
        assert its.breaches == ()
