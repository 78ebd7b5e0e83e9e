"""What helpings bring, on the screen: the share in the plan, what was asked, what a clash and `--why` call it."""

from __future__ import annotations

from pathlib import Path

from tests.unit.cli.kitchens import DISHES, KITCHEN, run, run_json, write_kitchen

FAST = ("--seconds", "4", "--today", "2026-12-05")
WANTED = KITCHEN.replace(
    "  - name: Ben", "  - name: Ben\n    bounds: {fresh: {least: 50%}, protein: {least: 1 g}}"
)
SALAD = """\
- dish: Spinach rice
  portions: 1
  parts:
    - {part: rice, lines: [75 g rice]}
    - {part: leaves, lines: [60 g spinach], brings: [fresh, colour]}
"""


def words(text: str) -> str:
    return " ".join(text.split())


def test_a_plan_shows_the_share_in_percent_and_nutrients_by_themselves(tmp_path: Path) -> None:
    prices = "shop,food,package,price,seen\nCorner Shop,spinach,200 g,1.20,2026-11-29\n"
    prices += "Corner Shop,rice,2 lb,1.99,2026-11-29\nCorner Shop,egg,12,2.89,2026-11-29\n"
    folder = write_kitchen(tmp_path / "k", kitchen=WANTED, dishes=DISHES + SALAD, prices=prices)
    shown = run("decide", folder, *FAST, "--why")
    assert shown.exit_code == 0, shown.output
    text = words(shown.stdout)
    assert "What helpings bring (meals out are not counted)" in text
    assert "Nutrients, on average over an eater's helpings (meals out are not counted)" in text
    found = run_json("decide", folder, *FAST)
    shares = [one for one in found["nutrients"] if one["share"]]
    assert [(one["eater"], one["nutrient"]) for one in shares] == [("Ben", "fresh")]
    assert [one["share"] for one in found["nutrients"]] == [True, False]
    fresh = text.partition("What helpings bring (")[2].partition("Kept overnight")[0]
    assert "at least 50 %" in fresh
    assert " mg" not in fresh
    assert "fresh in at least 50 % of Ben's helpings" in text.partition("What each rule costs")[2]
    assert "what helpings bring fresh in at least 50 % of Ben's helpings" in words(
        run("decide", folder, *FAST, "--questions").stdout
    )


def test_a_clash_names_what_was_wanted_and_of_whom(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=WANTED)
    shown = run("decide", folder, *FAST)
    assert shown.exit_code == 9, shown.output
    text = words(shown.stdout)
    assert (
        "What cannot be kept together: nobody eats out and fresh in at least 50 % of Ben's helpings." in text
    )
    assert "Another: to have no limit on fresh in at least 50 % of Ben's helpings." in text
    checked = run("check", folder)
    assert "Ben wants fresh, and no dish that Ben may have brings it" in checked.stdout


def test_a_dish_says_what_it_brings(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", dishes=DISHES + SALAD)
    assert "It brings colour and fresh." in run("dish", folder, "spinach rice").stdout
    assert "It brings" not in run("dish", folder, "egg rice").stdout
    assert run_json("dish", folder, "spinach rice")["brings"] == ["colour", "fresh"]
    assert run_json("dish", folder, "egg rice")["brings"] == []
