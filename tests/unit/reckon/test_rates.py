from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import product

import pytest

from ladleworth.errors import BadField
from ladleworth.reckon import (
    Bounds,
    DoubtfulLine,
    allowance_cents,
    cents_by_use,
    cost_by,
    cost_factor,
    cost_share,
    edible_cost,
    known,
    primary_part_cost,
    quantity_to_buy,
    spice_factor,
    total_bounds,
    variance,
)


def test_the_edible_cost_is_never_below_the_cost_as_purchased_for_a_yield_up_to_one() -> None:
    for tenths in range(1, 11):
        assert edible_cost(Fraction(100), Fraction(tenths, 10)) >= 100
    assert edible_cost(Fraction(100), Fraction(1)) == 100


def test_the_cost_factor_is_kept_apart_from_the_price() -> None:
    factor = cost_factor(Fraction(4, 5))
    assert factor == Fraction(5, 4)
    assert [edible_cost(Fraction(price), Fraction(4, 5)) for price in (80, 96)] == [80 * factor, 96 * factor]


def test_buying_back_from_what_is_eaten_and_trimming_again_gives_the_same() -> None:
    assert quantity_to_buy(Fraction(500), Fraction(82, 100)) * Fraction(82, 100) == 500


def test_a_cut_bears_the_whole_price_less_its_other_parts() -> None:
    assert primary_part_cost(2000, 500, Fraction(3)) == 500


def test_the_allowance_is_the_measured_cost_times_the_spice_factor_rounded_half_up() -> None:
    factor = spice_factor(500, 10_000)
    assert factor == Fraction(1, 20)
    assert allowance_cents(1010, factor) == 51
    assert allowance_cents(1009, factor) == 50
    assert allowance_cents(1000, Fraction(0)) == 0


def test_a_cost_by_a_basis_is_a_ratio() -> None:
    # 180 cents and 600 kcal a portion are 300 cents by 1000 kcal; 24 g of protein make 750 by 100 g
    assert cost_by(Fraction(180), Fraction(600), Fraction(1000)) == 300
    assert cost_by(Fraction(180), Fraction(24), Fraction(100)) == 750


def test_a_container_costs_its_price_over_its_expected_uses() -> None:
    assert cents_by_use(1000, 10, 50) == 2
    # half are lost before each further use: 1 + 1/2 + 1/4 uses expected
    assert cents_by_use(700, 10, 3, Fraction(1, 2)) == 40


def test_paid_less_planned_is_what_price_and_quantity_did() -> None:
    gap = variance(1000, 200, 1500, 360)
    assert (gap.price_cents, gap.quantity_cents, gap.cents) == (60, 100, 160)
    assert variance(1000, 200, 0, 0).cents == -200


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: cost_factor(Fraction(0)), "leaves nothing to eat"),
        (lambda: edible_cost(Fraction(-1), Fraction(1)), "below zero"),
        (lambda: primary_part_cost(100, 101, Fraction(1)), "from zero to the total"),
        (lambda: primary_part_cost(100, 1, Fraction(0)), "no cost by unit"),
        (lambda: spice_factor(1, 0), "no share"),
        (lambda: spice_factor(2, 1), "no share"),
        (lambda: allowance_cents(-1, Fraction(1)), "below zero"),
        (lambda: cost_share(1, 0), "no shares"),
        (lambda: cost_by(Fraction(1), Fraction(0), Fraction(1)), "above zero"),
        (lambda: cents_by_use(1, 1, 1, Fraction(1)), "below 1"),
        (lambda: variance(0, 0, 1, 1), "planned quantity above zero"),
        (lambda: Bounds(Fraction(2), Fraction(1), Fraction(3)), "not in order"),
        (lambda: DoubtfulLine("kale", known(1), known(0), known(1)), "above zero"),
    ],
)
def test_a_figure_out_of_range_is_refused(call: Callable[[], object], message: str) -> None:
    with pytest.raises(BadField, match=message):
        call()


def test_no_corner_of_the_doubts_lies_outside_the_bar_and_its_ends_are_reached() -> None:
    def about(*figures: str) -> Bounds:
        return Bounds(*(Fraction(figure) for figure in figures))

    lines = (
        DoubtfulLine(
            "carrot", about("390", "400", "410"), about("0.78", "0.8", "0.85"), about("0.2", "0.2", "0.25")
        ),
        DoubtfulLine("beef", about("480", "500", "505"), known(1), about("0.9", "1.1", "1.2")),
    )
    corners = []
    ends = [
        (b.least, b.greatest) for line in lines for b in (line.quantity, line.yield_share, line.unit_price)
    ]
    for q1, y1, p1, q2, y2, p2 in product(*ends):
        corners.append(q1 / y1 * p1 + q2 / y2 * p2)
    bar = total_bounds(lines)
    assert (bar.least, bar.greatest) == (min(corners), max(corners))
    assert bar.likely == 400 / Fraction("0.8") * Fraction("0.2") + 550
