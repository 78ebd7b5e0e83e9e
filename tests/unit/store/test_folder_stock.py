from __future__ import annotations

from datetime import date

import pytest
from tests.unit.store.papers import DISHES, doubts, faults, read, told

from ladleworth.ledger import Kind, Lot, LotUnit, Movement, Spot

START = date(2026, 12, 6)


def lots(text: str, foods: str | None = None) -> tuple[Lot, ...]:
    reading = read({"stock.csv": text, "foods.yaml": foods})
    assert faults(reading) == []
    return reading.without_faults().ledger.lots


def test_a_row_becomes_a_counted_lot_on_the_first_day() -> None:
    reading = read({"stock.csv": "food,amount,cost,place,use_by,got,opened,note\n"
                    "Rice,1.2 kg,1.80,cupboard,none,2026-11-20,2026-11-21,top shelf\n"})  # fmt: skip
    assert told(reading) == []
    ledger = reading.without_faults().ledger
    assert ledger.lots == (
        Lot(
            "rice-white-long-grain", "rice-white-long-grain", LotUnit.MG, Spot.CUPBOARD, date(2026, 11, 20),
            1_200_000, 180, None, date(2026, 11, 21),
        ),
    )  # fmt: skip
    assert ledger.movements == (
        Movement(1, START, Kind.COUNTED, "rice-white-long-grain", 1_200_000, 180, note="top shelf"),
    )


def test_lots_of_one_food_are_numbered_in_the_order_of_the_paper() -> None:
    text = "food,amount,use_by\negg,1,none\nrice,1 g,none\neggs,2,none\negg,3,none\n"
    assert [lot.id for lot in lots(text)] == ["egg", "rice-white-long-grain", "egg-2", "egg-3"]
    assert lots(text) == lots(text)


def test_a_food_that_is_called_like_a_numbered_lot_keeps_the_ids_apart() -> None:
    own = "- food: egg 2\n  measured_in: pieces\n  keep_days: 5\n"
    text = "food,amount,use_by\negg 2,1,none\negg,1,none\negg,1,none\n"
    assert [lot.id for lot in lots(text, own)] == ["egg-2", "egg", "egg-3"]


@pytest.mark.parametrize(
    ("amount", "quantity"),
    [("500 g", 500_000), ("1 lb", 453_592), ("1 kg 200 g", 1_200_000), ("1/2 oz", 14_175)],
)
def test_masses_are_whole_milligrams_rounded_half_up(amount: str, quantity: int) -> None:
    assert lots(f"food,amount,use_by\nrice,{amount},none\n")[0].quantity == quantity


def test_a_volume_and_a_count_of_a_weighed_food_use_its_own_figures() -> None:
    own = "- food: bun\n  measured_in: grams\n  piece: 60 g\n  density: 0.5\n"
    text = "food,amount,use_by\nbun,3,none\nbun,200 ml,none\n"
    assert [lot.quantity for lot in lots(text, own)] == [180_000, 100_000]


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("rice,-1 kg", ("amount: the amount of white long-grain rice: the amount '-1 kg' is below zero; "
         "write one above zero")),
        ("rice,", "amount: the amount is missing; write an amount such as 500 g, 2 lb or 12"),
        ("rice,1 kgg", ("amount: the amount of white long-grain rice: at character 3 of '1 kgg': no unit is called "
         "'kgg'; write kg")),
        ("egg,1 kg", "amount: the amount of egg: egg is counted in pieces; write how many, such as 6"),
        ("egg,1/2", "amount: the amount of egg: 1/2 of egg are no whole pieces; write a whole number"),
        ("rice,9999999 kg", ("amount: the amount of white long-grain rice: '9999999 kg' is more than any kitchen holds; "
         "check the unit")),
        (",1 kg", "food: the food is missing; write its name, such as rice"),
    ],
)  # fmt: skip
def test_a_faulty_amount_is_named_with_its_line_and_column(row: str, said: str) -> None:
    assert told(read({"stock.csv": f"food,amount\n{row}\n"})) == [f"stock.csv:2: {said}"]


def test_an_unknown_food_names_the_three_nearest() -> None:
    (fault,) = faults(read({"stock.csv": "food,amount\neggg,1\n"}))
    assert fault.what == "no food is called 'eggg'"
    assert fault.remedy.count("' or '") == 2
    assert "'egg'" in fault.remedy


