"""One slip is said once: a misspelt header, a wrong year of the plan's first day, an amount that reads two ways."""

from __future__ import annotations

from tests.unit.store.papers import KITCHEN, doubts, faults, read

from ladleworth.store.folder import FolderReading

PRICES = "shop,food,package,{price},seen\n" + "".join(
    f"Corner Shop,{food},1 kg,1.00,2026-11-29\n" for food in ("rice", "onion", "carrot")
)
STOCK = "food,amount,got\n" + "".join(f"{food},1 kg,2026-12-01\n" for food in ("rice", "onion", "carrot"))


def test_a_misspelt_needed_column_is_one_fault() -> None:
    (fault,) = faults(read({"prices.csv": PRICES.format(price="prise")}))
    assert str(fault) == "prices.csv:1: there is no column 'prise'; did you mean 'price'?"


def test_a_needed_column_that_is_left_out_is_one_fault_and_other_faults_of_its_rows_are_told() -> None:
    text = "shop,food,package,seen\nCorner Shop,ryce,1 kg,2026-11-29\nCorner Shop,rice,1 kg,2026-11-29\n"
    lacks, unknown = faults(read({"prices.csv": text}))
    assert "lacks the column 'price'" in lacks.what
    assert "no food is called 'ryce'" in unknown.what


def test_a_wrong_year_of_start_is_one_doubt_on_start() -> None:
    for start in ("2025-12-06", "2024-12-06"):
        papers = {"prices.csv": PRICES.format(price="price"), "stock.csv": STOCK}
        (doubt,) = doubts(read(papers, start=start))
        assert (doubt.place.file, doubt.place.item) == ("kitchen.yaml", "start")
        assert f"the plan starts on {start}, and 6 of the 6 lines" in doubt.what


def test_lots_long_past_are_each_doubted_where_the_year_of_start_is_right() -> None:
    stock = "food,amount,got,use_by\nrice,1 kg,2024-12-01,2025-01-01\nonion,1 kg,2026-12-01,2026-12-20\n"
    found = doubts(read({"stock.csv": stock}))
    assert [doubt.place.file for doubt in found] == ["stock.csv"]


def out(price: str) -> FolderReading:
    return read({"kitchen.yaml": f"{KITCHEN}rules:\n  meal_out: {price}\n"})


def test_a_price_with_a_comma_before_three_digits_is_doubted_with_what_it_is_taken_as() -> None:
    (doubt,) = doubts(out("'1,234'"))
    assert doubt.what == "'1,234' may mean thousands or decimals; it is taken as 1234.00"
    (doubt,) = doubts(read({"stock.csv": 'food,amount,cost\nrice,1 kg,"1,234"\n'}))
    assert (doubt.place.item, "it is taken as 1234.00" in doubt.what) == ("cost", True)
    assert doubts(out("'1,234.50'")) == []
    assert doubts(out("'7,50'")) == []
