"""Freezing, thawing and reheating: bounds in order, loads by the published rule, and what is refused."""

from __future__ import annotations

import pytest
from tests.unit.keep.boxes import KITCHEN, STEW

from ladleworth.errors import BadField, MissingFact
from ladleworth.facts import food_table
from ladleworth.keep import Case, FilledContainer, Makeup, Surroundings, makeup_of
from ladleworth.keep.bodies import FOREVER, Face
from ladleworth.keep.freezing import (
    freezer_load,
    freezing_forecast,
    freezing_matter,
    pham_seconds,
    staging_days,
    thawing_forecast,
)
from ladleworth.keep.frozen import follow_freezing, plain_stages
from ladleworth.keep.materials import freezable_share, freezing_point_c, ice_share, slow_matter
from ladleworth.keep.reheating import heat_of, reheating_times, what_a_range_does


def test_a_freezer_takes_two_to_three_pounds_a_cubic_foot_a_day() -> None:
    # Clemson Extension HGIC 3065, Freezing Prepared Foods (read): 2 to 3 lb for each cubic foot in 24 hours.
    load = freezer_load(28_317)  # a cubic foot is 28.317 l
    assert (load.least_g, load.most_g) == (907, 1360)
    assert load.source.source == "clemson-hgic-3065"
    assert staging_days(5400, 100_000) == 2
    assert staging_days(4800, 100_000) == 1
    with pytest.raises(BadField, match="more than 0"):
        freezer_load(0)


def test_ice_grows_as_it_gets_colder_and_none_is_above_the_point() -> None:
    assert ice_share(0.7, -1.0, 0.0) == ice_share(0.7, -1.0, -1.0) == 0
    assert ice_share(0.7, -1.0, -2.0) == pytest.approx(0.35)
    assert ice_share(0.7, -1.0, -18.0) == pytest.approx(0.7 * 17 / 18)
    assert freezable_share(STEW) == pytest.approx(0.75 - 0.4 * 0.10)


def test_salt_and_sugar_lower_the_freezing_point() -> None:
    # 1 % of salt: 2 x 10/58.44 mol in 0.71 kg of water x 1.86 K (all by definition or memory) = 0.90 K below -1 °C.
    assert freezing_point_c(STEW) == -1.0
    assert freezing_point_c(STEW, salt_share=0.01) == pytest.approx(-1.896, abs=0.001)
    assert freezing_point_c(STEW, sugar_share=0.05) < -1.0
    with pytest.raises(BadField, match="no water that can freeze"):
        freezing_point_c(Makeup(0.0, fat=1.0))


def test_pham_and_the_cells_agree_for_a_food_from_its_makeup() -> None:
    food = freezing_matter(STEW, Case.MIDDLE)
    pham = pham_seconds(food, 0.020, 8, -18, 5, -10)
    cells = follow_freezing(food, 0.040, [(FOREVER, (Face(8, -18), Face(8, -18)))], 5.0, 60)
    seconds = cells.when("hottest", -10)
    assert seconds is not None
    assert 1.0 <= pham / seconds <= 1.1


def test_freezing_and_thawing_are_slower_in_the_slow_corner_and_with_more_depth() -> None:
    shallow, deep = FilledContainer(25), FilledContainer(50)
    for told in (freezing_forecast, thawing_forecast):
        one, two = (
            told(box, STEW, KITCHEN, *([5.0] if told is freezing_forecast else [])) for box in (shallow, deep)
        )
        assert one.slow_h is not None
        assert one.middle_h is not None
        assert two.slow_h is not None
        assert two.middle_h is not None
        assert one.middle_h < one.slow_h < two.slow_h
        assert one.middle_h < two.middle_h


def test_what_never_freezes_hard_or_never_thaws_is_never() -> None:
    assert freezing_forecast(FilledContainer(25), STEW, Surroundings(freezer_c=-12), 5).slow_h is None
    assert thawing_forecast(FilledContainer(25), STEW, Surroundings(fridge_c=-3)).middle_h is None


def test_freezing_that_cannot_be_is_refused() -> None:
    food = freezing_matter(STEW, Case.MIDDLE)
    with pytest.raises(BadField, match="colder than the target"):
        pham_seconds(food, 0.02, 8, -8, 5, -10)
    with pytest.raises(BadField, match="warmer"):
        pham_seconds(food, 0.02, 8, -18, -5, -10)


def test_a_portion_takes_longer_from_frozen_and_in_a_weak_oven() -> None:
    chilled, frozen = reheating_times(STEW, 400, 800, 4), reheating_times(STEW, 400, 800, -18)
    assert chilled.fast_s < chilled.middle_s < chilled.slow_s
    # Published household experience has about twice as long from frozen; by energy 2.0 times.
    assert 1.8 < frozen.middle_s / chilled.middle_s < 2.3
    assert (frozen.is_frozen, chilled.is_frozen) == (True, False)
    assert reheating_times(STEW, 400, 400, 4).middle_s == pytest.approx(2 * chilled.middle_s)
    assert reheating_times(STEW, 400, 800, 4, steamed_share=0.02).heat_kj > chilled.heat_kj


def test_ninety_seconds_warm_about_a_small_portion() -> None:
    slow, quick = what_a_range_does(STEW, 800)
    food = freezing_matter(STEW, Case.MIDDLE)
    assert slow / 1000 * heat_of(food, 4, 73.8889) <= 800 * 0.50 * 90
    assert 100 < slow < quick < 300


@pytest.mark.parametrize(
    ("mass_g", "watts", "start_c", "message"),
    [
        (0, 800, 4, "more than 0"),
        (400, 20, 4, "rated output"),
        (400, 800, 80, "below 74 °C"),
    ],
)
def test_reheating_refuses_what_cannot_be(mass_g: float, watts: float, start_c: float, message: str) -> None:
    with pytest.raises(BadField, match=message):
        reheating_times(STEW, mass_g, watts, start_c)


def test_a_makeup_is_taken_from_the_food_table_with_fibre_out_of_carbohydrate() -> None:
    held = dict(food_table().composition("lentils").amounts)
    makeup = makeup_of(held)
    assert makeup.fibre == pytest.approx(float(held["fibre_g"]) / 100)
    assert makeup.carbohydrate + makeup.fibre == pytest.approx(float(held["carbohydrate_g"]) / 100)
    assert sum(makeup.shares().values()) == pytest.approx(1)
    with pytest.raises(MissingFact, match="nobody has fibre_g"):
        makeup_of({name: value for name, value in held.items() if name != "fibre_g"})
    with pytest.raises(BadField, match="make water, protein"):
        Makeup(0.5)


def test_air_in_the_food_makes_it_slower() -> None:
    light = Makeup(0.68, 0.03, 0.003, 0.28, 0.004, 0.003, air=0.2)
    dense = Makeup(0.68, 0.03, 0.003, 0.28, 0.004, 0.003)
    for name in ("conductivity_w_mk", "density_kg_m3"):
        ours, theirs = (getattr(slow_matter(one, 57, 5), name) for one in (light, dense))
        assert ours == pytest.approx(0.8 * theirs)


def test_ice_is_not_stirred() -> None:
    from ladleworth.keep.bodies import Stage

    with pytest.raises(BadField, match="not stirred"):
        plain_stages([Stage(600, (Face(8, -18),) * 2, 60)])
