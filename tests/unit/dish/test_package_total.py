from __future__ import annotations

import pytest

from ladleworth.dish.package_total import read_package_total
from ladleworth.errors import BadUnit
from ladleworth.units import EACH, KG, LB, OZ, G, L, Quantity


@pytest.mark.parametrize(
    ("text", "total"),
    [
        ("2 (14.5 oz) cans", Quantity.of(29, OZ)),
        ("2 (14.5 oz) can", Quantity.of(29, OZ)),
        ("2 x 400 g", Quantity.of(800, G)),
        ("2 × 400g", Quantity.of(800, G)),
        ("3 x 400 g tins", Quantity.of(1200, G)),
        ("1 (1 lb) bag", Quantity.of(1, LB)),
        ("14.5 oz can", Quantity.of(1, OZ) * 29 / 2),
        ("6 x 1 l cartons", Quantity.of(6, L)),
        ("2 (400 g) packets.", Quantity.of(800, G)),
        ("500 g", Quantity.of(500, G)),
        ("1 kg 250 g", Quantity.of(1, KG) + Quantity.of(250, G)),
        ("12 each", Quantity.of(12, EACH)),
    ],
)
def test_packages_of_one_size_are_added_up(text: str, total: Quantity) -> None:
    assert read_package_total(text) == total


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("2 cans", "does not say what one can holds; write it like"),
        ("2-3 (14.5 oz) cans", "has a range"),
        ("2 (400-500 g) bags", "has a range"),
        ("2 x", "no unit"),
        ("", "write"),
        ("two big ones", "write"),
        ("2 (14.5 oz) cans tomatoes", "write"),
        ("0 x 400 g", "write"),
    ],
)
def test_what_is_no_total_is_refused_with_what_to_write(text: str, why: str) -> None:
    with pytest.raises(BadUnit, match=why):
        read_package_total(text)