@pytest.mark.parametrize(
    ("column", "value", "said"),
    [
        ("cost", "-1", "cost: the price '-1' is below zero; write it like '12.40', in USD"),
        (
            "cost",
            "1.999",
            "cost: the price '1.999' has 3 decimals where USD has 2; write it like '12.40', in USD",
        ),
        ("place", "frige", "place: no place is called 'frige'; did you mean 'fridge'?"),
        ("use_by", "day 0", "use_by: 'day 0' is no day of the plan; write one such as day 3, or a date"),
        ("use_by", "soon", "use_by: 'soon' is no date; write year, month and day like 2026-12-06"),
        (
            "got",
            "2026-13-01",
            "got: the calendar has no 2026-13-01; write a day that it has, like 2026-12-06",
        ),
    ],
)
def test_each_faulty_field_is_named(column: str, value: str, said: str) -> None:
    assert told(read({"stock.csv": f"food,amount,{column}\nrice,1 kg,{value}\n"})) == [f"stock.csv:2: {said}"]


def test_opened_before_it_came_is_a_fault() -> None:
    text = "food,amount,got,opened\nrice,1 kg,2026-12-02,2026-12-01\n"
    assert told(read({"stock.csv": text})) == [
        "stock.csv:2: opened: it was opened on 2026-12-01, before it came on 2026-12-02; correct one of the two"
    ]


def test_a_last_day_is_a_date_a_day_of_the_plan_or_none() -> None:
    text = "food,amount,use_by\nrice,1 g,2026-12-10\nrice,1 g,day 3\nrice,1 g,Day 3\nrice,1 g,none\n"
    assert [lot.use_by for lot in lots(text)] == [
        date(2026, 12, 10),
        date(2026, 12, 8),
        date(2026, 12, 8),
        None,
    ]


def test_an_empty_last_day_is_the_day_got_and_the_keeping_days() -> None:
    own = "- food: bun\n  measured_in: pieces\n  keep_days: 5\n"
    text = "food,amount,got\nbun,1,2026-12-04\nbun,1,\nrice,1 g,2026-01-01\n"
    assert [lot.use_by for lot in lots(text, own)] == [date(2026, 12, 8), date(2026, 12, 10), None]


def test_in_the_freezer_the_published_freezer_time_counts() -> None:
    # ground beef: fridge raw 1-2 days, freezer raw 3-4 months of 30 days (FoodSafety.gov cold storage chart)
    text = "food,amount,place,got\nground beef,1 g,fridge,2026-12-06\nground beef,1 g,freezer,2026-12-06\n"
    assert [lot.use_by for lot in lots(text)] == [date(2026, 12, 7), date(2027, 4, 4)]


def test_without_any_keeping_time_the_last_day_must_be_written_if_a_dish_needs_the_food() -> None:
    stock = {"stock.csv": "food,amount\nhummus,1 kg\n"}
    (doubt,) = doubts(read(stock))
    assert doubt in doubts(read(stock))
    assert doubt.what == "there is no use_by, and nobody has the keeping time of hummus"
    (fault,) = faults(read({**stock, "dishes.yaml": DISHES.replace("rice: 80 g", "hummus: 80 g")}))
    assert fault.remedy == "write the last day (or none), or keep_days of hummus in foods.yaml"
    own = {"foods.yaml": "food: hummus\nkeep_days: 21\n"}
    needed = read({**stock, **own, "dishes.yaml": DISHES.replace("rice: 80 g", "hummus: 80 g")})
    assert told(needed) == []
    assert needed.without_faults().ledger.lots[0].use_by == date(2026, 12, 26)


def test_a_lot_past_its_last_day_is_doubted_and_kept() -> None:
    reading = read({"stock.csv": "food,amount,use_by\nrice,1 kg,2026-12-05\n"})
    (doubt,) = doubts(reading)
    assert "counted as spoilt" in doubt.remedy
    assert reading.without_faults().ledger.lots[0].use_by == date(2026, 12, 5)


def test_a_day_after_the_first_day_is_doubted_and_taken_as_the_first() -> None:
    reading = read({"stock.csv": "food,amount,got,opened\nrice,1 kg,2026-12-09,2026-12-10\n"})
    assert [str(doubt) for doubt in doubts(reading)] == [
        (
            "stock.csv:2: got: 2026-12-09 is after the first day of the plan, 2026-12-06; "
            "it is taken as 2026-12-06; correct the date"
        ),
        (
            "stock.csv:2: opened: 2026-12-10 is after the first day of the plan, 2026-12-06; "
            "it is taken as 2026-12-06; correct the date"
        ),
    ]
    (lot,) = reading.without_faults().ledger.lots
    assert (lot.got_on, lot.opened_on) == (START, START)


def test_a_line_of_nothing_is_doubted_and_passed_over() -> None:
    reading = read({"stock.csv": "food,amount\nrice,0 g\negg,0\n"})
    assert [doubt.what for doubt in doubts(reading)] == [
        "there is nothing of this white long-grain rice", "there is nothing of this egg",
    ]  # fmt: skip
    assert reading.without_faults().ledger.lots == ()


def test_an_empty_stock_is_fine() -> None:
    assert told(read({"stock.csv": "food,amount\n"})) == []
