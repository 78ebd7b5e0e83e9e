"""Every command on a tiny kitchen: what it prints for the eye, and as JSON."""

from __future__ import annotations

import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from tests.unit.cli.kitchens import cents, loaded, run, run_json, write_kitchen

from ladleworth import errors
from ladleworth.cli.decide import NO_PLAN, OUT_OF_TIME
from ladleworth.cli.ending import INTERRUPTED, USAGE, kind_of
from ladleworth.cli.main import COMMANDS, main

SUNDAY = ("--today", "2026-12-06")


def test_help_imports_no_solver_no_tables_and_no_database() -> None:
    code = (
        "import sys\nfrom ladleworth.cli.main import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        "print([m for m in ('highspy', 'numpy', 'rich', 'ruamel', 'rapidfuzz', 'sqlite3', 'ladleworth.week')"
        " if any(n == m or n.startswith(m + '.') for n in sys.modules)], file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"
    assert "decide" in done.stdout


@pytest.mark.parametrize("name", [name for section in COMMANDS.values() for name in section])
def test_the_short_help_of_a_command_is_the_one_in_the_list(name: str) -> None:
    line = next(section[name][1] for section in COMMANDS.values() if name in section)
    command = main.get_command(None, name)  # type: ignore[arg-type]
    assert command is not None
    assert command.help is not None
    assert command.help.split("\n")[0] == line
    assert command.name == name


@pytest.mark.parametrize("name", [name for section in COMMANDS.values() for name in section])
def test_every_command_takes_json_and_stands_in_the_docs(name: str) -> None:
    shown = run(name, "--help")
    assert shown.exit_code == 0
    assert "--json" in shown.stdout
    docs = Path(__file__).parents[3] / "docs" / "cli.md"
    assert f"### {name}\n" in docs.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", [name for section in COMMANDS.values() for name in section])
def test_every_option_of_a_command_stands_in_its_part_of_the_docs(name: str) -> None:
    docs = (Path(__file__).parents[3] / "docs" / "cli.md").read_text(encoding="utf-8")
    part = docs.split(f"### {name}\n")[1].split("\n### ")[0].split("\n## ")[0]
    command = main.get_command(None, name)  # type: ignore[arg-type]
    assert command is not None
    options = {option for parameter in command.params for option in parameter.opts if option.startswith("--")}
    shared = {"--json", "--today", "--seconds", "--seed", "--start", "--days", "--without", "--help"}
    assert [option for option in sorted(options - shared) if f"`{option}" not in part] == []


def test_the_docs_list_every_exit_code_and_kind_of_error() -> None:
    docs = (Path(__file__).parents[3] / "docs" / "cli.md").read_text(encoding="utf-8")
    codes = set(map(int, re.findall(r"^\| ([0-9]+) \|", docs, re.MULTILINE)))
    leaves = [
        kind for kind in vars(errors).values() if isinstance(kind, type) and issubclass(kind, Exception)
    ]
    ours = {kind.exit_code for kind in leaves if issubclass(kind, errors.LadleworthError)}
    assert codes == ours | {0, USAGE, NO_PLAN, OUT_OF_TIME, INTERRUPTED}
    for kind in leaves:
        if kind is not errors.LadleworthError:
            assert f"`{kind_of(kind('x') if kind is not errors.FaultyKitchen else kind([]))}`" in docs


def test_check_lists_faults_then_doubts_with_file_line_and_remedy(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", stock="food,amount,cost,use_by\nryce,1 kg,1,none\negg,0,1,none\n")
    result = run("check", folder)
    assert result.exit_code == 3
    lines = result.stdout.splitlines()
    assert lines[0].startswith("fault  ")
    assert "stock.csv:2" in lines[0]
    assert "did you mean" in lines[2]
    assert [line.split()[0] for line in lines if line[:5] in ("fault", "doubt")] == ["fault", "doubt"]
    assert lines[-1].startswith("1 fault, 1 doubt:")


def test_check_of_a_good_folder_says_what_is_in_it(tmp_path: Path) -> None:
    result = run("check", write_kitchen(tmp_path / "k"))
    assert result.exit_code == 0
    assert "0 faults, 0 doubts: Two on Heron Street, 2 dishes, 3 lots on hand, 6 prices" in result.stdout


def test_check_reads_a_kitchen_file_as_well(tmp_path: Path) -> None:
    assert run_json("check", loaded(tmp_path))["faults"] == []


def test_facts_shows_every_figure_with_its_basis_and_source() -> None:
    result = run("facts", "rice")
    assert result.exit_code == 0
    assert re.search(r"protein_g\s+7\.13 g/100 g\s+read\s+\[1\]", result.stdout)
    assert "[1] USDA National Nutrient Database" in result.stdout
    rows = run_json("facts", "rice")["foods"][0]["rows"]
    assert {"about": "in 100 g", "detail": "protein_g", "value": "7.13 g/100 g"}.items() <= rows[5].items()


def test_facts_search_lists_foods_that_have_the_word_first() -> None:
    found = run_json("facts", "--search", "lentil")["foods"]
    assert [food["id"] for food in found[:2]] == ["lentils", "lentils-red"]


def test_facts_knows_a_kitchens_own_foods(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k", foods="- food: тесто\n  measured_in: grams\n  keep_days: 3\n")
    assert run("facts", "тесто").exit_code == 4
    assert "тесто" in run("facts", "тесто", "--kitchen", folder).stdout


def test_foods_of_a_download_become_text_that_a_kitchen_reads(tmp_path: Path) -> None:
    folder = tmp_path / "fdc"
    folder.mkdir()
    tables = {
        "food": 'fdc_id,data_type,description\n11,x,"Beans, odd, raw"\n',
        "nutrient": "id,unit_name,nutrient_nbr\n1,KCAL,208\n2,G,203\n",
        "food_nutrient": "fdc_id,nutrient_id,amount\n11,1,123.4\n11,2,8.25\n",
        "food_portion": "fdc_id,amount,measure_unit_id,portion_description,modifier,gram_weight\n11,1,1,,,95\n",
        "measure_unit": "id,name\n1,cup\n",
    }
    for name, text in tables.items():
        (folder / f"{name}.csv").write_text(text, encoding="utf-8")
    assert run("facts", "--import-fdc", folder, "--search", "odd beans").stdout.split() == [
        "11",
        "Beans,",
        "odd,",
        "raw",
    ]
    printed = run("facts", "--import-fdc", folder, "--select", "11")
    assert printed.exit_code == 0
    kitchen = write_kitchen(tmp_path / "k", foods=printed.stdout + "- food: onion\n  keep_days: 14\n")
    assert run("check", kitchen).exit_code == 0
    rows = run_json("facts", "Beans, odd, raw", "--kitchen", kitchen)["foods"][0]["rows"]
    assert [row["value"] for row in rows if row["about"] == "in 100 g"] == [
        "123.4 kcal/100 g",
        "8.25 g/100 g",
    ]


def test_load_and_dump_bring_a_folder_back(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    written = run_json("dump", file, tmp_path / "out")["papers"]
    assert written == ["dishes.yaml", "foods.yaml", "kitchen.yaml", "prices.csv", "stock.csv"]
    for name in written:
        assert (tmp_path / "out" / name).read_bytes() == (tmp_path / "kitchen" / name).read_bytes()


def test_onhand_lists_the_earliest_last_day_first(tmp_path: Path) -> None:
    lots = run_json("onhand", write_kitchen(tmp_path / "k"), *SUNDAY)["lots"]
    assert [lot["lot"] for lot in lots] == ["spinach", "egg", "rice-white-long-grain"]
    text = run("onhand", tmp_path / "k", *SUNDAY).stdout
    assert text.index("Fridge") < text.index("Cupboard")
    assert "3 lots, worth 3.80 in all." in text


@pytest.mark.parametrize("before", ["day 3", "3", "2026-12-08"])
def test_onhand_tells_what_ends_before_a_day_with_the_value_at_risk(tmp_path: Path, before: str) -> None:
    told = run_json("onhand", write_kitchen(tmp_path / "k"), "--use-up", before, *SUNDAY)
    assert ([lot["lot"] for lot in told["lots"]], told["at_risk_cents"]) == (["spinach"], 90)


def test_a_count_writes_off_what_is_missing_and_undo_brings_it_back(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    counted = run_json("count", file, "egg", "3", "--why", "two were cracked", *SUNDAY)
    assert counted["now"][0]["quantity"] == 3
    number = counted["movements"][0]["id"]
    assert run("undo", file, number, *SUNDAY).exit_code == 0
    assert run_json("onhand", file, *SUNDAY)["lots"][1]["cents"] == 110
    entries = run_json("history", file, "--lot", "egg")["movements"]
    assert [entry["quantity"] for entry in entries] == [5, -2, 2]
    assert "taken back by" in run("history", file).stdout


def test_a_frozen_lot_has_in_the_fridge_the_days_that_were_left_when_it_was_frozen(tmp_path: Path) -> None:
    stock = "food,amount,cost,place,use_by\nground beef,500 g,4.00,fridge,2026-12-08\n"
    file = loaded(tmp_path, stock=stock)
    lot = run_json("onhand", file, *SUNDAY)["lots"][0]["lot"]
    frozen = run_json("move", file, lot, "freezer", "--today", "2026-12-07")["now"][0]
    assert frozen["place"] == "freezer"
    assert frozen["use_by"] > "2027-01-01"
    thawed = run_json("move", file, lot, "fridge", "--today", "2026-12-20")["now"][0]
    assert thawed["use_by"] == "2026-12-21"  # on the 7th, it had the 7th and the 8th


def test_a_part_moved_becomes_a_lot_of_its_own(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    now = run_json("move", file, "spinach", "freezer", "--part", "50 g", "--use-by", "2027-03-01", *SUNDAY)[
        "now"
    ]
    assert [(lot["lot"], lot["quantity"], lot["cents"]) for lot in now] == [
        ("spinach", 150_000, 67),
        ("spinach-2", 50_000, 23),
    ]


def test_a_move_whose_time_nobody_knows_asks_for_the_last_day(tmp_path: Path) -> None:
    result = run("move", loaded(tmp_path), "spinach", "cupboard", *SUNDAY)
    assert result.exit_code == 4
    assert "--use-by" in result.stderr


def test_opening_brings_the_last_day_forward_where_a_time_is_published(tmp_path: Path) -> None:
    stock = "food,amount,cost,place,use_by\nfirm tofu,397 g,2.00,fridge,2026-12-30\n"
    file = loaded(tmp_path, stock=stock)
    lot = run_json("onhand", file, *SUNDAY)["lots"][0]["lot"]
    opened = run_json("open", file, lot, *SUNDAY)["now"][0]
    assert opened["opened_on"] == "2026-12-06"
    assert opened["use_by"] < "2026-12-30"


def test_throwing_and_giving_take_cents_with_them(tmp_path: Path) -> None:
    file = loaded(tmp_path)
    assert run_json("throw", file, "spinach", "--why", "spoiled", *SUNDAY)["movements"][0]["cents"] == -90
    given = run_json("give", file, "egg", "--part", "2", "--to", "Ann", *SUNDAY)["movements"][0]
    assert (given["kind"], given["quantity"], given["cents"], given["who"]) == ("given away", -2, -44, "Ann")


def test_prices_puts_the_cheapest_first_and_flags_a_dearer_bigger_package(tmp_path: Path) -> None:
    (told,) = run_json("prices", write_kitchen(tmp_path / "k"), "lentils")["foods"]
    assert [row["offer"]["price_cents"] for row in told["offers"]] == [179, 379]
    assert len(told["dearer_bigger_packages"]) == 1
    assert told["offers"][0]["history"]["low_cents"] == 149
    text = run("prices", tmp_path / "k", "lentils").stdout
    assert "dearer by the unit" in text
    assert "Over time" in text
    assert "onion" in run("prices", tmp_path / "k").stdout


def test_a_bigger_package_says_what_share_of_it_must_be_used_to_pay(tmp_path: Path) -> None:
    prices = "shop,food,package,price,seen\nS,rice,1 kg,2.00,2026-11-29\nS,rice,2 kg,3.00,2026-11-29\n"
    folder = write_kitchen(tmp_path / "k", prices=prices)
    assert run_json("prices", folder, "rice")["foods"][0]["break_even"][0]["share"]["exact"] == "3/4"
    assert "more than 75 % of it gets used" in run("prices", folder, "rice").stdout


def test_a_dish_is_scaled_by_portions_by_what_is_there_and_by_packages(tmp_path: Path) -> None:
    folder = write_kitchen(tmp_path / "k")
    assert cents(run_json("dish", folder, "lentil stew", "--portions", 5)["factor"]) == 5
    assert cents(run_json("dish", folder, "lentil stew", "--from", "lentils=200 g")["factor"]) == Fraction(
        5, 2
    )
    assert cents(run_json("dish", folder, "lentil stew", "--packs", "lentils")["factor"]) == Fraction(25, 4)
    assert cents(run_json("dish", folder, "lentil stew", "--packs", "lentils=400 g")["factor"]) == 5


def test_a_dish_shows_its_parts_yields_salt_and_allergens(tmp_path: Path) -> None:
    text = run(
        "dish", write_kitchen(tmp_path / "k"), "egg rice", "--cooked", "rice=boiled", "--sources"
    ).stdout
    for part in ("From the shop to the pot", "Time", "Salt", "egg: egg", "Read the labels."):
        assert part in text, part
    assert "oz" in run("dish", tmp_path / "k", "egg rice", "--us").stdout


def test_a_recipe_read_in_is_text_that_a_kitchen_takes(tmp_path: Path) -> None:
    recipe = tmp_path / "r.txt"
    recipe.write_text(
        "Bean chili\nServes 6\n\nIngredients\n1 lb dried kidney beans\n1 large onion, chopped\n\nSteps\n1. Boil.\n",
        encoding="utf-8",
    )
    printed = run("read", recipe)
    assert printed.exit_code == 0
    folder = write_kitchen(tmp_path / "k", dishes=printed.stdout)
    assert run_json("dish", folder, "bean chili")["portions"] == 6


def test_a_recipe_of_a_page_is_read_and_what_needs_review_is_said(tmp_path: Path) -> None:
    page = tmp_path / "r.html"
    page.write_text(
        '<html><script type="application/ld+json">{"@type": "Recipe", "name": "Rice", "recipeYield": "4-6",'
        ' "recipeIngredient": ["1 cup rice", "2 blorps of zzz"]}</script></html>',
        encoding="utf-8",
    )
    printed = run("read", page)
    assert printed.exit_code == 0
    assert "# review: " in printed.stdout
    assert "- dish: Rice" in printed.stdout
