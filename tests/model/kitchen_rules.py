"""Every rule and feature of the question by name: whether a week has it, and the week without it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from ladleworth.decide.question import (
    Additions,
    CookSession,
    DishChoice,
    HouseRules,
    PortionLot,
    Question,
    Version,
)
from ladleworth.decide.rules import MustBuy, MustCook, MustNotCook, MustServe, MustUse, NutrientBound, Wish

Without = Callable[[Question], Question]


@dataclass(frozen=True, slots=True)
class Feature:
    """A rule of the question: a week has it if the week without it is another one."""

    name: str
    without: Without

    def is_in(self, question: Question) -> bool:
        return self.without(question) != question


def _rules(fields: dict[str, object], question: Question) -> Question:
    return replace(question, rules=replace(question.rules, **fields))  # type: ignore[arg-type]


def _additions(fields: dict[str, object], question: Question) -> Question:
    return replace(question, additions=replace(question.additions, **fields))  # type: ignore[arg-type]


def _sessions(change: Callable[[CookSession], CookSession], question: Question) -> Question:
    return replace(question, sessions=tuple(change(s) for s in question.sessions))


def _dishes(change: Callable[[DishChoice], DishChoice], question: Question) -> Question:
    return replace(question, dishes=tuple(change(d) for d in question.dishes))


def _versions(change: Callable[[Version], Version], question: Question) -> Question:
    return _dishes(lambda d: replace(d, versions=tuple(change(v) for v in d.versions)), question)


def _portions(change: Callable[[PortionLot], PortionLot], question: Question) -> Question:
    return replace(question, portions=tuple(change(lot) for lot in question.portions))


def _wishes(drop: Callable[[Question, Wish], bool], question: Question) -> Question:
    return replace(question, wishes=tuple(w for w in question.wishes if not drop(question, w)))


def _bounds(change: Callable[[NutrientBound], NutrientBound], question: Question) -> Question:
    return _rules({"nutrient_bounds": tuple(change(b) for b in question.rules.nutrient_bounds)}, question)


def _of_portions(question: Question, wish: Wish) -> bool:
    names = {lot.name for lot in question.portions}
    dishes = {lot.dish for lot in question.portions} - {d.name for d in question.dishes}
    return (isinstance(wish, MustUse) and wish.lot in names) or (
        isinstance(wish, MustServe) and wish.dish in dishes
    )


def _nothing_on_hand(question: Question) -> Question:
    return replace(_wishes(_of_portions, question), portions=())


def _figures_given(question: Question) -> Question:
    """Give a figure within the bound wherever one is missing."""
    middle = {
        b.nutrient: next((x for x in (b.least, b.most) if x is not None), Fraction(0))
        for b in question.rules.nutrient_bounds
    }
    given = _versions(lambda v: replace(v, nutrients={**middle, **v.nutrients}), question)
    return _portions(lambda lot: replace(lot, nutrients={**middle, **lot.nutrients}), given)


def _nothing_brought(question: Question) -> Question:
    return _rules(
        {"nutrient_bounds": tuple(b for b in question.rules.nutrient_bounds if not b.share)}, question
    )


def _shares_by_appetite(question: Question) -> Question:
    """Count what a helping brings by its size, where the eater has an appetite."""
    there = set(question.appetites)
    return _bounds(lambda b: replace(b, share=False) if b.share and b.eater in there else b, question)


def _features() -> tuple[Feature, ...]:
    off = HouseRules()
    plain = Additions()
    found = [
        *(
            Feature(name, partial(_rules, {name: getattr(off, name)}))
            for name in (
                *("containers", "freezer_places", "budget_cents", "most_times", "span_days"),
                *("freezing_load", "container_sizes", "fridge_ml", "freezer_ml"),
            )
        ),
        Feature("in_a_row", partial(_rules, {"in_a_row": None})),
        Feature("meal_out_cents", partial(_rules, {"meal_out_cents": None})),
        *(
            Feature(name, partial(_additions, {name: getattr(plain, name)}))
            for name in ("repeat_cents", "minute_cents", "reserve_portions", "carried_share")
        ),
        Feature("minutes", partial(_sessions, lambda s: replace(s, minutes=10**6))),
        Feature("stations", partial(_sessions, lambda s: replace(s, stations={}))),
        Feature("session cents", partial(_sessions, lambda s: replace(s, cents=0))),
        Feature("least", partial(_dishes, lambda d: replace(d, least=1))),
        Feature("greatest", partial(_dishes, lambda d: replace(d, greatest=10))),
        Feature("keep_days", partial(_dishes, lambda d: replace(d, keep_days=10))),
        Feature("freezer_days", partial(_dishes, lambda d: replace(d, freezer_days=None))),
        Feature("meals", partial(_dishes, lambda d: replace(d, meals=None))),
        Feature("most_versions", partial(_dishes, lambda d: replace(d, most_versions=1))),
        Feature("shared_min", partial(_dishes, lambda d: replace(d, shared_min=Fraction(0)))),
        Feature("barred", partial(_versions, lambda v: replace(v, barred=frozenset()))),
        Feature("liking", partial(_versions, lambda v: replace(v, liking_cents=Fraction(0)))),
        Feature("appetites", lambda q: replace(q, appetites={})),
        Feature("offer most", lambda q: replace(q, offers=tuple(replace(o, most=None) for o in q.offers))),
        Feature("trips", lambda q: replace(q, shops=tuple(replace(s, trip_cents=0) for s in q.shops))),
        Feature("food keeps", lambda q: replace(q, foods=tuple(replace(f, keep_days=None) for f in q.foods))),
        Feature("lot keeps", lambda q: replace(q, lots=tuple(replace(x, last_day=None) for x in q.lots))),
        Feature("portions on hand", _nothing_on_hand),
        Feature("portions frozen", partial(_portions, lambda p: replace(p, frozen=False))),
        Feature("portions thawing", partial(_portions, lambda p: replace(p, first_day=1))),
        Feature("portions keep", partial(_portions, lambda p: replace(p, last_day=None))),
        Feature("portions barred", partial(_portions, lambda p: replace(p, barred=frozenset()))),
        Feature("portions meals", partial(_portions, lambda p: replace(p, meals=None))),
        Feature("nutrient least", partial(_bounds, lambda b: replace(b, least=None))),
        Feature("nutrient most", partial(_bounds, lambda b: replace(b, most=None))),
        Feature("figure missing", _figures_given),
        Feature("share", _nothing_brought),
        Feature("share whatever the appetite", _shares_by_appetite),
    ]
    kinds: dict[str, Callable[[Question, Wish], bool]] = {
        "must cook": lambda _, w: isinstance(w, MustCook),
        "must not cook": lambda _, w: isinstance(w, MustNotCook),
        "must use food": lambda q, w: isinstance(w, MustUse) and any(x.name == w.lot for x in q.lots),
        "must use portions": lambda q, w: isinstance(w, MustUse) and any(x.name == w.lot for x in q.portions),
        "must serve": lambda _, w: isinstance(w, MustServe) and w.dish is not None,
        "must eat out": lambda _, w: isinstance(w, MustServe) and w.dish is None,
        "must buy": lambda _, w: isinstance(w, MustBuy),
    }
    found += [Feature(name, partial(_wishes, drop)) for name, drop in kinds.items()]
    return tuple(found)


FEATURES = _features()
"""Every rule that a week may have, each by itself."""
