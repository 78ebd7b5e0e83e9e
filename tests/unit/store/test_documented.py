"""The page, the schemas and the readers say the same."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from tests.unit.store.papers import DISHES, KITCHEN, SMALL, told

from ladleworth.dish import written, written_steps
from ladleworth.facts import ALLERGENS, NUTRIENTS, food_table
from ladleworth.facts.texture import textures
from ladleworth.store import folder_foods, folder_kitchen, marked_yaml, papers
from ladleworth.store.csv_rows import Columns
from ladleworth.store.folder import read_papers
from ladleworth.store.folder_ledger import LOT_COLUMNS, MOVEMENT_COLUMNS
from ladleworth.store.folder_prices import PRICE_COLUMNS
from ladleworth.store.folder_stock import STOCK_COLUMNS
from ladleworth.store.keeping_rule import CUPBOARD_AISLES, DURABLE_FROM_DAYS
from ladleworth.store.marked_yaml import Tree, load_marked
from ladleworth.store.papers import Paper

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "kitchen-folder.md").read_text(encoding="utf-8")
SCHEMAS = ROOT / "src" / "ladleworth" / "store" / "schemas"
DISH_KEYS = {
    "a_dish": written._DISH_KEYS,
    "part": written._PART_KEYS,
    "swap": written._SWAP_KEYS,
    "step": written_steps.STEP_KEYS,
    "hands_on": written._HANDS_ON_KEYS,
}


def schema(name: str) -> dict[str, Any]:
    read: dict[str, Any] = json.loads((SCHEMAS / f"{name}.schema.json").read_text(encoding="utf-8"))
    return read


def examples() -> dict[str, str]:
    """Give the page's examples by the heading that they stand under; the second of a heading as NAME 2."""
    found: dict[str, str] = {}
    heading = ""
    for line, body in re.findall(r"^## ([^\n]*)$|^```(?:yaml|csv)\n(.*?)^```$", PAGE, re.S | re.M):
        if line:
            heading = line.split(",")[0]
        else:
            found[heading if heading not in found else f"{heading} 2"] = body
    return found


def page_papers() -> list[Paper]:
    told = examples()
    return [
        Paper("kitchen.yaml", told["kitchen.yaml"]),
        Paper("dishes.yaml", told["dishes.yaml"]),
        Paper("dishes/chili.yaml", told["dishes.yaml 2"]),
        Paper("stock.csv", told["stock.csv"]),
        Paper("prices.csv", told["prices.csv"]),
        Paper("foods.yaml", told["foods.yaml"]),
    ]


def tree(text: str) -> Tree:
    marked, findings = load_marked(text, "page")
    assert findings == ()
    assert marked is not None
    return marked.tree


def test_the_examples_of_the_page_make_one_kitchen_without_a_finding() -> None:
    reading = read_papers(page_papers())
    assert told(reading) == []
    kitchen = reading.without_faults()
    assert [dish.name for dish in kitchen.dishes] == ["Lentil stew", "Bean chili"]
    assert len(kitchen.ledger.lots) == 3
    assert len(kitchen.prices.offers) == 2
    assert [own.food.name for own in kitchen.own_foods] == ["bun", "store-brand beans"]
    assert kitchen.household.wishes.reserve_portions == 4


@pytest.mark.parametrize(
    ("name", "example"),
    [
        ("kitchen", "kitchen.yaml"),
        ("dish", "dishes.yaml"),
        ("dish", "dishes.yaml 2"),
        ("foods", "foods.yaml"),
    ],
)
def test_the_examples_of_the_page_fit_the_schemas(name: str, example: str) -> None:
    errors = [
        error.message for error in Draft202012Validator(schema(name)).iter_errors(tree(examples()[example]))
    ]
    assert errors == []


@pytest.mark.parametrize("name", ["kitchen", "dish", "foods", "stock", "prices"])
def test_each_schema_is_a_schema(name: str) -> None:
    Draft202012Validator.check_schema(schema(name))


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("kitchen", KITCHEN + "nme: x\n"),
        ("kitchen", KITCHEN.replace("minutes", "minute")),
        ("kitchen", KITCHEN.replace("days: 7\n", "")),
        ("kitchen", KITCHEN + "rules: {containers: [{size: 1 l}]}\n"),
        ("kitchen", KITCHEN + "rules: {headspace: 0.1}\n"),
        ("kitchen", KITCHEN.replace("name: Ada", "{name: Ada, bounds: {salt: {most: 2 g}}}")),
        ("kitchen", KITCHEN.replace("name: Ada", "{name: Ada, bounds: {fat: {}}}")),
        ("kitchen", KITCHEN.replace("name: Ada", "{name: Ada, bounds: {fresh: {least: 2 g}}}")),
        ("dish", DISHES + "  colour: red\n"),
        ("dish", DISHES + "  oven: {fix: 3}\n"),
        ("dish", DISHES + "  brings: [fresh, joy]\n"),
        ("dish", DISHES + "  parts: [{part: a, per_portion: {rice: 1 g}, apart: maybe}]\n"),
        ("foods", "{food: rice, per_100_g: {protein: 1}}\n"),
        ("foods", "{food: rice, label: {energy: 1 kJ}}\n"),
    ],
)
def test_the_schemas_refuse_what_the_reader_refuses(name: str, text: str) -> None:
    paper = {"kitchen": "kitchen.yaml", "dish": "dishes.yaml", "foods": "foods.yaml"}[name]
    assert not Draft202012Validator(schema(name)).is_valid(tree(text))
    assert read_papers([Paper(path, t) for path, t in {**SMALL, paper: text}.items()]).kitchen is None


