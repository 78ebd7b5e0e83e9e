from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from bench import best_known
from bench import decide as bench
from bench.best_known import Best
from bench.measure import Measured

RUN = Measured(
    "tiny #1", "plain HiGHS", 10.0, 4310.0, 4310.0, proven=True, status="proven", seconds=2.0, mark="abc"
)
ARGUMENTS = ["tiny #1", "--methods", "plain HiGHS"]


@pytest.fixture
def table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Let the bench find one run and write to a table of its own."""
    monkeypatch.setattr(bench, "measure", lambda case, method, limit_s: replace(RUN, limit_s=limit_s))
    monkeypatch.setattr(bench, "TABLE", tmp_path / "bench.md")
    monkeypatch.setattr(best_known, "FILE", tmp_path / "known.json")
    return tmp_path / "bench.md"


def test_a_run_that_agrees_with_what_is_known_ends_well_and_is_recorded(table: Path) -> None:
    assert bench.main([*ARGUMENTS, "--limits", "5", "10", "--record"]) == 0
    lines = table.read_text().splitlines()
    assert lines[1].startswith("## ")
    assert "tiny #1: best known 43.10, bound 43.10" in lines
    assert "| plain HiGHS | 5 | 43.10 | 43.10 | 0.0 | proven | 2.0 | – | – |" in lines
    assert best_known.read()["tiny #1"].value == 4310.0


def test_a_proof_of_a_plan_that_is_not_the_best_fails_and_is_not_learnt_from(
    table: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    known = {"tiny #1": Best("abc", 4300.0, "an earlier one", 4290.0, "an earlier one")}
    best_known.write(known)
    assert bench.main([*ARGUMENTS, "--record"]) == 1
    words = "tiny #1, plain HiGHS, 10 s: 4310.0000 is called best; an earlier one found 4300.0000"
    assert words in capsys.readouterr().out
    assert f"- {words}" in table.read_text()
    assert best_known.read() == known


def test_nothing_is_written_unless_asked(table: Path) -> None:
    assert bench.main(ARGUMENTS) == 0
    assert not table.exists()
    assert not best_known.FILE.exists()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["random 31/7/2"], "no case is called 'random 31/7/2'"),
        (["--limits", "0"], "seconds must be above 0"),
    ],
)
def test_bad_arguments_are_named(
    arguments: list[str], words: str, table: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit):
        bench.main(arguments)
    assert words in capsys.readouterr().err
    assert not table.exists()
