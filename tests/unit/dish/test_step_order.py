"""Which steps follow which: as written, and by the order in which they stand."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from ladleworth.dish.records import WrittenStep
from ladleworth.dish.step_order import (
    all_followed,
    cycle_in,
    followed,
    nearest_only,
    sorted_by_order,
    without,
)


def step(
    part: str = "", name: str = "", after: tuple[str, ...] | None = None, day_before: bool = False
) -> WrittenStep:
    return WrittenStep("Do it.", part=part, name=name, after=after, day_before=day_before)


def sets(*befores: set[int]) -> tuple[frozenset[int], ...]:
    return tuple(map(frozenset, befores))


def test_a_step_of_a_part_follows_its_own_part_and_the_last_step_of_none() -> None:
    steps = [step(), step("rice"), step("stew"), step("Rice"), step(), step("stew"), step()]
    assert followed(steps) == sets(set(), {0}, {0}, {0, 1}, {0, 1, 2, 3}, {2, 4}, {0, 1, 2, 3, 4, 5})


def test_after_takes_the_place_of_the_order_of_the_file() -> None:
    steps = [step("a"), step("a", "chop", ()), step("b", "rice"), step("a", after=("Chop", "rice", "nobody"))]
    assert followed(steps) == sets(set(), set(), set(), {1, 2})


def test_the_day_before_and_the_day_itself_are_counted_apart() -> None:
    steps = [step(), step(day_before=True), step(), step(day_before=True)]
    assert followed(steps) == sets(set(), set(), {0}, {1})


def test_a_step_may_follow_one_that_stands_later_but_not_in_a_circle() -> None:
    forward = [step("a", after=("last",)), step("b", "last")]
    assert cycle_in(followed(forward)) == ()
    circle = [step("a", after=("last",)), step("a", "last")]  # the last follows the first of its part
    assert cycle_in(followed(circle)) == (1, 0)


def test_who_followed_a_step_left_out_follows_what_it_followed() -> None:
    edges = sets(set(), {0}, {1}, {2, 0})
    assert without(edges, [1, 2]) == sets(set(), set(), set(), {0})
    assert nearest_only(edges) == sets(set(), {0}, {1}, {2})
    assert all_followed(edges) == sets(set(), {0}, {0, 1}, {0, 1, 2})


ORDERS = st.integers(1, 7).flatmap(
    lambda n: st.tuples(
        *(
            st.frozensets(st.integers(0, at - 1), max_size=at) if at else st.just(frozenset())
            for at in range(n)
        )
    )
)


@given(ORDERS, st.sets(st.integers(0, 6)))
def test_leaving_out_keeps_what_follows_what(edges: tuple[frozenset[int], ...], gone: set[int]) -> None:
    far = all_followed(edges)
    kept = all_followed(without(edges, gone))
    for at, befores in enumerate(far):
        if at not in gone:
            assert kept[at] == befores - gone
    assert all_followed(nearest_only(edges)) == far
    assert cycle_in(edges) == ()
    assert sorted_by_order(edges) == tuple(range(len(edges)))


@given(st.integers(2, 6))
def test_a_circle_is_found_in_its_order(n: int) -> None:
    edges = tuple(frozenset({(at + 1) % n}) for at in range(n))
    circle = cycle_in(edges)
    assert len(circle) == n
    assert all(before in edges[then] for before, then in pairwise(circle))