def properties(node: dict[str, Any]) -> set[str]:
    return set(node["properties"])


def test_the_kitchen_schema_has_the_keys_of_the_reader() -> None:
    top = schema("kitchen")
    props = top["properties"]
    keys = folder_kitchen.ALL_KEYS
    assert properties(top) == set(keys["kitchen.yaml"])
    for name in ("eaters", "slots", "sessions"):
        assert properties(props[name]["items"]) == set(keys[name]), name
    assert properties(props["shops"]["anyOf"][0]["items"]) == set(keys["shops"])
    for name in ("rules", "additions", "equipment"):
        assert properties(props[name]["anyOf"][0]) == set(keys[name]), name
    assert properties(props["additions"]["anyOf"][0]["properties"]["reserve"]) == set(keys["reserve"])
    bounds = props["eaters"]["items"]["properties"]["bounds"]
    assert properties(bounds) == set(keys["bounds"])
    assert properties(top["$defs"]["bound"]) == set(keys["bound"])
    containers = props["rules"]["anyOf"][0]["properties"]["containers"]["anyOf"][1]
    assert properties(containers["items"]) == set(keys["container"])
    assert tuple(top["required"]) == folder_kitchen.NEEDED_KEYS


def test_the_containers_of_the_page_are_read_as_it_says() -> None:
    rules = examples()["kitchen.yaml 2"]
    text = KITCHEN + rules
    assert list(Draft202012Validator(schema("kitchen")).iter_errors(tree(text))) == []
    kitchen = read_papers([Paper("kitchen.yaml", text), Paper("dishes.yaml", DISHES)]).without_faults()
    read = kitchen.household.rules
    assert read.containers == 14
    # 500 ml less 10 %; 946 ml, 90 mm deep, less one inch: 946 x 64.6 / 90.
    assert [one.capacity_ml(read.headspace) for one in read.container_sizes] == [450, 679]


def test_the_dish_schema_has_the_keys_of_the_reader() -> None:
    defs = schema("dish")["$defs"]
    for name, keys in DISH_KEYS.items():
        assert properties(defs[name]) == set(keys), name


def test_the_foods_schema_has_the_keys_of_the_reader() -> None:
    defs = schema("foods")["$defs"]
    assert properties(defs["a_food"]) == set(folder_foods.FOOD_KEYS)
    assert properties(defs["label"]) == set(folder_foods.LABEL_KEYS)
    assert properties(defs["a_food"]["properties"]["per_100_g"]) == set(NUTRIENTS)


@pytest.mark.parametrize(("name", "columns"), [("stock", STOCK_COLUMNS), ("prices", PRICE_COLUMNS)])
def test_the_column_schemas_have_the_columns_of_the_reader(name: str, columns: Columns) -> None:
    assert tuple(schema(name)["properties"]) == columns.all
    assert tuple(schema(name)["required"]) == columns.needed


def test_the_page_names_every_key_column_and_allergen() -> None:
    words = set(re.findall(r"[a-z_0-9]+", PAGE))
    groups = [
        *folder_kitchen.ALL_KEYS.values(),
        *folder_foods.ALL_KEYS.values(),
        *DISH_KEYS.values(),
        NUTRIENTS,
    ]
    keys = {key for group in groups for key in group}
    assert keys - words == set()
    for columns in (STOCK_COLUMNS, PRICE_COLUMNS):
        assert f"`{','.join(columns.all)}`" in PAGE
    for columns in (LOT_COLUMNS, MOVEMENT_COLUMNS):
        assert f"`{','.join(columns.all)}`" in PAGE
    for allergen in ALLERGENS:
        assert allergen in PAGE, allergen
    for path in papers.SINGLE:
        assert path in PAGE, path


def test_the_page_names_every_aisle_and_limit() -> None:
    for aisle in {food.aisle for food in food_table()}:
        assert f"`{aisle}`" in PAGE, aisle
    rule = PAGE.partition("### How long a food keeps")[2]
    assert f"{DURABLE_FROM_DAYS} days" in rule
    for aisle in CUPBOARD_AISLES:
        assert f"`{aisle}`" in rule, aisle
    assert f"{marked_yaml.MOST_BYTES // 1_000_000} MB" in PAGE
    assert f"{papers.MOST_BYTES // 1_000_000} MB" in PAGE
    assert f"{marked_yaml.MOST_DEPTH} levels" in PAGE
    assert f"at most {folder_kitchen.MOST_DAYS}" in PAGE


def test_the_page_of_dishes_names_every_kind_of_cooked_food() -> None:
    page = " ".join((ROOT / "docs" / "dishes.md").read_text(encoding="utf-8").split())
    for kind in textures():
        assert f"`{kind}`" in page, kind
