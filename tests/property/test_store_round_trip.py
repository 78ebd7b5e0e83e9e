"""What is kept comes back equal: folder to file to folder, whatever a cook writes."""

from __future__ import annotations

import tempfile
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ladleworth.decide.answer import Answer, Batch, Costs, Drawing, Helping, Plan, Purchase, Status
from ladleworth.household import Kitchen
from ladleworth.ledger import (
    Cause,
    Entered,
    Ledger,
    Lot,
    LotUnit,
    Spot,
    Take,
    cook,
    count,
    draw,
    eat,
    move,
    reverse,
    throw_out,
)
from ladleworth.ledger import buy as buy_lots
from ladleworth.ledger.using import Portions
from ladleworth.store.csv_rows import write_rows
from ladleworth.store.database import Store
from ladleworth.store.dump import write_folder
from ladleworth.store.folder import FolderReading, read_folder, read_papers
from ladleworth.store.papers import Paper
from ladleworth.store.plan_json import from_json, to_json

START = date(2026, 12, 6)
FOODS = ("rice", "egg", "spinach", "red lentils", "ground beef")
TEXT = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
CENTS = st.integers(0, 10_000)
DAYS = st.integers(-400, 40)
EATER_KEYS = (
    "",
    ", appetite: 3/4",
    ", appetite: 150%, bounds: {sodium: {most: 2 g}}",
    ", bounds: {fat: {least: 1 g}}",
    ", bounds: {fresh: {least: 50%}, crunch: {most: 12.5%}}",
)
SESSION_KEYS = ("", ", length: 5 h", ", price: 1.25", ", length: 301, price: 0")
RULES = (
    "containers: [{size: 1 l, count: 2}, {size: 2 cups, count: 3, depth: 3 in}]", "headspace: 7.5%",
    "fridge_room: 9 l", "freezer_room: none", "freezing_load: 4", "week_days: 5", "splits: 2",
)  # fmt: skip
EQUIPMENT = (
    "burners: 3", "oven: {heating: 0.7, tolerance: 10 °C}", "cooks: 2", "boards: 0", "counter: 6", "room: 70 °F", "wash: 1",
    "slower: 25%", "vessels: {pot: 6 l, tin: {size: 2 qt, count: 2}}",
)  # fmt: skip
DISH_KEYS = (
    "portion_volume: 400 ml\n", "oven: 20 min\n", "burners: {fixed: 5, per_portion: 1/2}\n", "splits: 3\n",
    "kind: [rice plain, egg bake]\n", "brings: [fresh, colour]\n",
    ("steps:\n- {do: Soak., unattended: 9 h, day_before: yes}\n- {do: Chop., step: chop, hands_on: 2.5, prep: cut}\n"
    "- {do: Bake., after: [chop], wait: 2-9 min, unattended: 30, needs: ['oven at 375 °F, 2 shelves', tin], leaves: fat}\n"),
)  # fmt: skip


def money(cents: int) -> str:
    return f"{cents // 100}.{cents % 100:02}"


@st.composite
def papers(draw_from: st.DrawFn) -> list[Paper]:
    """Papers of a kitchen, with odd names and notes."""
    names = draw_from(
        st.lists(
            st.text(st.characters(categories=("L", "N")), min_size=1, max_size=6),
            min_size=1,
            max_size=3,
            unique=True,
        )
    )
    quoted = ", ".join(f"{{name: '{name}'{draw_from(st.sampled_from(EATER_KEYS))}}}" for name in names)
    days = draw_from(st.integers(1, 14))
    kitchen = (
        f"ladleworth: 1\ncurrency: USD\nstart: {START}\ndays: {days}\neaters: [{quoted}]\nslots: [{{}}]\n"
        f"sessions: [{{day: 1, minutes: {draw_from(st.integers(0, 300))}{draw_from(st.sampled_from(SESSION_KEYS))}}}]\n"
        f"rules: {{{', '.join(draw_from(st.lists(st.sampled_from(RULES), unique=True)))}}}\n"
        f"equipment: {{{', '.join(draw_from(st.lists(st.sampled_from(EQUIPMENT), unique=True)))}}}\n"
    ).replace("slots: [{}]", "slots: [{meals: dinner}]")
    stock = [
        (food, f"{amount}" if food == "egg" else f"{amount} g", money(cents), spot.value, last, note.strip())
        for food, amount, cents, spot, last, note in draw_from(
            st.lists(
                st.tuples(
                    st.sampled_from(FOODS),
                    st.integers(1, 9_999),
                    CENTS,
                    st.sampled_from(Spot),
                    st.sampled_from(["none", "2026-12-20", "day 3", "2026-12-01"]),
                    TEXT,
                ),
                max_size=8,
            )
        )
    ]
    prices = [
        (
            f"Shop {shop}",
            food,
            f"{amount}" if food == "egg" else f"{amount} oz",
            money(cents),
            str(START),
            name.strip(),
        )
        for (shop, food, amount, name), cents in draw_from(
            st.dictionaries(
                st.tuples(st.integers(1, 3), st.sampled_from(FOODS), st.integers(1, 99), TEXT.map(str.strip)),
                CENTS,
                max_size=6,
            )
        ).items()
    ]
    return [
        Paper("kitchen.yaml", kitchen),
        Paper(
            "dishes.yaml",
            "dish: Bowl\nper_portion: {rice: 80 g, egg: 1}\n"
            + "".join(draw_from(st.lists(st.sampled_from(DISH_KEYS), unique=True)))
            + f"# {'é' * days}\r\n",
        ),
        Paper("stock.csv", write_rows(("food", "amount", "cost", "place", "use_by", "note"), stock)),
        Paper("prices.csv", write_rows(("shop", "food", "package", "price", "seen", "name"), prices)),
    ]


