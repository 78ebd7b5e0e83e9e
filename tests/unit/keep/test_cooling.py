"""Forecasts of cooling: outcomes, both readings of the code, advice for homes, and what would meet the limits."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.unit.keep.boxes import KITCHEN, STEW, stew

from ladleworth.errors import BadField
from ladleworth.facts import food_table
from ladleworth.facts.heat import estimates, heat_limit, heat_limits
from ladleworth.keep import (
    Case,
    CoolingQuestion,
    FilledContainer,
    Lid,
    Outcome,
    Spot,
    Step,
    Surroundings,
    Wall,
    Way,
    forecast,
    ways_out,
)
from ladleworth.keep.containers import cooling_matter, stages_of
from ladleworth.keep.cooling import ALL, FIRST, SECOND
from ladleworth.keep.cooling_search import greatest_depth_mm, least_ice_bath_min, meets, most_at_once
from ladleworth.keep.surroundings import air_c, lower_face, side_face, upper_face

COLD_FAN = Surroundings(room_c=21, fridge_c=0.5, fan_fridge=True)


def test_every_limit_and_estimate_names_a_source_of_the_list_and_what_it_rests_on() -> None:
    for name, figure in {**heat_limits(), **estimates()}.items():
        assert food_table().source(figure.source).title, name
        assert (figure.basis == "memory") == (figure.source == "heat-memory"), name
        assert (figure.basis == "chosen") == (figure.source == "heat-chosen"), name


def test_the_slow_end_of_an_exchange_is_never_above_the_middle() -> None:
    for name, figure in estimates().items():
        if figure.unit == "W/(m²·K)":
            assert figure.slow <= figure.middle <= figure.fast, name
        if figure.unit == "m²·K/W":
            assert figure.slow >= figure.middle >= figure.fast, name


@pytest.mark.parametrize(
    ("name", "value", "unit", "source"),
    [
        # US FDA Food Code 3-501.14, as adopted in Delaware (read); the four hours from abstracts (read).
        ("cooling starts", 135, "°F", "food-code-cooling"),
        ("cooling, first limit", 70, "°F", "food-code-cooling"),
        ("cooling, last limit", 41, "°F", "food-code-cooling"),
        ("cooling, first limit within", 120, "min", "food-code-cooling"),
        ("cooling, all within", 360, "min", "food-code-cooling"),
        ("cooling, second stage within", 240, "min", "cooling-abstracts"),
        # USDA FSIS, Safe Minimum Internal Temperature Chart, leftovers (read).
        ("reheating", 165, "°F", "fsis-temperature-chart"),
    ],
)
def test_the_limits_are_the_published_ones(name: str, value: int, unit: str, source: str) -> None:
    figure = heat_limit(name)
    assert (figure.value, figure.unit, figure.source, figure.basis) == (value, unit, source, "read")


def test_a_thin_layer_in_a_cold_fan_fridge_meets_every_limit_in_the_slow_corner() -> None:
    told = forecast(stew(12, counter=1, around=COLD_FAN, start_c=70))
    assert told.outcome is told.as_written is Outcome.MEETS
    assert [limit.name for limit in told.limits] == [FIRST, ALL, SECOND]
    assert all(limit.slow_min is not None and limit.slow_min <= limit.allowed.value for limit in told.limits)
    assert ways_out(told.question) == ()


def test_two_inches_in_a_still_fridge_miss_though_they_are_as_shallow_as_advised() -> None:
    told = forecast(stew(50))
    assert told.outcome is Outcome.MISSES
    assert told.advice.is_shallow
    assert told.advice.in_time


def test_the_stricter_reading_may_be_missed_where_the_codes_words_are_met() -> None:
    # A long stirred ice bath brings 70 °F early and leaves a long way down: more than 4 hours, less than 6 in all.
    told = forecast(stew(40, ice=30, around=replace(KITCHEN, fridge_c=1)))
    by_name = {limit.name: limit for limit in told.limits}
    assert by_name[ALL].outcome is Outcome.MEASURE
    assert by_name[SECOND].outcome is Outcome.MISSES
    assert (told.as_written, told.outcome) == (Outcome.MEASURE, Outcome.MISSES)


def test_the_clock_starts_when_the_mean_passes_135_and_the_slower_beginning_is_told() -> None:
    hot, even = forecast(stew(40, start_c=95)).middle, forecast(stew(40, start_c=57.2222)).middle
    assert hot.start_min > 0
    assert even.start_min == 0
    for told, least in ((hot.first_min, even.first_min), (hot.last_min, even.last_min)):
        assert told is not None
        assert least is not None
        assert told >= least - 1e-6


def test_a_fridge_at_three_degrees_or_not_measured_cannot_meet_the_last_limit_in_the_slow_corner() -> None:
    # 3 °C + 2 K = 5 °C = 41 °F: food never gets colder than its air.
    for fridge_c in (3.0, None):
        assert forecast(stew(10, around=replace(KITCHEN, fridge_c=fridge_c))).slow.last_min is None
    assert forecast(stew(10, around=replace(KITCHEN, fridge_c=2.5))).slow.last_min is not None


@pytest.mark.parametrize(
    ("spot", "told", "slow_c", "middle_c"),
    [
        (Spot.FRIDGE, 3.0, 5.0, 3.0),
        (Spot.FREEZER, -18.0, -15.0, -18.0),
        (Spot.COUNTER, 21.0, 24.0, 21.0),
    ],
)
def test_the_slow_corner_is_warmer_than_the_thermometer(
    spot: Spot, told: float, slow_c: float, middle_c: float
) -> None:
    around = (
        Surroundings(told, told if spot is Spot.FRIDGE else None, told if spot is Spot.FREEZER else None)
        if (spot is not Spot.FREEZER)
        else Surroundings(freezer_c=told)
    )
    assert air_c(spot, around, Case.SLOW) == slow_c
    assert air_c(spot, around, Case.MIDDLE) == middle_c


def test_the_slow_corner_takes_more_depth_more_delay_and_worse_matter() -> None:
    question = stew(30)
    slow, middle = (question.filled.body(cooling_matter(STEW, case), case) for case in Case)
    assert slow.depth_m == pytest.approx(0.035)
    assert FilledContainer(80).body(slow.matter, Case.SLOW).depth_m == pytest.approx(0.088)
    assert middle.depth_m == pytest.approx(0.030)
    assert slow.matter.conductivity_w_mk < 0.87 * middle.matter.conductivity_w_mk
    assert slow.matter.heat_capacity_j_kgk > 1.02 * middle.matter.heat_capacity_j_kgk
    lengths = [stages_of(question.filled, question.steps, KITCHEN, case, 1.0)[0].seconds for case in Case]
    assert lengths == [1800, 1200]


def test_without_a_counter_step_the_delay_comes_first() -> None:
    question = stew(30, counter=0)
    stages = stages_of(question.filled, question.steps, KITCHEN, Case.SLOW, None)
    assert [stage.seconds for stage in stages] == [600, float("inf")]


def test_much_hot_food_warms_the_fridge_for_two_hours_in_the_slow_corner_only() -> None:
    question = stew(30, counter=0)
    slow = stages_of(question.filled, question.steps, KITCHEN, Case.SLOW, 2.5)
    assert [(stage.seconds, stage.faces[0].surroundings_c) for stage in slow] == [
        (600, 24.0),
        (7200, 6.0),
        (float("inf"), 4.0),
    ]
    middle = stages_of(question.filled, question.steps, KITCHEN, Case.MIDDLE, 2.5)
    assert [stage.faces[0].surroundings_c for stage in middle] == [2.0, 2.0]


def test_sides_count_by_what_is_said_of_them() -> None:
    box = FilledContainer(40, 180, 130)
    assert [box.counts_sides(case) for case in Case] == [False, True]
    assert all(replace(box, apart=True).counts_sides(case) for case in Case)
    assert not any(replace(box, apart=False).counts_sides(case) for case in Case)
    assert not any(FilledContainer(40, apart=True).counts_sides(case) for case in Case)


def test_lid_and_bright_metal_keep_heat_in() -> None:
    for case in Case:
        off, on, touching = (
            upper_face(Spot.FRIDGE, lid, KITCHEN, case).exchange_w_m2k
            for lid in (Lid.OFF, Lid.ON, Lid.TOUCHING)
        )
        assert on < touching < off
        glass, metal = (side_face(Spot.FRIDGE, wall, KITCHEN, case) for wall in (Wall.GLASS, Wall.METAL))
        assert metal.exchange_w_m2k < glass.exchange_w_m2k
        fan = replace(KITCHEN, fan_fridge=True)
        assert lower_face(Spot.FRIDGE, Wall.METAL, fan, case).exchange_w_m2k == case.of("fan fridge")
        assert lower_face(Spot.ICE_BATH, Wall.METAL, fan, case).exchange_w_m2k == case.of("ice bath")


def test_a_probes_factor_replaces_the_range_less_a_fifth_in_the_slow_corner() -> None:
    learned = replace(KITCHEN, factor=1.3)
    plain = upper_face(Spot.FRIDGE, Lid.ON, KITCHEN, Case.MIDDLE).exchange_w_m2k
    assert upper_face(Spot.FRIDGE, Lid.ON, learned, Case.MIDDLE).exchange_w_m2k == pytest.approx(1.3 * plain)
    assert upper_face(Spot.FRIDGE, Lid.ON, learned, Case.SLOW).exchange_w_m2k == pytest.approx(1.04 * plain)


def test_the_greatest_depth_is_the_last_one_that_meets() -> None:
    question = stew(40, counter=5)
    for case in Case:
        depth = greatest_depth_mm(question, case)
        if depth is not None:
            fixed = replace(question, hot_kg=question.all_hot_kg)
            at, beyond = (
                replace(fixed, filled=replace(fixed.filled, depth_mm=mm)) for mm in (depth, depth + 1)
            )
            assert meets(at, case)
            assert not meets(beyond, case)
    assert greatest_depth_mm(question, Case.MIDDLE) is not None


def test_the_shortest_ice_bath_is_the_first_that_meets() -> None:
    question = stew(40)
    minutes = least_ice_bath_min(question, Case.MIDDLE)
    assert minutes is not None
    assert meets(stew(40, ice=minutes), Case.MIDDLE)
    assert not meets(stew(40, ice=minutes - 5), Case.MIDDLE)


def test_an_ice_bath_is_asked_for_after_the_counter_and_not_beyond_two_hours_out() -> None:
    assert least_ice_bath_min(stew(150, counter=110), Case.SLOW) is None


def test_fewer_at_once_is_proposed_where_much_food_is_what_stands_in_the_way() -> None:
    # 0.587 kg each: three are within the 2 kg that the fridge takes lightly, four are not.
    question = stew(24, counter=1, around=replace(COLD_FAN, fridge_c=1), start_c=57.2222, hot_kg=6)
    assert not meets(question, Case.SLOW)
    assert most_at_once(question, Case.SLOW) == 3
    assert Way.FEWER in {way.way for way in ways_out(question)}
    assert most_at_once(replace(question, hot_kg=1.0), Case.SLOW) is None


def test_each_way_out_does_what_it_says() -> None:
    question = stew(40, filled=FilledContainer(40, 180, 130, lid=Lid.ON), around=replace(KITCHEN, fridge_c=1))
    ways = ways_out(question)
    assert {way.way for way in ways} >= {Way.DEPTH, Way.ICE_BATH}
    for way in ways:
        if way.way is Way.DEPTH:
            changed = replace(question, filled=replace(question.filled, depth_mm=way.number))
            assert meets(replace(changed, hot_kg=question.all_hot_kg), way.case)


@pytest.mark.parametrize(
    ("steps", "message"),
    [
        ((), "ends in the fridge or the freezer"),
        ((Step(Spot.FRIDGE, 30),), "ends in the fridge or the freezer"),
        ((Step(Spot.COUNTER),), "ends in the fridge or the freezer"),
        ((Step(Spot.FREEZER), Step(Spot.FRIDGE)), "only the last step has no minutes"),
    ],
)
def test_a_plan_that_cannot_be_is_refused(steps: tuple[Step, ...], message: str) -> None:
    with pytest.raises(BadField, match=message):
        CoolingQuestion(FilledContainer(30), STEW, steps)


def test_numbers_out_of_range_are_refused_with_what_to_write() -> None:
    with pytest.raises(BadField, match="write 1 to 2000 mm"):
        FilledContainer(0)
    with pytest.raises(BadField, match="both, or neither"):
        FilledContainer(30, length_mm=100)
    with pytest.raises(BadField, match="write -5 to 15 °C"):
        Surroundings(fridge_c=30)
    with pytest.raises(BadField, match="more than 21 °C and at most 100 °C"):
        stew(30, start_c=20)
    with pytest.raises(BadField, match="has no end"):
        Step(Spot.FRIDGE, None, 5)


def test_a_hot_room_halves_the_time_that_food_may_stand_out() -> None:
    hot = forecast(stew(30, counter=90, around=replace(KITCHEN, room_c=34))).advice
    mild = forecast(stew(30, counter=90)).advice
    assert (hot.allowed.value, hot.in_time) == (60, False)
    assert (mild.allowed.value, mild.in_time) == (120, True)
