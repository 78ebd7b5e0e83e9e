"""A kitchen whose eaters differ in appetite, with a batch split between two swaps, and plans planted in it."""

from __future__ import annotations

from pathlib import Path

from ladleworth.decide import Batch, Drawing, Helping, Plan, Purchase, Question, pose
from ladleworth.household import Kitchen
from ladleworth.week import open_kitchen

PAPERS = {
    "kitchen.yaml": """
ladleworth: 1
name: Mother and child
currency: USD
start: 2026-12-06
days: 4
eaters:
  - name: Ada
  - name: Kid
    appetite: 2/3
slots: [{meals: [dinner]}]
sessions: [{day: 1, minutes: 120, length: 2 h}]
shops: [{name: Corner, trip: 0.50}]
equipment: {burners: 2, oven_shelves: 1, microwave: 800}
rules:
  in_a_row: none
  containers: [{size: 1 l, count: 4}, {size: 500 ml, count: 6}]
  fridge_room: 6 l
  freezer_room: 3 l
""",
    "dishes.yaml": """
dish: Chili
least: 2
greatest: 8
freezer_days: 60
splits: 2
portion_volume: 400 ml
portions: 1
burners: {fixed: 30, per_portion: 2}
parts:
  - part: stew
    role: protein
    kind: lentils
    lines: [100 g lentils]
    swaps:
      - swap: onion
        lines: [50 g onion]
      - swap: carrot
        lines: [60 g carrots]
""",
    "stock.csv": "food,amount,cost,use_by\nlentils,1 kg,1.00,none\n",
    "prices.csv": "shop,food,package,price,seen\nCorner,onion,1 kg,1.01,2026-12-01\nCorner,carrots,1 kg,0.97,2026-12-01\n",
}


def kitchen_of(folder: Path, **changed: str) -> Kitchen:
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in (PAPERS | {key.replace("_", "."): text for key, text in changed.items()}).items():
        (folder / name).write_text(text, encoding="utf-8")
    return open_kitchen(folder)


def split_plan(question: Question) -> Plan:
    """Chili in both ways on day 1: Ada has onion, the child carrots; both have it frozen on day 4."""
    ada = [Helping(day, "Ada", "dinner", "chili", 1, day == 4, "onion") for day in (1, 2, 3, 4)]
    kid = [Helping(day, "Kid", "dinner", "chili", 1, day == 4, "carrot") for day in (1, 2, 3, 4)]
    offers = {offer.food: offer.name for offer in question.offers}
    batches = (Batch(1, "chili", "carrot", 3), Batch(1, "chili", "onion", 4))
    lot = question.lots[0].name
    return Plan(
        batches,
        tuple(sorted([*ada, *kid])),
        (Purchase(1, offers["carrot"], 1), Purchase(1, offers["onion"], 1)),
        (
            Drawing(1, "chili", lot, None, 300_000, "carrot"),
            Drawing(1, "chili", lot, None, 400_000, "onion"),
            Drawing(1, "chili", offers["carrot"], 1, _need(question, "carrot", "carrot", 3), "carrot"),
            Drawing(1, "chili", offers["onion"], 1, _need(question, "onion", "onion", 4), "onion"),
        ),
    )


def _need(question: Question, version: str, food: str, portions: int) -> int:
    from ladleworth.decide.judge import need

    return need(question.version("chili", version), food, portions)


def posed(kitchen: Kitchen) -> Question:
    return pose(kitchen)
