"""A kitchen with stock and prices, for the tests of its file."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from fractions import Fraction
from pathlib import Path

from ladleworth.decide.answer import Answer, Batch, Costs, Helping, Plan, Purchase, Status
from ladleworth.divide import Reading
from ladleworth.ledger import Ledger, Lot, LotUnit, Spot
from ladleworth.store.folder import FolderReading, read_papers
from ladleworth.store.kept_day import DayEntry, Happened, KeptDay
from ladleworth.store.kept_reading import KeptReading
from ladleworth.store.papers import Paper
from ladleworth.store.plan_json import Deed, Mark, SavedPlan

START = date(2026, 12, 6)
PAPERS = {
    "kitchen.yaml": """\
ladleworth: 1
currency: USD
start: 2026-12-06
days: 7
eaters: [{name: Ada}, {name: Ben, never: [egg]}]
slots: [{meals: [dinner]}]
sessions: [{day: sunday, minutes: 90}]
""",
    "dishes.yaml": "dish: Rice bowl\nper_portion: {rice: 80 g}\nswaps: [{swap: egg, per_portion: {egg: 1}}, "
    "{swap: without, lines: []}]\n",
    "foods.yaml": "- food: egg\n  piece: 65 g\n  keep_days: 28\n",
    "prices.csv": "shop,food,package,price,most\r\nMart,rice,1 kg,2.10,\r\nMart,egg,12,2.89,2\r\n",
    "stock.csv": 'food,amount,cost,use_by,note\nrice,1.2 kg,1.80,none,"top, shelf"\negg,5,1.10,2026-12-12,\n',
}
ANSWER = Answer(
    Status.PROVEN,
    Plan(
        (Batch(1, "Rice bowl", "egg", 2),),
        (Helping(1, "Ada", "dinner", "Rice bowl", 1),),
        (Purchase(1, "egg", 1),),
        (),
    ),
    Costs(tills=Fraction(289), carried=Fraction(2, 3)),
    288.0,
    0.5,
    "solver",
)
PLAN = SavedPlan(
    1, START, START, '{"days": 7}', ANSWER, accepted=True, marks=(Mark(Deed.BOUGHT, 1, "egg"),)
)  # fmt: skip

EVENING = datetime(2026, 12, 6, 17, 30)  # noqa: DTZ001  # the kitchen's clock
PLAN_LIVED = replace(
    PLAN,
    cooking_days=(KeptDay(1, 1, EVENING, EVENING, '{"day": 1}', '{"status": "proven shortest"}', "{}"),),
    day_entries=(
        DayEntry(1, 1, "Rice bowl: 1", Happened.BEGAN, EVENING, EVENING, 1),
        DayEntry(
            2, 1, "Rice bowl: 1", Happened.ENDED, EVENING.replace(minute=35), EVENING.replace(minute=36), 2
        ),
        DayEntry(
            3, 1, "Rice bowl: 1", Happened.ENDED, EVENING.replace(minute=35), EVENING.replace(minute=37), 3, 2
        ),
    ),
)
"""The plan with a cooking day on its way, of which an entry was taken back."""

PLAN_WEIGHED = replace(
    PLAN_LIVED,
    yield_readings=(
        KeptReading(1, 1, "Rice bowl", "egg", 2, Reading(("all",), 4_100_000, 1_200_000), EVENING),
        KeptReading(2, 1, "Rice bowl", "egg", 2, Reading(("all",), 7, in_pieces=True), EVENING),
    ),
)
"""The same with a batch that was weighed, and then counted."""


def reading(**changes: str) -> FolderReading:
    """Read the kitchen, with papers changed (`kitchen_yaml=...`)."""
    papers = {**PAPERS, **{name.replace("_", "."): text for name, text in changes.items()}}
    return read_papers([Paper(path, text) for path, text in papers.items()])


def rice(name: str, quantity: int, cents: int = 10) -> Lot:
    """A lot of rice, in milligrams."""
    return Lot(name, "rice-white-long-grain", LotUnit.MG, Spot.CUPBOARD, START, quantity, cents)


def totals(ledger: Ledger) -> tuple[int, int]:
    """Add up what is on hand: quantities and cents."""
    held = ledger.holdings()
    return sum(h.quantity for h in held), sum(h.cents for h in held)


def write(folder: Path, papers: dict[str, str]) -> Path:
    """Write papers as files."""
    for path, text in papers.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(text.encode("utf-8"))
    return folder
