"""A tiny kitchen on disk for the tests of the command line, and how to run a command."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from ladleworth.cli.main import main

KITCHEN = """\
ladleworth: 1
name: Two on Heron Street
currency: USD
start: 2026-12-06
days: 3
eaters:
  - name: Ada
  - name: Ben
slots:
  - meals: [dinner]
sessions:
  - day: 1
    minutes: 60
shops:
  - name: Corner Shop
    trip: 0.50
rules:
  containers: 6
  freezer_places: 4
  budget: 20.00
"""
DISHES = """\
- dish: Lentil stew
  least: 2
  greatest: 8
  hands_on: {fixed: 15, per_portion: 1}
  freezer_days: 60
  per_portion: {lentils: 80 g, onion: 60 g}
- dish: Egg rice
  hands_on: {fixed: 10}
  per_portion: {rice: 75 g, egg: 1}
"""
STOCK = """\
food,amount,cost,place,use_by,got
rice,1.2 kg,1.80,cupboard,none,2026-11-20
egg,5,1.10,fridge,2026-12-12,2026-11-28
spinach,200 g,0.90,fridge,day 2,
"""
PRICES = """\
shop,food,package,price,seen
Corner Shop,rice,2 lb,1.99,2026-11-29
Corner Shop,egg,12,2.89,2026-11-29
Corner Shop,lentils,500 g,1.49,2026-11-01
Corner Shop,lentils,500 g,1.79,2026-11-29
Corner Shop,lentils,1 kg,3.79,2026-11-29
Corner Shop,onion,1 kg,1.20,2026-11-29
"""
FOODS = """\
- food: onion
  keep_days: 14
"""


def write_kitchen(
    folder: Path,
    *,
    kitchen: str = KITCHEN,
    dishes: str = DISHES,
    stock: str | None = STOCK,
    prices: str | None = PRICES,
    foods: str | None = FOODS,
) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    papers: Mapping[str, str | None] = {
        "kitchen.yaml": kitchen,
        "dishes.yaml": dishes,
        "stock.csv": stock,
        "prices.csv": prices,
        "foods.yaml": foods,
    }
    for name, text in papers.items():
        if text is not None:
            (folder / name).write_text(text, encoding="utf-8")
    return folder


def run(*arguments: object, stdin: str | None = None) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments], input=stdin)


def run_json(*arguments: object) -> Any:
    result = run(*arguments, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def cents(value: Mapping[str, Any]) -> Fraction:
    """Read an exact number of a JSON document."""
    return Fraction(value["exact"])


def loaded(tmp_path: Path, **papers: Any) -> Path:
    folder = write_kitchen(tmp_path / "kitchen", **papers)
    file = tmp_path / "kitchen.db"
    result = run("load", folder, file)
    assert result.exit_code == 0, result.output
    return file


def accepted(tmp_path: Path, **papers: Any) -> Path:
    file = loaded(tmp_path, **papers)
    result = run("decide", file, "--accept", "--seconds", 5, "--today", "2026-12-05")
    assert result.exit_code == 0, result.output
    return file
