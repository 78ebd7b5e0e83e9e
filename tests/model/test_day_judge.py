"""The judge lets a cooking day in good order stand and refuses it with every single breach planted in it."""

from __future__ import annotations

import ast
import importlib
import inspect
import sys
from pathlib import Path

import pytest
from tests.model.day_rules import broken_rules
from tests.model.planted_breaches import PLANTED_BREACHES
from tests.model.planted_day import DAY, LIVE, LIVE_SLOW, NOMINAL, SLOW, PlantedBreach

from ladleworth.cookday.answer import Measure, Timetable
from ladleworth.cookday.judge import Breach, judge, measure
from ladleworth.cookday.question import DayQuestion


def test_a_day_with_nothing_to_do_stands() -> None:
    assert judge(DayQuestion(()), Timetable(()), slow=True) == ()
    assert measure(DayQuestion(()), Timetable(())) == Measure(0, 0, 0)


def test_the_day_in_good_order_stands_at_both_paces() -> None:
    assert judge(DAY, SLOW, slow=True) == ()
    assert judge(DAY, NOMINAL, slow=False) == ()
    assert judge(LIVE, LIVE_SLOW, slow=True) == ()


def test_the_measure_is_that_worked_out_by_hand() -> None:
    # The cake is cool at 34; hands are at work from the onions at 0 to packing at 30; the stew cools for 4.
    assert measure(DAY, SLOW) == Measure(34, 30, 4)
    # At the stated pace packing ends at 29, and nothing is moved.
    assert measure(DAY, NOMINAL) == Measure(34, 29, 4)


@pytest.mark.parametrize("case", PLANTED_BREACHES, ids=lambda case: case.what)
def test_a_planted_breach_is_refused_in_the_name_of_its_rule(case: PlantedBreach) -> None:
    breaches = judge(case.question, case.timetable, slow=case.slow)
    assert {breach.rule for breach in breaches} == case.rules, breaches
    assert any(case.phrase in str(breach) for breach in breaches), breaches


@pytest.mark.parametrize(
    "case",
    [case for case in PLANTED_BREACHES if "names" not in case.rules and "half a minute" not in case.what],
    ids=lambda case: case.what,
)
def test_planted_breaches_are_found_by_the_second_writing_too(case: PlantedBreach) -> None:
    assert broken_rules(case.question, case.timetable, case.slow) == case.rules


JUDGES = ("judge", "judge_kitchen", "judge_people", "judge_times", "judge_tools")
"""The modules of the judge that find breaches."""


def test_every_place_where_the_judge_finds_a_breach_is_reached_by_a_planted_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    reached: set[tuple[str, int]] = set()
    places: set[tuple[str, int]] = set()

    def noting(rule: str, what: str) -> Breach:
        caller = sys._getframe(1)
        reached.add((str(caller.f_globals["__name__"]), caller.f_lineno))
        return Breach(rule, what)

    for name in JUDGES:
        module = importlib.import_module(f"ladleworth.cookday.{name}")
        places |= {
            (module.__name__, node.lineno)
            for node in ast.walk(ast.parse(inspect.getsource(module)))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Breach"
        }
        monkeypatch.setattr(module, "Breach", noting)
    for case in PLANTED_BREACHES:
        judge(case.question, case.timetable, slow=case.slow)
    assert len(places) >= 30
    assert reached == places


def test_no_other_module_of_the_room_finds_breaches_of_a_day() -> None:
    folder = Path(inspect.getfile(importlib.import_module("ladleworth.cookday.judge"))).parent
    finding = {
        path.stem
        for path in folder.glob("*.py")
        if " Breach(" in path.read_text(encoding="utf-8") and not path.stem.startswith("project")
    }
    assert finding == set(JUDGES)
