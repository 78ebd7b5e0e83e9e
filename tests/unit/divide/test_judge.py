"""The judge sees every breach that is planted in an answer, and none in an answer that stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.unit.divide.batches import BOXES, STEW, asked

from ladleworth.divide import Dealt, Divided, Fit, Known, Reading, divide
from ladleworth.divide.judge import breaches, judged
from ladleworth.errors import JudgeRefused

HALF = Fraction(1, 2)
QUESTION = asked(
    STEW, [1, 1, 1, 1, 1, HALF, HALF], readings=(Reading(("beef", "sauce"), 1_400_000),), containers=BOXES
)
ANSWER = divide(QUESTION)


def on(name: str, change: Callable[[Dealt], Dealt]) -> Divided:
    dealt = tuple(change(one) if one.heap.name == name else one for one in ANSWER.dealt)
    assert dealt != ANSWER.dealt
    return replace(ANSWER, dealt=dealt)


def moved(mg: int, one: int, other: int) -> Callable[[Dealt], Dealt]:
    """Take so much from one portion and give it to another."""

    def change(dealt: Dealt) -> Dealt:
        shares = [*dealt.shares_mg]
        shares[one] -= mg
        shares[other] += mg
        return replace(dealt, shares_mg=tuple(shares))

    return change


def fit(**change: object) -> Divided:
    assert ANSWER.fit is not None
    return replace(ANSWER, fit=replace(ANSWER.fit, **change))  # type: ignore[arg-type]


def filled() -> Fit:
    assert ANSWER.fit is not None
    return ANSWER.fit


def test_an_answer_stands() -> None:
    assert list(breaches(QUESTION, ANSWER)) == []
    assert judged(QUESTION, ANSWER) is ANSWER


PLANTED = {
    "a gram is lost": (
        lambda: on("rice", lambda one: replace(one, shares_mg=(one.shares_mg[0] - 1000, *one.shares_mg[1:]))),
        "the shares come to",
    ),
    "two equal portions differ": (lambda: on("rice", moved(1000, 0, 1)), "differ by more than a gram"),
    "the small portion gets the larger share": (
        lambda: on("rice", moved(150_000, 3, 5)),
        "a larger portion gets less",
    ),
    "a piece is lost": (
        lambda: on("bread", lambda one: replace(one, pieces=(Fraction(0), *one.pieces[1:]))),
        "pieces, and there are 7",
    ),
    "a reading is not what is dealt out": (
        lambda: on("beef and sauce", lambda one: replace(one, heap=replace(one.heap, total_mg=1_300_000))),
        "the scale says 1400000",
    ),
    "a reading does not count": (
        lambda: on("beef and sauce", lambda one: replace(one, heap=replace(one.heap, known=Known.RECKONED))),
        "the reading does not count",
    ),
    "a pot's parts do not add up": (
        lambda: on("beef and sauce", lambda one: replace(one, heap=replace(one.heap, within=(("beef", 1),)))),
        "its parts do not add up",
    ),
    "a part is not dealt out": (lambda: replace(ANSWER, dealt=ANSWER.dealt[1:]), "the parts dealt out are"),
    "shares without a weight": (
        lambda: on("rice", lambda one: replace(one, heap=replace(one.heap, total_mg=None))),
        "None mg are there",
    ),
    "more solids than both": (
        lambda: replace(
            ANSWER, phases=replace(ANSWER.phases, solids_mg=(10**9, *ANSWER.phases.solids_mg[1:]))
        ),  # type: ignore[union-attr, type-var]
        "more solids than solids and sauce",
    ),
    "sauce is lost": (
        lambda: replace(ANSWER, phases=replace(ANSWER.phases, total_mg=(10**9, *ANSWER.phases.total_mg[1:]))),  # type: ignore[union-attr, type-var]
        "solids and sauce come to",
    ),
    "a container overflows": (
        lambda: replace(ANSWER, volumes_ml=(5000, *ANSWER.volumes_ml[1:])),
        "portion 1 fills 5000 ml",
    ),
    "a container is used twice over": (
        lambda: fit(
            filled=tuple(replace(one, container=replace(BOXES[2], count=1)) for one in filled().filled)
        ),
        "5 more containers of 1000 ml are used than are clean",
    ),
    "a portion is forgotten": (lambda: fit(filled=filled().filled[1:]), "and [0, 1, 2, 3, 4, 5, 6] are kept"),
    "a reason for nothing": (lambda: fit(reasons=("too few",)), "has no container and no reason"),
    "a label is missing": (lambda: replace(ANSWER, labels=ANSWER.labels[1:]), "the labels are not those"),
    "two codes are alike": (
        lambda: replace(
            ANSWER, labels=tuple(replace(one, code=ANSWER.labels[0].code) for one in ANSWER.labels)
        ),
        "two containers have one code",
    ),
    "a code has a slip": (
        lambda: replace(ANSWER, labels=(replace(ANSWER.labels[0], code="1206A9-P"), *ANSWER.labels[1:])),
        "does not belong to the rest",
    ),
    "a label does not add up": (
        lambda: replace(ANSWER, labels=(replace(ANSWER.labels[0], total_mg=1), *ANSWER.labels[1:])),
        "what is in it does not come to 1 mg",
    ),
}


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_breach_is_seen_and_refused(name: str) -> None:
    make, words = PLANTED[name]
    found = list(breaches(QUESTION, make()))
    assert any(words in breach for breach in found), found
    with pytest.raises(JudgeRefused):
        judged(QUESTION, make())


def test_a_share_that_is_off_though_it_adds_up_is_seen() -> None:
    found = list(breaches(QUESTION, on("rice", moved(50_000, 0, 5))))
    assert any("off its share" in breach for breach in found)
