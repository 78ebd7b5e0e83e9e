"""Cooling keeps its order: deeper, warmer around, less exchange or a lid is never quicker, whatever the stages."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from ladleworth.keep import (
    Case,
    CoolingQuestion,
    FilledContainer,
    Lid,
    Makeup,
    Outcome,
    Surroundings,
    forecast,
    plan_of,
)
from ladleworth.keep.bodies import FOREVER, Body, Face, Layer, Matter, Shape, Stage
from ladleworth.keep.cooling import Times, times_of
from ladleworth.keep.course import follow

SLACK_MIN = 0.05
FEW = settings(max_examples=40, deadline=None)

exchanges = st.floats(2, 300)
depths = st.floats(0.008, 0.12)
colds = st.floats(-5, 4)


@st.composite
def stages(draw: st.DrawFn) -> tuple[Stage, ...]:
    """One to three stages; food never meets air that is warmer than what it will pass."""
    first = [
        Stage(
            draw(st.floats(60, 7200)),
            (Face(draw(exchanges), draw(st.floats(0, 20))), Face(draw(exchanges), draw(st.floats(0, 20)))),
        )
        for _ in range(draw(st.integers(0, 2)))
    ]
    return (*first, Stage(FOREVER, (Face(draw(exchanges), draw(colds)), Face(draw(exchanges), draw(colds)))))


matters = st.builds(Matter, st.floats(0.3, 0.6), st.floats(800, 1150), st.floats(3000, 4100))


def minutes(matter: Matter, depth: float, told: tuple[Stage, ...], start: float = 80.0) -> float:
    seconds = follow(Body(Shape.SLAB, (Layer(matter, depth),)), told, start).when("hottest", 21.1111)
    assert seconds is not None
    return seconds / 60


@FEW
@given(matters, depths, st.floats(1.01, 2), stages())
def test_deeper_is_never_quicker(matter: Matter, depth: float, times: float, told: tuple[Stage, ...]) -> None:
    assert minutes(matter, depth * times, told) >= minutes(matter, depth, told) - SLACK_MIN


@FEW
@given(matters, depths, stages(), st.floats(0, 1))
def test_less_exchange_is_never_quicker(
    matter: Matter, depth: float, told: tuple[Stage, ...], share: float
) -> None:
    less = tuple(
        replace(
            stage,
            faces=tuple(
                Face(max(0.5, face.exchange_w_m2k * share), face.surroundings_c) for face in stage.faces
            ),
        )
        for stage in told
    )
    # of a face that is warmed by its surroundings less exchange is a gain: all are colder than 21.1 °C here
    assert minutes(matter, depth, less) >= minutes(matter, depth, told) - SLACK_MIN


@FEW
@given(matters, depths, stages(), st.floats(0, 10))
def test_warmer_surroundings_are_never_quicker(
    matter: Matter, depth: float, told: tuple[Stage, ...], more: float
) -> None:
    warmer = tuple(
        replace(
            stage,
            faces=tuple(Face(face.exchange_w_m2k, face.surroundings_c + more) for face in stage.faces),
        )
        for stage in told
    )
    assert minutes(matter, depth, warmer) >= minutes(matter, depth, told) - SLACK_MIN


@FEW
@given(matters, depths, stages(), st.floats(60, 95))
def test_nothing_is_hotter_than_it_began_or_colder_than_all_around(
    matter: Matter, depth: float, told: tuple[Stage, ...], start: float
) -> None:
    course = follow(Body(Shape.SLAB, (Layer(matter, depth),)), told, start)
    seen = course.seen
    around = [face.surroundings_c for stage in told for face in stage.faces]
    assert seen.hottest.max() <= start + 1e-6
    assert seen.coldest.min() >= min(around) - 1e-6
    assert (seen.coldest <= seen.mean + 1e-3).all()
    assert (seen.mean <= seen.hottest + 1e-3).all()


@FEW
@given(matters, depths, exchanges, exchanges, st.floats(30, 600))
def test_stirring_in_an_ice_bath_is_never_slower(
    matter: Matter, depth: float, top: float, bottom: float, every: float
) -> None:
    assume(bottom > top)  # the heat goes to the bath, and mixing brings more of it there
    still = (Stage(1800, (Face(top, 20), Face(bottom, 0.5))), Stage(FOREVER, (Face(5, 3), Face(5, 3))))
    stirred = (replace(still[0], stir_every_s=every), still[1])
    body = Body(Shape.SLAB, (Layer(matter, depth),))
    one, other = (float(follow(body, told, 80.0).at([1800.0]).mean[0]) for told in (stirred, still))
    assert one <= other + 0.3


@FEW
@given(matters, st.floats(0.02, 0.08), st.floats(0.05, 0.3), st.floats(0.05, 0.3), exchanges, colds)
def test_sides_never_make_it_slower(
    matter: Matter, depth: float, length: float, width: float, exchange: float, cold: float
) -> None:
    layers = (Layer(matter, depth),)
    face = Face(exchange, cold)
    plain = follow(Body(Shape.SLAB, layers), [Stage(FOREVER, (face, face))], 80.0)
    brick = follow(Body(Shape.BRICK, layers, length, width), [Stage(FOREVER, (face,) * 4)], 80.0)
    one, other = brick.when("hottest", 21.1111), plain.when("hottest", 21.1111)
    assert one is not None
    assert other is not None
    assert one <= other + 3


makeups = st.builds(
    lambda water, fat: Makeup(water, 0.1, fat, 0.9 - water - fat), st.floats(0.55, 0.8), st.floats(0, 0.1)
)


@st.composite
def questions(draw: st.DrawFn) -> CoolingQuestion:
    around = Surroundings(
        room_c=draw(st.floats(15, 30)), fridge_c=draw(st.floats(0, 4.5)), fan_fridge=draw(st.booleans())
    )
    lid = draw(st.sampled_from(Lid))
    sides = draw(st.booleans())
    box = FilledContainer(
        draw(st.floats(10, 80)), 180.0 if sides else None, 130.0 if sides else None, lid=lid
    )
    plan = plan_of(draw(st.integers(0, 60)), draw(st.sampled_from([0, 10, 30])))
    return CoolingQuestion(box, draw(makeups), plan, around, draw(st.floats(57.3, 95)))


def later(one: float | None, other: float | None) -> bool:
    """Whether one is as late as the other, or later; never is the latest."""
    return one is None or (other is not None and one >= other - SLACK_MIN)


def all_later(one: Times, other: Times) -> bool:
    return later(one.first_min, other.first_min) and later(one.last_min, other.last_min)


@settings(max_examples=25, deadline=None)
@given(questions())
def test_the_slow_corner_is_never_quicker_than_the_middle_case(question: CoolingQuestion) -> None:
    told = forecast(question)
    assert later(told.slow.last_min, told.middle.last_min)
    even = replace(question, start_c=57.2222)
    assert all_later(times_of(even, Case.SLOW), times_of(even, Case.MIDDLE))
    worst = max((limit.outcome for limit in told.limits), key=list(Outcome).index)
    assert told.outcome is worst


@settings(max_examples=15, deadline=None)
@given(questions(), st.floats(1, 30))
def test_more_depth_is_never_quicker_in_a_forecast(question: CoolingQuestion, more_mm: float) -> None:
    question = replace(question, hot_kg=1.0, start_c=57.2222)
    deeper = replace(question, filled=replace(question.filled, depth_mm=question.filled.depth_mm + more_mm))
    for case in Case:
        assert all_later(times_of(deeper, case), times_of(question, case))


@settings(max_examples=15, deadline=None)
@given(questions())
def test_a_warmer_fridge_is_never_quicker(question: CoolingQuestion) -> None:
    question = replace(question, start_c=57.2222)
    assert question.around.fridge_c is not None
    warmer = replace(question, around=replace(question.around, fridge_c=question.around.fridge_c + 0.5))
    for case in Case:
        assert all_later(times_of(warmer, case), times_of(question, case))
