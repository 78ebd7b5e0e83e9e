"""Life beside the plan: bought on a whim, eaten otherwise, papers changed, and a week that is under way."""

from __future__ import annotations

import json
from pathlib import Path

from tests.unit.cli.kitchens import DISHES, KITCHEN, PRICES, accepted, loaded, run, run_json, write_kitchen

SUNDAY = ("--today", "2026-12-06")
FAST = ("--seconds", 5, "--today", "2026-12-05")


def test_what_is_bought_on_a_whim_becomes_a_lot_with_its_last_day_and_price(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    made = run_json("bring", file, "onion", "500 g", "0.80", "--shop", "Market hall", *SUNDAY)["lots"][0]
    assert (made["item"], made["quantity"], made["cents"], made["shop"]) == (
        "onion",
        500_000,
        80,
        "Market hall",
    )
    assert made["use_by"] == "2026-12-19"  # the kitchen's own 14 days, the day of buying as day 1
    shown = run("bring", file, "egg", "6", "2.00", "--use-by", "2026-12-20", "--place", "cupboard", *SUNDAY)
    assert shown.exit_code == 0, shown.output
    assert "egg-1206: 6 pieces worth 2.00, cupboard, until Sunday, 20 December 2026" in shown.stdout


def test_a_gift_costs_nothing_and_keeps_what_it_would_have_cost(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    made = run_json("bring", file, "onion", "500 g", "0.80", "--gift", "--day", "2026-12-07", *SUNDAY)[
        "lots"
    ][0]
    assert (made["cents"], made["shelf_cents"], made["gift"], made["got_on"]) == (0, 80, True, "2026-12-07")
    assert run_json("bring", file, "egg", "1", "--gift", *SUNDAY)["lots"][0]["shelf_cents"] is None


def test_what_cannot_be_brought_in_is_refused_and_changes_nothing(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    before = run_json("history", file)["movements"]
    for given, code, said in (
        (("onion", "500 g"), 3, "write what all of it cost, or --gift"),
        (("onion", "0 g", "1.00"), 3, "is nothing"),
        (("onyon", "1 kg", "1.00"), 4, "onion"),
        (("onion", "1 kg", "1.00", "--use-by", "2026-12-01"), 3, "is before 2026-12-06"),
        (("mussels", "1 kg", "1.00"), 4, "give --use-by"),
    ):
        result = run("bring", file, *given, *SUNDAY)
        assert (result.exit_code, said in result.stderr) == (code, True), result.output
    assert run_json("history", file)["movements"] == before


def test_a_price_that_was_seen_is_what_the_next_plan_goes_by(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    offer = run_json("price", file, "Corner Shop", "lentils", "500 g", "0.99", "--seen", "2026-12-05")[
        "offer"
    ]
    assert (offer["price_cents"], offer["quantity"], offer["id"]) == (99, 500_000, "lentils-4")
    told = run_json("prices", file, "lentils")["foods"][0]["offers"][0]
    assert (told["offer"]["price_cents"], told["history"]["seen"]) == (99, 3)
    said = run("price", file, "Corner Shop", "egg", "6", "1.50", *SUNDAY).stdout
    assert "egg at Corner Shop, 6 pieces for 1.50, seen 2026-12-06: 0.250 USD per piece" in said
    assert run("price", file, "Corner Shop", "egg", "0", "1.50", *SUNDAY).exit_code == 3


def test_a_meal_that_was_not_eaten_is_left_out_and_the_others_are_entered(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    assert run("buy", file, "--day", 1).exit_code == 0
    assert run("cook", file, "--day", 1).exit_code == 0
    shown = run("eat", file, "--day", 1, "--skip", "Ben dinner")
    assert shown.exit_code == 0, shown.output
    assert "left out" in shown.stdout
    eaten = [e for e in run_json("history", file)["movements"] if e["kind"] == "eaten"]
    assert [(e["who"], e["note"]) for e in eaten] == [("Ada", "dinner")]
    wrong = run("eat", file, "--day", 2, "--skip", "Cleo dinner")
    assert (wrong.exit_code, "name one of Ada dinner, Ben dinner" in wrong.stderr) == (3, True)


def test_a_missing_portion_is_named_with_the_way_to_leave_it_out(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    for act in ("buy", "cook"):
        assert run(act, file, "--day", 1).exit_code == 0
    for lot in run_json("onhand", file, *SUNDAY)["lots"]:
        if lot["unit"] == "portion":
            assert run("throw", file, lot["lot"], "--why", "spilt", *SUNDAY).exit_code == 0
    before = run_json("history", file)["movements"]
    refused = run("eat", file, "--day", 1)
    assert refused.exit_code == 5
    assert "--skip 'Ada dinner' --skip 'Ben dinner'" in refused.stderr
    assert run_json("history", file)["movements"] == before


def test_another_portion_is_eaten_in_place_of_the_planned_one(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    for act in ("buy", "cook"):
        assert run(act, file, "--day", 1).exit_code == 0
    lots = [lot["lot"] for lot in run_json("onhand", file, *SUNDAY)["lots"] if lot["unit"] == "portion"]
    done = run_json("eat", file, "--day", 1, "--instead", f"Ben dinner={lots[-1]}")
    assert done["entered"][1]["movements"][0]["lot"] == lots[-1]
    refused = run("eat", file, "--day", 2, "--instead", "Ben dinner=rice")
    assert (refused.exit_code, "holds no portions" in refused.stderr) == (5, True)
    assert run("eat", file, "--day", 2, "--instead", "Ben dinner").exit_code == 2


def test_a_plan_over_days_already_lived_is_refused_with_the_day_to_start_on(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    for act in ("buy", "cook", "eat"):
        assert run(act, file, "--day", 1).exit_code == 0
    for more in (("--accept",), ()):
        refused = run("decide", file, *more, *FAST)
        assert refused.exit_code == 5
        assert "--start 2026-12-07" in refused.stderr
    later = run("decide", file, "--accept", *FAST, "--start", "2026-12-07", "--days", 7)
    assert later.exit_code in (0, 9), later.output


def test_papers_are_taken_anew_and_the_history_stays(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    assert run("throw", file, "spinach", "--why", "spoiled", *SUNDAY).exit_code == 0
    before = run_json("history", file)["movements"]
    changed = KITCHEN.replace("containers: 6", "containers: 5").replace("Two on", "Three on")
    folder = write_kitchen(tmp_path / "new", kitchen=changed)
    assert "with --papers" in run("load", folder, file).stderr
    assert run("load", folder, file, "--papers").exit_code == 0
    assert run_json("onhand", file, *SUNDAY)["kitchen"] == "Three on Heron Street"
    assert run_json("history", file)["movements"] == before
    assert run("load", folder, tmp_path / "none.db", "--papers").exit_code == 7


def test_a_lot_that_is_none_names_the_nearest_and_a_food_with_one_lot_names_it(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    refused = run("throw", file, "spinach soup", "--why", "spoiled", *SUNDAY)
    assert (refused.exit_code, "did you mean 'spinach'?" in refused.stderr) == (5, True)
    assert run("count", file, "eggs", "4", "--why", "one broke", *SUNDAY).exit_code == 0
    assert "'egg' or 'egg-1206'" not in run("history", file, "--lot", "eggs").stdout


def test_undo_numbers_the_entries_that_rest_on_it_in_the_order_to_undo_them(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    for act, on in (("buy", 1), ("cook", 1), ("eat", 1), ("eat", 2), ("eat", 3)):
        assert run(act, file, "--day", on).exit_code == 0
    entries = run_json("history", file)["movements"]
    bought = next(e["id"] for e in entries if e["kind"] == "bought")
    eaten = [e["id"] for e in entries if e["kind"] == "eaten"]
    refused = run("undo", file, bought, "--today", "2026-12-08")
    assert refused.exit_code == 5
    numbers = [int(n) for n in refused.stderr.partition("on it: ")[2].partition(";")[0].split(", ")]
    assert numbers == sorted(numbers, reverse=True)
    assert set(numbers) <= {e["id"] for e in entries}
    assert set(numbers) & set(eaten)
    for number in numbers:
        assert run("undo", file, number, "--today", "2026-12-08").exit_code == 0
    assert run("undo", file, bought, "--today", "2026-12-08").exit_code == 0


def test_decide_says_how_many_doubts_there_are_and_keeps_them_in_its_document(tmp_path: Path) -> None:
    dishes = DISHES + "- dish: Shakshuka\n  per_portion: {egg: 1, cumin: 1 g}\n"
    folder = write_kitchen(tmp_path / "k", dishes=dishes)
    shown = run("decide", folder, *FAST)
    assert f"1 doubt; ladleworth check {folder} lists them" in shown.stderr
    (found,) = json.loads(run("decide", folder, *FAST, "--json").stdout)["findings"]
    assert "so Shakshuka cannot be cooked" in found["what"]
    assert "doubt" not in run("decide", write_kitchen(tmp_path / "good"), *FAST).stderr


def test_a_kitchen_in_which_nothing_can_be_cooked_is_told_so_by_name(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", prices=None, stock=None)
    shown = run("decide", folder, *FAST)
    assert shown.exit_code == 9
    assert "None of the dishes can be cooked: Lentil stew, Egg rice." in shown.stdout


def test_a_name_that_fits_several_foods_shows_each_of_them(tmp_path: Path) -> None:
    more = PRICES + "Corner Shop,lentils-red,500 g,1.99,2026-11-29\n"
    told = run_json("prices", write_kitchen(tmp_path / "k", prices=more), "lentils")
    assert [food["food"] for food in told["foods"]] == ["lentils", "lentils-red"]


def test_an_offer_is_paid_once(tmp_path: Path) -> None:
    result = run("buy", accepted(tmp_path), "--day", 1, "--paid", "x=1.00", "--paid", "x=2.00")
    assert (result.exit_code, "is paid twice" in result.stderr) == (2, True)


def test_days_of_another_year_bear_it_and_those_of_the_plans_do_not(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    assert "Sat 12 Dec  6 d" in run("onhand", file, *SUNDAY).stdout
    assert (
        run(
            "bring", file, "egg", "6", "2.00", "--use-by", "2027-01-03", "--place", "fridge", *SUNDAY
        ).exit_code
        == 0
    )
    shown = run("onhand", file, *SUNDAY).stdout
    assert "Sun 3 Jan 2027" in shown
    assert "Sat 12 Dec 2026  6 d" in shown


def test_meals_are_entered_and_shown_in_the_order_of_the_day(tmp_path: Path) -> None:
    file = accepted(
        tmp_path,
        kitchen=KITCHEN.replace("[dinner]", "[lunch, dinner]").replace("containers: 6", "containers: 12"),
    )
    for act in ("buy", "cook"):
        assert run(act, file, "--day", 1).exit_code == 0
    lines = [
        line.split()[0]
        for line in run("eat", file, "--day", 1).stdout.splitlines()
        if "Ada" in line or "Ben" in line
    ]
    assert lines == ["lunch", "lunch", "dinner", "dinner"]
    notes = [e["note"] for e in run_json("history", file)["movements"] if e["kind"] == "eaten"]
    assert notes == sorted(notes, reverse=True)


def test_the_thaw_legend_stands_only_beside_a_star(tmp_path: Path) -> None:
    fresh = run("decide", write_kitchen(tmp_path / "k"), *FAST).stdout
    assert ("thaw it" in fresh) == (" *" in fresh)
    no_freezer = run(
        "decide",
        write_kitchen(tmp_path / "n", kitchen=KITCHEN.replace("freezer_places: 4", "freezer_places: 0")),
        *FAST,
    ).stdout
    assert "Who eats what\n" in no_freezer
    assert "thaw it" not in no_freezer


def test_the_value_and_the_bound_are_explained_and_both_figures_of_what_is_carried_stand_together(
    tmp_path: Path,
) -> None:
    folder = write_kitchen(tmp_path / "k", kitchen=KITCHEN + "additions:\n  carried: 50%\n")
    shown = " ".join(run("decide", folder, *FAST).stdout.split())
    assert "Value: tills, trips, spoilt and meals out" in shown
    assert "Bound: no plan can have less." in shown
    told = json.loads(run("decide", folder, *FAST, "--json").stdout)
    (counted,) = [-row["cents"] for row in told["costs_table"]["rows"] if "carried" in row["label"]]
    full = told["costs_cents"]["carried"]["approx"] / 50
    assert f"counts at 50 % of its cost: {counted / 100:.2f} of {full:.2f}." in shown


def test_a_batch_for_which_nothing_was_bought_has_no_cart(tmp_path: Path) -> None:
    dishes = "- dish: Egg rice\n  least: 1\n  greatest: 1\n  per_portion: {rice: 75 g, egg: 1}\n"
    kitchen = KITCHEN.replace("days: 3", "days: 1").replace("  - name: Ben\n", "")
    file = accepted(tmp_path, kitchen=kitchen, dishes=dishes)
    for act in ("buy", "cook"):
        assert run(act, file, "--day", 1).exit_code == 0
    line = next(row for row in run("reckon", file).stdout.splitlines() if "Egg rice (day 1)" in row)
    assert line.split()[-1] == "–"


ODD = "- dish: Odd\n  per_portion: {zorb: 1, potato: 100 g}\n"
ZORB = "- food: zorb\n  measured_in: pieces\n  keep_days: 5\n"


def test_what_a_dish_weighs_names_what_it_leaves_out_and_is_never_zero_for_unknown(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", dishes=ODD, foods=ZORB)
    shown = " ".join(run("dish", folder, "Odd", "--cooked", "potato=fried").stdout.split())
    assert "What it weighs is not known, for want of a figure of zorb, potato." in shown
    assert "nobody has the yield of 'potato' when fried" in shown
    boiled = " ".join(run("dish", folder, "Odd").stdout.split())
    assert "a portion, which leaves out zorb, for want of a figure" in boiled
    assert "At least 0.0 g a portion" in boiled
    refused = run("dish", folder, "Odd", "--cooked", "carrot=boiled")
    assert (
        refused.exit_code,
        "takes no carrot; with --cooked, name one of zorb, potato" in refused.stderr,
    ) == (3, True)


def test_the_salt_of_a_dish_of_which_nothing_is_known_is_not_zero(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", dishes="- dish: Odd\n  per_portion: {zorb: 1}\n", foods=ZORB)
    shown = run("dish", folder, "Odd").stdout
    assert "Not known, for want of an amount or a figure of zorb." in shown
    assert "0 g" not in shown.replace("100 g", "")


def test_meals_eaten_out_for_want_of_a_food_say_which(tmp_path: Path) -> None:
    kitchen = KITCHEN + "  meal_out: 7.50\n"
    folder = write_kitchen(tmp_path / "k", kitchen=kitchen, prices=None, stock=None)
    shown = " ".join(run("decide", folder, *FAST).stdout.split())
    assert "None of the dishes can be cooked: Lentil stew, Egg rice." in shown
    assert "No shop has egg and none is on hand, so Egg rice cannot be cooked." in shown


def test_the_salt_and_weight_that_nobody_knows_are_null_in_the_document(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", dishes="- dish: Odd\n  per_portion: {zorb: 1}\n", foods=ZORB)
    told = run_json("dish", folder, "Odd")
    assert (told["weight_mg"], told["salt_g_per_portion"]) == (None, None)


def test_a_plan_whose_dish_has_left_the_papers_has_to_be_decided_anew(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    folder = write_kitchen(tmp_path / "new", dishes="- dish: Plain rice\n  per_portion: {rice: 75 g}\n")
    assert run("load", folder, file, "--papers").exit_code == 0
    for command in (("buy", file, "--day", 1), ("cook", file, "--day", 1), ("reckon", file)):
        refused = run(*command)
        assert (refused.exit_code, "decide anew with --accept" in refused.stderr) == (8, True)
    assert run("decide", file, "--accept", *FAST).exit_code in (0, 9)


def test_a_food_that_a_kitchen_in_use_lacks_is_had_after_bring_or_price(tmp_path: Path) -> None:
    file = loaded(
        tmp_path,
        stock=None,
        prices="shop,food,package,price\nS,lentils,1 kg,2\nS,onion,1 kg,1\nS,rice,1 kg,2\n",
    )
    (doubt,) = run_json("check", file)["doubts"]
    assert "so Egg rice cannot be cooked" in doubt["what"]
    assert "`ladleworth bring`" in doubt["remedy"]
    assert run("bring", file, "egg", "6", "2.00", *SUNDAY).exit_code == 0
    assert run_json("check", file)["doubts"] == []


def test_a_day_eaten_twice_is_one_short_message(tmp_path: Path) -> None:
    file = accepted(tmp_path)
    for act in ("buy", "cook", "eat"):
        assert run(act, file, "--day", 1).exit_code == 0
    refused = run("eat", file, "--day", 1)
    assert refused.exit_code == 5
    assert "day 1 has been eaten already (Ada dinner, Ben dinner); undo those entries first" in refused.stderr
    assert "--skip" not in refused.stderr
