from __future__ import annotations

from fractions import Fraction

import pytest

from ladleworth.errors import BadField, BadUnit
from ladleworth.units import CUP, EACH, KG, LB, MG, OZ, TBSP, Dimension, G, Quantity, half_up


def test_a_half_goes_up() -> None:
    assert [half_up(Fraction(n, 2)) for n in (1, 3, 5, -1, -3)] == [1, 2, 3, 0, -1]
    assert half_up(Fraction(49, 100)) == 0


def test_sixteen_ounces_make_a_pound_exactly() -> None:
    assert Quantity.of(16, OZ) == Quantity.of(1, LB)
    assert Quantity.of(100, LB).mg == 45_359_237


def test_amounts_of_one_kind_add_subtract_and_scale() -> None:
    flour = Quantity.of(1, KG) + Quantity.of(250, G)
    assert flour.in_unit(G) == 1250
    assert (flour - Quantity.of(1, KG)).in_unit(G) == 250
    assert (flour * Fraction(1, 5)).in_unit(G) == (Fraction(1, 5) * flour).in_unit(G) == 250
    assert (flour / 5).in_unit(G) == 250
    assert flour.ratio(Quantity.of(500, G)) == Fraction(5, 2)


def test_a_cup_is_sixteen_tablespoons() -> None:
    assert Quantity.of(1, CUP).in_unit(TBSP) == 16


def test_amounts_compare_across_units() -> None:
    assert Quantity.of(1, LB) > Quantity.of(450, G) >= Quantity.of(450, G)
    assert Quantity.of(450, G) < Quantity.of(1, LB)
    assert Quantity.of(450, G) <= Quantity.of(1, LB)


@pytest.mark.parametrize(
    "mix",
    [
        lambda a, b: a + b,
        lambda a, b: a - b,
        lambda a, b: a < b,
        lambda a, b: a <= b,
        lambda a, b: a > b,
        lambda a, b: a >= b,
        lambda a, b: a.ratio(b),
        lambda a, _b: a.in_unit(CUP),
        lambda a, _b: a.ml,
        lambda a, _b: a.each,
        lambda _a, b: b.mg,
        lambda _a, b: b.whole_mg(),
    ],
)
def test_a_mass_and_a_volume_are_never_combined(mix: object) -> None:
    assert callable(mix)
    with pytest.raises(BadUnit, match="cannot be"):
        mix(Quantity.of(1, G), Quantity.of(1, CUP))


def test_different_kinds_are_never_equal() -> None:
    assert Quantity(Fraction(1), Dimension.MASS) != Quantity(Fraction(1), Dimension.VOLUME)


def test_milligrams_are_rounded_only_when_asked() -> None:
    ounce = Quantity.of(1, OZ)  # 28349.523125 mg
    with pytest.raises(BadUnit, match="ask for whole_mg"):
        _ = ounce.mg
    assert ounce.whole_mg() == 28_350
    assert Quantity.of(Fraction(1, 2), MG).whole_mg() == 1


def test_volumes_and_counts_are_read_exactly() -> None:
    assert Quantity.of(2, CUP).ml == Fraction("473.176473")
    assert Quantity.of(Fraction(1, 2), EACH).each == Fraction(1, 2)


def test_an_inexact_amount_is_refused() -> None:
    for wrong in (1.5, True, "2"):
        with pytest.raises(BadField, match="whole number or a Fraction"):
            Quantity(wrong, Dimension.MASS)  # type: ignore[arg-type]


def test_only_numbers_scale_an_amount() -> None:
    with pytest.raises(TypeError):
        Quantity.of(1, G) * 1.5  # type: ignore[operator]
    with pytest.raises(TypeError):
        Quantity.of(1, G) / True
    with pytest.raises(BadUnit, match="divided by zero"):
        Quantity.of(1, G) / 0
    with pytest.raises(BadUnit, match="divided by"):
        Quantity.of(1, G).ratio(Quantity.of(0, G))
