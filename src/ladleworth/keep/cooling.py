"""Will it be cold in time? A forecast from depth, lid, plan and kitchen, against the published limits of cooling.

The forecast plans; a thermometer in the thickest middle decides. It speaks of three outcomes and of no other: the limit
is met even in the slow corner; it is met in the middle case only, so measure; it is not met.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from enum import Enum

from ladleworth.errors import BadField
from ladleworth.facts.heat import heat_limit, limit_c
from ladleworth.facts.limits import HOT_DAY, limit, out_of_fridge
from ladleworth.facts.records import Figure
from ladleworth.keep.containers import FilledContainer, Step, check_steps, cooling_matter, stages_of
from ladleworth.keep.materials import Makeup, freezing_point_c
from ladleworth.keep.surroundings import Case, Spot, Surroundings, air_c

HOTTEST_START_C = 100.0


class Outcome(Enum):
    """What a forecast comes to. There is no fourth."""

    MEETS = "meets the limit even in the slow corner"
    MEASURE = "meets the limit in the middle case only"
    MISSES = "does not meet the limit"


@dataclass(frozen=True, slots=True)
class CoolingQuestion:
    """What is to cool.

    Parameters
    ----------
    filled, makeup
        The container and what the food is made of.
    steps
        Where it stands, in order; the last one, a fridge or freezer, has no end.
    around
        The kitchen.
    start_c
        How warm it is when the first step begins, °C.
    hot_kg
        How much hot food goes into the fridge at once, kg. None: the one container, where its mass is known.
    """

    filled: FilledContainer
    makeup: Makeup
    steps: tuple[Step, ...]
    around: Surroundings = field(default_factory=Surroundings)
    start_c: float = 57.2222
    hot_kg: float | None = None

    def __post_init__(self) -> None:
        check_steps(self.steps)
        if not limit_c("cooling, first limit") < self.start_c <= HOTTEST_START_C:
            raise BadField(
                f"the food starts at {self.start_c:g} °C; write more than 21 °C and at most {HOTTEST_START_C:g} °C"
            )
        if self.hot_kg is not None and self.hot_kg <= 0:
            raise BadField(f"hot_kg is {self.hot_kg}; write more than 0")

    @property
    def all_hot_kg(self) -> float | None:
        """How much hot food goes in at once; None where nobody knows."""
        return self.filled.mass_kg(self.makeup) if self.hot_kg is None else self.hot_kg


@dataclass(frozen=True, slots=True)
class Times:
    """Minutes in one case. The clock starts when the mean passes 135 °F and stops when the hottest point passes.

    Of two beginnings the slower is told: as the food really starts, and even at 135 °F at the start of the plan.

    Parameters
    ----------
    start_min
        When the mean passes 135 °F, from the start of the plan; 0 if it begins there.
    first_min, last_min
        From 135 °F to 70 °F and to 41 °F; None: never.
    second_min
        From 70 °F to 41 °F; None: never.
    freezes
        Whether its skin freezes on the way; then the skin is taken at the freezing point, which is slower than the truth.
    """

    start_min: float
    first_min: float | None
    last_min: float | None
    second_min: float | None
    freezes: bool


@dataclass(frozen=True, slots=True)
class LimitVerdict:
    """One published limit: its name, minutes allowed, minutes in both cases, the outcome, and where it stands."""

    name: str
    allowed: Figure
    slow_min: float | None
    middle_min: float | None
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class ConsumerAdvice:
    """What home advice asks, beside the retail limits: into the fridge in time, in shallow containers.

    `out_min` counts the plan's minutes before the first fridge or freezer; `depth_mm` is the food's.
    """

    out_min: int
    allowed: Figure
    in_time: bool
    depth_mm: float
    shallow: Figure
    is_shallow: bool


@dataclass(frozen=True, slots=True)
class CoolingForecast:
    """A forecast: times in both cases, a verdict for each limit, and the least of them as `outcome`.

    `as_written` is the outcome by the code's text (2 hours, and 6 hours in all); `outcome` asks the stricter reading
    (2 hours, then 4) as well. `heat_kj` is what has to leave one container's food from 135 to 41 °F (None: its mass
    is not known). `last_air_c` is the air around it in the end, in the slow corner.
    """

    question: CoolingQuestion
    slow: Times
    middle: Times
    limits: tuple[LimitVerdict, ...]
    outcome: Outcome
    as_written: Outcome
    advice: ConsumerAdvice
    mass_kg: float | None
    heat_kj: float | None
    last_air_c: float


FIRST, ALL, SECOND = "70 °F within 2 hours", "41 °F within 6 hours in all", "41 °F within 4 hours after 70 °F"
"""The two limits of the code's text, and what its stricter reading asks beside."""


