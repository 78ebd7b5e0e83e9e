from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadField, MissingFact, UnknownFood
from ladleworth.facts import (
    AllergenFlag,
    Composition,
    Density,
    Figure,
    Food,
    Keeping,
    Measure,
    OwnFood,
    PieceWeight,
    WeightIs,
    food_table,
)


def own(food_id: str, name: str, *aliases: str) -> Food:
    return Food(food_id, name, aliases, "own", Measure.MASS, own=True)


def grams(value: str) -> Figure:
    return Figure(Fraction(value), "g", "own", "own")


def test_a_new_food_needs_no_figure_at_all() -> None:
    table = food_table().with_own([OwnFood(own("gran-s-chutney", "Gran's chutney", "chutney"))])
    assert table.find("chutney").id == "gran-s-chutney"
    assert table.find("chutney").own
    with pytest.raises(MissingFact, match="composition of 'gran-s-chutney'"):
        table.composition("gran-s-chutney")
    assert table.edible_fraction("gran-s-chutney").basis == "common practice"
    assert table.piece_weights("gran-s-chutney") == ()
    assert table.keepings("gran-s-chutney") == ()


def test_the_table_it_is_laid_over_is_unchanged() -> None:
    before = len(food_table())
    more = food_table().with_own([OwnFood(own("gran-s-chutney", "Gran's chutney"))])
    assert len(more) == before + 1
    assert len(food_table()) == before
    with pytest.raises(UnknownFood):
        food_table().get("gran-s-chutney")


def test_a_new_food_without_a_word_on_allergens_has_its_label_read() -> None:
    table = food_table().with_own(
        [OwnFood(own("a", "thing one")), OwnFood(own("b", "thing two"), allergens=())]
    )
    assert table.read_label("a")
    assert not table.read_label("b")


def test_an_override_replaces_what_it_gives_and_keeps_the_rest() -> None:
    record = OwnFood(
        own("onion", "onion"),
        pieces=(PieceWeight("medium", grams("140"), WeightIs.AS_BOUGHT),),
        keeping=(Keeping("cupboard", "raw", None, 30, "own", "own"),),
        densities=(Density("chopped", Figure(Fraction("0.6"), "g/ml", "own", "own")),),
    )
    table = food_table().with_own([record])
    assert table.piece_weight("onion").value == 140
    assert table.piece_sizes("onion") == ("medium",)
    assert table.keeping("onion", "cupboard", "raw").most_days == 30
    assert table.keeping("onion", "fridge", "cooked").most_days == 4
    assert table.density("onion").value == Fraction("0.6")
    assert table.composition("onion") == food_table().composition("onion")
    assert table.edible_fraction("onion") == food_table().edible_fraction("onion")


def test_allergens_of_an_override_replace_only_when_given() -> None:
    flag = AllergenFlag("milk", "usual recipe of the product", "own", "own")
    table = food_table().with_own([OwnFood(own("bread-white", "our white bread"), allergens=(flag,))])
    assert table.allergens("bread-white") == (flag,)
    plain = food_table().with_own([OwnFood(own("bread-white", "our white bread"))])
    assert plain.allergens("bread-white") == food_table().allergens("bread-white")


def test_the_kitchens_own_name_wins_over_the_tables() -> None:
    table = food_table().with_own([OwnFood(own("home-stock", "home stock", "chicken stock"))])
    assert table.find("chicken stock").id == "home-stock"
    assert table.find("chicken broth").id == "broth-chicken"


def test_own_foods_of_any_script_are_told_apart() -> None:
    table = food_table().with_own(
        [OwnFood(own("рис", "рис")), OwnFood(own("米", "米")), OwnFood(own("лук", "лук", "лук репчатый"))]
    )
    assert [table.find(name).id for name in ("РИС", "米", "Лук репчатый")] == ["рис", "米", "лук"]


def test_accents_tell_own_foods_apart_and_a_name_without_them_means_neither() -> None:
    table = food_table().with_own(
        [OwnFood(own("cá", "cá")), OwnFood(own("cà", "cà")), OwnFood(own("bơ", "bơ"))]
    )
    assert [table.find(name).id for name in ("Cá", "cà", "bơ", "bo")] == ["cá", "cà", "bơ", "bơ"]
    with pytest.raises(UnknownFood) as caught:
        table.find("ca")
    assert {"cá", "cà"} < set(caught.value.nearest)


def test_records_refuse_what_cannot_be() -> None:
    with pytest.raises(BadField, match="not marked own"):
        OwnFood(Food("x", "x", (), "own", Measure.MASS))
    with pytest.raises(BadField, match="carries the composition of 'y'"):
        OwnFood(own("x", "x"), Composition("y", (), "own", "own"))
    with pytest.raises(BadField, match="edible fraction of 'x' is 2"):
        OwnFood(own("x", "x"), edible_fraction=Figure(Fraction(2), "share", "own", "own"))
    with pytest.raises(BadField, match="lower-case words"):
        own("Not An Id", "x")
    with pytest.raises(BadField, match="has no name"):
        own("x", "  ")
    with pytest.raises(BadField, match="cannot be below zero"):
        Composition("x", (("fat_g", Fraction(-1)),), "own", "own")
    with pytest.raises(BadField, match="names no source"):
        Figure(Fraction(1), "g", "", "own")
    with pytest.raises(BadField, match="basis 'guess'"):
        Figure(Fraction(1), "g", "own", "guess")
    with pytest.raises(BadField, match="is not a range"):
        Keeping("fridge", "raw", 5, 3, "own", "own")
    with pytest.raises(BadField, match="place 'shed'"):
        Keeping("shed", "raw", 1, 3, "own", "own")
    with pytest.raises(BadField, match="allergen 'celery'"):
        AllergenFlag("celery", "by nature of the food", "own", "own")
    with pytest.raises(BadField, match="more than zero"):
        PieceWeight("big", grams("0"), WeightIs.EDIBLE)
    with pytest.raises(BadField, match="more than zero"):
        Density("as is", grams("0"))


def packet(aisle: str, *, label: bool = False) -> OwnFood:
    basis = "label" if label else "own"
    return OwnFood(
        Food("oat-drink", "oat drink", (), aisle, Measure.MASS, own=True),
        composition=Composition("oat-drink", (("energy_kcal", Fraction(45)),), basis, basis),
    )


@pytest.mark.parametrize(
    ("aisle", "label"), [("drinks", False), ("own", False), ("own", True), ("fish", True)]
)
def test_packet_goods_of_the_kitchen_are_eaten_whole_by_common_practice(aisle: str, label: bool) -> None:
    share = food_table().with_own([packet(aisle, label=label)]).edible_fraction("oat-drink")
    assert (share.value, share.source, share.basis) == (1, "common-practice", "common practice")
    assert share.note == "packet goods are eaten whole"


@pytest.mark.parametrize("aisle", ["produce", "meat", "fish"])
def test_of_an_own_food_that_may_have_peel_or_bone_nobody_has_the_edible_fraction(aisle: str) -> None:
    table = food_table().with_own([packet(aisle)])
    with pytest.raises(MissingFact, match=r"write edible: 0\.9, say, in foods\.yaml"):
        table.edible_fraction("oat-drink")


def test_an_edible_fraction_that_the_kitchen_writes_is_the_one_taken() -> None:
    own_share = Figure(Fraction(9, 10), "share", "own", "own")
    written = OwnFood(packet("drinks").food, edible_fraction=own_share)
    assert food_table().with_own([written]).edible_fraction("oat-drink") == own_share
