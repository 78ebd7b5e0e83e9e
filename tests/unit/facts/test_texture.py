"""The table of textures holds together, and is looked up without a guess."""

from __future__ import annotations

import csv
from importlib.resources import files

import pytest

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts import food_table
from ladleworth.facts.texture import ComesOut, Route, Texture, texture, textures

DATA = files("ladleworth.facts") / "data"


def rows() -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / "texture.csv").read_text(encoding="utf-8").splitlines()))


def test_every_row_names_a_source_of_the_list() -> None:
    for row in rows():
        assert food_table().source(row["source"]).title, row


def test_no_kind_has_two_rows_for_a_route() -> None:
    pairs = [(row["kind"], row["route"]) for row in rows()]
    assert len(set(pairs)) == len(pairs) == sum(len(routes) for routes in textures().values())


def test_what_is_common_practice_or_from_memory_says_so_in_source_and_basis() -> None:
    for row in rows():
        assert (row["source"] == "common-practice") == (row["basis"] == "common practice"), row
        assert (row["source"] == "kitchen-memory") == (row["basis"] == "memory"), row


def test_what_fails_says_what_to_do_instead() -> None:
    fails = [row for row in rows() if row["comes_out"] == "fails"]
    assert len(fails) > 15
    assert all(row["goes_wrong"] and row["differently"] for row in fails)


@pytest.mark.parametrize(
    ("kind", "comes_out"),
    [
        # National Center for Home Food Preservation, Foods That Do Not Freeze Well: boiled potatoes are soft,
        # crumbling, watery, mealy; cooked egg white is spongy and rubbery; sour cream splits.
        ("potato pieces", ComesOut.FAILS),
        ("hard-cooked egg", ComesOut.FAILS),
        ("yogurt or sour cream sauce", ComesOut.FAILS),
        # Oregon State University Extension SP 50-766: a milk sauce may curdle or split; poor, not to be avoided.
        ("milk sauce", ComesOut.CHANGES),
        # University of Georgia Extension, Freezing Prepared Foods: undercook pasta within a dish slightly.
        ("pasta in sauce", ComesOut.CHANGES),
        ("curry or chili", ComesOut.HOLDS),
    ],
)
def test_published_advice_on_freezing_is_kept(kind: str, comes_out: ComesOut) -> None:
    assert texture(kind, Route.FROZEN).comes_out is comes_out


def test_a_kind_that_is_not_known_is_refused_and_a_route_that_nobody_tells_of_is_missing() -> None:
    with pytest.raises(
        BadField, match="no kind of food is called 'pasta sauce'; the kinds are pasta in sauce"
    ):
        texture("pasta sauce", Route.FROZEN)
    with pytest.raises(MissingFact, match="nobody says how risotto comes out microwaved"):
        texture("risotto", Route.MICROWAVED)


def test_a_row_that_holds_and_goes_wrong_at_once_is_refused() -> None:
    with pytest.raises(BadField, match="say what goes wrong, or that it holds, but not both"):
        Texture("x", Route.CHILLED, ComesOut.HOLDS, "it weeps", "", "common-practice", "common practice")
    with pytest.raises(BadField, match="say what goes wrong"):
        Texture("x", Route.CHILLED, ComesOut.FAILS, "", "", "common-practice", "common practice")
    with pytest.raises(BadField, match="names no source"):
        Texture("x", Route.CHILLED, ComesOut.HOLDS, "", "", "", "read")
    with pytest.raises(BadField, match="basis 'heard' is not known"):
        Texture("x", Route.CHILLED, ComesOut.HOLDS, "", "", "own", "heard")
