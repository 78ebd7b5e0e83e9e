"""A food that no shop has and that is not on hand is doubted, with the dishes that fall with it."""

from __future__ import annotations

from tests.unit.store.papers import lacking, read

CHILI = """\
- dish: Chili
  portions: 2
  least: 2
  parts:
    - part: stew
      role: protein
      per_portion: {onion: 100 g}
      swaps:
        - swap: beef
          per_portion: {beef-ground-80: 100 g}
        - swap: plain
          lines: []
- dish: Rice bowl
  least: 2
  per_portion: {rice: 80 g}
"""
PRICES = "shop,food,package,price\nCorner Shop,rice,1 kg,1.99\nCorner Shop,onion,1 kg,1.20\n"


def told(**papers: str) -> list[str]:
    return [
        str(one) for one in lacking(read({name.replace("_", "."): text for name, text in papers.items()}))
    ]


def test_a_food_that_cannot_be_had_names_the_dish_that_falls_with_it() -> None:
    assert told(prices_csv="shop,food,package,price\nCorner Shop,rice,1 kg,1.99\n") == [
        (
            "prices.csv: no shop has egg and none is on hand, so Rice bowl cannot be cooked; "
            "add a row for it to prices.csv or stock.csv"
        ),
        (
            "prices.csv: none of the dishes can be cooked: Rice bowl; "
            "add a row for it to prices.csv or stock.csv"
        ),
    ]


def test_a_swap_that_cannot_be_made_is_named_and_the_dish_goes_on() -> None:
    found = told(dishes_yaml=CHILI, prices_csv=PRICES)
    assert len(found) == 1
    assert "so Chili with beef (stew) cannot be cooked" in found[0]


def test_too_little_on_hand_for_the_smallest_batch_is_doubted_and_enough_is_not() -> None:
    prices = "shop,food,package,price\nCorner Shop,rice,1 kg,1.99\n"
    little = told(prices_csv=prices, stock_csv="food,amount\negg,1\n")
    assert "no shop has egg and too little of it is on hand" in little[0]
    assert told(prices_csv=prices, stock_csv="food,amount\negg,2\n") == []


def test_what_is_past_its_last_day_is_not_on_hand() -> None:
    prices = "shop,food,package,price\nCorner Shop,rice,1 kg,1.99\n"
    stock = "food,amount,use_by\negg,6,2026-12-01\n"
    assert "no shop has egg and none is on hand" in told(prices_csv=prices, stock_csv=stock)[0]


def test_a_fault_elsewhere_keeps_the_foods_of_its_paper_from_being_doubted() -> None:
    assert told(prices_csv="shop,food,package,price\nCorner Shop,ryce,1 kg,1.99\n") == []
