"""Scoops, headspace and layers: the tables hold together, and a name that is none is refused."""

from __future__ import annotations

import csv
from fractions import Fraction
from importlib.resources import files

import pytest

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts import food_table
from ladleworth.facts.headspace import headspace, headspaces
from ladleworth.facts.layers import Goes, layering, layerings
from ladleworth.facts.records import BASES
from ladleworth.facts.scoops import Scoop, scoop, scoops
from ladleworth.facts.texture import ComesOut, Route, textures
from ladleworth.household.rules import Container

DATA = files("ladleworth.facts") / "data"


@pytest.mark.parametrize("name", ["scoops", "headspace", "layers"])
def test_every_row_names_a_source_of_the_list_and_how_it_was_come_by(name: str) -> None:
    rows = list(csv.DictReader((DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()))
    assert rows
    for row in rows:
        assert food_table().source(row["source"]).title
        assert row["basis"] in BASES
        assert (row["basis"] == "common practice") == (row["source"] == "common-practice")
        assert (row["basis"] == "memory") == (row["source"] == "kitchen-memory")


def test_a_scoop_that_is_none_is_refused_with_those_that_are() -> None:
    assert [*scoops()] == sorted(scoops())
    with pytest.raises(BadField, match="no scoop has the number 9; there are 4, 5, 6, 8, 10"):
        scoop(9)
    with pytest.raises(BadField, match="write 1 or more"):
        Scoop(0, "", "icn-measures", "read")
    with pytest.raises(BadField, match="basis 'guess' is not known"):
        Scoop(8, "", "icn-measures", "guess")


def test_headspace_between_a_pint_and_a_quart_and_above_is_the_quarts() -> None:
    assert [headspace(size).value for size in (1, 473, 474, 946, 5000)] == [
        Fraction("12.7"), Fraction("12.7"), Fraction("25.4"), Fraction("25.4"), Fraction("25.4"),
    ]  # fmt: skip
    with pytest.raises(MissingFact, match="nobody has the headspace of a juice pack with a wide opening"):
        headspace(500, "juice")
    assert {pack for pack, _ in headspaces()} == {"liquid", "dry"}


@pytest.mark.parametrize("size", [250, 473, 474, 750, 2000])
def test_the_plan_leaves_the_same_headspace(size: int) -> None:
    # what the week plans with (household.rules) and what dividing fills by are one rule
    depth = 100
    assert Container(size, 1, depth).capacity_ml(Fraction(0)) == int(
        size * (1 - headspace(size).value / depth)
    )


def test_layers_are_of_kinds_and_routes_that_the_table_of_textures_has() -> None:
    for kind, route in layerings():
        assert kind in textures()
        assert route in (Route.CHILLED, Route.FROZEN)
    assert {row.goes for row in layerings().values()} == {Goes.IN_SAUCE, Goes.TOP, Goes.SIDE}


def test_what_the_table_of_textures_keeps_apart_is_kept_apart_by_the_same_source() -> None:
    for kind, routes in textures().items():
        for route in (Route.CHILLED, Route.FROZEN):
            told = routes.get(route)
            if told is None or "apart" not in told.differently or "or keep it apart" in told.differently:
                continue
            row = layering(kind, route)
            assert row is not None, kind
            assert row.goes is Goes.SIDE or row.sauce_apart, kind
            assert row.source == told.source, kind


def test_what_fails_in_the_freezer_and_is_added_afterwards_goes_to_the_side() -> None:
    fails = [
        kind
        for kind, routes in textures().items()
        if (told := routes.get(Route.FROZEN)) is not None
        and told.comes_out is ComesOut.FAILS
        and ("add" in told.differently or "after reheating" in told.differently)
    ]
    assert len(fails) >= 8
    for kind in fails:
        row = layering(kind, Route.FROZEN)
        assert row is not None, kind
        assert row.goes is Goes.SIDE, kind