def forecast(question: CoolingQuestion) -> CoolingForecast:
    """Forecast a cooling.

    Parameters
    ----------
    question
        What is to cool.

    Returns
    -------
    CoolingForecast
        With times in the slow corner and in the middle case.

    Source
    ------
    FDA Food Code 3-501.14 as adopted in Delaware (`food-code-cooling`); abstracts for the stricter reading
    (`cooling-abstracts`); consumer advice (`thawing-fact-sheet`, `shallow-column`).
    """
    slow, middle = times_of(question, Case.SLOW), times_of(question, Case.MIDDLE)
    rows = (
        _verdict(FIRST, "cooling, first limit within", slow.first_min, middle.first_min),
        _verdict(ALL, "cooling, all within", slow.last_min, middle.last_min),
        _verdict(SECOND, "cooling, second stage within", slow.second_min, middle.second_min),
    )
    mass = question.filled.mass_kg(question.makeup)
    matter = cooling_matter(question.makeup, Case.MIDDLE)
    span = limit_c("cooling starts") - limit_c("cooling, last limit")
    return CoolingForecast(
        question,
        slow,
        middle,
        rows,
        least(row.outcome for row in rows),
        least(row.outcome for row in rows[:2]),
        _advice(question),
        mass,
        None if mass is None else mass * matter.heat_capacity_j_kgk * span / 1000,
        air_c(question.steps[-1].spot, question.around, Case.SLOW),
    )


def least(outcomes: Iterable[Outcome]) -> Outcome:
    """Give the worst of some outcomes."""
    return max(outcomes, key=list(Outcome).index)


def times_of(question: CoolingQuestion, case: Case) -> Times:
    """Work out the times of one case: of two beginnings the slower.

    Parameters
    ----------
    question, case
        What is to cool, and at which end of the estimates.

    Returns
    -------
    Times
        In minutes.
    """
    told = times_from(question, case, question.start_c)
    if question.start_c <= limit_c("cooling starts"):
        return told
    even = times_from(question, case, limit_c("cooling starts"))
    return Times(
        told.start_min,
        _later(told.first_min, even.first_min),
        _later(told.last_min, even.last_min),
        _later(told.second_min, even.second_min),
        told.freezes or even.freezes,
    )


def times_from(question: CoolingQuestion, case: Case, start_c: float) -> Times:
    """Work out the times of one case from one beginning: even throughout, so warm at the start of the plan."""
    from ladleworth.keep.skin import follow_with_skin

    filled, makeup = question.filled, question.makeup
    body = filled.body(cooling_matter(makeup, case), case)
    stages = stages_of(filled, question.steps, question.around, case, question.all_hot_kg)
    course, freezes = follow_with_skin(body, stages, start_c, freezing_point_c(makeup))
    hot = course.when("mean", limit_c("cooling starts")) if start_c > limit_c("cooling starts") else 0.0
    first = course.when("hottest", limit_c("cooling, first limit"))
    last = course.when("hottest", limit_c("cooling, last limit"))
    start = 0.0 if hot is None else hot  # a fridge is always colder than 135 °F
    return Times(
        start / 60,
        None if first is None else max(0.0, first - start) / 60,
        None if last is None else max(0.0, last - start) / 60,
        None if first is None or last is None else (last - first) / 60,
        freezes,
    )


def _later(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else max(one, other)


def _verdict(name: str, limit_name: str, slow: float | None, middle: float | None) -> LimitVerdict:
    allowed = heat_limit(limit_name)
    if slow is not None and slow <= allowed.value:
        outcome = Outcome.MEETS
    elif middle is not None and middle <= allowed.value:
        outcome = Outcome.MEASURE
    else:
        outcome = Outcome.MISSES
    return LimitVerdict(name, allowed, slow, middle, outcome)


def _advice(question: CoolingQuestion) -> ConsumerAdvice:
    """Hold the plan against advice for homes; a room that is not measured is no hot day."""
    out = 0
    for step in question.steps:
        if step.spot in (Spot.FRIDGE, Spot.FREEZER):
            break
        out += step.minutes or 0
    room = question.around.room_c
    hot = room is not None and room > float(limit(HOT_DAY).value)
    allowed = out_of_fridge(limit(HOT_DAY).value + 1 if hot else None)
    shallow = heat_limit("shallow")
    depth = question.filled.depth_mm
    return ConsumerAdvice(
        out, allowed, out <= allowed.value, depth, shallow, depth <= float(shallow.value) * 25.4
    )


def plan_of(
    counter_min: int, ice_min: int = 0, stir_min: int = 5, then: Spot = Spot.FRIDGE
) -> tuple[Step, ...]:
    """Write a plain plan: some minutes on the counter, some in an ice bath with stirring, then the fridge for good."""
    steps: Sequence[Step] = (
        *((Step(Spot.COUNTER, counter_min),) if counter_min else ()),
        *((Step(Spot.ICE_BATH, ice_min, stir_min),) if ice_min else ()),
        Step(then),
    )
    return tuple(steps)
