"""Dividing anything: shares add up to the pot exactly, equal portions are equal, and no order matters."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import hypothesis.strategies as st
from hypothesis import assume, given, settings
from tests.unit.divide.batches import STEW, TENTH, asked

from ladleworth.divide import (
    Portion,
    Reading,
    ToFill,
    choose,
    deal_mass,
    deal_pieces,
    divide,
    nearest_scoop,
    nearest_spoon,
)
from ladleworth.divide.codes import LETTERS, PortionCode, check_letter, read_code
from ladleworth.divide.judge import breaches
from ladleworth.divide.measures import SPOONS
from ladleworth.divide.shares import unit_of
from ladleworth.errors import BadField
from ladleworth.facts.scoops import scoops
from ladleworth.household.rules import Container

SIZES = st.fractions(min_value=Fraction(1, 4), max_value=3, max_denominator=6)
WEIGHTS = st.lists(SIZES, min_size=1, max_size=12)
MASSES = st.integers(0, 20_000_000)
BOXES = st.lists(
    st.builds(
        Container,
        st.integers(150, 2000),
        st.integers(0, 5),
        st.one_of(st.none(), st.integers(30, 150)),
    ),
    max_size=4,
)


@given(MASSES, WEIGHTS)
def test_shares_of_a_mass_add_up_to_the_milligram_and_equal_ones_differ_by_a_unit(
    total: int, weights: list[Fraction]
) -> None:
    shares = deal_mass(total, weights)
    unit, whole = unit_of(total, len(weights)), sum(weights, Fraction(0))
    assert sum(shares) == total
    assert sum(share % unit != 0 for share in shares) <= 1
    for share, weight in zip(shares, weights, strict=True):
        assert abs(share - total * weight / whole) < unit
    for one, weight in zip(shares, weights, strict=True):
        for other, heavier in zip(shares, weights, strict=True):
            assert weight != heavier or abs(one - other) <= unit
            assert weight >= heavier or one <= other


@given(st.integers(0, 60), WEIGHTS)
def test_shares_of_pieces_add_up_and_equal_ones_differ_by_a_piece_at_most(
    pieces: int, weights: list[Fraction]
) -> None:
    shares = deal_pieces(pieces, weights)
    assert sum(shares) == pieces
    assert max(share.denominator for share in shares) <= 8
    for one, weight in zip(shares, weights, strict=True):
        for other, heavier in zip(shares, weights, strict=True):
            assert weight != heavier or abs(one - other) <= 1
            assert weight >= heavier or one <= other


@given(MASSES, WEIGHTS, st.randoms(use_true_random=False))
def test_in_which_order_portions_stand_changes_only_who_of_equals_gets_the_odd_unit(
    total: int, weights: list[Fraction], chance: object
) -> None:
    shuffled = [*weights]
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    first = Counter(zip(weights, deal_mass(total, weights), strict=True))
    assert Counter(zip(shuffled, deal_mass(total, shuffled), strict=True)) == first


READINGS = st.lists(
    st.builds(
        lambda parts, gross, tare: Reading(tuple(parts), gross + tare, tare),
        st.lists(st.sampled_from(["beef", "sauce", "rice", "cheese"]), min_size=1, max_size=4, unique=True),
        st.integers(1_000, 5_000_000),
        st.integers(0, 2_000_000),
    ),
    max_size=4,
)
PORTIONS = st.lists(st.builds(Portion, SIZES, st.booleans()), min_size=1, max_size=10).map(tuple)


@settings(max_examples=40)
@given(READINGS, PORTIONS, BOXES, st.one_of(st.none(), st.integers(1, 60)))
def test_however_a_batch_is_weighed_the_shares_of_every_heap_add_up_to_it(
    readings: list[Reading], portions: tuple[Portion, ...], boxes: list[Container], pieces: int | None
) -> None:
    said = [*readings, *([Reading(("bread",), pieces, in_pieces=True)] if pieces else [])]
    question = asked(STEW, portions=portions, readings=tuple(said), containers=tuple(boxes))
    answer = divide(question)  # the judge has passed it; here it is added up once more, by hand
    assert list(breaches(question, answer)) == []
    assert sorted(part for one in answer.dealt for part in one.heap.parts) == [
        "beef",
        "bread",
        "cheese",
        "rice",
        "sauce",
    ]
    for one in answer.dealt:
        assert sum(one.shares_mg) == one.heap.total_mg
        assert one.heap.pieces is None or sum(one.pieces) == one.heap.pieces
    last = {part: reading for reading in said for part in reading.parts}
    for reading in {id(one): one for one in last.values()}.values():
        if all(last[part] is reading for part in reading.parts) and not reading.in_pieces:
            mine = [one for one in answer.dealt if set(one.heap.parts) == set(reading.parts)]
            assert [sum(one.shares_mg) for one in mine] in ([reading.gross - reading.tare], [])
    whole = sum(sum(one.shares_mg) for one in answer.dealt)
    assert sum(label.total_mg or 0 for label in answer.labels) == whole


@settings(max_examples=20)
@given(READINGS, st.randoms(use_true_random=False))
def test_readings_that_do_not_speak_of_the_same_parts_may_come_in_any_order(
    readings: list[Reading], chance: object
) -> None:
    assume(len({part for one in readings for part in one.parts}) == sum(len(one.parts) for one in readings))
    shuffled = [*readings]
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    one, other = (divide(asked(STEW, readings=tuple(said))) for said in (readings, shuffled))
    assert one == other


@settings(max_examples=80)
@given(
    st.lists(st.tuples(st.integers(50, 1500), st.booleans()), min_size=1, max_size=8),
    BOXES,
    st.randoms(use_true_random=False),
)
def test_containers_hold_what_they_are_given_and_no_order_matters(
    wanted: list[tuple[int, bool]], boxes: list[Container], chance: object
) -> None:
    to_fill = [ToFill(at, volume, frozen) for at, (volume, frozen) in enumerate(wanted)]
    fit = choose(to_fill, boxes, TENTH)
    shuffled, others = [*to_fill], [*boxes]
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    chance.shuffle(others)  # type: ignore[attr-defined]
    assert choose(shuffled, others, TENTH) == fit
    used = Counter((one.container.size_ml, one.container.depth_mm) for one in fit.filled)
    there: Counter[tuple[int, int | None]] = Counter()
    for box in boxes:
        there[box.size_ml, box.depth_mm] += box.count
    assert used <= there
    for one in fit.filled:
        assert one.volume_ml <= TENTH.room_ml(one.container, frozen=wanted[one.portion][1])
    assert bool(fit.unfilled) == bool(fit.reasons)
    assert len(fit.filled) + len(fit.unfilled) == len(wanted)


@settings(max_examples=30)
@given(st.fractions(min_value=Fraction(1, 10), max_value=3000, max_denominator=100))
def test_the_error_of_a_measure_is_what_it_is_off(target: Fraction) -> None:
    for found in (nearest_scoop(target), nearest_spoon(target)):
        assert found.count * found.volume_ml == target * (1 + found.error)
        assert 1 <= found.count <= 6
    volumes = [one.volume_ml for one in scoops().values()], [volume for _, volume in SPOONS]
    for found, sizes in zip((nearest_scoop(target), nearest_spoon(target)), volumes, strict=True):
        least = min(abs(count * volume / target - 1) for volume in sizes for count in range(1, 7))
        assert abs(found.error) <= max(least, Fraction(5, 100))


@given(st.integers(1, 12), st.integers(1, 28), st.integers(0, 22), st.integers(1, 999), st.data())
def test_a_code_is_read_back_and_no_slip_of_one_sign_goes_unseen(
    month: int, day: int, batch: int, number: int, data: st.DataObject
) -> None:
    code = PortionCode(month, day, batch, number)
    assert read_code(str(code).lower()) == code
    plain = str(code).replace("-", "")
    at = data.draw(st.integers(0, len(plain) - 1))
    slip = plain[:at] + data.draw(st.sampled_from("0123456789" + LETTERS)) + plain[at + 1 :]
    if slip == plain:
        return
    try:
        found = read_code(slip)
    except BadField:
        return
    raise AssertionError(f"{slip} was read as {found}, and {plain} was written; {check_letter(slip[:-1])}")
