from __future__ import annotations

import pytest

from ladleworth.facts import FoodTable, food_table
from ladleworth.facts.near import nearest_names


@pytest.fixture(scope="module")
def table() -> FoodTable:
    return food_table()


@pytest.mark.parametrize(
    ("slip", "meant"),
    [
        ("rise", "rice"),
        ("oinon", "onion"),
        ("onin", "onion"),
        ("unions", "onion"),
        ("ciken", "chicken"),
        ("chiken brest", "chicken breast"),
        ("chicken brests", "chicken breast"),
        ("brocoli", "broccoli"),
        ("potatos", "potato"),
        ("pottato", "potato"),
        ("tomatoe", "tomato"),
        ("tomatto", "tomato"),
        ("spageti", "spaghetti"),
        ("spagetti", "spaghetti"),
        ("zuchini", "zucchini"),
        ("yogert", "yogurt"),
        ("parmasan", "parmesan"),
        ("mozarella", "mozzarella"),
        ("cinamon", "cinnamon"),
        ("lettus", "lettuce"),
        ("letuce", "lettuce"),
        ("avacado", "avocado"),
        ("bannana", "banana"),
        ("flower", "flour"),
        ("chedder", "cheddar"),
        ("rasberries", "raspberries"),
        ("rasberry", "raspberry"),
        ("strawbery", "strawberry"),
        ("cabage", "cabbage"),
        ("celary", "celery"),
        ("garlick", "garlic"),
        ("tumeric", "turmeric"),
        ("vinigar", "vinegar"),
        ("mayonaise", "mayonnaise"),
        ("peanutbutter", "peanut butter"),
        ("penut butter", "peanut butter"),
        ("blackbeans", "black beans"),
        ("cauliflour", "cauliflower"),
        ("brussel sprouts", "Brussels sprouts"),
        ("oragano", "oregano"),
        ("tyme", "thyme"),
        ("basel", "basil"),
        ("leak", "leek"),
        ("beat", "beet"),
        ("pees", "peas"),
        ("corriander", "coriander"),
        ("jalepeno", "jalapeno"),
        ("kidny beans", "kidney beans"),
        ("lentls", "lentils"),
        ("lentills", "lentils"),
        ("chick pease", "chickpeas"),
        ("chickpees", "chickpeas"),
        ("macarroni", "macaroni"),
        ("buter", "butter"),
        ("mlk", "milk"),
        ("suger", "sugar"),
        ("slat", "salt"),
        ("egs", "egg"),
        ("cucmber", "cucumber"),
        ("carot", "carrot"),
        ("carrotts", "carrot"),
        ("spinage", "spinach"),
        ("mushrom", "mushroom"),
        ("mushrooom", "mushroom"),
        ("egplant", "eggplant"),
        ("pumkin", "pumpkin"),
        ("sweet potatoe", "sweet potato"),
        ("grean beans", "green beans"),
        ("ground beaf", "ground beef"),
        ("tunna", "tuna"),
        ("samon", "salmon"),
        ("shrmp", "shrimp"),
        ("bred", "bread"),
        ("tortila", "tortilla"),
        ("couscus", "couscous"),
        ("quinua", "quinoa"),
        ("otas", "oats"),
        ("olive oyl", "olive oil"),
        ("soysauce", "soy sauce"),
        ("wostershire sauce", "Worcestershire sauce"),
        ("ketchop", "ketchup"),
        ("mustered", "mustard"),
        ("hunny", "honey"),
        ("choclate chips", "chocolate chips"),
        ("vanila", "vanilla extract"),
        ("baking sodda", "baking soda"),
        ("almunds", "almonds"),
        ("walnutts", "walnuts"),
        ("raisens", "raisins"),
        ("tofoo", "tofu"),
        ("papperika", "paprika"),
        ("cummin", "cumin"),
        ("gingir", "ginger"),
        ("parsly", "parsley"),
        ("silantro", "cilantro"),
        ("redish", "radish"),
        ("turnup", "turnip"),
        ("appel", "apple"),
        ("pinapple", "pineapple"),
        ("lemmon", "lemon"),
        ("ornage", "orange"),
        ("grapfruit", "grapefruit"),
        ("cream chees", "cream cheese"),
        ("cotage cheese", "cottage cheese"),
        ("sour creme", "sour cream"),
        ("pinto beens", "pinto beans"),
        ("split pee", "split peas"),
        ("tinned tomatos", "canned tomatoes"),
        ("marjarine", "margarine"),
        ("hotdog", "hot dog"),
    ],
)
def test_a_misspelt_food_is_the_first_of_the_three_names_given(
    table: FoodTable, slip: str, meant: str
) -> None:
    near = table.nearest(slip)
    assert len(set(near)) == 3
    assert near[0] == table.find(meant).name


def slip(name: str, kind: int) -> str:
    """Make a slip in the middle of a name: a letter left out, doubled, changed, or swapped with the next."""
    at = len(name) // 2
    head, letter, after, tail = name[:at], name[at], name[at + 1], name[at + 2 :]
    made = (after, letter + letter + after, "x" + after, after + letter)
    return head + made[kind % 4] + tail


def test_names_of_five_letters_or_more_survive_one_slip(table: FoodTable) -> None:
    names = [food.name for food in table if len(food.name) >= 5]
    tried = [(slip(name, kind), name) for kind, name in enumerate(names[::3])]
    assert len(tried) > 150
    assert [(wrong, name) for wrong, name in tried if name not in table.nearest(wrong)] == []


def test_a_short_word_is_not_looked_for_inside_long_ones(table: FoodTable) -> None:
    assert "iceberg lettuce" not in table.nearest("rise")
    assert "butternut squash" not in table.nearest("nuts")


NAMES = (("black beans", "B"), ("Bohnen", "B"), ("beets", "beets"), ("рис", "рис"), ("🍚", "bowl"))


def test_words_run_together_or_out_of_order_are_seen_through() -> None:
    assert nearest_names("blackbeans", NAMES, 1) == ("B",)
    assert nearest_names("beans, black", NAMES, 1) == ("B",)


def test_a_food_is_given_once_however_many_of_its_names_are_near() -> None:
    assert nearest_names("bohnes black", NAMES, 2) == ("B", "beets")


def test_names_of_any_script_are_compared() -> None:
    assert nearest_names("риз", NAMES, 1) == ("рис",)
    assert nearest_names("🍚", NAMES, 1) == ("bowl",)


def test_a_blank_name_is_like_none_and_gives_the_first() -> None:
    assert nearest_names(" ", NAMES, 2) == ("B", "beets")


def test_a_page_of_text_is_cut_short() -> None:
    assert nearest_names("beets " + "x" * 100_000, NAMES, 1) == nearest_names("beets " + "x" * 40, NAMES, 1)
    assert nearest_names("beets " * 10_000, NAMES, 1) == ("beets",)


@pytest.mark.parametrize("name", ["harissa", "shellfish", "gochujang", "kimchi", "lemongrass", "dragonfruit"])
def test_a_food_that_the_table_does_not_hold_has_no_near_name(table: FoodTable, name: str) -> None:
    assert table.nearest(name) == ()
