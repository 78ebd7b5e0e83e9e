"""What the cook says of a batch, read: readings with their tares, all faults at once."""

from __future__ import annotations

import pytest
from tests.unit.divide.batches import STEW, TABLE, only

from ladleworth.divide import Reading, parts_made
from ladleworth.errors import BadField, FaultyKitchen
from ladleworth.week.weighing import DivideWish, Said, read_wish

VARIANT = only(STEW)
MADE = parts_made(STEW, VARIANT, TABLE)


def said(**wish: object) -> Said:
    return read_wish(DivideWish(**wish), STEW, VARIANT, TABLE, MADE)  # type: ignore[arg-type]


def faults(**wish: object) -> list[str]:
    with pytest.raises(FaultyKitchen) as caught:
        said(**wish)
    return [f"{finding.place.item}: {finding.what}; {finding.remedy}" for finding in caught.value.findings]


def test_the_whole_pot_is_every_part_but_garnish_and_what_is_apart_or_counted() -> None:
    (pot,) = said(weighed=("4.1kg",), tare=("1.2kg",)).readings
    assert pot == Reading(("beef", "sauce", "rice"), 4_100_000, 1_200_000)
    pot, rice = said(weighed=("2.6 kg", "Rice=1.5kg"), tare=("1.2kg", "rice=400g")).readings
    assert pot == Reading(("beef", "sauce"), 2_600_000, 1_200_000)
    assert rice == Reading(("rice",), 1_500_000, 400_000)


def test_parts_weighed_together_are_named_with_a_plus_in_any_order() -> None:
    (both,) = said(weighed=("sauce + beef=3 lb 5 oz",)).readings
    assert both == Reading(("beef", "sauce"), 1_502_525)  # 3 x 453.59237 g + 5 x 28.349523125 g


def test_a_tare_without_a_name_is_the_only_pots() -> None:
    (rice,) = said(weighed=("rice=1.5kg",), tare=("400g",)).readings
    assert rice.net == 1_100_000


def test_pieces_are_counted_where_they_are_said_to_be_pieces() -> None:
    (bread,) = said(weighed=("bread=6 pieces",)).readings
    assert bread == Reading(("bread",), 6, in_pieces=True)


def test_scoops_cooking_and_depth_are_read() -> None:
    found = said(scoops=(8, 16), cooked=("beef-ground-80=pan-fried",), depth="2 in")
    assert (found.scoops, found.methods, found.depth_mm) == ((8, 16), {"beef-ground-80": "pan-fried"}, 51)
    assert said(depth="5cm").depth_mm == said(depth="50 mm").depth_mm == 50


def test_all_faults_are_told_at_once_each_under_its_option() -> None:
    told = faults(
        weighed=("ryce=1kg", "sauce=5", "beef=1 cup", "2kg", "3kg"),
        cooked=("bacon=pan-fried", "rice"),
        scoops=(7,),
        depth="deep",
    )
    assert [one.split(":")[0] for one in told] == [
        "--weighed 'ryce=1kg'", "--weighed 'sauce=5'", "--weighed 'beef=1 cup'", "--weighed '3kg'",
        "--cooked 'bacon=pan-fried'", "--cooked 'rice'", "--scoop '7'", "--depth 'deep'",
    ]  # fmt: skip
    for one, words in zip(
        told,
        ("did you mean 'rice'?", "has no unit", "is no weight", "the pot is weighed twice", "takes no",
         "names no method", "no scoop has the number 7", "such as 5 cm or 2 in"),
        strict=True,
    ):  # fmt: skip
        assert words in one


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        ({"weighed": ("rice=1kg", "rice=2kg")}, "rice is weighed twice; give one reading of it"),
        ({"weighed": ("rice+sauce=1kg", "rice=2kg")}, "rice is weighed twice"),
        ({"weighed": ("rice+rice=1kg",)}, "names a part twice"),
        (
            {"weighed": ("rice=1kg",), "tare": ("beef=1kg",)},
            "nothing was weighed that the empty weight beef belongs to; name what",
        ),
        ({"weighed": ("rice=1kg", "2kg"), "tare": ("1kg", "500g")}, "the pot has two empty weights"),
        ({"weighed": ("rice=1kg",), "tare": ("rice=1kg",)}, "write the filled weight first"),
        ({"weighed": ("beef=1kg", "sauce=1kg", "rice=1kg", "1kg")}, "no part is left to be in the pot"),
        ({"weighed": ("rice=0 g",)}, "write a weight above 0"),
        ({"weighed": ("rice=-1 kg",)}, "--weighed"),
        ({"weighed": ("7 pieces",)}, "is no weight"),
        ({"depth": "0 mm"}, "write 1 mm or more"),
    ],
)
def test_what_cannot_be_is_refused_with_what_to_write(wish: dict[str, object], words: str) -> None:
    assert any(words in one for one in faults(**wish))


def test_a_tare_alone_and_no_portions_are_refused() -> None:
    with pytest.raises(BadField, match="give --weighed with --tare"):
        DivideWish(tare=("1kg",))
    with pytest.raises(BadField, match="write 1 or more"):
        DivideWish(portions=0)
