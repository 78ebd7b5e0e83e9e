from __future__ import annotations

from datetime import date

import pytest
from tests.unit.store.papers import DISHES, KITCHEN, doubts, faults, read, told

from ladleworth.ledger import LotUnit, Offer
from ladleworth.store.folder import FolderReading
from ladleworth.store.folder_prices import write_prices
from ladleworth.units import currency

HEADER = "shop,food,package,price,seen,name,most,id\n"


def prices(rows: str, **more: str) -> FolderReading:
    return read({"prices.csv": HEADER + rows, **{k.replace("_", "."): v for k, v in more.items()}})


def test_a_row_becomes_an_offer_with_an_id_after_its_food() -> None:
    reading = prices(
        "Corner,rice,2 lb,1.99,2026-11-29,Best rice,3,\nMart,rice,1 kg,2.10,,,,\nMart,egg,12,2.89,,,,eggs-12\n"
    )
    assert told(reading) == []
    kitchen = reading.without_faults()
    rice = "rice-white-long-grain"
    assert kitchen.prices.offers == (
        Offer(rice, "Corner", 907_185, LotUnit.MG, 199, date(2026, 11, 29), "Best rice", rice),
        Offer(rice, "Mart", 1_000_000, LotUnit.MG, 210, date(2026, 12, 6), "", f"{rice}-2"),
        Offer("egg", "Mart", 12, LotUnit.PIECE, 289, date(2026, 12, 6), "", "eggs-12"),
    )
    assert kitchen.most_packages == {rice: 3}


def test_an_id_that_is_written_is_kept_from_the_others() -> None:
    reading = prices("A,egg,6,1,,,,\nA,egg,12,2,,,,egg\nA,egg,30,4,,,,\n")
    assert [offer.id for offer in reading.without_faults().prices.offers] == ["egg-2", "egg", "egg-3"]


def test_shops_are_taken_from_the_prices_when_the_kitchen_lists_none() -> None:
    reading = prices("Mart,rice,1 kg,2,,,,\nCorner,rice,1 kg,2,,,,\n")
    assert [(shop.name, shop.trip_cents) for shop in reading.without_faults().household.shops] == [
        ("Mart", 0), ("Corner", 0),
    ]  # fmt: skip


def test_a_shop_that_is_not_listed_is_doubted_and_has_no_trip_cost() -> None:
    reading = prices(
        "Crner,rice,1 kg,2,,,,\n", kitchen_yaml=KITCHEN + "shops: [{name: Corner, trip: 0.50}]\n"
    )
    assert told(reading) == [
        (
            "prices.csv:2: shop: kitchen.yaml lists no shop 'Crner'; "
            "it is taken as one without a trip cost; did you mean 'Corner'?"
        )
    ]
    assert [(shop.name, shop.trip_cents) for shop in reading.without_faults().household.shops] == [
        ("Corner", 50), ("Crner", 0),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("A,rice,0 g,1,,,,", "package: the package holds nothing; write its content, such as 500 g or 12"),
        ("A,rice,,1,,,,", "package: the package is missing; write an amount such as 500 g, 2 lb or 12"),
        ("A,rice,1 kg,,,,,", "price: the price is missing; write it like 12.40"),
        ("A,rice,1 kg,-1,,,,", "price: the price '-1' is below zero; write it like '12.40', in USD"),
        (
            "A,rice,1 kg,€1,,,,",
            "price: the price '€1' is marked '€', which is not USD; write it like '12.40', in USD",
        ),
        (",rice,1 kg,1,,,,", "shop: the shop is missing; write where the price was seen"),
        ("A,rice,1 kg,1,6/12/26,,,", "seen: '6/12/26' is no date; write year, month and day like 2026-12-06"),
        (
            "A,rice,1 kg,1,,,some,",
            "most: most is 'some'; write a whole number of packages, or leave it empty",
        ),
    ],
)
def test_each_faulty_field_is_named(row: str, said: str) -> None:
    assert told(prices(f"{row}\n")) == [f"prices.csv:2: {said}"]


def test_one_package_has_one_price_a_day_and_ids_are_unique() -> None:
    assert told(prices("A,rice,1 kg,1,,,,\nA,rice,1000 g,2,,,,\n")) == [
        (
            "prices.csv:3: package: the same package at A on the same day stands on line 2; "
            "keep one of the two, or give them names that differ"
        )
    ]
    assert told(prices("A,rice,1 kg,1,,,,x\nA,rice,2 kg,2,,,,x\n")) == [
        "prices.csv:3: id: the id 'x' stands there twice; give each offer an id of its own"
    ]


def test_a_price_far_from_the_others_of_its_food_is_doubted() -> None:
    reading = prices(
        "A,rice,1 kg,2.00,,,,\nA,rice,2 kg,4.20,,,,\nA,rice,500 g,110.00,,,,\nA,rice,5 kg,0.90,,,,\n"
    )
    assert [(doubt.place.line, doubt.what) for doubt in doubts(reading)] == [
        (4, "by the unit this is 110 times the usual price of the food"),
        (5, "by the unit this is 1/11.7 of the usual price of the food"),
    ]
    assert faults(reading) == []


def test_of_two_prices_that_lie_apart_the_later_is_doubted() -> None:
    reading = prices("A,rice,1 kg,2.00,,,,\nA,rice,1 g,2.00,,,,\n")
    assert [doubt.place.line for doubt in doubts(reading)] == [3]
    assert told(prices("A,rice,1 kg,2.00,,,,\nA,rice,1 kg,19.99,2026-12-01,,,\n")) == []


def test_a_price_seen_after_the_days_of_the_plan_is_doubted() -> None:
    assert told(prices("A,rice,1 kg,2,2026-12-12,,,\n")) == []
    (doubt,) = doubts(prices("A,rice,1 kg,2,2026-12-13,,,\n"))
    assert doubt.what == "the price was seen on 2026-12-13, after the days of the plan"


def test_an_offer_of_a_needed_food_that_nobody_knows_the_keeping_of_is_a_fault_once() -> None:
    rows = "A,hummus,1 kg,1,,,,\nB,hummus,2 kg,2,,,,\n"
    assert told(prices(rows)) == []  # no dish needs hummus
    dishes = DISHES.replace("rice: 80 g", "hummus: 80 g")
    assert told(prices(rows, dishes_yaml=dishes)) == [
        (
            "prices.csv:2: food: nobody has the keeping time of hummus once bought, and a dish needs it; "
            "write {food: hummus, keep_days: N} in foods.yaml, the day of buying as day 1, or keep_days: durable"
        )
    ]
    own = "{food: hummus, keep_days: 21}\n"
    reading = prices(rows, dishes_yaml=dishes, foods_yaml=own)
    assert told(reading) == []
    assert reading.without_faults().keep_days["hummus"] == 21


def test_prices_that_are_written_read_back_the_same() -> None:
    reading = prices('"A, B",rice,1 lb,1.99,2026-11-29,"say ""rice""",3,\nMart,egg,12,2.89,,,0,\n')
    kitchen = reading.without_faults()
    text = write_prices(kitchen.prices, kitchen.most_packages, currency("USD"))
    again = read({"prices.csv": text}).without_faults()
    assert again.prices == kitchen.prices
    assert again.most_packages == kitchen.most_packages
