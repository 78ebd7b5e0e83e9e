"""What a cooking day may have: how to see that it is there, and the same day without it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from ladleworth.cookday.question import NOTHING, DayQuestion, OvenHeat

ENOUGH = 9


@dataclass(frozen=True)
class DayFeature:
    """A rule or a figure of the question, and the same question without it."""

    name: str
    is_in: Callable[[DayQuestion], bool]
    without: Callable[[DayQuestion], DayQuestion]


def benched(question: DayQuestion, **fields: Any) -> DayQuestion:
    return replace(question, bench=replace(question.bench, **fields))


def ovened(question: DayQuestion, **fields: Any) -> DayQuestion:
    oven = question.bench.oven
    return question if oven is None else benched(question, oven=replace(oven, **fields))


def working(question: DayQuestion, **fields: Any) -> DayQuestion:
    """Change every activity; a field may be worked out from the activity."""
    return replace(question, activities=tuple(_changed(a, fields) for a in question.activities))


def lagging(question: DayQuestion, **fields: Any) -> DayQuestion:
    return replace(question, lags=tuple(_changed(lag, fields) for lag in question.lags))


def using(question: DayQuestion, **fields: Any) -> DayQuestion:
    return replace(question, uses=tuple(_changed(use, fields) for use in question.uses))


def _changed(record: Any, fields: dict[str, Any]) -> Any:
    return replace(record, **{k: v(record) if callable(v) else v for k, v in fields.items()})


def tooled(question: DayQuestion, **fields: Any) -> DayQuestion:
    return benched(question, tools=tuple(replace(tool, **fields) for tool in question.bench.tools))


def has_oven(question: DayQuestion) -> bool:
    return any(a.oven for a in question.activities)


def ended(question: DayQuestion) -> DayQuestion:
    """Let what is running have ended just now."""
    return replace(
        question,
        begun=tuple(replace(b, end=question.now if b.end is None else b.end) for b in question.begun),
    )


def exact(heat: OvenHeat | None) -> OvenHeat | None:
    return heat and replace(heat, tolerance_c=0)


FEATURES = (
    DayFeature(
        "hands",
        lambda q: any(a.hands for a in q.activities),
        lambda q: benched(q, cooks=ENOUGH),
    ),
    DayFeature(
        "work that takes two people",
        lambda q: any(a.hands > 1 for a in q.activities),
        lambda q: working(q, hands=lambda a: min(1, a.hands)),
    ),
    DayFeature(
        "a second cook",
        lambda q: q.bench.cooks > 1 and all(a.hands < 2 for a in q.activities),
        lambda q: benched(q, cooks=1),
    ),
    DayFeature(
        "burners",
        lambda q: sum(a.burners for a in q.activities) > q.bench.burners,
        lambda q: benched(q, burners=ENOUGH),
    ),
    DayFeature(
        "microwaves",
        lambda q: sum(a.microwaves for a in q.activities) > 1,
        lambda q: benched(q, microwaves=ENOUGH),
    ),
    DayFeature(
        "room on the counter",
        lambda q: q.bench.counter is not None and sum(a.counter for a in q.activities) > q.bench.counter,
        lambda q: benched(q, counter=None),
    ),
    DayFeature(
        "shelves",
        lambda q: sum(a.oven is not None for a in q.activities) > 1,
        lambda q: ovened(q, shelves=ENOUGH),
    ),
    DayFeature("heating the oven", has_oven, lambda q: ovened(q, heating_min_per_10c=Fraction(0))),
    DayFeature(
        "cooling the oven",
        lambda q: sum(a.oven is not None for a in q.activities) > 1,
        lambda q: ovened(q, cooling_min_per_10c=Fraction(0)),
    ),
    DayFeature(
        "a tolerance of the oven's heat",
        lambda q: any(a.oven and a.oven.tolerance_c for a in q.activities),
        lambda q: working(q, oven=lambda a: exact(a.oven)),
    ),
    DayFeature("tools", lambda q: bool(q.uses), lambda q: tooled(q, count=ENOUGH)),
    DayFeature(
        "washes",
        lambda q: len(q.uses) > 1 and any(tool.wash_min for tool in q.bench.tools),
        lambda q: using(q, leaves=NOTHING),
    ),
    DayFeature(
        "what may follow without a wash",
        lambda q: any(one.leaves in other.takes for one in q.uses for other in q.uses if one is not other),
        lambda q: using(q, takes=()),
    ),
    DayFeature(
        "what leaves nothing on a tool",
        lambda q: len(q.uses) > 1 and any(use.leaves == NOTHING for use in q.uses),
        lambda q: using(q, leaves=lambda use: "dirt" if use.leaves == NOTHING else use.leaves),
    ),
    DayFeature("mergings", lambda q: bool(q.mergings), lambda q: replace(q, mergings=())),
    DayFeature(
        "waiting of an open length",
        lambda q: any(a.least_min < a.most_min for a in q.activities),
        lambda q: working(q, most_min=lambda a: a.least_min),
    ),
    DayFeature(
        "least lags",
        lambda q: any(lag.least > 0 for lag in q.lags),
        lambda q: lagging(q, least=lambda lag: min(0, lag.least)),
    ),
    DayFeature(
        "greatest lags",
        lambda q: any(lag.most is not None for lag in q.lags),
        lambda q: lagging(q, most=None),
    ),
    *(
        DayFeature(
            f"lags from {'end' if ends[0] else 'start'} to {'end' if ends[1] else 'start'}",
            lambda q, ends=ends: any((lag.first_end, lag.second_end) == ends for lag in q.lags),
            lambda q, ends=ends: replace(
                q, lags=tuple(lag for lag in q.lags if (lag.first_end, lag.second_end) != ends)
            ),
        )
        for ends in ((True, False), (False, False), (False, True), (True, True))
    ),
    DayFeature(
        "a slower cook",
        lambda q: q.slower > 1,
        lambda q: replace(q, slower=Fraction(1)),
    ),
    DayFeature("a deadline", lambda q: q.deadline is not None, lambda q: replace(q, deadline=None)),
    DayFeature("what has begun", lambda q: bool(q.begun), lambda q: replace(q, begun=())),
    DayFeature("what is running", lambda q: any(b.end is None for b in q.begun), ended),
    DayFeature("what is warm", lambda q: any(a.warm for a in q.activities), lambda q: working(q, warm=False)),
)