@st.composite
def history(draw_from: st.DrawFn, ledger: Ledger) -> Ledger:
    """A ledger that moved on from another by some acts."""
    day = START
    for number in range(draw_from(st.integers(0, 6))):
        day += timedelta(days=draw_from(st.integers(0, 2)))
        ledger = _act(draw_from, ledger, day, number).ledger
    return ledger


def _act(draw_from: st.DrawFn, ledger: Ledger, day: date, number: int) -> Entered:
    held = ledger.holdings()
    kind = draw_from(st.sampled_from(["buy", "count", "move", "cook", "throw", "reverse"])) if held else "buy"
    note = draw_from(TEXT)
    if kind == "buy":
        lot = Lot(
            f"new {number} {draw_from(TEXT)}", "egg", LotUnit.PIECE, Spot.FRIDGE, day, 4, draw_from(CENTS), shop=note,
            opened_on=draw_from(st.sampled_from([None, day])), shelf_cents=draw_from(st.none() | CENTS),
        )  # fmt: skip
        return buy_lots(ledger, day, [lot], note=note)
    lot = draw_from(st.sampled_from(held))
    if kind == "count":
        return count(ledger, day, lot.lot.id, draw_from(st.integers(0, 2 * lot.quantity)), note or "counted")
    if kind == "move":
        part = draw_from(st.integers(1, lot.quantity))
        return move(
            ledger, day, lot.lot.id, Spot.FREEZER, use_by=draw_from(st.sampled_from([None, day])), quantity=part,
            new_lot_id=f"part {number}", note=note,
        )  # fmt: skip
    if kind == "cook" and lot.lot.unit is not LotUnit.PORTION:
        drawn = draw(ledger, day, f"batch {number}", [Take(lot.lot.id, 1)], even_past_use_by=True)
        return cook(
            drawn.ledger, day, f"batch {number}", [Portions(f"box {number}", 3, Spot.FRIDGE, day)], note=note
        )
    if kind == "reverse" and ledger.movements[-1].reverses is None:
        last = ledger.movements[-1]
        return reverse(ledger, day, last.id)
    if lot.lot.unit is LotUnit.PORTION:
        return eat(ledger, day, lot.lot.id, 1, who="Ada", even_past_use_by=True)
    return throw_out(ledger, day, lot.lot.id, draw_from(st.sampled_from(Cause)), note=note)


def through_the_file(reading: FolderReading, ledger: Ledger, folder: Path) -> tuple[Kitchen, FolderReading]:
    """Load into a file, let the ledger move on, dump, and read the dump."""
    with Store.open(folder / "k", create=True) as store:
        store.load(reading)
        first = reading.without_faults().ledger
        store.add_lots(ledger.lots[len(first.lots) :])
        store.append_movements(ledger.movements[len(first.movements) :])
    with Store.open(folder / "k") as store:
        kitchen = store.load_kitchen()
        write_folder(kitchen, store.papers(), folder / "out", store.plans())
    return kitchen, read_folder(folder / "out")


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
@given(st.data())
def test_a_kitchen_survives_the_file_and_the_dump_unchanged(data: st.DataObject) -> None:
    given_papers = data.draw(papers())
    reading = read_papers(given_papers)
    kitchen = reading.without_faults()
    ledger = data.draw(history(kitchen.ledger))
    with tempfile.TemporaryDirectory() as name:
        stored, again = through_the_file(reading, ledger, Path(name))
    assert stored.ledger == ledger
    assert (stored.household, stored.dishes, stored.prices) == (
        kitchen.household,
        kitchen.dishes,
        kitchen.prices,
    )
    assert again.kitchen == stored
    if ledger == kitchen.ledger:
        assert again.papers == reading.papers


FRACTIONS = st.fractions(max_denominator=10**9)


@st.composite
def answers(draw_from: st.DrawFn) -> Answer:
    """An answer of any kind."""
    number = st.integers(0, 10**15)
    batches = st.builds(Batch, number, TEXT, TEXT, number)
    eaten = st.builds(Helping, number, TEXT, TEXT, TEXT, number, st.booleans())
    helpings = eaten | st.builds(Helping, number, TEXT, TEXT)
    purchases = st.builds(Purchase, number, TEXT, number)
    drawings = st.builds(Drawing, number, TEXT, TEXT, st.none() | number, number)
    plan = st.builds(
        Plan, *(st.lists(of, max_size=4).map(tuple) for of in (batches, helpings, purchases, drawings))
    )
    costs = st.builds(Costs, *([FRACTIONS] * 9))
    floats = st.floats(allow_nan=False)
    return Answer(
        draw_from(st.sampled_from(Status)),
        draw_from(st.none() | plan),
        draw_from(st.none() | costs),
        draw_from(st.none() | floats),
        draw_from(floats),
        draw_from(TEXT),
        draw_from(number),
    )


@settings(max_examples=200, deadline=None)
@given(answers())
def test_an_answer_survives_json_exactly(answer: Answer) -> None:
    again = from_json(to_json(answer))
    assert again == answer
    if answer.costs is not None and again.costs is not None:
        assert again.costs.total == answer.costs.total
        assert all(isinstance(getattr(again.costs, name), Fraction) for name in Costs.__dataclass_fields__)
